"""What undoes a change of the pH each year, and what holds it."""

from __future__ import annotations

from loamshift.domain.answer import Answer, Decision, FeedLine, LedgerLine, Upkeep
from loamshift.domain.case import Case
from loamshift.domain.letter import Align, Column, Paragraph, Section, Table
from loamshift.domain.message import Listed, Message, Product, message, number, prose, rate
from loamshift.report.holding import feed_choice, feeds_given, undoes
from loamshift.report.ledger_lines import called, effect_of, strongest, worth
from loamshift.report.letter_words import sentence
from loamshift.report.messages import say
from loamshift.report.words import Words

_HARDLY_PH = 0.03
_SOON_YEARS = 1.5
_LONG_YEARS = 50.0


def what_pulls(answer: Answer, case: Case, *, words: Words) -> Section | None:
    """The yearly ledger as a table in words.

    Parameters
    ----------
    answer
        The answer [object].
    case
        The bed it is about [object].
    words
        Spelling and units of the reader [object].

    Returns
    -------
    Section or None
        Nothing where there is no ledger [object].
    """
    ledger = answer.ledger
    if ledger is None or not ledger.lines:
        return None
    rows = [_row(line, words) for line in ledger.lines if line.value != 0.0]
    name, effect, equals = _row(LedgerLine(name=message("ledger-net"), value=ledger.net), words)
    columns = (
        Column(say(message("ledger-column-line"), words)),
        Column(say(message("ledger-column-effect"), words)),
        Column(say(message("ledger-column-worth"), words), Align.RIGHT),
    )
    table = Table(columns, (*rows, (f"**{name}**", effect, equals)))
    heading = message("ledger-heading", undoes="yes" if undoes(answer) else "no")
    lead = Paragraph(say(strongest(ledger.lines), words))
    return Section(say(heading, words), (lead, table))


def keeping(answer: Answer, case: Case, *, words: Words) -> Section | None:
    """How to hold the pH: drift, feed, and the sulfur or lime that is left to bring.

    Parameters
    ----------
    answer
        The answer [object].
    case
        The bed it is about [object].
    words
        Spelling and units of the reader [object].

    Returns
    -------
    Section or None
        Nothing where no upkeep was worked out [object].
    """
    upkeep = answer.upkeep
    if upkeep is None:
        return None
    given_up = answer.verdict.decision is Decision.ELSEWHERE
    first = prose(_drift(upkeep), _undone(upkeep) if answer.applications else None)
    second = None if given_up else prose(_give(upkeep), _rest(upkeep))
    texts = [sentence(what, words) for what in (first, second, upkeep.comment) if what]
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
    return called(line.name, words), effect, "" if equals is None else say(equals, words)


def _drift(upkeep: Upkeep) -> Message:
    """How the pH moves untreated."""
    step = abs(upkeep.drift_ph_year)
    if step < _HARDLY_PH:
        return message("upkeep-drift", way=None, step=None)
    return message(
        "upkeep-drift",
        way="rise" if upkeep.drift_ph_year > 0.0 else "fall",
        step=number(round(step, 2 if step < 0.095 else 1)),
    )


def _undone(upkeep: Upkeep) -> Message | None:
    years = upkeep.years_water_undoes_dose
    if years is None or upkeep.drift_ph_year <= 0.0 or years >= _LONG_YEARS:
        return None  # where the pH falls by itself the water undoes nothing
    if years < _SOON_YEARS:
        return message("upkeep-undone-soon")
    return message("upkeep-undone", years=round(years))


def _give(upkeep: Upkeep) -> Message | None:
    feeds = feeds_given(upkeep)
    if not feeds:
        return None
    needed = upkeep.nitrogen_needed_g_m2_year
    return message(
        "upkeep-give",
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


def _rest(upkeep: Upkeep) -> Message | None:
    feed = "some" if upkeep.feed else None
    if upkeep.sulfur_as_s_g_m2_year > 0.0:
        return message("upkeep-hold-sulfur", rate=rate(upkeep.sulfur_as_s_g_m2_year), feed=feed)
    if upkeep.lime_as_caco3_g_m2_year > 0.0:
        return message("upkeep-hold-lime", rate=rate(upkeep.lime_as_caco3_g_m2_year), feed=feed)
    return message("upkeep-hold-enough") if upkeep.feed else None
