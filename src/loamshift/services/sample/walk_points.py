"""Where to walk and where to stop for cores, as a plan of the bed or of the pots."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import Final

from loamshift.domain.case import BedKind
from loamshift.domain.sampling import SamplePlan, SampleWalk

Point = tuple[float, float]

_ASPECT: Final = 2.0
"""Beds are drawn twice as long as wide; nobody asks for their shape."""
_EDGE: Final = 0.14
"""The walk keeps so far from the edges, as a share of length and width; a drawing, not a rule."""
_CORES_A_LEG: Final = 2.5
_MOST_POTS_DRAWN: Final = 40


def sample_walk(
    plan: SamplePlan, *, kind: BedKind = BedKind.GROUND, area_m2: float | None = None, pots: int = 1
) -> SampleWalk:
    """A zigzag over the bed with the cores at even steps, or the pots to take.

    Answers what the sentences of the plan look like on the ground; it knows nothing of paths,
    walls and bonfire sites, which the reader keeps away from.

    Parameters
    ----------
    area_m2
        Its area, above 0, or None where unknown [m2].
    pots
        Containers alike, at least 1 [pots].

    Returns
    -------
    SampleWalk
        Path and spots [0-1], and their distances [m].

    Notes
    -----
    A core stands in the middle of each of as many equal pieces of the path as there are cores.

    References
    ----------
    common-practice, own-judgement

    Examples
    --------
    >>> from loamshift.services.sample.walk import sample_plan
    >>> walk = sample_walk(sample_plan(area_m2=20.0), area_m2=20.0)
    >>> len(walk.spots), round(walk.length_m, 1), round(walk.step_m, 1)
    (6, 6.3, 1.4)
    """
    if kind is BedKind.CONTAINER:
        return _pots(plan.cores, pots)
    path = _zigzag(plan.cores)
    length = width = step = None
    if area_m2 is not None:
        width = math.sqrt(area_m2 / _ASPECT)
        length = _ASPECT * width
        step = _long(path) * width / plan.cores
    return SampleWalk(
        spots=_along(path, plan.cores),
        path=path,
        pots=(),
        aspect=_ASPECT,
        pot_radius=None,
        length_m=length,
        width_m=width,
        step_m=step,
    )


def _zigzag(cores: int) -> tuple[Point, ...]:
    legs = max(3, round(cores / _CORES_A_LEG))
    return tuple(
        (_EDGE + (1.0 - 2.0 * _EDGE) * turn / legs, _EDGE if turn % 2 else 1.0 - _EDGE)
        for turn in range(legs + 1)
    )


def _leg(start: Point, end: Point) -> float:
    """Length of a leg in widths of the bed."""
    return math.hypot(_ASPECT * (end[0] - start[0]), end[1] - start[1])


def _long(path: tuple[Point, ...]) -> float:
    return sum(_leg(start, end) for start, end in pairwise(path))


def _along(path: tuple[Point, ...], count: int) -> tuple[Point, ...]:
    whole = _long(path)
    spots = []
    for number in range(count):
        left = (number + 0.5) * whole / count
        for start, end in pairwise(path):
            leg = _leg(start, end)
            if left <= leg:
                share = left / leg
                spots.append(
                    (start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1]))
                )
                break
            left -= leg
    return tuple(spots)


def _pots(cores: int, pots: int) -> SampleWalk:
    """Pots in rows; one core each from some of them, or several from each round its stem."""
    drawn = min(pots, max(cores, _MOST_POTS_DRAWN))
    columns = min(drawn, max(1, math.ceil(math.sqrt(2.0 * drawn))))
    lines = math.ceil(drawn / columns)
    middles = tuple(
        ((number % columns + 0.5) / columns, (number // columns + 0.5) / lines)
        for number in range(drawn)
    )
    aspect = columns / lines
    radius = 0.4 / columns
    if pots >= cores:
        spots = tuple(middles[int((number + 0.5) * drawn / cores)] for number in range(cores))
    else:
        each = math.ceil(cores / pots)
        turns = [2.0 * math.pi * number / each - 0.5 * math.pi for number in range(each)]
        spots = tuple(
            (x + 0.6 * radius * math.cos(turn), y + 0.6 * radius * aspect * math.sin(turn))
            for x, y in middles
            for turn in turns
        )
    return SampleWalk(
        spots=spots,
        path=(),
        pots=middles,
        aspect=aspect,
        pot_radius=radius,
        length_m=None,
        width_m=None,
        step_m=None,
    )
