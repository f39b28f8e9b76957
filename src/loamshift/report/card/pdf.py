"""A card as a tagged PDF of exactly one sheet, set in our own type."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache, lru_cache
from importlib import resources
from typing import Any, Final

from loamshift.domain.card import Card
from loamshift.report.card.data import card_data, card_pictures
from loamshift.report.card.shorter import shorter
from loamshift.report.html import LANGUAGES
from loamshift.report.pdf import PaperSize, document_title
from loamshift.report.typesetting import extent, set_pdf, typesetting
from loamshift.report.words import Words

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

    Notes
    -----
    The card is set whole, as large as it can be on one sheet; where even the smallest size that
    reads at arm's length is too large, it is cut and says where the rest stands.
    """
    found = fitted(card, paper=paper, words=words)
    with typesetting():
        return set_pdf(_source(found, paper, words), day=card.day)


@lru_cache(maxsize=16)
@typesetting()
def fitted(card: Card, *, paper: PaperSize, words: Words) -> Fitted:
    """A card as it fits on one sheet of a paper for a reader.

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
    return extent(_source(fit, paper, words), height_pt=paper.height_pt).sheets


def _source(fit: Fitted, paper: PaperSize, words: Words) -> dict[str, bytes]:
    """The template and what it reads, by name."""
    language, region = LANGUAGES[words.spelling].split("-")
    how: Mapping[str, Any] = {
        "size": fit.size_pt,
        "gaps": fit.gaps,
        "more_lines": fit.lines,
        "paper": paper.value,
        "lang": language,
        "region": region,
        "document": document_title(fit.card.title, day=fit.card.day, words=words),
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
