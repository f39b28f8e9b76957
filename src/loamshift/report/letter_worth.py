"""What further tests are worth: the sentence of the front sheet and the table of the working."""

from __future__ import annotations

from loamshift.domain.answer import Answer, Missing
from loamshift.domain.letter import Align, Block, Column, Paragraph, Table
from loamshift.domain.message import Given, in_100, message
from loamshift.domain.worth import Worth, WorthOfTest
from loamshift.report.letter_words import sentence
from loamshift.report.messages import say
from loamshift.report.words import Words

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


def table_of_tests(worth: Worth | None, *, words: Words) -> tuple[Block, ...]:
    """Every test that was weighed, with what it gains, its price and how it was reckoned.

    Nothing where no test is worth its price: the sentence says so.
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
    own = any(row.currency is None for row in worth.tests)
    told = [message("worth-how-reckoned-own" if own else "worth-how-reckoned")]
    if sum(row.gain > 0.0 for row in worth.tests) > 1:
        told.append(message("worth-not-added"))
    return (
        Table(columns, rows, say(message("worth-caption"), words)),
        Paragraph(" ".join(say(one, words) for one in told)),
    )
