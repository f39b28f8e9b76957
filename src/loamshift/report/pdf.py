"""A letter as a tagged PDF on one or two sheets, set in our own type."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from datetime import UTC, datetime
from enum import StrEnum
from functools import cache
from importlib import resources
from typing import TYPE_CHECKING, Any, Final

from loamshift.domain.letter import Letter
from loamshift.report.html import LANGUAGES
from loamshift.report.pdf_data import letter_data, pictures
from loamshift.report.typeface import type_folder
from loamshift.report.words import Words

if TYPE_CHECKING:
    from typst import Fonts

SETTINGS: Final[tuple[Mapping[str, float | bool], ...]] = tuple(
    dict(zip(("size", "captions", "spares", "tight", "pictures_last"), way, strict=True))
    for way in (
        (10.5, True, True, False, False),
        (10.0, True, True, False, False),
        (9.5, True, True, False, False),
        (9.5, False, True, True, False),
        (9.5, False, False, True, False),
        (9.5, False, False, True, True),
    )
)
"""Ways to set the letter, the one liked best first; the last takes the least room."""
TIGHT: Final = 4
"""The first setting that hardly ever takes more sheets than the last."""
FILLED: Final[Mapping[str, bool]] = {"fill": True, "aside_beside": True}
IN_COLUMN: Final[Mapping[str, bool]] = {"fill": False, "aside_beside": True}
"""Whether what is left of the letter fills the margin, or stays in the column: a short letter may
fit on one sheet so."""
STANDARD: Final = "ua-1"
"""Tagged, titled and with its language: what a screen reader needs."""


Way = Mapping[str, float | bool]
"""Size of the type, what is left out, and where the rest stands."""


class PaperSize(StrEnum):
    """The sheet a letter is printed on, by the name typst knows it."""

    A4 = "a4"
    LETTER = "us-letter"


def letter_pdf(letter: Letter, *, paper: PaperSize, words: Words) -> bytes:
    """A letter on paper.

    Parameters
    ----------
    letter
        What to print [object].
    paper
        The sheet [enumeration].
    words
        Spelling of the reader, which is the language of the document [object].

    Returns
    -------
    bytes
        A tagged PDF; the same letter gives the same bytes on any day [bytes].

    Notes
    -----
    The letter is set as large as it can be without taking one sheet more than it needs at the
    smallest size. Only our own type is used, whatever the machine has.
    """
    import typst

    files: dict[str, bytes] = {
        "main.typ": resources.files("loamshift.report").joinpath("letter.typ").read_bytes(),
        **pictures(letter),
    }
    language, region = LANGUAGES[words.spelling].split("-")
    data = letter_data(letter) | {"paper": paper.value, "lang": language, "region": region}
    fonts = _fonts()

    def sheets(way: Way) -> dict[str, bytes]:
        return files | {"letter.json": json.dumps({**data, **way}).encode("utf-8")}

    def count(way: Way) -> int:
        found = typst.query(
            _source(sheets(way)), "<pages>", field="value", one=True,
            font_paths=fonts, ignore_system_fonts=True,
        )  # fmt: skip
        return int(json.loads(found))

    chosen = way_for(count)
    made = typst.compile(
        _source(sheets(chosen)), font_paths=fonts, ignore_system_fonts=True, format="pdf",
        pdf_standards=STANDARD, timestamp=_stamp(letter),
    )  # fmt: skip
    assert isinstance(made, bytes)
    return made


def way_for(count: Callable[[Way], int]) -> Way:
    """The largest way to set a letter that takes no sheet more than it needs.

    Parameters
    ----------
    count
        How many sheets the letter takes set one way [function].

    Returns
    -------
    Way
        Setting and place [object].

    Notes
    -----
    Sheets fall from setting to setting, so that halving finds the largest; five tries at most.
    """
    least: Way = {**SETTINGS[TIGHT], **FILLED}
    fewest = count(least)
    if fewest > 2:
        last: Way = {**SETTINGS[-1], **FILLED}
        if (sheets := count(last)) < fewest:
            least, fewest = last, sheets
    elif fewest > 1 and count(aside := {**SETTINGS[TIGHT], **IN_COLUMN}) == 1:
        return aside
    low, high = 0, TIGHT
    while low < high:
        middle = (low + high) // 2
        if count({**SETTINGS[middle], **FILLED}) <= fewest:
            high = middle
        else:
            low = middle + 1
    return least if low == TIGHT else {**SETTINGS[low], **FILLED}


def _source(files: dict[str, bytes]) -> Any:
    """Files in memory; the type hints of the wheel do not know that they may be given so."""
    return files


def _stamp(letter: Letter) -> datetime:
    """The moment written into the document: noon of the letter's day, so that it never varies."""
    day = letter.day
    if day is None:
        return datetime(2000, 1, 1, 12, tzinfo=UTC)
    return datetime(day.year, day.month, day.day, 12, tzinfo=UTC)


@cache
def _fonts() -> Fonts:
    import typst

    with type_folder() as folder:
        return typst.Fonts(
            include_system_fonts=False, include_embedded_fonts=False, font_paths=[folder]
        )
