"""A claim settled, as a page: acid brought beside acid needed, on one scale."""

from __future__ import annotations

from loamshift.domain.answer import ClaimResult
from loamshift.domain.digits import sensible
from loamshift.domain.letter import Align, Block, Column, Items, Letter, Paragraph, Section, Table
from loamshift.report.letter_claims import reading_words, tells_the_ph
from loamshift.report.letter_words import material_called, sentence
from loamshift.report.words import Words

_BAR_WIDTH = 30


def claim_letter(
    claim: ClaimResult, *, rate_g_m2: float, notes: tuple[str, ...], words: Words
) -> Letter:
    """A settled claim as a letter.

    Parameters
    ----------
    claim
        What the service found [object].
    rate_g_m2
        The material at the rate it makes on this bed [g/m2].
    notes
        What the reading of the amount gave cause to say [text].
    words
        Spelling and units [object].

    Returns
    -------
    Letter
        The page [object].
    """
    brought, needed = claim.acid_brought_mmolc_m2, claim.acid_needed_mmolc_m2
    blocks: list[Block] = [Paragraph(sentence(claim.comment, words)), _bars(brought, needed)]
    items = [] if tells_the_ph(claim.comment) else [reading_words(claim)]
    items = [item for item in (*items, *notes) if item]
    if items:
        blocks.append(Items(tuple(words.text(item) for item in items)))
    return Letter(
        material_called(claim.material, words),
        f"{words.rate(rate_g_m2)}, that is {sensible(rate_g_m2)} g/m²"
        if words.units == "us"
        else words.rate(rate_g_m2),
        (Section(None, tuple(blocks)),),
    )


def _bars(brought: float, needed: float) -> Table:
    """Two bars on one scale; base is drawn as base, not as less acid."""
    longest = max(abs(brought), abs(needed)) or 1.0
    rows = tuple(
        (name, _said(value), "█" * round(_BAR_WIDTH * abs(value) / longest) or "·")
        for name, value in (("brings", brought), ("the bed needs", needed))
    )
    return Table((Column(""), Column("mmolc/m²", Align.RIGHT), Column("")), rows)


def _said(value: float) -> str:
    if value == 0.0:
        return "nothing"
    return f"{sensible(abs(value))} {'acid' if value > 0.0 else 'base'}"
