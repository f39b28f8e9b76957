"""Random rows judged both ways: the static judgement of ``triage`` against ``advise --years 0``.

    python benchmarks/compare_rows.py 1000                              on one process
    python benchmarks/compare_rows.py 100000 --processes 16             the whole of it
    python benchmarks/compare_rows.py 100000 --first 40000 --seconds 500    go on, for so long

It needs the package and the tests beside it, and no extra. Half of the rows stand alone, each a
case of its own; the others come in sheets whose rows share their texts and differ in figures, as
``triage`` judges from columns. A row is the same for the same number and ``--odd``. A line of JSON
is printed for each part, and the account last; it ends with 1 where anything differs.
"""

from __future__ import annotations

import argparse
import json
import math
import multiprocessing
import os
import random
import sys
import time
import tomllib
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, fields
from datetime import date
from pathlib import Path
from typing import Any, Final

for _threads in ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS", "NUMBA_NUM_THREADS"):
    os.environ.setdefault(_threads, "1")  # the processes share the cores already

ROOT: Final = Path(__file__).resolve().parents[1]
sys.path[:0] = [str(ROOT / "src"), str(ROOT / "tests"), str(ROOT)]

from loamshift.cli.kernel_cache import keep_kernels  # noqa: E402

keep_kernels()

from benchmarks.static_rows import laboratory_row  # noqa: E402

from laws.random_cases import case_text  # noqa: E402
from loamshift.case.table.judge_alike import judge_alike  # noqa: E402
from loamshift.case.table.row_case import case_of  # noqa: E402
from loamshift.core.many_loops import COMPILED  # noqa: E402
from loamshift.errors import CaseError, InputError  # noqa: E402
from loamshift.services.advise import advise  # noqa: E402
from loamshift.services.many.outcome import Outcome, outcome_of  # noqa: E402
from loamshift.services.many.row import outcome_of_bed  # noqa: E402

SEED: Final = 20261130
SHEET: Final = 16
"""Rows that share their texts, and rows that stand alone, in one part [count]."""
PART: Final = 2 * SHEET
ODD_FRAC: Final = 0.1
"""Share of rows that are odd cases of the laws, with anything in them [0-1]."""
SAME: Final = 1e-9
"""Figures count as equal within this share of them [-]."""
MOST_SHOWN: Final = 20
TODAY: Final = date(2026, 4, 12)
"""The day of a row that names none."""
FIGURES: Final[Mapping[str, tuple[float, float, int]]] = {
    "soil.ph": (3.6, 9.2, 1),
    "soil.sand_pct": (5.0, 50.0, 0),
    "soil.silt_pct": (5.0, 40.0, 0),
    "soil.clay_pct": (2.0, 45.0, 1),
    "soil.organic_matter_pct": (0.3, 20.0, 1),
    "soil.organic_carbon_pct": (0.2, 10.0, 2),
    "soil.carbonate_pct": (0.0, 15.0, 1),
    "soil.buffer_ph": (5.4, 7.3, 2),
    "bed.area": (0.2, 5000.0, 1),
    "bed.depth": (5.0, 40.0, 0),
    "aim.target_ph": (4.2, 7.6, 1),
    "water.alkalinity": (0.0, 400.0, 0),
}
"""Columns of a sheet, between what they are drawn, and to how many places."""
EMPTY_FRAC: Final = 0.02
"""Share of the cells of a sheet that are left empty [0-1]."""

Values = Mapping[str, object]


@dataclass(slots=True)
class Found:
    """What became of some rows; times are of the processor [s]."""

    rows: int = 0
    in_columns: int = 0
    refused: int = 0
    differ: int = 0
    fields: Counter[str] = field(default_factory=Counter)
    verdicts: Counter[str] = field(default_factory=Counter)
    first: dict[str, list[str]] = field(default_factory=dict)
    advise_cpu_s: float = 0.0
    static_cpu_s: float = 0.0

    def add(self, other: Found) -> None:
        """Count those of another part with them."""
        for one in fields(self):
            mine, more = getattr(self, one.name), getattr(other, one.name)
            if isinstance(mine, dict) and not isinstance(mine, Counter):
                mine.update(list(more.items())[: MOST_SHOWN - len(mine)])
            else:
                setattr(self, one.name, mine + more)


def part_rows(part: int, odd: float) -> list[tuple[str, Values]]:
    """Key and values of each row of a part: those of a sheet, then those that stand alone."""
    draw = random.Random(f"{SEED} {part}")
    first = part * PART
    rows: list[tuple[str, Values]] = []
    shared: Values = _values(draw, first, odd)
    columns = [path for path in FIGURES if draw.random() < 0.3]
    if "soil.ph" in shared and "soil.ph" not in columns:
        columns.append("soil.ph")
    if "soil.organic_carbon_pct" in columns and draw.random() < 0.9:  # a row tells one of the two
        columns = [path for path in columns if path != "soil.organic_matter_pct"]
        shared = {path: told for path, told in shared.items() if path != "soil.organic_matter_pct"}
    for number in range(first, first + SHEET):
        figures = {path: _cell(draw, path) for path in columns}
        told = {path: value for path, value in figures.items() if value is not None}
        texts = {path: value for path, value in shared.items() if path not in figures}
        rows.append((str(number), {**texts, **told}))
    for number in range(first + SHEET, first + PART):
        rows.append((str(number), _values(draw, number, odd)))
    return rows


def _cell(draw: random.Random, path: str) -> str | None:
    """A figure as it stands in a table, or an empty cell."""
    low, high, places = FIGURES[path]
    figure = draw.uniform(low, high)
    return None if draw.random() < EMPTY_FRAC else f"{figure:.{places}f}"


def _values(draw: random.Random, number: int, odd: float) -> dict[str, object]:
    is_odd = draw.random() < odd
    tree = tomllib.loads(case_text(number)) if is_odd else laboratory_row(draw, number)
    tree = {key: value for key, value in tree.items() if key not in ("case", "name")}
    return dict(_flat(tree, ""))


def _flat(tree: Mapping[str, Any], above: str) -> Iterator[tuple[str, object]]:
    """The values of a case by their paths, as headings name them."""
    for key, value in tree.items():
        if isinstance(value, dict) and key != "label":
            yield from _flat(value, f"{above}{key}.")
        elif isinstance(value, list) and value and isinstance(value[0], dict) and not above:
            for place, entry in enumerate(value, start=1):
                for inner, told in entry.items():
                    yield f"{key}[{place}].{inner}", told
        else:
            yield f"{above}{key}", value


def compare_part(asked: tuple[int, int, float, float]) -> Found:
    """The rows of a part, both ways; none where the time is over.

    ``asked`` is the part, how many of its rows, the share of odd ones and when to end
    [seconds since 1970].
    """
    part, count, odd, until = asked
    found = Found()
    if time.time() > until:
        return found
    rows = part_rows(part, odd)[:count]
    began = time.process_time()
    alike = judge_alike(rows[:SHEET], today=TODAY, loops=COMPILED)
    found.static_cpu_s += time.process_time() - began
    for place, (key, values) in enumerate(rows):
        began = time.process_time()
        short = alike.get(place) or _tried(key, values, short=True)
        middle = time.process_time()
        whole = _tried(key, values, short=False)
        found.advise_cpu_s += time.process_time() - middle
        found.static_cpu_s += middle - began
        found.rows += 1
        found.in_columns += place in alike
        found.refused += isinstance(whole, str)
        found.verdicts[whole if isinstance(whole, str) else str(whole.verdict)] += 1
        if wrong := _differences(whole, short):
            found.differ += 1
            found.fields.update(list(wrong))
            if len(found.first) < MOST_SHOWN:
                told = [f"{name}: {one} | {other}" for name, (one, other) in wrong.items()]
                found.first[key] = [*told, json.dumps(values, default=str)]
    return found


def _tried(key: str, values: Values, *, short: bool) -> Outcome | str:
    """The outcome of a row, or how it was refused."""
    try:
        case = case_of(key, values, today=TODAY)
        if short:
            return outcome_of_bed(case, key=key, loops=COMPILED)
        return outcome_of(advise(case), key=key)
    except CaseError:
        return "refused by the reader"
    except InputError as error:
        return f"refused: {type(error).__name__}"


def _differences(whole: Outcome | str, short: Outcome | str) -> dict[str, tuple[object, object]]:
    """Fields that differ, each as the whole answer and the short way have it."""
    if isinstance(whole, str) or isinstance(short, str):
        return {} if whole == short else {"refused": (whole, short)}
    names = [one.name for one in fields(whole)]
    pairs = {name: (getattr(whole, name), getattr(short, name)) for name in names}
    return {name: pair for name, pair in pairs.items() if not _same(*pair)}


def _same(one: object, other: object) -> bool:
    if isinstance(one, float) and isinstance(other, float):
        return math.isclose(one, other, rel_tol=SAME, abs_tol=SAME)
    return one == other


def main(words: list[str]) -> int:
    """Compare what was asked for; 1 where a row differs."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("rows", type=int, help="rows to compare")
    parser.add_argument("--processes", type=int, default=1)
    parser.add_argument("--first", type=int, default=0, help=f"number of the first, by {PART}s")
    parser.add_argument("--odd", type=float, default=ODD_FRAC, help="share of odd cases [0-1]")
    parser.add_argument("--seconds", type=float, default=math.inf, help="end after so long [s]")
    asked = parser.parse_args(words)
    began, until = time.perf_counter(), time.time() + asked.seconds
    end = asked.first + asked.rows
    parts = [
        (part, min(PART, end - part * PART), asked.odd, until)
        for part in range(asked.first // PART, -(-end // PART))
    ]
    compare_part((0, PART, asked.odd, math.inf))  # compiles, before the others are started
    found, told_s = Found(), 0.0
    behind = parts[0][0] * PART
    with multiprocessing.get_context("fork" if os.name == "posix" else None).Pool(
        asked.processes
    ) as pool:
        for part, one in zip(parts, pool.imap(compare_part, parts), strict=True):
            found.add(one)
            behind = part[0] * PART + one.rows if one.rows else behind
            if one.differ or time.perf_counter() - told_s > 15.0:
                told_s = time.perf_counter()
                line = {"compared": found.rows, "differ": found.differ, "first": one.first}
                print(json.dumps(line), flush=True)  # a run that is ended early has told so much
    account = {
        "compared": found.rows,
        "asked": asked.rows,
        "go_on_with": None if found.rows == sum(part[1] for part in parts) else behind,
        "in_columns": found.in_columns,
        "refused": found.refused,
        "differ": found.differ,
        "fields": dict(found.fields.most_common()),
        "verdicts": dict(found.verdicts.most_common()),
        "advise_cpu_s": round(found.advise_cpu_s, 1),
        "static_cpu_s": round(found.static_cpu_s, 1),
        "wall_s": round(time.perf_counter() - began, 1),
        "first": found.first,
    }
    print(json.dumps(account, indent=1), flush=True)
    return 1 if found.differ else 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
