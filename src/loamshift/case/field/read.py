"""A field as read: samples or zones on true metres, inside a boundary, with every fault at once."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import combinations
from pathlib import Path
from typing import Any

import numpy as np

from loamshift.case.field.columns import Row, columns_of, few, rows_of
from loamshift.case.field.layers import Layer, read_layer
from loamshift.case.field.places import (
    boundary_of,
    crossing,
    crs_of,
    grid_over,
    metric_crs,
    moved,
    named,
    outline_of_samples,
    rings_of,
)
from loamshift.domain.field import FieldInput, FieldSample, FieldZoneEntry
from loamshift.domain.message import Message, message, number, ph
from loamshift.domain.ph import PhMethod
from loamshift.domain.worded_error import WordedError, fault, given
from loamshift.errors import Fault
from loamshift.tables.parameters import parameter_values


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldFiles:
    """Files of a field, and what the person says about them.

    ``crs`` of files that name none; ``method`` of samples that name none; ``columns`` headings by
    what they hold; ``cell_m`` side of a cell [m].
    """

    samples: Path
    boundary: Path | None = None
    zones: Path | None = None
    crs: str | None = None
    method: PhMethod | None = None
    columns: Mapping[str, str] = field(default_factory=dict)
    cell_m: float | None = None
    name: str = ""


def read_field(files: FieldFiles) -> FieldInput:
    """A field from its files.

    Raises
    ------
    WordedError
        Where something cannot be used: what, where, and what to do next.
    """
    layer = read_layer(files.samples)
    crs = crs_of(layer, files.crs)
    to = metric_crs(layer, crs)
    columns = columns_of(layer, files.columns)
    rows, without = rows_of(layer, columns, told_method=files.method, no_ph_ok=False)
    notes: list[Message] = []
    if without:
        notes.append(message("map-note-no-ph", rows=few(without)))
    nowhere = [layer.names[n] for n in rows if layer.shapes[n] is None]
    if nowhere:
        raise WordedError(message("map-no-place", path=given(layer.path), rows=few(nowhere)))
    shapes = moved(layer.shapes, crs=crs, to=to)
    kinds = {shapes[n].geom_type for n in rows}
    outline = _boundary(files, to)
    if kinds <= {"Polygon", "MultiPolygon"} and kinds:
        return _of_zones(files, layer, rows, shapes, outline, to, notes)
    if kinds != {"Point"}:
        raise WordedError(
            message("map-kinds", path=given(layer.path), kinds=given(", ".join(sorted(kinds))))
        )
    samples = [_sample(row, shapes[n].x, shapes[n].y, name=row.name) for n, row in rows.items()]
    if outline is None:
        outline = outline_of_samples([shapes[n] for n in rows])
        notes.append(message("map-note-no-boundary"))
    samples = _inside(samples, outline, layer, notes, swapped=_swapped(files, layer, crs))
    samples = _without_twins(samples, notes)
    limits = parameter_values("field")
    if len(samples) > limits["samples_most"]:
        raise WordedError(
            message("map-samples-many", count=len(samples), most=int(limits["samples_most"]))
        )
    grid = grid_over(outline, cell_m=files.cell_m)
    return FieldInput(
        name=files.name or files.samples.stem,
        samples=tuple(samples),
        grid=grid,
        rings=rings_of(outline),
        area_m2=float(outline.area),
        crs=named(to),
        zones=_zones_beside(files, samples, grid, outline, to),
        notes=tuple(notes),
    )


def _boundary(files: FieldFiles, to: Any) -> Any | None:
    if files.boundary is None:
        return None
    layer = read_layer(files.boundary)
    if not any(one is not None for one in layer.shapes):
        raise WordedError(message("map-boundary-empty", path=given(layer.path)))
    crs = crs_of(layer, files.crs)
    metric_crs(layer, crs)  # refuses degrees that are none
    return boundary_of(layer, crs=crs, to=to)


def _sample(row: Row, x: float, y: float, *, name: str) -> FieldSample:
    return FieldSample(
        name=name,
        x_m=float(x),
        y_m=float(y),
        ph=row.ph,
        method=row.method,
        clay_pct=row.clay_pct,
        organic_matter_pct=row.organic_matter_pct,
    )


def _swapped(files: FieldFiles, layer: Layer, crs: Any) -> Callable[[], bool]:
    """What tells whether the samples lie inside once longitude and latitude change places."""

    def swapped() -> bool:
        from shapely import transform

        if files.boundary is None or not crs.is_geographic:
            return False
        outlines = [one for one in read_layer(files.boundary).shapes if one is not None]
        point = next(one for one in layer.shapes if one is not None)
        turned = transform(point, lambda xy: xy[:, ::-1])
        return any(one.buffer(NEAR_DEGREES).contains(turned) for one in outlines)

    return swapped


NEAR_DEGREES = 0.001
"""A sample so near to a boundary is taken for one of it [deg]."""


def _inside(
    samples: Sequence[FieldSample],
    outline: Any,
    layer: Layer,
    notes: list[Message],
    *,
    swapped: Callable[[], bool],
) -> list[FieldSample]:
    """Samples in the field, those just outside with a note; those far off are a fault."""
    from shapely import distance, points

    limits = parameter_values("field")
    away = distance(outline, points([(one.x_m, one.y_m) for one in samples]))
    far = [one for one, off in zip(samples, away, strict=True) if off > limits["outside_m"]]
    if far:
        key = "map-outside"
        if len(far) > limits["swap_share"] * len(samples):
            key = "map-elsewhere"
            if swapped():
                raise WordedError(message("map-swapped-file"))
        raise WordedError(
            message(
                key,
                path=given(layer.path),
                rows=few([one.name for one in far]),
                count=len(far),
                of=len(samples),
                distance=given(_distance(float(away.max()))),
            )
        )
    near = [one.name for one, off in zip(samples, away, strict=True) if off > 0.0]
    if near:
        notes.append(message("map-note-just-outside", rows=few(near)))
    return list(samples)


def _distance(metres: float) -> str:
    return f"{metres:.0f} m" if metres < 2000.0 else f"{metres / 1000.0:,.0f} km"


def _without_twins(samples: Sequence[FieldSample], notes: list[Message]) -> list[FieldSample]:
    """One sample a place: twins that agree become their mean, those that differ are a fault."""
    limits = parameter_values("field")
    places = np.array([(one.x_m, one.y_m) for one in samples])
    groups: dict[int, list[int]] = {}
    home = list(range(len(samples)))
    for first, second in _near_pairs(places, limits["twins_m"]):
        home = [home[first] if one == home[second] else one for one in home]
    for place, group in enumerate(home):
        groups.setdefault(group, []).append(place)
    faults: list[Fault] = []
    kept: list[FieldSample] = []
    merged: list[str] = []
    for members in groups.values():
        alike = [samples[n] for n in members]
        if len(alike) == 1:
            kept.append(alike[0])
            continue
        low, high = min(one.ph for one in alike), max(one.ph for one in alike)
        names = few([one.name for one in alike])
        mixed = len({one.method for one in alike}) > 1
        if high - low > limits["twins_ph"] or mixed:
            wrong = message("map-twins", rows=names, ph=ph(low, high=high))
            faults.append(fault("", wrong, message("map-twins-mend")))
            continue
        merged += [one.name for one in alike]
        lead = alike[0]
        kept.append(
            FieldSample(
                name=lead.name,
                x_m=lead.x_m,
                y_m=lead.y_m,
                ph=float(np.mean([one.ph for one in alike])),
                method=lead.method,
                clay_pct=lead.clay_pct,
                organic_matter_pct=lead.organic_matter_pct,
            )
        )
    if faults:
        raise WordedError(message("map-twins-found"), faults)
    if merged:
        notes.append(message("map-note-twins", rows=few(merged)))
    return kept


def _near_pairs(places: Any, within_m: float) -> list[tuple[int, int]]:
    from scipy.spatial import cKDTree

    return sorted((int(a), int(b)) for a, b in cKDTree(places).query_pairs(within_m))


def _zones_beside(
    files: FieldFiles, samples: Sequence[FieldSample], grid: Any, outline: Any, to: Any
) -> tuple[FieldZoneEntry, ...]:
    """Zones that somebody drew beside the samples; each must hold one."""
    if files.zones is None:
        return ()
    layer = read_layer(files.zones)
    crs = crs_of(layer, files.crs)
    metric_crs(layer, crs)
    shapes = moved(layer.shapes, crs=crs, to=to)
    found = _entries(layer, shapes, dict.fromkeys(range(len(shapes))), grid, outline)
    for zone in found:
        if not any(grid.holds(zone.cells, one) for one in samples):
            raise WordedError(message("map-zone-empty", zone=given(zone.name)))
    return found


def _of_zones(
    files: FieldFiles,
    layer: Layer,
    rows: Mapping[int, Row],
    shapes: Sequence[Any],
    outline: Any | None,
    to: Any,
    notes: list[Message],
) -> FieldInput:
    from shapely import unary_union

    _check_areas(layer, {n: shapes[n] for n in rows})
    whole = unary_union([shapes[n] for n in rows]) if outline is None else outline
    grid = grid_over(whole, cell_m=files.cell_m)
    samples = {}
    for n, row in rows.items():
        at = shapes[n].representative_point()
        samples[n] = _sample(row, at.x, at.y, name=row.name)
    zones = _entries(layer, shapes, samples, grid, whole)
    return FieldInput(
        name=files.name or files.samples.stem,
        samples=tuple(one.sample for one in zones if one.sample is not None),
        grid=grid,
        rings=rings_of(whole),
        area_m2=float(whole.area),
        crs=named(to),
        zones=zones,
        notes=tuple(notes),
    )


def _check_areas(layer: Layer, shapes: Mapping[int, Any]) -> None:
    """Zones that cross themselves or overlap."""
    for n, shape in shapes.items():
        if shape.geom_type not in ("Polygon", "MultiPolygon"):
            raise WordedError(
                message("map-boundary-no-area", path=given(layer.path), kind=given(shape.geom_type))
            )
        if not shape.is_valid:
            where = crossing(shape)
            raise WordedError(
                message("map-zone-crossed", zone=given(layer.names[n]), where=given(where))
            )
    for (n, one), (m, other) in combinations(shapes.items(), 2):
        if one.intersects(other):
            shared = one.intersection(other).area
            if shared > 0.01 * min(one.area, other.area):
                raise WordedError(
                    message(
                        "map-zones-overlap",
                        zone=given(layer.names[n]),
                        other=given(layer.names[m]),
                        area=number(round(shared)),
                    )
                )


def _entries(
    layer: Layer,
    shapes: Sequence[Any],
    samples: Mapping[int, FieldSample | None],
    grid: Any,
    outline: Any,
) -> tuple[FieldZoneEntry, ...]:
    from shapely import contains_xy

    _check_areas(layer, {n: shapes[n] for n in samples if shapes[n] is not None})
    columns = columns_of(layer, {})
    rows, across = grid.inside.shape
    x = grid.x_m + (np.arange(across) + 0.5) * grid.cell_m
    y = grid.y_m + (np.arange(rows) + 0.5) * grid.cell_m
    east, north = np.meshgrid(x, y)
    made = []
    for n, sample in samples.items():
        shape = shapes[n]
        if shape is None:
            raise WordedError(
                message("map-no-place", path=given(layer.path), rows=few([layer.names[n]]))
            )
        cells = contains_xy(shape, east, north) & grid.inside
        title = layer.cells[n].get(columns.get("name", ""), "").strip() or layer.names[n]
        if not cells.any():
            raise WordedError(message("map-zone-outside", zone=given(title)))
        made.append(
            FieldZoneEntry(
                name=title,
                cells=cells,
                area_m2=float(shape.intersection(outline).area),
                sample=sample,
            )
        )
    return tuple(made)
