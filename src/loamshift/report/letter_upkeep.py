"""What pulls the pH back each year, and what holds it."""

from __future__ import annotations

from loamshift.domain.answer import Answer, Decision, Direction, Ledger, LedgerLine, Upkeep
from loamshift.domain.case import Case
from loamshift.domain.letter import Align, Column, Paragraph, Section, Table
from loamshift.report.letter_words import (
    as_limestone,
    as_sulfur,
    bed_noun,
    lowered,
    material_in_text,
    raised,
    sentence,
    sentences,
)
from loamshift.report.words import Words

_NOTHING_MMOLC_M2 = 5.0
"""Less than a tenth of a gram of sulfur: a line that small says `next to nothing`."""
_HARDLY_PH = 0.03
_WITHOUT_THE = ("the ", "acid ", "leaching ", "sulfur ", "sulphur ")


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
    rows.append(_row(LedgerLine(name="**All together**", value=ledger.net), words))
    columns = (Column("pull"), Column("way"), Column("in a year, as much as", Align.RIGHT))
    table = Table(columns, tuple(rows))
    heading = "What pulls it back" if _pulls_back(answer) else "What moves it each year"
    return Section(heading, (Paragraph(words.text(_biggest(ledger, case, words))), table))


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
    planned = bool(answer.applications)
    first = sentences(_drift(upkeep, words), _undoes(upkeep) if planned else "")
    second = "" if given_up else sentences(_feed(upkeep, words), _rest(upkeep, words))
    texts = [words.text(text) for text in (first, second) if text]
    comment = sentence(upkeep.comment, words)
    if comment:
        texts.append(comment)
    return Section(_heading(answer, case), tuple(Paragraph(t) for t in texts))


def _heading(answer: Answer, case: Case) -> str:
    match answer.verdict.decision:
        case Decision.STOP:
            return f"Once the {bed_noun(case)} has come right"
        case Decision.ELSEWHERE:
            return "From year to year"
        case Decision.LEAVE:
            return f"Keeping the {bed_noun(case)} as it is"
        case _:
            return f"Keeping the {bed_noun(case)} there"


def _pulls_back(answer: Answer) -> bool:
    """True where the year works against the plan."""
    net = 0.0 if answer.ledger is None else answer.ledger.net
    if answer.verdict.decision in (Decision.LEAVE, Decision.STOP, Decision.ELSEWHERE):
        return False
    if answer.dose.direction is Direction.ACIDIFY:
        return net < 0.0
    return answer.dose.direction is Direction.LIME and net > 0.0


def _row(line: LedgerLine, words: Words) -> tuple[str, str, str]:
    name = words.text(raised(line.name.replace("_", " ")))
    if abs(line.value) < _NOTHING_MMOLC_M2:
        return (name, "next to nothing", "")
    if line.value > 0.0:
        return (name, "acidifies", as_sulfur(line.value, words))
    return (name, "limes", as_limestone(line.value, words))


def _biggest(ledger: Ledger, case: Case, words: Words) -> str:
    largest = max(ledger.lines, key=lambda line: abs(line.value))
    if abs(largest.value) < _NOTHING_MMOLC_M2:
        return f"Nothing pulls at this {bed_noun(case)} worth speaking of."
    name = lowered(largest.name.replace("_", " "))
    if largest.value < 0.0:
        does = f"limes the {bed_noun(case)} as much as {as_limestone(largest.value, words)} would"
    else:
        does = f"acidifies the {bed_noun(case)} as much as {as_sulfur(largest.value, words)} would"
    return f"The strongest pull is {_the(name)}: in a year it {does}."


def _the(name: str) -> str:
    return name if name.startswith(_WITHOUT_THE) else f"the {name}"


def _drift(upkeep: Upkeep, words: Words) -> str:
    drift = upkeep.drift_ph_year
    if abs(drift) < _HARDLY_PH:
        return "Left to itself the pH would hardly move from one year to the next."
    way = "rise" if drift > 0.0 else "fall"
    return f"Left to itself the pH would {way} by about {_ph_step(drift)} a year."


def _ph_step(change: float) -> str:
    return f"{abs(change):.2f}" if abs(change) < 0.095 else f"{abs(change):.1f}"


def _undoes(upkeep: Upkeep) -> str:
    years = upkeep.years_water_undoes_dose
    if years is None or upkeep.drift_ph_year <= 0.0:
        return ""  # where the pH falls by itself the water undoes nothing
    if years < 1.5:
        return "The water alone undoes the whole dose within a year or so."
    if years >= 50.0:
        return ""
    return f"The water alone undoes the whole dose in about {years:.0f} years."


def _feed(upkeep: Upkeep, words: Words) -> str:
    feeds = [
        f"{material_in_text(line.material, words)}, {words.rate(line.rate_g_m2_year)}"
        for line in upkeep.feed
        if line.rate_g_m2_year > 0.0
    ]
    needed = upkeep.nitrogen_needed_g_m2_year
    if not feeds:
        return ""
    if needed is None:
        return f"Feed each year with {words.listed(feeds)}."
    return (
        f"The plants can use about {words.rate(needed)} of nitrogen a year; give it as "
        f"{words.listed(feeds)}."
    )


def _rest(upkeep: Upkeep, words: Words) -> str:
    also = "also " if upkeep.feed else ""
    if upkeep.sulfur_as_s_g_m2_year > 0.0:
        return (
            f"To hold the pH it {also}takes {words.rate(upkeep.sulfur_as_s_g_m2_year)} of sulfur "
            "a year."
        )
    if upkeep.lime_as_caco3_g_m2_year > 0.0:
        return (
            f"To hold the pH it {also}takes {words.rate(upkeep.lime_as_caco3_g_m2_year)} of "
            "limestone a year, or the same in one go every few years."
        )
    return "Nothing more is needed to hold the pH." if upkeep.feed else ""
