"""Whole beds: side by side, and before and after; the check by lot; words that fit the unit."""

import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from invented_trials import LIMY, plan, rows, trial
from loamshift.case.trial_sheets import data_csv
from loamshift.domain.trial import TrialPlan
from loamshift.domain.trial_result import RowRead, Shown, TrialResult, Trouble
from loamshift.errors import CaseError
from loamshift.report.messages import say
from loamshift.report.trial_plan import trial_plan_letter
from loamshift.report.trial_recipe import trial_recipe
from loamshift.report.trial_result import trial_letter
from loamshift.report.words import Words
from loamshift.services.trial.analyse import analyse
from loamshift.services.trial.design import plan_trial

LIME = """
[[treatment]]
name = "nothing"
[[treatment]]
name = "lime"
material = "ground limestone, calcitic"
rate = "200 g/m2"
"""
BOTH = 'design = "before and after"\nreplicates = 4\n'


def beds(head: str = BOTH, soil: str = LIMY) -> TrialPlan:
    return plan_trial(trial(head, LIME, soil.replace('area = "0.03 m2"', 'area = "10 m2"')))


def limed(made: TrialPlan, *, effect: float = 0.5, seed: int = 2) -> list[RowRead]:
    """Beds that differ by half a pH from the start; all rise by 0.1 at the season's turn."""
    rng = np.random.default_rng(seed)
    of_bed = {place.label: 6.0 + rng.normal(0.0, 0.5) for place in made.places}
    treated = {place.label for place in made.places if place.treatment}

    def rise(pot: str, day: int) -> float:
        return (0.1 + effect * (pot in treated)) * (day > 0)

    return [
        replace(
            row,
            ph=round(float(of_bed[row.pot] + rng.normal(0.0, 0.04) + rise(row.pot, row.day)), 2),
        )
        for row in rows(made, lambda _, __: 6.0)
        if row.day is not None
    ]


def texts(result: TrialResult) -> str:
    letter = trial_letter(result, words=Words())
    return " ".join(str(section) for section in letter.sections)


def test_beds_that_differ_from_the_start_are_set_off_and_the_change_is_found() -> None:
    made = beds()
    result = analyse(made, limed(made), prediction=None)
    assert [day.day for day in result.days] == [30, 90, 180, 365]
    (row,) = result.average
    assert row.shown is Shown.DIFFERS and row.low < 0.5 < row.high and row.high - row.low < 0.3
    assert row.lot is not None and (row.lot.ways, row.lot.as_large) == (70, 2)
    assert not result.problems and not result.bare
    assert "Change since before the start" in texts(result) and "2 of 70 ways" in texts(result)
    side = plan_trial(replace(made.trial, design=type(made.trial.design)("side by side")))
    apart = analyse(side, limed(side), prediction=None)
    assert not apart.average or apart.average[0].shown is Shown.OPEN, "hidden by what beds differ"


def test_the_script_works_the_same_figures_out(tmp_path: Path) -> None:
    made = beds()
    result = analyse(made, limed(made), prediction=None)
    (tmp_path / "data.csv").write_text(data_csv(made, result.readings), encoding="utf-8")
    (tmp_path / "script.py").write_text(trial_recipe(made.trial), encoding="utf-8")
    told = subprocess.run(
        [sys.executable, "script.py", "data.csv"],
        cwd=tmp_path, capture_output=True, text=True, check=True,
    ).stdout.splitlines()  # fmt: skip
    ours = [
        f"day {day.day}: lime: {row.estimate:.3f} ({row.low:.3f} to {row.high:.3f})"
        for day in result.days
        for row in day.rows
    ]
    assert told == ours


def test_one_bed_of_each_is_a_demonstration_with_a_change_and_no_interval() -> None:
    made = beds(BOTH.replace("4", "1"))
    result = analyse(made, limed(made), prediction=None)
    assert not any(day.rows for day in result.days)
    assert [one.kind for one in result.problems] == [Trouble.ONE_POT]
    (bare,) = result.bare
    assert bare.change == pytest.approx(0.5, abs=0.1) and (bare.n, bare.n_control) == (1, 1)
    assert "nobody can tell the treatment from the bed" in texts(result)
    assert "demonstration" in texts(result)


def test_beds_without_a_reading_before_are_named_and_left_out() -> None:
    made = beds()
    read = [row for row in limed(made) if row.pot != "3" or (row.day or 0) > 0]
    result = analyse(made, read, prediction=None)
    (found,) = [one for one in result.problems if one.kind is Trouble.NO_BEFORE]
    assert "Bed 3 was not read before the start" in say(found.said, Words())
    nothing = analyse(made, [row for row in read if (row.day or 0) > 0], prediction=None)
    assert not nothing.days and Trouble.NO_BEFORE in [one.kind for one in nothing.problems]


def test_what_was_not_decided_by_lot_is_said_and_not_checked_by_lot() -> None:
    made = beds(BOTH + "by_lot = false\n")
    assert [place.treatment for place in made.places] == [0] * 4 + [1] * 4
    result = analyse(made, limed(made), prediction=None)
    assert all(row.lot is None for day in result.days for row in day.rows)
    assert "was not decided by lot" in texts(result) and "dealt" not in texts(result)
    plain = str(trial_plan_letter(made, None, words=Words()))
    assert "Nothing was decided by lot here" in plain and "shuffled" not in plain


@pytest.mark.parametrize(
    ("head", "path"),
    [
        (BOTH + "days = [10, 30]\n", "days"),
        (BOTH + "days = [-10, 0]\n", "days"),
        ("days = [-10, 30]\n", "days"),
    ],
)
def test_days_that_cannot_be_compared_are_refused(head: str, path: str) -> None:
    with pytest.raises(CaseError) as refused:
        beds(head)
    assert [one.path for one in refused.value.faults] == [path]


def test_more_readings_before_make_a_smaller_difference_visible() -> None:
    few = beds(BOTH + "days = [0, 30]\n").smallest_ph
    many = beds(BOTH + "days = [-90, -60, -30, 0, 30, 90, 180, 365]\n").smallest_ph
    assert few is not None and many is not None and many == pytest.approx(few / 2.0)


def test_strips_are_called_strips_wherever_something_is_wrong() -> None:
    made = plan('design = "strips"\nreplicates = 4\n')
    read = [row for row in rows(made, lambda _, __: 7.0) if row.pot != "2" or row.day != 0]
    read[5] = replace(read[5], pot="99")
    read[7] = replace(read[7], ph=9.0)
    told = [say(one.said, Words()) for one in analyse(made, read, prediction=None).problems]
    assert any("2 strips (2 and" in one for one in told), told
    assert any("no strip “99”" in one for one in told)
    assert not any("pot" in one.split("treatment")[0].casefold() for one in told), told


def test_an_interval_that_the_lot_does_not_bear_out_is_named() -> None:
    """Ties: by Student's t 0.039, as `scipy.stats.ttest_ind` has it too; by lot 6 of 70."""
    made = plan("replicates = 4\ndays = [30, 90]\n", LIME)
    figures = {0: iter([7.4, 7.2, 7.4, 7.3] * 2), 1: iter([7.2, 6.9, 7.2, 6.8] * 2)}
    of_pot = {place.label: place.treatment for place in made.places}
    read = [
        replace(row, ph=next(figures[of_pot[row.pot]])) for row in rows(made, lambda _, __: 7.0)
    ]
    result = analyse(made, read, prediction=None)
    (row,) = result.days[-1].rows
    assert row.p == pytest.approx(0.03856, abs=1e-4) and row.high < 0.0
    assert row.lot is not None and (row.lot.as_large, row.lot.ways) == (6, 70)
    found = [one for one in result.problems if one.kind is Trouble.LOT_DISAGREES]
    assert len(found) == 3, "each day, and their average"
