"""Figures of a field: zones by their rates, and the ground by its pH."""

from __future__ import annotations

from itertools import pairwise
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift import units
from loamshift.domain.field import FieldMap, FieldZone
from loamshift.domain.letter import Align, Column, DataSet, Figure, FigureKind, Table
from loamshift.domain.message import (
    Measure,
    Product,
    Quantity,
    message,
    ph,
    ph_mean,
)
from loamshift.report.chart_tones import Colour
from loamshift.report.figures.shared import labels_said
from loamshift.report.messages import say
from loamshift.report.words import Words

PH_EDGES: Final = tuple(4.25 + 0.25 * n for n in range(15))
"""Where one colour of the ground ends and the next begins [pH]."""
PH_COLOURS: Final = tuple(Colour(f"ph-{n}") for n in range(1, 17))
_HALVES: Final = 2.0
"""The ramp is labelled at every half unit: so many labels a unit [1/pH]."""
RATE_COLOURS: Final = (
    *(Colour.RATE_1, Colour.RATE_2, Colour.RATE_3, Colour.RATE_4, Colour.RATE_5),
)
LAST_HALF: Final = 7
"""The class of pH 7.5 and above, counted by halves from pH 4 [index]."""
_MARGIN: Final = 0.02
"""Room about the field, of its longer side [1]."""
_BAR_SHARE: Final = 0.3
"""The scale bar is at most so much of the width [1]."""
Cell = tuple[float, float, float, float, str]


def rates_figure(found: FieldMap, *, words: Words) -> Figure:
    """Zones of a field by what goes on them, with their letters."""
    colours = zone_colours(found)
    cells = _runs(found, [colours[zone].value for zone in found.zone_of])
    letters = []
    for number, zone in enumerate(found.zones):
        at = _heart(found, found.zone_of == number)
        if at is not None:
            letters.append((*at, zone.letter))
    legend = tuple(
        (colours[number].value, _legend_text(zone, words))
        for number, zone in enumerate(found.zones)
    )
    return Figure(
        kind=FigureKind.FIELD_RATES,
        title=say(message("map-rates-title", material=_product(found)), words),
        sentence=say(
            message(
                "map-rates-sentence",
                zones=len(found.zones),
                without=sum(1 for zone in found.zones if zone.rate_g_m2 <= 0.0),
            ),
            words,
        ),
        data=(
            *_shared(found, cells, words),
            DataSet("letters", ("x", "y", "text"), tuple(letters)),
            DataSet("points", ("x", "y", "kind"), ()),
            DataSet("ramp", ("colour", "text"), ()),
            DataSet("legend", ("colour", "text"), legend),
        ),
        table=zones_table(found, words=words, brief=True),
        labels=labels_said(words, north=message("map-north")),
    )


def ph_figure(found: FieldMap, *, words: Words) -> Figure:
    """The ground by its pH, with the samples and where further ones would tell most."""
    place = np.searchsorted(PH_EDGES, found.ph_water, side="right")
    cells = _runs(found, [PH_COLOURS[n].value for n in place])
    seen = sorted(set(place.tolist()))
    ramp = tuple((PH_COLOURS[n].value, _edge(n, words)) for n in range(seen[0], seen[-1] + 1))
    legend: list[tuple[str, str]] = []
    grid = found.field.grid
    points = [(one.x_m - grid.x_m, one.y_m - grid.y_m, "sample") for one in found.field.samples]
    points += [(x - grid.x_m, y - grid.y_m, "further") for x, y in found.where]
    legend.append(("sample", say(message("map-legend-sample"), words)))
    if found.where:
        legend.append(("further", say(message("map-legend-further"), words)))
    low, high = float(found.ph_water.min()), float(found.ph_water.max())
    return Figure(
        kind=FigureKind.FIELD_PH,
        title=say(message("map-ph-title"), words),
        sentence=say(
            message(
                "map-ph-sentence",
                range=ph(low, high=high),
                sd=ph_mean(float(np.median(found.ph_sd))),
                further=len(found.where),
            ),
            words,
        ),
        data=(
            *_shared(found, cells, words),
            DataSet("letters", ("x", "y", "text"), ()),
            DataSet("points", ("x", "y", "kind"), tuple(points)),
            DataSet("ramp", ("colour", "text"), ramp),
            DataSet("legend", ("colour", "text"), tuple(legend)),
        ),
        table=_ph_table(found, words),
        labels=labels_said(words, north=message("map-north")),
    )


def zones_table(found: FieldMap, *, words: Words, brief: bool = False) -> Table:
    """Zones with area, pH, rate and load.

    Parameters
    ----------
    brief
        True for what a spreader's driver needs alone.
    """
    keys = (
        ("zone", "area", "rate", "load")
        if brief
        else (*("zone", "area", "ph", "rate", "load", "later", "chance"),)
    )
    rows = []
    for zone in found.zones:
        nothing = zone.rate_g_m2 <= 0.0
        later = zone.later_g_m2 > 0.0
        cell = {
            "zone": zone.letter if not zone.name else f"{zone.letter}: {zone.name}",
            "area": words.area(zone.area_m2),
            "ph": words.ph(zone.ph_water),
            "rate": say(message("map-nothing"), words) if nothing else words.rate(zone.rate_g_m2),
            "load": "" if nothing else words.amount(zone.rate_g_m2 * zone.area_m2),
            "later": words.rate(zone.later_g_m2) if later else "",
            "chance": "" if zone.share_in_range is None else words.in_100(zone.share_in_range),
        }
        rows.append(tuple(cell[key] for key in keys))
    columns = tuple(
        Column(
            say(message("map-column", column=key), words),
            Align.LEFT if key == "zone" else Align.RIGHT,
        )
        for key in keys
    )
    return Table(columns, tuple(rows))


def zone_colours(found: FieldMap) -> list[Colour]:
    """The colour of each zone: nothing, or a step for each rate, the palest for the least."""
    rates = sorted({round(zone.rate_g_m2) for zone in found.zones if zone.rate_g_m2 > 0.0})
    most = len(RATE_COLOURS)
    steps = {
        one: RATE_COLOURS[
            most // 2 if len(rates) == 1 else round(n * (most - 1) / (len(rates) - 1))
        ]
        for n, one in enumerate(rates)
    }
    return [
        Colour.RATE_0 if zone.rate_g_m2 <= 0.0 else steps[round(zone.rate_g_m2)]
        for zone in found.zones
    ]


def _legend_text(zone: FieldZone, words: Words) -> str:
    said = (
        say(message("map-nothing"), words) if zone.rate_g_m2 <= 0.0 else words.rate(zone.rate_g_m2)
    )
    return f"{zone.letter}: {said}"


def _product(found: FieldMap) -> Product | None:
    return None if found.material is None else Product(found.material)


def _edge(number: int, words: Words) -> str:
    """The pH at which a colour of the ramp begins, where it is a half or a whole."""
    if number == 0:
        return ""
    low = PH_EDGES[number - 1]
    return words.ph(low) if (low * _HALVES).is_integer() else ""


def _half_class(number: int, words: Words) -> str:
    """A class of half a unit, from the lowest 0."""
    low, high = 4.0 + 0.5 * number, 4.5 + 0.5 * number
    if number == 0:
        return say(message("map-ph-below", ph=ph(high)), words)
    if number == LAST_HALF:
        return say(message("map-ph-above", ph=ph(low)), words)
    return say(message("map-ph-between", low=ph(low), high=ph(high)), words)


def _ph_table(found: FieldMap, words: Words) -> Table:
    rows = []
    halves = np.clip(np.floor((found.ph_water - 4.0) * 2.0), 0, LAST_HALF).astype(np.int64)
    for number in sorted(set(halves.tolist())):
        share = float(np.mean(halves == number))
        area = share * found.field.area_m2
        rows.append((_half_class(number, words), words.area(area), words.percent(share)))
    columns = tuple(
        Column(
            say(message("map-column", column=key), words),
            Align.LEFT if key == "ph" else Align.RIGHT,
        )
        for key in ("ph", "area", "share")
    )
    return Table(columns, tuple(rows))


def _shared(found: FieldMap, cells: tuple[Cell, ...], words: Words) -> tuple[DataSet, ...]:
    grid = found.field.grid
    rows, columns = grid.inside.shape
    wide, high = columns * grid.cell_m, rows * grid.cell_m
    edge = _MARGIN * max(wide, high)
    frame = (-edge, wide + edge, -edge, high + edge)
    metres, text = _bar(frame[1] - frame[0], words)
    edges = []
    for ring in found.field.rings:
        for (x, y), (x2, y2) in pairwise(ring):
            edges.append((x - grid.x_m, y - grid.y_m, x2 - grid.x_m, y2 - grid.y_m))
    return (
        DataSet("frame", ("west", "east", "south", "north"), (frame,)),
        DataSet("cells", ("x", "x2", "y", "y2", "colour"), cells),
        DataSet("edges", ("x", "y", "x2", "y2"), tuple(edges)),
        DataSet("bar", ("metres", "text"), ((metres, text),)),
    )


def _bar(width_m: float, words: Words) -> tuple[float, str]:
    """A round length for the scale bar, in the reader's unit [m]."""
    unit = units.FOOT_CM / 100.0 if words.units == "us" else 1.0
    most = _BAR_SHARE * width_m / unit
    power = 10.0 ** np.floor(np.log10(most))
    step = max(s * power for s in (1.0, 2.0, 5.0) if s * power <= most)
    metres = float(step * unit)
    return metres, say(message("map-bar", length=Measure(Quantity.LENGTH, metres)), words)


def _runs(found: FieldMap, colours: list[str]) -> tuple[Cell, ...]:
    """Cells of one colour side by side as one box, from the south-west corner [m]."""
    grid = found.field.grid
    whole = np.full(grid.inside.shape, "", dtype=object)
    whole[grid.inside] = colours
    boxes: list[Cell] = []
    for row, line in enumerate(whole):
        start = 0
        for column in range(1, len(line) + 1):
            if column == len(line) or line[column] != line[start]:
                if line[start]:
                    boxes.append(
                        (
                            start * grid.cell_m,
                            column * grid.cell_m,
                            row * grid.cell_m,
                            (row + 1) * grid.cell_m,
                            str(line[start]),
                        )
                    )
                start = column
    return tuple(boxes)


def _heart(found: FieldMap, mine: NDArray[np.bool_]) -> tuple[float, float] | None:
    """The place of a zone farthest from its edges, for its letter [m]."""
    from scipy.ndimage import distance_transform_edt

    if not mine.any():
        return None
    grid = found.field.grid
    whole = np.zeros((grid.inside.shape[0] + 2, grid.inside.shape[1] + 2), dtype=bool)
    whole[1:-1, 1:-1][grid.inside] = mine
    deep = distance_transform_edt(whole)
    row, column = np.unravel_index(int(np.argmax(deep)), deep.shape)
    return (float(column) - 0.5) * grid.cell_m, (float(row) - 0.5) * grid.cell_m
