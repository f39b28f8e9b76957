"""What comes back: sound readings are answered, bad ones are found and named."""

from dataclasses import replace
from datetime import timedelta

import pytest

from invented_trials import TWO, plan, rows
from loamshift.domain.ph import PhMethod
from loamshift.domain.trial_result import Shown, Trouble
from loamshift.services.trial.analyse import analyse


def falls(name: str, day: int) -> float:
    """Peat falls at once and comes back; sulfur does nothing yet."""
    return 7.8 - (0.6 if name == "peat" and day in (1, 3) else 0.0)


def kinds(result) -> list[Trouble]:  # type: ignore[no-untyped-def]
    return [problem.kind for problem in result.problems]


def test_a_fall_that_is_gone_again() -> None:
    made = plan()
    result = analyse(made, rows(made, falls), prediction=None)
    by_day = {day.day: {row.treatment: row for row in day.rows} for day in result.days}
    assert by_day[1]["peat"].shown is Shown.DIFFERS
    assert by_day[1]["peat"].low < -0.6 < by_day[1]["peat"].high
    assert by_day[90]["peat"].shown is Shown.EQUAL
    assert all(day["sulfur"].shown in (Shown.EQUAL, Shown.OPEN) for day in by_day.values())
    assert result.change_days == (1, 90)
    assert result.change[0].shown is Shown.DIFFERS and result.change[0].estimate > 0.4


def test_swapped_pots_are_named_and_kept() -> None:
    made = plan()
    read = rows(made, falls, sd=0.02, pot_sd=0.02)
    peat = next(p.label for p in made.places if p.treatment == 1)
    bare = next(p.label for p in made.places if p.treatment == 0)
    turn = {peat: bare, bare: peat}
    read = [replace(r, pot=turn.get(r.pot, r.pot)) if r.day == 1 else r for r in read]
    result = analyse(made, read, prediction=None)
    (found,) = [one for one in result.problems if one.kind is Trouble.EXCHANGED]
    said = {found.said.values["first"].text, found.said.values["second"].text}  # type: ignore[union-attr]
    assert said == {peat, bare} and found.said.values["day"] == 1
    assert len([one for one in result.readings if one.day == 1]) == 15


def test_a_lost_label_is_named_with_its_row() -> None:
    made = plan()
    read = rows(made, falls)
    read[4] = replace(read[4], pot="")
    read[5] = replace(read[5], pot="99")
    result = analyse(made, read, prediction=None)
    assert kinds(result)[:2] == [Trouble.NO_LABEL, Trouble.UNKNOWN_POT]
    assert result.problems[0].said.values["row"] == read[4].line
    assert len(result.days[0].rows) == 2


def test_a_label_that_stands_twice_while_another_is_missing() -> None:
    made = plan()
    read = rows(made, falls)
    read[2] = replace(read[2], pot="9")
    result = analyse(made, read, prediction=None)
    twice = next(one for one in result.problems if one.kind is Trouble.TWICE)
    assert twice.refuses
    assert not [one for one in result.readings if one.day == 0 and one.pot in ("3", "9")]


def test_a_repeat_of_one_pot_is_averaged_on_the_ph_scale() -> None:
    made = plan()
    read = rows(made, falls)
    again = replace(read[0], line=999, ph=round((read[0].ph or 0) + 0.4, 2))
    result = analyse(made, [*read, again], prediction=None)
    one = next(r for r in result.readings if r.day == 0 and r.pot == read[0].pot)
    assert one.repeats == 2
    assert one.ph == pytest.approx((read[0].ph or 0) + 0.2)


def test_two_methods_on_a_day_and_over_time() -> None:
    made = plan()
    read = rows(made, falls)
    read[0] = replace(read[0], method=PhMethod.CACL2)
    read = [replace(r, method=PhMethod.KCL) if r.day == 90 else r for r in read]
    result = analyse(made, read, prediction=None)
    assert kinds(result).count(Trouble.TWO_METHODS) == 2
    assert result.days[-1].rows and not result.average and not result.change


def test_one_pot_of_a_treatment_is_not_compared_and_the_rest_is() -> None:
    made = plan()
    kept = [p.label for p in made.places if p.treatment == 1][:1]
    read = [
        r
        for r in rows(made, falls)
        if r.pot in kept or r.pot not in {p.label for p in made.places if p.treatment == 1}
    ]
    result = analyse(made, read, prediction=None)
    assert Trouble.ONE_POT in kinds(result)
    assert {row.treatment for day in result.days for row in day.rows} == {"sulfur"}


def test_all_values_equal_are_refused() -> None:
    made = plan()
    read = [replace(r, ph=7.0) if r.day == 3 else r for r in rows(made, falls)]
    result = analyse(made, read, prediction=None)
    assert Trouble.ALL_EQUAL in kinds(result)
    assert [day.day for day in result.days if not day.rows] == [3]


def test_missing_dates_are_filled_and_far_ones_named() -> None:
    made = plan()
    read = rows(made, falls)
    read[1] = replace(read[1], on=None)
    read[2] = replace(read[2], on=None, day=None)
    read[-1] = replace(read[-1], on=made.trial.due(90) + timedelta(days=60))
    read[-2] = replace(read[-2], day=None)
    result = analyse(made, read, prediction=None)
    assert {Trouble.DATE_FILLED, Trouble.NO_DAY, Trouble.FAR_FROM_DAY} <= set(kinds(result))
    assert sum(one.day == 90 for one in result.readings) == 15


def test_missing_pots_in_blocks() -> None:
    made = plan('design = "blocks"\nreplicates = 4')
    read = [r for r in rows(made, falls) if not (r.pot == "2" and r.day in (1, 9))]
    result = analyse(made, read, prediction=None)
    df = {day.day: day.df for day in result.days}
    assert (df[0], df[1]) == (6, 5)
    assert result.average and Trouble.MISSING in kinds(result)


def test_an_odd_reading_is_shown_and_kept() -> None:
    made = plan()
    read = rows(made, falls)
    read[3] = replace(read[3], ph=5.9)
    result = analyse(made, read, prediction=None)
    assert Trouble.APART in kinds(result)
    assert any(one.ph == 5.9 for one in result.readings)


def test_dose_series_has_a_slope_and_two_factors_their_effects() -> None:
    doses = "".join(
        f'[[treatment]]\nname = "{rate} g"\nmaterial = "aluminium sulfate"\nrate = "{rate} g/m2"\n'
        for rate in (50, 100, 150)
    )
    bare = '[[treatment]]\nname = "nothing"\n'
    made = plan('design = "dose series"', bare + doses)

    def by_dose(name: str, day: int) -> float:
        return 7.0 - (0.0 if name == "nothing" else 0.004 * float(name.split()[0])) * (day > 0)

    result = analyse(made, rows(made, by_dose), prediction=None)
    assert result.slope is not None
    assert result.slope.low < -0.4 < result.slope.high < 0.0
    cells = "".join(
        f'[[treatment]]\nname = "{p}, {s}"\nlevels = ["{p}", "{s}"]\n'
        + ("" if (p, s) == ("bare", "none") else 'material = "peat"\nrate = "1 kg/m2"\n')
        for p in ("bare", "peat")
        for s in ("none", "sulfur")
    )
    made = plan('design = "two-factor"\nfactors = ["peat", "sulfur"]', cells)

    def both(name: str, day: int) -> float:
        return 7.0 - 0.3 * ("peat" in name) - 0.2 * ("sulfur" in name)

    result = analyse(made, rows(made, both), prediction=None)
    effects = {one.name: one for one in result.factors}
    assert list(effects) == ["peat − bare", "sulfur − none", "peat × sulfur"]
    assert effects["peat − bare"].low < -0.3 < effects["peat − bare"].high < 0.0
    assert effects["peat × sulfur"].low < 0.0 < effects["peat × sulfur"].high


def test_a_single_replicate_answers_nothing_and_says_so() -> None:
    made = plan("replicates = 1", TWO)
    result = analyse(made, rows(made, falls), prediction=None)
    assert not any(day.rows for day in result.days)
    assert Trouble.ONE_POT in kinds(result)
