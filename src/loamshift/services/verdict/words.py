"""The verdict in sentences, made from the judgement's reason and its figures and nothing else."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import timedelta
from typing import Final

from loamshift.domain.answer import Decision, Direction, Reason, Verdict
from loamshift.domain.bed_context import BedContext
from loamshift.domain.case import BedKind
from loamshift.services.context.build_context import require_soil
from loamshift.services.context.wanted_day import wanted_by
from loamshift.services.format import format_date, format_rate, format_share
from loamshift.services.verdict.bed_words import Planned
from loamshift.services.verdict.bed_words import range_words as _range
from loamshift.services.verdict.bed_words import reads_words as _reads
from loamshift.services.verdict.bed_words import target_of_bed as _target
from loamshift.services.verdict.bed_words import wanted_words as _wanted
from loamshift.services.verdict.doubts import (
    hardly_a_soil,
    holds_free_lime,
    lime_contradicts_ph,
    unknown_of_water,
)
from loamshift.services.verdict.judgement import Judgement
from loamshift.services.verdict.other_plants import plants_that_suit
from loamshift.services.verdict.stop_words import (
    no_aim_words,
    no_common_range_words,
    no_ph_words,
    overdose_words,
    salt_words,
    sodic_words,
    too_acid_words,
    waterlogged_words,
)
from loamshift.tables.model import verdict_values
from loamshift.tables.parameters import parameter_values

TESTS: Final = {
    "soil.ph": "a laboratory pH in water",
    "soil.ph_method": "the method behind the pH; ask the laboratory",
    "soil.sodium_pct": "exchangeable sodium, with salt (EC), from a laboratory",
    "soil.fizz": "a fizz test: ten drops of acid on a spoonful of dry soil",
    "soil.carbonate_pct": "a laboratory figure for free lime (CaCO3)",
    "water.alkalinity": "the alkalinity of the water, from the supplier or a drop kit",
    "water.weekly": "how much water the bed gets in a week",
    "titration": "a jar titration of this soil, or a buffer pH",
    "soil.texture": "the texture, by feel or from a laboratory",
    "aim.plant": "the plant or the target pH",
    "aim.target_ph": "a second source for this plant's range, or a target pH of your own",
}
_UNKNOWN: Final = {
    Reason.DOUBTFUL_READING: "how accurate this pH reading is",
    Reason.UNKNOWN_LIME: "whether the soil holds free lime, and how much",
    Reason.UNKNOWN_WATER: "how much alkalinity the water carries",
    Reason.UNKNOWN_TEXTURE: "how strongly the soil resists a change",
}
_SHIFT: Final = {
    Decision.GO: "make the plan an easier one",
    Decision.EFFORT: "call for more applications, or for some every year",
    Decision.ELSEWHERE: "send the plants elsewhere",
    Decision.LEAVE: "say to leave the soil alone",
    Decision.STOP: "say to stop",
}
_ONE_TEST_PH: Final = 0.05
"""Nearer than this a reading and what is believed are told as one [pH]."""
_LARGE_M2: Final = 100.0
"""Ground larger than this is not replaced by raised beds [m2]."""


def verdict(context: BedContext, judged: Judgement, plan: Planned) -> Verdict:
    """A judgement in words.

    Parameters
    ----------
    context
        The bed as understood [object].
    judged
        The judgement on it [object].
    plan
        Its plan, None without one [object].

    Returns
    -------
    Verdict
        Decision, reason and what would change it [text].
    """
    because, would_change_if = _SENTENCES[judged.reason](context, judged, plan)
    return Verdict(
        decision=judged.decision,
        because=because,
        would_change_if=would_change_if,
        reason=judged.reason,
        ph_now=judged.ph_now,
    )


def _substance(judged: Judgement) -> str:
    return "sulfur" if judged.direction is Direction.ACIDIFY else "lime"


def _sentence(test: str) -> str:
    """What would settle it, to stand under a label that says so."""
    return f"{test[0].upper()}{test[1:]}."


def _start(context: BedContext, plan: Planned) -> str:
    """What goes on first, as the plan has it."""
    if plan is None:
        return ""
    units = context.case.units
    test = (
        f" Test on {format_date(plan.decides[0].test, units)}: the test decides what follows."
        if plan.decides
        else ""
    )
    if not plan.parts:
        return f" Put on nothing yet.{test}"
    rate = sum(part.rate_g_m2 for part in plan.parts)
    return f" Start with {format_rate(rate, units)} of {plan.material}.{test}"


def _change_test(context: BedContext, judged: Judgement) -> str:
    """An undone test that bears on how much there is to do."""
    soil = require_soil(context)
    acidify = judged.direction is Direction.ACIDIFY
    if acidify and soil.carbonate.is_possible and not soil.carbonate.measured:
        if context.case.soil.fizz is None:
            return "A fizz test that shows free lime."
        return "A laboratory figure for free lime (CaCO3)."
    if not soil.k.contributions and not context.case.titration:
        return f"{_resistance_test(context)} showing that the soil resists far more, or far less."
    return _repeat_test(context)


def _repeat_test(context: BedContext) -> str:
    """A further test that would take the reason away: in the range, or still there in a year."""
    target, ph = _target(context), require_soil(context).ph.ph_water
    if target.ph_low <= ph <= target.ph_high:
        return "A test a year from now that reads the same."
    return f"A repeat test already within {_range(target)}."


def _resistance_test(context: BedContext) -> str:
    """A test of how strongly the soil resists that nobody has made."""
    given = context.case.soil.buffer_ph is not None or context.organic_only
    return "A jar titration" if given else "A buffer pH or jar titration"


def _ph_apart(context: BedContext, judged: Judgement) -> float | None:
    """Where the bed is now, if its readings together put it elsewhere than the last [pH]."""
    now, read = judged.ph_now, require_soil(context).ph.ph_water
    return None if now is None or abs(now - read) < _ONE_TEST_PH else now


def _stay(context: BedContext, judged: Judgement) -> str:
    """How many beds stay near the range if nothing is done, and until when."""
    by = wanted_by(context.case)
    ahead = "over the next years"
    if by is not None and by > context.case.today:
        ahead = f"until {format_date(by, context.case.units)} and for a year after"
    return (
        f"Of 100 beds like this one left alone, {_in_100(judged.stays)} stay in or close to that "
        f"range {ahead}."
    )


def _in_range(context: BedContext, judged: Judgement, plan: Planned) -> tuple[str, str]:
    target, apart = _target(context), _ph_apart(context, judged)
    stands = (
        f"It tested at {_reads(context)}"
        if apart is None
        else f"By all that was read and has gone on since, it is at about pH {apart:.1f} now"
    )
    return (
        f"{stands}, within {_wanted(target)}. {_stay(context, judged)}",
        f"A careful test outside {_range(target)}.",
    )


def _at_work(context: BedContext, judged: Judgement, plan: Planned) -> tuple[str, str]:
    comes_to = round(judged.ph_alone_on or judged.ph_expected or 0.0, 1)
    target = _target(context)
    ends = (
        f"That is within {_wanted(target)}. More now would overshoot."
        if target.ph_low <= comes_to <= target.ph_high
        else f"That is so near to {_wanted(target)}, that a second test could not show the rest."
    )
    return (
        "What was already put on is still reacting and takes this soil to about pH "
        f"{comes_to:.1f} by itself, from {require_soil(context).ph.ph_water:.1f} when it was "
        f"sampled. {ends}",
        "A test, once it has reacted, that still lies outside the range.",
    )


def _small_gain(context: BedContext, judged: Judgement, plan: Planned) -> tuple[str, str]:
    gain = verdict_values()["leave_gain_ph"]
    apart = _ph_apart(context, judged)
    stands = _reads(context) if apart is None else f"About pH {apart:.1f}, where it is now,"
    return (
        f"{stands} is at the edge of {_wanted(_target(context))}. A change of less than "
        f"{gain:.1f} is no bigger than the usual difference between two tests. "
        f"{_stay(context, judged)}",
        f"A repeat test more than {gain:.1f} outside {_range(_target(context))}.",
    )


def _doubt(context: BedContext, judged: Judgement, plan: Planned) -> tuple[str, str]:
    test = TESTS.get(judged.measure or "", "a test")
    if lime_contradicts_ph(context):
        return (
            f"The pH and the free lime do not fit each other: a soil at {_reads(context)} does not "
            "hold so much lime. One of the two belongs to another sample, or shells and limestone "
            "grit got into it. Put on nothing on the strength of them.",
            "A new, mixed sample with both pH and free lime (CaCO3) read by a laboratory.",
        )
    unfit = judged.reason is Reason.DOUBTFUL_READING and judged.measure_shift is None
    below = require_soil(context).ph.ph_water < _target(context).ph_low
    if unfit and below and holds_free_lime(context):
        return (
            f"The soil holds free lime, and still it reads {_reads(context)}, below "
            f"{_wanted(_target(context))}. Lime is not what it lacks: either the lime is coarse "
            "and still dissolving, or one of the two belongs to another sample. Put on nothing on "
            "the strength of them.",
            "A new, mixed sample with both pH and free lime (CaCO3) read by a laboratory.",
        )
    if unfit and hardly_a_soil(context):
        ph = require_soil(context).ph
        return (
            f"A {ph.method.value} reading of pH {ph.ph_water:.1f} is likelier to be faulty than "
            "true. Put on nothing on the strength of it.",
            _sentence(TESTS["soil.ph"]),
        )
    if unfit:
        return (
            "The readings do not fit what was put on here, so nothing can be advised on them yet.",
            "A new, mixed sample read by a laboratory, with its depth.",
        )
    shift = _SHIFT.get(judged.measure_shift or Decision.GO, "change the advice")
    unknown = _UNKNOWN[judged.reason]
    if judged.measure == "water.weekly":
        unknown = "how much water the bed gets"
    return (
        f"One thing we do not know could change this advice: {unknown}. The chance is "
        f"{format_share(judged.measure_probability)} that the test would {shift}.",
        _sentence(test),
    )


def _unknown_sodium(context: BedContext, judged: Judgement, plan: Planned) -> tuple[str, str]:
    lime = parameter_values("column")["carbonate_plateau_highest_ph"]
    return (
        f"A soil at {_reads(context)} nearly always owes it to sodium: free lime alone holds a "
        f"soil at {lime:.1f} or below. Where sodium is the cause, gypsum and drainage mend it, and "
        "sulfur by these tables does not. Put on nothing before sodium has been tested.",
        _sentence(TESTS["soil.sodium_pct"]),
    )


def _one_source(context: BedContext, judged: Judgement, plan: Planned) -> tuple[str, str]:
    return (
        f"The range {_range(_target(context))} rests on one source, on memory, or on sources that "
        "contradict each other. That is too little to change a whole bed for.",
        _sentence(TESTS["aim.target_ph"]),
    )


def _wanted_day(context: BedContext) -> str:
    by = wanted_by(context.case)
    seasons = int(verdict_values()["seasons"])
    later = context.case.today + timedelta(days=365 * seasons)
    wanted = by if by is not None and by > context.case.today else later
    return format_date(wanted, context.case.units)


def _out_of_reach(context: BedContext, judged: Judgement) -> str:
    units, target = context.case.units, _target(context)
    most = judged.most_g_m2 or 0.0
    return (
        f"To reach pH {target.ph_aim:.1f} this soil would take about "
        f"{format_rate(judged.need_mid_g_m2 or 0.0, units)} of pure {_substance(judged)}. Until "
        f"{_wanted_day(context)} the published limits allow {format_rate(most, units)}. Of 100 "
        f"beds like this one, {_in_100(judged.covered)} would get there."
    )


def _instead(context: BedContext, judged: Judgement) -> str:
    """Where the plants go instead: what makes sense for this kind of bed."""
    names = plants_that_suit(require_soil(context).ph.ph_water, context.case)
    listed = f" ({', '.join(names)})" if names else ""
    if judged.direction is Direction.LIME:
        return f" Choose plants that suit this soil{listed}."
    if context.in_pot:
        return " Repot in fresh lime-free mix, and water with rainwater or treated water."
    if context.planted:
        text = " The plants that stand there can be helped without changing the pH."
        return text + (f" Later, choose plants that suit this soil{listed}." if names else "")
    if context.case.bed.kind is BedKind.FIELD or (context.total_area_m2 or 0.0) > _LARGE_M2:
        return f" Choose plants that suit this soil as it is{listed}."
    other = f", or choose plants that suit this soil{listed}" if names else ""
    return (
        " Use a pot or a raised bed with lime-free soil, watered with rainwater or "
        f"low-alkalinity water{other}."
    )


def _free_lime(context: BedContext, judged: Judgement, plan: Planned) -> tuple[str, str]:
    text = _out_of_reach(context, judged) + " Most of it would go into free lime."
    soil = require_soil(context)
    change = (
        "A laboratory figure for free lime far below our estimate."
        if not soil.carbonate.measured
        else _repeat_test(context)
    )
    return text + _instead(context, judged), change


def _caps(context: BedContext, judged: Judgement, plan: Planned) -> tuple[str, str]:
    if not require_soil(context).k.contributions and not context.case.titration:
        change = f"{_resistance_test(context)} showing that the soil resists far less."
    elif context.planted and not context.in_pot:
        change = "An empty bed, which can take larger applications."
    else:
        change = _repeat_test(context)
    return _out_of_reach(context, judged) + _instead(context, judged), change


def _water(context: BedContext, judged: Judgement, plan: Planned) -> tuple[str, str]:
    target, soil = _target(context), require_soil(context)
    day = _wanted_day(context)
    change = "Rainwater, or water with less alkalinity."
    if not context.water_known:
        change = {
            "water.alkalinity": "The alkalinity of your water, well below our guess.",
            "water.weekly": "Far less water in a week than we had to guess.",
        }[unknown_of_water(context)]
    if judged.decision is Decision.ELSEWHERE:
        text = _out_of_reach(context, judged) + " The water would bring the pH back up."
        return text + _instead(context, judged), change
    if judged.need_mid_g_m2 is None:
        return (
            f"The soil is good: {_reads(context)}, and {_wanted(target)}. The water is not. With "
            f"it we expect about pH {judged.ph_alone_on or soil.ph.ph_water:.1f} by {day}; with "
            f"rainwater it would be {judged.water_rise_ph:.1f} lower. Treat the water first: use "
            "rainwater, or acidify the water.",
            change,
        )
    return (
        f"The water decides here, not the soil. It alone raises the pH by about "
        f"{judged.water_rise_ph:.1f} by {day}. Even if the soil were known exactly, "
        f"{_in_100(judged.held)} of 100 beds like this one could be kept in {_wanted(target)}. "
        "Treat the water first: use rainwater, or acidify the water. Then test again.",
        change,
    )


def _upkeep(context: BedContext, judged: Judgement, plan: Planned) -> tuple[str, str]:
    acidify = judged.direction is Direction.ACIDIFY
    units, target = context.case.units, _target(context)
    inside = target.ph_low <= require_soil(context).ph.ph_water <= target.ph_high
    if acidify and context.water_base_mmolc_m2_year > 0.0:
        change = "Rainwater, or water with little alkalinity."
    elif not acidify and context.case.feed is not None:
        change = "A feed that does not acidify."
    elif inside:
        change = _repeat_test(context)
    else:
        change = _change_test(context, judged)
    if judged.in_range > 0.0 and inside:
        return (
            f"It is within {_wanted(target)} now, and will not stay there: left alone we expect "
            f"about pH {judged.ph_alone_on or 0.0:.1f} in a few years.{_start(context, plan)}",
            change,
        )
    cause = "The water would then raise" if acidify else "Leaching and feed would then lower"
    return (
        f"About {format_rate(judged.need_mid_g_m2 or 0.0, units)} of pure {_substance(judged)} "
        f"would bring this bed to pH {target.ph_aim:.1f}. {cause} it by about "
        f"{judged.pull_ph_year:.1f} a year, so it needs topping up every "
        f"year.{_start(context, plan)}",
        change,
    )


def _several(context: BedContext, judged: Judgement, plan: Planned) -> tuple[str, str]:
    units, target = context.case.units, _target(context)
    where = "around living roots" if context.planted else "at once"
    change = _change_test(context, judged)
    if context.planted and not context.in_pot and require_soil(context).k.contributions:
        change = "An empty bed, which can take larger applications."
    return (
        f"Getting from {_reads(context)} to {target.ph_aim:.1f} takes about "
        f"{format_rate(judged.need_mid_g_m2 or 0.0, units)} of pure {_substance(judged)}. Apply no "
        f"more than {format_rate(judged.cap_dose_g_m2 or 0.0, units)} {where}, so it takes several "
        f"applications over more than a year.{_start(context, plan)}",
        change,
    )


def _within_reach(context: BedContext, judged: Judgement, plan: Planned) -> tuple[str, str]:
    units, target = context.case.units, _target(context)
    return (
        f"Getting from {_reads(context)} to {target.ph_aim:.1f} takes about "
        f"{format_rate(judged.need_mid_g_m2 or 0.0, units)} of pure "
        f"{_substance(judged)}.{_start(context, plan)}",
        _change_test(context, judged),
    )


def _in_100(share: float | None) -> str:
    """A share of beds as a count of a hundred."""
    value = share or 0.0
    if value < 0.01:
        return "fewer than 1"
    if value > 0.99:
        return "more than 99"
    return f"about {round(100.0 * value)}"


_Sentences = Callable[[BedContext, Judgement, Planned], tuple[str, str]]
_SENTENCES: Final[Mapping[Reason, _Sentences]] = {
    Reason.NO_PH: no_ph_words,
    Reason.NO_AIM: no_aim_words,
    Reason.OVERDOSE: overdose_words,
    Reason.TOO_ACID: too_acid_words,
    Reason.SALT: salt_words,
    Reason.SODIC: sodic_words,
    Reason.WATERLOGGED: waterlogged_words,
    Reason.NO_COMMON_RANGE: no_common_range_words,
    Reason.IN_RANGE: _in_range,
    Reason.AT_WORK: _at_work,
    Reason.SMALL_GAIN: _small_gain,
    Reason.UNKNOWN_LIME: _doubt,
    Reason.DOUBTFUL_READING: _doubt,
    Reason.UNKNOWN_WATER: _doubt,
    Reason.UNKNOWN_SODIUM: _unknown_sodium,
    Reason.UNKNOWN_TEXTURE: _doubt,
    Reason.ONE_SOURCE_RANGE: _one_source,
    Reason.FREE_LIME: _free_lime,
    Reason.CAPS: _caps,
    Reason.WATER: _water,
    Reason.UPKEEP: _upkeep,
    Reason.PARTS: _several,
    Reason.MONTHS: _several,
    Reason.WITHIN_REACH: _within_reach,
}
