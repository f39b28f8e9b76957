"""The bed's life: tests, applications, the forecasts of their time, and today's."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from loamshift.domain.answer import Forecast
from loamshift.domain.history import History, LetterSent, Outcome, Score, TestRead
from loamshift.domain.letter import Align, Column, DataSet, Figure, FigureKind, Table
from loamshift.domain.message import Given, Message, Prose, message, ph, prose
from loamshift.domain.message import number as number_said
from loamshift.domain.ph import PhMethod
from loamshift.report.figures.shared import labels_said, short_date
from loamshift.report.letter_head import method_said
from loamshift.report.messages import say
from loamshift.report.words import Words

_SHORT_DAYS = 550
_LONG_YEARS = 8
_WEEK = timedelta(days=7)
_ENOUGH = 10
"""Scores below this number are said to prove little."""
_LEAD_DAYS = 14
"""Paper before the first day, so that its mark stands free."""


def history_figure(history: History, *, words: Words) -> Figure | None:
    """The life of a bed as a figure.

    Returns
    -------
    Figure or None
        Nothing where there is neither a dated test nor a forecast.
    """
    if not history.tests and history.forecast is None:
        return None
    first, last = _span(history)
    wanted = history.wanted
    applied = "yes" if history.put_on else "no"
    alone = message("figure-alone", applied=applied)
    return Figure(
        kind=FigureKind.HISTORY,
        title=say(message("figure-history-title"), words),
        sentence=say(history_told(history), words),
        data=(
            DataSet(
                "span",
                ("first", "today", "last"),
                (tuple(d.isoformat() for d in (first, history.today, last)),),
            ),
            _tests(history),
            DataSet("parts", ("date",), tuple((p.on.isoformat(),) for p in history.put_on)),
            DataSet("letters", ("date",), tuple((x.day.isoformat(),) for x in history.letters)),
            _past(history),
            _course(history.forecast),
            DataSet(
                "wanted",
                ("low", "high"),
                () if wanted is None else ((round(wanted.ph_low, 2), round(wanted.ph_high, 2)),),
            ),
            _warmth(history, first, last),
            _calendar(first, last, words),
        ),
        table=history_table(history, words),
        labels=labels_said(
            words,
            axis=message("figure-axis"),
            plan=message("figure-plan") if history.is_planned else alone,
            band=message("figure-90-tests"),
            wanted=message("figure-wanted", whose="target", plants=None),
            today=message("figure-today"),
            test=message("figure-test"),
            part=message("figure-application"),
            letter=message("figure-history-letter"),
        ),
    )


def history_table(history: History, words: Words) -> Table:
    """Every test with what it stands for in water, and what was forecast for its day."""
    scored = {score.test: score for score in history.scores}
    rows = []
    for test in history.tests:
        score = scored.get(test)
        water = message(
            "figure-history-water", ph=ph(test.ph_water), range=ph(test.lo90, high=test.hi90)
        )
        rows.append(
            (
                words.date(test.on),
                say(_reading(test, words), words),
                say(water, words),
                "" if score is None else words.measure(ph(score.low, high=score.high)),
                "" if score is None else say(outcome_told(score), words),
            )
        )
    columns = (
        Column(say(message("expect-on"), words)),
        Column(say(message("figure-history-column-read"), words)),
        Column(say(message("figure-history-column-water"), words), Align.RIGHT),
        Column(say(message("figure-history-column-forecast"), words), Align.RIGHT),
        Column(say(message("figure-history-column-outcome"), words)),
    )
    return Table(columns, tuple(rows), say(message("figure-history-caption"), words))


def _reading(test: TestRead, words: Words) -> Message:
    """A test as it was read, with its method."""
    known = test.method is not PhMethod.UNKNOWN
    return message(
        "head-reading" if known else "head-reading-unknown",
        ph=Given(ph_read(test.ph, words)),
        method=method_said(test.method),
    )


def ph_read(ph: float, words: Words) -> str:
    """A pH [pH] as a report has it, one digit at least and two at most."""
    tenths = round(ph, 1)
    return words.ph(ph) if abs(ph - tenths) < 0.005 else words.measure(number_said(round(ph, 2)))


def outcome_told(score: Score) -> Message:
    """In a few words how a test came out beside its forecast."""
    return message("figure-history-outcome", outcome=_outcome(score))


def score_told(score: Score) -> Prose:
    """What a test said about the forecast before it."""
    read = score.test.ph_water
    off = read - score.high if score.outcome is Outcome.ABOVE else score.low - read
    return prose(
        message(
            "figure-history-forecast", day=score.letter.day, range=ph(score.low, high=score.high)
        ),
        message(
            "figure-history-score", outcome=_outcome(score), ph=ph(read), off=ph(max(off, 0.0))
        ),
    )


def _outcome(score: Score) -> str:
    return score.outcome.value.replace(" ", "-")


def history_told(history: History) -> Prose:
    """The life of a bed in a few sentences: tests, applications, how forecasts did."""
    return prose(
        _tests_told(history.tests),
        _applications_told(history),
        scores_told(history),
        _ahead_told(history),
    )


def _tests_told(tests: tuple[TestRead, ...]) -> Message:
    if not tests:
        return message("figure-history-no-test")
    first, last = tests[0], tests[-1]
    if len(tests) == 1:
        return message("figure-history-one-test", ph=ph(first.ph_water), day=first.on)
    return message(
        "figure-history-tests",
        n=len(tests),
        start=ph(first.ph_water),
        first=first.on,
        end=ph(last.ph_water),
        last=last.on,
    )


def _applications_told(history: History) -> Message | None:
    if not history.put_on:
        return None
    return message("figure-history-applications", n=len(history.put_on), day=history.put_on[-1].on)


def _ahead_told(history: History) -> Message | None:
    if history.forecast is None:
        return None
    course = history.forecast.ph
    return message(
        "figure-history-ahead",
        planned="yes" if history.is_planned else "no",
        day=history.forecast.dates[-1],
        low=ph(course.q05[-1]),
        high=ph(course.q95[-1]),
    )


def scores_told(history: History) -> Prose:
    """How many tests were within their forecast, of those a careful test could judge.

    Returns
    -------
    Prose
        Sentences; none where no forecast was judged yet.
    """
    judged = [score for score in history.scores if score.outcome is not Outcome.TOO_ROUGH]
    hits, count = sum(score.outcome is Outcome.INSIDE for score in judged), len(judged)
    if history.counted is not None:
        hits, count = history.counted
    if not count:
        return Prose()
    if count == 1:
        return prose(message("figure-history-one-score", hits=hits))
    which = "all" if hits == count else "some" if hits else "none"
    few = "yes" if count < _ENOUGH else "no"
    return prose(
        message("figure-history-scores", which=which, n=count, hits=hits),
        message("figure-history-expected", few=few),
    )


def _span(history: History) -> tuple[date, date]:
    days = [history.today, *(t.on for t in history.tests), *(p.on for p in history.put_on)]
    days += [letter.day for letter in history.letters]
    first = min(days)
    if first < history.today or history.tests:
        first -= timedelta(days=_LEAD_DAYS)
    last = max(days)
    if history.forecast is not None:
        last = max(last, history.forecast.dates[-1])
    return first, max(last, first + timedelta(days=60))


def _tests(history: History) -> DataSet:
    outcomes = {score.test: score.outcome.value for score in history.scores}
    rows = tuple(
        (
            test.on.isoformat(),
            round(test.ph_water, 3),
            round(test.lo90, 3),
            round(test.hi90, 3),
            "rough" if test.method.is_rough else "careful",
            outcomes.get(test, ""),
        )
        for test in history.tests
    )
    return DataSet("tests", ("date", "ph", "low", "high", "care", "outcome"), rows)


def _past(history: History) -> DataSet:
    """Forecasts as they were then, each until the next one was made."""
    rows: list[tuple[str | float | None, ...]] = []
    letters = [letter for letter in history.letters if letter.forecast is not None]
    for number, letter in enumerate(letters):
        last = number + 1 == len(letters)
        until = history.today if last else letters[number + 1].day
        rows += _until(letter, number, until)
    return DataSet("past", ("letter", "date", "q05", "q50", "q95"), tuple(rows))


def _until(
    letter: LetterSent, number: int, until: date
) -> Iterator[tuple[str | float | None, ...]]:
    forecast = letter.forecast
    assert forecast is not None
    for week, day in enumerate(forecast.dates):
        if day > until + _WEEK:
            return
        q05, q50, q95 = (q[week] for q in (forecast.ph.q05, forecast.ph.q50, forecast.ph.q95))
        yield number, day.isoformat(), round(q05, 3), round(q50, 3), round(q95, 3)


def _course(forecast: Forecast | None) -> DataSet:
    columns = ("date", "q05", "q25", "q50", "q75", "q95")
    if forecast is None:
        return DataSet("course", columns, ())
    ph = forecast.ph
    rows: list[tuple[str | float | None, ...]] = []
    for week, day in enumerate(forecast.dates):
        values = (round(q[week], 3) for q in (ph.q05, ph.q25, ph.q50, ph.q75, ph.q95))
        rows.append((day.isoformat(), *values))
    return DataSet("course", columns, tuple(rows))


def _warmth(history: History, first: date, last: date) -> DataSet:
    """Soil temperature of an average year, over every week of the span."""
    warmth = history.soil_temperature
    rows: list[tuple[str | float | None, ...]] = []
    if warmth is not None and warmth.dates:
        start, weeks = warmth.dates[0], min(len(warmth.c), 52)
        day = first
        while day < last:
            week = int(((day - start).days % 365.25) // 7) % weeks
            rows.append((day.isoformat(), round(warmth.c[week], 1)))
            day += _WEEK
    return DataSet("warmth", ("date", "soil_c"), tuple(rows))


def _calendar(first: date, last: date, words: Words) -> DataSet:
    """Days that may stand at the axis, the most welcome ones with the lowest rank."""
    rows: list[tuple[str | float | None, ...]] = []
    long = last.year - first.year > _LONG_YEARS
    short = (last - first).days <= _SHORT_DAYS
    for year in range(first.year, last.year + 1):
        for month in (1, 4, 7, 10):
            day = date(year, month, 1)
            if not first < day <= last or (long and month != 1) or (not short and month != 1):
                continue
            rank = 1 if year % 5 == 0 or not long else 2
            text = str(year) if month == 1 else words.month(month, short=True)
            rows.append((day.isoformat(), text, rank if month == 1 else 3))
    if not rows:
        rows.append((first.isoformat(), short_date(first, words), 0))
    return DataSet("calendar", ("date", "text", "rank"), tuple(rows))
