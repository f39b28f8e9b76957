"""One fixed run of the column with everything on, for tests of sameness and for its baseline."""

from __future__ import annotations

import sys
from pathlib import Path

import numpy as np

from core.column_cases import everything, members, run, soil, weather
from loamshift.core.column_layout import ColumnResult, ColumnSoil, ColumnWeather, MemberParameters

MEMBERS = 5
YEARS = 2


def bed() -> tuple[ColumnSoil, MemberParameters, ColumnWeather]:
    """A bed with a trace of lime under hard water, in five versions."""
    days = weather(365 * YEARS, irrigation_mm_week=15.0, alkalinity_mmolc_l=4.0)
    return soil(6.4, carbonate_pct=0.05), members(MEMBERS, seed=21), days


def course(threads: int = 1) -> ColumnResult:
    """Two years of it, read every week."""
    rows = [row for year in range(YEARS) for row in everything(year)]
    return run(*bed(), rows, threads=threads)


if __name__ == "__main__":  # in a process of its own: the pH read, to the file named
    np.save(Path(sys.argv[1]), course().ph)
