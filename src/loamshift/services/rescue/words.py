"""The steps of a rescue in words, with their figures."""

from __future__ import annotations

from loamshift.domain.answer import Band, Rescue
from loamshift.domain.bed_context import BedContext
from loamshift.domain.case import Drainage, Units
from loamshift.services.context.amount_words import load_sentence
from loamshift.services.context.build_context import require_soil
from loamshift.services.format import format_rate
from loamshift.services.materials.caps import product_cap
from loamshift.services.rescue.chlorosis import chlorosis_relief
from loamshift.services.verdict.stops import overdosed
from loamshift.tables.materials import load_materials
from loamshift.tables.model import lime_parameters, verdict_values
from loamshift.tables.parameters import parameter_values
from loamshift.units import sulfur_as_s_g_m2_from_acid_mmolc_m2

_LIMESTONE = "ground limestone, calcitic"
_SULFUR = "elemental sulfur, powder"
_NOTHING_G_M2 = 1.0
_ACID_SULFATE_PH = 4.0
_FIRST_PART = 0.25
"""Share of the likely need that goes on first, where none of it is certain [1]."""
_MM_PER_INCH = 25.4


def too_acid(
    context: BedContext, *, expected: Band, back_to_ph: float, lime: Band, lime_now: Band
) -> Rescue:
    """A bed that is too acid, or is being brought there.

    Parameters
    ----------
    context
        A bed with a soil [object].
    expected
        PH once all has acted [pH in water].
    back_to_ph
        PH to lime back to [pH in water].
    lime
        Lime for it, as pure calcium carbonate [g/m2].
    lime_now
        Lime for the acid that is there within the coming months [g/m2].

    Returns
    -------
    Rescue
        Steps in order, and what never to do [object].
    """
    units = context.case.units
    now = require_soil(context).ph.ph_water
    still = now - expected.mid >= verdict_values()["leave_gain_ph"]
    coming = context.pending_acid_mmolc_m2 if still else 0.0
    load = overdosed(context)
    problem = f"This bed is too acid: below pH {back_to_ph:.1f}, and what harms the roots then is "
    problem += "aluminium and manganese more than the acid itself."
    if coming > 0.0:
        worth = format_rate(sulfur_as_s_g_m2_from_acid_mmolc_m2(coming), units)
        problem = (
            f"What was put on here will still release acid equal to {worth} of sulfur, more than "
            f"this soil can absorb without falling below pH {back_to_ph:.1f}."
            if expected.mid < back_to_ph
            else f"What was put on here will still release acid equal to {worth} of sulfur. The pH "
            "may end where it is wanted, but so much at once injures roots on its way."
        )
    elif load is not None and now >= back_to_ph:
        problem = (
            f"{load_sentence(context, load)} So much at once injures roots, whatever pH it ends at."
        )
    steps = [
        "Stop everything that acidifies: sulfur, iron and aluminium sulfate, ammonium and urea "
        "feeds, and acidified water.",
    ]
    if coming > 0.0:
        steps.append(take_up(context))
    steps.append(laboratory_test("pH and salt (EC)"))
    steps.append(_wash(context))
    if lime_now.mid > _NOTHING_G_M2:
        steps.append(_first_lime(context, lime_now, back_to_ph=back_to_ph))
        steps.append(
            f"Test again about {_weeks()} weeks later, and give the next part only if the pH still "
            f"reads below {back_to_ph:.1f}; stop once it is there, for what was put on last is "
            "still at work."
        )
    else:
        steps.append(
            "Do not lime ahead of the acid, for it comes over years and the lime within months: "
            f"test twice a year, and give a small part of ground limestone each time the pH reads "
            f"below {back_to_ph:.1f}."
        )
    if context.planted:
        steps.append(
            "Lift plants you value into fresh potting mix until the tests are steady; roots "
            "that have turned brown and stubby do not mend in place."
        )
    if coming <= 0.0 and expected.mid < _ACID_SULFATE_PH:
        steps.append(
            f"Where nobody has acidified the ground, a pH below {_ACID_SULFATE_PH:g} in coastal or "
            "drained clay may be acid sulfate soil: leave it undug and undrained and ask a "
            "specialist."
        )
    return Rescue(
        problem=problem,
        ph_expected=expected,
        steps=tuple(steps),
        never=_never_after_acid(context),
        lime_as_caco3_g_m2=lime if lime.hi90 > _NOTHING_G_M2 else None,
    )


def too_limed(context: BedContext, *, expected: Band, back_to_ph: float, sulfur: Band) -> Rescue:
    """A bed that was limed too much.

    Parameters
    ----------
    context
        A bed with a soil [object].
    expected
        PH once all has acted [pH in water].
    back_to_ph
        PH to come back to [pH in water].
    sulfur
        Sulfur for it, as S [g/m2].

    Returns
    -------
    Rescue
        Steps in order, and what never to do [object].
    """
    units = context.case.units
    cap = product_cap(load_materials()[_SULFUR], cap_situation=context.cap_situation)
    part = sulfur.mid
    if cap is not None and cap.dose_g_m2 is not None:
        part = min(0.5 * sulfur.mid, cap.dose_g_m2 * cap.per_product)
    steps = [
        "Stop everything that limes: lime, wood ash, mushroom compost, and hard water if there is "
        "any other.",
        "Sweep up or rake off what still lies on the surface, before rain carries it in.",
        laboratory_test("pH"),
        "Try a drop of acid on dry soil: a fizz means that lime is still lying free.",
    ]
    if sulfur.mid > _NOTHING_G_M2:
        steps.append(
            "While it fizzes, wait: sulfur given now only dissolves the lime. Once it no longer "
            f"does, sulfur in small parts brings the pH back to {back_to_ph:.1f}, the first no "
            f"more than {format_rate(part, units)}, in warm soil and with a test before the next. "
            f"In all it may take {format_rate(sulfur.lo90, units)} to "
            f"{format_rate(sulfur.hi90, units)}."
        )
    steps.append(
        "Feed with ammonium instead of nitrate, within the nitrogen the plants need; it works the "
        "same way, slowly and safely."
    )
    if context.planted:
        steps.extend(chlorosis_relief(context)[1:3])
    return Rescue(
        problem=f"This bed has had too much lime: it is above pH {back_to_ph:.1f}, or on its way.",
        ph_expected=expected,
        steps=tuple(steps),
        never=(
            "No vinegar, battery acid or other acid on the bed: it burns roots and does not last.",
            "No ammonium or urea within a month of the lime: ammonia gas goes off.",
            "No second correction before a test shows what the first has done.",
        ),
        lime_as_caco3_g_m2=None,
    )


def too_salty(context: BedContext, *, sodic: bool) -> Rescue:
    """A bed with too much salt, or a sodic one.

    Parameters
    ----------
    context
        The bed as understood [object].
    sodic
        True where sodium is the trouble [truth].

    Returns
    -------
    Rescue
        Steps in order, and what never to do [object].
    """
    if sodic:
        return Rescue(
            problem="Sodium holds this soil: its structure fails, and its pH is a symptom.",
            ph_expected=None,
            steps=(
                "Put on nothing that is meant to move the pH.",
                "Have a laboratory test sodium, salt (EC) and lime at several depths.",
                "Take specialist advice on gypsum, drainage and washing out, in that order: "
                "washing a sodic soil without calcium seals it.",
            ),
            never=(
                "No water alone in the hope of washing the sodium out.",
                "No lime and no sulfur by the tables for ordinary soil.",
            ),
            lime_as_caco3_g_m2=None,
        )
    return Rescue(
        problem="This soil is too salty already, and every material that moves the pH adds salt.",
        ph_expected=None,
        steps=(
            "Stop all feeds and amendments until the salt is down.",
            laboratory_test("salt (EC) and pH"),
            _wash(context),
            "Test the salt again before anything else goes on; the pH may read differently once "
            "the salt is gone.",
        ),
        never=(
            "No iron, aluminium, ammonium or potassium sulfate, and no gypsum unless a test shows "
            "too much sodium.",
            "Do not let a salty bed dry out: the salt comes to the roots.",
        ),
        lime_as_caco3_g_m2=None,
    )


def waterlogged(context: BedContext) -> Rescue:
    """Ground without air, where sulfur turns to poison instead of acid.

    Parameters
    ----------
    context
        The bed as understood [object].

    Returns
    -------
    Rescue
        Steps in order, and what never to do [object].
    """
    steps = [
        "Drain the bed or build it up before anything else; until air reaches the roots nothing "
        "that is put on works.",
    ]
    if context.pending_acid_mmolc_m2 > 0.0:
        steps.append(take_up(context))
    steps.append(
        "A smell of rotten eggs or a black layer means that hydrogen sulfide is there already: "
        "open the surface, let it air, and plant again only when smell and colour are gone."
    )
    steps.append(laboratory_test("pH, once it is drained"))
    return Rescue(
        problem="The ground is waterlogged: there sulfur makes hydrogen sulfide, which kills "
        "roots, instead of acid.",
        ph_expected=None,
        steps=tuple(steps),
        never=_WET_NEVER,
        lime_as_caco3_g_m2=None,
    )


_WET_NEVER = (
    "No sulfur and no sulfates while it is wet.",
    "Do not dig deep in wet ground that smells of rotten eggs, and keep your face away from the "
    "hole: the nose stops noticing the gas where it is dangerous.",
)


def take_up(context: BedContext) -> str:
    """How to take away what has not reacted yet.

    Parameters
    ----------
    context
        The bed as understood [object].

    Returns
    -------
    str
        A step [text].
    """
    keys = {item.material for item in context.pending if item.acid_mmolc_m2 > 0.0}
    visible = any("prills" in key or "pastilles" in key for key in keys)
    what = "the grains you can see" if visible else "what still lies on the surface"
    return (
        f"Pick up or rake off {what} with the top centimetre of soil, damp and in still air, and "
        "do not dig it in. What is taken away needs no lime."
    )


def laboratory_test(what: str) -> str:
    """What to have tested, and where.

    Parameters
    ----------
    what
        What is to be tested [text].

    Returns
    -------
    str
        A step [text].
    """
    return (
        f"Have a laboratory test {what}, at 0 to 5 cm, at the depth that was treated and below "
        "it, each by itself: what lies on top has not reached the roots yet."
    )


def _wash(context: BedContext) -> str:
    units = context.case.units
    mm = parameter_values("advice")["leach_mm"]
    water = f"{mm / _MM_PER_INCH:.0f} in" if units is Units.US else f"{mm:.0f} mm"
    limit = verdict_values()["salt_stop_ece_ds_m"]
    if context.target is not None and context.target.calcifuge:
        limit = verdict_values()["salt_sensitive_ece_ds_m"]
    if context.case.bed.drainage in (Drainage.SLOW, Drainage.WATERLOGGED):
        return (
            "Do not wash the bed through: it drains too slowly, and standing water does more harm "
            "than the salt."
        )
    free = context.case.bed.drainage is Drainage.FREE
    ask = "," if free else ", and water drains away freely,"
    return (
        f"If the salt reads above {limit:g} dS/m in the saturated paste{ask} wash the bed through "
        f"with {water} of water low in salt, and again a few days later; washing takes out salt, "
        "not sulfur that has yet to react."
    )


def _first_lime(context: BedContext, lime: Band, *, back_to_ph: float) -> str:
    """The first part: what is needed almost certainly, and never more than goes on at once."""
    units = context.case.units
    limestone = load_materials()[_LIMESTONE]
    cap = product_cap(limestone, cap_situation=context.cap_situation)
    sure = max(lime.lo90, _FIRST_PART * lime.mid)
    product = sure / (limestone.caco3_eq_frac * lime_parameters().field_efficiency)
    if cap is not None and cap.dose_g_m2 is not None:
        product = min(product, cap.dose_g_m2)
    how = (
        "spread thinly on the surface and watered in"
        if context.planted
        else "mixed into the depth that was treated"
    )
    return (
        f"Lime in small parts, with ground limestone: first {format_rate(product, units)}, {how}. "
        f"Aim no higher than pH {back_to_ph:.1f}."
    )


def _weeks() -> str:
    return f"{parameter_values('advice')['rescue_retest_weeks']:.0f}"


def _never_after_acid(context: BedContext) -> tuple[str, ...]:
    never = [
        "No hydrated or burnt lime: it overshoots and burns roots.",
        "No lime or ash within a month of ammonium or urea: ammonia gas goes off.",
        "No second part before the test: sulfur and lime both work for months after.",
        "No more acid of any kind, coffee grounds and vinegar included, to even it out.",
    ]
    wet = context.case.bed.drainage in (Drainage.SLOW, Drainage.WATERLOGGED)
    return (*never, _WET_NEVER[1]) if wet else tuple(never)
