"""The sums of a claim: the acid a material brings beside the acid the bed needs."""

from __future__ import annotations

from loamshift.domain.answer import ClaimResult
from loamshift.domain.case import ClaimEntry
from loamshift.domain.message import Prose, message, ph, prose
from loamshift.domain.own_sum import OwnSum, SumStep, SumUnit
from loamshift.errors import OutOfRangeError
from loamshift.services.claim.settle import acid_needed_mmolc_m2
from loamshift.services.context.build_context import require_soil
from loamshift.services.context.need import need_mmolc_kg, ph_after_acid_m2
from loamshift.services.materials.acid import acid_brought_mmolc_m2
from loamshift.services.own_sum import inputs as of
from loamshift.services.own_sum.need import need_source_keys
from loamshift.services.own_sum.opened import OpenedBed, open_bed


def claim_sum(bed: OpenedBed, key: str, place: int, field: str) -> OwnSum:
    """One figure of one claim.

    Parameters
    ----------
    place
        Which claim, from 0 [index].
    """
    plain = open_bed(bed.case, bed.answer, learned=False)
    entry, result = bed.case.claims[place], bed.answer.claims[place]
    brought, needed = _brought_step(plain, entry), _needed_steps(plain)
    if field == "acid_brought_mmolc_m2":
        steps: list[SumStep] = [brought]
    elif field == "acid_needed_mmolc_m2":
        steps = [*needed]
    elif field == "share":
        steps = [brought, *needed, _share_step(brought, needed[-1])]
    else:
        steps = [brought, _change_step(plain, result, field)]
    return OwnSum(
        key=key,
        title=message("why-sum-claim", what=_choice(field)),
        steps=tuple(steps),
        answer_value=getattr(result, field),
        aside=_plain_change(plain, brought) if field.startswith("ph_change") else Prose(),
        sure=prose(message("why-sure-claim")),
        narrow=prose(message("why-narrow-claim")),
        source_keys=tuple(
            dict.fromkeys(
                (
                    *(one.source_key for one in entry.material.figures.values()),
                    *need_source_keys(),
                )
            )
        ),
    )


def _choice(field: str) -> str:
    return {
        "acid_brought_mmolc_m2": "brought",
        "acid_needed_mmolc_m2": "needed",
        "share": "share",
        "ph_change_now": "now",
        "ph_change_1_year": "year",
    }[field]


def _brought_step(bed: OpenedBed, entry: ClaimEntry) -> SumStep:
    per_gram = acid_brought_mmolc_m2(
        entry.material, rate_g_m2=1.0, in_pot=bed.context.in_pot, land_use=bed.context.nitrogen_use
    )
    return SumStep(
        says=message("why-step-brought"),
        symbol="Z",
        value=acid_brought_mmolc_m2(
            entry.material,
            rate_g_m2=entry.rate_g_m2,
            in_pot=bed.context.in_pot,
            land_use=bed.context.nitrogen_use,
        ),
        unit=SumUnit.MMOLC_M2,
        formula="{Z} = {R} × {a}",
        inputs=(
            of.said("R", message("why-in-claimed"), entry.rate_g_m2, SumUnit.G_M2, "claim"),
            of.fixed("a", message("why-in-acid-per-gram"), per_gram, SumUnit.MMOLC_G),
        ),
    )


def _needed_steps(bed: OpenedBed) -> tuple[SumStep, ...]:
    """Middle of the need to the aim, or to one pH lower without one, with what still acts off."""
    context = bed.context
    ph_from = require_soil(context).ph.ph_water
    aim = ph_from - 1.0 if bed.aim_ph is None else bed.aim_ph
    sign = 1.0 if aim < ph_from else -1.0
    need = SumStep(
        says=message("why-step-claim-need", aim="no" if bed.aim_ph is None else "yes"),
        symbol="n",
        value=need_mmolc_kg(context, aim).quantile(0.5),
        unit=SumUnit.MMOLC_KG,
        inputs=(
            of.ph_now(bed),
            of.aim_ph(bed)
            if bed.aim_ph is not None
            else of.fixed("pH₁", message("why-in-ph-aim"), aim, SumUnit.PH),
            of.clay(bed),
            of.carbon(bed),
            of.scale(bed),
        ),
    )
    mass = of.mass_step(bed)
    coming = context.pending_acid_mmolc_m2
    inputs = [of.before(need, message("why-in-need")), of.before(mass, message("why-in-mass"))]
    formula = "{A} = {n} × {m}" if sign > 0.0 else "{A} = −{n} × {m}"
    if coming:
        formula = formula.replace("= ", "= max(" if sign > 0.0 else "= min(", 1)
        formula += " − {w}, 0)"
        inputs.append(
            of.said("w", message("why-in-coming-area"), coming, SumUnit.MMOLC_M2, "applied")
        )
    needed = SumStep(
        says=message("why-step-claim-needed", coming="yes" if coming else "no"),
        symbol="A",
        value=acid_needed_mmolc_m2(context),
        unit=SumUnit.MMOLC_M2,
        formula=formula,
        inputs=tuple(inputs),
    )
    return (need, mass, needed)


def _share_step(brought: SumStep, needed: SumStep) -> SumStep:
    return SumStep(
        says=message("why-step-claim-share"),
        symbol="s",
        value=brought.value / needed.value,
        unit=SumUnit.NONE,
        formula="{s} = {Z} / {A}",
        inputs=(
            of.before(brought, message("why-in-brought")),
            of.before(needed, message("why-in-needed")),
        ),
    )


def _change_step(bed: OpenedBed, result: ClaimResult, field: str) -> SumStep:
    value = result.ph_change_now if field == "ph_change_now" else result.ph_change_1_year
    assert value is not None
    return SumStep(
        says=message("why-step-change", when="now" if field == "ph_change_now" else "year"),
        symbol="Δ",
        value=value,
        unit=SumUnit.PH,
        inputs=(of.ph_now(bed),),
        result=ph(value),
    )


def _plain_change(bed: OpenedBed, brought: SumStep) -> Prose:
    try:
        after = ph_after_acid_m2(bed.context, brought.value)
    except OutOfRangeError:
        return Prose()
    start = require_soil(bed.context).ph.ph_water
    return prose(message("why-aside-claim", before=ph(start), after=ph(after)))
