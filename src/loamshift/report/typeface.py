"""Our own type: where its files are, for the page, for print and for charts."""

from __future__ import annotations

import base64
import unicodedata
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from functools import cache
from importlib import resources
from typing import Final

from loamshift.report import type as type_files

SERIF: Final = "Loam Serif"
"""What is read."""
SANS: Final = "Loam Sans"
"""Labels and tables; its figures are all of one width."""

SERIF_STACK: Final = f'"{SERIF}", Charter, "Iowan Old Style", Palatino, Georgia, serif'
SANS_STACK: Final = f'"{SANS}", "Segoe UI", "Helvetica Neue", Arial, sans-serif'
"""Families in the order of choice, for pages and pictures that leave this machine."""

PAGE_FACES: Final = (
    ("LoamSerif-Regular", SERIF, 400),
    ("LoamSerif-Bold", SERIF, 700),
    ("LoamSans-Regular", SANS, 400),
    ("LoamSans-Bold", SANS, 700),
)
"""File, family and weight of each face a page carries with it."""


@contextmanager
def type_folder() -> Iterator[str]:
    """The folder of the TrueType files, for as long as it is needed."""
    with ExitStack() as stack:
        yield str(stack.enter_context(resources.as_file(resources.files(type_files))))


@cache
def _covered() -> frozenset[int]:
    lines = resources.files(type_files).joinpath("coverage.txt").read_text(encoding="ascii")
    runs = [[int(code, 16) for code in line.split()] for line in lines.splitlines()]
    return frozenset(code for first, last in runs for code in range(first, last + 1))


def settable(text: str) -> str:
    """A text with an empty square for every character that our type does not have.

    Returns
    -------
    str
        The text as it can be printed; marks without a letter of their own are left out.

    Examples
    --------
    >>> settable("Ωδή 庭")
    'Ωδή □'
    """
    have = _covered()
    kept = []
    for character in unicodedata.normalize("NFC", text):
        if ord(character) in have or character == "\n":
            kept.append(character)
        elif unicodedata.category(character) == "Zs":
            kept.append(" ")
        elif unicodedata.category(character)[0] not in "MC":
            kept.append("□")
    return "".join(kept)


@cache
def font_faces_css() -> str:
    """The ``@font-face`` rules of a page, its files inside as data."""
    rules = []
    for stem, family, weight in PAGE_FACES:
        data = resources.files(type_files).joinpath(f"{stem}.woff2").read_bytes()
        rules.append(
            f'@font-face{{font-family:"{family}";font-weight:{weight};font-style:normal;'
            "font-display:swap;src:url(data:font/woff2;base64,"
            f'{base64.b64encode(data).decode("ascii")}) format("woff2")}}'
        )
    return "\n".join(rules)
