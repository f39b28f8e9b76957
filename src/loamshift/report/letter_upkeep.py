"""What undoes a change of the pH each year, and what holds it."""

from __future__ import annotations

from loamshift.domain.answer import DRIFT_YEARS, Answer, Decision, FeedLine, LedgerLine, Upkeep
from loamshift.domain.case import Case
from loamshift.domain.letter import Align, Column, Paragraph, Section, Table
from loamshift.domain.message import (
    Listed,
    Message,
    Product,
    Prose,
    Value,
    message,
    number,
    prose,
    rate,
)
from loamshift.report.holding import (
    HARDLY_PH,
    drift_held,
    feed_choice,
    feeds_given,
    is_left_alone,
    test_decides,
    water_decides,
    yearly_amount,
)
from loamshift.report.ledger_lines import called, effect_of, named, strongest, worth
from loamshift.report.letter_words import sentence
from loamshift.report.messages import say
from loamshift.report.words import Words
from loamshift.tables.parameters import parameter_values

_SOON_YEARS = 1.5
_LONG_YEARS = 50.0
_WATER_KEY = "ledger-irrigation-water"


def what_pulls(answer: Answer, case: Case, *, words: Words) -> Section | None:
    """The yearly ledger as a table in words."""
    ledger = answer.ledger
    if ledger is None or not ledger.lines:
        return None
    rows = [_row(line, words) for line in ledger.lines if line.value or _is_water(line)]
    name, effect, equals = _row(LedgerLine(name=message("ledger-net"), value=ledger.net), words)
    columns = (
        Column(say(message("ledger-column-line"), words)),
        Column(say(message("ledger-column-effect"), words)),
        Column(say(message("ledger-column-worth"), words), Align.RIGHT),
    )
    table = Table(columns, (*rows, (f"**{name}**", effect, equals)))
    lead = Paragraph(say(strongest(ledger.lines), words))
    return Section(say(message("ledger-heading"), words), (lead, table))


def _is_water(line: LedgerLine) -> bool:
    """True for the water, told of every bed that is watered though it should do nothing."""
    return isinstance(line.name, Message) and line.name.key == _WATER_KEY


def keeping(answer: Answer, case: Case, *, words: Words) -> Section | None:
    """How to hold the pH: drift, feed, and the sulfur or lime that is left to bring."""
    upkeep = answer.upkeep
    if upkeep is None:
        return None
    there, *now = _drift(answer, upkeep)
    undone = _undone(upkeep) if answer.applications else None
    first = prose(there, undone, *now, _quick(answer))
    texts = [
        sentence(what, words) for what in (first, _holds(answer, upkeep), upkeep.comment) if what
    ]
    heading = say(message("upkeep-heading", when=_when(answer)), words)
    return Section(heading, tuple(Paragraph(text) for text in texts))


def _when(answer: Answer) -> str:
    match answer.verdict.decision:
        case Decision.STOP:
            return "recovered"
        case Decision.ELSEWHERE:
            return "yearly"
        case Decision.LEAVE:
            return "as-it-is"
        case _:
            return "there"


def _row(line: LedgerLine, words: Words) -> tuple[str, str, str]:
    effect = say(message("ledger-effect", effect=effect_of(line.value)), words)
    equals = worth(line.value)
    return called(named(line), words), effect, "" if equals is None else say(equals, words)


def _drift(answer: Answer, upkeep: Upkeep) -> tuple[Message, ...]:
    """How the pH moves left as it is, and by itself where a plan has taken it."""
    years = min(answer.made_by.years or DRIFT_YEARS, DRIFT_YEARS)
    alone, held = _moved(upkeep.drift_ph_year), upkeep.drift_held_ph_year
    if held is None:
        return (message("upkeep-drift", **alone, years=years),)
    there = _moved(held)
    first = message("upkeep-drift-there", **there)
    return (
        (first,) if there == alone else (first, message("upkeep-drift-now", **alone, years=years))
    )


def _quick(answer: Answer) -> Message | None:
    """How near a drift of one mixed layer lies to that of a forecast; None with a forecast."""
    if answer.forecast is not None:
        return None
    within = parameter_values("advice")["quick_drift_within_ph_year"]
    return message("upkeep-drift-quick", within=number(within))


def _moved(drift_ph_year: float) -> dict[str, Value]:
    """Which way and how far a pH drifts in a year, to be said."""
    step = abs(drift_ph_year)
    if step < HARDLY_PH:
        return {"way": None, "step": None}
    return {
        "way": "rise" if drift_ph_year > 0.0 else "fall",
        "step": number(round(step, 2 if step < 0.095 else 1)),
    }


def _undone(upkeep: Upkeep) -> Message | None:
    years = upkeep.years_water_undoes_dose
    if years is None or drift_held(upkeep) < HARDLY_PH or years >= _LONG_YEARS:
        return None  # where the pH stays or falls by itself the water undoes nothing
    if years < _SOON_YEARS:
        return message("upkeep-undone-soon")
    return message("upkeep-undone", years=round(years))


def _holds(answer: Answer, upkeep: Upkeep) -> Prose | None:
    """What holds the pH, so far as the verdict lets anything be applied for it."""
    match answer.verdict.decision:
        case Decision.ELSEWHERE:
            return None
        case Decision.MEASURE_FIRST:
            return prose(message("upkeep-after-test"))
        case _ if is_left_alone(answer):
            by_test = None if test_decides(upkeep) else message("upkeep-by-test")
            return prose(_feeds(upkeep, "upkeep-feed-fits"), by_test)
        case _:
            return prose(_feeds(upkeep, "upkeep-give"), _rest(answer, upkeep))


def _feeds(upkeep: Upkeep, key: str) -> Message | None:
    feeds = feeds_given(upkeep)
    if not feeds:
        return None
    needed = upkeep.nitrogen_needed_g_m2_year
    return message(
        key,
        nitrogen=None if needed is None else rate(needed),
        feeds=Listed(tuple(_fertiliser(line) for line in feeds)),
    )


def _fertiliser(line: FeedLine) -> Message:
    return message(
        "upkeep-feed",
        feed=feed_choice(line),
        product=Product(line.material),
        rate=rate(line.rate_g_m2_year),
    )


def _rest(answer: Answer, upkeep: Upkeep) -> Message | None:
    feed, amount = "some" if feeds_given(upkeep) else None, yearly_amount(answer)
    if amount is not None:
        substance, each_year = amount
        return message(f"upkeep-hold-{substance}", rate=each_year, feed=feed)
    if feed is None or test_decides(upkeep) or water_decides(upkeep):
        return None
    return message("upkeep-hold-enough")
