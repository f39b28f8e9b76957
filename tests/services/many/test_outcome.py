"""The row that an answer comes to: every field is that of the answer, or says why there is none."""

from __future__ import annotations

from datetime import date

import pytest

from loamshift.domain.answer import Decision, Direction, Reason
from loamshift.services.advise import LookAhead, advise
from loamshift.services.many.outcome import Outcome, outcome_of
from services.beds import bed

LOAM = 'ph_method = "water 1:1"\ntexture = "loam"\norganic_matter_pct = 3\ncarbonate_pct = 0'


def test_a_plan_is_its_parts_and_the_test_that_decides() -> None:
    answer = advise(bed(f"ph = 7.0\n{LOAM}"))
    row = outcome_of(answer, key="7")
    assert answer.plan is not None and answer.dose.sulfur_as_s_g_m2 is not None
    assert (row.key, row.verdict, row.direction) == ("7", Decision.GO, Direction.ACIDIFY)
    assert row.need_mid_g_m2 == answer.dose.sulfur_as_s_g_m2.mid
    assert row.plan_g_m2 == pytest.approx(sum(part.rate_g_m2 for part in answer.plan.parts))
    assert row.parts == len(answer.plan.parts) > 0
    assert row.first_on == answer.plan.parts[0].date
    assert row.next_test == answer.plan.decides[0].test
    assert row.not_before == answer.too_early_before
    assert row.questions == tuple(sorted({gap.field for gap in answer.missing}))
    assert row.share_in_range is None  # by the ensemble alone


def test_lime_counts_as_caco3() -> None:
    row = outcome_of(advise(bed(f"ph = 5.2\n{LOAM}", aim='plant = "cabbage"')), key="lime")
    assert row.direction is Direction.LIME
    assert row.need_lo90_g_m2 is not None and row.need_hi90_g_m2 is not None
    assert 0.0 < row.need_lo90_g_m2 < row.need_hi90_g_m2
    assert "lime" in row.material or "stone" in row.material


@pytest.mark.parametrize(
    ("soil", "aim", "reason"),
    [
        (LOAM, 'plant = "cabbage"', Reason.NO_PH),
        (f"ph = 6.5\n{LOAM}", "", Reason.NO_AIM),
        (f"ph = 6.8\n{LOAM}", 'plant = "cabbage"', Reason.IN_RANGE),
    ],
)
def test_a_row_without_a_plan_carries_its_reason_and_no_amount(
    soil: str, aim: str, reason: Reason
) -> None:
    row = outcome_of(advise(bed(soil, aim=aim)), key="a")
    assert row.reason is reason
    assert (row.parts, row.material, row.first_on, row.plan_g_m2) == (0, "", None, None)
    if not aim:
        assert (row.ph_low, row.ph_high, row.ph_aim) == (None, None, None)


def test_a_forecast_adds_its_last_day() -> None:
    ahead = LookAhead(members=20, seed=3, years=1)
    answer = advise(bed(f"ph = 7.0\n{LOAM}"), look_ahead=ahead)
    row = outcome_of(answer, key="7")
    assert answer.forecast is not None and row.ph_mid == answer.forecast.ph.q50[-1]
    assert row.forecast_on is not None and row.forecast_on > date(2027, 1, 1)
    assert row.share_in_range is not None and 0.0 <= row.share_in_range <= 1.0


def test_rows_compare_by_every_field() -> None:
    plain = Outcome(key="1", verdict=Decision.LEAVE, reason=None, direction=Direction.NONE)
    assert plain != Outcome(key="2", verdict=Decision.LEAVE, reason=None, direction=Direction.NONE)
