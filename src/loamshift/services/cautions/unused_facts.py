"""Facts that were given and have no influence on this answer: named, with the reason.

Every fact of a case is used or stands here. The rules follow what the answer is made from; a
contract test changes every key of the case file and holds them to it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import timedelta

from loamshift.domain.answer import Answer, Decision, Direction, Finding, Severity
from loamshift.domain.bed_context import BedContext
from loamshift.domain.case import BedKind, OnHand, Water
from loamshift.domain.field_name import field_in_text
from loamshift.domain.material import Material
from loamshift.domain.message import Listed, Message, message
from loamshift.domain.plant import Plant
from loamshift.services.belief.humus import humus_history, is_dug
from loamshift.services.cautions.reading_checks import AGREEMENT, reading_findings
from loamshift.services.cautions.target_checks import finding_row
from loamshift.services.cautions.unused_pots import unused_of_pots
from loamshift.services.cautions.unused_reasons import AnswerUse, Unused, Why
from loamshift.services.cautions.unused_soil import needs_curve, not_yet, unused_soil_facts
from loamshift.services.context.laboratory_scale import BUFFER_PATH
from loamshift.services.context.readings import (
    current_season,
    dated_readings,
    season_readings,
)
from loamshift.services.context.salt_put_on import too_much_salt
from loamshift.services.context.scale_words import scale_unused
from loamshift.services.materials.acid import acid_brought_mmolc_m2
from loamshift.services.materials.caps import product_cap
from loamshift.services.products.options import useless_on_hand
from loamshift.services.upkeep.upkeep import HELD_BY_SODIUM

NOTHING_LEFT = 1e-3
"""Of what a material ever brings, less than this still to come is nothing [0-1]."""

CHECK = "not used: "
"""Every row's check begins with it; the paths of the case file follow."""
OWN_CLIMATE = "case-file"
METHOD_PATH = "soil.buffer_ph_method"
THERMOMETER_DEPTH_CM = 10.0
"""Put in by the reader where nobody said how deep the thermometer sat [cm]."""
MONTHS = (Water().months, (11, 12, 1, 2, 3))
"""Put in by the reader where nobody named the months of watering."""


def unused_facts(context: BedContext, use: AnswerUse) -> tuple[Finding, ...]:
    """A message for each reason why facts of this case were not used."""
    by_reason: dict[Why, list[str]] = {}
    for fact in unused(context, use):
        by_reason.setdefault(fact.why, []).append(fact.path)
    left_out = by_reason.pop(Why.RESISTANCE, [])
    return (
        *(_row(why, paths) for why, paths in by_reason.items()),
        *_left_out_of_the_scale(context, left_out),
    )


def with_unused_facts(context: BedContext, answer: Answer) -> Answer:
    """An answer whose checks also name the facts it was made without."""
    rows = unused_facts(context, answer_use(context, answer))
    return replace(answer, findings=(*answer.findings, *rows))


def unused(context: BedContext, use: AnswerUse) -> tuple[Unused, ...]:
    """Every fact of a case that has no influence on its answer.

    Returns
    -------
    tuple of Unused
        In the order of the case file, each path once.
    """
    found = [
        *_of_currency(context, use),
        *_of_place(context),
        *_of_bed(context, use),
        *_of_humus(context, use),
        *unused_soil_facts(context, use),
        *_of_aim(context, use),
        *_of_water(context, use),
        *_of_feed(context, use),
        *unused_of_pots(context, use),
        *_of_on_hand(context, use),
        *_of_test_prices(context, use),
        *_of_applied(context, use),
        *_of_readings(context, use),
        *_of_titration_and_claims(context),
    ]
    return tuple({fact.path: fact for fact in reversed(found)}.values())[::-1]


def answer_use(context: BedContext, answer: Answer) -> AnswerUse:
    """What an answer was made with, read off the answer itself."""
    return AnswerUse(
        decision=answer.verdict.decision,
        direction=answer.dose.direction,
        compared=tuple(option.material for option in answer.options),
        weighed=() if answer.worth is None else tuple(row.test for row in answer.worth.tests),
        has_forecast=answer.forecast is not None,
        has_rescue=answer.rescue is not None,
        held_by_sodium=answer.verdict.reason in HELD_BY_SODIUM,
        reason=answer.verdict.reason,
        has_pots=answer.pot_or_ground is not None,
    )


def _row(why: Why, paths: Sequence[str]) -> Finding:
    facts = Listed(tuple(field_in_text(path) for path in paths))
    return _remark(why, paths, message(f"unused-{why.value}", facts=facts))


def _left_out_of_the_scale(context: BedContext, paths: Sequence[str]) -> Iterator[Finding]:
    """A message with its own figures for each fact left out of the belief about the soil."""
    if context.soil is None:
        return
    for fact in context.soil.k.unused:
        if fact.path in paths:
            also = [METHOD_PATH] if fact.path == BUFFER_PATH and METHOD_PATH in paths else []
            yield _remark(Why.RESISTANCE, [fact.path, *also], scale_unused(fact))


def _remark(why: Why, paths: Sequence[str], comment: Message) -> Finding:
    return finding_row(
        f"{CHECK}{', '.join(paths)}",
        value=why.value,
        operator="",
        limit=None,
        unit="",
        passed=True,
        severity=Severity.INFO,
        comment=comment,
    )


def _of_place(context: BedContext) -> Iterator[Unused]:
    case = context.case
    if case.place is None and case.soil_temps:
        yield Unused("place.soil_temp", Why.NO_PLACE)
    elif case.bed.kind is BedKind.CONTAINER and any(
        depth != THERMOMETER_DEPTH_CM for _, _, depth in case.soil_temps
    ):
        yield Unused("place.soil_temp.depth", Why.POT_ALL_DEPTHS)
    if case.place is None or case.place.source_key != OWN_CLIMATE:
        return
    if case.place.longitude is not None:
        yield Unused("place.longitude", Why.OWN_CLIMATE)
    if context.soil is None or context.target is None:
        yield Unused("place.rain_mm", not_yet(context))


def _of_bed(context: BedContext, use: AnswerUse) -> Iterator[Unused]:
    bed, case = context.case.bed, context.case
    nothing_given = not (case.applied or case.claims or case.feed or case.water.weekly_mm)
    per_plant = use.has_pots or bed.treated_diameter_cm is not None
    if bed.plants is not None and not per_plant and nothing_given:
        yield Unused("bed.plants", Why.NOT_PER_PLANT)
    if context.soil is None and (bed.planted is not None or bed.growing):
        if not (case.applied or case.claims):
            if bed.planted is not None:
                yield Unused("bed.planted", Why.NO_PH)
            if bed.growing:
                yield Unused("bed.growing", Why.NO_PH)
        return
    idle = not (use.compared or case.applied or case.claims)
    settled = bed.planted is not None or bed.kind in (BedKind.LAWN, BedKind.CONTAINER)
    told = (
        context.target is not None
        and bed.kind is not BedKind.CONTAINER
        and use.decision not in (Decision.LEAVE, Decision.STOP)
    )
    is_open = bed.kind not in (BedKind.LAWN, BedKind.CONTAINER)
    bares = is_open and not case.aim.plants and context.target is not None
    in_pot = bed.kind is BedKind.CONTAINER and context.target is not None
    dug = _may_be_dug(context, use)
    for_nothing = bed.planted is not None and idle and not (told or bares or in_pot or dug)
    if for_nothing:
        yield Unused("bed.planted", Why.NOTHING_APPLIED)
    if bed.growing and not (use.has_rescue and any(map(_is_tree, bed.growing))):
        if settled and not for_nothing:
            yield Unused("bed.growing", Why.PLANTED_GIVEN)
        elif idle:
            yield Unused("bed.growing", Why.NOTHING_APPLIED)


def _may_be_dug(context: BedContext, use: AnswerUse) -> bool:
    """True where it counts for what rots in the ground whether it was dug for plants to come."""
    bed = context.case.bed
    counts = _has_ledger(context) and not use.held_by_sodium and not context.organic_only
    return counts and bed.kind is BedKind.GROUND and bed.before is None


def _of_humus(context: BedContext, use: AnswerUse) -> Iterator[Unused]:
    bed = context.case.bed
    given = {"bed.before": bed.before is not None, "bed.before_years": bed.before_years is not None}
    if not _has_ledger(context):
        why = not_yet(context)
    elif use.held_by_sodium:
        why = Why.SODIUM_FIRST
    elif context.in_pot or context.organic_only or bed.kind is BedKind.LAWN:
        why = Why.NOT_DUG
    elif humus_history(context) is not None:
        return
    elif bed.before is None:
        why = Why.NO_BEFORE
    elif is_dug(context.case):
        given["bed.before"] = False  # of dug ground it tells that nothing more rots
        why = Why.USUAL_HUMUS
    else:
        why = Why.USUAL_HUMUS
    for path, is_given in given.items():
        if is_given:
            yield Unused(path, why)


def _of_aim(context: BedContext, use: AnswerUse) -> Iterator[Unused]:
    aim = context.case.aim
    if aim.target_method is not None and aim.target_ph is None:
        yield Unused("aim.target_method", Why.NO_TARGET_PH)
    if aim.by is None:
        return
    if context.soil is None:
        yield Unused("aim.by", Why.NO_PH)
    elif context.target is None:
        yield Unused("aim.by", Why.NO_AIM)
    elif use.decision is Decision.STOP:
        yield Unused("aim.by", Why.STOPPED)
    elif not context.target.is_shared:
        yield Unused("aim.by", Why.NO_COMMON_RANGE)
    elif use.decision is Decision.MEASURE_FIRST and use.direction is Direction.NONE:
        yield Unused("aim.by", Why.NOTHING_APPLIED)


def _of_water(context: BedContext, use: AnswerUse) -> Iterator[Unused]:
    water = context.case.water
    given = {
        "water.alkalinity": water.alkalinity_mg_l_as_caco3 is not None,
        "water.weekly": water.weekly_mm is not None,
        "water.months": water.months not in MONTHS,
    }
    if not _has_ledger(context):
        why = not_yet(context)
    elif use.held_by_sodium:
        why = Why.SODIUM_FIRST
    elif context.irrigation_mm_year == 0.0:
        why = Why.NO_WATERING
        given["water.weekly"] = False
    else:
        return
    for path, is_given in given.items():
        if is_given:
            yield Unused(path, why)


def _of_feed(context: BedContext, use: AnswerUse) -> Iterator[Unused]:
    feed = context.case.feed
    if feed is None:
        return
    if not _has_ledger(context):
        yield Unused("feed", not_yet(context))
        return
    if use.held_by_sodium:
        yield Unused("feed", Why.SODIUM_FIRST)
        return
    material = feed.material
    no_nitrogen = material is not None and material.n_frac == 0.0
    if material is not None and no_nitrogen and _is_neutral(material, context):
        yield Unused("feed", Why.NEUTRAL)


def _of_on_hand(context: BedContext, use: AnswerUse) -> Iterator[Unused]:
    for number, item in enumerate(context.case.on_hand, start=1):
        path = f"on_hand[{number}]"
        if context.soil is None or context.target is None:
            yield Unused(path, not_yet(context))
        elif use.direction is Direction.NONE:
            yield Unused(path, Why.NOTHING_APPLIED)
        elif useless_on_hand((item,), direction=use.direction):
            yield Unused(path, Why.WRONG_WAY)
        else:
            shared = context.case.currency
            is_compared = item.material.key in use.compared
            yield from _of_price(item, path, is_compared=is_compared, shared=shared)


def _of_price(
    item: OnHand, path: str, *, is_compared: bool, shared: str | None
) -> Iterator[Unused]:
    """Facts of a product without a price to compare; ``shared`` is the currency of the case."""
    has_price = item.price is not None and item.pack_g is not None
    own = None if item.currency == shared else item.currency
    given = {"pack": item.pack_g, "price": item.price, "currency": own}
    for key, value in given.items():
        if value is not None and not (has_price and is_compared):
            yield Unused(f"{path}.{key}", Why.NO_PRICE if is_compared else Why.NOT_COMPARED)


def _of_test_prices(context: BedContext, use: AnswerUse) -> Iterator[Unused]:
    for number, one in enumerate(context.case.test_prices, start=1):
        if one.test not in use.weighed:
            yield Unused(f"test_price[{number}]", Why.TEST_NOT_WEIGHED)


def _of_currency(context: BedContext, use: AnswerUse) -> Iterator[Unused]:
    """The currency of the case, where no price that is shown is in it."""
    case = context.case
    tests = any(one.test in use.weighed for one in case.test_prices)
    products = any(
        item.currency == case.currency
        and item.price is not None
        and item.pack_g is not None
        and item.material.key in use.compared
        for item in case.on_hand
    )
    pots = use.has_pots and case.pot.is_priced
    if case.currency is not None and not (tests or products or pots):
        yield Unused("currency", Why.NO_PRICE_IN_IT)


def _of_applied(context: BedContext, use: AnswerUse) -> Iterator[Unused]:
    case = context.case
    salt = too_much_salt(context)
    for number, applied in enumerate(case.applied, start=1):
        path = f"applied[{number}]"
        if salt is not None and applied.material.key in salt.materials:
            if context.soil is None and applied.incorporated_cm > 0.0:
                yield Unused(f"{path}.incorporated", Why.NO_PH)
            continue
        recent = case.today - applied.on <= timedelta(days=365)
        has_limit = recent and _has_limit(context, applied.material)
        if context.soil is None:
            if applied.incorporated_cm > 0.0 and has_limit:
                yield Unused(f"{path}.incorporated", Why.NO_PH)
            elif not has_limit:
                yield Unused(path, Why.NO_PH)
        elif _is_neutral(applied.material, context) and not has_limit:
            yield Unused(path, Why.NEUTRAL)
        elif use.direction is Direction.ACIDIFY and applied.material.elemental_s_frac > 0.0:
            continue  # soil that has had sulfur oxidises the next without a lag
        elif not has_limit and _had_all_acted(context, number - 1):
            yield Unused(path, Why.ALL_ACTED)


def _had_all_acted(context: BedContext, number: int) -> bool:
    """Whether nothing was left of what was put on when the first reading that counts was taken."""
    seasons = season_readings(context.case)
    pending = context.pending[number]
    before = bool(seasons) and context.case.applied[number].on < seasons[0].day
    return before and abs(pending.acid_mmolc_m2) <= NOTHING_LEFT * abs(pending.total_mmolc_m2)


def _of_readings(context: BedContext, use: AnswerUse) -> Iterator[Unused]:
    case = context.case
    season = current_season(case)
    if season is None:
        return
    explained = sum(reading.depth_cm is not None for reading in dated_readings(case)) > 1 and any(
        row.check == AGREEMENT and not row.passed for row in reading_findings(context)
    )
    for number, reading in enumerate(case.readings, start=1):
        same = reading.taken == season.leading.taken and reading.ph == season.leading.ph
        if reading.depth_cm is not None and not same and not explained:
            yield Unused(f"reading[{number}].depth", Why.DEPTHS_AGREE)
    report, leading = case.soil.ph, season.leading
    given = report is not None and case.soil.sample_depth_cm is not None
    if given and report is not None and not explained and leading.depth_cm is not None:
        day = report.taken or case.soil.sampled or case.today
        if (leading.ph, leading.taken) != (report.ph, min(day, case.today)):
            yield Unused("soil.sample_depth", Why.DEPTHS_AGREE)


def _of_titration_and_claims(context: BedContext) -> Iterator[Unused]:
    case = context.case
    if case.titration and (context.soil is None or not needs_curve(context)):
        yield Unused("titration", not_yet(context))
    if context.soil is None:
        for number, claim in enumerate(case.claims, start=1):
            if not _has_limit(context, claim.material):
                yield Unused(f"claim[{number}]", Why.NO_PH)


def _is_tree(plant: Plant) -> bool:
    """A tree has steps of its own in a rescue."""
    return "tree" in plant.group.casefold()


def _has_ledger(context: BedContext) -> bool:
    """True where the yearly ledger is drawn up: it needs a soil and an aim."""
    return context.soil is not None and context.target is not None


def _has_limit(context: BedContext, material: Material) -> bool:
    cap = product_cap(material, cap_situation=context.cap_situation)
    return cap is not None and cap.dose_g_m2 is not None


def _is_neutral(material: Material, context: BedContext) -> bool:
    acid = acid_brought_mmolc_m2(
        material, rate_g_m2=1.0, in_pot=context.in_pot, land_use=context.nitrogen_use
    )
    return acid == 0.0
