"""A claim checked, as a page: acid brought beside acid needed, on one scale."""

from __future__ import annotations

from typing import Final

from loamshift.domain.answer import ClaimResult
from loamshift.domain.case import Case
from loamshift.domain.letter import Align, Block, Column, Items, Letter, Paragraph, Section, Table
from loamshift.domain.message import Given, Product, Worded, message, rate
from loamshift.report.letter_claims import (
    brings_of,
    claim_place,
    reading_words,
    tells_the_ph,
    worth,
)
from loamshift.report.letter_words import sentence
from loamshift.report.messages import say
from loamshift.report.words import Words

_BAR_WIDTH: Final = 30


def claim_letter(
    claim: ClaimResult, case: Case, *, rate_g_m2: float, notes: tuple[Worded, ...], words: Words
) -> Letter:
    """A checked claim as a letter.

    Parameters
    ----------
    rate_g_m2
        The material at the rate it makes on this bed [g/m2].
    """
    blocks: list[Block] = [
        Paragraph(sentence(claim.comment, words)),
        _bars(claim, claim_place(case), words),
    ]
    reading = "" if tells_the_ph(claim.comment) else say(reading_words(claim), words)
    items = tuple(text for text in (reading, *(sentence(note, words) for note in notes)) if text)
    if items:
        blocks.append(Items(items))
    title = message("claim-material", material=Product(claim.material))
    return Letter(say(title, words), _rate(rate_g_m2, words), (Section(None, tuple(blocks)),))


def _rate(rate_g_m2: float, words: Words) -> str:
    if words.units == "metric":
        return words.rate(rate_g_m2)
    metric = Given(Words(words.spelling, "metric").rate(rate_g_m2))
    return say(message("claim-both-rates", rate=rate(rate_g_m2), metric=metric), words)


def _bars(claim: ClaimResult, place: str, words: Words) -> Table:
    """Two bars on one scale; base is told as lime, not as less acid."""
    pairs = (
        (message("claim-row-adds"), claim.acid_brought_mmolc_m2),
        (message("claim-row-needs", place=place), claim.acid_needed_mmolc_m2),
    )
    longest = max(abs(value) for _, value in pairs) or 1.0
    rows = tuple(
        (
            say(name, words),
            say(message("claim-worth", brings=brings_of(value), amount=worth(value)), words),
            "█" * round(_BAR_WIDTH * abs(value) / longest) or "·",
        )
        for name, value in pairs
    )
    return Table(
        (
            Column(say(message("claim-column-what"), words)),
            Column(say(message("claim-column-worth"), words), Align.RIGHT),
            Column(say(message("claim-column-bar"), words)),
        ),
        rows,
    )
