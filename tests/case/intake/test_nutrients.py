"""Magnesium and phosphorus of a report: by weight at once, by volume when agreed to."""

from __future__ import annotations

import pytest

from case.intake.test_traps import _beside, _codes, _found, _values
from loamshift.case.mend import in_english
from loamshift.domain.decision import Severity

MG = "soil.mg_mg_kg"
P = "soil.p_level"


@pytest.mark.parametrize(
    ("heading", "cell", "mg_kg"),
    [
        ("Mg mg/kg", "45", 45.0),
        ("Magnesium (ppm)", "120", 120.0),
        ("Exchangeable Mg, mg/100 g", "4.5", 45.0),
        # 24.305 g/mol and two charges (IUPAC abridged atomic weights 2021)
        ("Exch. Mg (cmol(+)/kg)", "2", 243.05),
        ("Mg meq/100g", "0.5", 60.7625),
        ("Mg mmolc/kg", "10", 121.525),
        ("Mehlich 3 Mg mg/kg", "80", 80.0),
    ],
)
def test_magnesium_by_weight_is_taken(heading: str, cell: str, mg_kg: float) -> None:
    proposal = _beside(f'"{heading}"', cell)
    assert _values(proposal)[MG] == pytest.approx(mg_kg)
    assert not proposal.questions


@pytest.mark.parametrize(
    ("heading", "unit", "mg_kg", "said"),
    [
        ("Magnesium (mg/l)", "mg/l", 60.0, "as if a litre of the sample weighed a kilogram"),
        ("Mg mg/dm3", "mg/L", 60.0, "as if a litre of the sample weighed a kilogram"),
        ("Mg lb/ac", "lb/ac", 30.0, "as if an acre of soil weighed 2,000,000 lb"),
    ],
)
def test_magnesium_per_volume_or_area_waits_for_what_it_assumes(
    heading: str, unit: str, mg_kg: float, said: str
) -> None:
    left_out = _beside(heading, "60")
    assert MG not in _values(left_out)
    asked = _found(left_out, "magnesium-unit")
    assert asked.severity is Severity.INFO and asked.key == f"{heading}: unit"
    agreed = _beside(heading, "60", answers={asked.key: unit})
    assert _values(agreed)[MG] == mg_kg and not agreed.questions
    assert said in in_english(_found(agreed, "magnesium-assumed").said)


def test_a_litre_in_a_cell_is_asked_about_too() -> None:
    proposal = _beside("Mg mg/kg", "45", "60 mg/l")
    assert all(MG not in row.values for row in proposal.rows)
    assert "magnesium-unit" in _codes(proposal)


def test_magnesium_without_a_unit_is_never_guessed() -> None:
    """60 may be mg/kg, mg/L or lb an acre."""
    proposal = _beside("Mg", "60", "70")
    assert MG not in _values(proposal) and proposal.questions[0].key == "Mg: unit"
    assert proposal.questions[0].severity is Severity.INFO


@pytest.mark.parametrize(
    "heading",
    ["Total Mg mg/kg", "Mg Index", "Mg (CaCl2) mg/kg", "Mg saturated paste mg/kg", "Mg kg/ha rec"],
)
def test_other_magnesium_stays_out_and_asks_nothing(heading: str) -> None:
    proposal = _beside(f'"{heading}"', "60")
    assert MG not in _values(proposal) and not proposal.questions


def test_the_same_magnesium_in_two_units_is_taken_once() -> None:
    proposal = _beside("Mg meq/100g,Mg ppm", "1.0,121")
    assert _values(proposal)[MG] == 121.0 and not proposal.questions


@pytest.mark.parametrize(
    ("cell", "level"),
    [
        ("0", "low"),
        ("1", "low"),
        ("2", "medium"),
        ("2-", "medium"),
        ("3", "high"),
        ("3.4", "high"),
        ("5", "very high"),
        ("Index 9", "very high"),
    ],
)
def test_an_index_of_phosphorus_is_a_level(cell: str, level: str) -> None:
    proposal = _beside("Soil P Index", cell)
    assert _values(proposal)[P] == level
    assert "Irish" in in_english(_found(proposal, "phosphorus-index").said)


@pytest.mark.parametrize(
    ("heading", "cell", "level"),
    [
        ("P rating", "VH", "very high"),
        ("Phosphorus Level", "Optimum", "medium"),
        ("P status", "Below optimum", "low"),
    ],
)
def test_a_rating_of_phosphorus_is_a_level(heading: str, cell: str, level: str) -> None:
    proposal = _beside(heading, cell)
    assert _values(proposal)[P] == level and not proposal.questions


@pytest.mark.parametrize(
    ("mg_l", "level"),
    # the scale of SR 2019/81 (Northern Ireland), Schedule 5: 0-9, 10-15, 16-25, 26-45, 46-70
    [
        ("9", "low"),
        ("15", "low"),
        ("16", "medium"),
        ("25", "medium"),
        ("26", "high"),
        ("45", "high"),
        ("46", "very high"),
        ("300", "very high"),
    ],
)
def test_bicarbonate_phosphorus_per_litre_is_an_index(mg_l: str, level: str) -> None:
    proposal = _beside("Olsen P mg/l", mg_l)
    assert _values(proposal)[P] == level and not proposal.questions


def test_bicarbonate_phosphorus_per_kilogram_waits_for_what_it_assumes() -> None:
    proposal = _beside("Olsen P mg/kg", "30")
    assert P not in _values(proposal)
    key = _found(proposal, "phosphorus-unit").key
    assert _values(_beside("Olsen P mg/kg", "30", answers={key: "mg/l"}))[P] == "high"


@pytest.mark.parametrize(
    ("heading", "cell"),
    [
        ("P ppm", "30"),
        ("Mehlich 3 P mg/kg", "30"),
        ("Bray P1 ppm", "12"),
        ("P level", "23"),
        ("P Index (Morgan)", "3"),
    ],
)
def test_other_figures_of_phosphorus_are_no_level(heading: str, cell: str) -> None:
    proposal = _beside(heading, cell)
    assert P not in _values(proposal) and not proposal.questions


def test_a_word_that_rates_nothing_is_held_back() -> None:
    proposal = _beside("P rating", "High", "Low", "rather good")
    assert [row.values.get(P) for row in proposal.rows] == ["high", "low", None]
    assert proposal.rows[2].doubted[P] == "rather good"
    _found(proposal, "word-unknown")
