"""What a letter says in sentences is what its keys hold, and what it asks for is undone."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import timedelta
from typing import Final

from laws.course_laws import A_WEEK, at, horizon
from laws.harm_laws import recent_limits
from laws.law import bed_of, law, reads_now
from loamshift.domain.answer import Answer, Decision, Direction, Reason
from loamshift.domain.bed_context import BedContext
from loamshift.domain.case import Case, Drainage
from loamshift.domain.ph import PhMethod
from loamshift.services.cautions.amount_checks import APPLIED_CHECK, PROPOSED_CHECK
from loamshift.services.format import format_date, format_rate
from loamshift.services.materials.caps import product_cap
from loamshift.tables.model import verdict_values
from loamshift.tables.parameters import parameter_values
from loamshift.tables.rules import cap_for
from wording import read

RATE: Final = r"([\d.,]+ (?:g/m²|kg/m²|lb/100 ft²))"
PH: Final = r"(\d+\.\d)"
FORECAST_PH: Final = 0.15
"""A pH said of the bed left alone, against the forecast of what a test would read [pH]."""
COUNTED: Final = r"(?:fewer than 1|more than 99|about \d+)"


@dataclass(frozen=True, slots=True)
class Ask:
    """A test or change that would change a verdict: how it is known in the text, whether it is
    open in a case, and the reasons it bears on.
    """

    words: str
    is_open: Callable[[Case, BedContext], bool]
    reasons: frozenset[Reason]


_AMOUNTS: Final = frozenset({Reason.WITHIN_REACH, Reason.PARTS, Reason.MONTHS, Reason.UPKEEP})
ASKS: Final = (
    Ask("fizz test", lambda case, _: _lime_open(case) and case.soil.fizz is None,
        _AMOUNTS | {Reason.UNKNOWN_LIME}),
    Ask("laboratory figure for free lime", lambda case, _: _lime_open(case),
        _AMOUNTS | {Reason.UNKNOWN_LIME, Reason.FREE_LIME}),
    Ask("buffer pH or jar titration",
        lambda case, _: case.soil.buffer_ph is None and not case.titration,
        _AMOUNTS | {Reason.CAPS}),
    Ask("less water in a week", lambda case, _: case.water.weekly_mm is None,
        frozenset({Reason.WATER})),
    Ask("much water", lambda case, _: case.water.weekly_mm is None,
        frozenset({Reason.UNKNOWN_WATER})),
    Ask("alkalinity of", lambda case, _: case.water.alkalinity_mg_l_as_caco3 is None,
        frozenset({Reason.WATER, Reason.UNKNOWN_WATER})),
    Ask("ainwater", lambda _, context: context.water_base_mmolc_m2_year > 0.0,
        frozenset({Reason.WATER, Reason.UPKEEP})),
    Ask("The texture", lambda case, _: case.soil.texture is None and case.soil.clay_pct is None,
        frozenset({Reason.UNKNOWN_TEXTURE})),
    Ask("laboratory pH in water",
        lambda _, context: context.soil is None or context.soil.ph.method.is_rough,
        frozenset({Reason.NO_PH, Reason.DOUBTFUL_READING})),
    Ask("method behind the pH",
        lambda _, context: context.soil is not None and context.soil.ph.method is PhMethod.UNKNOWN,
        frozenset({Reason.DOUBTFUL_READING})),
    Ask("he plant", lambda _, context: context.target is None or context.target.names != (),
        frozenset({Reason.NO_AIM, Reason.ONE_SOURCE_RANGE, Reason.NO_COMMON_RANGE})),
    Ask("xchangeable sodium", lambda case, _: case.soil.sodium_pct is None,
        frozenset({Reason.UNKNOWN_SODIUM})),
    Ask("second source", lambda case, _: case.aim.target_ph is None,
        frozenset({Reason.ONE_SOURCE_RANGE})),
    Ask("empty bed", lambda _, context: context.planted and not context.in_pot,
        frozenset({Reason.CAPS, Reason.PARTS, Reason.MONTHS})),
    Ask("feed that does not acidify", lambda case, _: case.feed is not None,
        frozenset({Reason.UPKEEP})),
    Ask("weighed amount", lambda case, _: bool(case.applied), frozenset({Reason.OVERDOSE})),
    Ask("less sodium", lambda case, _: case.soil.sodium_pct is not None,
        frozenset({Reason.SODIC})),
    Ask("flushed", lambda case, _: case.soil.ec_ds_m is not None, frozenset({Reason.SALT})),
    Ask("Drainage", lambda case, _: case.bed.drainage is Drainage.WATERLOGGED,
        frozenset({Reason.WATERLOGGED})),
)  # fmt: skip
"""Everything a verdict asks for, save a further reading of the pH."""


@law("L23")
def what_would_change_it_is_open(case: Case, answer: Answer) -> list[str]:
    """What would change this is not done yet, and bears on the reason."""
    said, context, found = answer.verdict.would_change_if, bed_of(case), []
    if not said:
        return ["nothing would change it"]
    for ask in ASKS:
        if ask.words not in said:
            continue
        if not ask.is_open(case, context):
            found.append(f"{said!r} asks for what is done or not the case")
        if answer.verdict.reason not in ask.reasons:
            found.append(f"{said!r} does not bear on {answer.verdict.reason}")
    ph, wanted = reads_now(case, answer), answer.wanted
    if ph is not None and wanted is not None:
        inside = wanted.ph_low + 0.1 < ph < wanted.ph_high - 0.1
        if "already within" in said and inside:
            found.append(f"{said!r} of a bed that reads {ph:.1f}")
        if "careful test outside" in said and not wanted.ph_low - 0.1 <= ph <= wanted.ph_high + 0.1:
            found.append(f"{said!r} of a bed that reads {ph:.1f}")
    return found


@law("L24")
def figures_in_the_verdict_equal_their_keys(case: Case, answer: Answer) -> list[str]:
    """Every figure in the sentences of the verdict equals its key."""
    said = f"{answer.verdict.because} {answer.verdict.would_change_if}"
    found, covered = [], [False] * len(said)
    for pattern, keys in _phrases(case, answer):
        for match in re.finditer(pattern, said):
            for place in range(*match.span()):
                covered[place] = True
            for number, (group, key) in enumerate(zip(match.groups(), keys, strict=True)):
                if key is not None and group not in key:
                    found.append(
                        f"{match.group(0)!r}: figure {number + 1} is {group}, its key "
                        f"{' or '.join(sorted(key))}"
                    )
    for match in re.finditer(r"\d[\d.,]*", said):
        if not covered[match.start()]:
            found.append(f"{said[max(match.start() - 30, 0) : match.end() + 12]!r} has no key")
    return found


@law("L25")
def one_excess_is_told_one_way(case: Case, answer: Answer) -> list[str]:
    """How many times a limit an amount is, is the same in verdict, checks, claims and rescue."""
    texts = [
        answer.verdict.because,
        *(row.comment for row in answer.findings if _is_amount(row.check)),
        *(claim.comment for claim in answer.claims),
    ]
    if answer.rescue is not None:
        texts.append(answer.rescue.problem)
    ratios = _excesses(case, answer)
    return [
        f"{match.group(0)!r}, and the checks say {', '.join(f'{one:.2f}' for one in ratios)}"
        for text in map(read, texts)
        for match in re.finditer(r"([\d.]+) times (?=the published|the yearly|what)", text)
        if not any(_told_as(match.group(1), ratio) for ratio in ratios)
    ]


@law("L26")
def nothing_given_is_called_missing(case: Case, answer: Answer) -> list[str]:
    """What is called missing was not given, or was given in a way that does not serve."""
    given = {
        "soil.fizz": case.soil.fizz is not None,
        "soil.carbonate_pct": case.soil.carbonate_pct is not None,
        "soil.texture": case.soil.texture is not None or case.soil.clay_pct is not None,
        "soil.organic_matter_pct": case.soil.organic_matter_pct is not None,
        "water.alkalinity": case.water.alkalinity_mg_l_as_caco3 is not None,
        "water.weekly": case.water.weekly_mm is not None,
        "titration": bool(case.titration),
        "bed.area": case.bed.area_m2 is not None,
        "bed.planted": case.bed.planted is not None,
        "place.name": case.place is not None,
        "aim.plant": bool(case.aim.plants) or case.aim.target_ph is not None,
    }
    found = [f"{row.field} is missing and given" for row in answer.missing if given.get(row.field)]
    if case.soil.buffer_ph is not None:
        found += [
            "a buffer pH is asked for and given"
            for row in answer.missing
            if "buffer pH" in read(row.how)
        ]
    return found


@law("L27")
def what_is_within_a_range_lies_in_it(case: Case, answer: Answer) -> list[str]:
    """A pH that is said to lie within a range, or at its edge, does."""
    said, found = answer.verdict.because, []
    near = verdict_values()["leave_gain_ph"]
    for pattern, reach in (
        (rf"pH {PH}[^.]*?(?:\.\d[^.]*?)*? within [^.]*?{PH} to {PH}", 0.0),
        (rf"pH {PH}[^.]*?(?:\.\d[^.]*?)*? at the edge of [^.]*?{PH} to {PH}", near),
    ):
        for match in re.finditer(pattern, said):
            ph, low, high = (float(figure) for figure in match.groups())
            if not low - reach - 0.05 <= ph <= high + reach + 0.05:
                found.append(f"{match.group(0)!r}")
    return found


def _lime_open(case: Case) -> bool:
    return case.soil.carbonate_pct is None


def _is_amount(check: str) -> bool:
    return check.startswith((APPLIED_CHECK, PROPOSED_CHECK))


def _excesses(case: Case, answer: Answer) -> list[float]:
    """Every excess that the checks of this letter hold, alone and with what was put on [1]."""
    rows = [row for row in answer.findings if _is_amount(row.check)]
    there = [0.0, *recent_limits(case).values()]
    alone: list[float] = []
    for row in rows:
        assert isinstance(row.value, float) and isinstance(row.limit, float)
        ratio = row.value / row.limit
        (there if row.check.startswith(APPLIED_CHECK) else alone).append(ratio)
    for claim in case.claims:
        cap = product_cap(claim.material, cap_situation=bed_of(case).cap_situation)
        if cap is not None:
            alone.append(claim.rate_g_m2 / cap.year_g_m2)
    return [*there[1:], *(one + before for one in alone for before in there)]


def _told_as(figure: str, ratio: float) -> bool:
    """Whether a printed figure is this ratio, the figures of the check being rounded too."""
    half = 0.05 if "." in figure else 0.5
    return abs(float(figure) - ratio) <= half + 0.01 * ratio


_Keys = tuple[set[str] | None, ...]


def _phrases(case: Case, answer: Answer) -> Iterator[tuple[str, _Keys]]:
    """The phrases a verdict is made of, and for each of their figures what it must read.

    A key of None stands for a figure that is in no key: a probability, a pull.
    """
    limits = verdict_values()
    yield from _ranges(case, answer)
    yield from _amounts(case, answer)
    reads = _reads(case, answer)
    yield rf"(?:at|from|is|of|^)? ?pH {PH} in water", (reads,)
    yield rf"(?:a soil at|it reads|soil is at|tested at|Getting from|good:) pH {PH}", (reads,)
    yield rf"reading of pH {PH} is likelier", (reads,)
    yield rf"from {PH} when it was sampled", (reads,)
    yield rf"from pH {PH} we expect about pH {PH}", (reads, None)
    yield rf"^pH {PH}(?: in water)? is at the edge", (reads,)
    yield rf"[Aa](?:t a)?bout pH {PH}(?: now|, where it is now)", (reads,)
    yield rf"we expect about pH {PH}", (_alone(case, answer),)
    yield rf"to about pH {PH} by itself", (_alone(case, answer),)
    yield rf"Below {PH} aluminium", ({f"{limits['harmful_ph']:.1f}"},)
    gain = {f"{limits['leave_gain_ph']:.1f}"}
    yield rf"less than {PH} is no bigger", (gain,)
    yield rf"more than {PH} outside", (gain,)
    yield rf"A soil at pH {PH} nearly", (reads,)
    held = parameter_values("column")["carbonate_plateau_highest_ph"]
    yield rf"holds a soil at {PH} or below", ({f"{held:.1f}"},)
    sodium = case.soil.sodium_pct or 0.0
    yield r"Sodium holds (\d+) %", ({f"{sodium:.0f}"},)
    yield r"From (\d+) % on a soil is sodic", ({f"{limits['sodic_pct']:.0f}"},)
    ec = f"{case.soil.ec_ds_m or 0.0:g}"
    extract = re.escape(str(case.soil.ec_method))
    salty = {f"{limits['salt_sensitive_ece_ds_m']:g}", f"{limits['salt_stop_ece_ds_m']:g}"}
    yield rf"\(([\d.]+) dS/m by {extract}, against ([\d.]+) in", ({ec}, salty)
    yield rf"Of 100 beds like this one(?: left alone)?, {COUNTED}", ()
    yield rf"{COUNTED} of 100 beds like this one", ()
    yield rf"{COUNTED} in 100", ()
    yield r"CaCO3", ()
    for moved in (rf"by about {PH} a year", rf"by about {PH} by", rf"would be {PH} lower"):
        yield moved, (None,)
    given = [one.material for one in case.applied] + [one.material for one in case.on_hand]
    for material in given:
        yield re.escape(material.key), ()
    for day in _days(case, answer):
        yield re.escape(day), ()
    if answer.verdict.reason is Reason.OVERDOSE:
        yield from _loads(case, answer)


def _ranges(case: Case, answer: Answer) -> Iterator[tuple[str, _Keys]]:
    wanted = answer.wanted
    for plant in case.aim.plants:
        yield (
            rf"{re.escape(plant.name)} {PH} to {PH}",
            ({f"{plant.ph_low:.1f}"}, {f"{plant.ph_high:.1f}"}),
        )
    if wanted is None:
        return
    low, high, aim = ({f"{ph:.1f}"} for ph in (wanted.ph_low, wanted.ph_high, wanted.ph_aim))
    yield rf"\b(?:for [^.;:]+|wanted|outside|within|range), {PH} to {PH}", (low, high)
    yield rf"\b(?:outside|within|range) {PH} to {PH}", (low, high)
    yield rf"(?:reach|bed to) pH {PH}", (aim,)


def _amounts(case: Case, answer: Answer) -> Iterator[tuple[str, _Keys]]:
    units, dose, wanted = case.units, answer.dose, answer.wanted
    band = dose.sulfur_as_s_g_m2 or dose.lime_as_caco3_g_m2
    if band is not None and wanted is not None:
        need = {format_rate(band.mid, units)}
        aim = {f"{wanted.ph_aim:.1f}"}
        yield rf"pH {PH}(?: in water)? to {PH} takes about {RATE}", (None, aim, need)
        yield rf"would take about {RATE} of pure", (need,)
        yield rf"About {RATE} of pure", (need,)
        substance = "sulfur" if dose.direction is Direction.ACIDIFY else "limestone"
        ground = bed_of(case).cap_situation
        once = cap_for(applies_to=substance, situation=ground, per="dose").limit_g_m2
        year = cap_for(applies_to=substance, situation=ground, per="year").limit_g_m2
        yield rf"no more than {RATE}", ({format_rate(once, units)},)
        seasons = verdict_values()["seasons"]
        yield rf"published limit bring {RATE}", ({format_rate(seasons * year, units)},)
        yield rf"Until [^.]+ the published limits allow {RATE}", (None,)
    if answer.plan is not None:
        first = sum(part.rate_g_m2 for part in answer.plan.parts)
        material = re.escape(answer.plan.material)
        yield rf"Start with {RATE} of {material}", ({format_rate(first, units)},)


def _loads(case: Case, answer: Answer) -> Iterator[tuple[str, _Keys]]:
    """Amounts put on and their limits, as the checks have them."""
    rates: set[str] = set()
    for row in answer.findings:
        if row.check.startswith(APPLIED_CHECK):
            assert isinstance(row.value, float) and isinstance(row.limit, float)
            for figure in (row.value, row.limit):
                rates |= {format_rate(figure + shift, case.units) for shift in (-0.05, 0.0, 0.05)}
    yield rf"{RATE}", (rates,)
    yield r"[\d.]+ times", ()
    yield r"with (?:18|7) water", ()


def _reads(case: Case, answer: Answer) -> set[str]:
    """What the bed is said to read: today's belief, near the reading."""
    soil = bed_of(case).soil
    if soil is None:
        return set()
    if answer.forecast is None:
        now = answer.verdict.ph_now
        return {f"{soil.ph.ph_water:.1f}"} | (set() if now is None else {f"{now:.1f}"})
    return _near(answer.forecast.do_nothing.q50[0]) | {f"{soil.ph.ph_water:.1f}"}


def _alone(case: Case, answer: Answer) -> set[str] | None:
    """What the bed left alone comes to on the day wanted, by the forecast."""
    ahead, (on, _) = answer.forecast, horizon(case)
    if ahead is None or on > ahead.dates[-1] + A_WEEK or answer.verdict.decision is Decision.STOP:
        return None
    return _near(ahead.do_nothing.q50[at(ahead.dates, on)])


def _near(ph: float) -> set[str]:
    steps = round(FORECAST_PH / 0.05)
    return {f"{ph + 0.05 * step:.1f}" for step in range(-steps, steps + 1)}


def _days(case: Case, answer: Answer) -> set[str]:
    """The days a verdict may name: of the first test, the day wanted, the end of the seasons."""
    seasons = int(verdict_values()["seasons"])
    days = {horizon(case)[0], case.today + timedelta(days=365 * seasons)}
    if answer.plan is not None:
        days |= {answer.plan.on, *(line.test for line in answer.plan.decides)}
    if case.aim.by is not None:
        days.add(case.aim.by)
    return {format_date(day, case.units) for day in days}
