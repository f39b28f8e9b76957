"""``loamshift map`` on the invented field of the examples."""

from __future__ import annotations

import io
import json
import zipfile
from pathlib import Path

import pytest

pytest.importorskip("geopandas")

FIELD = Path(__file__).parents[2] / "examples" / "field"
GIVEN = (
    *("map", str(FIELD / "samples.csv"), "--boundary", str(FIELD / "boundary.geojson")),
    *("--case", str(FIELD / "long-acre.toml"), "--ph-method", "water 1:2.5"),
)


def test_a_field_is_written_whole(command, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    import geopandas
    import rasterio

    result = command(*GIVEN, "-o", str(tmp_path / "map"), "--json")
    assert result.code == 0, result.err
    told = json.loads(result.out)
    assert told == json.loads((tmp_path / "map" / "field.json").read_text(encoding="utf-8"))
    zones = {zone["letter"]: zone for zone in told["zones"]}
    assert told["no_map"] is None and len(zones) >= 2
    for name in ("letter.html", "letter.pdf", "driver.html", "driver.pdf", "rates.png", "ph.png"):
        assert (tmp_path / "map" / name).stat().st_size > 5_000
    rates = geopandas.read_file(tmp_path / "map" / "rates.gpkg")
    assert rates.crs.to_epsg() == 32630
    assert sorted(rates["zone"]) == sorted(zones)
    for row in rates.itertuples():
        zone = zones[row.zone]
        assert row.rate_kg_ha == pytest.approx(10.0 * zone["rate_g_m2"])
        assert row.geometry.area == pytest.approx(zone["area_m2"], rel=0.05)
        assert row.load_t == pytest.approx(zone["rate_g_m2"] * zone["area_m2"] / 1e6, abs=2e-3)
    packed = zipfile.ZipFile(io.BytesIO((tmp_path / "map" / "rates-shapefile.zip").read_bytes()))
    names = set(packed.namelist())
    assert {"rates.shp", "rates.dbf", "rates.prj", "rates.shx", "units.txt"} <= names
    assert b"rate_kg_ha: rate of the product as bought, kg/ha" in packed.read("units.txt")
    with rasterio.open(tmp_path / "map" / "rates.tif") as tif:
        assert tif.units[:3] == ("kg/ha", "pH", "pH")
        x, y = rates.geometry[0].representative_point().coords[0]
        assert next(tif.sample([(x, y)]))[0] == pytest.approx(rates["rate_kg_ha"][0])


def test_few_samples_are_told_and_get_one_rate(command, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    few = tmp_path / "few.csv"
    lines = (FIELD / "samples.csv").read_text(encoding="utf-8").splitlines()
    few.write_text("\n".join(lines[:11]), encoding="utf-8")
    result = command("map", str(few), *GIVEN[2:])
    assert result.code == 0, result.err
    assert "10 samples are too few" in " ".join(result.out.split())


def test_options_that_cannot_be_meant(command) -> None:  # type: ignore[no-untyped-def]
    for wrong in (("--cell", "wide"), ("--column", "ph"), ("--sample-price", "-3")):
        result = command(*GIVEN, *wrong)
        assert result.code == 1, wrong
    assert command(*GIVEN, "--target-ph", "6.5").code == 1
