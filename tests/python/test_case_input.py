"""A case from keywords, a dictionary and a file is one case, and its faults are those of a file."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import numpy as np
import pytest

import loamshift
from loamshift.errors import CaseError, InputError

TODAY = date(2026, 4, 12)
TEXT = """case = 1
today = 2026-04-12
[soil]
ph = 7.2
texture = "loam"
[bed]
area = "20 m2"
[[reading]]
date = 2026-03-01
ph = 7.0
"""
KEYS = {
    "soil": {"ph": 7.2, "texture": "loam"},
    "bed": {"area": "20 m2"},
    "reading": [{"date": date(2026, 3, 1), "ph": 7.0}],
}


def test_keywords_a_dictionary_and_a_file_give_one_case(tmp_path: Path) -> None:
    (tmp_path / "bed.toml").write_text(TEXT, encoding="utf-8")
    case = loamshift.new_case(KEYS, today=TODAY)
    assert case == loamshift.new_case(**KEYS, today=TODAY)
    assert case == loamshift.read_case(tmp_path / "bed.toml")
    assert case == loamshift.read_case(str(tmp_path / "bed.toml"))


def test_numbers_of_numpy_and_gaps_are_read() -> None:
    soil = {"ph": np.float64(7.2), "clay_pct": np.int64(20), "sand_pct": None}
    case = loamshift.new_case(soil=soil, today=TODAY)
    assert case.soil.clay_pct == 20.0 and case.soil.sand_pct is None


def test_what_the_caller_holds_is_left_as_it_is() -> None:
    keys = {"soil": {"ph": 7.2, "sand_pct": None}}
    loamshift.new_case(keys, today=TODAY)
    assert keys == {"soil": {"ph": 7.2, "sand_pct": None}}


def test_every_fault_is_told_at_once_in_sentences() -> None:
    with pytest.raises(CaseError) as caught:
        loamshift.new_case(soil={"ph": 15, "texture": "lome"}, today=TODAY)
    said = str(caught.value)
    assert len(caught.value.faults) == 2
    assert "soil.ph: “15” must be from 2 to 11" in said and 'Did you mean "loam"' in said


def test_a_file_that_is_not_there_and_what_is_no_case_are_told() -> None:
    with pytest.raises(InputError, match=r"nothing\.toml"):
        loamshift.read_case("nothing.toml")
    with pytest.raises(InputError, match="is not a case: give what new_case"):
        loamshift.advise(3)  # type: ignore[arg-type]
