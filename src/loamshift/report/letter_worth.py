"""What further tests are worth: the sentence of the front sheet and the table of the working."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from loamshift.domain.answer import Answer, Missing
from loamshift.domain.letter import Align, Block, Column, Paragraph, Table
from loamshift.domain.message import Given, Message, in_100, message, ph_mean
from loamshift.domain.worth import SamplesOfGround, Worth, WorthOfTest
from loamshift.report.letter_words import sentence
from loamshift.report.messages import say
from loamshift.report.words import Words

_ONE_IN_100: Final = 0.01
"""A smaller gain is told as fewer than one bed in a hundred [0-1]."""

_BUFFERING = frozenset(("titration", "soil.buffer_ph"))


def test_to_make_first(answer: Answer, words: Words) -> str:
    """The test most worth its price, what it gains and how it is made; empty where none is."""
    worth = answer.worth
    best = None if worth is None else best_of(worth)
    if worth is None or best is None:
        return ""
    return f"{sentence(worth.words, words)} {sentence(best.how, words)}"


def best_of(worth: Worth) -> WorthOfTest | None:
    """The line of the test to make first, where it was weighed."""
    return next((row for row in worth.tests if row.test is worth.best), None)


def not_weighed(answer: Answer) -> tuple[Missing, ...]:
    """What nobody gave and no test was weighed for: facts, rather than tests."""
    if answer.worth is None:
        return answer.missing
    weighed = {row.field for row in answer.worth.tests}
    if weighed & _BUFFERING:
        weighed |= _BUFFERING
    return tuple(gap for gap in answer.missing if gap.field not in weighed)


def table_of_tests(worth: Worth | None, *, currency: str | None, words: Words) -> tuple[Block, ...]:
    """Every test that was weighed, with what it gains, its price and how it was reckoned.

    Nothing where no test is worth its price: the sentence says so. ``currency`` is the reader's.
    """
    if worth is None or worth.best is None or not worth.tests:
        return ()
    named = {row.currency for row in worth.tests}
    shared = next(iter(named)) if len(named) == 1 else None
    columns = (
        Column(say(message("worth-column-test"), words)),
        Column(say(message("worth-column-gain"), words), Align.RIGHT),
        Column(say(message("worth-column-changes"), words), Align.RIGHT),
        Column(
            say(message("worth-column-price", currency=Given(shared) if shared else None), words),
            Align.RIGHT,
        ),
        Column(say(message("worth-column-days"), words), Align.RIGHT),
    )
    rows = tuple(
        (
            say(message("worth-row", test=row.test.value, day=row.on), words),
            words.in_100(row.gain),
            say(message("worth-chance", share=in_100(row.changes)), words),
            words.money(row.cost, None if shared else row.currency),
            str(row.days),
        )
        for row in worth.tests
    )
    told = list(_prices_told(worth, currency))
    if sum(row.gain > 0.0 for row in worth.tests) > 1:
        told.append(message("worth-not-added"))
    return (
        Table(columns, rows, say(message("worth-caption"), words)),
        Paragraph(" ".join(say(one, words) for one in told)),
    )


def how_many_samples(worth: Worth | None, *, words: Words) -> tuple[Block, ...]:
    """How many cores and samples the ground needs, with the table of what they bring.

    Nothing where the reading is a small part of what makes the forecast wide, and no table where
    no further sample brings a bed of a hundred into the range: the words say so.
    """
    found = None if worth is None else worth.samples
    if found is None:
        return ()
    if max((line.gain or 0.0 for line in found.lines), default=0.0) < _ONE_IN_100:
        return (Paragraph(sentence(found.words, words)),)
    told: tuple[Block, ...] = (
        Paragraph(sentence(found.words, words)),
        _table_of_samples(found, words),
    )
    if table_of_tests(worth, currency=None, words=words):
        return told  # which says whose prices they are
    whose = "own" if found.source_key is None else "listed"
    return (*told, Paragraph(say(message("worth-samples-prices", whose=whose), words)))


def _table_of_samples(found: SamplesOfGround, words: Words) -> Table:
    currency = found.lines[0].currency
    priced = Given(currency) if currency else None
    heads = [
        message("worth-column-samples", test=found.test.value),
        message("worth-column-error"),
        message("worth-column-gain"),
        message("worth-column-price", currency=priced),
    ]
    gains = any(line.gain is not None for line in found.lines)
    rows = []
    for line in found.lines:
        row = [str(line.samples), f"±{words.measure(ph_mean(line.error_ph))}"]
        if gains:
            row.append(words.in_100(line.gain) if line.gain is not None and line.samples else "")
        row.append(words.money(line.cost, None) if line.samples else "")
        rows.append(tuple(row))
    shown = heads if gains else [head for head in heads if head.key != "worth-column-gain"]
    columns = tuple(Column(say(head, words), Align.RIGHT) for head in shown)
    return Table(columns, tuple(rows), say(message("worth-samples-caption"), words))


def _prices_told(worth: Worth, currency: str | None) -> Iterator[Message]:
    """Whose the prices are and in which currency; nothing is converted."""
    listed = [row for row in worth.tests if row.source_key is not None]
    others = sorted({row.currency or "" for row in listed} - {currency})
    source, reader = Given(", ".join(others or [currency or ""])), Given(currency or "")
    if len(listed) == len(worth.tests):
        yield message("worth-how-reckoned", listed=source)
        if currency is not None and others:
            yield message("worth-not-converted", own=reader)
    elif currency is not None and others:
        yield message("worth-how-reckoned-mixed", own=reader, listed=source)
    else:
        yield message("worth-how-reckoned-own")
