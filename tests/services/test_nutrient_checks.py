from __future__ import annotations

import pytest

from loamshift.case.read import parse_case
from loamshift.domain.case import Case
from loamshift.report.messages import say
from loamshift.report.words import Words
from loamshift.services.advise import advise
from loamshift.services.cautions.nutrient_checks import phosphorus
from loamshift.tables.magnesium import is_short_of_magnesium
from loamshift.tables.parameters import parameter_values

BED = """
case = 1
today = 2026-04-12
[soil]
ph = {ph}
ph_method = "water 1:2.5"
texture = "sandy loam"
{more}
[aim]
plant = "{plant}"
"""


def bed(more: str, *, ph: float = 5.2, plant: str = "cabbage") -> Case:
    return parse_case(BED.format(ph=ph, more=more, plant=plant), source="bed")


def test_the_limit_is_that_of_penn_state_in_our_unit() -> None:
    """Less than about 200 lb MgO an acre is deficient: MgO is 60.3 % magnesium by weight."""
    magnesium_lb = 200.0 * 24.305 / 40.304
    ppm = magnesium_lb / 2.0  # an acre 6 to 7 in deep weighs 2 million lb
    assert parameter_values("advice")["low_magnesium_mg_kg"] == pytest.approx(ppm, abs=0.5)


@pytest.mark.parametrize(
    ("more", "short"),
    [
        ("mg_mg_kg = 59", True),
        ("mg_mg_kg = 61", False),
        ('mg_mg_kg = "100 lb/acre"', True),
        ("mg_saturation_pct = 4", True),
        ("mg_saturation_pct = 4\nmg_mg_kg = 200", True),
        ("", False),
    ],
)
def test_short_by_either_figure(more: str, short: bool) -> None:
    assert is_short_of_magnesium(bed(more).soil) is short


@pytest.mark.parametrize(("more", "kind"), [("mg_mg_kg = 30", "dolomitic"), ("", "calcitic")])
def test_the_plan_limes_by_magnesium(more: str, kind: str) -> None:
    answer = advise(bed(more))
    assert {part.material for part in answer.applications} == {f"ground limestone, {kind}"}


def test_magnesium_stands_in_the_answer_with_its_source() -> None:
    rows = {row.check: row for row in advise(bed("mg_mg_kg = 30")).findings}
    row = rows["magnesium"]
    assert (row.value, row.limit, row.source_key) == (30.0, 60.0, "psu-forage-magnesium")


def test_magnesium_is_no_check_where_no_lime_is_compared() -> None:
    rows = [row.check for row in advise(bed("mg_mg_kg = 30", ph=6.6)).findings]
    assert "magnesium" not in rows
    assert "not used: soil.mg_mg_kg" in rows


@pytest.mark.parametrize(
    ("level", "colour", "passed"),
    [
        ("index 4", "blue", False),
        ("high", "blue", False),
        ("index 2", "blue", True),
        ("low", "blue", True),
        ("high", "pink", True),
    ],
)
def test_phosphorus_stands_in_the_way_of_blue_alone(level: str, colour: str, passed: bool) -> None:
    row = phosphorus(bed(f'p_level = "{level}"', plant=f"hydrangea ({colour} flowers)"))
    assert row is not None
    assert row.passed is passed
    if not passed:
        assert "locks aluminium up" in say(row.comment, Words())


def test_phosphorus_counts_for_no_other_plant() -> None:
    answer = advise(bed('p_level = "high"'))
    assert any(row.check == "not used: soil.p_level" for row in answer.findings)
