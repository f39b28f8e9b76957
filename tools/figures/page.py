"""Write ``docs/plan-figures.md`` from the results that are kept.

python tools/figures/page.py            write the page
python tools/figures/page.py --check    exit 1 if the page is not what the results give
"""

from __future__ import annotations

import sys
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path
from statistics import median
from typing import Final

import numpy as np
from numpy.typing import NDArray

if __name__ == "__main__":
    sys.path[:0] = [
        str(Path(__file__).resolve().parents[1]),
        str(Path(__file__).resolve().parents[2] / "tests"),
    ]

from figures.refit_series import WAYS, with_best_spread
from figures.results import read_rows
from figures.synthetic_beds import chi_squared

FloatArray = NDArray[np.float64]
Row = Mapping[str, str]

PAGE: Final = Path(__file__).resolve().parents[2] / "docs" / "plan-figures.md"
INTRODUCTION: Final = Path(__file__).resolve().parent / "page_introduction.md"
MEDIAN_WANTED: Final = 0.65
WORST_WANTED: Final = 0.35
HARMED_WANTED: Final = 0.05
EVEN_RANKS: Final = 16.9
"""Chi squared of ten even bins stays below this nineteen times in twenty (9 degrees)."""
STUDIES: Final = {
    "S01": "Rothamsted, chalk on arable land, 1962 to 1994",
    "S03": "Woburn, continuous barley, 1876 to 1932",
    "S02": "Rothamsted, unlimed meadow, 1856 to 2011",
}
WAY_WORDS: Final = {
    "fitted": "fitted on the first half",
    "unfitted": "the same beds, un-fitted",
    "restarted": "begun anew at the last reading, un-fitted",
    "stays": "the last reading stays",
    "line": "a straight line through the first half",
}


def page() -> str:
    """The whole page as text."""
    parts = [INTRODUCTION.read_text(encoding="utf-8").rstrip()]
    for section in (_grid, _letters, _synthetic, _series, _surface):
        parts += section()
    return "\n\n".join(parts) + "\n"


def _grid() -> list[str]:
    rows = read_rows("plan_grid")
    plan, single, known = (_numbers(rows, name) for name in ("plan", "single", "known"))
    on_day, harmed = _numbers(rows, "plan_on_day"), _numbers(rows, "harmed")
    error = (0.25 / float(rows[0]["truths"])) ** 0.5
    below = sum(1 for a, b in zip(plan, single, strict=True) if a < b)
    promised = _numbers(rows, "promised")
    summary = [
        ("figure", "median", "least", "most"),
        ("---", "---", "---", "---"),
        ("plan with its tests: in range on the day and a year on", *_three(plan)),
        ("plan with its tests: in range on the day", *_three(on_day)),
        ("best single amount, on the day and a year on", *_three(single)),
        ("best single amount, on the day", *_three(_numbers(rows, "single_on_day"))),
        ("every bed known (the bound), on the day and a year on", *_three(known)),
        ("every bed known (the bound), on the day", *_three(_numbers(rows, "known_on_day"))),
        ("harmed by the plan", *_three(harmed, digits=3)),
    ]
    goals = [
        ("goal", "figure", "reached"),
        ("---", "---", "---"),
        _goal(f"median of {MEDIAN_WANTED:g} in range on the day", median(on_day), MEDIAN_WANTED),
        _goal(f"the same, and a year on: {MEDIAN_WANTED:g}", median(plan), MEDIAN_WANTED),
        _goal(f"worst bed {WORST_WANTED:g}, a year on as well", min(plan), WORST_WANTED),
        (
            "never fewer than the best single amount",
            f"{below} of {len(rows)} beds below it",
            _yes(below == 0),
        ),
        (
            f"at most {HARMED_WANTED:g} harmed, to sampling error",
            f"most {max(harmed):.3f}; {sum(h > HARMED_WANTED for h in harmed)} beds above",
            _yes(max(harmed) <= HARMED_WANTED + 2.0 * 0.0056),
        ),
    ]
    each = [
        (
            "bed",
            "first amount [g/m²]",
            "promised",
            "plan",
            "single",
            "known",
            "harmed",
            "on the day",
        ),
        ("---",) * 8,
        *(
            (
                row["bed"],
                f"{float(row['first_g_m2']):g}",
                *(f"{float(row[name]):.2f}" for name in ("promised", "plan", "single", "known")),
                f"{float(row['harmed']):.3f}",
                f"{float(row['plan_on_day']):.2f}",
            )
            for row in rows
        ),
    ]
    off = np.array(plan) - np.array(promised)
    return [
        "## Thirty beds",
        "`python tools/figures/plan_grid.py`",
        f"Each share is of {rows[0]['truths']} true beds (standard error at most {error:.3f}). "
        "“Single” is the best amount put on now, chosen with hindsight on the very beds it is "
        "judged on, at most 5 in 100 of them harmed. “Known” tries sixty amounts in each season "
        "on every bed for itself.",
        _table(summary),
        _table(goals),
        "Where the median a year on misses its goal, the bound shows that the soil allows more "
        "than any test can see: one careful reading a year is off by 0.18 pH, most of it the "
        f"scatter from year to year. Promise and outcome differ by {off.mean():+.3f} on average "
        f"over the beds ({np.abs(off).max():.3f} at the most, for which the drawing of fifty "
        "possible beds is the main cause).",
        _table(each),
    ]


def _letters() -> list[str]:
    rows = read_rows("plan_grid_refit")
    table = [
        ("bed", "by the rule", "by new letters", "harmed", "harmed", "on the day", "on the day"),
        ("---",) * 7,
        *(
            (
                row["bed"],
                f"{float(row['rule']):.2f}",
                f"{float(row['letters']):.2f}",
                f"{float(row['rule_harmed']):.3f}",
                f"{float(row['letters_harmed']):.3f}",
                f"{float(row['rule_on_day']):.2f}",
                f"{float(row['letters_on_day']):.2f}",
            )
            for row in rows
        ),
    ]
    error = (0.25 / float(rows[0]["truths"])) ** 0.5
    return [
        "## A new letter after each test",
        "`python tools/figures/plan_grid.py --refit`",
        "The grid follows the table of the first letter, and after the second test the amount "
        "that the same rule holds ready. A user is told to ask again after each test; here that "
        "is done: every distinct reading gets its own letter, whose first amount goes on. Each "
        f"share is of {rows[0]['truths']} true beds (standard error {error:.3f}); of each pair of "
        "columns the first is by the rule, the second by new letters.",
        _table(table),
        f"Means: {_mean(rows, 'rule'):.3f} by the rule, {_mean(rows, 'letters'):.3f} by new "
        f"letters; harmed {_mean(rows, 'rule_harmed'):.3f} and "
        f"{_mean(rows, 'letters_harmed'):.3f}.",
    ]


def _synthetic() -> list[str]:
    rows = read_rows("synthetic_beds")
    first = [row for row in rows if row["truth"] == "0"]
    table = [
        ("figure", f"the first {len(first)} beds", f"all {len(rows)}", "wanted"),
        ("---",) * 4,
        (
            "in range, promised",
            *(f"{_mean(some, 'promised'):.3f}" for some in (first, rows)),
            "",
        ),
        (
            "in range, came true",
            *(_share(some, "in_range") for some in (first, rows)),
            "the promise, within two errors",
        ),
        (
            "harmed, promised",
            *(f"{_mean(some, 'promised_harmed'):.3f}" for some in (first, rows)),
            "",
        ),
        ("harmed, came true", *(_share(some, "harmed") for some in (first, rows)), "0.05 at most"),
        *(
            (
                f"{words}: inside the 90 % range",
                *(f"{_inside(some, name):.3f}" for some in (first, rows)),
                "0.85 to 0.95",
            )
            for name, words in RANKS.items()
        ),
        *(
            (
                f"{words}: chi squared of ten bins",
                *(f"{chi_squared(_array(some, name)):.1f}" for some in (first, rows)),
                f"below {EVEN_RANKS}",
            )
            for name, words in RANKS.items()
        ),
        (
            "CRPS of the next test, fitted",
            *(f"{_mean(some, 'crps'):.3f}" for some in (first, rows)),
            "",
        ),
        (
            "CRPS of the next test, un-fitted",
            *(f"{_mean(some, 'crps_unfitted'):.3f}" for some in (first, rows)),
            "",
        ),
    ]
    counts = [
        ("ranks, in tenths", *(str(number) for number in range(1, 11))),
        ("---",) * 11,
        *(
            (words, *(str(n) for n in np.histogram(_array(rows, name), bins=10, range=(0, 1))[0]))
            for name, words in RANKS.items()
        ),
    ]
    return [
        "## Two hundred beds drawn at random",
        "`python tools/figures/synthetic_beds.py`",
        "Texture, reading and aim are drawn as well. One part goes on, one test is read, the "
        "second part is what the printed table says; wanted two years on. Then the test is told "
        "to the program, and the scale of the buffer curve and the reading on the day wanted are "
        "held against what it then believes.",
        _table(table),
        _table(counts),
    ]


RANKS: Final = {
    "rank_test": "the first test",
    "rank_scale": "the buffer scale after it",
    "rank_next": "the next test after it",
    "rank_next_unfitted": "the next test, un-fitted",
}


def _series() -> list[str]:
    rows = read_rows("refit_series")
    parts = [
        "## Three long field experiments",
        "`python tools/figures/refit_series.py`",
        "Every plot is fitted on the first half of its readings and judged on the second, decades "
        "ahead. CRPS is in pH, less is better; the score of a forecast without a spread is its "
        "distance. “With the best spread” gives the two plain ways the one spread that suits them "
        "best, known only afterwards.",
    ]
    for study, words in STUDIES.items():
        of_study = [row for row in rows if row["study"] == study]
        plots = {row["bed"] for row in of_study}
        table = [
            ("forecast", "CRPS", "with the best spread", "inside 50 %", "inside 90 %", "mean miss"),
            ("---",) * 6,
        ]
        for way in WAYS:
            some = [row for row in of_study if row["way"] == way]
            missed = _array(some, "observed") - _array(some, "forecast")
            spread = way not in ("stays", "line")
            table.append(
                (
                    WAY_WORDS[way],
                    f"{_mean(some, 'crps'):.3f}",
                    "" if spread else f"{with_best_spread(missed):.3f}",
                    f"{_mean(some, 'in_50'):.2f}" if spread else "",
                    f"{_mean(some, 'in_90'):.2f}" if spread else "",
                    f"{-missed.mean():+.2f}",
                )
            )
        effective = sorted({float(row["effective"]) for row in of_study})
        count = sum(row["way"] == "fitted" for row in of_study)
        parts += [
            f"**{study}, {words}**: {len(plots)} plots, {count} readings judged; of 240 draws "
            f"{effective[0]:.0f} to {effective[-1]:.0f} carry the weight.",
            _table(table),
        ]
    return parts


def _surface() -> list[str]:
    rows = read_rows("surface_error")
    table = [
        (
            "plans",
            "rms [pH], median",
            "worst bed",
            "mean [pH], farthest",
            "share off, median",
            "worst",
        ),
        ("---",) * 6,
    ]
    for kind in ("in reason", "gross"):
        for way, words in ((-1.0, "sulfur"), (1.0, "lime")):
            some = [row for row in rows if row["plans"] == kind and way * _step(row["bed"]) > 0.0]
            rms, off = _numbers(some, "rms_ph"), _numbers(some, "share_off")
            mean = max(_numbers(some, "mean_ph"), key=abs)
            table.append(
                (
                    f"{kind}, {words}",
                    f"{median(rms):.3f}",
                    f"{max(rms):.3f}",
                    f"{mean:+.3f}",
                    f"{median(off):.3f}",
                    f"{max(off):.3f}",
                )
            )
    return [
        "## Courses read off against courses run",
        "`python tools/figures/surface_error.py`",
        "Six runs of the column give every bed's pH under any amounts in any season. Here the same "
        "beds are run outright: eight plans that add up to at most 1.3 times the middle need, and "
        "three gross overdoses. Errors are over both tests, the day wanted and a year on; “share "
        "off” is the worst error of a share in range among the plans.",
        _table(table),
    ]


def _step(bed: str) -> float:
    _, ph, _, aim = bed.rsplit(" ", 3)
    return float(aim) - float(ph)


def _goal(words: str, figure: float, wanted: float) -> tuple[str, str, str]:
    return words, f"{figure:.3f}", _yes(figure >= wanted)


def _yes(reached: bool) -> str:
    return "yes" if reached else "**no**"


def _three(values: Sequence[float], *, digits: int = 2) -> tuple[str, str, str]:
    return tuple(f"{one:.{digits}f}" for one in (median(values), min(values), max(values)))  # type: ignore[return-value]


def _numbers(rows: Iterable[Row], name: str) -> list[float]:
    return [float(row[name]) for row in rows]


def _array(rows: Iterable[Row], name: str) -> FloatArray:
    return np.array(_numbers(rows, name))


def _mean(rows: Iterable[Row], name: str) -> float:
    return float(_array(rows, name).mean())


def _share(rows: Sequence[Row], name: str) -> str:
    share = _mean(rows, name)
    return f"{share:.3f} ± {(max(share * (1.0 - share), 0.0) / len(rows)) ** 0.5:.3f}"


def _inside(rows: Sequence[Row], name: str) -> float:
    ranks = _array(rows, name)
    return float(((ranks >= 0.05) & (ranks <= 0.95)).mean())


def _table(rows: Iterable[Sequence[str]]) -> str:
    return "\n".join("| " + " | ".join(row) + " |" for row in rows)


def main(words: list[str]) -> int:
    """Write the page, or compare it; 1 when it is not current."""
    if not set(words) <= {"--check"}:
        print(__doc__)
        return 2
    text = page()
    if not words:
        PAGE.write_text(text, encoding="utf-8", newline="\n")
        return 0
    current = PAGE.read_text(encoding="utf-8") if PAGE.exists() else ""
    if current == text:
        return 0
    print("docs/plan-figures.md is not what the results give; run tools/figures/page.py")
    return 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
