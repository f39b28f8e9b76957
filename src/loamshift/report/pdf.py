"""A letter as a tagged PDF on one or two sheets, set in our own type."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from datetime import date
from enum import StrEnum
from importlib import resources
from typing import Final

from loamshift.domain.letter import Letter
from loamshift.report.html import LANGUAGES
from loamshift.report.inline import bare
from loamshift.report.pdf_data import letter_data, pictures
from loamshift.report.typesetting import Extent, extent, forget, set_pdf, typesetting
from loamshift.report.words import Words

Way = Mapping[str, float | bool]
"""Size of the type of the front sheet, and whether room is short."""

SETTINGS: Final[tuple[Way, ...]] = (
    {"size": 11.5, "tight": False},
    {"size": 10.5, "tight": False},
    {"size": 9.5, "tight": False},
    {"size": 9.5, "tight": True},
)
"""Ways to set the front sheet, the one liked best first; no type is smaller than 9 points."""
SHORTER: Final = (1.0, 0.91, 0.83, 0.0)
"""What is left of a front sheet's length in each setting, at least for most letters [ratio]."""


class PaperSize(StrEnum):
    """The sheet a letter is printed on, by the name typst knows it."""

    A4 = "a4"
    LETTER = "us-letter"

    @property
    def height_pt(self) -> float:
        """How tall the sheet is [pt]."""
        return 841.9 if self is PaperSize.A4 else 792.0


def letter_pdf(letter: Letter, *, paper: PaperSize, words: Words) -> bytes:
    """A letter on paper.

    Notes
    -----
    The front sheet is set as large as it can be on one side; the working follows on sheets of its
    own. Only our own type is used, whatever the machine has.
    """
    files: dict[str, bytes] = {
        "main.typ": resources.files("loamshift.report").joinpath("letter.typ").read_bytes(),
        **pictures(letter),
    }
    language, region = LANGUAGES[words.spelling].split("-")
    data = letter_data(letter, words=words)
    data |= {"paper": paper.value, "lang": language, "region": region}
    data["document"] = document_title(letter.title, day=letter.day, words=words)

    def sheets(way: Way) -> dict[str, bytes]:
        return files | {"letter.json": json.dumps({**data, **way}).encode("utf-8")}

    def measured(way: Way) -> Extent:
        forget()
        return extent(sheets(way), height_pt=paper.height_pt, label="front")

    with typesetting():
        way = way_for(measured) if letter.front else SETTINGS[0]
        return set_pdf(sheets(way), day=letter.day)


def document_title(title: str, *, day: date | None, words: Words) -> str:
    """What a reader of PDF shows above the sheets, in any script.

    Parameters
    ----------
    day
        The day it is of, or None.

    Returns
    -------
    str
        The title with the day, by which letters of one bed are told apart.
    """
    named = bare(title)
    return named if day is None else f"{named}, {words.date(day)}"


def way_for(measured: Callable[[Way], Extent]) -> Way:
    """The largest way to set a front sheet on one side of paper.

    Returns
    -------
    Way
        Setting; the one that takes least room where none holds.

    Notes
    -----
    At most two tries: the first, set large, mostly holds. Where it does not, it says how much too
    long it is, and from that follows the largest setting that may hold; where that one fails the
    last is taken.
    """
    found = measured(SETTINGS[0])
    if found.sheets == 1:
        return SETTINGS[0]
    place = next(n for n, left in enumerate(SHORTER) if left * found.length <= 1.0)
    if place == len(SETTINGS) - 1 or measured(SETTINGS[place]).sheets == 1:
        return SETTINGS[place]
    return SETTINGS[-1]
