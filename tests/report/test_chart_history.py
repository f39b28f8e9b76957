"""The life of a bed is legible at any width: nothing clipped, no word on another."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import combinations

import pytest

from loamshift.domain.answer import DoNothing, Forecast, ForecastPh, SoilTemperature, Wanted
from loamshift.domain.history import History, LetterSent, PutOn, TestRead
from loamshift.domain.letter import Figure
from loamshift.domain.ph import PhMethod
from loamshift.report.chart import NARROWEST_PX, PAGE_WIDTH_PX, PHONE_WIDTH_PX, chart_inline, draw
from loamshift.report.chart_drawing import rows_of
from loamshift.report.figures.history import history_figure, history_told, ph_read
from loamshift.report.words import Words
from loamshift.services.history import scores_of
from report.test_charts import boxes
from wording import read as read_worded

DAY = date(2026, 5, 1)
UK = Words(spelling="uk", units="metric")


def forecast(day: date, *, start: float, weeks: int = 157) -> Forecast:
    dates = tuple(day + timedelta(weeks=week) for week in range(weeks))

    def falling(off: float) -> tuple[float, ...]:
        return tuple(start + off - 0.01 * min(week, 60) for week in range(weeks))

    ph = ForecastPh(
        q05=falling(-0.5), q25=falling(-0.2), q50=falling(0.0), q75=falling(0.2), q95=falling(0.5)
    )
    return Forecast(dates=dates, ph=ph, do_nothing=DoNothing(q50=falling(0.1)))


def read(on: date, ph: float, method: PhMethod = PhMethod.WATER_1_1) -> TestRead:
    return TestRead(
        on=on,
        ph=ph,
        method=method,
        depth_cm=15.0,
        ph_water=ph,
        ph_water_sd=0.18,
        lo90=ph - 0.3,
        hi90=ph + 0.3,
    )


def life(*, tests: int, letters: int, ahead: bool = True) -> History:
    first = DAY - timedelta(days=190 * max(tests, letters))
    read_on = tuple(
        read(first + timedelta(days=190 * n), 7.2 - 0.2 * n if n != 3 else 8.9)
        for n in range(tests)
    )
    sent = tuple(
        LetterSent(
            key=str(n),
            title="Plan",
            sent_on=first + timedelta(days=190 * n + 5),
            day=first + timedelta(days=190 * n + 5),
            decision="go",
            forecast=forecast(first + timedelta(days=190 * n + 5), start=7.0 - 0.2 * n),
        )
        for n in range(letters)
    )
    return History(
        name="Border",
        today=DAY,
        tests=read_on,
        put_on=tuple(
            PutOn(on=test.on, material="elemental sulfur, powder", rate_g_m2=30, as_given="30 g/m2")
            for test in read_on[1:3]
        ),
        letters=sent,
        scores=scores_of(read_on, sent),
        forecast=forecast(DAY, start=5.9) if ahead else None,
        is_planned=True,
        wanted=Wanted(ph_low=4.5, ph_high=5.5, ph_aim=5.0, names=("highbush blueberry",)),
        soil_temperature=SoilTemperature(
            depth_cm=7.5,
            dates=tuple(DAY + timedelta(weeks=week) for week in range(53)),
            c=tuple(10.0 + week % 10 for week in range(53)),
        ),
        undated=False,
    )


LIVES = {
    "one test": life(tests=1, letters=0),
    "many": life(tests=6, letters=4),
    "twenty years": life(tests=40, letters=2),
    "no forecast": life(tests=2, letters=0, ahead=False),
    "only ahead": life(tests=0, letters=0),
}


def shape(name: str) -> Figure:
    figure = history_figure(LIVES[name], words=UK)
    assert figure is not None
    return figure


@pytest.mark.parametrize("name", LIVES)
@pytest.mark.parametrize("width", [NARROWEST_PX, PHONE_WIDTH_PX, PAGE_WIDTH_PX, 900])
def test_no_word_is_clipped_or_on_another(name: str, width: int) -> None:
    drawing = draw(shape(name), width=width)
    stand = list(boxes(drawing))
    for left, top, right, foot, text in stand:
        assert left >= 0.0 and top >= 0.0, text
        assert right <= drawing.width + 0.5 and foot <= drawing.height + 0.5, text
    for one, other in combinations(stand, 2):
        apart = (
            one[2] <= other[0] + 0.5
            or other[2] <= one[0] + 0.5
            or one[3] <= other[1] + 2.0
            or other[3] <= one[1] + 2.0
        )
        assert apart, (one, other)


@pytest.mark.parametrize("name", LIVES)
def test_it_is_a_picture_and_every_mark_lies_in_its_field(name: str) -> None:
    figure = shape(name)
    assert "<path" in chart_inline(figure, width=PAGE_WIDTH_PX)
    drawing = draw(figure)
    for layer in drawing.layers:
        if layer.name in ("tests", "missed", "course") or layer.name.startswith("past_"):
            for row in layer.rows:
                assert -1e-6 <= float(row["x"]) <= drawing.x.high + 1e-6


def test_a_forecast_of_a_letter_ends_where_the_next_begins() -> None:
    figure = shape("many")
    past = rows_of(figure, "past")
    starts = [str(row["date"]) for row in rows_of(figure, "letters")]
    for row in past:
        number = int(float(str(row["letter"])))
        if number + 1 < len(starts):
            limit = date.fromisoformat(starts[number + 1]) + timedelta(weeks=1)
            assert date.fromisoformat(str(row["date"])) <= limit


def test_a_miss_is_filled_and_said() -> None:
    figure = shape("many")
    missed = next(x for x in draw(figure).layers if x.name == "missed")
    assert len(missed.rows) == 1
    assert "tests with a forecast" in figure.sentence
    assert "It should be 90 in 100, but so few tests prove little." in figure.sentence
    assert [row[4] for row in figure.table.rows].count("above its forecast") == 1


def test_nothing_to_tell_is_no_figure() -> None:
    empty = life(tests=0, letters=0, ahead=False)
    assert history_figure(empty, words=UK) is None
    assert read_worded(history_told(empty)) == "No pH test has a date yet."


@pytest.mark.parametrize(("ph", "said"), [(5.0, "5.0"), (5.25, "5.25"), (6.1, "6.1")])
def test_a_reading_is_said_with_the_digits_of_a_report(ph: float, said: str) -> None:
    assert ph_read(ph, UK) == said
