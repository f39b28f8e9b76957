"""Jars: a series spans the question, and readings made up from a known soil give it back."""

from datetime import date

import numpy as np
import pytest

from loamshift.case.mend import Refused
from loamshift.case.read import parse_case
from loamshift.case.trial_jars import jars_csv, read_jars_sheet, titration_toml
from loamshift.core.buffer import ph_after_acid
from loamshift.domain.worded_error import WordedError
from loamshift.services.context.build_context import build_context, curve_of
from loamshift.services.trial.jars import plan_jars, read_jars

BED = """
case = 1
today = 2026-04-12
[bed]
area = "20 m2"
[soil]
ph = 6.5
ph_method = "water 1:2.5"
texture = "loam"
organic_matter_pct = 3
fizz = "none"
fizz_acid = "HCl"
"""
CASE = parse_case(BED, today=date(2026, 4, 12))


def test_acid_goes_from_nothing_to_half_past_the_need() -> None:
    plan = plan_jars(CASE, ph_to=5.5, count=6, soil_g=50.0, acid_mol_l=0.1)
    acid = [jar.acid_mmolc_kg for jar in plan.jars]
    assert acid[0] == 0.0 and acid == sorted(acid)
    for jar in plan.jars:
        assert jar.lime_g == 0.0
        assert jar.acid_ml * 0.1 == pytest.approx(jar.acid_mmolc_kg * 0.05)


def test_lime_is_weighed_where_the_ph_is_to_rise() -> None:
    """Pure CaCO3: 50 mg neutralise 1 mmol of acid (stoichiometry)."""
    plan = plan_jars(CASE, ph_to=7.2, count=4, soil_g=100.0, acid_mol_l=0.1)
    last = plan.jars[-1]
    assert last.acid_mmolc_kg < 0.0 and last.acid_ml == 0.0
    assert last.lime_g == pytest.approx(-last.acid_mmolc_kg * 0.1 * 0.05004, rel=1e-3)


@pytest.mark.parametrize("k", [0.6, 1.0, 1.8])
def test_readings_of_a_known_soil_give_its_scale_back(k: float) -> None:
    plan = plan_jars(CASE, ph_to=5.5, count=6, soil_g=50.0, acid_mol_l=0.1)
    curve = {**curve_of(build_context(CASE)), "k": k}
    rng = np.random.default_rng(4)
    points = [
        (
            jar.acid_mmolc_kg,
            float(ph_after_acid(6.5, jar.acid_mmolc_kg, carbonate_mmolc_kg=0.0, **curve))
            + rng.normal(0.0, 0.03),
        )
        for jar in plan.jars
    ]
    found = read_jars(CASE, points, ph_to=5.5)
    assert found.scale_after.lo90 < k < found.scale_after.hi90
    assert found.narrower > 1.5


def test_the_sheet_comes_back_and_its_lines_stand_in_a_case_file() -> None:
    plan = plan_jars(CASE, ph_to=5.5, count=3, soil_g=50.0, acid_mol_l=0.1)
    text = jars_csv(plan)
    assert read_jars_sheet(text.encode()) == ()
    filled = "\n".join(
        line + (f"6.{n}" if n else "") for n, line in enumerate(text.strip().splitlines())
    )
    points = read_jars_sheet(filled.encode())
    assert [ph for _, ph in points] == [6.1, 6.2, 6.3]
    case = parse_case(BED + titration_toml(points), today=date(2026, 4, 12))
    assert [(one.acid_mmolc_kg, one.ph) for one in case.titration] == list(points)


def test_what_cannot_be_read_is_refused() -> None:
    with pytest.raises(Refused, match="no sheet of jars"):
        read_jars_sheet(b"a,b\n1,2\n", "x.csv")
    with pytest.raises(Refused, match="Row 2"):
        read_jars_sheet(b"jar,acid_mmolc_kg,ph\n1,5,65\n")
    with pytest.raises(WordedError, match="jars-too-few"):
        read_jars(CASE, [(0.0, 6.5), (5.0, 6.2)], ph_to=5.5)
