"""Running a command line to its exit code: 0 answered, 1 to mend, 2 usage, 3 our fault."""

from __future__ import annotations

import os
import sys
import traceback
from collections.abc import Sequence
from itertools import pairwise
from typing import TYPE_CHECKING, Any, Final

from loamshift.cli.error_json import (
    AS_JSON,
    asks_for_json,
    error_plain,
    fault_of_text,
    one_line,
    plain,
)
from loamshift.cli.streams import NO_NAME, NO_ROOM, drop_output, prepare_streams
from loamshift.domain.message import Given, Message, message
from loamshift.domain.worded_error import WordedError, plainly
from loamshift.errors import InputError, LoamshiftError

if TYPE_CHECKING:
    from loamshift.report.words import Words

ANSWERED: Final = 0
TO_MEND: Final = 1
WRONG_USAGE: Final = 2
OUR_FAULT: Final = 3
INTERRUPTED: Final = 130

TRACEBACK_SWITCH: Final = "LOAMSHIFT_TRACEBACK"


def run(arguments: Sequence[str]) -> int:
    """Run one command line.

    Parameters
    ----------
    arguments
        Everything after the program's name.

    Notes
    -----
    Results go to stdout, everything else to stderr. A reader that closes the pipe early ends
    the run quietly.
    """
    prepare_streams()
    streams = sys.stdout, sys.stderr
    asked = AS_JSON.set(asks_for_json(list(arguments)))
    try:
        return _ended(arguments)
    finally:
        AS_JSON.reset(asked)
        sys.stdout, sys.stderr = streams


def _ended(arguments: Sequence[str]) -> int:
    """The exit code of a command line; what ended it early is said."""
    try:
        code = _call(arguments)
        sys.stdout.flush()
        return code
    except BrokenPipeError:
        drop_output()
        return ANSWERED
    except KeyboardInterrupt:
        _tell("interrupted", INTERRUPTED, _worded(message("cli-interrupted")))
        return INTERRUPTED
    except InputError as error:
        return _to_mend(error, _reader(arguments, error))
    except OSError as error:
        if error.errno in NO_NAME and error.filename:
            why = {"path": Given(str(error.filename)), "why": Given(str(error.strerror))}
            return _to_mend(
                WordedError(message("cli-cannot-read", **why)), _reader(arguments, error)
            )
        if error.errno not in NO_ROOM:
            return _our_fault(error)
        drop_output()
        text = _worded(message("cli-no-room", why=Given(str(error.strerror))))
        _tell("no-room", TO_MEND, text)
        return TO_MEND
    except Exception as error:
        if hasattr(error, "format_message"):
            return _misused(error)
        from loamshift.report.missing_extra import missing_extra

        missing = missing_extra(error)
        if missing is None:
            return _our_fault(error)
        return _to_mend(missing, _reader(arguments, missing))


def _to_mend(error: InputError, reader: Words) -> int:
    if AS_JSON.get():
        _say(one_line(error_plain(error, reader, kind="input", code=TO_MEND)))
    else:
        from loamshift.report.messages.refusal import refusal

        _say(refusal(error, reader))
    return TO_MEND


def _misused(error: Any) -> int:
    """The library of the command line could not read it: its words, with the usage above."""
    if not AS_JSON.get():
        error.show()
        return WRONG_USAGE
    hint = getattr(error, "param_hint", None) or getattr(error, "option_name", None)
    param = getattr(error, "param", None)
    if hint is None and param is not None:
        hint = param.opts[0] if param.opts[0].startswith("-") else param.metavar
    fault = fault_of_text(error.format_message(), path=str(hint or ""))
    _say(one_line(plain("usage", code=WRONG_USAGE, faults=[fault])))
    return WRONG_USAGE


def _tell(kind: str, code: int, text: str) -> None:
    """Say what ended a command early, as text or as JSON."""
    _say(one_line(plain(kind, code=code, faults=[fault_of_text(text)])) if AS_JSON.get() else text)


def _reader(arguments: Sequence[str], error: Exception) -> Words:
    """Who is told of an error: by what stood on the command line, else in the file."""
    from loamshift.cli.show import words_for

    asked = " ".join(arguments).replace("=", " ").split()
    on_line = [after for word, after in pairwise(asked) if word == "--units"]
    units = on_line[-1] if on_line else getattr(error, "units", "")
    fallback = "us" if units == "us" else "metric"
    try:
        return words_for(None, None, fallback=fallback)
    except WordedError:  # this very error may be about the words
        return words_for(None, None, fallback=fallback, spelling="uk")


def _call(arguments: Sequence[str]) -> int:
    import typer

    from loamshift.cli.commands import command_line
    from loamshift.cli.help_text import help_spelling, say_help_in
    from loamshift.cli.show import words_for

    try:
        command = typer.main.get_command(command_line(arguments))
        if help_spelling(arguments) != "uk" and _asks_for_help(arguments):
            say_help_in(command, words_for(None, None, spelling=help_spelling(arguments)))
        code = command(args=list(arguments), prog_name="loamshift", standalone_mode=False)
    except typer.Abort:
        raise KeyboardInterrupt from None
    except SystemExit as end:
        if isinstance(end.__context__, BrokenPipeError):
            raise end.__context__ from None
        return end.code if isinstance(end.code, int) else (ANSWERED if end.code is None else 1)
    if code == INTERRUPTED:  # what the library makes of an interrupt that nobody told of
        raise KeyboardInterrupt
    return code if isinstance(code, int) else ANSWERED


def _asks_for_help(arguments: Sequence[str]) -> bool:
    return not arguments or any(word in ("-h", "--help") for word in arguments)


def _our_fault(error: Exception) -> int:
    failed = message(
        "cli-our-fault",
        what="tables" if isinstance(error, LoamshiftError) else "program",
        error=Given(type(error).__name__),
        text=Given(str(error)),
    )
    report = message("cli-report-it", variable=Given(TRACEBACK_SWITCH))
    if AS_JSON.get():
        fault = fault_of_text(" ".join(_worded_or_plain(one) for one in (failed, report)))
        _say(one_line(plain("program", code=OUR_FAULT, faults=[fault])))
    else:
        _say("\n".join(_worded_or_plain(one) for one in (failed, report)))
    if os.environ.get(TRACEBACK_SWITCH) == "1":
        traceback.print_exception(error, file=sys.stderr)
    return OUR_FAULT


def _worded(said: Message) -> str:
    from loamshift.cli.show import worded

    return worded(said)


def _worded_or_plain(said: Message) -> str:
    """A message, by its key and values where the message files themselves are broken."""
    try:
        return _worded(said)
    except Exception:
        return plainly(said)


def _say(text: str) -> None:
    try:
        sys.stderr.write(_readable(text.rstrip("\n")) + "\n")
        sys.stderr.flush()
    except (OSError, ValueError):
        drop_output()


def _readable(text: str) -> str:
    """Lines wrapped for a person at a terminal; a program reading stderr gets them whole."""
    if not sys.stderr.isatty() or AS_JSON.get():
        return text
    import shutil
    import textwrap

    width = min(shutil.get_terminal_size().columns, 88)
    lines = []
    for line in text.split("\n"):
        lead = " " * (len(line) - len(line.lstrip()))
        lines.append(textwrap.fill(line, width, subsequent_indent=lead + "  ") if line else "")
    return "\n".join(lines)
