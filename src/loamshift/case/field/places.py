"""Where things lie: coordinate systems told or asked for, boundaries, and cells over a field."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Final

import numpy as np

from loamshift.case.field.layers import WGS84, Layer
from loamshift.domain.field import FieldGrid
from loamshift.domain.message import message
from loamshift.domain.message import number as said_number
from loamshift.domain.worded_error import WordedError, given
from loamshift.tables.parameters import parameter_values

CELL_STEPS_M: Final = (1.0, 2.0, 5.0, 10.0, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0)
LEAST_CELLS: Final = 400
"""A field of fewer cells looks like stairs [count]."""
LEAST_AREA_M2: Final = 500.0


def crs_of(layer: Layer, told: str | None) -> Any:
    """The coordinate system of a file: what the file says, else what the person says.

    Raises
    ------
    WordedError
        Where neither says it, or what was said is none.
    """
    from pyproj import CRS
    from pyproj.exceptions import CRSError

    if told is not None and layer.crs is None and not layer.degrees:
        try:
            return CRS.from_user_input(told)
        except CRSError:
            raise WordedError(message("map-crs-unknown", given=given(told))) from None
    if layer.crs is not None:
        return layer.crs
    if layer.degrees:
        return CRS.from_user_input(WGS84)
    x, y = _ends(layer)
    looks = "degrees" if max(map(abs, x)) <= 180.0 and max(map(abs, y)) <= 90.0 else "metres"
    raise WordedError(message("map-crs-missing", path=given(layer.path), looks=looks))


def metric_crs(layer: Layer, crs: Any) -> Any:
    """A coordinate system in true metres for a layer: its own where it has one, else UTM.

    Raises
    ------
    WordedError
        Where coordinates in degrees are no degrees, or are swapped.
    """
    import geopandas

    shapes = [one for one in layer.shapes if one is not None]
    if not shapes:
        raise WordedError(message("map-file-no-places", path=given(layer.path)))
    if crs.is_geographic:
        x, y = _ends(layer)
        if max(map(abs, y)) > 90.0:
            fits = max(map(abs, x)) <= 90.0 and max(map(abs, y)) <= 180.0
            key = "map-swapped" if fits else "map-no-degrees"
            raise WordedError(
                message(key, path=given(layer.path), value=said_number(max(y, key=abs)))
            )
        if max(map(abs, x)) > 180.0:
            raise WordedError(
                message(
                    "map-no-degrees",
                    path=given(layer.path),
                    value=said_number(max(x, key=abs)),
                )
            )
    metres = crs.is_projected and all(
        abs(a.unit_conversion_factor - 1.0) < 1e-9 for a in crs.axis_info
    )
    if metres and crs.to_epsg() != 3857:
        return crs
    return geopandas.GeoSeries(shapes, crs=crs).estimate_utm_crs()


def moved(shapes: Sequence[Any], *, crs: Any, to: Any) -> list[Any]:
    """Shapes in another coordinate system; gaps stay gaps."""
    import geopandas

    if crs == to:
        return list(shapes)
    return list(geopandas.GeoSeries(list(shapes), crs=crs).to_crs(to))


def boundary_of(layer: Layer, *, crs: Any, to: Any) -> Any:
    """The outline of a field as one shape.

    Raises
    ------
    WordedError
        Where it is empty, no area, or crosses itself.
    """
    from shapely import unary_union

    shapes = [one for one in layer.shapes if one is not None]
    if not shapes:
        raise WordedError(message("map-boundary-empty", path=given(layer.path)))
    for one in shapes:
        if one.geom_type not in ("Polygon", "MultiPolygon"):
            raise WordedError(
                message("map-boundary-no-area", path=given(layer.path), kind=given(one.geom_type))
            )
        if not one.is_valid:
            where = crossing(one)
            raise WordedError(
                message("map-boundary-crossed", path=given(layer.path), where=given(where))
            )
    whole = unary_union(moved(shapes, crs=crs, to=to))
    if whole.area < LEAST_AREA_M2:
        raise WordedError(
            message("map-boundary-small", path=given(layer.path), area=said_number(whole.area))
        )
    return whole


def crossing(shape: Any) -> str:
    """Where an outline crosses itself, in the coordinates of its file."""
    from shapely.validation import explain_validity

    said = explain_validity(shape).partition("[")[2].rstrip("]")
    return ", ".join(f"{float(part):.10g}" for part in said.split())


def outline_of_samples(points: Sequence[Any]) -> Any:
    """An outline about samples where nobody gave a boundary: half a spacing beyond them."""
    from shapely import MultiPoint

    whole = MultiPoint([(one.x, one.y) for one in points])
    hull = whole.convex_hull
    spacing = (max(hull.area, 1.0) / max(len(points), 1)) ** 0.5
    return hull.buffer(0.5 * spacing)


def grid_over(shape: Any, *, cell_m: float | None) -> FieldGrid:
    """Square cells over a field, no more than a page can hold.

    Parameters
    ----------
    cell_m
        Side of a cell; None for one that suits the field [m].

    Raises
    ------
    WordedError
        Where the field is too large for cells that a spreader could follow.
    """
    from shapely import contains_xy

    limits = parameter_values("field")
    most = limits["cells_most"]
    if cell_m is None:
        steps = [one for one in CELL_STEPS_M if one >= limits["cell_least_m"]]
        steps = [one for one in steps if shape.area / one**2 <= most]
        if not steps:
            raise WordedError(message("map-too-large", area=said_number(shape.area / 1e4)))
        cell_m = steps[0]
        finer = [one for one in CELL_STEPS_M if shape.area / one**2 >= LEAST_CELLS]
        if shape.area / cell_m**2 < LEAST_CELLS and finer:
            cell_m = finer[-1]
    elif shape.area / cell_m**2 > 10 * most:
        raise WordedError(message("map-cells-many", cell=said_number(cell_m)))
    west, south, east, north = shape.bounds
    x0, y0 = np.floor(west / cell_m) * cell_m, np.floor(south / cell_m) * cell_m
    columns = int(np.ceil((east - x0) / cell_m))
    rows = int(np.ceil((north - y0) / cell_m))
    x = x0 + (np.arange(columns) + 0.5) * cell_m
    y = y0 + (np.arange(rows) + 0.5) * cell_m
    inside = contains_xy(shape, *np.meshgrid(x, y))
    if not inside.any():
        raise WordedError(message("map-cells-few", cell=said_number(cell_m)))
    return FieldGrid(x_m=float(x0), y_m=float(y0), cell_m=float(cell_m), inside=inside)


def rings_of(shape: Any) -> tuple[tuple[tuple[float, float], ...], ...]:
    """Closed lines of an outline, those of holes too [m]."""
    parts = shape.geoms if shape.geom_type == "MultiPolygon" else (shape,)
    return tuple(
        tuple((float(x), float(y)) for x, y, *_ in ring.coords)
        for part in parts
        for ring in (part.exterior, *part.interiors)
    )


def named(crs: Any) -> str:
    """A coordinate system by its authority's code, else by its name."""
    code = crs.to_epsg()
    return f"EPSG:{code}" if code is not None else str(crs.name)


def _ends(layer: Layer) -> tuple[list[float], list[float]]:
    shapes = [one for one in layer.shapes if one is not None]
    if not shapes:
        raise WordedError(message("map-file-no-places", path=given(layer.path)))
    bounds = [one.bounds for one in shapes]
    return (
        [end for one in bounds for end in (one[0], one[2])],
        [end for one in bounds for end in (one[1], one[3])],
    )
