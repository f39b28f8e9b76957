"""Three long field experiments: fitted on the first half of their readings, judged on the second.

    python tools/figures/refit_series.py [--resume]

The beds are those of ``tests/published/courses.py``: what a user would have known at the start.
The readings of the first half weigh them by the program's own functions; the second half is
forecast and only then looked at. Beside it: the same beds un-fitted, the same begun anew at the
last reading of the first half, "the last reading stays", and a straight line through the first
half. A forecast without a spread is scored by its distance; so that the two plain ones are not
beaten by their lack of a spread alone, they are scored once more with the one spread that would
have suited them best, which nobody could have known. Kept in ``results``.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import sqrt
from pathlib import Path
from typing import Final

import numpy as np
from numpy.typing import NDArray

if __name__ == "__main__":
    ROOT = Path(__file__).resolve().parents[2]
    sys.path[:0] = [str(ROOT / "tools"), str(ROOT / "tests")]

from figures.results import gather
from loamshift.cli.kernel_cache import keep_kernels
from loamshift.core.column import run_column
from loamshift.core.ensemble import coverage, crps_ensemble, quantile_bands
from loamshift.core.member_weights import equal_beds, normal_slices, weigh_members
from loamshift.core.monotone_cubic import monotone_cubic
from loamshift.core.reading_bins import normal_probability
from loamshift.domain.soil import Soil
from loamshift.services.belief.column_priors import Members, draw_soil_members
from loamshift.services.belief.column_runs import shared_laws
from loamshift.services.belief.learned import ERROR_DEGREES, FITTED_NODES_Z
from loamshift.services.belief.possible_beds import SCALE_SLICES
from loamshift.services.belief.scale_nodes import on_nodes
from published import courses
from published.courses import Course, Reading

FloatArray = NDArray[np.float64]

OTHERS: Final = 240
"""Draws of everything but the scale, as many as the program draws where few carry the weight."""
KEPT: Final = 200
SEED: Final = 1
WAYS: Final = ("fitted", "unfitted", "restarted", "stays", "line")


@dataclass(frozen=True, slots=True, kw_only=True)
class Half:
    """One plot: readings it is fitted on, and those it is judged on."""

    course: Course
    known: tuple[Reading, ...]
    later: tuple[Reading, ...]


def halves(found: Sequence[Course]) -> list[Half]:
    """Each plot with its readings cut in the middle; plots with fewer than two are left out."""
    plots: dict[tuple[str, object], list[Course]] = {}
    for course in found:
        plots.setdefault((course.name, course.start), []).append(course)
    cut = []
    for same in plots.values():
        readings = sorted((r for course in same for r in course.readings), key=lambda r: r.on)
        if len(readings) < 2:
            continue
        longest = max(same, key=lambda course: max(r.on for r in course.readings))
        middle = len(readings) // 2
        cut.append(
            Half(course=longest, known=tuple(readings[:middle]), later=tuple(readings[middle:]))
        )
    return cut


def rows_of(study: str, half: Half) -> list[dict[str, object]]:
    """Every later reading of a plot with all ways of forecasting it, one row a way."""
    soil = courses.believed(half.course)
    nodes = np.array(FITTED_NODES_Z)
    drawn = _draws(half.course, soil)
    known = _predicted(half.course, soil, on_nodes(drawn, soil=soil, nodes_z=nodes), half.known)
    later = _predicted(half.course, soil, on_nodes(drawn, soil=soil, nodes_z=nodes), half.later)
    shape = (nodes.size, OTHERS, -1)
    weights = weigh_members(
        nodes,
        known.reshape(shape),
        read_ph=[reading.ph for reading in half.known],
        read_sd_ph=[soil.ph.ph_water_sd] * len(half.known),
        degrees=ERROR_DEGREES,
    )
    chosen, z = equal_beds(weights, n_others=KEPT, n_scale=SCALE_SLICES)
    plain = np.repeat(normal_slices(SCALE_SLICES)[:, None], OTHERS, axis=1)
    last = half.known[-1] if half.known else None
    forecasts = {
        "fitted": monotone_cubic(nodes, later.reshape(shape)[:, chosen], z),
        "unfitted": monotone_cubic(nodes, later.reshape(shape), plain),
        "restarted": _restarted(half, last),
    }
    observed = np.array([reading.ph for reading in half.later])
    found: list[dict[str, object]] = []
    for way, values in forecasts.items():
        flat = values.reshape(-1, observed.size)
        flat = flat + _errors(flat.shape[0], soil.ph.ph_water_sd)[:, None]
        bands, crps = quantile_bands(flat), crps_ensemble(flat, observed)
        found += [
            _row(study, half, way, number, crps=float(crps[number]), bands=bands[:, number])
            for number in range(observed.size)
        ]
    for way, points in (("stays", _stays(half)), ("line", _line(half))):
        found += [
            _row(study, half, way, number, crps=abs(float(points[number] - observed[number])))
            | {"forecast": round(float(points[number]), 3)}
            for number in range(observed.size)
        ]
    for row in found:
        row["effective"] = round(weights.effective_others, 1)
    return found


def _draws(course: Course, soil: Soil) -> Members:
    return draw_soil_members(
        soil,
        members=OTHERS,
        rng=np.random.default_rng(SEED),
        land_use=course.land_use,
    )


def _predicted(
    course: Course, soil: Soil, members: Members, readings: Sequence[Reading]
) -> FloatArray:
    """What each member has at each reading, shape (M, J) [pH]."""
    found = np.empty((members.reading_z.size, len(readings)))
    for depth in {reading.depth_cm for reading in readings}:
        which = [n for n, reading in enumerate(readings) if reading.depth_cm == depth]
        ground = courses.ground(course, soil, depth_cm=depth, last=readings[which[-1]].on)
        result = run_column(
            ground.soil,
            members.parameters,
            ground.weather,
            ground.events,
            laws=shared_laws(),
            sample_depth_cm=depth,
            stride_days=courses.STRIDE_DAYS,
        )
        at = [(readings[n].on - course.start).days // courses.STRIDE_DAYS for n in which]
        found[:, which] = result.ph[:, at]
    return found


def _restarted(half: Half, last: Reading | None) -> FloatArray:
    """The forecast begun anew at the last known reading, without what went before it."""
    if last is None:
        course = half.course
    else:
        ph = half.course.entry.ph
        assert ph is not None
        entry = replace(half.course.entry, ph=replace(ph, ph=last.ph, taken=last.on))
        course = replace(half.course, entry=entry, start=last.on)
    soil = courses.believed(course)
    z = normal_slices(SCALE_SLICES)
    members = on_nodes(_draws(course, soil), soil=soil, nodes_z=z)
    return _predicted(course, soil, members, half.later)


def _errors(count: int, sd_ph: float) -> FloatArray:
    """Errors of further readings, spread evenly over the beds [pH]."""
    errors = sd_ph * normal_slices(count)
    return np.asarray(np.random.default_rng(SEED).permutation(errors), dtype=np.float64)


def _stays(half: Half) -> FloatArray:
    ph = half.known[-1].ph if half.known else _first_ph(half)
    return np.full(len(half.later), ph)


def _line(half: Half) -> FloatArray:
    """The straight line through the first reading and those known, carried on."""
    days = np.array([0, *((r.on - half.course.start).days for r in half.known)], dtype=np.float64)
    ph = np.array([_first_ph(half), *(reading.ph for reading in half.known)])
    if days.size < 2:
        return np.full(len(half.later), ph[0])
    slope, start = np.polyfit(days, ph, 1)
    ahead = np.array([(r.on - half.course.start).days for r in half.later], dtype=np.float64)
    return np.asarray(start + slope * ahead, dtype=np.float64)


def _first_ph(half: Half) -> float:
    ph = half.course.entry.ph
    assert ph is not None
    return ph.ph


def _row(
    study: str,
    half: Half,
    way: str,
    number: int,
    *,
    crps: float,
    bands: FloatArray | None = None,
) -> dict[str, object]:
    reading = half.later[number]
    row: dict[str, object] = {
        "study": study,
        "on": reading.on.isoformat(),
        "way": way,
        "observed": reading.ph,
        "forecast": "",
        "crps": round(crps, 4),
        "in_90": "",
        "in_50": "",
        "width_90": "",
        "known": len(half.known),
    }
    if bands is not None:
        one = np.array([reading.ph])
        row["forecast"] = round(float(bands[2]), 3)
        row["in_90"] = int(coverage(one, low=bands[:1], high=bands[4:]))
        row["in_50"] = int(coverage(one, low=bands[1:2], high=bands[3:4]))
        row["width_90"] = round(float(bands[4] - bands[0]), 3)
    return row


def with_best_spread(missed_ph: FloatArray) -> float:
    """Mean CRPS of point forecasts given the one normal spread that suits them best [pH]."""
    return min(_normal_crps(missed_ph, sd) for sd in np.linspace(0.02, 2.0, 100).tolist())


def _normal_crps(missed_ph: FloatArray, sd: float) -> float:
    z = missed_ph / sd
    density = np.exp(-0.5 * z**2) / sqrt(2.0 * np.pi)
    return float(
        (sd * (z * (2.0 * normal_probability(z) - 1.0) + 2.0 * density - np.pi**-0.5)).mean()
    )


def studies() -> dict[str, list[Half]]:
    """The plots of each study, cut in the middle."""
    return {
        "S01": halves(courses.sawyers()),
        "S03": halves(courses.woburn()),
        "S02": halves(courses.park_grass(restarted=False)),
    }


def main(words: list[str]) -> int:
    """Work out the rows and keep them."""
    if not set(words) <= {"--resume"}:
        print(__doc__)
        return 2
    keep_kernels()
    plots = {
        f"{study} {half.course.name}": (study, half)
        for study, found in studies().items()
        for half in found
    }
    gather("refit_series", plots, lambda plot: rows_of(*plots[plot]), resume=bool(words))
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
