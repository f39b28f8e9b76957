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
SANS_STACK: Final = f'"{SANS}", "Segoe UI", "Helvetica Neue", Arial, sans-serif'
"""Families in the order of choice, for pictures that leave this machine."""

_MISSING: Final = "□"
_JOINER: Final = "\u200d"
_FLAGS: Final = ("\U0001f1e6", "\U0001f1ff")
"""Letters that make a flag two by two."""
_SKINS: Final = "\U0001f3fb\U0001f3fc\U0001f3fd\U0001f3fe\U0001f3ff"
"""Colours of skin, which change the picture before them."""
_SIGNS: Final = (0x2600, 0x27BF)
"""Small pictures from before there were so many."""
_PICTURES_FROM: Final = 0x1F000

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


@cache
def _plain() -> frozenset[str]:
    """Characters that are set as they stand, whatever stands beside them."""
    covered = {"\n", *map(chr, _covered())}
    return frozenset(
        one
        for one in covered
        if not (_is_picture(one) or one in _SKINS or _FLAGS[0] <= one <= _FLAGS[1])
    )


def settable(text: str, *, pictures: bool = True) -> str:
    """A text as it can be set in our type.

    A small picture becomes its name in brackets, and any other character that our type does not
    have an empty square.

    Parameters
    ----------
    text
        What somebody wrote, in whatever script [text].
    pictures
        False to leave small pictures out, where their names would have no room [truth].

    Returns
    -------
    str
        The text as it can be printed; marks without a letter of their own are left out.

    Examples
    --------
    >>> settable("Ωδή 庭 🌹")
    'Ωδή □ [rose]'
    """
    text = unicodedata.normalize("NFC", text)
    if _plain().issuperset(text):  # nearly every text of a letter, many times over
        return text
    kept = []
    for character in _drawn_once(text):
        if ord(character) in _covered() or character == "\n":
            kept.append(character)
        elif unicodedata.category(character) == "Zs":
            kept.append(" ")
        elif _is_picture(character):
            kept.append(_named(character) if pictures else "")
        elif unicodedata.category(character)[0] not in "MC":
            kept.append(_MISSING)
    return "".join(kept)


def unsettable(text: str) -> tuple[str, ...]:
    """The characters of a text that are printed as an empty square, each once."""
    return tuple(dict.fromkeys(c for c in text if settable(c) == _MISSING != c))


def runs_from_the_right(text: str) -> bool:
    """True where the first letter of a text belongs to a script written from the right."""
    kinds = (unicodedata.bidirectional(character) for character in text)
    return next((kind for kind in kinds if kind in ("L", "R", "AL")), "L") != "L"


def _drawn_once(text: str) -> Iterator[str]:
    """The characters of a text; of a picture made of several, such as a flag, only the first."""
    before = flag = ""
    for character in text:
        if _FLAGS[0] <= character <= _FLAGS[1]:
            flag = "" if flag else character
            if flag:
                yield character
        elif character in _SKINS:
            continue
        elif not _is_picture(character) or before != _JOINER:
            flag = ""
            yield character
        before = character


def _is_picture(character: str) -> bool:
    code, kind = ord(character), unicodedata.category(character)
    drawn = code >= _PICTURES_FROM or _SIGNS[0] <= code <= _SIGNS[1]
    return drawn and kind in ("So", "Cn")


def _named(character: str) -> str:
    """``[rose]``: what a small picture shows; flags by what they are."""
    if _FLAGS[0] <= character <= _FLAGS[1]:
        return "[flag]"
    return f"[{unicodedata.name(character, 'emoji').lower()}]"


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
