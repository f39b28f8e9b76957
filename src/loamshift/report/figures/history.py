"""The bed's life: tests, what was put on, the forecasts of their time, and today's."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from loamshift.domain.answer import Forecast
from loamshift.domain.history import History, LetterSent, Outcome, Score
from loamshift.domain.letter import Align, Column, DataSet, Figure, FigureKind, Table
from loamshift.report.figures.shared import SHORT_MONTHS, short_date
from loamshift.report.letter_words import counted, raised, sentences
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

    Parameters
    ----------
    history
        What happened, and today's forecast [object].
    words
        Spelling and units of the reader [object].

    Returns
    -------
    Figure or None
        Nothing where there is neither a dated test nor a forecast [object].
    """
    if not history.tests and history.forecast is None:
        return None
    first, last = _span(history)
    wanted = history.wanted
    labels = (
        ("axis", "pH in water"),
        ("plan", "with the plan" if history.is_planned else "left as it is"),
        ("band", "nine tests in ten"),
        ("wanted", "wanted"),
        ("today", "today"),
        ("test", "test"),
        ("part", "put on"),
        ("letter", "letter"),
    )
    return Figure(
        kind=FigureKind.HISTORY,
        title="The life of this bed",
        sentence=words.text(history_sentence(history, words)),
        data=(
            DataSet(
                "span",
                ("first", "today", "last"),
                (tuple(d.isoformat() for d in (first, history.today, last)),),
            ),
            _tests(history, words),
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
        labels=tuple((key, words.text(text)) for key, text in labels),
    )


def history_table(history: History, words: Words) -> Table:
    """Every test with what it stands for in water, and what was foretold for its day.

    Parameters
    ----------
    history
        What happened [object].
    words
        Spelling and units of the reader [object].

    Returns
    -------
    Table
        One row for each dated test [object].
    """
    scored = {score.test: score for score in history.scores}
    rows = []
    for test in history.tests:
        score = scored.get(test)
        rows.append(
            (
                words.date(test.on),
                f"pH {ph_read(test.ph)}, {test.method.value}",
                f"{words.ph(test.ph_water)} ({words.ph(test.lo90)} to {words.ph(test.hi90)})",
                "" if score is None else f"{words.ph(score.low)} to {words.ph(score.high)}",
                "" if score is None else score_word(score),
            )
        )
    return Table(
        (
            Column("on"),
            Column("read"),
            Column("in water, nine in ten", Align.RIGHT),
            Column("foretold", Align.RIGHT),
            Column("forecast"),
        ),
        tuple(rows),
        words.text("Tests, as pH in water; beside them the last forecast made before each"),
    )


def ph_read(ph: float) -> str:
    """A pH [pH] as a report has it, one digit at least and two at most [text]."""
    text = f"{ph:.2f}"
    return text.removesuffix("0")


def score_word(score: Score) -> str:
    """One word or two on a forecast: hit, miss with its side, or why neither [text]."""
    match score.outcome:
        case Outcome.INSIDE:
            return "hit"
        case Outcome.ABOVE:
            return "miss, the test is higher"
        case Outcome.BELOW:
            return "miss, the test is lower"
        case Outcome.TOO_ROUGH:
            return "not scored, the method is too rough"


def score_sentence(score: Score, words: Words) -> str:
    """What a test said about the forecast before it.

    Parameters
    ----------
    score
        The test beside its forecast [object].
    words
        Spelling and units of the reader [object].

    Returns
    -------
    str
        A sentence [text].
    """
    band = f"pH {words.ph(score.low)} to {words.ph(score.high)}"
    lead = (
        f"The letter of {words.date(score.letter.day)} foretold {band} for this day; the test "
        f"reads {words.ph(score.test.ph_water)} in water"
    )
    match score.outcome:
        case Outcome.INSIDE:
            return f"{lead}: a hit."
        case Outcome.ABOVE:
            return f"{lead}: a miss, {words.ph(score.test.ph_water - score.high)} above."
        case Outcome.BELOW:
            return f"{lead}: a miss, {words.ph(score.low - score.test.ph_water)} below."
        case Outcome.TOO_ROUGH:
            return f"{lead}, by a method too rough to score a forecast."


def history_sentence(history: History, words: Words) -> str:
    """The life of a bed in a few sentences: tests, what was put on, how forecasts did.

    Parameters
    ----------
    history
        What happened, and today's forecast [object].
    words
        Spelling and units of the reader [object].

    Returns
    -------
    str
        Sentences [text].
    """
    tests = history.tests
    if not tests:
        lead = "No dated test is kept yet."
    elif len(tests) == 1:
        lead = f"One test: pH {words.ph(tests[0].ph_water)} in water on {words.date(tests[0].on)}."
    else:
        lead = (
            f"{raised(counted(len(tests), 'test'))}, from pH {words.ph(tests[0].ph_water)} in "
            f"water on {words.date(tests[0].on)} to {words.ph(tests[-1].ph_water)} on "
            f"{words.date(tests[-1].on)}."
        )
    parts = ""
    if history.put_on:
        times = {1: "once", 2: "twice"}.get(
            len(history.put_on), counted(len(history.put_on), "time")
        )
        latest = "" if times == "once" else "last "
        parts = f"Something was put on {times}, {latest}on {words.date(history.put_on[-1].on)}."
    ahead = ""
    if history.forecast is not None:
        ph, last = history.forecast.ph, history.forecast.dates[-1]
        with_plan = "With the plan" if history.is_planned else "Left as it is"
        ahead = (
            f"{with_plan} nine tests in ten should read {words.ph(ph.q05[-1])} to "
            f"{words.ph(ph.q95[-1])} on {words.date(last)}."
        )
    return sentences(lead, parts, scores_said(history), ahead)


def scores_said(history: History) -> str:
    """How many forecasts were hit, of those a careful test could judge.

    Parameters
    ----------
    history
        What happened [object].

    Returns
    -------
    str
        A sentence; empty where no forecast was judged yet [text].
    """
    judged = [score for score in history.scores if score.outcome is not Outcome.TOO_ROUGH]
    if not judged:
        return ""
    hits = sum(score.outcome is Outcome.INSIDE for score in judged)
    if len(judged) == 1:
        return (
            "The one test since a letter hit its forecast."
            if hits
            else ("The one test since a letter missed its forecast.")
        )
    few = ", and so few are no proof" if len(judged) < _ENOUGH else ""
    of = counted(len(judged), "test")
    if hits == len(judged):
        lead = f"All {of} since a letter hit their forecast"
    elif not hits:
        lead = f"None of the {of} since a letter hit its forecast"
    else:
        lead = f"Of the {of} since a letter {hits} hit theirs"
    return f"{lead}; nine in ten should{few}."


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


def _tests(history: History, words: Words) -> DataSet:
    outcomes = {score.test: score.outcome.value for score in history.scores}
    rows = tuple(
        (
            test.on.isoformat(),
            round(test.ph_water, 3),
            round(test.lo90, 3),
            round(test.hi90, 3),
            "rough" if test.method.is_rough else "careful",
            outcomes.get(test, ""),
            f"{words.date(test.on)}: pH {ph_read(test.ph)} by {test.method.value}, "
            f"{words.ph(test.ph_water)} in water",
        )
        for test in history.tests
    )
    return DataSet("tests", ("date", "ph", "low", "high", "care", "outcome", "said"), rows)


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
            text = str(year) if month == 1 else SHORT_MONTHS[month - 1]
            rows.append((day.isoformat(), text, rank if month == 1 else 3))
    if not rows:
        rows.append((first.isoformat(), short_date(first, words), 0))
    return DataSet("calendar", ("date", "text", "rank"), tuple(rows))
