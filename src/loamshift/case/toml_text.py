"""From bytes on disk to a plain TOML tree, with guards that answer at once."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path
from typing import Any

from loamshift.case.mend import Mend, fault_of, plain_figure, quoted, shown
from loamshift.domain.message import Given, Message, message
from loamshift.errors import CaseError

LARGEST_BYTES = 1_000_000
_DEEPEST = 8
_MOST_DOTS = 40
_TOO_DEEP = (message("toml-brackets-too-deep"), message("toml-two-levels"))


def read_text(path: Path) -> str:
    """The text of a case file, read no further than its size limit.

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
        raise _file_error(source, message("file-missing"), message("file-check-or-new")) from None
    except IsADirectoryError:
        raise _file_error(
            source, message("file-is-folder"), message("file-inside-folder")
        ) from None
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        wrong = message("file-unreadable", why=Given(reason))
        raise _file_error(source, wrong, message("file-who-may-read")) from None
    if size > LARGEST_BYTES:
        raise _too_large(size, source)
    return decode(data, source=source)


def decode(data: bytes, *, source: str) -> str:
    """Bytes as text, where they are the text of a case file.

    Raises
    ------
    CaseError
        Where the bytes are binary or not UTF-8.
    """
    mend = message("file-save-as-utf8")
    if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
        raise _file_error(source, message("file-utf16"), mend)
    if b"\x00" in data:
        raise _file_error(source, message("file-binary"), message("file-name-case-file"))
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        raise _file_error(source, message("file-line-not-utf8", line=line), mend) from None


def _too_large(size: int, source: str) -> CaseError:
    megabytes = Given(plain_figure(size / 1e6))
    return _file_error(
        source, message("file-too-large", megabytes=megabytes), message("file-name-itself")
    )


def _file_error(source: str, wrong: Message, right: Message) -> CaseError:
    return CaseError([fault_of("file", None, wrong, right)], source=source)


def parse_toml(text: str, *, source: str) -> dict[str, Any]:
    """The tree of a case file's text.

    Raises
    ------
    CaseError
        Where the text is empty, too long, nested too deeply or not TOML; the line is named.
    """
    if len(text) > LARGEST_BYTES:
        raise _too_large(len(text), source)
    if "\x00" in text:
        raise _file_error(source, message("file-binary"), message("file-name-case-file"))
    if not text.strip():
        raise _file_error(source, message("file-empty"), message("file-start-with-case"))
    deep = _deep_line(text)
    if deep:
        nested = Mend(message("toml-keys-too-deep"), message("toml-use-headers"))
        raise _line_error(source, deep, text.splitlines()[deep - 1], nested)
    try:
        tree = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise _toml_error(source, text, str(error)) from None
    except RecursionError:
        raise _file_error(source, *_TOO_DEEP) from None
    except ValueError as error:  # impossible dates, integers of thousands of digits
        wrong = message("toml-value-unreadable", why=quoted(error))
        raise _file_error(source, wrong, message("toml-check-dates")) from None
    if _depth_over(tree, _DEEPEST):
        raise _file_error(source, *_TOO_DEEP)
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


def _toml_error(source: str, text: str, reported: str) -> CaseError:
    from loamshift.case.toml_line import line_mend

    found = re.search(r"\(at line (\d+), column (\d+)\)", reported)
    line = int(found[1]) if found else len(text.rstrip().splitlines())  # else at the very end
    plain = re.sub(r"\s*\(at .*\)$", "", reported)
    lines = text.splitlines()
    written = lines[line - 1] if 0 < line <= len(lines) else ""
    return _line_error(source, line, written, line_mend(plain, written, before=lines[: line - 1]))


def _line_error(source: str, line: int, written: str, mend: Mend) -> CaseError:
    fault = fault_of(f"line {line}", shown(written.strip()), mend.wrong, *mend.right)
    return CaseError([fault], source=source)
