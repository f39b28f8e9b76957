"""From bytes on disk to a plain TOML tree, with guards that answer at once."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path
from typing import Any

from loamshift.case.mend import plain_figure, shown
from loamshift.case.reads import year_first
from loamshift.errors import CaseError, Fault

LARGEST_BYTES = 1_000_000
_DEEPEST = 8
_MOST_DOTS = 40


def read_text(path: Path) -> str:
    """The text of a case file, read no further than its size limit.

    Parameters
    ----------
    path
        The file [path].

    Returns
    -------
    str
        Its text [text].

    Raises
    ------
    CaseError
        Where it is missing, a folder, unreadable, too large, binary or not UTF-8.
    """
    source = str(path)
    try:
        with path.open("rb") as handle:
            data = handle.read(LARGEST_BYTES + 1)
            size = max(len(data), path.stat().st_size) if len(data) > LARGEST_BYTES else len(data)
    except FileNotFoundError:
        mend = "Check the name and the folder; `loamshift new` writes a first case file."
        raise _file_error(source, "no such file", mend) from None
    except IsADirectoryError:
        raise _file_error(source, "this is a folder", "Name the case file inside it.") from None
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        problem = f"it cannot be read ({reason})"
        raise _file_error(source, problem, "Check the name and who may read it.") from None
    if size > LARGEST_BYTES:
        raise _too_large(size, source)
    return decode(data, source=source)


def decode(data: bytes, *, source: str) -> str:
    """Bytes as text, where they are the text of a case file.

    Parameters
    ----------
    data
        What the file holds [bytes].
    source
        Name of the file for messages [text].

    Returns
    -------
    str
        The text, without a byte-order mark [text].

    Raises
    ------
    CaseError
        Where the bytes are binary or not UTF-8.
    """
    mend = "Save it as plain text in UTF-8."
    if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
        raise _file_error(source, "it is saved as UTF-16", mend)
    if b"\x00" in data:
        raise _file_error(source, "it is binary, not text", "Name the case file (TOML text).")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        problem = f"a character on line {line} is not UTF-8"
        raise _file_error(source, problem, mend) from None


def _too_large(size: int, source: str) -> CaseError:
    return _file_error(
        source,
        f"it has {plain_figure(size / 1e6)} MB; a case file has a few kilobytes",
        "Name the case file itself; at most 1 MB is read.",
    )


def _file_error(source: str, problem: str, mend: str) -> CaseError:
    return CaseError([Fault("file", "", problem, mend)], source=source)


def parse_toml(text: str, *, source: str) -> dict[str, Any]:
    """The tree of a case file's text.

    Parameters
    ----------
    text
        TOML text [text].
    source
        Name of the file for messages [text].

    Returns
    -------
    dict
        Tables, lists, numbers, dates and texts.

    Raises
    ------
    CaseError
        Where the text is empty, too long, nested too deeply or not TOML; the line is named.
    """
    if len(text) > LARGEST_BYTES:
        raise _too_large(len(text), source)
    if "\x00" in text:
        raise _file_error(source, "it is binary, not text", "Name the case file (TOML text).")
    if not text.strip():
        mend = "Start with case = 1; `loamshift new` writes a first case file."
        raise _file_error(source, "it is empty", mend)
    deep = _deep_line(text)
    if deep:
        raise _line_error(source, text, deep, "keys nested far too deeply", "Use [table] headers.")
    try:
        tree = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise _toml_error(source, text, str(error)) from None
    except RecursionError:
        problem = "brackets nested far too deeply"
        raise _file_error(source, problem, "A case file needs two levels.") from None
    except ValueError as error:  # impossible dates, integers of thousands of digits
        problem = f"a value cannot be read ({shown(error)})"
        raise _file_error(source, problem, "Check dates and long numbers.") from None
    if _depth_over(tree, _DEEPEST):
        problem = "brackets nested far too deeply"
        raise _file_error(source, problem, "A case file needs two levels.")
    return tree


def _deep_line(text: str) -> int:
    """The first line whose dotted keys would nest without end; 0 where there is none."""
    for number, line in enumerate(text.splitlines(), start=1):
        if line.count(".") <= _MOST_DOTS:
            continue
        bare = re.sub(r'"[^"]*"|\'[^\']*\'', "q", line)
        if any(part.count(".") > _MOST_DOTS for part in re.split(r"[^\w.\- \t]", bare)):
            return number
    return 0


def _depth_over(tree: object, limit: int) -> bool:
    level = [tree]
    for _ in range(limit):
        level = [
            child
            for node in level
            if isinstance(node, (dict, list))
            for child in (node.values() if isinstance(node, dict) else node)
            if isinstance(child, (dict, list))
        ]
        if not level:
            return False
    return True


def _toml_error(source: str, text: str, message: str) -> CaseError:
    found = re.search(r"\(at line (\d+), column (\d+)\)", message)
    line = int(found[1]) if found else len(text.rstrip().splitlines())  # else at the very end
    plain = re.sub(r"\s*\(at .*\)$", "", message)
    written = _line_of(text, line)
    problem, mend = _toml_words(plain, written)
    return _line_error(source, text, line, problem, mend)


def _line_error(source: str, text: str, line: int, problem: str, mend: str) -> CaseError:
    fault = Fault(f"line {line}", shown(_line_of(text, line).strip()), problem, mend)
    return CaseError([fault], source=source)


def _line_of(text: str, line: int) -> str:
    lines = text.splitlines()
    return lines[line - 1] if 0 < line <= len(lines) else ""


def _toml_words(message: str, written: str) -> tuple[str, str]:
    """What went wrong in the words of the person who typed it, and the mend."""
    key, _, value = written.partition("=")
    key, value = key.strip(), value.split("#")[0].strip()
    if message.startswith(("Cannot overwrite a value", "Duplicate inline table key")):
        return f"“{shown(key)}” appears twice", "Keep one of them."
    twice = re.match(r"Cannot declare \((.*?),?\) twice", message)
    if twice:
        name = twice[1].replace("', '", ".").strip("'")
        return (
            f"the table [{name}] appears twice",
            f"Put its keys together under one [{name}]; lists of entries use [[{name}]].",
        )
    if message.startswith(("Cannot mutate immutable namespace", "Cannot redefine namespace")):
        return "a table or list is opened in two ways", "Use [[name]] for each entry of a list."
    if message.startswith("Expected '=' after a key"):
        return "not of the form key = value", "Write key = value; a comment starts with #."
    if message.startswith(("Unescaped '\\'", "Illegal character", "Unterminated string")):
        return "a text is not closed, or holds a backslash", "Put it in plain quotes on one line."
    if re.match(r"\d{4}-\d{1,2}-\d{1,2}\b", value):
        return "no such day", "Write year-month-day with two digits each, such as 2026-04-12."
    day = year_first(value)
    if day is not None:
        return "a date written in another order", day
    if value.startswith("="):
        return "two equals signs", f"Write {shown(key)} = {shown(value.lstrip('= '))}."
    wants_quotes = value and not value.startswith(('"', "'", "[", "{"))
    if wants_quotes and message.startswith(("Invalid value", "Expected newline or end")):
        if re.fullmatch(r"[+-]?\d+,\d+", value):
            return "a decimal comma in a bare number", f"Write {key} = {value.replace(',', '.')}."
        return (
            "text must be in quotation marks",
            f'Write {shown(key)} = "{shown(value)}".',
        )
    return f"not TOML: {message[:1].lower()}{message[1:]}", "Write key = value, text in quotes."
