"""The picture of a garden's plan: where everything lies on the paper, ready for a template."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from loamshift.report.chart_text import text_width, wrapped
from loamshift.report.figures.shared import round_steps
from loamshift.web.clients.garden_plan import FOOT_M, Area, Plan

PAPER_PX: Final = 620.0
TALLEST_PX: Final = 820.0
FOOT_PX: Final = 30.0
"""Room under the ground for the scale bar."""
LABEL_PX: Final = 14.0
LINE_PX: Final = 17.0
PHONE_PX: Final = 21.0
"""Size of a label on a phone, where the whole picture is drawn little more than half as large."""
SCALES: Final = (10, 20, 25, 50, 100, 125, 200, 250, 500, 1000, 1250, 2500, 5000, 10_000, 20_000)
PRINT_MM: Final = (170.0, 215.0)
"""What a sheet of A4 or Letter holds beside its margins and the words [mm]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BedOnPlan:
    """What a plan writes on a bed."""

    name: str
    ph: str
    ph_side: str


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnArea:
    """One area on the paper; ``lines`` are its label, ``short`` the one for a phone."""

    number: int
    polygon: str
    side: str
    lines: tuple[tuple[float, float, str], ...]
    short: str
    middle: tuple[float, float]
    said: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """The whole picture; lengths on the paper in pixels, in print in millimetres."""

    width: float
    height: float
    px_per_m: float
    ground_width: float
    ground_height: float
    grid: str
    areas: tuple[DrawnArea, ...]
    bar: float
    bar_said: str
    square_said: str
    scale: int
    print_width_mm: float
    print_height_mm: float


def draw_plan(plan: Plan, *, beds: Mapping[str, BedOnPlan], us: bool) -> Drawing:
    """A plan as a picture.

    Parameters
    ----------
    beds
        What to write on the areas, by the id of their bed.
    us
        True for feet, false for metres.
    """
    unit_m = FOOT_M if us else 1.0
    scale_px = min(PAPER_PX / plan.width_m, TALLEST_PX / plan.height_m)
    width, height = plan.width_m * scale_px, plan.height_m * scale_px
    step = _square(max(plan.width_m, plan.height_m) / unit_m)
    bar = _square(plan.width_m / unit_m / 0.9, most=5)
    paper_mm = [
        (scale, 1000.0 * plan.width_m / scale, 1000.0 * (height + FOOT_PX) / scale_px / scale)
        for scale in SCALES
    ]
    fits = (p for p in paper_mm if p[1] <= PRINT_MM[0] and p[2] <= PRINT_MM[1])
    scale, print_width, print_height = next(fits, paper_mm[-1])
    name = "ft" if us else "m"
    return Drawing(
        width=round(width, 2),
        height=round(height + FOOT_PX, 2),
        px_per_m=round(scale_px, 6),
        ground_width=round(width, 2),
        ground_height=round(height, 2),
        grid=_grid(width, height, step * unit_m * scale_px),
        areas=tuple(
            _drawn(area, number, scale_px, beds=beds, us=us)
            for number, area in enumerate(plan.areas, start=1)
        ),
        bar=round(bar * unit_m * scale_px, 2),
        bar_said=f"{bar:g} {name}",
        square_said=f"{step:g} {name}",
        scale=scale,
        print_width_mm=round(print_width, 2),
        print_height_mm=round(print_height, 2),
    )


def size_said(area_m2: float, *, us: bool) -> str:
    """A size as a case file takes it, three digits: ``17.6 m2`` or ``189 sq ft``."""
    value = area_m2 / FOOT_M**2 if us else area_m2
    digits = max(0, 2 - math.floor(math.log10(value))) if value > 0.0 else 0
    return f"{round(value, digits):.10g} {'sq ft' if us else 'm2'}"


def _drawn(
    area: Area, number: int, scale_px: float, *, beds: Mapping[str, BedOnPlan], us: bool
) -> DrawnArea:
    bed = beds.get(area.bed)
    called = area.name or (bed.name if bed else "")
    ph = f"pH {bed.ph}" if bed and bed.ph else ""
    size = size_said(area.area_m2, us=us).replace("m2", "m²")
    x, y = _middle(area)
    _, _, width, length = area.box
    room, rows = width * scale_px - 8.0, int((length * scale_px - 4.0) // LINE_PX)
    texts = [*_name_lines(called, room), *(text for text in (ph, size) if text)]
    wide = any(text_width(text, size=LABEL_PX) > room for text in texts)
    if wide or len(texts) > rows:
        texts = [_short(number, ph, room, size=LABEL_PX)]
    first = y * scale_px - (len(texts) - 1) * LINE_PX / 2.0
    return DrawnArea(
        number=number,
        polygon=" ".join(f"{px * scale_px:.2f},{py * scale_px:.2f}" for px, py in area.points),
        side=bed.ph_side if bed else "",
        lines=tuple(
            (round(x * scale_px, 2), round(first + row * LINE_PX, 2), text)
            for row, text in enumerate(texts)
        ),
        short=_short(number, ph, room, size=PHONE_PX),
        middle=(round(x * scale_px, 2), round(y * scale_px, 2)),
        said=", ".join(text for text in (called, ph, size) if text),
    )


def _name_lines(called: str, room: float) -> list[str]:
    if not called:
        return []
    return wrapped(called, width=max(room, 1.0), lines=2, size=LABEL_PX).split("\n")


def _short(number: int, ph: str, room: float, *, size: float) -> str:
    """The number of an area with its pH, or alone where there is no room for more."""
    text = f"{number}: {ph}" if ph else str(number)
    return text if text_width(text, size=size) <= room else str(number)


def _middle(area: Area) -> tuple[float, float]:
    """The centre of what lies inside the corners; of the box where that is nothing."""
    twice = x = y = 0.0
    around = zip(area.points, (*area.points[1:], area.points[0]), strict=True)
    for (x0, y0), (x1, y1) in around:
        cross = x0 * y1 - x1 * y0
        twice += cross
        x += (x0 + x1) * cross
        y += (y0 + y1) * cross
    left, top, width, length = area.box
    if abs(twice) < 1e-9:
        return left + width / 2.0, top + length / 2.0
    return x / (3.0 * twice), y / (3.0 * twice)


def _square(long: float, *, most: int = 30) -> float:
    return round_steps(long, most=most)[1]


def _grid(width: float, height: float, step: float) -> str:
    lines = [f"M{k * step:.2f} 0V{height:.2f}" for k in range(1, math.ceil(width / step))]
    lines += [f"M0 {k * step:.2f}H{width:.2f}" for k in range(1, math.ceil(height / step))]
    return "".join(lines)
