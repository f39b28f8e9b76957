"""What printed tables say for the same soil and step."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from statistics import median
from typing import Final

from loamshift.domain.answer import Direction, PublishedSpread
from loamshift.domain.bed_context import BedContext
from loamshift.domain.evidence import Evidence
from loamshift.domain.message import Given, Listed, Message, message, ph
from loamshift.domain.rules import LimeRate, SulfurRate
from loamshift.domain.worded_error import WordedError
from loamshift.services.context.organic_soil import is_organic_soil
from loamshift.tables.rules import load_lime_rates, load_sulfur_rates

ASSUMED_DEPTH_CM: Final = 15.0
"""Depth of a printed lime rate, which no text states; sulfur rows carry their own."""
NEAR_PH: Final = 0.3
"""How far a printed start or end may lie from ours [pH]."""
SCALE_MOST: Final = 2.0
"""Largest ratio of our step to a printed one that is still scaled in proportion."""
_OWN_WORDS: Final[Mapping[str, tuple[str, ...]]] = {
    "sand": ("sand", "any"),
    "loamy sand": ("sand", "any"),
    "sandy loam": ("sandy loam", "loam", "any"),
    "loam": ("loam", "any"),
    "silt loam": ("loam", "any"),
    "silt": ("loam", "any"),
    "sandy clay loam": ("clay loam", "loam", "any"),
    "clay loam": ("clay loam", "clay", "any"),
    "silty clay loam": ("clay loam", "clay", "any"),
    "sandy clay": ("clay", "clay loam", "any"),
    "silty clay": ("clay", "clay loam", "any"),
    "clay": ("clay", "clay loam", "any"),
}
"""Our texture class to the words of printed tables, the fitting one first."""
_LIME_WORDS: Final[Mapping[str, tuple[str, ...]]] = {
    **_OWN_WORDS,
    "sand": ("sandy loam", "any"),
    "loamy sand": ("sandy loam", "any"),
}
"""No lime table read has a column for sand: its lightest one stands in."""
_ANY: Final = "any"
"""A rate printed for every soil alike: it can be followed, but it speaks of no soil."""
_ORGANIC: Final = ("organic",)


@dataclass(frozen=True, slots=True)
class PrintedRow:
    """A printed rate in one shape for sulfur and lime [g/m2]."""

    source_key: str
    family: str
    ph_start: float | None
    ph_target: float | None
    step: float
    texture: str
    depth_cm: float
    rate_g_m2: float
    recalled: bool


def published_spread(context: BedContext, *, direction: Direction) -> PublishedSpread | None:
    """What printed tables ask for the same texture and pH step, scaled to this depth.

    Returns
    -------
    PublishedSpread or None
        Sulfur as S, or limestone: lowest and highest of one median per independent table
        [g/m2]; None where no table covers the case.

    Notes
    -----
    Rows kept as traps, recalled from memory, or printed for every soil alike are left out: the
    last ask of a sand what they ask of a clay. Copies of one origin count once. A row with its own
    start and end must lie within 0.3 pH of ours; a row that prints only a step is scaled in
    proportion, at most twofold. Tables know nothing of free lime, and those for
    mineral soil nothing of peaty ground.

    References
    ----------
    own-judgement
    """
    rows = [row for row in printed_rows(direction) if not row.recalled and row.texture != _ANY]
    rates = _family_rates(context, rows, direction=direction)
    if not rates:
        return None
    return PublishedSpread(n_sources=len(rates), low=min(rates.values()), high=max(rates.values()))


def table_sources(*, direction: Direction) -> tuple[str, ...]:
    """Keys of the tables that can be followed."""
    return tuple(sorted({row.source_key for row in printed_rows(direction)}))


def table_rate_g_m2(context: BedContext, source_key: str, *, direction: Direction) -> float:
    """Rate that one printed table gives for this bed.

    Returns
    -------
    float
        Sulfur as S, or limestone, at this bed's depth [g/m2].

    Raises
    ------
    WordedError
        Where no such table is known, or it does not cover the texture or the step of the bed.

    References
    ----------
    own-judgement
    """
    wanted = source_key.strip().casefold()
    rows = [row for row in printed_rows(direction) if row.source_key == wanted]
    what = "sulfur" if direction is Direction.ACIDIFY else "lime"
    if not rows:
        names = Given(", ".join(table_sources(direction=direction)))
        raise WordedError(message("table-unknown", of=what, given=Given(source_key), names=names))
    rates = _family_rates(context, rows, direction=direction)
    if rates:
        return next(iter(rates.values()))
    raise WordedError(_not_covered(context, source_key, rows, what))


def printed_rows(direction: Direction) -> list[PrintedRow]:
    """Every usable row of the printed tables of one direction."""
    if direction is Direction.ACIDIFY:
        return [_from_sulfur(rate) for rate in load_sulfur_rates() if rate.usable]
    if direction is Direction.LIME:
        return [_from_lime(rate) for rate in load_lime_rates() if rate.usable]
    return []


def _from_sulfur(rate: SulfurRate) -> PrintedRow:
    return PrintedRow(
        source_key=rate.source_key,
        family=rate.family,
        ph_start=rate.ph_start,
        ph_target=rate.ph_target,
        step=rate.ph_drop,
        texture=rate.texture,
        depth_cm=rate.depth_cm,
        rate_g_m2=0.5 * (rate.low_g_m2 + rate.high_g_m2),
        recalled=rate.evidence is Evidence.MEMORY,
    )


def _from_lime(rate: LimeRate) -> PrintedRow:
    return PrintedRow(
        source_key=rate.source_key,
        family=rate.source_key,
        ph_start=rate.ph_start,
        ph_target=rate.ph_target,
        step=rate.ph_rise,
        texture=rate.texture,
        depth_cm=ASSUMED_DEPTH_CM,
        rate_g_m2=rate.rate_g_m2,
        recalled=rate.evidence is Evidence.MEMORY,
    )


def _family_rates(
    context: BedContext, rows: Iterable[PrintedRow], *, direction: Direction
) -> dict[str, float]:
    """Family to the median of its fitting rates [g/m2]."""
    soil, target = context.soil, context.target
    if soil is None or target is None:
        return {}
    step = abs(soil.ph.ph_water - target.ph_aim)
    words = _words(context, direction)
    families: dict[str, list[PrintedRow]] = {}
    for row in rows:
        families.setdefault(row.family, []).append(row)
    rates: dict[str, float] = {}
    for family, members in families.items():
        texture = next((word for word in words if any(m.texture == word for m in members)), None)
        fitting = [
            row.rate_g_m2 * step / row.step * context.depth_cm / row.depth_cm
            for row in members
            if row.texture == texture
            and _fits(row, start=soil.ph.ph_water, aim=target.ph_aim, step=step)
        ]
        if fitting:
            rates[family] = median(fitting)
    return rates


def _fits(row: PrintedRow, *, start: float, aim: float, step: float) -> bool:
    if row.ph_start is not None and row.ph_target is not None:
        return abs(row.ph_start - start) <= NEAR_PH and abs(row.ph_target - aim) <= NEAR_PH
    return 1.0 / SCALE_MOST <= step / row.step <= SCALE_MOST


def _words(context: BedContext, direction: Direction) -> tuple[str, ...]:
    if context.soil is None:
        return ()
    if context.organic_only or is_organic_soil(context):
        return _ORGANIC
    known = _OWN_WORDS if direction is Direction.ACIDIFY else _LIME_WORDS
    return known.get(context.soil.texture_name, ("any",))


def _not_covered(
    context: BedContext, source_key: str, rows: list[PrintedRow], what: str
) -> Message:
    soil, target = context.soil, context.target
    if soil is None or target is None:
        return message("table-needs-ph", source=Given(source_key))
    textures = Given(", ".join(sorted({row.texture for row in rows})))
    starts = [row.ph_start for row in rows if row.ph_start is not None]
    ends = [row.ph_target for row in rows if row.ph_target is not None]
    if starts and ends:
        covers = message(
            "table-covers",
            textures=textures,
            starts=ph(min(starts), high=max(starts)),
            targets=ph(min(ends), high=max(ends)),
        )
    else:
        steps = Listed(tuple(ph(step) for step in sorted({row.step for row in rows})))
        covers = message("table-covers-steps", textures=textures, steps=steps)
    return message(
        "table-not-covered",
        of=what,
        source=Given(source_key),
        texture=Given(soil.texture_name),
        covers=covers,
        **{"from": ph(soil.ph.ph_water), "to": ph(target.ph_aim)},
    )
