"""A garden's plan: areas as corner points in metres, checked before anything is kept."""

from __future__ import annotations

import json
import math
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, Final
from uuid import UUID

from django.http import QueryDict

from loamshift.domain.message import Given, message
from loamshift.domain.worded_error import fault
from loamshift.errors import Fault
from loamshift.units import FOOT_CM
from loamshift.web.beds.merge import merge

MOST_AREAS: Final = 60
MOST_CORNERS: Final = 40
MOST_M: Final = 2000.0
"""No side of a plan is longer [m]."""
LEAST_M: Final = 0.05
LONGEST_NAME: Final = 80
FOOT_M: Final = FOOT_CM / 100.0
_SAME: Final = 0.006
"""Sizes that differ by less were not typed anew; they are shown with two digits [m or ft]."""

Point = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Area:
    """One area: what it is called, the bed it is, and its corners from the top left [m]."""

    name: str
    bed: str
    points: tuple[Point, ...]

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Left, top, width and length [m]."""
        xs, ys = [x for x, _ in self.points], [y for _, y in self.points]
        return min(xs), min(ys), max(xs) - min(xs), max(ys) - min(ys)

    @property
    def area_m2(self) -> float:
        """What lies inside the corners [m2]."""
        around = zip(self.points, (*self.points[1:], self.points[0]), strict=True)
        return abs(sum(x * b - a * y for (x, y), (a, b) in around)) / 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """The ground [m] and the areas on it."""

    width_m: float
    height_m: float
    areas: tuple[Area, ...] = ()


def plan_from_kept(kept: Mapping[str, Any]) -> Plan:
    """The plan as it is kept; what is out of shape in it is left out, never an error."""
    width = _finite(kept.get("width_m"), 20.0)
    height = _finite(kept.get("height_m"), 12.0)
    areas = []
    raw = kept.get("areas")
    for entry in raw if isinstance(raw, list) else []:
        points = _points_of(entry.get("points")) if isinstance(entry, dict) else ()
        if len(points) >= 3:
            areas.append(
                Area(
                    name=str(entry.get("name") or "")[:LONGEST_NAME],
                    bed=str(entry.get("bed") or ""),
                    points=points,
                )
            )
    return Plan(width_m=width, height_m=height, areas=tuple(areas[:MOST_AREAS]))


def plan_to_keep(plan: Plan) -> dict[str, Any]:
    """The plan as plain values, millimetres the finest."""
    return {
        "width_m": round(plan.width_m, 3),
        "height_m": round(plan.height_m, 3),
        "areas": [
            {
                "name": area.name,
                "bed": area.bed or None,
                "points": [[round(x, 3), round(y, 3)] for x, y in area.points],
            }
            for area in plan.areas
        ],
    }


def plan_from_form(
    post: QueryDict, *, unit_m: float, beds: Iterable[str], before: Plan | None = None
) -> tuple[Plan, tuple[Fault, ...]]:
    """The plan that was drawn or typed, and everything that is wrong with it.

    Parameters
    ----------
    post
        Rows ``area.0.name``, ``.bed``, ``.points`` [m] and ``.left``, ``.top``, ``.width``,
        ``.length`` in the unit shown; the ground as ``width`` and ``height``.
    unit_m
        Length of the unit shown [m].
    """
    faults: list[Fault] = []
    known = set(beds)
    width = _length(post, "width", faults, unit_m=unit_m)
    height = _length(post, "height", faults, unit_m=unit_m)
    if before is not None:
        width = _unless_new(width, before.width_m, unit_m=unit_m)
        height = _unless_new(height, before.height_m, unit_m=unit_m)
    numbers = sorted({int(n) for n in (_row_number(key) for key in post) if n is not None})
    if len(numbers) > 4 * MOST_AREAS:
        numbers = numbers[: 4 * MOST_AREAS]
    areas = [
        area
        for number in numbers
        if (area := _area(post, f"area.{number}", faults, known=known, unit_m=unit_m)) is not None
    ]
    if len(areas) > MOST_AREAS:
        wrong = message("gardens-too-many-areas", n=len(areas))
        faults.append(fault("areas", wrong, message("gardens-most-areas", most=MOST_AREAS)))
        areas = areas[:MOST_AREAS]
    right = max((a.box[0] + a.box[2] for a in areas), default=0.0)
    foot = max((a.box[1] + a.box[3] for a in areas), default=0.0)
    plan = Plan(
        width_m=max(width or 20.0, right), height_m=max(height or 12.0, foot), areas=tuple(areas)
    )
    return plan, tuple(faults)


def merged_plan(
    *, base: Mapping[str, Any], theirs: Mapping[str, Any], mine: Mapping[str, Any]
) -> dict[str, Any] | None:
    """A kept plan that two people drew on, put together; None where both changed one thing.

    An area is known by its bed or its name, and by its place among several of that.
    """
    trees = [_by_area(plan) for plan in (base, theirs, mine)]
    merged = merge(base=trees[0], theirs=trees[1], mine=trees[2])
    if merged.asked:
        return None
    tree = merged.tree
    areas = tree.pop("areas", {})
    return {
        **tree,
        "areas": [{**one, "points": json.loads(one["points"])} for one in areas.values()],
    }


def _by_area(plan: Mapping[str, Any]) -> dict[str, Any]:
    """A plan with its areas by what they are; corners as one text, for they go together."""
    seen: Counter[str] = Counter()
    areas = {}
    for area in plan_to_keep(plan_from_kept(plan))["areas"]:
        known = f"{area['bed'] or ''} {'' if area['bed'] else area['name']}"
        seen[known] += 1
        areas[f"{known} {seen[known]}"] = {**area, "points": json.dumps(area["points"])}
    return {"width_m": plan.get("width_m"), "height_m": plan.get("height_m"), "areas": areas}


def drawn_m2(plan: Plan) -> dict[str, float]:
    """What is drawn for each bed [m2], by the id of the bed; several areas add up."""
    sums: dict[str, float] = {}
    for area in plan.areas:
        if area.bed:
            sums[area.bed] = sums.get(area.bed, 0.0) + area.area_m2
    return sums


def _area(
    post: QueryDict, at: str, faults: list[Fault], *, known: set[str], unit_m: float
) -> Area | None:
    name = " ".join(post.get(f"{at}.name", "").split())
    bed = post.get(f"{at}.bed", "")
    typed = {key: post.get(f"{at}.{key}", "").strip() for key in ("width", "length")}
    points = _points_of([pair.split(",") for pair in post.get(f"{at}.points", "").split()])
    if not any(typed.values()):
        if name or bed:
            wrong, right = message("gardens-no-size"), message("gardens-give-size")
            faults.append(fault(f"{at}.width", wrong, right))
        return None
    if len(name) > LONGEST_NAME:
        wrong, right = message("gardens-name-long"), message("page-shorten", most=LONGEST_NAME)
        faults.append(fault(f"{at}.name", wrong, right, given=name[:20]))
        name = name[:LONGEST_NAME]
    if bed and bed not in known:
        wrong, right = message("gardens-bed-unknown"), message("gardens-choose-bed")
        faults.append(fault(f"{at}.bed", wrong, right))
        bed = ""
    if len(points) > MOST_CORNERS:
        right = message("gardens-most-corners", most=MOST_CORNERS)
        faults.append(fault(f"{at}.width", message("gardens-many-corners"), right))
        points = points[:MOST_CORNERS]
    width = _length(post, f"{at}.width", faults, unit_m=unit_m)
    length = _length(post, f"{at}.length", faults, unit_m=unit_m)
    left = _length(post, f"{at}.left", faults, unit_m=unit_m, least=0.0)
    top = _length(post, f"{at}.top", faults, unit_m=unit_m, least=0.0)
    if width is None or length is None:
        return None
    area = Area(name=name, bed=bed, points=points)
    if len(points) < 3:
        area = replace(area, points=((0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)))
        return fitted(area, left=left or 0.0, top=top or 0.0, width=width, length=length)
    here = area.box
    wanted = (left if left is not None else here[0], top if top is not None else here[1])
    target = (*wanted, width, length)
    if all(abs(a - b) < _SAME * unit_m for a, b in zip(here, target, strict=True)):
        return area
    return fitted(area, left=target[0], top=target[1], width=width, length=length)


def fitted(area: Area, *, left: float, top: float, width: float, length: float) -> Area:
    """An area stretched and moved into a box [m]."""
    x0, y0, w, h = area.box
    return replace(
        area,
        points=tuple(
            (
                left + (x - x0) * (width / w if w else 0.0),
                top + (y - y0) * (length / h if h else 0.0),
            )
            for x, y in area.points
        ),
    )


def _length(
    post: QueryDict, key: str, faults: list[Fault], *, unit_m: float, least: float = LEAST_M
) -> float | None:
    """A length [m] from a field in the unit shown; None where nothing was typed, or wrongly."""
    text = post.get(key, "").strip().replace(",", ".")
    if not text:
        if key.endswith((".width", ".length")):
            wrong, right = message("gardens-size-half"), message("gardens-size-both")
            faults.append(fault(key, wrong, right))
        return None
    try:
        value = float(text) * unit_m
    except ValueError:
        value = math.nan
    if not math.isfinite(value) or not least <= value <= MOST_M:
        wrong = message("gardens-length-wrong", typed=Given(text[:20]))
        right = message(
            "gardens-length-right",
            least=Given(f"{least / unit_m:.3g}"),
            most=Given(f"{MOST_M / unit_m:.0f}"),
        )
        faults.append(fault(key, wrong, right, given=text[:20]))
        return None
    return value


def _unless_new(typed: float | None, held: float, *, unit_m: float) -> float:
    return held if typed is None or abs(typed - held) < _SAME * unit_m else typed


def _points_of(raw: Any) -> tuple[Point, ...]:
    points: list[Point] = []
    for pair in raw if isinstance(raw, Sequence) and not isinstance(raw, str) else []:
        try:
            x, y = (float(value) for value in pair)
        except (TypeError, ValueError):
            return ()
        if not (0.0 <= x <= MOST_M and 0.0 <= y <= MOST_M):
            return ()
        points.append((x, y))
    return tuple(points)


def _finite(value: Any, otherwise: float) -> float:
    if isinstance(value, (int, float)) and not isinstance(value, bool):
        return float(value) if math.isfinite(value) and 0.0 < value <= MOST_M else otherwise
    return otherwise


def _row_number(key: str) -> str | None:
    parts = key.split(".")
    is_row = len(parts) == 3 and parts[0] == "area" and parts[1].isdecimal()
    return parts[1] if is_row and len(parts[1]) < 6 else None


def id_of(text: str) -> UUID | None:
    """The id in a text, if it is one."""
    try:
        return UUID(text)
    except ValueError:
        return None
