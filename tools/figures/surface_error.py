"""How far the read-off courses lie from the column, bed by bed.

    python tools/figures/surface_error.py [--resume]

The surface of the possible beds, made from a few runs, is read for amounts that were never run;
the same beds are then run on the column with those amounts. Plans in reason add up to at most
1.5 times the middle need; gross overdoses to three times. Kept in ``results``.
"""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Final

import numpy as np

if __name__ == "__main__":
    sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from figures.bed_cases import Wish, case_of, grid
from figures.plan_grid import MEMBERS
from figures.results import gather
from figures.true_beds import depths_worked
from loamshift.cli.kernel_cache import keep_kernels
from loamshift.services.belief.belief import believe
from loamshift.services.context.build_context import build_context
from loamshift.services.context.need import dose_to
from loamshift.services.courses.seasons import seasons_ahead
from loamshift.services.courses.surface import courses_of

IN_REASON: Final = (
    (0.5, 0.0, 0.0),
    (1.0, 0.0, 0.0),
    (0.0, 0.8, 0.0),
    (0.0, 0.0, 0.8),
    (0.5, 0.3, 0.0),
    (0.5, 0.0, 0.4),
    (0.6, 0.3, 0.2),
    (0.3, 0.5, 0.5),
)
"""Amounts by season as shares of the middle need."""
GROSS: Final = ((3.0, 0.0, 0.0), (1.0, 1.0, 1.0), (0.0, 1.5, 1.5))
HALF_WIDTH_PH: Final = 0.25


def rows_of(wish: Wish) -> list[dict[str, object]]:
    """Errors of one bed's surface, one row for plans in reason and one for gross overdoses."""
    context = build_context(case_of(wish))
    acidify = wish.aim < wish.ph
    seasons = seasons_ahead(context, acidify=acidify)
    beds = believe(
        context,
        depths_worked(context),
        members=MEMBERS,
        seed=1,
        days_ahead=(seasons.hold - context.case.today).days + 8,
    ).beds
    need = dose_to(context, wish.aim, acidify=acidify)
    middle = need.mid / seasons.active_frac
    courses = courses_of(
        beds,
        seasons,
        alone=beds.run(()),
        need_mid_g_m2=middle,
        need_high_g_m2=need.hi90 / seasons.active_frac,
    )
    at = [courses.index(day) for day in (*seasons.tests, seasons.on, seasons.hold)]
    start = courses.index(seasons.days[0][0])
    harmful = wish.aim + (-0.75 if acidify else 0.75)
    found: list[dict[str, object]] = []
    for kind, plans in (("in reason", IN_REASON), ("gross", GROSS)):
        missed, shares, harms = [], [], []
        for plan in plans:
            amounts = tuple(middle * share for share in plan)
            run = beds.run(seasons.simulated(amounts)).ph
            off = courses.surface.course(amounts) - run
            missed.append(off[:, at])
            inside = [
                (np.abs(ph[:, at[-2:]] - wish.aim) <= HALF_WIDTH_PH).all(axis=1).mean()
                for ph in (run, run + off)
            ]
            shares.append(inside[1] - inside[0])
            sign = courses.surface.sign
            far = run[:, start : at[-1] + 1]
            past = (sign * (far - harmful) < 0.0).any(axis=1).mean()
            told = (sign * (courses.surface.furthest(amounts) - harmful) < 0.0).mean()
            harms.append(told - past)
        off = np.stack(missed)
        found.append(
            {
                "plans": kind,
                "rms_ph": round(float(np.sqrt(np.mean(off**2))), 4),
                "mean_ph": round(float(off.mean()), 4),
                "far_95_ph": round(float(np.quantile(np.abs(off), 0.95)), 4),
                "share_off": round(float(np.abs(shares).max()), 4),
                "harm_off": round(float(np.abs(harms).max()), 4),
            }
        )
    return found


def main(words: list[str]) -> int:
    """Work out the rows and keep them."""
    if not set(words) <= {"--resume"}:
        print(__doc__)
        return 2
    keep_kernels()
    beds = {wish.name: wish for wish in grid()}
    gather("surface_error", beds, lambda bed: rows_of(beds[bed]), resume=bool(words))
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
