"""Files of fields: what is read, and what is said of those that cannot be used."""

from __future__ import annotations

import json
import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from loamshift.case.field.read import FieldFiles, read_field
from loamshift.domain.ph import PhMethod
from loamshift.domain.worded_error import WordedError, plainly

pytest.importorskip("geopandas")

FIELD = Path(__file__).parents[3] / "examples" / "field"
METHOD = PhMethod.WATER_1_2_5
Rows = list[list[str]]


def _rows() -> Rows:
    text = (FIELD / "samples.csv").read_text(encoding="utf-8")
    return [line.split(",") for line in text.splitlines()]


def _samples(folder: Path, change: Callable[[Rows], Rows]) -> Path:
    path = folder / "samples.csv"
    path.write_text("\n".join(",".join(row) for row in change(_rows())), encoding="utf-8")
    return path


def _boundary(folder: Path, change: Callable[[list[Any]], object]) -> Path:
    found = json.loads((FIELD / "boundary.geojson").read_text(encoding="utf-8"))
    ring = found["features"][0]["geometry"]["coordinates"][0]
    found["features"][0]["geometry"] = change(ring)
    path = folder / "boundary.geojson"
    path.write_text(json.dumps(found), encoding="utf-8")
    return path


def _polygon(ring: list[Any]) -> object:
    return {"type": "Polygon", "coordinates": [ring]}


def _each(change: Callable[[int, list[str]], list[str]]) -> Callable[[Rows], Rows]:
    return lambda rows: [rows[0], *(change(n, row) for n, row in enumerate(rows[1:]))]


def _head(*names: str) -> Callable[[Rows], Rows]:
    return lambda rows: [list(names), *(row[: len(names)] for row in rows[1:])]


BAD_SAMPLES: dict[str, tuple[Callable[[Rows], Rows], str]] = {
    "no coordinate system, degrees": (_head("id", "x", "y", "pH"), "map-crs-missing (path"),
    "swapped": (
        _each(lambda _, row: [row[0], row[2], row[1], *row[3:]]),
        "map-swapped-file",
    ),
    "outside": (
        _each(lambda n, row: [row[0], f"{float(row[1]) + (n < 3) * 0.01}", *row[2:]]),
        "map-outside",
    ),
    "elsewhere": (
        _each(lambda _, row: [row[0], f"{float(row[1]) + 9.0}", *row[2:]]),
        "map-elsewhere",
    ),
    "one place, two pH": (
        lambda rows: [*rows, ["99", *rows[1][1:3], "7.4", *rows[1][4:]]],
        "map-twins-found",
    ),
    "outlier": (
        _each(lambda n, row: [*row[:3], "2.4" if n == 4 else row[3], *row[4:]]),
        "map-faults",
    ),
    "words": (
        _each(lambda n, row: [*row[:3], "acid" if n == 4 else row[3], *row[4:]]),
        "map-faults",
    ),
    "clay in g/kg": (
        lambda rows: [[*rows[0][:4], "clay"], *([*row[:4], "240"] for row in rows[1:])],
        "map-faults",
    ),
    "no pH": (_head("id", "longitude", "latitude"), "map-no-ph-column"),
    "no coordinates": (
        lambda rows: [["id", "pH"], *([row[0], row[3]] for row in rows[1:])],
        "map-no-coordinates",
    ),
    "no place": (
        _each(lambda n, row: [row[0], "" if n == 2 else row[1], *row[2:]]),
        "map-no-place",
    ),
    "empty": (lambda rows: rows[:1], "map-file-empty"),
}


@pytest.mark.parametrize("name", BAD_SAMPLES)
def test_samples_that_cannot_be_used_are_told_why(name: str, tmp_path: Path) -> None:
    change, key = BAD_SAMPLES[name]
    files = FieldFiles(
        samples=_samples(tmp_path, change), boundary=FIELD / "boundary.geojson", method=METHOD
    )
    with pytest.raises(WordedError) as caught:
        read_field(files)
    assert plainly(caught.value.said).startswith(key)


BAD_BOUNDARIES: dict[str, tuple[Callable[[list[Any]], object], str]] = {
    "crosses itself": (
        lambda ring: _polygon([ring[0], ring[2], ring[1], *ring[3:]]),
        "map-boundary-crossed",
    ),
    "empty": (lambda _: None, "map-boundary-empty"),
    "a line": (
        lambda ring: {"type": "LineString", "coordinates": ring},
        "map-boundary-no-area",
    ),
    "a bed": (
        lambda ring: _polygon([[ring[0][0] + 1e-4 * x, ring[0][1] + 1e-4 * y] for x, y in SMALL]),
        "map-boundary-small",
    ),
}
SMALL = ((0, 0), (1, 0), (1, 1), (0, 0))


@pytest.mark.parametrize("name", BAD_BOUNDARIES)
def test_boundaries_that_cannot_be_used_are_told_why(name: str, tmp_path: Path) -> None:
    change, key = BAD_BOUNDARIES[name]
    files = FieldFiles(
        samples=FIELD / "samples.csv", boundary=_boundary(tmp_path, change), method=METHOD
    )
    with pytest.raises(WordedError) as caught:
        read_field(files)
    assert plainly(caught.value.said).startswith(key)


def test_a_method_must_be_named_and_may_differ_by_row(tmp_path: Path) -> None:
    with pytest.raises(WordedError, match="map-method-missing"):
        read_field(FieldFiles(samples=FIELD / "samples.csv"))

    def mixed(rows: Rows) -> Rows:
        methods = ["CaCl2", "water 1:2.5"]
        return [
            [*rows[0], "method"],
            *([*row, methods[n % 2]] for n, row in enumerate(rows[1:])),
        ]

    found = read_field(FieldFiles(samples=_samples(tmp_path, mixed)))
    assert {one.method for one in found.samples} == {PhMethod.CACL2, METHOD}


@pytest.mark.skipif(os.geteuid() == 0, reason="root may read everything")
def test_a_file_without_permission_says_so(tmp_path: Path) -> None:
    path = _samples(tmp_path, lambda rows: rows)
    path.chmod(0)
    with pytest.raises(WordedError, match="map-file-unreadable"):
        read_field(FieldFiles(samples=path, method=METHOD))


def test_degrees_become_metres_whose_area_pyproj_confirms() -> None:
    """The area on the ellipsoid by pyproj, which knows nothing of our projection."""
    import geopandas
    from pyproj import Geod

    found = read_field(
        FieldFiles(
            samples=FIELD / "samples.csv", boundary=FIELD / "boundary.geojson", method=METHOD
        )
    )
    border = geopandas.read_file(FIELD / "boundary.geojson").geometry[0]
    true_m2 = abs(Geod(ellps="WGS84").geometry_area_perimeter(border)[0])
    assert found.area_m2 == pytest.approx(true_m2, rel=2e-3)
    assert found.crs == "EPSG:32630"
    cells = found.grid.inside.sum() * found.grid.cell_area_m2
    assert cells == pytest.approx(found.area_m2, rel=0.02)
    assert len(found.samples) == 72


def test_the_measured_field_with_an_outlier_is_questioned_not_mapped(tmp_path: Path) -> None:
    """LimeSoDa H.138 holds a pH of 2.4."""
    soda = pytest.importorskip("LimeSoDa")
    found = soda.load_dataset("H.138")
    table = found["Coordinates"].set_axis(["easting", "northing"], axis=1)
    table["pH"] = found["Dataset"]["pH_target"].to_numpy()
    path = tmp_path / "h138.csv"
    table.to_csv(path, index=False)
    with pytest.raises(WordedError) as caught:
        read_field(FieldFiles(samples=path, crs="EPSG:32649", method=METHOD))
    assert [one.given for one in caught.value.faults] == ["2.4"]
