"""The beds on which plans and beliefs are tried, as case files read like any other."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final

from loamshift.case.read import parse_case
from loamshift.domain.case import Case

TODAY: Final = date(2026, 4, 12)
METHOD: Final = "water 1:2.5"
PLACE: Final = "Manchester"
TEXTURES: Final = ("sand", "loam", "clay")
STEPS: Final = (
    (7.0, 6.0),
    (6.5, 5.5),
    (7.0, 5.5),
    (6.0, 5.0),
    (6.8, 6.2),
    (5.0, 6.0),
    (5.5, 6.5),
    (5.0, 6.5),
    (5.8, 6.4),
    (4.8, 5.5),
)
"""Reading and aim of the grid; five acidify, five lime [pH in water]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wish:
    """A bed with one reading today, and the pH it is to have."""

    texture: str
    ph: float
    aim: float

    @property
    def name(self) -> str:
        """As a row of a table names it."""
        return f"{self.texture} {self.ph:.1f} to {self.aim:.1f}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Done:
    """What was put on later: day, name in the table, rate [g/m2], depth worked in [cm]."""

    on: date
    material: str
    rate_g_m2: float
    depth_cm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Test:
    """A later test: day, and what it read [pH in water]."""

    __test__ = False

    on: date
    ph: float


def grid() -> tuple[Wish, ...]:
    """The thirty beds of the grid: three textures by ten steps."""
    return tuple(Wish(texture=texture, ph=ph, aim=aim) for texture in TEXTURES for ph, aim in STEPS)


def case_of(
    wish: Wish,
    *,
    today: date = TODAY,
    by: date | None = None,
    done: Sequence[Done] = (),
    tests: Sequence[Test] = (),
) -> Case:
    """The case of a bed: bare ground without watering or feed, its free lime measured as none."""
    lines = [
        "case = 1",
        f'name = "{wish.name}"',
        f"today = {today}",
        "[place]",
        f'name = "{PLACE}"',
        "[bed]",
        'area = "10 m2"',
        "planted = false",
        "[soil]",
        f"ph = {wish.ph}",
        f'ph_method = "{METHOD}"',
        f'texture = "{wish.texture}"',
        "carbonate_pct = 0",
        f"sampled = {TODAY}",
        "[aim]",
        f"target_ph = {wish.aim}",
    ]
    if by is not None:
        lines.append(f"by = {by}")
    for one in done:
        lines += [
            "[[applied]]",
            f"date = {one.on}",
            f'material = "{one.material}"',
            f'rate = "{one.rate_g_m2!r} g/m2"',
            f'incorporated = "{one.depth_cm!r} cm"',
        ]
    for test in tests:
        lines += ["[[reading]]", f"date = {test.on}", f"ph = {test.ph}", f'ph_method = "{METHOD}"']
    return parse_case("\n".join(lines) + "\n")
