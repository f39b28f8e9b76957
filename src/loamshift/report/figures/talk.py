"""Claims as pictures for a talk or a class: a title, one sentence, bars, and whose numbers."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from loamshift import __version__
from loamshift.domain.answer import ClaimResult
from loamshift.domain.case import Case
from loamshift.domain.claims_sheet import ClaimsSheet
from loamshift.domain.letter import Figure
from loamshift.domain.message import (
    Given,
    Measure,
    Message,
    Product,
    Prose,
    Quantity,
    Value,
    Worded,
    message,
    ph,
    rate,
)
from loamshift.report.figures.claims import brought_figure
from loamshift.report.figures.claims_sheet import sheet_figure
from loamshift.report.letter_claims import brings_of, claim_place
from loamshift.report.letter_head import reading_in_force
from loamshift.report.messages import say
from loamshift.report.words import Words

_ENOUGH: Final = 0.9
_TINY: Final = 0.01


def claims_for_talk(claims: tuple[ClaimResult, ...], case: Case, *, words: Words) -> Figure | None:
    """Claims on one bed as bars under its need, with a title and a sentence of their own.

    Parameters
    ----------
    claims
        The claims, in the order of the case.

    Returns
    -------
    Figure or None
        None where the bed needs nothing, so that there is nothing to hold them against.
    """
    figure = brought_figure(claims, case, words=words)
    if figure is None:
        return None
    if len(claims) > 1:
        title = message("claim-talk-title", n=len(claims))
        return _told(figure, title, best_sentence(claims, case), words)
    (claim,) = claims
    title = message(
        "claim-title", material=Product(claim.material), rate=rate(case.claims[0].rate_g_m2)
    )
    return _told(figure, title, _first(claim.comment), words)


def sheet_for_talk(sheet: ClaimsSheet, *, words: Words) -> Figure:
    """Folk remedies with their amounts as bars under the need of one soil."""
    title = message("claim-sheet-title", n=len(sheet.lines))
    figure = sheet_figure(sheet, words=words, with_amounts=True)
    return _told(figure, title, best_sentence(sheet.answer.claims, sheet.case), words)


def best_sentence(claims: tuple[ClaimResult, ...], case: Case) -> Message:
    """Which of several materials comes nearest to what a bed needs, in one sentence."""
    share, best = max(((claim.share or 0.0, claim) for claim in claims), key=lambda pair: pair[0])
    needs = brings_of(best.acid_needed_mmolc_m2)
    size = "enough" if share >= _ENOUGH else "tiny" if share < _TINY else "part"
    return message(
        "claim-talk-best",
        size="unneeded" if needs == "none" else size,
        needs=needs,
        n=len(claims),
        material=Product(best.material),
        share=Measure(Quantity.SHARE, share),
        place=claim_place(case),
    )


def talk_source(case: Case, *, words: Words, usual: bool = False) -> str:
    """Which soil a picture is about, and what worked it out: the line at its foot.

    Parameters
    ----------
    usual
        True where amounts are those that people commonly use.
    """
    texture, reading = case.soil.texture, reading_in_force(case)
    name = None if texture is None else f"texture-{texture.name.lower().replace(' ', '-')}"
    values: dict[str, Value] = {
        "texture": None if name is None else Message(name),
        "ph": None if reading is None else ph(reading.ph),
        "version": Given(__version__),
    }
    if usual:
        return say(message("claim-talk-source-usual", **values), words)
    return say(message("claim-talk-source", **values), words)


def _told(figure: Figure, title: Message, sentence: Worded, words: Words) -> Figure:
    """A figure under another title, its sentence before the one that stands for the picture."""
    said = f"{say(sentence, words)} {figure.sentence}"
    return replace(figure, title=say(title, words), sentence=said)


def _first(comment: Worded) -> Worded:
    return comment.sentences[0] if isinstance(comment, Prose) else comment
