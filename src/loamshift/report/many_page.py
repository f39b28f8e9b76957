"""The summary of many rows: how many came to what, whom to call, and what to ask for."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from loamshift.domain.answer import Decision
from loamshift.domain.field_name import field_in_text
from loamshift.domain.letter import Align, Block, Column, Letter, Matter, Paragraph, Section, Table
from loamshift.domain.message import Given, Measure, Message, Quantity, message
from loamshift.report.messages import can_say, say, say_sentence
from loamshift.report.words import Words

MOST_TO_CALL: Final = 200
"""Rows listed to be called; the table has them all [count]."""
_MOST_LINES: Final = 12


@dataclass(frozen=True, slots=True, kw_only=True)
class Called:
    """A row whose person should be called: its number, its key, who it is, and why."""

    row: int
    key: str
    who: tuple[str, ...]
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ManyCounts:
    """What became of many rows.

    ``verdicts``, ``reasons``, ``questions`` and ``problem_paths`` say how many rows each has
    [count]; ``carried`` are the headings of what is known of a person, and ``called`` the first
    rows that came to a stop. ``problems`` and ``table`` are names of files.
    """

    answered: int
    faulty: int
    verdicts: Mapping[str, int]
    reasons: Mapping[str, int]
    questions: Mapping[str, int]
    problem_paths: Mapping[str, int]
    same_key: int
    carried: tuple[str, ...]
    called: tuple[Called, ...]
    problems: str
    table: str


def many_letter(counts: ManyCounts, *, words: Words) -> Letter:
    """The summary as a letter, to be printed or made into a page."""
    sections = [
        Section(None, tuple(_opening(counts, words)), Matter.OPENING),
        _section("many-verdicts", _verdicts(counts, words), words),
    ]
    if counts.called:
        sections.append(_section("many-call", _call(counts, words), words))
    if counts.questions:
        sections.append(_section("many-ask", _ask(counts, words), words))
    if counts.faulty or counts.same_key:
        sections.append(_section("many-problems", _problems(counts, words), words))
    title = say(message("many-title", table=Given(counts.table)), words)
    return Letter(title, "", tuple(sections))


def _section(heading: str, blocks: Iterator[Block], words: Words) -> Section:
    return Section(say(message(heading), words), tuple(blocks))


def _opening(counts: ManyCounts, words: Words) -> Iterator[Block]:
    told = message("many-opening", answered=counts.answered, faulty=counts.faulty)
    yield Paragraph(say(told, words))


def _verdicts(counts: ManyCounts, words: Words) -> Iterator[Block]:
    rows = []
    for decision in Decision:
        number = counts.verdicts.get(decision.value, 0)
        if number:
            said = say_sentence(message("summary-decision", decision=decision.value), words)
            rows.append((said, *_numbers(number, counts.answered, words)))
    yield _table("verdict", rows, words)


def _call(counts: ManyCounts, words: Words) -> Iterator[Block]:
    stopped = counts.verdicts.get(Decision.STOP.value, 0)
    yield Paragraph(say(message("many-call-these", count=stopped), words))
    key, row, why = (say(message(f"many-column-{one}"), words) for one in ("key", "row", "why"))
    columns = (Column(key), Column(row, Align.RIGHT), *map(Column, counts.carried), Column(why))
    rows = tuple((one.key, f"{one.row}", *one.who, one.why) for one in counts.called)
    yield Table(columns, rows)
    if stopped > len(counts.called):
        more = message(
            "many-call-more", count=stopped - len(counts.called), table=Given(counts.table)
        )
        yield Paragraph(say(more, words))


def _ask(counts: ManyCounts, words: Words) -> Iterator[Block]:
    yield Paragraph(say(message("many-ask-for"), words))
    rows = [
        (_name(path, words), *_numbers(number, counts.answered, words))
        for path, number in list(counts.questions.items())[:_MOST_LINES]
    ]
    yield _table("question", rows, words)


def _problems(counts: ManyCounts, words: Words) -> Iterator[Block]:
    told = message(
        "many-problems-in",
        count=counts.faulty,
        same_key=counts.same_key,
        file=Given(counts.problems),
    )
    yield Paragraph(say(told, words))
    lines = list(counts.problem_paths.items())[:_MOST_LINES]
    if lines:
        whole = say(message("many-whole-row"), words)
        rows = [(_name(path, words) if path else whole, f"{number}") for path, number in lines]
        titles = (
            say(message("many-column-where"), words),
            say(message("many-column-count"), words),
        )
        yield Table((Column(titles[0]), Column(titles[1], Align.RIGHT)), tuple(rows))


def _name(path: str, words: Words) -> str:
    """A key of the case file as a reader knows it, or as it stands where it has no name."""
    try:
        named = field_in_text(path)
    except ValueError:
        return path
    return say_sentence(named, words) if can_say(named, words) else path


def _numbers(number: int, whole: int, words: Words) -> tuple[str, str]:
    share = Measure(Quantity.SHARE, number / whole if whole else 0.0)
    return f"{number:,}", words.measure(share)


def _table(what: str, rows: list[tuple[str, str, str]], words: Words) -> Table:
    def title(name: str) -> str:
        return say(message(f"many-column-{name}"), words)

    columns = (
        Column(title(what)),
        Column(title("rows"), Align.RIGHT),
        Column(title("share"), Align.RIGHT),
    )
    return Table(columns, tuple(rows))


def summary_line(counts: ManyCounts) -> Message:
    """The whole run in a sentence or two, for a terminal."""
    return message(
        "many-line",
        answered=counts.answered,
        faulty=counts.faulty,
        stopped=counts.verdicts.get(Decision.STOP.value, 0),
        table=Given(counts.table),
    )
