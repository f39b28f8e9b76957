"""Rates of a field as files that a spreader's terminal and a map program read."""

from __future__ import annotations

import io
import tempfile
import warnings
import zipfile
from collections.abc import Mapping
from pathlib import Path
from typing import Any, Final

import numpy as np

from loamshift.domain.field import FieldMap

KG_HA_PER_G_M2: Final = 10.0
LB_ACRE_PER_KG_HA: Final = 0.892179
NODATA: Final = -9999.0


def rate_files(found: FieldMap, meanings: Mapping[str, str]) -> dict[str, bytes]:
    """Every file of rates by its name: GeoPackage, zipped shapefile, GeoTIFF.

    Parameters
    ----------
    meanings
        What each column holds, with its unit, by its name.

    Returns
    -------
    dict
        Bytes by file name. Units stand in the names of columns and bands and in the metadata.
    """
    with tempfile.TemporaryDirectory() as folder, warnings.catch_warnings():
        warnings.simplefilter("ignore", PendingDeprecationWarning)  # rasterio's own, of affine
        home = Path(folder)
        frame = _frame(found)
        metadata = {"UNITS": "; ".join(f"{key}: {said}" for key, said in meanings.items())}
        frame.to_file(
            home / "rates.gpkg",
            layer="rates",
            driver="GPKG",
            engine="pyogrio",
            layer_metadata=metadata,
            dataset_metadata=metadata,
        )
        shapes = home / "shapes"
        shapes.mkdir()
        frame.to_file(shapes / "rates.shp", driver="ESRI Shapefile", engine="pyogrio")
        packed = io.BytesIO()
        with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
            for path in sorted(shapes.iterdir()):
                archive.writestr(_entry(path.name), path.read_bytes())
            archive.writestr(_entry("units.txt"), _units_text(meanings))
        return {
            "rates.gpkg": (home / "rates.gpkg").read_bytes(),
            "rates-shapefile.zip": packed.getvalue(),
            "rates.tif": _raster(found, home / "rates.tif"),
        }


def _entry(name: str) -> zipfile.ZipInfo:
    return zipfile.ZipInfo(name, (1980, 1, 1, 0, 0, 0))


def _units_text(meanings: Mapping[str, str]) -> str:
    return "".join(f"{key}: {said}\n" for key, said in meanings.items())


def _frame(found: FieldMap) -> Any:
    """One row a zone, its cells joined into one shape and cut along the boundary."""
    import geopandas
    from rasterio.features import shapes
    from shapely import unary_union
    from shapely.geometry import shape

    whole = _spread(found, found.zone_of.astype(np.float64), missing=-1.0).astype(np.int16)
    mask = _spread(found, np.ones(len(found.zone_of)), missing=0.0).astype(bool)
    pieces: dict[int, list[Any]] = {}
    for outline, value in shapes(whole, mask=mask, transform=_transform(found)):
        pieces.setdefault(int(value), []).append(shape(outline))
    border = _outline(found)
    rows, places = [], []
    for number, zone in enumerate(found.zones):
        place = unary_union(pieces.get(number, []))
        if place.is_empty:
            continue
        if border is not None and (cut := place.intersection(border)).area > 0.0:
            place = cut
        rate = KG_HA_PER_G_M2 * zone.rate_g_m2
        rows.append(
            {
                "zone": zone.letter,
                "name": zone.name,
                "product": zone.material or "",
                "rate_kg_ha": round(rate, 1),
                "rate_lb_ac": round(rate * LB_ACRE_PER_KG_HA, 1),
                "load_t": round(zone.rate_g_m2 * zone.area_m2 / 1e6, 3),
                "area_ha": round(zone.area_m2 / 1e4, 3),
                "ph_water": round(zone.ph_water, 2),
                "ph_sd": round(zone.ph_sd, 2),
                "need_kg_ha": None
                if zone.need_g_m2 is None
                else round(KG_HA_PER_G_M2 * zone.need_g_m2.mid),
                "decision": zone.decision.value,
            }
        )
        places.append(place)
    return geopandas.GeoDataFrame(rows, geometry=places, crs=found.field.crs)


def _outline(found: FieldMap) -> Any | None:
    from shapely import build_area, multilinestrings

    if not found.field.rings:
        return None
    area = build_area(multilinestrings([np.array(ring) for ring in found.field.rings]))
    return None if area is None or area.is_empty else area


def _raster(found: FieldMap, path: Path) -> bytes:
    import rasterio

    rate = np.array([KG_HA_PER_G_M2 * zone.rate_g_m2 for zone in found.zones])
    bands = (
        ("rate_kg_ha", "kg/ha", rate[found.zone_of]),
        ("ph_water", "pH", found.ph_water),
        ("ph_sd", "pH", found.ph_sd),
        ("zone", "1", found.zone_of.astype(np.float64) + 1.0),
    )
    rows, columns = found.field.grid.inside.shape
    with rasterio.open(
        path,
        "w",
        driver="GTiff",
        height=rows,
        width=columns,
        count=len(bands),
        dtype="float32",
        crs=found.field.crs,
        transform=_transform(found),
        nodata=NODATA,
        compress="deflate",
    ) as file:
        for number, (name, unit, values) in enumerate(bands, start=1):
            file.write(_spread(found, values, missing=NODATA).astype(np.float32), number)
            file.set_band_description(number, f"{name} [{unit}]")
            file.set_band_unit(number, unit)
        file.update_tags(
            product=found.material or "",
            rate_unit="kg/ha",
            date=found.today.isoformat(),
            zones=", ".join(
                f"{number}={zone.letter}" for number, zone in enumerate(found.zones, start=1)
            ),
        )
    return path.read_bytes()


def _spread(found: FieldMap, values: Any, *, missing: float) -> Any:
    """Values of the cells inside as a picture, its first row in the north."""
    whole = np.full(found.field.grid.inside.shape, missing)
    whole[found.field.grid.inside] = values
    return whole[::-1]


def _transform(found: FieldMap) -> Any:
    from rasterio.transform import from_origin

    grid = found.field.grid
    north = grid.y_m + grid.inside.shape[0] * grid.cell_m
    return from_origin(grid.x_m, north, grid.cell_m, grid.cell_m)
