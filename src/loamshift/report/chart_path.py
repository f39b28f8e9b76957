"""Lines of a picture, told as shortly as SVG can."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from typing import Final

Point = tuple[float, float]
UNSEEN_PX: Final = 0.3
"""A line that stays as near to its points as this cannot be told from one through them all."""


def path_of(lines: Iterable[Sequence[Point]]) -> str:
    """The path through the points of each line, to a tenth of a pixel.

    Parameters
    ----------
    lines
        Points of each line [px].

    Notes
    -----
    Steps go from point to point as they are rounded, so that no error adds up. A line of two
    points is drawn from the end that is nearer.
    """
    told: list[str] = []
    at = (0, 0)
    for line in lines:
        points = [(round(x * 10), round(y * 10)) for x, y in line]
        if len(points) == 2 and math.dist(at, points[1]) < math.dist(at, points[0]):
            points.reverse()
        for place, to in enumerate(points):
            step = (to[0] - at[0], to[1] - at[1])
            if place == 0:
                told.append(("m" if told else "M") + _pair(step))
            elif step[1] == 0:
                told.append(f"h{_tenths(step[0])}" if step[0] else "")
            elif step[0] == 0:
                told.append(f"v{_tenths(step[1])}")
            else:
                told.append("l" + _pair(step))
            at = to
    return "".join(told)


def plainer(points: Sequence[Point], *, unseen: float = UNSEEN_PX) -> list[Point]:
    """The fewest of some points through which a line looks the same.

    Parameters
    ----------
    points
        Points of a line that runs from left to right or back [px].
    unseen
        How far it may stay off one of them [px].

    Returns
    -------
    list of tuple
        Some of them, the ends always among them [px].

    Notes
    -----
    Halved at the point that lies farthest above or below the chord until none lies farther than
    can be seen (Ramer 1972, Douglas and Peucker 1973).
    """
    if len(points) < 3:
        return list(points)
    kept = {0, len(points) - 1}
    spans = [(0, len(points) - 1)]
    while spans:
        first, last = spans.pop()
        (x0, y0), (x1, y1) = points[first], points[last]
        slope = (y1 - y0) / (x1 - x0) if x1 != x0 else 0.0
        off, place = max(
            (
                (abs(points[i][1] - y0 - slope * (points[i][0] - x0)), i)
                for i in range(first + 1, last)
            ),
            default=(0.0, first),
        )
        if off > unseen:
            kept.add(place)
            spans += [(first, place), (place, last)]
    return [points[i] for i in sorted(kept)]


def _pair(step: tuple[int, int]) -> str:
    first, second = _tenths(step[0]), _tenths(step[1])
    apart = second.startswith("-") or (second.startswith(".") and "." in first)
    return first + ("" if apart else " ") + second


def _tenths(count: int) -> str:
    """Tenths as SVG reads them: no needless nought, no needless point."""
    whole, rest = divmod(abs(count), 10)
    said = f"{whole or ''}.{rest}" if rest else str(whole)
    return f"-{said}" if count < 0 else said
