from __future__ import annotations

import math

import pytest

from loamshift.domain.case import BedKind
from loamshift.services.sample.walk import sample_plan
from loamshift.services.sample.walk_points import sample_walk


@pytest.mark.parametrize("area_m2", [0.5, 20.0, 90_000.0])
@pytest.mark.parametrize("uneven", [False, True])
def test_the_cores_stand_inside_at_even_steps_along_the_walk(area_m2: float, uneven: bool) -> None:
    plan = sample_plan(area_m2=area_m2, uneven=uneven)
    walk = sample_walk(plan, area_m2=area_m2)
    assert len(walk.spots) == plan.cores
    assert all(0.0 < x < 1.0 and 0.0 < y < 1.0 for x, y in walk.spots)
    assert walk.length_m is not None and walk.width_m is not None and walk.step_m is not None
    assert walk.length_m * walk.width_m == pytest.approx(area_m2)
    legs = zip(walk.path, walk.path[1:], strict=False)
    long = sum(
        math.hypot((b[0] - a[0]) * walk.length_m, (b[1] - a[1]) * walk.width_m) for a, b in legs
    )
    assert walk.step_m * plan.cores == pytest.approx(long)


@pytest.mark.parametrize("pots", [1, 3, 6, 41, 500])
def test_pots_are_drawn_with_their_cores_in_them(pots: int) -> None:
    plan = sample_plan(kind=BedKind.CONTAINER, pots=pots)
    walk = sample_walk(plan, kind=BedKind.CONTAINER, pots=pots)
    assert len(walk.pots) == min(pots, 40) and len(walk.spots) >= plan.cores
    assert len(set(walk.spots)) == len(walk.spots) and walk.path == ()
    assert all(0.0 <= x <= 1.0 and 0.0 <= y <= 1.0 for x, y in walk.spots)
