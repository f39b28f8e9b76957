"""What printed tables say for the same soil and step, and following one of them on request."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from statistics import median
from typing import Final

from loamshift.domain.answer import Answer, Band, Direction, PublishedSpread, Verdict
from loamshift.domain.case import Case
from loamshift.domain.evidence import Evidence
from loamshift.domain.rules import LimeRate, SulfurRate
from loamshift.domain.situation import Situation
from loamshift.errors import InputError
from loamshift.services.decide import decide
from loamshift.services.plan import plan
from loamshift.services.said import said_rate
from loamshift.services.understand import understand
from loamshift.tables.references import load_references
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
_ORGANIC: Final = ("organic",)


@dataclass(frozen=True, slots=True)
class _Row:
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


def published_spread(situation: Situation, *, direction: Direction) -> PublishedSpread | None:
    """What printed tables ask for the same texture and pH step, scaled to this depth.

    Parameters
    ----------
    situation
        The bed as understood [object].
    direction
        Which way the pH goes [enumeration].

    Returns
    -------
    PublishedSpread or None
        Sulfur as S, or limestone: lowest and highest of one median per independent table
        [g/m2]; None where no table covers the case.

    Notes
    -----
    Rows kept as traps or recalled from memory are left out; copies of one origin count once. A
    row with its own start and end must lie within 0.3 pH of ours; a row that prints only a step
    is scaled in proportion, at most twofold. Tables know nothing of free lime.

    References
    ----------
    own-judgement
    """
    rows = [row for row in _rows(direction) if not row.recalled]
    rates = _family_rates(situation, rows, direction=direction)
    if not rates:
        return None
    return PublishedSpread(n_sources=len(rates), low=min(rates.values()), high=max(rates.values()))


def table_sources(*, direction: Direction) -> tuple[str, ...]:
    """Keys of the tables that can be followed.

    Parameters
    ----------
    direction
        Which way the pH goes [enumeration].

    Returns
    -------
    tuple of str
        Source keys in alphabetical order [text].
    """
    return tuple(sorted({row.source_key for row in _rows(direction)}))


def table_rate_g_m2(situation: Situation, source_key: str, *, direction: Direction) -> float:
    """Rate that one printed table gives for this bed.

    Parameters
    ----------
    situation
        The bed as understood [object].
    source_key
        Source of the table, as ``references.toml`` names it [text].
    direction
        Which way the pH goes [enumeration].

    Returns
    -------
    float
        Sulfur as S, or limestone, at this bed's depth [g/m2].

    Raises
    ------
    InputError
        Where no such table is known, or it does not cover the texture or the step of the bed.

    References
    ----------
    own-judgement
    """
    wanted = source_key.strip().casefold()
    rows = [row for row in _rows(direction) if row.source_key == wanted]
    what = "sulfur" if direction is Direction.ACIDIFY else "lime"
    if not rows:
        listed = ", ".join(table_sources(direction=direction))
        raise InputError(
            f"no published {what} table called {source_key!r}; those that can be followed: {listed}"
        )
    rates = _family_rates(situation, rows, direction=direction)
    if rates:
        return next(iter(rates.values()))
    raise InputError(_not_covered(situation, source_key, rows, what))


def follow_table(case: Case, source_key: str) -> Answer:
    """The answer to a case, with the dose of one printed table in place of ours.

    Answers what somebody who goes by that table would do; verdict, findings and cautions stay
    ours, and the difference is said.

    Parameters
    ----------
    case
        The case as read [object].
    source_key
        Source of the table [text].

    Returns
    -------
    Answer
        The answer with the table's rate in its parts [object].

    Raises
    ------
    InputError
        Where the table is unknown or does not cover the case, or the bed needs no dose.
    """
    from loamshift.services.advise import advise  # the whole advice imports this module

    answer = advise(case)
    situation = understand(case)
    direction = answer.dose.direction
    if direction is Direction.NONE:
        for way in (Direction.ACIDIFY, Direction.LIME):
            if source_key.strip().casefold() in table_sources(direction=way):
                raise InputError(
                    f"this bed is given no dose ({answer.verdict.decision.value}), so there is "
                    f"no table to follow; read the answer without --table"
                )
        direction = Direction.ACIDIFY
    rate = table_rate_g_m2(situation, source_key, direction=direction)
    ours = answer.dose.sulfur_as_s_g_m2 or answer.dose.lime_as_caco3_g_m2
    theirs = Band(lo90=rate, mid=rate, hi90=rate)
    acidify = direction is Direction.ACIDIFY
    followed = plan(
        situation,
        decide(situation),
        replace(
            answer.dose,
            sulfur_as_s_g_m2=theirs if acidify else None,
            lime_as_caco3_g_m2=None if acidify else theirs,
        ),
    )
    return replace(
        answer,
        verdict=_told(
            answer,
            case,
            source_key,
            rate_g_m2=rate,
            own=ours.mid if ours else None,
            parts=bool(followed.applications),
        ),
        dose=replace(answer.dose, published_g_m2=PublishedSpread(n_sources=1, low=rate, high=rate)),
        applications=followed.applications,
        too_early_before=followed.too_early_before,
        retest=followed.retest,
    )


def _told(
    answer: Answer,
    case: Case,
    source_key: str,
    *,
    rate_g_m2: float,
    own: float | None,
    parts: bool,
) -> Verdict:
    reference = load_references().get(source_key.strip().casefold())
    cited = reference.citation if reference else source_key
    recalled = any(
        row.recalled
        for row in _rows(answer.dose.direction)
        if row.source_key == source_key.strip().casefold()
    )
    units = case.units
    what = "sulfur" if answer.dose.direction is Direction.ACIDIFY else "limestone"
    table = f"You asked to follow one printed table ({cited.rstrip('.')})"
    if recalled:
        table += ", whose figures were recalled and not read"
    text = f"{table}: it gives {said_rate(rate_g_m2, units)} of {what} for this soil and step."
    if own is not None and own > 0.0:
        ratio = rate_g_m2 / own
        if 0.87 <= ratio <= 1.15:
            text += f" Our own figure is about the same, {said_rate(own, units)}."
        else:
            way = f"{ratio:.1f} times" if ratio > 1.0 else f"{100.0 * ratio:.0f} % of"
            text += f" That is {way} our own figure of {said_rate(own, units)}."
    text += " Printed tables know nothing of free lime, water or how much goes on at once."
    if not parts:
        text += " No parts are given for it, for the reason above."
    return replace(answer.verdict, because=f"{answer.verdict.because} {text}")


def _rows(direction: Direction) -> list[_Row]:
    if direction is Direction.ACIDIFY:
        return [_from_sulfur(rate) for rate in load_sulfur_rates() if rate.usable]
    if direction is Direction.LIME:
        return [_from_lime(rate) for rate in load_lime_rates() if rate.usable]
    return []


def _from_sulfur(rate: SulfurRate) -> _Row:
    return _Row(
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


def _from_lime(rate: LimeRate) -> _Row:
    return _Row(
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
    situation: Situation, rows: Iterable[_Row], *, direction: Direction
) -> dict[str, float]:
    """Family to the median of its fitting rates [g/m2]."""
    soil, target = situation.soil, situation.target
    if soil is None or target is None:
        return {}
    step = abs(soil.ph.ph_water - target.ph_aim)
    words = _words(situation, direction)
    families: dict[str, list[_Row]] = {}
    for row in rows:
        families.setdefault(row.family, []).append(row)
    rates: dict[str, float] = {}
    for family, members in families.items():
        texture = next((word for word in words if any(m.texture == word for m in members)), None)
        fitting = [
            row.rate_g_m2 * step / row.step * situation.depth_cm / row.depth_cm
            for row in members
            if row.texture == texture
            and _fits(row, start=soil.ph.ph_water, aim=target.ph_aim, step=step)
        ]
        if fitting:
            rates[family] = median(fitting)
    return rates


def _fits(row: _Row, *, start: float, aim: float, step: float) -> bool:
    if row.ph_start is not None and row.ph_target is not None:
        return abs(row.ph_start - start) <= NEAR_PH and abs(row.ph_target - aim) <= NEAR_PH
    return 1.0 / SCALE_MOST <= step / row.step <= SCALE_MOST


def _words(situation: Situation, direction: Direction) -> tuple[str, ...]:
    if situation.soil is None:
        return ()
    if situation.organic_only:
        return _ORGANIC
    known = _OWN_WORDS if direction is Direction.ACIDIFY else _LIME_WORDS
    return known.get(situation.soil.texture_name, ("any",))


def _not_covered(situation: Situation, source_key: str, rows: list[_Row], what: str) -> str:
    soil, target = situation.soil, situation.target
    if soil is None or target is None:
        return f"the table of {source_key} needs a soil pH and an aim; give soil.ph and aim.plant"
    textures = sorted({row.texture for row in rows})
    starts = [row.ph_start for row in rows if row.ph_start is not None]
    ends = [row.ph_target for row in rows if row.ph_target is not None]
    covers = f"textures {', '.join(textures)}"
    if starts and ends:
        covers += (
            f", starts from pH {min(starts):g} to {max(starts):g} and aims from pH "
            f"{min(ends):g} to {max(ends):g}"
        )
    else:
        steps = sorted({row.step for row in rows})
        covers += f", steps of {', '.join(f'{step:g}' for step in steps)} pH"
    return (
        f"the {what} table of {source_key} does not cover {soil.texture_name} from pH "
        f"{soil.ph.ph_water:.1f} to {target.ph_aim:.1f}: it has {covers}. Follow another table, "
        "or read the answer without one"
    )
