"""Beds a second, inputs counted: forecasts of a plan already made, on processor or card.

    .venv/bin/python benchmarks/many_beds.py --device cuda --json many.json

Two years, 64 members, three layers, one dose of sulfur; each bed has its own soil and seed.
"""

from __future__ import annotations

import argparse
import json
import multiprocessing
import os
import platform
import sys
import tempfile
import time
from pathlib import Path
from typing import Any, Final

ROOT: Final = Path(__file__).resolve().parents[1]
sys.path[:0] = [str(ROOT), str(ROOT / "src")]

YEARS: Final = 2
MEMBERS: Final = 64
SIZES: Final = (1_000, 10_000, 100_000, 1_000_000)
BLOCK_BEDS: Final = {"cpu": 256, "cuda": 2048}
COMPARED_BEDS: Final = 128
ALONE_BEDS: Final = {"cpu": 256, "cuda": 1024}


def main() -> None:
    """Measure, print, and keep as JSON."""
    reader = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawTextHelpFormatter
    )
    reader.add_argument("--device", choices=("cpu", "cuda"), default="cpu")
    reader.add_argument("--beds", type=int, nargs="+", default=list(SIZES))
    reader.add_argument("--jobs", type=int, nargs="+", default=[1, os.cpu_count() or 1])
    reader.add_argument("--block", type=int, default=0, help="beds a block; 0 for the usual")
    reader.add_argument("--lime", action="store_true", help="free lime in half of the beds")
    reader.add_argument("--json", type=Path, default=None)
    asked = reader.parse_args()
    for name in ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS", "MKL_NUM_THREADS"):
        os.environ[name] = "1"
    with tempfile.TemporaryDirectory() as kept:
        os.environ.setdefault("NUMBA_CACHE_DIR", kept)
        figures = measure(asked)
    if asked.json is not None:
        asked.json.write_text(json.dumps(figures, indent=1) + "\n", encoding="utf-8")


def measure(asked: argparse.Namespace) -> dict[str, Any]:
    """All figures of a run, printed as they come."""
    block = asked.block or BLOCK_BEDS[asked.device]
    figures: dict[str, Any] = {
        "device": asked.device,
        "block_beds": block,
        "lime": asked.lime,
        "machine": machine(),
    }
    say("machine", figures["machine"])
    figures["alone"] = alone(asked.device, lime=asked.lime)
    say("one process, one thread", figures["alone"])
    if asked.device == "cuda":
        figures["difference"] = difference(lime=asked.lime)
        say("card against processor", figures["difference"])
    figures["runs"] = []
    for jobs in sorted(set(asked.jobs)):
        context = multiprocessing.get_context("spawn")
        begun = time.perf_counter()
        with context.Pool(jobs) as pool:
            pool.map(warm, [(asked.device, block, asked.lime)] * jobs, chunksize=1)
            started_s = time.perf_counter() - begun
            for beds in asked.beds:
                parts = [
                    (asked.device, first, min(first + block, beds), asked.lime)
                    for first in range(0, beds, block)
                ]
                begun = time.perf_counter()
                sums = dict(pool.imap_unordered(forecast_part, parts))
                wall_s = time.perf_counter() - begun
                row = {
                    "beds": beds,
                    "jobs": jobs,
                    "wall_s": wall_s,
                    "beds_per_s": beds / wall_s,
                    "bed_years_per_s": YEARS * beds / wall_s,
                    "started_s": started_s,
                    "mean_median_ph_at_end": sum(sums[first] for first in sorted(sums)) / beds,
                }
                figures["runs"].append(row)
                say("beds", row)
    return figures


def alone(device: str, *, lime: bool) -> dict[str, float]:
    """What a bed costs in one process: inputs, run and bands, in wall and processor time [ms]."""
    import numpy as np
    from benchmarks.bed_table import table_of

    from loamshift.core.column_many import room_for_results, run_many
    from loamshift.services.many.forecast import bands, median
    from loamshift.services.many.forecast_inputs import ready_blocks

    n = ALONE_BEDS[device]
    run = run_many
    if device == "cuda":
        from loamshift.core.column_many_cuda import run_many_cuda as run  # type: ignore[assignment]
    begun = time.perf_counter()
    beds, plans = table_of(0, 8, lime=lime)
    (block,) = ready_blocks(beds, plans, seeds=np.arange(8), years=YEARS, members=MEMBERS)
    run(block.runs)
    found = {"first_run_s": time.perf_counter() - begun}
    beds, plans = table_of(1_000_000, 1_000_000 + n, lime=lime)
    ready_blocks(beds, plans, seeds=np.arange(n), years=YEARS, members=MEMBERS)  # places once
    for seeds, name in ((np.arange(n), "inputs"), (np.ones(n, dtype=np.int64), "inputs_one_seed")):
        best = []
        for _ in range(3):
            clock = time.perf_counter(), time.process_time()
            (block,) = ready_blocks(beds, plans, seeds=seeds, years=YEARS, members=MEMBERS)
            best.append((time.perf_counter() - clock[0], time.process_time() - clock[1]))
        found[f"{name}_ms"], found[f"{name}_cpu_ms"] = (
            1e3 * min(one) / n for one in zip(*best, strict=True)
        )
    best = []
    for _ in range(3):
        clock = time.perf_counter(), time.process_time()
        results = run(block.runs)
        best.append((time.perf_counter() - clock[0], time.process_time() - clock[1]))
    found["run_ms"], found["run_cpu_ms"] = (1e3 * min(one) / n for one in zip(*best, strict=True))
    begun = time.perf_counter()
    bands(results.ph)
    median(results.oxidised_frac)
    found["bands_ms"] = 1e3 * (time.perf_counter() - begun) / n
    found["bytes_in"] = sum(getattr(block.runs, name).nbytes for name in block.runs.__slots__) / n
    room = room_for_results(block.runs)
    found["bytes_out"] = sum(getattr(room, name).nbytes for name in room.__slots__) / n
    return found


def difference(*, lime: bool) -> dict[str, float]:
    """Largest and middle difference in pH between card and processor."""
    import numpy as np
    from benchmarks.bed_table import table_of

    from loamshift.core.column_many import run_many
    from loamshift.core.column_many_cuda import run_many_cuda
    from loamshift.services.many.forecast_inputs import ready_blocks

    n = COMPARED_BEDS
    beds, plans = table_of(0, n, lime=lime)
    (block,) = ready_blocks(beds, plans, seeds=np.arange(n), years=YEARS, members=MEMBERS)
    card, processor = run_many_cuda(block.runs), run_many(block.runs)
    gap = np.abs(card.ph - processor.ph)
    again = run_many_cuda(block.runs.beds(slice(0, 5)), blocks=1)
    return {
        "beds": n,
        "largest_ph": float(gap.max()),
        "median_ph": float(np.median(gap)),
        "same_bits_share": float((gap == 0.0).mean()),
        "other_cut_same_bits": bool((again.ph == card.ph[:5]).all()),
        "balance_error": float(card.balance_error.max()),
    }


def warm(what: tuple[str, int, bool]) -> None:
    """Make or load machine code, and what is worked out once a place."""
    forecast_part((what[0], 0, min(what[1], 256), what[2]))
    time.sleep(0.5)  # so that each process takes one


def forecast_part(what: tuple[str, int, int, bool]) -> tuple[int, float]:
    """Forecast some rows of the table: the first of them, and the sum of the last medians."""
    import numpy as np
    from benchmarks.bed_table import table_of

    from loamshift.services.many.forecast import Device, forecast_many

    device, first, last, lime = what
    beds, plans = table_of(first, last, lime=lime)
    found = forecast_many(
        beds,
        plans,
        seeds=np.arange(first, last),
        years=YEARS,
        members=MEMBERS,
        device=Device(device),
    )
    return first, float(found.ph[:, 2, -1].sum())


def machine() -> dict[str, str]:
    """What it ran on."""
    import llvmlite
    import numba
    import numpy as np

    found = {
        "python": platform.python_version(),
        "numpy": np.__version__,
        "numba": numba.__version__,
        "llvmlite": llvmlite.__version__,
        "cores": str(os.cpu_count()),
        "load": f"{os.getloadavg()[0]:.1f}",
    }
    names = [line for line in _lines("/proc/cpuinfo") if line.startswith("model name")]
    found["processor"] = names[0].split(":", 1)[1].strip() if names else platform.processor()
    return found


def _lines(path: str) -> list[str]:
    try:
        return Path(path).read_text(encoding="utf-8").splitlines()
    except OSError:
        return []


def say(name: str, values: dict[str, Any]) -> None:
    """One line of the run."""
    told = ", ".join(
        f"{key} {value:.4g}" if isinstance(value, float) else f"{key} {value}"
        for key, value in values.items()
    )
    print(f"{name}: {told}", flush=True)


if __name__ == "__main__":
    main()
