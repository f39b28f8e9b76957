"""Running a command line to its exit code: 0 answered, 1 to mend, 2 usage, 3 our fault."""

from __future__ import annotations

import os
import sys
import traceback
from collections.abc import Sequence
from typing import Final

from loamshift.cli.streams import NO_ROOM, drop_output, prepare_streams
from loamshift.errors import InputError, LoamshiftError

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
        Everything after the program's name [text].

    Returns
    -------
    int
        The exit code: 0 answered (also with "don't"), 1 the user can mend it, 2 wrong usage,
        3 our fault, 130 interrupted [code].

    Notes
    -----
    Results go to stdout, everything else to stderr. A reader that closes the pipe early ends
    the run quietly.
    """
    prepare_streams()
    try:
        code = _call(arguments)
        sys.stdout.flush()
        return code
    except BrokenPipeError:
        drop_output()
        return ANSWERED
    except KeyboardInterrupt:
        _say("Stopped; nothing was left half-written.")
        return INTERRUPTED
    except InputError as error:
        from loamshift.report.messages.refusal import refusal
        from loamshift.report.words import Words

        _say(refusal(error, Words()))
        return TO_MEND
    except OSError as error:
        if error.errno not in NO_ROOM:
            return _our_fault(error)
        drop_output()
        _say(
            f"There is no room to write: {error.strerror}. What was printed is not whole; make "
            "room and run it again."
        )
        return TO_MEND
    except Exception as error:
        return _our_fault(error)


def _call(arguments: Sequence[str]) -> int:
    from loamshift.cli.app import app

    try:
        app(args=list(arguments), prog_name="loamshift", standalone_mode=True)
    except SystemExit as end:
        if _was_interrupted(end):
            raise KeyboardInterrupt from None
        return end.code if isinstance(end.code, int) else (ANSWERED if end.code is None else 1)
    return ANSWERED


def _was_interrupted(end: BaseException | None) -> bool:
    """True where an interrupt ended the command, and the command itself said nothing of it."""
    while end is not None and not isinstance(end, KeyboardInterrupt):
        end = end.__context__
    return end is not None


def _our_fault(error: Exception) -> int:
    kind = "a shipped table" if isinstance(error, LoamshiftError) else "the program"
    _say(
        f"This is our fault, not yours: {kind} failed with {type(error).__name__}: {error}\n"
        "Please report it with the command you typed and the case file. Set "
        f"{TRACEBACK_SWITCH}=1 and run it again to see where it happened."
    )
    if os.environ.get(TRACEBACK_SWITCH) == "1":
        traceback.print_exception(error, file=sys.stderr)
    return OUR_FAULT


def _say(message: str) -> None:
    try:
        sys.stderr.write(_readable(message.rstrip("\n")) + "\n")
        sys.stderr.flush()
    except (OSError, ValueError):
        drop_output()


def _readable(message: str) -> str:
    """Lines wrapped for a person at a terminal; a program reading stderr gets them whole."""
    if not sys.stderr.isatty():
        return message
    import shutil
    import textwrap

    width = min(shutil.get_terminal_size().columns, 88)
    lines = []
    for line in message.split("\n"):
        lead = " " * (len(line) - len(line.lstrip()))
        lines.append(textwrap.fill(line, width, subsequent_indent=lead + "  ") if line else "")
    return "\n".join(lines)
