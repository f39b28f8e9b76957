"""The steps of a rescue as messages, with their figures."""

from __future__ import annotations

from typing import Final

from loamshift.domain.answer import Band, Rescue, RescueCourse
from loamshift.domain.bed_context import BedContext
from loamshift.domain.case import Drainage
from loamshift.domain.material import MaterialGroup
from loamshift.domain.message import (
    Measure,
    Message,
    Product,
    Prose,
    Quantity,
    depth,
    message,
    ph,
    prose,
    rate,
    salt,
)
from loamshift.services.context.acid_come import NEARLY_ALL
from loamshift.services.context.amount_words import load_sentence
from loamshift.services.context.build_context import require_soil
from loamshift.services.context.overdose import recent_materials
from loamshift.services.context.salt_put_on import (
    SaltPutOn,
    dissolves,
    salt_limit_ds_m,
    salt_test_day,
    too_much_salt,
)
from loamshift.services.context.sodium import is_sodic
from loamshift.services.materials.caps import product_cap
from loamshift.services.rescue.chlorosis import iron_steps
from loamshift.services.verdict.stops import overdosed, saturated_ec
from loamshift.tables.materials import load_materials
from loamshift.tables.model import lime_parameters, verdict_values
from loamshift.tables.parameters import parameter_values
from loamshift.units import sulfur_as_s_g_m2_from_acid_mmolc_m2

_LIMESTONE: Final = "ground limestone, calcitic"
_SULFUR: Final = "elemental sulfur, powder"
NOTHING_G_M2: Final = 1.0
_LIQUID_ACIDS: Final = ("sulfuric acid", "phosphoric acid", "nitric acid", "hydrochloric acid")
_CAUSTIC: Final = frozenset(("burnt lime", "hydrated lime"))
_ASH: Final = "wood ash"
_ACID_SULFATE_PH: Final = 4.0
_FIRST_SHARE: Final = 0.25
"""Share of the likely need that is applied first, where none of it is certain [1]."""
_FRESH_D: Final = 30
"""What went on longer ago, and neither lies on top nor is left, hurts nobody by touch [d]."""
_TOP_CM: Final = 5.0
"""Depth of the first sample: what is spread on the surface is still there [cm]."""


def too_acid(
    context: BedContext,
    *,
    expected: Band,
    back_to_ph: float,
    lime: Band,
    lime_now: Band,
    lime_at_work: bool = False,
    course: RescueCourse | None = None,
) -> Rescue:
    """A bed that is too acid, or is being brought there.

    Parameters
    ----------
    expected
        PH once all has acted [pH in water].
    back_to_ph
        PH to lime back to [pH in water].
    lime
        Lime for it, as pure calcium carbonate [g/m2].
    lime_now
        Lime for the acid that is there within the coming months [g/m2].
    lime_at_work
        True where what lies there will raise the pH by itself.
    course
        How it comes back over time, where possible beds were run.

    Returns
    -------
    Rescue
        Steps in order, and what never to do.
    """
    now = require_soil(context).ph.ph_water
    still = now - expected.mid >= verdict_values()["leave_gain_ph"]
    coming = context.pending_acid_mmolc_m2 if still else 0.0
    low, needs_lime = ph(back_to_ph), lime.hi90 > NOTHING_G_M2
    steps = [message("rescue-today-stop-acid")]
    if any(_is_liquid_acid(item.material) for item in context.pending):
        steps.append(message("rescue-today-acid-spill"))
    elif coming > 0.0 and lies_there(context):
        steps.append(take_up(context))
    ruled_out = not context.pending and not context.in_pot and expected.mid < _ACID_SULFATE_PH
    washed = too_much_salt(context) is not None and not is_sodic(context)
    if washed:
        steps.append(wash(context))
    steps.append(laboratory_test("ph-salt", lies=lies_there(context)))
    if context.pending and (lies_there(context) or _is_fresh(context)):
        steps.append(message("rescue-hurt"))
    if not washed and not is_sodic(context):
        steps.append(_wash_or_ask(context))
    if context.in_pot:
        steps.append(message("rescue-repot"))
    elif is_sodic(context):
        steps.append(message("rescue-sodic-advice"))
    elif course is not None and (course.acts or (course.is_safe_by_ph and needs_lime)):
        if ruled_out:
            steps.append(message("rescue-acid-sulfate", ph=ph(_ACID_SULFATE_PH)))
        steps += back_in_parts(course, ruled_out=ruled_out)
    elif lime_now.mid > NOTHING_G_M2:
        wait = Measure(Quantity.WEEKS, parameter_values("advice")["rescue_retest_weeks"])
        steps.append(_first_lime(context, lime_now, back_to_ph=back_to_ph))
        steps.append(message("rescue-test-before-next", wait=wait, ph=low))
    else:
        stays = "no-lime-needed"
        if needs_lime:
            stays = "lime-at-work" if lime_at_work else "no-lime-ahead"
        steps.append(message(f"rescue-{stays}", ph=low))
    if context.planted and not context.in_pot:
        steps.append(message("rescue-lift-until-steady"))
    told = message("rescue-acid-sulfate", ph=ph(_ACID_SULFATE_PH))
    if coming <= 0.0 and expected.mid < _ACID_SULFATE_PH and not context.in_pot:
        steps += [] if told in steps else [told]
    return Rescue(
        problem=prose(
            _too_acid(context, coming=coming, expected=expected, back_to_ph=back_to_ph),
            message("rescue-as-if-drained") if _waits_for_air(context) else None,
        ),
        ph_expected=expected,
        steps=tuple(steps),
        never=_never_after_acid(context),
        lime_as_caco3_g_m2=lime if needs_lime and not context.in_pot else None,
        course=course,
    )


def too_limed(
    context: BedContext,
    *,
    expected: Band | None,
    back_to_ph: float,
    sulfur: Band,
    course: RescueCourse | None = None,
) -> Rescue:
    """A bed that was limed too much.

    Parameters
    ----------
    expected
        PH once all has acted, None where no lime explains the reading [pH in water].
    back_to_ph
        PH to come back to [pH in water].
    sulfur
        Sulfur for it, as S [g/m2].
    course
        How it comes back over time, where possible beds were run.

    Returns
    -------
    Rescue
        Steps in order, and what never to do.
    """
    keys = {item.material for item in context.pending}
    steps = [message("rescue-today-stop-lime")]
    steps.append(message("rescue-repot" if context.in_pot else "rescue-today-sweep-lime"))
    if keys & _CAUSTIC:
        steps.append(message("rescue-today-caustic"))
    steps.append(laboratory_test("ph-salt" if _ASH in keys else "ph"))
    steps.append(message("rescue-hurt"))
    if _ASH in keys:
        steps.append(_wash_or_ask(context))
    steps.append(message("rescue-fizz"))
    if not context.in_pot and sulfur.mid > NOTHING_G_M2:
        steps.append(_sulfur_after_fizz(context, sulfur, back_to_ph=back_to_ph))
    if course is not None:
        steps += _test(course)
    steps.append(message("rescue-feed-ammonium"))
    if context.planted:
        steps.extend(iron_steps(context))
    return Rescue(
        course=course,
        problem=message("rescue-over-limed", ph=ph(back_to_ph)),
        ph_expected=expected,
        steps=tuple(steps),
        never=(
            message("rescue-never-acid-on-bed"),
            message("rescue-never-bleach"),
            message("rescue-never-ammonium-on-lime"),
            message("rescue-never-second-correction"),
        ),
        lime_as_caco3_g_m2=None,
    )


def too_salty(context: BedContext, *, sodic: bool) -> Rescue:
    """A bed with too much salt, or a sodic one.

    Parameters
    ----------
    sodic
        True where sodium is the trouble.

    Returns
    -------
    Rescue
        Steps in order, and what never to do.
    """
    if sodic:
        return Rescue(
            problem=message("rescue-sodic"),
            ph_expected=None,
            steps=(
                message("rescue-today-stop-ph"),
                message("rescue-test-sodic"),
                message("rescue-repot" if context.in_pot else "rescue-sodic-advice"),
            ),
            never=(message("rescue-never-water-alone"), message("rescue-never-ordinary-rates")),
            lime_as_caco3_g_m2=None,
        )
    return Rescue(
        problem=message("rescue-salty"),
        ph_expected=None,
        steps=(
            message("rescue-today-stop-feeds"),
            wash(context),
            _salt_test(context, salt_limit_ds_m(context)),
        ),
        never=(message("rescue-never-sulfates"), message("rescue-never-dry")),
        lime_as_caco3_g_m2=None,
    )


def salt_put_on(context: BedContext, put_on: SaltPutOn) -> Rescue:
    """A bed that had more soluble salt than its plants bear, before a test of it.

    Returns
    -------
    Rescue
        Stop, water through, test salt and pH; and when it may be planted.
    """
    steps = [
        message("rescue-today-stop-all"),
        wash(context),
        _salt_test(context, put_on.limit_ds_m),
    ]
    if context.planted and context.cap_situation not in ("lawn", "field"):
        steps.append(message("rescue-lift-if-scorched"))
    never = [message("rescue-never-sulfates"), message("rescue-never-dry")]
    if context.pending_acid_mmolc_m2 > 0.0:
        never.insert(1, message("rescue-never-guess", direction="acidify"))
    return Rescue(
        problem=message("rescue-so-much-at-once"),
        ph_expected=None,
        steps=tuple(steps),
        never=tuple(never),
        lime_as_caco3_g_m2=None,
    )


def _salt_test(context: BedContext, limit_ds_m: float) -> Message:
    """The test after the washing, and what waits for it."""
    target = context.target
    return message(
        "rescue-salt-test",
        day=salt_test_day(context),
        planted="yes" if context.planted else "no",
        limit=salt(limit_ds_m),
        range=None
        if target is None or not target.is_shared
        else ph(target.ph_low, high=target.ph_high),
    )


def lies_there(context: BedContext) -> bool:
    """Whether any of what was put on lately may still lie on top: not dissolved, nor dug in."""
    recent = {material.key for material in recent_materials(context)}
    return any(
        applied.incorporated_cm <= 0.0 and not dissolves(applied.material)
        for applied in context.case.applied
        if applied.material.key in recent
    )


def _is_fresh(context: BedContext) -> bool:
    """Whether something went on so lately that somebody may have been hurt by it."""
    today = context.case.today
    return any(0 <= (today - applied.on).days <= _FRESH_D for applied in context.case.applied)


def waterlogged(context: BedContext) -> Rescue:
    """Ground without air, where sulfur turns to poison instead of acid.

    Returns
    -------
    Rescue
        Steps in order, and what never to do.
    """
    steps = [message("rescue-today-drain")]
    if context.pending_acid_mmolc_m2 > 0.0:
        steps.append(take_up(context))
    steps.append(message("rescue-rotten-eggs"))
    steps.append(message("rescue-test-drained", top=depth(_TOP_CM)))
    return Rescue(
        problem=message("rescue-waterlogged"),
        ph_expected=None,
        steps=tuple(steps),
        never=(message("rescue-never-sulfur-wet"), message("rescue-never-dig-wet")),
        lime_as_caco3_g_m2=None,
    )


def take_up(context: BedContext, *, limes: bool = False) -> Message:
    """How to take away what has not reacted yet.

    Parameters
    ----------
    limes
        True where what lies there raises the pH.
    """
    keys = {item.material for item in context.pending if item.acid_mmolc_m2 > 0.0}
    visible = any("prills" in key or "pastilles" in key for key in keys)
    return message(
        "rescue-today-take-up",
        what="grains" if visible else "rest",
        direction="lime" if limes else "acidify",
    )


def laboratory_test(what: str, *, lies: bool = True) -> Message:
    """What to have tested, and at which depths.

    Parameters
    ----------
    lies
        True where what was put on may still lie on top.
    """
    return message("rescue-today-test", what=what, top=depth(_TOP_CM), lies="yes" if lies else "no")


def _too_acid(
    context: BedContext, *, coming: float, expected: Band, back_to_ph: float
) -> Message | Prose:
    """What is wrong with a bed that is, or is being brought, too far down."""
    if coming > 0.0:
        worth = rate(sulfur_as_s_g_m2_from_acid_mmolc_m2(coming))
        if expected.mid < back_to_ph:
            return message("rescue-acid-to-come", sulfur=worth, ph=ph(back_to_ph))
        return message("rescue-acid-at-once", sulfur=worth)
    load = overdosed(context)
    if load is not None and require_soil(context).ph.ph_water >= back_to_ph:
        return prose(load_sentence(context, load), message("rescue-so-much-at-once"))
    harmed = back_to_ph if context.target is None else context.target.harmful_low
    return message("rescue-too-acid", ph=ph(harmed))


def _waits_for_air(context: BedContext) -> bool:
    """Whether sulfur lies where no air reaches it: its acid is told as if the ground drained."""
    waterlogged = context.case.bed.drainage is Drainage.WATERLOGGED
    return waterlogged and any(
        item.acid_mmolc_m2 > 0.0 and applied.material.group is MaterialGroup.SULFUR
        for item, applied in zip(context.pending, context.case.applied, strict=True)
    )


def _is_liquid_acid(key: str) -> bool:
    return key.startswith(_LIQUID_ACIDS)


def back_in_parts(course: RescueCourse, *, ruled_out: bool = False) -> tuple[Message, ...]:
    """What goes back on once the laboratory has answered, and the test that decides the next.

    Parameters
    ----------
    ruled_out
        True where acid sulfate soil has to be ruled out before any of it.
    """
    plan = course.plan
    product = Product(plan.material)
    parts = sum(part.rate_g_m2 for part in plan.parts)
    if parts > 0.0:
        day = plan.parts[0].date
        return (
            message(
                "rescue-part-now",
                product=product,
                rate=rate(parts),
                day=day,
                first="specialist" if ruled_out else "laboratory",
            ),
            *_test(course),
        )
    now = course.stages[0].come_frac
    acted = now is None or now >= NEARLY_ALL
    what = "acted" if acted else "pending"
    return (message("rescue-part-not-yet", product=product, what=what), *_test(course))


def _test(course: RescueCourse) -> tuple[Message, ...]:
    """The test that decides on the next part."""
    if not course.acts or not course.plan.decides:
        return ()
    return (message("rescue-part-test", day=course.plan.decides[0].test),)


def _sulfur_after_fizz(context: BedContext, sulfur: Band, *, back_to_ph: float) -> Message:
    """Sulfur in small applications: the first at most half the need, and within its limit."""
    cap = product_cap(load_materials()[_SULFUR], cap_situation=context.cap_situation)
    first = sulfur.mid
    if cap is not None and cap.dose_g_m2 is not None:
        first = min(0.5 * sulfur.mid, cap.dose_g_m2 * cap.per_product)
    return message(
        "rescue-sulfur-after-fizz",
        ph=ph(back_to_ph),
        first=rate(first),
        least="some" if sulfur.lo90 > NOTHING_G_M2 else None,
        range=rate(sulfur.lo90, high=sulfur.hi90),
        most=rate(sulfur.hi90),
    )


def _wash_or_ask(context: BedContext) -> Message:
    """Salt to be washed down: at once where a test shows too much, else if one shows it."""
    tested = saturated_ec(context)
    if tested is not None and tested > salt_limit_ds_m(context):
        return wash(context)
    return _flush(context)


def _flush(context: BedContext) -> Message:
    if context.case.bed.drainage in (Drainage.SLOW, Drainage.WATERLOGGED):
        return message("rescue-no-flush")
    limit = verdict_values()["salt_stop_ece_ds_m"]
    if context.target is not None and context.target.calcifuge:
        limit = verdict_values()["salt_sensitive_ece_ds_m"]
    return message(
        "rescue-flush",
        drainage="free" if context.case.bed.drainage is Drainage.FREE else "unknown",
        limit=salt(limit),
        water=Measure(Quantity.WATER_DEPTH, parameter_values("advice")["leach_mm"]),
    )


def wash(context: BedContext) -> Message:
    """Salt that is to be washed down at once, where the water can drain away."""
    if context.case.bed.drainage in (Drainage.SLOW, Drainage.WATERLOGGED):
        return message("rescue-today-no-wash")
    known = context.case.bed.drainage is Drainage.FREE or context.in_pot
    return message(
        "rescue-today-wash",
        drainage="free" if known else "unknown",
        water=Measure(Quantity.WATER_DEPTH, parameter_values("advice")["leach_mm"]),
    )


def _first_lime(context: BedContext, lime: Band, *, back_to_ph: float) -> Message:
    """What is needed almost certainly, and never more than one application may be."""
    limestone = load_materials()[_LIMESTONE]
    cap = product_cap(limestone, cap_situation=context.cap_situation)
    sure = max(lime.lo90, _FIRST_SHARE * lime.mid)
    product = sure / (limestone.caco3_eq_frac * lime_parameters().field_efficiency)
    if cap is not None and cap.dose_g_m2 is not None:
        product = min(product, cap.dose_g_m2)
    return message(
        "rescue-first-lime",
        rate=rate(product),
        how="surface" if context.planted else "mixed",
        ph=ph(back_to_ph),
    )


def _never_after_acid(context: BedContext) -> tuple[Message, ...]:
    never = (
        message("rescue-never-caustic"),
        message("rescue-never-lime-on-ammonium"),
        message("rescue-never-second"),
        message("rescue-never-more-acid"),
        message("rescue-never-bleach"),
    )
    wet = context.case.bed.drainage in (Drainage.SLOW, Drainage.WATERLOGGED)
    return (*never, message("rescue-never-dig-wet")) if wet else never
