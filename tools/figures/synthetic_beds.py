"""Two hundred beds drawn at random: does a plan keep its promise, and a range hold nine in ten?

    python tools/figures/synthetic_beds.py [--resume]

Each bed has its own texture, reading and aim. A first part goes on, one test reads with its
error, the printed table decides the second part. Then the test is told to the program, which
weighs its possible beds anew and forecasts the next test. ``EACH`` true beds stand behind every
case; the first of them are the two hundred, the others narrow the sampling error. Kept in
``results``.
"""

from __future__ import annotations

import sys
from dataclasses import replace
from datetime import timedelta
from pathlib import Path
from typing import Final

import numpy as np
from numpy.typing import NDArray

if __name__ == "__main__":
    sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from figures.bed_cases import TODAY, Done, Test, Wish, case_of
from figures.plan_grid import MEMBERS
from figures.results import gather
from figures.true_beds import depths_worked, method_sd_ph, true_beds
from loamshift.cli.kernel_cache import keep_kernels
from loamshift.core.ensemble import crps_ensemble
from loamshift.core.member_weights import normal_slices
from loamshift.core.reading_bins import normal_probability
from loamshift.domain.bed_context import BedContext
from loamshift.services.belief.belief import Belief, believe
from loamshift.services.context.build_context import build_context
from loamshift.services.courses.seasons import Seasons
from loamshift.services.courses.surface import day_index
from loamshift.services.look import look_with_column
from loamshift.services.plan.plan import line_for
from loamshift.services.verdict.reach import retest_error_ph
from loamshift.tables.model import verdict_values

FloatArray = NDArray[np.float64]

BEDS: Final = 200
EACH: Final = 5
SEED: Final = 90_210
TEXTURES: Final = ("sand", "sandy loam", "loam", "clay loam", "clay")
READINGS_PH: Final = (4.8, 7.2)
STEP_PH: Final = (0.6, 1.5)
AIMS_PH: Final = (4.8, 6.8)
WANTED_D: Final = 730
"""Two seasons, so that one test stands between two parts."""


def wishes(count: int = BEDS, *, seed: int = SEED) -> tuple[Wish, ...]:
    """Beds with textures, readings and aims drawn evenly, every aim one that plants have."""
    rng = np.random.default_rng(seed)
    found: list[Wish] = []
    while len(found) < count:
        ph = round(float(rng.uniform(*READINGS_PH)), 1)
        step = round(float(rng.uniform(*STEP_PH)), 1)
        aim = round(ph + (step if rng.random() < 0.5 else -step), 1)
        texture = TEXTURES[rng.integers(len(TEXTURES))]
        if AIMS_PH[0] <= aim <= AIMS_PH[1]:
            found.append(Wish(texture=texture, ph=ph, aim=aim))
    return tuple(found)


def rows_of(wish: Wish, *, each: int = EACH, seed: int = SEED) -> list[dict[str, object]]:
    """What became of the true beds behind one case, one row each; none where nothing goes on."""
    by = TODAY + timedelta(days=WANTED_D)
    context = build_context(case_of(wish, by=by))
    look = look_with_column(context, members=MEMBERS, seed=1, years=3, refit=True)
    rule, courses = look.judged.rule, look.judged.courses
    if rule is None or courses is None or not rule.lines:
        return []
    goal, seasons, surface = rule.goal, courses.seasons, courses.surface
    rng = np.random.default_rng((seed, 7))
    ahead = (seasons.hold - TODAY).days + 15
    true = true_beds(context, count=each, seed=seed, days_ahead=ahead)
    amounts = np.zeros((goal.seasons, each))
    amounts[0] = rule.first_g_m2
    test = goal.tests[0]
    seen = true.under(seasons, amounts, until=test)[:, test] + _error(context, each, rng)
    printed = np.round(seen, 1)
    amounts[1] = [line_for(rule.lines, float(ph)).amount_g_m2 for ph in printed]
    ph = true.under(seasons, amounts, until=goal.hold)
    inside = (ph >= goal.range_low_ph) & (ph <= goal.range_high_ph)
    alone = true.under(seasons, 0.0 * amounts, until=goal.hold)
    harmful = surface.sign * (ph - goal.harmful_ph) < 0.0
    anyway = surface.sign * (alone - goal.harmful_ph) < 0.0
    following = ph[:, goal.on] + _error(context, each, rng)
    before = surface.at(test, (rule.first_g_m2,))
    sd = retest_error_ph(context)
    rows: list[dict[str, object]] = []
    for one in range(each):
        fitted, unfitted = _told(wish, seasons, amounts[:, one], float(printed[one]))
        new = _next(fitted, seasons, float(amounts[1, one]))
        old = _next(unfitted, seasons, float(amounts[1, one]))
        rows.append(
            {
                "case": wish.name,
                "truth": one,
                "promised": round(rule.share_in_range, 4),
                "in_range": int(inside[one, goal.on] & inside[one, goal.hold]),
                "promised_harmed": round(rule.share_harmed, 4),
                "harmed": int(harmful[one].any() and not anyway[one].any()),
                "rank_test": _rank(before, seen[one], sd),
                "rank_scale": round(float(np.mean(fitted.beds.log10_k < true.log10_k[one])), 4),
                "rank_next": _rank(new, following[one], sd),
                "rank_next_unfitted": _rank(old, following[one], sd),
                "crps": _crps(new, following[one], sd),
                "crps_unfitted": _crps(old, following[one], sd),
            }
        )
    return rows


def _told(
    wish: Wish, seasons: Seasons, amounts_g_m2: FloatArray, printed_ph: float
) -> tuple[Belief, Belief]:
    """The belief on the day of the second part, with the first reading and without."""
    today = seasons.days[1][0]
    done = [
        Done(
            on=day,
            material=seasons.material.key,
            rate_g_m2=size,
            depth_cm=seasons.incorporate_cm,
        )
        for day, size in seasons.sizes(0, float(amounts_g_m2[0]))
    ]
    case = case_of(
        wish,
        today=today,
        by=seasons.on,
        done=done,
        tests=[Test(on=seasons.tests[0], ph=printed_ph)],
    )
    context = build_context(case)
    fitted, unfitted = (
        believe(
            context,
            depths_worked(context),
            members=MEMBERS,
            seed=1,
            days_ahead=(seasons.hold - today).days + 8,
            refit=refit,
        )
        for refit in (True, False)
    )
    return fitted, unfitted


def _next(belief: Belief, seasons: Seasons, amount_g_m2: float) -> FloatArray:
    """What the possible beds have on the day wanted, the second part put on [pH]."""
    later = replace(seasons, days=seasons.days[1:], capacity_g_m2=seasons.capacity_g_m2[1:])
    run = belief.beds.run(later.simulated((amount_g_m2,)))
    return run.ph[:, day_index(belief.beds.days, seasons.on)]


def _error(context: BedContext, count: int, rng: np.random.Generator) -> FloatArray:
    scatter = verdict_values()["reading_scatter_sd"]
    return rng.normal(0.0, method_sd_ph(context), count) + rng.normal(0.0, scatter, count)


def _rank(ph: FloatArray, read_ph: float, sd_ph: float) -> float:
    """Share of forecast readings below the one that came."""
    return round(float(normal_probability((read_ph - ph) / sd_ph).mean()), 4)


def _crps(ph: FloatArray, read_ph: float, sd_ph: float) -> float:
    """Score of the forecast reading, its error spread evenly over the beds [pH]."""
    errors = sd_ph * normal_slices(ph.size)
    order = np.random.default_rng(1).permutation(ph.size)
    values = (ph + errors[order])[:, None]
    return round(float(crps_ensemble(values, np.array([read_ph]))[0]), 4)


def chi_squared(ranks: FloatArray, *, bins: int = 10) -> float:
    """How uneven ranks are, against ``bins - 1`` where they are even."""
    counts = np.histogram(ranks, bins=bins, range=(0.0, 1.0))[0]
    wanted = ranks.size / bins
    return float(((counts - wanted) ** 2 / wanted).sum())


def main(words: list[str]) -> int:
    """Work out the rows and keep them."""
    if not set(words) <= {"--resume"}:
        print(__doc__)
        return 2
    keep_kernels()
    beds = {str(number): wish for number, wish in enumerate(wishes())}
    gather(
        "synthetic_beds",
        beds,
        lambda bed: rows_of(beds[bed], seed=SEED + 1 + int(bed)),
        resume=bool(words),
    )
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
