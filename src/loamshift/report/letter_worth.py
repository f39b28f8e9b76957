"""What further tests are worth: the sentence of the front sheet and the table of the working."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from loamshift.domain.answer import Answer, Missing
from loamshift.domain.case import Case
from loamshift.domain.letter import Align, Block, Column, Paragraph, Table
from loamshift.domain.message import Given, Message, in_100, message, ph_mean
from loamshift.domain.worth import SamplesOfGround, Worth, WorthOfTest
from loamshift.report.letter_words import sentence
from loamshift.report.messages import say
from loamshift.report.words import Words

_ONE_IN_100: Final = 0.01
"""A smaller gain is told as fewer than one bed in a hundred [0-1]."""

_PRICE_AT: Final = 3
"""Column of the prices, where there are any [count]."""
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


def reader_currency(case: Case) -> str | None:
    """The currency a reader counts in: that of the case, else of a price it has."""
    if case.currency is not None:
        return case.currency
    priced = (one.currency for one in case.on_hand if one.price is not None)
    return next((one for one in priced if one is not None), None)


def table_of_tests(worth: Worth | None, *, currency: str | None, words: Words) -> tuple[Block, ...]:
    """Every test that was weighed, with what it gains, its price and how it was reckoned.

    Nothing where no test is worth its price: the sentence says so.

    Parameters
    ----------
    currency
        The reader's own, None where nobody named one. A price in another is not shown.
    """
    if worth is None or worth.best is None or not worth.tests:
        return ()
    prices = [_price_shown(row, currency, words) for row in worth.tests]
    priced = any(cost for cost, _ in filter(None, prices))
    named = {name for cost, name in filter(None, prices) if cost}
    shared = next(iter(named)) if len(named) == 1 else None
    columns = [
        Column(say(message("worth-column-test"), words)),
        Column(say(message("worth-column-gain"), words), Align.RIGHT),
        Column(say(message("worth-column-changes"), words), Align.RIGHT),
        Column(say(message("worth-column-days"), words), Align.RIGHT),
    ]
    if priced:
        head = message("worth-column-price", currency=Given(shared) if shared else None)
        columns.insert(_PRICE_AT, Column(say(head, words), Align.RIGHT))
    rows = []
    for row, price in zip(worth.tests, prices, strict=True):
        cells = [
            say(message("worth-row", test=row.test.value, day=row.on), words),
            words.in_100(row.gain),
            say(message("worth-chance", share=in_100(row.changes)), words),
            str(row.days),
        ]
        if priced:
            cost = "" if price is None else words.money(price[0], None if shared else price[1])
            cells.insert(_PRICE_AT, cost)
        rows.append(tuple(cells))
    told = [_prices_told(worth, prices, currency)]
    if sum(row.gain > 0.0 for row in worth.tests) > 1:
        told.append(message("worth-not-added"))
    return (
        Table(tuple(columns), tuple(rows), say(message("worth-caption"), words)),
        Paragraph(" ".join(say(one, words) for one in told)),
    )


def _price_shown(
    row: WorthOfTest, currency: str | None, words: Words
) -> tuple[float, str | None] | None:
    """A price with its currency, None where there is no sourced one in the reader's currency."""
    if row.source_key is None:
        return row.cost, row.currency
    if row.cost == 0.0:
        return 0.0, currency
    return (row.cost, row.currency) if _is_own(row.currency, currency, words) else None


def _is_own(listed: str | None, currency: str | None, words: Words) -> bool:
    """True where a listed price is in the currency that this reader counts in."""
    if currency is None:
        return words.spelling == "us"  # the listed prices are of the United States
    return listed == currency


def how_many_samples(
    worth: Worth | None, *, currency: str | None, words: Words
) -> tuple[Block, ...]:
    """How many cores and samples the ground needs, with the table of what they bring.

    ``currency`` is the reader's own, None where nobody named one.

    Nothing where the reading is a small part of what makes the forecast wide, and no table where
    no further sample brings a bed of a hundred into the range: the words say so.
    """
    found = None if worth is None else worth.samples
    if found is None:
        return ()
    if max((line.gain or 0.0 for line in found.lines), default=0.0) < _ONE_IN_100:
        return (Paragraph(sentence(found.words, words)),)
    own = found.source_key is None
    priced = own or _is_own(found.lines[0].currency, currency, words)
    told: tuple[Block, ...] = (
        Paragraph(sentence(found.words, words)),
        _table_of_samples(found, priced=priced, words=words),
    )
    if not priced or table_of_tests(worth, currency=currency, words=words):
        return told  # which says whose prices they are
    whose = "own" if own else "listed"
    return (*told, Paragraph(say(message("worth-samples-prices", whose=whose), words)))


def _table_of_samples(found: SamplesOfGround, *, priced: bool, words: Words) -> Table:
    currency = found.lines[0].currency
    heads = [
        message("worth-column-samples", test=found.test.value),
        message("worth-column-error"),
        message("worth-column-gain"),
        message("worth-column-price", currency=Given(currency) if currency else None),
    ]
    gains = any(line.gain is not None for line in found.lines)
    rows = []
    for line in found.lines:
        row = [str(line.samples), f"±{words.measure(ph_mean(line.error_ph))}"]
        if gains:
            row.append(words.in_100(line.gain) if line.gain is not None and line.samples else "")
        if priced:
            row.append(words.money(line.cost, None) if line.samples else "")
        rows.append(tuple(row))
    left_out = {"worth-column-gain": not gains, "worth-column-price": not priced}
    shown = [head for head in heads if not left_out.get(head.key, False)]
    columns = tuple(Column(say(head, words), Align.RIGHT) for head in shown)
    return Table(columns, tuple(rows), say(message("worth-samples-caption"), words))


def _prices_told(
    worth: Worth, prices: Sequence[tuple[float, str | None] | None], currency: str | None
) -> Message:
    """How the tests were reckoned, whose the prices are, and where none is known."""
    own = any(row.source_key is None for row in worth.tests)
    unknown = None in prices
    if own and unknown:
        return message("worth-how-reckoned-mixed", own=Given(currency or ""))
    if own:
        return message("worth-how-reckoned-own")
    if unknown:
        return message("worth-how-reckoned-unpriced")
    listed = next((row.currency for row in worth.tests if row.cost > 0.0), None)
    return message("worth-how-reckoned", listed=Given(listed or ""))
