from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import Any

import pytest

from loamshift.domain.case import Aim, Bed, Case, SoilEntry
from loamshift.domain.ph import PhMethod, PhReading
from loamshift.tables.plants import find_plant
from loamshift.tables.soils import load_textures

BARE = Bed(area_m2=20.0, depth_cm=15.0, planted=False)


def build(
    ph: float | None = 7.0,
    *,
    target: float | None = 5.0,
    plant: str | None = None,
    texture: str = "loam",
    organic_matter_pct: float = 3.0,
    carbonate_pct: float | None = 0.0,
    bed: Bed = BARE,
    **more: Any,
) -> Case:
    """A bed of 20 m2 to 15 cm, with what a test wants changed."""
    reading = None if ph is None else PhReading(ph=ph, method=PhMethod.WATER_1_1)
    soil = SoilEntry(
        ph=reading,
        texture=load_textures()[texture],
        organic_matter_pct=organic_matter_pct,
        carbonate_pct=carbonate_pct,
    )
    aim = Aim(target_ph=target, plants=(find_plant(plant),) if plant else ())
    return Case(
        name="a bed", today=date(2026, 4, 12), bed=bed, soil=more.pop("soil", soil), aim=aim, **more
    )


@pytest.fixture
def bed_case() -> Callable[..., Case]:
    return build
