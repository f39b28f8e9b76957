"""Whatever comes in, the reader gives a case or says what is wrong; units never matter."""

from __future__ import annotations

import math
from dataclasses import replace
from datetime import date, datetime
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from loamshift.case.amounts import read_amount, read_rate
from loamshift.case.mend import Mend
from loamshift.case.quantities import (
    read_area_m2,
    read_depth_cm,
    read_mass_g,
    read_temperature_c,
)
from loamshift.case.read import parse_case, read_case
from loamshift.case.schema import item_table, tables
from loamshift.case.water_quantities import read_alkalinity_mg_l_as_caco3, read_weekly_water
from loamshift.case.write import toml_value
from loamshift.case.write_case import case_to_toml
from loamshift.domain.case import (
    Applied,
    Bed,
    BedKind,
    Case,
    ClaimEntry,
    Drainage,
    SoilEntry,
    TitrationPoint,
    Units,
    Water,
)
from loamshift.domain.ph import PhMethod, PhReading
from loamshift.domain.soil import Fizz, FizzAcid
from loamshift.errors import CaseError
from loamshift.tables.materials import find_material
from tries import tries

TODAY = date(2026, 4, 12)
FEW = tries(40)


def case_or_faults(text: str) -> Case | None:
    try:
        case = parse_case(text, today=TODAY)
    except CaseError as error:
        assert error.faults
        assert all(fault.path and fault.problem and fault.mend for fault in error.faults)
        return None
    return case


@FEW
@given(st.text(max_size=300))
def test_any_text(text: str) -> None:
    case_or_faults(text)


@FEW
@given(data=st.binary(max_size=300))
def test_any_bytes(tmp_path: Path, data: bytes) -> None:
    path = tmp_path / "bed.toml"
    path.write_bytes(data)
    try:
        read_case(path, today=TODAY)
    except CaseError as error:
        assert error.faults


SCALARS = st.one_of(
    st.booleans(),
    st.integers(),
    st.floats(),
    st.text(max_size=20),
    st.dates(),
    st.datetimes(),
    st.sampled_from(["20 m2", "6 in", "3 cups", "loam", "gypsum", "blueberry", "water 1:1", "1/0"]),
)


def _toml(value: object) -> str:
    if isinstance(value, float) and not math.isfinite(value):
        return "nan" if math.isnan(value) else ("inf" if value > 0 else "-inf")
    if isinstance(value, datetime):
        return value.isoformat()
    return toml_value(value, "x")


@st.composite
def odd_files(draw: st.DrawFn) -> str:
    """Files with right keys and any values, and now and then a wrong key."""
    lines = ["case = 1"]
    for name, table in tables().items():
        if name and not draw(st.booleans()):
            continue
        if name:
            is_list = draw(st.booleans())
            lines.append(f"[[{name}]]" if is_list else f"[{name}]")
        keys = [k for k, f in table.model_fields.items() if item_table(f.annotation)[0] is None]
        chosen = draw(st.lists(st.sampled_from([*keys, "wrong"]), unique=True, max_size=5))
        for key in chosen:
            if key == "case":
                continue
            value = draw(SCALARS | st.lists(SCALARS, max_size=3))
            if isinstance(value, list):
                lines.append(f"{key} = [{', '.join(_toml(part) for part in value)}]")
            else:
                lines.append(f"{key} = {_toml(value)}")
    return "\n".join(lines)


@tries(50)
@given(odd_files())
def test_any_value_under_any_key(text: str) -> None:
    case_or_faults(text)


READERS = (
    read_area_m2,
    read_depth_cm,
    read_mass_g,
    read_temperature_c,
    read_amount,
    read_rate,
    read_alkalinity_mg_l_as_caco3,
    read_weekly_water,
)
PIECES = st.lists(
    st.sampled_from(
        ["1", "20", ",", ".", "/", " ", "x", "m", "m2", "cup", "per", "plant", "oz", "½", "1e9",
         "-", "sq ft", "HCO3", "dH", "100", "a ", "half ", "F", "°", "each", "week", "(", "²"]
    ),
    max_size=7,
).map("".join)  # fmt: skip


@pytest.mark.parametrize("read", READERS)
@tries(50)
@given(text=PIECES | st.text(max_size=30) | SCALARS)
def test_any_quantity_is_read_or_mended(read: object, text: object) -> None:
    assert callable(read)
    try:
        result = read(text)
    except Mend as mend:
        assert mend.problem
        assert mend.mend
        return
    value = result if isinstance(result, float) else result.value
    assert math.isfinite(value)


AREAS = st.floats(min_value=0.01, max_value=1e6)


@FEW
@given(area_m2=AREAS)
def test_the_same_area_in_other_units_is_the_same_case(area_m2: float) -> None:
    def with_area(text: str) -> Case:
        return parse_case(
            f'case = 1\n[bed]\narea = "{text}"\n[water]\nweekly = "{area_m2 * 20!r} L"\n'
            f'[[claim]]\nmaterial = "gypsum"\namount = "{area_m2 * 30!r} g"',
            today=TODAY,
        )

    first = with_area(f"{area_m2!r} m2")
    for factor, unit in ((0.09290304, "sq ft"), (0.83612736, "yd2"), (4046.8564224, "acre")):
        other = with_area(f"{area_m2 / factor!r} {unit}")
        assert first.bed.area_m2 is not None
        assert other.bed.area_m2 == pytest.approx(first.bed.area_m2, rel=1e-9)
        assert other.water.weekly_mm == pytest.approx(20.0, rel=1e-9)
        assert other.claims[0].rate_g_m2 == pytest.approx(30.0, rel=1e-9)
        same = replace(first, bed=other.bed, water=other.water, claims=other.claims)
        assert same == other


@FEW
@given(rate_g_m2=st.floats(min_value=0.01, max_value=1000.0))
def test_the_same_rate_in_other_units(rate_g_m2: float) -> None:
    for factor, unit in (
        (0.1, "kg/ha"),
        (100.0, "t/ha"),
        (28.349523125 / 0.83612736, "oz/yd2"),
        (453.59237 / 9.290304, "lb/100 sq ft"),
        (453.59237 / 92.90304, "lb per 1000 ft2"),
        (453.59237 / 4046.8564224, "lb/acre"),
    ):
        assert read_rate(f"{rate_g_m2 / factor!r} {unit}").value == pytest.approx(
            rate_g_m2, rel=1e-9
        )


def maybe(strategy: st.SearchStrategy[float]) -> st.SearchStrategy[float | None]:
    return st.none() | strategy


PAST = st.dates(min_value=date(1990, 1, 1), max_value=TODAY)
PH = st.floats(min_value=3.0, max_value=9.5)
DEPTH = st.floats(min_value=0.5, max_value=100.0)


@st.composite
def cases(draw: st.DrawFn) -> Case:
    """Cases as the reader could have made them from canonical units."""
    depth_cm, sampled = draw(maybe(DEPTH)), draw(st.none() | PAST)
    reading = st.builds(
        PhReading,
        ph=PH,
        method=st.sampled_from(PhMethod),
        depth_cm=st.just(depth_cm),
        taken=st.just(sampled),
    )
    material = st.sampled_from(["gypsum", "elemental sulfur, powder", "urea"]).map(find_material)
    rate = st.floats(min_value=0.01, max_value=1500.0)
    return Case(
        name=draw(st.text(st.characters(min_codepoint=33, max_codepoint=0x2FF), min_size=1)
                  .filter(lambda name: name.isprintable() and len(name) < 100)),
        today=TODAY,
        units=draw(st.sampled_from(Units)),
        soil_temps=tuple(draw(st.lists(st.tuples(PAST, st.floats(-10, 35), DEPTH), max_size=2))),
        bed=draw(st.builds(
            Bed, kind=st.sampled_from(BedKind), area_m2=maybe(AREAS), depth_cm=maybe(DEPTH),
            count=st.integers(1, 500), plants=st.none() | st.integers(1, 500),
            treated_diameter_cm=maybe(st.floats(min_value=5, max_value=3000)),
            planted=st.none() | st.booleans(), drainage=st.none() | st.sampled_from(Drainage),
        )),
        soil=SoilEntry(
            ph=draw(st.none() | reading),
            other_ph=tuple(draw(st.lists(reading, max_size=2))),
            organic_matter_pct=draw(maybe(st.floats(0, 100))),
            carbonate_pct=draw(maybe(st.floats(0, 80))),
            fizz=draw(st.none() | st.sampled_from(Fizz)),
            fizz_acid=draw(st.none() | st.sampled_from(FizzAcid)),
            buffer_ph=draw(maybe(st.floats(4, 8))),
            lab_lime_requirement_g_m2=draw(maybe(st.floats(min_value=0.01, max_value=5000))),
            ec_ds_m=draw(maybe(st.floats(0, 20))),
            sampled=sampled,
            sample_depth_cm=depth_cm,
        ),
        water=draw(st.builds(
            Water, alkalinity_mg_l_as_caco3=maybe(st.floats(0, 1500)),
            weekly_mm=maybe(st.floats(0, 250)),
            months=st.lists(st.integers(1, 12), unique=True, min_size=1).map(tuple),
        )),
        applied=tuple(
            Applied(on=draw(PAST), material=draw(material), rate_g_m2=amount,
                    as_given=f"{amount!r} g/m2", incorporated_cm=draw(st.floats(0, 50)))
            for amount in draw(st.lists(rate, max_size=2))
        ),
        readings=tuple(draw(st.lists(st.builds(
            PhReading, ph=PH, method=st.sampled_from(PhMethod), depth_cm=maybe(DEPTH), taken=PAST,
            ph_sd=maybe(st.floats(min_value=0.001, max_value=3)),
        ), max_size=2))),
        titration=tuple(draw(st.lists(st.builds(
            TitrationPoint, acid_mmolc_kg=st.floats(-500, 500), ph=PH), max_size=3))),
        claims=tuple(
            ClaimEntry(material=draw(material), rate_g_m2=amount, as_given=f"{amount!r} g/m2")
            for amount in draw(st.lists(rate, max_size=2))
        ),
    )  # fmt: skip


@tries(40)
@given(cases())
def test_what_is_written_reads_back_the_same(case: Case) -> None:
    assert replace(parse_case(case_to_toml(case)), notes=()) == case
