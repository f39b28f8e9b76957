"""A card as a tagged PDF of exactly one sheet, set in our own type."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from functools import cache, lru_cache
from importlib import resources
from typing import TYPE_CHECKING, Any, Final

from loamshift.domain.card import Card
from loamshift.report.card.data import card_data, card_pictures
from loamshift.report.card.shorter import shorter
from loamshift.report.html import LANGUAGES
from loamshift.report.pdf import STANDARD, PaperSize
from loamshift.report.typeface import type_folder
from loamshift.report.words import Words

if TYPE_CHECKING:
    from typst import Fonts

SIZES: Final = (
    (16.0, 1.2),
    (14.5, 1.15),
    (13.5, 1.1),
    (12.5, 1.0),
    (12.0, 1.0),
    (11.5, 1.0),
    (11.0, 1.0),
    (10.5, 1.0),
    (10.5, 0.72),
)
"""Size of what is read [pt] and the share of the usual gaps, the largest first."""
MOST_LINES: Final = 14
"""Lines to write on that a card is filled up with, at most."""


@dataclass(frozen=True, slots=True)
class Fitted:
    """A card as it fits on one sheet: how much of it, and how it is set."""

    card: Card
    size_pt: float
    gaps: float
    lines: int
    """Lines of an empty table beyond its fewest."""


def card_pdf(card: Card, *, paper: PaperSize, words: Words) -> bytes:
    """A card on paper.

    Parameters
    ----------
    card
        What to print [object].
    paper
        The sheet [enumeration].
    words
        Spelling of the reader, which is the language of the document [object].

    Returns
    -------
    bytes
        A tagged PDF of one sheet; the same card gives the same bytes on any day [bytes].

    Notes
    -----
    The card is set whole, as large as it can be on one sheet; where even the smallest size that
    reads at arm's length is too large, it is cut and says where the rest stands.
    """
    import typst

    found = fitted(card, paper=paper, words=words)
    made = typst.compile(
        _source(found, paper, words), font_paths=_fonts(), ignore_system_fonts=True, format="pdf",
        pdf_standards=STANDARD, timestamp=_stamp(card),
    )  # fmt: skip
    assert isinstance(made, bytes)
    return made


@lru_cache(maxsize=16)
def fitted(card: Card, *, paper: PaperSize, words: Words) -> Fitted:
    """A card [object] as it fits on one sheet of a paper [enumeration] for a reader [object].

    Raises
    ------
    ValueError
        Where nothing makes it fit: a title or a sentence longer than a sheet.
    """
    for cut in shorter(card):
        least = Fitted(cut, *SIZES[-1], lines=0)
        if _sheets(least, paper, words) > 1:
            continue
        chosen = next(
            fit
            for size in SIZES
            if (fit := Fitted(cut, *size, lines=0)) == least or _sheets(fit, paper, words) == 1
        )
        for lines in range(MOST_LINES, 0, -1):
            more = Fitted(cut, chosen.size_pt, chosen.gaps, lines)
            if _has_log(cut) and _sheets(more, paper, words) == 1:
                return more
        return chosen
    raise ValueError(f"the card {card.title!r} does not fit on a sheet however it is cut")


def _has_log(card: Card) -> bool:
    from loamshift.domain.card import Log

    return any(isinstance(block, Log) for row in card.rows for p in row for block in p.blocks)


def _sheets(fit: Fitted, paper: PaperSize, words: Words) -> int:
    import typst

    found = typst.query(
        _source(fit, paper, words), "<pages>", field="value", one=True,
        font_paths=_fonts(), ignore_system_fonts=True,
    )  # fmt: skip
    return int(json.loads(found))


def _source(fit: Fitted, paper: PaperSize, words: Words) -> Any:
    """Files in memory; the type hints of the wheel do not know that they may be given so."""
    language, region = LANGUAGES[words.spelling].split("-")
    how: Mapping[str, Any] = {
        "size": fit.size_pt,
        "gaps": fit.gaps,
        "more_lines": fit.lines,
        "paper": paper.value,
        "lang": language,
        "region": region,
    }
    return {
        "main.typ": _template(),
        "card.json": json.dumps({**card_data(fit.card), **how}).encode("utf-8"),
        **_pictures(fit.card),
    }


@cache
def _template() -> bytes:
    return resources.files("loamshift.report").joinpath("card.typ").read_bytes()


@lru_cache(maxsize=16)
def _pictures(card: Card) -> dict[str, bytes]:
    return card_pictures(card)


def _stamp(card: Card) -> datetime:
    """Noon of the card's day, so that the document never varies."""
    day = card.day
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
