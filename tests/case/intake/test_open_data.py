"""Open soil tables read as if they were laboratory files; none of them is shipped.

LimeSoDa 0.1.5 (CC BY-SA 4.0) and the profiles of the Dutch soil map in dutchsoils 0.3.3: neither
says its units in the headings, and the pH method is named in neither.
"""

from __future__ import annotations

import importlib.util
from pathlib import Path

import pytest

from loamshift.case.intake.proposal import Proposal
from loamshift.case.intake.propose import answered, propose
from loamshift.case.intake.sheets import read_sheets

GRAMS_PER_KILOGRAM = ("MG.44", "SSP.58")
"""Sets whose clay runs from 175 to 511, which no percentage does."""


def _limesoda(name: str) -> Proposal:
    """The targets of a set, headed as a laboratory would: without the word “target”."""
    soda = pytest.importorskip("LimeSoDa")
    frame = soda.load_dataset(name)["Dataset"]
    targets = [one for one in frame.columns if one.endswith("_target")]
    plain = frame[targets].astype(float)
    plain.columns = [one.removesuffix("_target") for one in targets]
    plain.insert(0, "Sample", [f"{name} {n}" for n in range(len(plain))])
    return propose(read_sheets(plain.to_csv(index=False).encode(), f"{name}.csv"))


def _available() -> list[str]:
    soda = pytest.importorskip("LimeSoDa")
    return [str(one) for one in soda.list_datasets()]


def test_every_set_is_read_and_its_ph_method_asked() -> None:
    names = [one for one in _available() if not one.startswith("Overview")]
    assert len(names) >= 30
    for name in names:
        proposal = _limesoda(name)
        assert len(proposal.rows) >= 30, name
        if any(one.meaning == "ph" for one in proposal.mapping):
            assert "pH: method" in {one.key for one in proposal.questions}, name
            methods = {row.values.get("soil.ph_method") for row in proposal.rows}
            assert methods <= {"unknown", None}, name


@pytest.mark.parametrize("name", GRAMS_PER_KILOGRAM)
def test_sets_in_grams_per_kilogram_are_questioned(name: str) -> None:
    proposal = _limesoda(name)
    asked = {one.key for one in proposal.questions}
    carbon = next(one.heading for one in proposal.mapping if one.meaning in ("oc", "om"))
    assert {"Clay: unit", f"{carbon}: unit"} <= asked
    assert not any("soil.clay_pct" in row.values for row in proposal.rows)
    again = answered(proposal, {"Clay: unit": "g/kg", f"{carbon}: unit": "g/kg"})
    clay = [row.values["soil.clay_pct"] for row in again.rows]
    assert all(isinstance(one, float) and 10.0 < one < 60.0 for one in clay)


def test_other_sets_are_not_taken_for_grams_per_kilogram() -> None:
    """Their clay is a percentage by its size, so that nobody is asked about it."""
    names = [one for one in _available() if not one.startswith("Overview")]
    asked = {
        name for name in names if "Clay: unit" in {one.key for one in _limesoda(name).questions}
    }
    assert asked == set(GRAMS_PER_KILOGRAM)


def test_carbon_in_grams_per_kilogram_beside_clay_in_per_cent_is_questioned() -> None:
    """NRW.42 has organic carbon of 7.4 to 19.8 in an arable field with 14 to 28% clay."""
    proposal = _limesoda("NRW.42")
    asked = {one.key for one in proposal.questions}
    assert "SOC: unit" in asked and "Clay: unit" not in asked


def test_the_outlier_of_h138_is_questioned_and_held_back() -> None:
    proposal = _limesoda("H.138")
    found = next(one for one in proposal.findings if one.code == "ph-outside")
    held = [row for row in proposal.rows if "soil.ph" in row.doubted]
    assert found.question is not None
    assert [round(float(row.doubted["soil.ph"]), 1) for row in held] == [2.4]
    assert len([row for row in proposal.rows if "soil.ph" in row.values]) == len(proposal.rows) - 1


def test_the_dutch_profiles_are_read_and_their_ph_method_asked() -> None:
    """Ten lines of remarks stand above the headings, and depths are in metres."""
    spec = importlib.util.find_spec("dutchsoils")
    if spec is None or spec.origin is None:
        pytest.skip("dutchsoils is not installed")
    data = (Path(spec.origin).parent / "data" / "SoilHorizons.csv").read_bytes()
    proposal = propose(read_sheets(data, "SoilHorizons.csv"))
    assert len(proposal.rows) == 1568
    meanings = {one.heading: one.meaning for one in proposal.mapping}
    expected = {
        "acidity": "ph",
        "organicmattercontent": "om",
        "lutitecontent": "clay",
        "calciccontent": "carbonate",
        "density": "bulk_density",
        "ztop": "depth_from",
        "zbottom": "depth_to",
    }
    assert {key: meanings.get(key) for key in expected} == expected
    asked = {one.key for one in proposal.questions}
    assert "acidity: method" in asked
    readings = [row.values["soil.ph"] for row in proposal.rows if "soil.ph" in row.values]
    assert min(map(float, readings)) >= 3.0 and max(map(float, readings)) <= 8.5
