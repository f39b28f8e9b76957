"""Many rows judged without a forecast: how long they take, and whether they are as one bed's.

    .venv/bin/python benchmarks/static_rows.py 1000                   time so many rows
    .venv/bin/python benchmarks/static_rows.py --compare 1000         hold them to ``advise``
    .venv/bin/python benchmarks/static_rows.py 4000 --processes 2     on two cores

Rows are drawn by a seed: soils of the range laboratories see, beds in the ground and in pots, and
one in fifty odd. What is printed is JSON; times are of the processor, without reading a file.
"""

from __future__ import annotations

import argparse
import json
import math
import random
import resource
import sys
import time
from collections import Counter
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor
from dataclasses import fields
from datetime import date
from pathlib import Path
from typing import Any, Final

ROOT: Final = Path(__file__).resolve().parents[1]
sys.path[:0] = [str(ROOT), str(ROOT / "tests")]

from loamshift.cli.kernel_cache import keep_kernels  # noqa: E402

keep_kernels()

from laws.random_cases import case_text  # noqa: E402
from loamshift.case.read import case_from_tree, parse_case  # noqa: E402
from loamshift.core.many_loops import COMPILED  # noqa: E402
from loamshift.domain.case import Case  # noqa: E402
from loamshift.services.advise import advise  # noqa: E402
from loamshift.services.many.outcome import Outcome, outcome_of  # noqa: E402
from loamshift.services.many.row import outcome_of_bed  # noqa: E402

SEED: Final = 20260412
ODD_FRAC: Final = 0.02
"""Share of rows that are odd cases of the laws, with anything in them [0-1]."""
SAME: Final = 1e-9
"""Figures count as equal within this share of them [-]."""
WARM_UP: Final = 30
BLOCK: Final = 250
_PLANTS: Final = (
    "highbush blueberry",
    "asparagus",
    "potato",
    "lawn grass",
    "rhododendron",
    "cabbage",
    "strawberry",
    "apple",
    "carrot",
    "alfalfa",
)
_PLACES: Final = ("Minneapolis", "Edinburgh", "Portland", "London", "Atlanta")
_METHODS: Final = ("water 1:1", "water 1:2.5", "CaCl2", "water 1:5", "probe")
_KINDS: Final = ("ground", "ground", "field", "field", "raised", "lawn", "container")


def row(number: int) -> Case:
    """The case of a row: the same for the same number."""
    draw = random.Random(SEED + number)
    if draw.random() < ODD_FRAC:
        return parse_case(case_text(number))
    return case_from_tree(laboratory_row(draw, number), source=f"row {number}")


def laboratory_row(draw: random.Random, number: int) -> dict[str, Any]:
    """What a laboratory tells of a bed, as a case file has it."""
    soil: dict[str, Any] = {
        "ph": round(min(max(draw.gauss(6.3, 0.9), 3.6), 9.0), 1),
        "ph_method": draw.choice(_METHODS),
        "organic_matter_pct": round(min(max(draw.lognormvariate(1.1, 0.5), 0.4), 14.0), 1),
    }
    if draw.random() < 0.7:
        soil["clay_pct"] = round(min(max(draw.gauss(20.0, 12.0), 2.0), 65.0), 1)
    else:
        soil["texture"] = draw.choice(("sand", "sandy loam", "loam", "clay loam"))
    if draw.random() < 0.3:
        soil["fizz"] = draw.choice(("none", "none", "slight", "strong"))
    elif draw.random() < 0.2:
        soil["carbonate_pct"] = round(draw.uniform(0.0, 9.0), 1)
    if draw.random() < 0.2 and soil["ph"] < 6.5:
        soil["buffer_ph"] = round(draw.uniform(6.0, 7.3), 1)
        soil["buffer_ph_method"] = "SMP"
    tree: dict[str, Any] = {
        "case": 1,
        "name": f"row {number}",
        "today": draw.choice((date(2026, 4, 12), date(2026, 9, 20))),
        "bed": {"kind": draw.choice(_KINDS), "area": float(draw.randint(4, 900))},
        "soil": soil,
        "aim": {"plant": draw.choice(_PLANTS)},
    }
    if draw.random() < 0.08:
        tree["aim"] = {"target_ph": round(draw.uniform(5.0, 7.0), 1)}
    if draw.random() < 0.3:
        tree["bed"]["depth"] = f"{draw.choice((10, 15, 20, 30))} cm"
    if draw.random() < 0.8:
        tree["place"] = {"name": draw.choice(_PLACES)}
    if draw.random() < 0.3:
        tree["water"] = {"alkalinity": f"{draw.randint(10, 320)} mg/L CaCO3"}
    if draw.random() < 0.1:
        tree["on_hand"] = [{"material": "elemental sulfur, prills"}]
    return tree


def timed(span: tuple[int, int]) -> dict[str, float]:
    """Processor time of some rows, their cases made before it begins."""
    for number in range(WARM_UP):
        outcome_of_bed(row(number), key="", loops=COMPILED)
    busy, made = 0.0, 0.0
    verdicts: Counter[str] = Counter()
    began = time.perf_counter()
    for first in range(*span, BLOCK):
        start = time.process_time()
        cases = [row(number) for number in range(first, min(first + BLOCK, span[1]))]
        middle = time.process_time()
        for case in cases:
            verdicts[outcome_of_bed(case, key="", loops=COMPILED).verdict] += 1
        made += middle - start
        busy += time.process_time() - middle
    return {
        "rows": span[1] - span[0],
        "cpu_s": busy,
        "cases_cpu_s": made,
        "wall_s": time.perf_counter() - began,
        "peak_mib": resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024.0,
        **{f"verdict {name}": float(count) for name, count in verdicts.items()},
    }


def mismatches(number: int) -> list[str]:
    """Fields of a row in which the short way differs from the whole answer."""
    case = row(number)
    whole = outcome_of(advise(case), key="")
    short = outcome_of_bed(case, key="", loops=COMPILED)
    pairs = [(f.name, getattr(whole, f.name), getattr(short, f.name)) for f in fields(Outcome)]
    return [f"{name}: {one} / {other}" for name, one, other in pairs if not _same(one, other)]


def _same(one: object, other: object) -> bool:
    if isinstance(one, float) and isinstance(other, float):
        return math.isclose(one, other, rel_tol=SAME, abs_tol=SAME)
    return one == other


def compared(span: tuple[int, int]) -> dict[str, Any]:
    """How many rows of a span differ, and the first of them."""
    found = {n: wrong for n in range(*span) if (wrong := mismatches(n))}
    return {"rows": span[1] - span[0], "differ": len(found), "first": dict(list(found.items())[:5])}


def _spans(count: int, parts: int) -> Iterator[tuple[int, int]]:
    for part in range(parts):
        yield count * part // parts, count * (part + 1) // parts


def main(words: list[str]) -> int:
    """Measure what was asked; 1 where a row differs."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("rows", type=int, nargs="?", default=0, help="rows to time")
    parser.add_argument("--compare", type=int, default=0, metavar="ROWS", help="rows to hold")
    parser.add_argument("--processes", type=int, default=1)
    asked = parser.parse_args(words)
    with ProcessPoolExecutor(asked.processes) as pool:
        if asked.rows:
            for figures in pool.map(timed, _spans(asked.rows, asked.processes)):
                print(json.dumps({k: round(v, 3) for k, v in figures.items()}), flush=True)
        if not asked.compare:
            return 0
        differ: int = 0
        for part in pool.map(compared, _spans(asked.compare, max(asked.compare // BLOCK, 1))):
            differ += int(part["differ"])
            print(json.dumps(part), flush=True)  # a run that is ended early has told so much
    print(json.dumps({"compared": asked.compare, "differ": differ}), flush=True)
    return 1 if differ else 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
