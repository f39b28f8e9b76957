"""What each proposed material brings beside what the bed needs, on one scale."""

from __future__ import annotations

from loamshift.domain.answer import Answer, ClaimResult
from loamshift.domain.case import Case
from loamshift.domain.letter import Align, Column, DataSet, Figure, FigureKind, Table
from loamshift.report.figures.shared import short_names
from loamshift.report.letter_words import (
    as_limestone,
    as_sulfur,
    bed_noun,
    material_called,
    material_in_text,
    raised,
)
from loamshift.report.words import Words

_NOTHING_MMOLC_M2 = 0.5


def claims_figure(answer: Answer, case: Case, *, words: Words) -> Figure | None:
    """The claims as bars under the need.

    Parameters
    ----------
    answer
        The answer [object].
    case
        The bed it is about [object].
    words
        Spelling and units of the reader [object].

    Returns
    -------
    Figure or None
        Nothing where nobody claimed anything, or where the bed needs nothing [object].
    """
    return brought_figure(answer.claims, case, words=words)


def brought_figure(claims: tuple[ClaimResult, ...], case: Case, *, words: Words) -> Figure | None:
    """Claims settled, as bars under the need of their bed.

    Parameters
    ----------
    claims
        Claims on one bed [objects].
    case
        The bed [object].
    words
        Spelling and units of the reader [object].

    Returns
    -------
    Figure or None
        Nothing without claims, or where the bed needs nothing [object].
    """
    if not claims:
        return None
    need = claims[0].acid_needed_mmolc_m2
    if abs(need) < _NOTHING_MMOLC_M2:
        return None
    rows: list[tuple[str, str, float, str]] = [
        ("need", f"What the {bed_noun(case)} needs", round(need, 1), _worth(need, words))
    ]
    names = short_names([material_called(claim.material, words) for claim in claims])
    rows += [
        (
            "claim",
            name,
            round(claim.acid_brought_mmolc_m2, 2),
            _said(claim, words),
        )
        for name, claim in zip(names, claims, strict=True)
    ]
    texts = tuple(
        (kind, words.text(name), value, words.text(said)) for kind, name, value, said in rows
    )
    columns = (Column("material"), Column("brings in the end", Align.RIGHT))
    return Figure(
        kind=FigureKind.CLAIMS,
        title="Brought against needed",
        sentence=words.text(_sentence(claims, need, case, words)),
        data=(DataSet("brought", ("kind", "name", "acid_mmolc_m2", "said"), texts),),
        table=Table(columns, tuple((raised(name), said) for _, name, _, said in texts)),
        labels=(("left", "limes"), ("right", "acidifies")),
    )


def _worth(value: float, words: Words) -> str:
    return as_sulfur(value, words) if value > 0.0 else as_limestone(value, words)


def _share(claim: ClaimResult, words: Words) -> str:
    share = claim.acid_brought_mmolc_m2 / claim.acid_needed_mmolc_m2
    return "under 1 %" if share < 0.01 else words.percent(share)


def _said(claim: ClaimResult, words: Words) -> str:
    brought = claim.acid_brought_mmolc_m2
    if abs(brought) < _NOTHING_MMOLC_M2:
        return "nothing that lasts"
    if brought * claim.acid_needed_mmolc_m2 < 0.0:
        return f"{_worth(brought, words)}, the wrong way"
    return f"{_worth(brought, words)}, {_share(claim, words)}"


def _sentence(claims: tuple[ClaimResult, ...], need: float, case: Case, words: Words) -> str:
    what = "acid" if need > 0.0 else "lime"
    names = short_names([material_in_text(claim.material, words) for claim in claims])
    told = [f"{name} {_brings(claim, words)}" for name, claim in zip(names, claims, strict=True)]
    return (
        f"Of the {what} the {bed_noun(case)} needs, worth {_worth(need, words)}, "
        f"{words.listed(told)}."
    )


def _brings(claim: ClaimResult, words: Words) -> str:
    brought = claim.acid_brought_mmolc_m2
    if abs(brought) < _NOTHING_MMOLC_M2:
        return "would bring none that lasts"
    if brought * claim.acid_needed_mmolc_m2 < 0.0:
        return f"would bring none but pull the other way, by {_worth(brought, words)}"
    return f"would bring {_share(claim, words)}"
