"""A bed of many comes to what its whole answer comes to, field by field."""

from __future__ import annotations

import math
from dataclasses import fields
from datetime import date

import pytest

from laws.random_cases import case_text
from loamshift.case.read import case_from_tree, parse_case
from loamshift.core.many_loops import COMPILED
from loamshift.domain.case import Case
from loamshift.services.advise import LookAhead, advise
from loamshift.services.many.outcome import Outcome, outcome_of
from loamshift.services.many.row import outcome_of_bed, outcome_of_bed_ahead

ODD_SEEDS = range(24)
PLANTS = ("highbush blueberry", "asparagus", "potato", "rhododendron", "strawberry", "apple")
PLACES = ("Minneapolis", "Edinburgh", "Atlanta")


def differences(case: Case) -> list[str]:
    """Fields in which the short way differs from the whole answer."""
    whole = outcome_of(advise(case), key="row")
    return _unlike(whole, outcome_of_bed(case, key="row", loops=COMPILED))


def _unlike(whole: Outcome, short: Outcome) -> list[str]:
    return [
        f"{field.name}: {getattr(whole, field.name)} is not {getattr(short, field.name)}"
        for field in fields(Outcome)
        if not _same(getattr(whole, field.name), getattr(short, field.name))
    ]


def _same(one: object, other: object) -> bool:
    if isinstance(one, float) and isinstance(other, float):
        return math.isclose(one, other, rel_tol=1e-9, abs_tol=1e-9)
    return one == other


def laboratory_row(number: int) -> Case:
    """A sample as a laboratory sees them, another one for each number."""
    ph = round(4.2 + (number * 0.618034 % 1.0) * 4.3, 1)
    tree: dict[str, object] = {
        "case": 1,
        "today": date(2026, 4, 12) if number % 2 else date(2026, 9, 20),
        "bed": {"area": 60.0, "kind": ("ground", "field", "lawn", "container")[number % 4]},
        "soil": {
            "ph": ph,
            "ph_method": ("water 1:1", "CaCl2", "probe")[number % 3],
            "clay_pct": 3.0 + number * 7 % 50,
            "organic_matter_pct": 1.0 + number * 0.7 % 7.0,
        },
        "aim": {"plant": PLANTS[number % len(PLANTS)]},
    }
    if number % 3:
        tree["place"] = {"name": PLACES[number % len(PLACES)]}
    if number % 4 == 1:
        tree["water"] = {"alkalinity": 40.0 + number * 13 % 250}
    return case_from_tree(tree, source="row")


@pytest.mark.parametrize("first", range(0, len(ODD_SEEDS), 8))
def test_odd_beds(first: int) -> None:
    found = {
        seed: wrong
        for seed in ODD_SEEDS[first : first + 8]
        if (wrong := differences(parse_case(case_text(seed))))
    }
    assert found == {}


def test_laboratory_samples() -> None:
    cases = [laboratory_row(number) for number in range(20)]
    verdicts = {outcome_of_bed(case, key="", loops=COMPILED).verdict for case in cases}
    assert len(verdicts) >= 4, "the sample must try most of the words"
    found = {n: wrong for n, case in enumerate(cases) if (wrong := differences(case))}
    assert found == {}


@pytest.mark.parametrize("number", range(4))
def test_a_bed_with_a_forecast_comes_to_what_its_answer_comes_to(number: int) -> None:
    """Beds in the ground and in a pot, and an odd one; each with a seed of its own."""
    case = laboratory_row(number) if number < 3 else parse_case(case_text(number))
    look = LookAhead(members=25, seed=number, years=1)
    whole = outcome_of(advise(case, look_ahead=look), key="row")
    short = outcome_of_bed_ahead(case, key="row", members=25, seed=number, years=1, loops=COMPILED)
    assert not _unlike(whole, short)
    assert whole.ph_mid is not None or case.soil.ph is None
