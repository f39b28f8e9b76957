"""How fast everything is, by one command in less than ten minutes, and the page that says so.

    .venv/bin/python benchmarks/speed.py            measure, write docs/speed.json and docs/speed.md
    .venv/bin/python benchmarks/speed.py --page     write docs/speed.md from docs/speed.json again
    .venv/bin/python benchmarks/speed.py kernel     measure one part and print it

Run it while nothing else runs. Both sides of a ratio take turns in the same run. Times of a
process are of the processor unless they say otherwise, and the least of several runs.
"""

from __future__ import annotations

import argparse
import json
import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import Any, Final

ROOT: Final = Path(__file__).resolve().parents[1]
sys.path[:0] = [str(ROOT), str(ROOT / "src"), str(ROOT / "tests")]

from loamshift.cli.kernel_cache import keep_kernels  # noqa: E402

keep_kernels()
os.environ["PYTHONPATH"] = os.pathsep.join(sys.path[:3])  # fresh processes run what stands here

JSON: Final = ROOT / "docs" / "speed.json"
PAGE: Final = ROOT / "docs" / "speed.md"
TEMPLATE: Final = Path(__file__).with_name("speed_page.md")
CASE: Final = str(ROOT / "examples" / "north-border.toml")
COMMANDS: Final = {
    "version": ["--version"],
    "convert": ["convert", "1 kg", "g"],
    "static": ["advise", CASE, "--json", "--years", "0"],
    "json": ["advise", CASE, "--json"],
    "text": ["advise", CASE],
}
LETTERS: Final = {"html": "--html", "pdf": "--pdf"}
ROWS: Final = 300
TABLE_ROWS: Final = 2_000
BEDS: Final = 1_000
ROUNDS: Final = 5
SIDE: Final = 1 << 16
COUNTED: Final = {"add_mul": 36.6 + 18.7, "div": 5.47, "exp": 0.57 + 0.51 + 0.19, "table": 1.25}
"""What a layer-day of one member with one dose of sulfur takes, counted with the compiler off;
a logarithm counts as an exponential [count]."""

Figures = dict[str, Any]


def least(work: Callable[[], float], rounds: int = 3) -> float:
    """The least of several measurements."""
    return min(work() for _ in range(rounds))


def wall_s(work: Callable[[], object]) -> float:
    """How long something takes by the clock [s]."""
    begun = time.perf_counter()
    work()
    return time.perf_counter() - begun


def cpu_s(work: Callable[[], object]) -> float:
    """What something takes of the processor [s]."""
    begun = time.process_time()
    work()
    return time.process_time() - begun


def fresh(*words: str) -> list[str]:
    """Lines that a Python script of ours prints in a fresh process."""
    done = subprocess.run([sys.executable, *words], capture_output=True, text=True, check=True)
    return done.stdout.splitlines()


def commands() -> Figures:
    """Processor time of commands in fresh processes [s], and the most memory held [MB]."""
    from benchmarks.test_commands import peak_mb, processor_s

    start = [sys.executable, "-m", "loamshift"]
    found = {
        name: least(partial(processor_s, [*start, *words])) for name, words in COMMANDS.items()
    }
    with tempfile.TemporaryDirectory() as folder:
        for name, option in LETTERS.items():
            path = str(Path(folder) / f"letter.{name}")
            words = [*start, "advise", CASE, option, path]
            found[name] = least(partial(processor_s, words), rounds=2)
    empty = [sys.executable, "-c", "pass"]
    imported = [sys.executable, "-c", "import loamshift"]
    return {
        **found,
        "import": least(lambda: processor_s(imported)) - least(lambda: processor_s(empty)),
        "json_mb": peak_mb([*start, *COMMANDS["json"]]),
    }


def static() -> Figures:
    """Rows judged without a forecast: one by one, and by two processes against one."""
    script = str(ROOT / "benchmarks" / "static_rows.py")
    first = [json.loads(fresh(script, str(ROWS))[0]) for _ in range(2)]
    many = json.loads(fresh(script, str(3 * ROWS))[0])
    both = [
        max(json.loads(line)["wall_s"] for line in fresh(script, str(2 * ROWS), "--processes", "2"))
        for _ in range(2)
    ]
    one = min(first, key=lambda each: float(each["cpu_s"]))
    return {
        "ms_row": 1e3 * one["cpu_s"] / ROWS,
        "rows_s": ROWS / one["cpu_s"],
        "ms_row_of_three_times": 1e3 * many["cpu_s"] / (3 * ROWS),
        "mb": one["peak_mib"],
        "mb_of_three_times": many["peak_mib"],
        "two_against_one": 2.0 * min(each["wall_s"] for each in first) / min(both),
    }


def table() -> Figures:
    """A long table through ``triage``: judged by one process and by two, and not at all."""
    from benchmarks.many_worker import write_table

    start = [sys.executable, "-m", "loamshift", "triage"]
    found: Figures = {"rows": TABLE_ROWS}
    with tempfile.TemporaryDirectory() as folder:
        path, out = Path(folder) / "rows.csv", Path(folder) / "out.parquet"
        write_table(path, TABLE_ROWS)
        words = [*start, str(path), "-o", str(out), "--force", "--today", "2026-04-12"]
        for jobs in (1, 2, 1, 2):
            command = [*words, "--jobs", str(jobs)]
            took = wall_s(partial(subprocess.run, command, check=False, capture_output=True))
            found[f"jobs_{jobs}_s"] = min(took, found.get(f"jobs_{jobs}_s", took))
        for rows in (100_000, 1_000_000):
            one = json.loads(
                fresh(str(ROOT / "benchmarks" / "many_worker.py"), str(rows), folder)[-1]
            )
            found[f"streamed_{rows}_rows_s"] = one["rows_per_s"]
            found[f"streamed_{rows}_mb"] = one["most_mb"]
    found["two_against_one"] = found["jobs_1_s"] / found["jobs_2_s"]
    return found


def forecast() -> Figures:
    """Forecasts of plans already made, inputs counted, by one process and by two."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "many.json"
        script = str(ROOT / "benchmarks" / "many_beds.py")
        fresh(script, "--beds", str(BEDS), "--jobs", "1", "2", "--json", str(path))
        many = json.loads(path.read_text(encoding="utf-8"))
    one, two = many["runs"]
    return {
        "beds": BEDS,
        "beds_s": one["beds_per_s"],
        "bed_years_s": one["bed_years_per_s"],
        "two_against_one": two["beds_per_s"] / one["beds_per_s"],
        **{f"{name}_ms": many["alone"][f"{name}_ms"] for name in ("inputs", "run", "bands")},
    }


def kernel() -> Figures:
    """A layer-day of one member [ns], what it grows with, NumPy's, and the counted limit."""
    from benchmarks.loads import DAYS, MEMBERS, MUCH, NOTHING, ONE_DOSE, Size, loads, plain_numpy
    from benchmarks.loads import kernel as run_of

    named = {"nothing": NOTHING, "one_dose": ONE_DOSE, "much": MUCH}

    def seconds(load: str, size: Size | None = None) -> float:
        work = run_of(loads()[load], size)
        work()
        return least(lambda: cpu_s(work), ROUNDS)

    once = {name: seconds(load) for name, load in named.items()}
    plain = plain_numpy(loads()[ONE_DOSE])
    sizes = {
        "members": Size(members=2 * MEMBERS),
        "days": Size(days=2 * DAYS),
        "layers": Size(cuts=2),
    }
    single, double = (run_of(loads()[ONE_DOSE], threads=threads) for threads in (1, 2))
    turns = [(wall_s(single), wall_s(double)) for _ in range(ROUNDS)]
    two_threads = min(one for one, _ in turns) / min(two for _, two in turns)
    blocked_ns = _blocked_ns()
    rates = _rates_ns()
    limit_ns = sum(count * rates[name] for name, count in COUNTED.items())
    return {
        **{f"{name}_ns": 1e9 * s / Size().layer_days for name, s in once.items()},
        "numpy_times": least(lambda: cpu_s(plain), 2) / seconds(ONE_DOSE),
        **{f"twice_{name}": seconds(MUCH, size) / seconds(MUCH) for name, size in sizes.items()},
        "two_threads": two_threads,
        "blocked_ns": blocked_ns,
        "limit_ns": limit_ns,
        "limit_frac": limit_ns / blocked_ns,
        "rates_ns": rates,
    }


def _blocked_ns() -> float:
    """A layer-day in the driver of many beds, with one dose of sulfur [ns]."""
    import numpy as np
    from benchmarks.bed_table import table_of

    from loamshift.core.column_many import run_many
    from loamshift.services.many.forecast_inputs import ready_blocks

    beds, plans = table_of(0, 128)
    blocks = ready_blocks(beds, plans, seeds=np.arange(128), years=2, members=64)
    for block in blocks:
        run_many(block.runs)
    took = least(lambda: cpu_s(lambda: [run_many(one.runs) for one in blocks]))
    layer_days = sum(
        one.runs.n_beds * 64 * one.runs.n_layers * one.runs.water.shape[1] for one in blocks
    )
    return float(1e9 * took / layer_days)


def _rates_ns() -> dict[str, float]:
    """The least that an operation takes here, in strict loops over several lanes [ns]."""
    import numpy as np

    from loamshift.core.column_compile import compiled
    from loamshift.core.column_exp import exp_of

    @compiled
    def add_mul(x: Any, y: Any, out: Any) -> None:
        for i in range(x.size):
            a, b = x[i], y[i]
            for _ in range(16):
                a, b = a * 1.000001 + b, b * 0.999999 + a
            out[i] = a + b

    @compiled
    def div(x: Any, y: Any, out: Any) -> None:
        for i in range(x.size):
            out[i] = x[i] / y[i] + y[i] / (x[i] + 1.0)

    @compiled
    def exponential(x: Any, y: Any, out: Any) -> None:
        for i in range(x.size):
            out[i] = exp_of(x[i]) + exp_of(-y[i])

    @compiled
    def table(x: Any, y: Any, out: Any) -> None:
        for i in range(x.size):
            out[i] = y[int(x[i] * 2000.0)]

    rng = np.random.default_rng(1)
    x, y, out = rng.random(SIDE), 1.0 + rng.random(SIDE), np.empty(SIDE)
    each = {"add_mul": (add_mul, 65), "div": (div, 2), "exp": (exponential, 2), "table": (table, 1)}
    found = {}
    for name, (work, count) in each.items():
        work(x, y, out)
        found[name] = 1e9 * least(partial(cpu_s, partial(work, x, y, out)), 20) / SIDE / count
    return found


def machine() -> Figures:
    """What it ran on, and how busy it was."""
    from benchmarks.many_beds import machine as named

    return {**named(), "day": time.strftime("%Y-%m-%d")}


PARTS: Final[dict[str, Callable[[], Figures]]] = {
    "machine": machine,
    "commands": commands,
    "static": static,
    "table": table,
    "forecast": forecast,
    "kernel": kernel,
}


def page(figures: Figures) -> str:
    """The page of figures as kept in ``docs/speed.json``."""
    return TEMPLATE.read_text(encoding="utf-8").format(**figures)


def main(words: list[str]) -> int:
    """Measure what was asked."""
    reader = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawTextHelpFormatter
    )
    reader.add_argument("part", nargs="?", choices=tuple(PARTS))
    reader.add_argument("--page", action="store_true", help="only write the page again")
    asked = reader.parse_args(words)
    if asked.part:
        print(json.dumps(PARTS[asked.part](), indent=1))
        return 0
    if not asked.page:
        figures = {}
        for name, measure in PARTS.items():
            begun = time.perf_counter()
            figures[name] = measure()
            took = time.perf_counter() - begun
            print(f"{name} ({took:.0f} s): {json.dumps(figures[name])}", flush=True)
        JSON.write_text(json.dumps(figures, indent=1) + "\n", encoding="utf-8")
    PAGE.write_text(page(json.loads(JSON.read_text(encoding="utf-8"))), encoding="utf-8")
    return 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
