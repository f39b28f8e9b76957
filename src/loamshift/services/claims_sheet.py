"""Folk remedies side by side for one soil, each at the amount that people usually put on."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from loamshift.domain.answer import ClaimResult, SourceLine
from loamshift.domain.case import BedKind, Case, ClaimEntry
from loamshift.domain.claims_sheet import ClaimsSheet, SheetLine, UsualAmount
from loamshift.domain.material import Material, MaterialGroup
from loamshift.domain.message import (
    Measure,
    Message,
    Prose,
    Quantity,
    Value,
    depth,
    message,
    times,
)
from loamshift.services.claim.put_on import is_burnt_off
from loamshift.services.claim.settle import acid_needed_mmolc_m2
from loamshift.services.claims_asked import claims_asked
from loamshift.services.context.build_context import build_context
from loamshift.tables.materials import load_materials
from loamshift.tables.references import citation
from loamshift.tables.usual_amounts import load_usual_amounts

_NOTHING: Final = 0.001
"""A smaller share of the need is nothing [1]."""
_TINY: Final = 0.01
_STILL_PH: Final = 0.05
_SLOW: Final = ("claim-unreacted", "claim-carbonate")
"""Messages that tell of what has not reacted after a year."""
_FITS: Final = (0.8, 1.25)
_PLACES: Final = {BedKind.CONTAINER: "pot", BedKind.LAWN: "lawn", BedKind.FIELD: "field"}


def claims_sheet(case: Case, *, seed: int | None) -> ClaimsSheet:
    """What folk remedies bring to one soil, beside what it needs.

    Answers each on its own, at a usual amount; which remedies are listed hangs on whether the
    ground needs acid or lime.

    Parameters
    ----------
    seed
        Seed of the possible beds that are run through a year; None asks the curve alone [number].

    Raises
    ------
    InputError
        Where the case has no soil pH.

    References
    ----------
    own-arithmetic, common-practice
    """
    known = load_materials()
    amounts = _listed_for(case)
    rates = [amount.rate_g_m2(known[amount.key]) for amount in amounts]
    entries = tuple(
        ClaimEntry(material=known[amount.key], rate_g_m2=rate_g_m2, as_given="")
        for amount, rate_g_m2 in zip(amounts, rates, strict=True)
    )
    asked = replace(case, claims=entries)
    answer = claims_asked(asked, seed=seed)
    more = {amount.source_key for amount in amounts} - {line.key for line in answer.sources}
    lines = tuple(SourceLine(key=key, citation=citation(key)) for key in sorted(more))
    return ClaimsSheet(
        case=asked,
        answer=replace(answer, sources=(*answer.sources, *lines)),
        lines=tuple(
            SheetLine(
                claim=claim,
                rate_g_m2=rate_g_m2,
                usual=usual_amount(amount),
                verdict=sheet_verdict(claim, known[amount.key], place=_place(case)),
            )
            for claim, amount, rate_g_m2 in zip(answer.claims, amounts, rates, strict=True)
        ),
    )


def _listed_for(case: Case) -> tuple[UsualAmount, ...]:
    context = build_context(case)
    if context.soil is None:
        return load_usual_amounts()
    need = "lime" if acid_needed_mmolc_m2(context) < 0.0 else "acid"
    return tuple(row for row in load_usual_amounts() if row.for_need in ("any", need))


def _place(case: Case) -> str:
    return _PLACES.get(case.bed.kind, "bed")


def usual_amount(amount: UsualAmount) -> Message:
    """What an amount is, as people would say it."""
    if amount.depth_cm is not None:
        return message(f"claim-usual-{amount.way}", depth=depth(amount.depth_cm))
    if amount.volume_l_m2 is not None:
        water = Measure(Quantity.WATER_DEPTH, amount.volume_l_m2)
        if amount.way == "rain":
            return message("claim-usual-rain", water=water)
    return message(f"claim-usual-{amount.way}")


def sheet_verdict(claim: ClaimResult, material: Material, *, place: str) -> Message:
    """One plain sentence on a remedy."""
    brought, needed = claim.acid_brought_mmolc_m2, claim.acid_needed_mmolc_m2
    if material.group is MaterialGroup.NEUTRAL_SALT:
        return message("claim-sheet-salt")
    if is_burnt_off(material):
        return message("claim-sheet-fades")
    if needed == 0.0:
        change = claim.ph_change_1_year
        if change is not None and abs(change) < _STILL_PH:
            return message("claim-sheet-nothing")
        return message(
            "claim-sheet-not-needed", brings="acid" if brought > 0.0 else "lime", place=place
        )
    share = brought / needed
    needs = "lime" if needed < 0.0 else "acid"
    if abs(share) < _NOTHING:
        return message("claim-sheet-nothing")
    if share < 0.0:
        size = "trace" if share > -_TINY else "plain"
        return message("claim-sheet-wrong-way", needs=needs, size=size, place=place)
    if share < _TINY:
        return message("claim-sheet-trace", needs=needs, place=place)
    given: dict[str, Value] = {"needs": needs, "pace": _pace(claim), "place": place}
    if share < _FITS[0]:
        part = Measure(Quantity.SHARE, share)
        if material.group is MaterialGroup.ORGANIC and material.fast_acid_molc_kg > 0.0:
            return message("claim-sheet-peat", share=part)
        return message("claim-sheet-part", share=part, **given)
    if share <= _FITS[1]:
        return message("claim-sheet-enough", **given)
    return message("claim-sheet-too-much", times=times(share), **given)


def _pace(claim: ClaimResult) -> str:
    said = claim.comment.sentences if isinstance(claim.comment, Prose) else ()
    return "slow" if any(one.key in _SLOW for one in said) else "quick"
