"""A card as a tagged PDF of exactly one sheet, set in our own type."""

from __future__ import annotations

import json
from bisect import bisect_left
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
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
    with typesetting():
        return set_pdf(_source(_fitted(card, paper, words), paper, words), day=card.day)


@typesetting()
def fitted(card: Card, *, paper: PaperSize, words: Words) -> Fitted:
    """A card as it fits on one sheet of a paper for a reader.

    Raises
    ------
    ValueError
        Where nothing makes it fit: a title or a sentence longer than a sheet.
    """
    return _fitted(card, paper, words)


@lru_cache(maxsize=16)
def _fitted(card: Card, paper: PaperSize, words: Words) -> Fitted:
    """The same, inside the typesetting of whoever asks."""

    def is_one_sheet(fit: Fitted) -> bool:
        return _sheets(fit, paper, words) == 1

    for cut in shorter(card):
        by_size = [Fitted(cut, *size, lines=0) for size in reversed(SIZES)]
        if not is_one_sheet(by_size[0]):
            continue
        chosen = _last(by_size, is_one_sheet)
        if not _has_log(cut):
            return chosen
        return _last([replace(chosen, lines=n) for n in range(MOST_LINES + 1)], is_one_sheet)
    raise ValueError(f"the card {card.title!r} does not fit on a sheet however it is cut")


def _last(fits: Sequence[Fitted], holds: Callable[[Fitted], bool]) -> Fitted:
    """The last one that fits, of some that take ever more room and the first of which fits."""
    beyond = bisect_left(fits, True, lo=1, key=lambda fit: not holds(fit))
    return fits[beyond - 1]


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
