"""What a figure says agrees with what it shows, and nothing is shown where nothing is known."""

from __future__ import annotations

import re
import subprocess
import sys
from dataclasses import replace
from datetime import date

import pytest

from loamshift.domain.answer import Decision
from loamshift.domain.letter import Figure, FigureKind
from loamshift.report.chart_dose import draw_dose
from loamshift.report.chart_files import letter_figures
from loamshift.report.figures import FIGURES, figures_of
from loamshift.report.figures.shared import product_names, round_steps
from loamshift.report.layout import letter_lines, plain_text
from loamshift.report.letter import letter_from_answer
from loamshift.report.markdown import letter_markdown
from loamshift.report.words import Words
from loamshift.tables.materials import load_materials
from report.answers import ALUM, POWDER, bare, go_acidify
from report.drawn import COURSES, UK, US, every_figure, figures, seen_ahead

EVERY = dict(every_figure())


@pytest.mark.parametrize("name", EVERY)
def test_every_text_of_a_figure_reads_well(name: str) -> None:
    figure = EVERY[name]
    texts = [figure.title, figure.sentence, *(text for _, text in figure.labels)]
    texts += [column.title for column in figure.table.columns]
    texts += [cell for row in figure.table.rows for cell in row]
    texts += [
        cell for data in figure.data for row in data.rows for cell in row if isinstance(cell, str)
    ]
    for text in texts:
        for wrong in (r"\bNone\b", r"\bnan\b", "  ", r"\.\.", r" [,.;:]", "_", r"g/m2", r"-0 °"):
            assert not re.search(wrong, text), text
    assert figure.sentence[0].isupper() and figure.sentence.endswith(".")
    assert re.search(r"\d", figure.sentence), "a figure is said with its figures"
    assert "chart" not in figure.sentence.lower() and "shows" not in figure.sentence
    wrong_spelling = "sulfur" if name.endswith("metric") else "sulphur"
    assert not any(wrong_spelling in text.lower() for text in texts)


def test_nothing_is_drawn_of_nothing() -> None:
    answer, case = bare()
    assert figures_of(answer, case, words=UK) == ()
    of_more = {
        *(FigureKind.HISTORY, FigureKind.CALIBRATION, FigureKind.LAYERS),
        *(FigureKind.TRIAL, FigureKind.TRIAL_SIZE),
        *(FigureKind.FIELD_RATES, FigureKind.FIELD_PH),
    }
    assert set(FIGURES) == set(FigureKind) - of_more, "those are of many answers, or not of one"


@pytest.mark.parametrize(
    ("kind", "lost"),
    [
        (FigureKind.COURSE, {"forecast": None}),
        (FigureKind.YEAR, {"soil_temperature": None}),
        (FigureKind.YEAR, {"applications": (), "retest": ()}),
        (FigureKind.LEDGER, {"ledger": None}),
        (FigureKind.OPTIONS, {"options": ()}),
        (FigureKind.CLAIMS, {"claims": ()}),
    ],
)
def test_a_figure_goes_with_its_data(kind: FigureKind, lost: dict[str, object]) -> None:
    name = "measure-first" if kind is FigureKind.CLAIMS else "effort"
    answer, case = seen_ahead(name)
    if kind is FigureKind.CLAIMS and not answer.claims:
        name = next(n for n in COURSES if FigureKind.CLAIMS in figures(n))
        answer, case = seen_ahead(name)
    assert FIGURES[kind](answer, case, words=UK) is not None
    assert FIGURES[kind](replace(answer, **lost), case, words=UK) is None


def test_no_published_table_no_figure_of_the_dose() -> None:
    answer, case = seen_ahead("effort")
    bare_dose = replace(answer.dose, published_g_m2=None)
    assert FIGURES[FigureKind.DOSE](replace(answer, dose=bare_dose), case, words=UK) is None


def test_one_way_alone_is_not_compared() -> None:
    answer, case = seen_ahead("effort")
    one = replace(answer, options=answer.options[:1])
    assert FIGURES[FigureKind.OPTIONS](one, case, words=UK) is None


def test_the_table_of_the_course_has_the_figures_that_are_drawn() -> None:
    figure = figures("effort")[FigureKind.COURSE]
    answer, _ = seen_ahead("effort")
    assert answer.forecast is not None
    drawn = {row[0]: row for row in figure.data[0].rows}
    said = {UK.date(day): day.isoformat() for day in answer.forecast.dates}
    assert len(figure.table.rows) > 10
    for on, best, tests, alone in figure.table.rows:
        _, q05, _, q50, _, q95, left = drawn[said[on]]
        assert (best, alone) == (f"{q50:.1f}", f"{left:.1f}")
        assert tests in (f"{q05:.1f} to {q95:.1f}", f"{q50:.1f}")


def test_without_a_plan_one_course_is_shown_and_named() -> None:
    figure = figures("leave")[FigureKind.COURSE]
    assert dict(figure.labels)["plan"] == "left as it is"
    assert all(row[6] is None for row in figure.data[0].rows)
    assert figure.sentence.startswith("Left as it is, the best estimate")
    assert len(figure.table.columns) == 3


def test_the_sentence_of_the_course_says_when_the_range_is_reached() -> None:
    never = figures("elsewhere")[FigureKind.COURSE].sentence
    assert "does not reach the range for rhododendron, pH 4.5 to 6.0." in never
    reached = figures("go-acidify")[FigureKind.COURSE]
    day = next(
        str(row[0]) for row in reached.data[0].rows if isinstance(row[3], float) and row[3] <= 6.0
    )
    answer, _ = seen_ahead("go-acidify")
    assert answer.forecast is not None
    on = next(UK.date(d) for d in answer.forecast.dates if d.isoformat() == day)
    assert f"pH 5.0 to 6.0, from about {on} on." in reached.sentence


def test_bars_of_the_ledger_add_up_to_the_last() -> None:
    figure = figures("effort")[FigureKind.LEDGER]
    *lines, total = figure.data[0].rows
    values = [row[2] for row in lines]
    assert total[0] == "sum"
    assert sum(v for v in values if isinstance(v, float)) == pytest.approx(total[2], abs=0.05)
    sizes = [abs(v) for v in values if isinstance(v, float)]
    assert sizes == sorted(sizes, reverse=True)


def test_what_to_start_with_is_marked_in_the_dose_as_pure_sulfur() -> None:
    answer, case = seen_ahead("rule")
    figure = FIGURES[FigureKind.DOSE](answer, case, words=UK)
    assert figure is not None
    assert [row[0] for row in figure.data[0].rows] == ["own", "first", "printed"]
    share = load_materials()[POWDER].elemental_s_frac
    assert figure.data[0].rows[1][3] == pytest.approx(60.0 * share, abs=0.001)
    assert f"starting with is worth {UK.rate(60.0 * share)} of pure sulphur." in figure.sentence


@pytest.mark.parametrize("decision", list(Decision))
def test_nothing_is_marked_to_start_with_where_the_letter_suggests_nothing(
    decision: Decision,
) -> None:
    answer, case = seen_ahead("rule")
    waits = replace(answer, verdict=replace(answer.verdict, decision=decision))
    figure = FIGURES[FigureKind.DOSE](waits, case, words=UK)
    assert figure is not None
    marked = "first" in [row[0] for row in figure.data[0].rows]
    assert marked == (decision in (Decision.GO, Decision.EFFORT))
    assert ("starting with" in figure.sentence) == marked


def test_what_brings_no_sulfur_is_not_marked_among_weights_of_sulfur() -> None:
    answer, case = seen_ahead("rule")
    assert answer.plan is not None
    parts = tuple(replace(part, material=ALUM) for part in answer.plan.parts)
    other = replace(answer, plan=replace(answer.plan, parts=parts))
    figure = FIGURES[FigureKind.DOSE](other, case, words=UK)
    assert figure is not None
    assert [row[0] for row in figure.data[0].rows] == ["own", "printed"]
    assert "starting with" not in figure.sentence


def test_the_course_has_the_test_of_the_plan_and_what_may_follow_it() -> None:
    answer, case = seen_ahead("rule")
    bare_plan = replace(answer, applications=answer.applications[:1], retest=())
    figure = FIGURES[FigureKind.COURSE](bare_plan, case, words=UK)
    assert figure is not None
    sets = {data.name: data.rows for data in figure.data}
    assert sets["tests"] == (("2027-03-28",),)
    assert sets["parts"] == (("2026-04-20", "sure"), ("2027-04-12", "perhaps"))
    year = FIGURES[FigureKind.YEAR](bare_plan, case, words=UK)
    assert year is not None
    marks = {data.name: data.rows for data in year.data}["marks"]
    assert ("test", "2027-03-28", "test") in marks
    assert "One more application may follow later." in year.sentence


def test_what_only_a_test_may_call_for_is_marked_so_in_the_year() -> None:
    answer, case = seen_ahead("rule")
    assert answer.plan is not None
    soon = tuple(
        replace(line, part_on=date(2027, 4, 2)) if line.part_on else line
        for line in answer.plan.decides
    )
    answer = replace(
        answer,
        applications=answer.applications[:1],
        plan=replace(answer.plan, decides=soon),
        retest=(),
    )
    year = FIGURES[FigureKind.YEAR](answer, case, words=UK)
    assert year is not None
    marks = {data.name: data.rows for data in year.data}["marks"]
    assert ("part", "2027-04-02", "if needed") in marks
    assert "If a test calls for it, another application follows on 2 April 2027" in year.sentence


def test_a_mark_by_the_forecast_of_an_old_letter_is_still_drawn() -> None:
    figure = figures("rule")[FigureKind.DOSE]
    spans, scale = figure.data
    rows = tuple(("forecast", *row[1:]) if row[0] == "first" else row for row in spans.rows)
    old = replace(figure, data=(replace(spans, rows=rows), scale))
    points = [
        layer
        for kind, shown in (("first", figure), ("forecast", old))
        for layer in draw_dose(shown, width=600.0).layers
        if layer.name == kind
    ]
    assert len(points) == 2 and points[0].rows == points[1].rows != ()


def test_rates_are_drawn_in_the_units_of_the_reader() -> None:
    metric, us = (figures("effort", words)[FigureKind.DOSE] for words in (UK, US))
    ratio = [
        m / u
        for m, u in zip(metric.data[0].rows[0][2:5], us.data[0].rows[0][2:5], strict=True)
        if isinstance(m, float) and isinstance(u, float)
    ]
    assert ratio == pytest.approx([48.82] * 3, rel=1e-3)


def test_the_letter_carries_figures_and_plain_text_leaves_them_out() -> None:
    answer, case = seen_ahead("effort")
    letter = letter_from_answer(answer, case, words=UK)
    kinds = [figure.kind for figure in letter_figures(letter)]
    assert len(set(kinds)) >= 5 and set(kinds) <= set(FIGURES)
    for text in (letter_markdown(letter), plain_text(letter_lines(letter, width=88))):
        flat = " ".join(text.split())
        assert not any(figure.sentence[:60] in flat for figure in letter_figures(letter))
        assert "\n\n\n" not in text


def test_a_letter_is_drawn_without_the_part_that_prints() -> None:
    code = "import sys, loamshift.report.html; assert 'typst' not in sys.modules"
    subprocess.run([sys.executable, "-c", code], check=True)


@pytest.mark.parametrize("top", [0.03, 1.0, 4.7, 9.99, 150.0, 961.0, 14_000.0])
@pytest.mark.parametrize("most", [3, 6])
def test_steps_are_round_and_few(top: float, most: int) -> None:
    steps = round_steps(top, most=most)
    assert 2 <= len(steps) <= most + 1
    assert steps[0] == 0.0 and 0.4 * top <= steps[-1] <= top * 1.0001
    assert f"{steps[1]:e}"[0] in "125"


@pytest.mark.parametrize("words", [UK, US], ids=["uk", "us"])
def test_no_two_products_of_a_figure_have_the_same_name(words: Words) -> None:
    names = [str(name.text) for name in product_names(list(load_materials()), words)]
    assert len(set(names)) == len(names)
    few = product_names([POWDER, ALUM, "own lime (from the shed)"], words)
    assert [name.text for name in few] == [
        words.product(POWDER),
        words.product(ALUM),
        "own lime (from the shed)",
    ]


def test_a_figure_of_the_plain_answer_needs_no_forecast() -> None:
    answer, case = go_acidify()
    kinds = {figure.kind for figure in figures_of(answer, case, words=UK)}
    assert FigureKind.COURSE not in kinds and FigureKind.LEDGER in kinds
    assert all(isinstance(figure, Figure) for figure in figures_of(answer, case, words=UK))
