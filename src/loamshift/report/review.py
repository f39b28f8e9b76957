"""The review of a year as a letter: done, moved, forecast against test, next, shopping list."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from datetime import date
from typing import Any, Final

from loamshift.domain.history import TestRead
from loamshift.domain.letter import (
    Align,
    Block,
    Column,
    Figure,
    Items,
    Letter,
    Matter,
    Paragraph,
    Section,
    Table,
)
from loamshift.domain.message import Given, Message, Product, choice, message, ph
from loamshift.domain.review import BedYear, ToBuy, YearReview
from loamshift.report.messages import say, say_sentence
from loamshift.report.scores import outcome_said, shown_said
from loamshift.report.words import Words

_SCATTER_PH: Final = 0.3
"""A change smaller than this is no bigger than the scatter of two tests [pH]."""
Cells = tuple[tuple[str, Align, Callable[[BedYear, Any], str]], ...]


def review_letter(
    review: YearReview,
    *,
    title: Message,
    words: Words,
    figure: Figure | None = None,
    letterhead: tuple[str, ...] = (),
) -> Letter:
    """The year of a bed, a client or an office.

    Parameters
    ----------
    title
        Whose year it is.
    figure
        The life of the bed, where it is one.
    """
    several = len(review.beds) > 1
    sections = [Section(None, tuple(_opening(review, words)), Matter.OPENING)]
    if review.beds:
        sections += [
            _done(review, several, words),
            _moved(review, several, figure, words),
            _scored(review, several, words),
            _next(review, several, words),
        ]
    if review.to_buy:
        sections.append(_buy(review, words))
    subtitle = say(message("review-subtitle", day=review.today), words)
    return Letter(
        say(title, words), subtitle, tuple(sections), day=review.today, letterhead=letterhead
    )


def _opening(review: YearReview, words: Words) -> Iterator[Block]:
    if not review.beds:
        yield Paragraph(say(message("review-none"), words))
        return
    tested = sum(bool(bed.tests) for bed in review.beds)
    treated = sum(bool(bed.done) for bed in review.beds)
    yield Paragraph(say(_lead(review, tested, treated), words))
    sides = [side for bed in review.beds if (side := _side(bed)) is not None]
    told = []
    if len(review.beds) == 1 and sides:
        wanted = review.beds[0].wanted
        assert wanted is not None
        range_ = ph(wanted.ph_low, high=wanted.ph_high)
        told.append(message("review-beside-range", side=sides[0], range=range_))
    elif sides:
        inside = sides.count("inside")
        told.append(message("review-in-range", n=len(sides), inside=inside))
    if review.faulty:
        told.append(message("review-faulty", n=review.faulty))
    if review.waiting:
        told.append(message("review-waiting", n=review.waiting))
    if told:
        yield Paragraph(" ".join(say(one, words) for one in told))


def _lead(review: YearReview, tested: int, treated: int) -> Message:
    """What the year was, in one sentence."""
    only = review.beds[0]
    if len(review.beds) > 1:
        return message(
            "review-lead",
            year=_year(review),
            tested=tested,
            treated=treated,
            beds=len(review.beds),
        )
    if only.moved_ph is None or only.first is None or only.last is None:
        return message("review-lead-one", year=_year(review), tested=tested, treated=treated)
    fell = "fell" if only.moved_ph < 0.0 else "rose"
    return message(
        "review-lead-moved",
        year=_year(review),
        turn="stayed" if abs(only.moved_ph) < _SCATTER_PH else fell,
        start=ph(only.first.ph_water),
        end=ph(only.last.ph_water),
    )


def _year(review: YearReview) -> Given:
    return Given(str(review.year))


def _done(review: YearReview, several: bool, words: Words) -> Section:
    cells: Cells = (
        ("on", Align.LEFT, lambda _, entry: words.date(entry.on)),
        ("product", Align.LEFT, lambda _, entry: _product(entry.material, words)),
        ("rate", Align.RIGHT, lambda _, entry: words.rate(entry.rate_g_m2)),
    )
    rows = [(bed, entry) for bed in review.beds for entry in bed.done]
    heading = say(message("review-done-heading"), words)
    if not rows:
        return _empty(heading, "review-done-none", words)
    return Section(heading, (_table(rows, cells, several, words),))


def _moved(review: YearReview, several: bool, figure: Figure | None, words: Words) -> Section:
    heading = say(message("review-moved-heading"), words)
    cells: Cells = (
        ("start", Align.LEFT, lambda bed, _: _test(bed.first, words)),
        ("end", Align.LEFT, lambda bed, _: _test(bed.last, words)),
        ("moved", Align.RIGHT, lambda bed, _: _change(bed, words)),
        ("wanted", Align.RIGHT, lambda bed, _: _wanted(bed, words)),
        ("outcome", Align.LEFT, lambda bed, _: _outcome(bed, words)),
    )
    rows = [(bed, None) for bed in review.beds if bed.tests]
    drawn: tuple[Block, ...] = () if figure is None else (figure,)
    if not rows:
        none = Paragraph(say(message("review-moved-none"), words))
        return Section(heading, (none, *drawn))
    caption = say(message("review-moved-caption"), words)
    blocks: list[Block] = [_table(rows, cells, several, words, caption=caption)]
    moved = [bed.moved_ph for bed, _ in rows if bed.moved_ph is not None]
    if any(abs(change) < _SCATTER_PH for change in moved):
        blocks.append(Paragraph(say(message("review-moved-scatter"), words)))
    return Section(heading, (*blocks, *drawn))


def _scored(review: YearReview, several: bool, words: Words) -> Section:
    heading = say(message("review-score-heading"), words)
    rows = [(bed, pair) for bed in review.beds for pair in bed.scored]
    if not rows:
        return _empty(heading, "review-score-none", words)
    cells: Cells = (
        ("read", Align.LEFT, lambda _, pair: words.date(pair.read.on)),
        ("reading", Align.RIGHT, lambda _, pair: words.measure(ph(pair.read.ph_water))),
        ("forecast", Align.RIGHT, lambda _, pair: words.measure(ph(pair.low, high=pair.high))),
        ("outcome", Align.LEFT, lambda _, pair: say(outcome_said(pair), words)),
    )
    sentence = Paragraph(say(shown_said(review.summary), words))
    return Section(heading, (sentence, _table(rows, cells, several, words)))


def _next(review: YearReview, several: bool, words: Words) -> Section:
    heading = say(message("review-next-heading"), words)
    rows = [(bed, row) for bed in review.beds for row in _to_do(bed, review.today, words)]
    perhaps = sum(bed.perhaps for bed in review.beds)
    blocks: list[Block] = []
    if rows:
        cells: Cells = (
            ("when", Align.LEFT, lambda _, row: row[0]),
            ("what", Align.LEFT, lambda _, row: row[1]),
            ("rate", Align.RIGHT, lambda _, row: row[2]),
            ("amount", Align.RIGHT, lambda _, row: row[3]),
        )
        caption = say(message("review-next-caption", until=review.until), words)
        blocks.append(_table(rows, cells, several, words, caption=caption))
    else:
        none = message("review-next-none", until=review.until)
        blocks.append(Paragraph(say(none, words)))
    if perhaps:
        blocks.append(Paragraph(say(message("review-next-perhaps", n=perhaps), words)))
    return Section(heading, tuple(blocks))


def _to_do(bed: BedYear, today: date, words: Words) -> Iterator[tuple[str, str, str, str]]:
    """What to do on a bed in the order of time, what has no day first."""
    if bed.test_first:
        first = message("beds-test-first", field=choice(bed.test_first))
        yield "", say(first, words), "", ""
    lines = [
        (
            part.on,
            say(message("review-apply", product=Product(part.material)), words),
            words.rate(part.rate_g_m2),
            "" if part.amount_g is None else words.amount(part.amount_g),
        )
        for part in bed.parts
    ]
    lines += [(day, say(message("review-test-again"), words), "", "") for day in bed.retest]
    if not lines and not bed.test_first:
        yield "", say(message("beds-decided", decision=bed.decision), words), "", ""
    for day, what, rate, amount in sorted(lines):
        when = words.date(day)
        if day < today:
            when = say(message("review-was-due", day=day), words)
        yield when, what, rate, amount


def _buy(review: YearReview, words: Words) -> Section:
    lines = review.to_buy
    heads = (
        ("product", Align.LEFT),
        ("amount", Align.RIGHT),
        ("beds", Align.RIGHT),
        ("packs", Align.RIGHT),
        ("cost", Align.RIGHT),
    )
    columns = tuple(
        Column(say(message(f"review-column-{head}"), words), align) for head, align in heads
    )
    rows = tuple(_line(line, words) for line in lines)
    caption = say(message("review-buy-caption"), words)
    blocks: list[Block] = [Table(columns, rows, caption)]
    notes = [say(one, words) for one in _buy_notes(lines, words)]
    if notes:
        blocks.append(Items(tuple(notes)) if len(notes) > 1 else Paragraph(notes[0]))
    return Section(say(message("review-buy-heading"), words), tuple(blocks))


def _line(line: ToBuy, words: Words) -> tuple[str, ...]:
    name = _product(line.material, words)
    bag = line.bag
    if bag is not None:
        told = message("review-bag", product=Product(line.material), name=Given(bag.name))
        name = say(told, words)
    packs = ""
    if line.packs is not None and bag is not None and bag.pack_g is not None:
        pack = Given(words.amount(bag.pack_g))
        packs = say(message("review-packs", packs=line.packs, pack=pack), words)
    cost = ""
    if line.cost is not None and bag is not None:
        cost = words.money(line.cost, bag.currency)
    amount = words.amount(line.amount_g) if line.amount_g else ""
    return name, amount, str(line.beds), packs, cost


def _buy_notes(lines: Sequence[ToBuy], words: Words) -> Iterator[Message]:
    totals: dict[str | None, float] = {}
    for line in lines:
        if line.cost is not None and line.bag is not None:
            totals[line.bag.currency] = totals.get(line.bag.currency, 0.0) + line.cost
    if totals:
        said = [words.money(cost, currency) for currency, cost in totals.items()]
        yield message("review-buy-total", cost=Given(words.listed(said)))
    unpriced = sum(line.cost is None for line in lines)
    if unpriced:
        yield message("review-buy-not-priced", n=unpriced)
    unmeasured = sum(line.unmeasured for line in lines)
    if unmeasured:
        yield message("review-buy-unmeasured", n=unmeasured)


def _table(
    rows: Sequence[tuple[BedYear, Any]],
    cells: Cells,
    several: bool,
    words: Words,
    *,
    caption: str | None = None,
) -> Table:
    """Rows with the bed in front where there are several."""
    columns = [Column(say(message(f"review-column-{head}"), words), align)
               for head, align, _ in cells]  # fmt: skip
    if several:
        columns.insert(0, Column(say(message("review-column-bed"), words)))
    made = tuple(
        (*((_called(bed),) if several else ()), *(of(bed, row) for _, _, of in cells))
        for bed, row in rows
    )
    return Table(tuple(columns), made, caption)


def _called(bed: BedYear) -> str:
    return f"{bed.name}, {bed.where}" if bed.where else bed.name


def _empty(heading: str, key: str, words: Words) -> Section:
    return Section(heading, (Paragraph(say(message(key), words)),))


def _product(key: str, words: Words) -> str:
    return say_sentence(message("review-product", product=Product(key)), words)


def _test(test: TestRead | None, words: Words) -> str:
    if test is None:
        return ""
    key = "review-test-rough" if test.method.is_rough else "review-test-on"
    return say(message(key, ph=ph(test.ph_water), day=test.on), words)


def _change(bed: BedYear, words: Words) -> str:
    if bed.moved_ph is None:
        return ""
    size = words.measure(ph(abs(bed.moved_ph)))
    return size if round(bed.moved_ph, 1) == 0.0 else f"{'+' if bed.moved_ph > 0 else '−'}{size}"


def _wanted(bed: BedYear, words: Words) -> str:
    if bed.wanted is None:
        return ""
    return words.measure(ph(bed.wanted.ph_low, high=bed.wanted.ph_high))


def _side(bed: BedYear) -> str | None:
    """Where the last careful test lies beside the range wanted; None where nobody knows."""
    last, wanted = bed.last, bed.wanted
    if last is None or wanted is None or last.method.is_rough:
        return None
    if last.ph_water > wanted.ph_high:
        return "above"
    return "below" if last.ph_water < wanted.ph_low else "inside"


def _outcome(bed: BedYear, words: Words) -> str:
    side = _side(bed)
    return "" if side is None else say(message("review-wanted-outcome", outcome=side), words)
