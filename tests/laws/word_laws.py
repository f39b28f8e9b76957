"""What a letter says in sentences is what its keys hold, and what it asks for is undone."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from math import isclose
from typing import Final

from laws.course_laws import A_WEEK, at, horizon
from laws.harm_laws import YEAR, recent_limits
from laws.law import bed_of, law, reads_now
from loamshift.domain.answer import Answer, Decision, Direction, Reason
from loamshift.domain.bed_context import BedContext
from loamshift.domain.case import Case, Drainage
from loamshift.domain.letter import Paragraph
from loamshift.domain.message import Listed, Measure, Message, Prose
from loamshift.domain.ph import PhMethod
from loamshift.report.holding import upkeep_habit
from loamshift.report.letter_upkeep import keeping
from loamshift.report.messages import say
from loamshift.report.words import Words
from loamshift.services.cautions.amount_checks import APPLIED_CHECK, PROPOSED_CHECK
from loamshift.services.context.overdose import recent_loads
from loamshift.services.context.readings import dated_readings
from loamshift.services.materials.caps import product_cap
from loamshift.services.upkeep.upkeep import FEED_LINE, called
from loamshift.tables.model import verdict_values
from loamshift.tables.parameters import parameter_values
from loamshift.tables.rules import cap_for
from loamshift.units import lime_as_caco3_g_m2_from_acid_mmolc_m2
from wording import read

METRIC: Final = Words("uk", "metric")
FORECAST_PH: Final = 0.15
"""A pH said of the bed left alone, against the forecast of what a test would read [pH]."""


@dataclass(frozen=True, slots=True)
class Ask:
    """A test or change that would change a verdict: whether it is open in a case, and the reasons
    it bears on.
    """

    is_open: Callable[[Case, BedContext], bool]
    reasons: frozenset[Reason]


_AMOUNTS: Final = frozenset({Reason.WITHIN_REACH, Reason.PARTS, Reason.MONTHS, Reason.UPKEEP})
_FIZZ: Final = Ask(
    lambda case, _: _lime_open(case) and case.soil.fizz is None, _AMOUNTS | {Reason.UNKNOWN_LIME}
)
_CARBONATE: Final = Ask(
    lambda case, _: _lime_open(case), _AMOUNTS | {Reason.UNKNOWN_LIME, Reason.FREE_LIME}
)
_BUFFERING: Final = Ask(
    lambda case, _: case.soil.buffer_ph is None and not case.titration, _AMOUNTS | {Reason.CAPS}
)
_JAR: Final = Ask(lambda case, _: not case.titration, _AMOUNTS | {Reason.CAPS})
_ALKALINITY: Final = Ask(
    lambda case, _: case.water.alkalinity_mg_l_as_caco3 is None,
    frozenset({Reason.WATER, Reason.UNKNOWN_WATER}),
)
ASKS: Final = {
    "verdict-fizz-change": _FIZZ,
    "settle-soil-fizz": _FIZZ,
    "verdict-free-lime-change": _CARBONATE,
    "verdict-less-lime-change": _CARBONATE,
    "settle-soil-carbonate-pct": _CARBONATE,
    "verdict-water-weekly-change": Ask(
        lambda case, _: case.water.weekly_mm is None, frozenset({Reason.WATER})
    ),
    "settle-water-weekly": Ask(
        lambda case, _: case.water.weekly_mm is None, frozenset({Reason.UNKNOWN_WATER})
    ),
    "verdict-water-alkalinity-change": _ALKALINITY,
    "settle-water-alkalinity": _ALKALINITY,
    "verdict-rainwater-change": Ask(
        lambda _, context: context.water_base_mmolc_m2_year > 0.0,
        frozenset({Reason.WATER, Reason.UPKEEP}),
    ),
    "settle-titration": Ask(
        lambda case, _: not case.titration, frozenset({Reason.UNKNOWN_TEXTURE})
    ),
    "settle-jar-titration": Ask(
        lambda case, _: not case.titration, frozenset({Reason.UNKNOWN_TEXTURE})
    ),
    "settle-soil-texture": Ask(
        lambda case, _: case.soil.texture is None and case.soil.clay_pct is None,
        frozenset({Reason.UNKNOWN_TEXTURE}),
    ),
    "settle-soil-ph": Ask(
        lambda _, context: context.soil is None or context.soil.ph.method.is_rough,
        frozenset({Reason.DOUBTFUL_READING}),
    ),
    "verdict-no-ph-change": Ask(lambda _, context: context.soil is None, frozenset({Reason.NO_PH})),
    "settle-soil-ph-method": Ask(
        lambda _, context: context.soil is not None and context.soil.ph.method is PhMethod.UNKNOWN,
        frozenset({Reason.DOUBTFUL_READING}),
    ),
    "verdict-no-aim-change": Ask(
        lambda _, context: context.target is None, frozenset({Reason.NO_AIM})
    ),
    "verdict-no-common-range-change": Ask(
        lambda case, _: len(case.aim.plants) > 1, frozenset({Reason.NO_COMMON_RANGE})
    ),
    "settle-soil-sodium-pct": Ask(
        lambda case, _: case.soil.sodium_pct is None, frozenset({Reason.UNKNOWN_SODIUM})
    ),
    "settle-aim-target-ph": Ask(
        lambda case, _: case.aim.target_ph is None, frozenset({Reason.ONE_SOURCE_RANGE})
    ),
    "verdict-empty-bed-change": Ask(
        lambda _, context: context.planted and not context.in_pot,
        frozenset({Reason.CAPS, Reason.PARTS, Reason.MONTHS}),
    ),
    "verdict-upkeep-gentle-feed-change": Ask(
        lambda case, _: case.feed is not None, frozenset({Reason.UPKEEP})
    ),
    "verdict-later-day-change": Ask(
        lambda case, _: case.aim.by is not None, frozenset({Reason.CAPS})
    ),
    "verdict-overdose-change": Ask(
        lambda case, _: bool(case.applied), frozenset({Reason.OVERDOSE})
    ),
    "verdict-sodic-change": Ask(
        lambda case, _: case.soil.sodium_pct is not None, frozenset({Reason.SODIC})
    ),
    "verdict-salt-put-on-change": Ask(lambda case, _: bool(case.applied), frozenset({Reason.SALT})),
    "verdict-salt-change": Ask(
        lambda case, _: case.soil.ec_ds_m is not None, frozenset({Reason.SALT})
    ),
    "verdict-waterlogged-change": Ask(
        lambda case, _: case.bed.drainage is Drainage.WATERLOGGED, frozenset({Reason.WATERLOGGED})
    ),
}
"""Everything a verdict asks for by its message, save a further reading of the pH."""
_BY_TEST: Final = {
    ("verdict-buffering-change", "buffer"): _BUFFERING,
    ("verdict-buffering-change", "jar"): _JAR,
    ("verdict-buffering-either-change", "buffer"): _BUFFERING,
    ("verdict-buffering-either-change", "jar"): _JAR,
}
_A_READING: Final = frozenset(
    {
        "verdict-overdose-change-test",
        "verdict-too-acid-change",
        "verdict-in-range-change",
        "verdict-at-work-change",
        "verdict-small-gain-change",
        "verdict-new-sample-both",
        "verdict-new-sample-depth",
        "verdict-same-in-a-year-change",
        "verdict-repeat-change",
        "verdict-planned-test-change",
    }
)
"""Messages that ask for a further reading of the pH."""


@law("L23")
def what_would_change_it_is_open(case: Case, answer: Answer) -> list[str]:
    """What would change this is not done yet, and bears on the reason."""
    change, context, found = answer.verdict.would_change_if, bed_of(case), []
    if not isinstance(change, Message):
        return ["nothing would change it"]
    said = read(change)
    ask = ASKS.get(change.key) or _BY_TEST.get((change.key, str(change.values.get("test"))))
    if ask is None and change.key not in _A_READING:
        found.append(f"{said!r} is nothing that can be asked for")
    if ask is not None and not ask.is_open(case, context):
        found.append(f"{said!r} asks for what is done or not the case")
    if ask is not None and answer.verdict.reason not in ask.reasons:
        found.append(f"{said!r} does not bear on {answer.verdict.reason}")
    ph, wanted = reads_now(case, answer), answer.wanted
    if ph is not None and wanted is not None:
        inside = wanted.ph_low + 0.1 < ph < wanted.ph_high - 0.1
        if change.key == "verdict-repeat-change" and inside:
            found.append(f"{said!r} of a bed that reads {ph:.1f}")
        outside = not wanted.ph_low - 0.1 <= ph <= wanted.ph_high + 0.1
        if change.key == "verdict-in-range-change" and outside:
            found.append(f"{said!r} of a bed that reads {ph:.1f}")
    if change.values.get("far") == "yes" and answer.plan is not None and answer.plan.decides:
        found.append(f"{said!r} above a plan that a test decides")
    return found


@law("L24")
def figures_in_the_verdict_equal_their_keys(case: Case, answer: Answer) -> list[str]:
    """Every figure in the messages of the verdict equals its key."""
    found = []
    keys = _keys(case, answer)
    for message in all_messages(answer):
        for name, value in _figures(message):
            where = (message.key, name)
            if where not in keys:
                found.append(f"{name} of {message.key} has no key")
                continue
            key = keys[where]
            if key is not None and not key(value):
                found.append(f"{name} of {message.key} is {value}, which is not its key")
    return found


def _figures(message: Message) -> Iterator[tuple[str, Measure | date]]:
    """Numbers and days of a message by name, those of a list each."""
    for name, value in message.values.items():
        for one in value.items if isinstance(value, Listed) else (value,):
            if isinstance(one, (Measure, date)):
                yield name, one


def all_messages(answer: Answer) -> Iterator[Message]:
    """Every message of the verdict of an answer, with those inside others."""
    waiting: list[object] = [answer.verdict.because, answer.verdict.would_change_if]
    while waiting:
        one = waiting.pop(0)
        if isinstance(one, Prose):
            waiting.extend(one.sentences)
        elif isinstance(one, Listed):
            waiting.extend(one.items)
        elif isinstance(one, Message):
            yield one
            waiting.extend(one.values.values())


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
    near = verdict_values()["leave_gain_ph"]
    reach = {
        "verdict-in-range": 0.0,
        "verdict-in-range-now": 0.0,
        "verdict-at-work-within": 0.0,
        "verdict-water-soil-good": 0.0,
        "verdict-water-soil-good-now": 0.0,
        "verdict-feed-soil-good": 0.0,
        "verdict-feed-soil-good-now": 0.0,
        "verdict-small-gain": near,
        "verdict-small-gain-now": near,
    }
    found, wanted = [], answer.wanted
    for message in all_messages(answer):
        if message.key not in reach or wanted is None:
            continue
        ph = _ph_of(message, answer)
        far = (near if message.values.get("inside") == "no" else reach[message.key]) + 0.05
        if ph is not None and not wanted.ph_low - far <= ph <= wanted.ph_high + far:
            found.append(f"{read(message)!r}")
    return found


_DRIFT_NOW: Final = re.compile(r"How fast a pH drifts.*? years?\.")
"""What the pH does where it stands now says nothing of holding it where a plan takes it."""
_EACH_YEAR: Final = re.compile(r"(?:[Aa]pply|add|give) [\d.,]+ g/m² of [^.]*? (?:a|each) year")
"""A yearly amount that somebody is told to apply."""
_APART: Final = (
    ("would hardly change", "undo the whole change"),
    ("would fall by", "undo the whole change"),
    ("is needed to hold", "would still rise"),
    ("is needed to hold", "the water is treated"),
)
"""Words that one letter must not say both of."""


@law("L28")
def holding_the_ph_is_one_judgement(case: Case, answer: Answer) -> list[str]:
    """What is said about holding the pH contradicts neither the verdict nor itself."""
    section, habit = keeping(answer, case, words=METRIC), upkeep_habit(answer, case)
    if section is None:
        return []
    texts = [block.text for block in section.blocks if isinstance(block, Paragraph)]
    said = " ".join((*texts, "" if habit is None else say(habit, METRIC)))
    said = _DRIFT_NOW.sub("", said)
    amounts = _EACH_YEAR.findall(said)
    verdict = answer.verdict
    acts = verdict.decision in (Decision.GO, Decision.EFFORT) or verdict.reason is Reason.UPKEEP
    found = [
        f"{one!r} where the verdict is {verdict.decision.value}" for one in amounts if not acts
    ]
    found += [f"{one!r} and {other!r}" for one, other in _APART if one in said and other in said]
    pure = [one for one in amounts if " of pure " in one]
    decided = re.search(r"(?:apply no|Apply it only|Apply lime only|Use rainwater)[^.]*", said)
    if pure and decided:
        found.append(f"{pure[0]!r} and {decided[0]!r}")
    if pure and "of nitrogen a year" not in said and "would hardly change" in said:
        found.append(f"{pure[0]!r} for a bed that hardly changes")
    return found


def _ph_of(message: Message, answer: Answer) -> float | None:
    """The pH that a message places [pH]: its own, of its reading, or of the sentence before."""
    reading = message.values.get("reading")
    own = message.values.get("ph")
    if own is None and isinstance(reading, Message):
        own = reading.values.get("ph")
    if message.key == "verdict-at-work-within":
        before = next(one for one in all_messages(answer) if one.key == "verdict-at-work")
        own = before.values.get("expected")
    return round(own.value, 1) if isinstance(own, Measure) else None


def _lime_open(case: Case) -> bool:
    return case.soil.carbonate_pct is None


def _is_amount(check: str) -> bool:
    return check.startswith((APPLIED_CHECK, PROPOSED_CHECK))


def _excesses(case: Case, answer: Answer) -> list[float]:
    """Every excess that the checks of this letter hold, alone and with what was put on [1].

    What is older than a year counts by what of it has yet to react, as the sums of the checks do
    even where a row tells of one dose and not of its sum.
    """
    rows = [row for row in answer.findings if _is_amount(row.check)]
    there = [0.0, *recent_limits(case).values()]
    if any(case.today - applied.on > YEAR for applied in case.applied):
        there += [load.times for load in recent_loads(bed_of(case)) if load.is_old]
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


_Holds = Callable[[Measure | date], bool]


def _is(*figures: float) -> _Holds:
    """One of these numbers."""
    return lambda value: (
        isinstance(value, Measure)
        and any(isclose(value.value, figure, rel_tol=1e-6, abs_tol=1e-9) for figure in figures)
    )


def _keys(case: Case, answer: Answer) -> dict[tuple[str, str], _Holds | None]:
    """For each figure of a message of the verdict what it must be; None where no key holds it.

    Those are a probability, a pull, and where a bed comes to that has no forecast.
    """
    limits, wanted = verdict_values(), answer.wanted
    reads, alone, days = _reads(case, answer), _alone(case, answer), _days(case, answer)
    gain, harmful = _is(limits["leave_gain_ph"]), _is(limits["harmful_ph"])
    held = _is(parameter_values("column")["carbonate_plateau_highest_ph"])

    def on(value: Measure | date) -> bool:
        return value in days

    def a_plants(value: Measure | date) -> bool:
        return isinstance(value, Measure) and any(
            (value.value, value.high) == (plant.ph_low, plant.ph_high) for plant in case.aim.plants
        )

    def was_applied(value: Measure | date) -> bool:
        return any(value == applied.on for applied in case.applied)

    keys: dict[tuple[str, str], _Holds | None] = {
        ("applied-on", "days"): was_applied,
        ("applied-times", "first"): was_applied,
        ("applied-times", "last"): was_applied,
        ("verdict-reading", "ph"): reads,
        ("verdict-reading", "given"): _is(*(one.ph for one in dated_readings(case))),
        ("verdict-in-range-now", "ph"): reads,
        ("verdict-water-soil-good-now", "ph"): reads,
        ("verdict-feed-soil-good-now", "ph"): reads,
        ("verdict-planned-test-change", "day"): on,
        ("verdict-stands-now", "ph"): reads,
        ("verdict-small-gain-now", "ph"): reads,
        ("verdict-hardly-a-soil", "ph"): reads,
        ("verdict-at-work", "ph"): reads,
        ("verdict-overdose-course", "ph"): reads,
        ("verdict-at-work", "expected"): alone,
        ("verdict-overdose-course", "expected"): None,
        ("verdict-upkeep-inside", "expected"): alone,
        ("verdict-water-takes", "expected"): alone,
        ("verdict-too-acid", "limit"): harmful,
        ("verdict-too-acid-change", "limit"): harmful,
        ("verdict-sodic", "sodium"): _is(case.soil.sodium_pct or 0.0),
        ("verdict-sodic", "limit"): _is(limits["sodic_pct"]),
        ("verdict-salt", "salt"): _is(case.soil.ec_ds_m or 0.0),
        ("verdict-salt", "ece"): None,
        ("verdict-later-day-change", "day"): lambda value: value == case.aim.by,
        ("verdict-salt", "limit"): _is(
            limits["salt_sensitive_ece_ds_m"], limits["salt_stop_ece_ds_m"]
        ),
        ("verdict-salt-put-on", "ece"): None,
        ("verdict-salt-put-on", "limit"): _is(
            limits["salt_sensitive_ece_ds_m"], limits["salt_stop_ece_ds_m"]
        ),
        ("verdict-salt-put-on-change", "limit"): _is(
            limits["salt_sensitive_ece_ds_m"], limits["salt_stop_ece_ds_m"]
        ),
        ("verdict-plant-range", "range"): a_plants,
        ("verdict-small-gain-scatter", "gain"): gain,
        ("verdict-small-gain-change", "gain"): gain,
        ("verdict-unknown-sodium", "limit"): held,
        ("verdict-stay", "stay"): None,
        ("verdict-doubt-chance", "chance"): None,
        ("verdict-reach", "covered"): None,
        ("verdict-reach", "most"): None,
        ("verdict-water-decides", "held"): None,
        ("verdict-water-decides", "rise"): None,
        ("verdict-water-takes", "rise"): None,
        ("verdict-feed-takes", "fall"): None,
        ("verdict-feed-takes", "expected"): alone,
        ("verdict-feed-takes", "day"): on,
        ("verdict-feed-decides", "covered"): None,
        ("verdict-feed-decides", "unfed"): None,
        ("verdict-feed-decides", "day"): on,
        ("verdict-feed-acid", "lime"): _feed_lime(answer),
        ("verdict-feed-cause", "lime"): _feed_lime(answer),
        ("verdict-upkeep-pull", "pull"): None,
        ("verdict-stay", "until"): on,
        ("verdict-start-test", "day"): on,
        ("verdict-reach", "day"): on,
        ("verdict-water-takes", "day"): on,
        ("verdict-water-decides", "day"): on,
    }
    if wanted is not None:
        low, high = wanted.ph_low, wanted.ph_high

        def the_range(value: Measure | date) -> bool:
            return isinstance(value, Measure) and (value.value, value.high) == (low, high)

        for key in ("range", "one-source"):
            keys[f"verdict-{key}", "range"] = the_range
        for key in ("in-range", "small-gain", "repeat", "planned-test", "same-in-a-year"):
            keys[f"verdict-{key}-change", "range"] = the_range
        for key in ("target-within", "reach", "need"):
            keys[f"verdict-{key}", "aim"] = _is(wanted.ph_aim)
    return keys | _amounts(case, answer)


def _amounts(case: Case, answer: Answer) -> dict[tuple[str, str], _Holds | None]:
    dose, keys = answer.dose, dict[tuple[str, str], _Holds | None]()
    band = dose.sulfur_as_s_g_m2 or dose.lime_as_caco3_g_m2
    if band is not None:
        keys["verdict-need", "need"] = keys["verdict-reach", "need"] = _is(band.mid)
        substance = "sulfur" if dose.direction is Direction.ACIDIFY else "limestone"
        ground = bed_of(case).cap_situation
        once = cap_for(applies_to=substance, situation=ground, per="dose").limit_g_m2
        keys["verdict-several", "cap"] = _is(once)
    if answer.plan is not None:
        first = sum(part.rate_g_m2 for part in answer.plan.parts)
        keys["verdict-start", "rate"] = _is(first)
    if answer.verdict.reason in (Reason.OVERDOSE, Reason.SALT):
        for message in all_messages(answer):
            if message.key.startswith("amount-"):
                keys |= {(message.key, name): _load(answer, name) for name in message.values}
    return keys


def _feed_lime(answer: Answer) -> _Holds | None:
    """The feed of the ledger as lime, where there is a ledger."""
    lines = () if answer.ledger is None else answer.ledger.lines
    acid = sum(line.value for line in lines if line.name == called(FEED_LINE))
    return _is(lime_as_caco3_g_m2_from_acid_mmolc_m2(acid))


def _load(answer: Answer, name: str) -> _Holds | None:
    """An amount put on or its limit, as the checks have them."""
    if name == "times":
        return None  # L25 compares it
    figures: list[float] = []
    for row in answer.findings:
        if row.check.startswith(APPLIED_CHECK):
            assert isinstance(row.value, float) and isinstance(row.limit, float)
            figures += [row.value, row.limit]
    return lambda value: (
        isinstance(value, Measure) and any(abs(value.value - figure) <= 0.051 for figure in figures)
    )


def _near(ph: float) -> _Holds:
    return lambda value: isinstance(value, Measure) and abs(value.value - ph) <= FORECAST_PH + 0.05


def _reads(case: Case, answer: Answer) -> _Holds:
    """What the bed is said to read: today's belief, near the reading."""
    soil = bed_of(case).soil
    known: list[float] = [] if soil is None else [soil.ph.ph_water]
    if answer.verdict.ph_now is not None:
        known.append(answer.verdict.ph_now)
    exact = _is(*known)
    if answer.forecast is None:
        return exact
    near = _near(answer.forecast.do_nothing.q50[0])
    return lambda value: exact(value) or near(value)


def _alone(case: Case, answer: Answer) -> _Holds | None:
    """What the bed left alone comes to on the day wanted, by the forecast."""
    ahead, (on, _) = answer.forecast, horizon(case)
    if ahead is None or on > ahead.dates[-1] + A_WEEK or answer.verdict.decision is Decision.STOP:
        return None
    return _near(ahead.do_nothing.q50[at(ahead.dates, on)])


def _days(case: Case, answer: Answer) -> set[date]:
    """The days a verdict may name: of the first test, the day wanted, the end of the seasons."""
    seasons = int(verdict_values()["seasons"])
    days = {horizon(case)[0], case.today + timedelta(days=365 * seasons)}
    if answer.plan is not None:
        days |= {answer.plan.on, *(line.test for line in answer.plan.decides)}
    if case.aim.by is not None:
        days.add(case.aim.by)
    return days
