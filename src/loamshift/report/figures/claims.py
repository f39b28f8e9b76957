"""What each proposed material brings beside what the bed needs, on one scale."""

from __future__ import annotations

from typing import Final

from loamshift.domain.answer import Answer, ClaimResult
from loamshift.domain.case import Case
from loamshift.domain.letter import Align, Column, DataSet, Figure, FigureKind, Table
from loamshift.domain.message import Listed, Measure, Message, Product, Quantity, message
from loamshift.report.figures.shared import labels_said
from loamshift.report.letter_claims import brings_of, claim_place, worth
from loamshift.report.messages import say
from loamshift.report.words import Words

_TINY: Final = 0.01
"""A smaller share is told as less than one per cent [1]."""


def claims_figure(answer: Answer, case: Case, *, words: Words) -> Figure | None:
    """The claims as bars under the need.

    Returns
    -------
    Figure or None
        Nothing where nobody claimed anything, or where the bed needs nothing.
    """
    return brought_figure(answer.claims, case, words=words)


def brought_figure(claims: tuple[ClaimResult, ...], case: Case, *, words: Words) -> Figure | None:
    """Claims checked, as bars under the need of their bed.

    Returns
    -------
    Figure or None
        Nothing without claims, or where the bed needs nothing.
    """
    if not claims or brings_of(claims[0].acid_needed_mmolc_m2) == "none":
        return None
    rows = [
        (claim, say(message("claim-material", material=Product(claim.material)), words))
        for claim in claims
    ]
    bars = tuple(
        ("claim", name, round(claim.acid_brought_mmolc_m2, 2), say(_brought(claim), words))
        for claim, name in rows
    )
    told = tuple(
        message(
            "claim-figure-line",
            material=Product(claim.material),
            way=_way(claim),
            amount=worth(claim.acid_brought_mmolc_m2),
            **_share(claim),
        )
        for claim in claims
    )
    return bars_figure(
        claims[0].acid_needed_mmolc_m2,
        bars,
        case,
        title=message("claim-figure-title"),
        told=told,
        words=words,
    )


def bars_figure(
    need_mmolc_m2: float,
    bars: tuple[tuple[str, str, float, str], ...],
    case: Case,
    *,
    title: Message,
    told: tuple[Message, ...],
    words: Words,
) -> Figure:
    """Materials as bars under the need of a bed, acid to the right and lime to the left.

    Parameters
    ----------
    need_mmolc_m2
        What the bed needs; negative where that is lime [mmolc/m2].
    bars
        Kind, name, acid [mmolc/m2] and figure in words of each.
    told
        What stands for each bar where no picture can be shown.
    """
    needs = brings_of(need_mmolc_m2)
    need = message("claim-worth-in-figure", brings=needs, amount=worth(need_mmolc_m2))
    first = (
        "need",
        say(message("claim-figure-need", place=claim_place(case)), words),
        round(need_mmolc_m2, 1),
        say(need, words),
    )
    rows = (first, *bars)
    sentence = message(
        "claim-figure-sentence", needs=needs, need=need, lines=Listed(told), place=claim_place(case)
    )
    columns = (
        Column(say(message("claim-column-material"), words)),
        Column(say(message("claim-figure-column"), words), Align.RIGHT),
    )
    return Figure(
        kind=FigureKind.CLAIMS,
        title=say(title, words),
        sentence=say(sentence, words),
        data=(DataSet("brought", ("kind", "name", "acid_mmolc_m2", "said"), rows),),
        table=Table(columns, tuple((name, said) for _, name, _, said in rows)),
        labels=labels_said(
            words,
            left=message("claim-figure-limes"),
            right=message("claim-figure-acidifies"),
        ),
    )


def _way(claim: ClaimResult) -> str:
    brought = claim.acid_brought_mmolc_m2
    if brings_of(brought) == "none":
        return "none"
    if brought * claim.acid_needed_mmolc_m2 > 0.0:
        return "right"
    return "wrong-lime" if brought < 0.0 else "wrong-acid"


def _share(claim: ClaimResult) -> dict[str, Measure | str]:
    share = claim.acid_brought_mmolc_m2 / claim.acid_needed_mmolc_m2
    return {
        "share": Measure(Quantity.SHARE, share),
        "size": "tiny" if share < _TINY else "plain",
    }


def _brought(claim: ClaimResult) -> Message:
    return message(
        "claim-figure-brought",
        way=_way(claim),
        brings=brings_of(claim.acid_brought_mmolc_m2),
        amount=worth(claim.acid_brought_mmolc_m2),
        **_share(claim),
    )
