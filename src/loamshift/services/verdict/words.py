"""The verdict in sentences: the number that decided, and what would change the decision."""

from __future__ import annotations

from dataclasses import replace

from loamshift.domain.answer import Decision, Direction, Dose, Verdict
from loamshift.domain.bed_context import BedContext, Target
from loamshift.domain.case import Case
from loamshift.domain.plant import Plant
from loamshift.services.context.build_context import require_soil
from loamshift.services.format import format_rate, format_share, format_times
from loamshift.services.verdict.decision_table import Outcome
from loamshift.tables.model import verdict_values
from loamshift.tables.plants import load_plants
from loamshift.tables.rules import cap_for

TESTS = {
    "soil.ph": "a laboratory pH in water",
    "soil.ph_method": "the method behind the pH; ask the laboratory",
    "soil.fizz": "a fizz test: ten drops of acid on a spoonful of dry soil",
    "soil.carbonate_pct": "a laboratory figure for free lime (CaCO3)",
    "water.alkalinity": "the alkalinity of the water, from the supplier or a drop kit",
    "soil.texture": "the texture, by feel or from a laboratory",
    "aim.plant": "the plant or the target pH",
    "aim.target_ph": "a second source for this plant's range, or a target pH of your own",
}

_UNKNOWN = {
    "soil.ph": "how near the pH of this reading is",
    "soil.ph_method": "how the pH was read",
    "soil.fizz": "whether the soil holds free lime",
    "soil.carbonate_pct": "how much free lime the soil holds",
    "water.alkalinity": "how much lime the water carries",
    "soil.texture": "how strongly the soil resists",
}

_THEN = {
    "go": "makes the plan an easier one",
    "effort": "calls for more parts, or for some every year",
    "elsewhere": "sends the plants elsewhere",
    "leave": "says to leave the soil alone",
    "stop": "says to stop",
}


_PARTS = {1: "one part", 2: "two parts", 3: "three parts", 4: "four parts", 5: "five parts"}


def verdict(
    context: BedContext, outcome: Outcome, dose: Dose, *, planned_parts: int = 0
) -> Verdict:
    """A decision in words.

    Parameters
    ----------
    context
        The bed as understood [object].
    outcome
        The decision with its figures [object].
    dose
        The static dose [object].
    planned_parts
        Parts of the plan shown beside it, 0 where none is: where it goes on in another number
        than the limit asks of the static dose, the verdict names none [count].

    Returns
    -------
    Verdict
        Decision, reason and what would change it [text].
    """
    words = {
        Decision.STOP: _stop,
        Decision.LEAVE: _leave,
        Decision.MEASURE_FIRST: _measure_first,
        Decision.ELSEWHERE: _elsewhere,
        Decision.EFFORT: _effort,
        Decision.GO: _go,
    }
    if planned_parts and outcome.parts is not None and planned_parts != outcome.parts:
        outcome = replace(outcome, parts=None)
    because, would_change_if = words[outcome.decision](context, outcome, dose)
    return Verdict(decision=outcome.decision, because=because, would_change_if=would_change_if)


def _said_parts(parts: int | None) -> str:
    return "several parts" if parts is None else _PARTS.get(parts, f"{parts} parts")


def _sentence(test: str) -> str:
    """What would settle it, to stand under a label that says so."""
    return f"{test[0].upper()}{test[1:]}."


def plants_that_suit(ph: float, case: Case) -> tuple[str, ...]:
    """A few well-sourced plants of the same kind that like the soil as it is.

    Parameters
    ----------
    ph
        pH the soil has [pH in water].
    case
        The case, for the kind of plant wanted [object].

    Returns
    -------
    tuple of str
        Up to three names, the best sourced first [text].
    """
    wanted = {plant.group.split()[0] for plant in case.aim.plants}
    avoid = {plant.key for plant in case.aim.plants}

    def suits(plant: Plant) -> bool:
        kindred = plant.group.split()[0] in wanted and plant.key not in avoid
        single = not plant.is_group and not plant.is_weak
        return kindred and single and plant.ph_low <= ph <= plant.ph_high

    fitting = [plant for plant in load_plants().values() if suits(plant)]
    fitting.sort(key=lambda plant: (-plant.n_sources, plant.name))
    return tuple(plant.name for plant in fitting[:3])


def _range(target: Target) -> str:
    return f"{target.ph_low:.1f} to {target.ph_high:.1f}"


def _in_water(context: BedContext) -> str:
    return " in water" if require_soil(context).ph.method.is_salt else ""


def _wanted(target: Target) -> str:
    if not target.names:
        return f"the range wanted, {_range(target)}"
    listed = " and ".join(target.names)
    return f"the range for {listed}, {_range(target)}"


def _stop(context: BedContext, outcome: Outcome, dose: Dose) -> tuple[str, str]:
    soil, units = require_soil(context), context.case.units
    limits = verdict_values()
    if outcome.reason in ("overdose-acid", "overdose-lime"):
        acted = max(context.pending, key=lambda item: abs(item.total_mmolc_m2))
        way = "down" if outcome.reason == "overdose-acid" else "up"
        return (
            f"The {acted.material} already put on, {format_rate(acted.rate_g_m2, units)}, is still "
            f"at work and takes this soil {way} to about pH {outcome.ph_expected:.1f}, from "
            f"{soil.ph.ph_water:.1f} when it was sampled.",
            "A test of pH and salts in a few weeks, at the depth it was worked in, that shows "
            "less of it has acted than we reckon.",
        )
    if outcome.reason == "over-cap":
        acted = max(context.pending, key=lambda item: item.acid_mmolc_m2)
        cap = cap_for(applies_to="sulfur", situation=context.cap_situation, per="year").limit_g_m2
        return (
            f"The {acted.material} already put on, {format_rate(acted.rate_g_m2, units)}, is "
            f"{format_times(acted.rate_g_m2 / cap)} what a year may bring to ground with roots in "
            f"it, {format_rate(cap, units)}. The pH may end near {outcome.ph_expected:.1f}, but so "
            "much acid at once injures roots.",
            "A weighed amount well below this one.",
        )
    if outcome.reason == "too-acid":
        return (
            f"The soil reads pH {soil.ph.ph_water:.1f}. Below {limits['harmful_ph']:.1f} aluminium "
            "injures roots, and acid sulfate soil is possible; nothing that acidifies belongs "
            "here, and lime only after a specialist has looked.",
            "A second laboratory reading above it.",
        )
    if outcome.reason == "sodic":
        return (
            f"Sodium holds {context.case.soil.sodium_pct:.0f} % of the exchange sites; from "
            f"{limits['sodic_pct']:.0f} % on a soil is sodic, and its pH cannot be judged by lime "
            "and acid alone.",
            "A laboratory report that shows less sodium.",
        )
    if outcome.reason == "salt":
        return (
            f"The soil holds too much salt already ({context.case.soil.ec_ds_m:g} dS/m by "
            f"{context.case.soil.ec_method}); every material here would add more.",
            "A low reading after the bed has been washed through with good water.",
        )
    return (
        "The ground is waterlogged. Without air sulfur turns to hydrogen sulfide, not to acid.",
        "Drainage that lets the bed dry out between rains.",
    )


def _leave(context: BedContext, outcome: Outcome, dose: Dose) -> tuple[str, str]:
    soil, target = require_soil(context), context.target
    assert target is not None
    if outcome.reason == "in-range":
        return (
            f"pH {soil.ph.ph_water:.1f} lies in {_wanted(target)}, with a probability of "
            f"{format_share(outcome.in_range)} once the error of the reading is counted in.",
            f"A careful test outside {_range(target)}.",
        )
    if outcome.reason == "at-work":
        return (
            f"What was already put on is still at work and takes this soil to about pH "
            f"{outcome.ph_expected:.1f} by itself, from {soil.ph.ph_water:.1f} when it was "
            f"sampled; {_wanted(target)}. More now would overshoot.",
            "A test once it has acted that still lies outside the range.",
        )
    gap = max(target.ph_low - soil.ph.ph_water, soil.ph.ph_water - target.ph_high, 0.0)
    where = "at" if gap < 0.05 else f"only {gap:.1f} from"
    return (
        f"pH {soil.ph.ph_water:.1f} is {where} the edge of {_wanted(target)}. A gain below "
        f"{verdict_values()['leave_gain_ph']:.1f} cannot be told from the scatter of two tests."
        if not target.ph_low <= soil.ph.ph_water <= target.ph_high
        else f"pH {soil.ph.ph_water:.1f} already lies in {_wanted(target)}; there is nothing to "
        "gain that a second test could show.",
        f"A repeat test more than {verdict_values()['leave_gain_ph']:.1f} outside "
        f"{_range(target)}.",
    )


def _measure_first(context: BedContext, outcome: Outcome, dose: Dose) -> tuple[str, str]:
    test = TESTS.get(outcome.measure or "", outcome.measure or "a test")
    if outcome.reason == "no-ph":
        return (
            "There is no pH reading, and no advice on pH can be given without one.",
            "A laboratory pH in water, with the depth sampled.",
        )
    if outcome.reason == "no-aim":
        reading = f" (it reads {context.soil.ph.ph_water:.1f})" if context.soil else ""
        return (
            f"Nothing says what the soil is wanted for, so no pH can be called right{reading}.",
            "The plant, or a target pH.",
        )
    if outcome.reason == "weak-range":
        assert context.target is not None
        return (
            f"The range {_range(context.target)} rests on one source or on memory; that is too "
            "little to move a whole bed for.",
            _sentence(test),
        )
    unknown = _UNKNOWN.get(outcome.measure or "", "the answer of one test")
    then = _THEN.get(outcome.measure_shift, "changes the answer")
    return (
        f"What decides is not known yet: {unknown}. The chance is "
        f"{format_share(outcome.measure_probability)} that the test {then}.",
        _sentence(test),
    )


def _elsewhere(context: BedContext, outcome: Outcome, dose: Dose) -> tuple[str, str]:
    soil, units = require_soil(context), context.case.units
    assert context.target is not None and outcome.cap_year_g_m2 is not None
    band = dose.sulfur_as_s_g_m2 or dose.lime_as_caco3_g_m2
    assert band is not None
    acidify = outcome.direction is Direction.ACIDIFY
    material = "sulfur" if acidify else "lime"
    three = 3.0 * outcome.cap_year_g_m2
    because = (
        f"To reach pH {context.target.ph_aim:.1f} this soil would take about "
        f"{format_rate(band.mid, units)} of {material}; three seasons at the printed limit bring "
        f"{format_rate(three, units)}. The chance that this is enough is "
        f"{format_share(outcome.covered or 0.0)}."
    )
    if acidify and (dose.carbonate_share or 0.0) > 0.5:
        because += " Most of it would go into free lime."
    if context.in_pot:
        return (
            because + " Move the plants into fresh acid mix and water them with rain water or "
            "with water that has been acidified.",
            "Water with little alkalinity, in a mix that has not yet drifted.",
        )
    names = plants_that_suit(soil.ph.ph_water, context.case)
    if context.planted:
        instead = (
            f" In their place belong plants that like it ({', '.join(names)})." if names else ""
        )
        return (
            because + " The plants that stand there can be helped without moving the pH." + instead,
            "A laboratory figure for free lime far below what we reckon."
            if acidify
            else "A buffer pH or jar titration showing that the soil resists far less.",
        )
    other = f", or plants that like it as it is ({', '.join(names)})" if names else ""
    return (
        because + f" Use a pot or a raised bed with the right soil and soft water{other}.",
        "A laboratory figure for free lime far below what we reckon."
        if acidify
        else "A buffer pH or jar titration showing that the soil resists far less.",
    )


def _effort(context: BedContext, outcome: Outcome, dose: Dose) -> tuple[str, str]:
    units = context.case.units
    assert context.target is not None
    band = dose.sulfur_as_s_g_m2 or dose.lime_as_caco3_g_m2
    assert band is not None and outcome.cap_dose_g_m2 is not None
    material = "sulfur" if outcome.direction is Direction.ACIDIFY else "lime"
    head = (
        f"pH {context.target.ph_aim:.1f} is within reach, with about "
        f"{format_rate(band.mid, units)} of {material}"
    )
    if outcome.reason == "yearly":
        pull = "the water" if outcome.direction is Direction.ACIDIFY else "leaching and feed"
        return (
            f"{head}, but {pull} takes back about {outcome.pull_ph_year:.1f} pH every year, so it "
            "goes on for as long as the plants grow.",
            "Rain water, or water with little alkalinity."
            if outcome.direction is Direction.ACIDIFY
            else "A feed that does not acidify.",
        )
    return (
        f"{head}; at most {format_rate(outcome.cap_dose_g_m2, units)} may go on at once here, so "
        f"it takes {_said_parts(outcome.parts)} and more than a year.",
        "A jar titration or buffer test showing that the soil resists less, or an empty bed, "
        "which takes larger parts."
        if context.planted
        else "A jar titration or buffer test showing that the soil resists less.",
    )


def _go(context: BedContext, outcome: Outcome, dose: Dose) -> tuple[str, str]:
    units, soil = context.case.units, require_soil(context)
    assert context.target is not None
    band = dose.sulfur_as_s_g_m2 or dose.lime_as_caco3_g_m2
    assert band is not None
    material = "sulfur" if outcome.direction is Direction.ACIDIFY else "lime"
    return (
        f"From pH {soil.ph.ph_water:.1f}{_in_water(context)} to "
        f"{context.target.ph_aim:.1f} takes about "
        f"{format_rate(band.mid, units)} of {material}, which the printed limit allows in "
        f"{_said_parts(outcome.parts)}; "
        "nothing known pulls it back faster than a yearly test can follow.",
        "A fizz test or laboratory figure that shows free lime."
        if outcome.direction is Direction.ACIDIFY
        else "A repeat test that already lies in the range.",
    )
