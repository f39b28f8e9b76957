"""Case files written, and read back the same."""

from __future__ import annotations

import tomllib
from dataclasses import replace
from datetime import date

import pytest

from case.test_read import FULL
from loamshift.case.questions import questions_by_path
from loamshift.case.read import parse_case
from loamshift.case.reads import Reads
from loamshift.case.write import case_toml
from loamshift.case.write_case import case_to_toml
from loamshift.domain.case import Case
from loamshift.domain.ph import PhMethod, PhReading
from loamshift.errors import CaseError

TODAY = date(2026, 4, 12)


def test_a_full_case_comes_back_the_same() -> None:
    case = parse_case(FULL)
    again = parse_case(case_to_toml(case))
    assert replace(again, notes=()) == replace(case, notes=())


def test_cups_per_plant_keep_their_words() -> None:
    text = (
        'case = 1\ntoday = 2026-04-12\n[bed]\narea = "215 sq ft"\nplants = 6\n'
        '[[claim]]\nmaterial = "gypsum"\nrate = "1 US cup per plant"'
    )
    case = parse_case(text)
    again = parse_case(case_to_toml(case))
    assert again == case
    assert again.claims[0].as_given == "1 US cup per plant"


@pytest.mark.parametrize(
    "place",
    [
        'name = "Minneapolis"',
        "latitude = 51.3\nlongitude = 7.7",
        'name = "Hill"\nlatitude = 51.3\nlongitude = 7.7',
        f'name = "Own"\nlatitude = -37.8\nair_temp_c = {[9.5] * 12}\nrain_mm = {[50.25] * 12}',
    ],
)
def test_places_come_back_the_same(place: str) -> None:
    case = parse_case(f"case = 1\ntoday = 2026-04-12\n[place]\n{place}")
    assert parse_case(case_to_toml(case)) == case


def test_answers_become_a_commented_file_that_reads() -> None:
    text = case_toml(
        {
            "name": 'The "old" bed \\ é',
            "today": TODAY,
            "soil.ph": 7.2,
            "soil": {"texture": "loam"},
            "bed.area": "20 m2",
            "aim.plant": ["highbush blueberry"],
            "applied": [{"date": date(2025, 10, 1), "material": "gypsum", "rate": "30 g/m2"}],
            "place.name": None,
        }
    )
    case = parse_case(text)
    assert case.name == 'The "old" bed \\ é'
    assert case.soil.ph is not None
    assert (case.soil.ph.ph, case.bed.area_m2) == (7.2, 20.0)
    assert case.applied[0].rate_g_m2 == 30.0
    assert '# fizz = "slight"' in text
    assert "What a drop of acid on the soil did" in text


def test_every_commented_example_reads_when_its_mark_is_taken_away() -> None:
    text = case_toml({"today": TODAY})
    lines = [
        line[2:] if line.startswith("# ") and " = " in line and "—" not in line else line
        for line in text.splitlines()
    ]
    case = parse_case("\n".join(line for line in lines if not line.startswith("Leave")))
    assert case.soil.ph is not None
    assert case.aim.plants


def _examples() -> list[tuple[str, Reads, str]]:
    return [(path, asked.reads, asked.row.example) for path, asked in questions_by_path().items()]


@pytest.mark.parametrize(("path", "reads", "example"), _examples())
def test_every_example_of_the_schema_is_read(path: str, reads: Reads, example: str) -> None:
    value = tomllib.loads(f"x = {example}")["x"]
    assert reads.parse(value) is not None, path


def test_what_has_no_place_in_a_case_file_is_refused() -> None:
    with pytest.raises(
        CaseError,
        match=r"soil\.humus: There is no setting “humus” in .soil.. Here it is called soil\.",
    ):
        case_toml({"soil.humus": 3})
    with pytest.raises(
        CaseError,
        match=r"applied\[2\]\.rat: There is no setting “rat” in .applied.. Did you mean “rate”",
    ):
        case_toml({"applied": [{"rate": 1}, {"rat": 1}]})
    for answers in ({"soil": 5}, {"soil": 5, "soil.ph": 7}, {"today.ph": 7}):
        with pytest.raises(CaseError):
            case_toml(answers)
    with pytest.raises(CaseError, match=r"soil\.ph"):
        case_toml({"soil.ph": float("nan")})
    undated = Case(name="x", today=TODAY, readings=(PhReading(ph=6.0, method=PhMethod.KCL),))
    with pytest.raises(CaseError, match=r"reading\[1\].date: This is missing"):
        case_to_toml(undated)
