"""A text as TOML has it, in quotation marks."""

from __future__ import annotations

from typing import Final

_ESCAPES: Final = {'"': '\\"', "\\": "\\\\", "\n": "\\n", "\t": "\\t", "\r": "\\r"}


def toml_string(text: str) -> str:
    """A text in quotation marks, so that TOML reads the same.

    >>> toml_string('the "north" bed')
    '"the \\\\"north\\\\" bed"'
    """
    return '"' + "".join(_ESCAPES.get(c, c if c.isprintable() else _escaped(c)) for c in text) + '"'


def _escaped(char: str) -> str:
    code = ord(char)
    return f"\\u{code:04x}" if code < 0x10000 else f"\\U{code:08x}"
