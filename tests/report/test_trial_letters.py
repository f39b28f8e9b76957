"""What is said of a trial, before it and after it."""

import subprocess
import sys
from pathlib import Path

import pytest

from invented_trials import TWO, plan, rows
from loamshift.case.trial_sheets import data_csv
from loamshift.report.chart_files import chart_file, letter_figures
from loamshift.report.html import letter_html
from loamshift.report.layout import letter_lines, plain_text
from loamshift.report.messages import say
from loamshift.report.trial_plan import trial_plan_letter
from loamshift.report.trial_recipe import trial_recipe
from loamshift.report.trial_result import plain_words, trial_letter
from loamshift.report.words import Words
from loamshift.services.trial.analyse import analyse

UK, US = Words("uk", "metric"), Words("us", "us")


def falls(name: str, day: int) -> float:
    return 7.8 - (0.6 if name == "peat" and day in (1, 3) else 0.0)


def told(head: str = "", words: Words = UK) -> str:
    letter = trial_plan_letter(plan(head), None, words=words)
    return plain_text(letter_lines(letter, width=200))


def test_the_plan_says_what_it_can_show_and_who_stands_where() -> None:
    text = told()
    assert "likely to show a difference of pH 0.22" in text
    assert "moss peat, 300 g" in text
    assert "20 April 2026" in text and "19 July 2026" in text
    assert "None" not in text


def test_a_demonstration_is_not_sold_as_an_experiment() -> None:
    assert told("replicates = 1").count("This is a demonstration, not an experiment") == 1
    assert "likely to show" not in told("replicates = 1")


def test_a_blind_protocol_has_no_treatment_on_its_map() -> None:
    rows_of_map = [line for line in told("blind = true").splitlines() if line.startswith("Row ")]
    assert rows_of_map and not any("peat" in line for line in rows_of_map)


def test_the_paragraph_says_that_the_fall_was_gone() -> None:
    made = plan()
    result = analyse(made, rows(made, falls), prediction=None)
    text = say(plain_words(result, words=UK), UK)
    assert "lower than with “nothing” on day" in text
    assert "By day 90 nothing that matters was left of it" in text
    assert "says nothing about others" in text


def test_the_paragraph_of_an_open_question_gives_both_ends() -> None:
    made = plan("replicates = 2\nmatters = 0.05")
    result = analyse(made, rows(made, lambda name, day: 7.0, pot_sd=0.2), prediction=None)
    text = say(plain_words(result, words=UK), UK)
    assert "the trial cannot tell" in text and "may be anything from" in text


def test_nothing_to_compare_is_said() -> None:
    made = plan("replicates = 1", TWO)
    result = analyse(made, rows(made, falls), prediction=None)
    text = plain_text(letter_lines(trial_letter(result, words=UK), width=200))
    assert "Nothing can be compared yet" in text
    assert "there is only one pot of each treatment" in text


@pytest.mark.parametrize("words", [UK, US], ids=["uk", "us"])
def test_the_report_is_a_page_with_one_figure(words: Words) -> None:
    made = plan('design = "blocks"\nreplicates = 4')
    letter = trial_letter(analyse(made, rows(made, falls), prediction=None), words=words)
    page = letter_html(letter, words=words)
    assert page.count('class="trial"') == 1 and "None" not in page
    (figure,) = letter_figures(letter)
    svg = chart_file(figure, ending="svg").decode()
    assert "day 90" in svg and "peat" in svg
    assert chart_file(figure, ending="svg", width=320)


@pytest.mark.parametrize("head", ["", 'design = "blocks"\nreplicates = 4'], ids=["plain", "blocks"])
def test_the_recipe_works_the_same_figures_out_alone(head: str, tmp_path: Path) -> None:
    made = plan(head)
    read = [row for row in rows(made, falls, days=(0, 1)) if (row.pot, row.day) != ("4", 1)]
    result = analyse(made, read, prediction=None)
    (tmp_path / "data.csv").write_text(data_csv(made, result.readings), encoding="utf-8")
    (tmp_path / "recipe.py").write_text(trial_recipe(made.trial), encoding="utf-8")
    ran = subprocess.run(
        [sys.executable, "-I", "recipe.py", "data.csv"],
        cwd=tmp_path,
        capture_output=True,
        text=True,
        check=True,
    )
    ours = [
        f"day {day.day}: {row.treatment}: {row.estimate:.3f} ({row.low:.3f} to {row.high:.3f})"
        for day in result.days
        for row in day.rows
    ]
    assert sorted(ran.stdout.splitlines()) == sorted(ours)
