"""How long a user waits before the first word: medians of five fresh processes, and ratios.

    python benchmarks/start_up.py [CASE.toml]

Times depend on the machine, so read the ratios to an empty Python process. Run it on a quiet
machine; nothing in the tests is timed.
"""

from __future__ import annotations

import argparse
import os
import statistics
import subprocess
import sys
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
ROUNDS = 5
STATIC = "advise --years 0"
FORECAST = "advise, forecast"
BUDGET_S = {"loamshift --help": 0.3, STATIC: 1.0, FORECAST: 2.0}


def seconds(command: list[str]) -> float:
    """Wall time of one fresh process [s]."""
    environment = {**os.environ, "NO_COLOR": "1", "PYTHONPATH": ""}
    started = time.perf_counter()
    subprocess.run(
        command,
        env=environment,
        stdin=subprocess.DEVNULL,
        stdout=subprocess.DEVNULL,
        check=True,
    )
    return time.perf_counter() - started


def main() -> int:
    """Measure the commands in turn, five times over, and print a table."""
    parser = argparse.ArgumentParser(description="Measure start-up as ratios in one run.")
    parser.add_argument("case", nargs="?", default=str(ROOT / "examples" / "north-border.toml"))
    case = parser.parse_args().case
    if not Path(case).is_file():
        parser.error(f"no case file {case}; name one")
    door = str(Path(sys.executable).parent / "loamshift")
    commands = {
        "python -c pass": [sys.executable, "-c", "pass"],
        "loamshift --help": [door, "--help"],
        STATIC: [door, "advise", case, "--years", "0"],
        FORECAST: [door, "advise", case],
    }
    for command in commands.values():
        seconds(command)  # the first run fills caches of compiled files
    times: dict[str, list[float]] = {name: [] for name in commands}
    for _ in range(ROUNDS):
        for name, command in commands.items():
            times[name].append(seconds(command))
    base = statistics.median(times["python -c pass"])
    print(f"{'command':<18} {'median':>8} {'lowest':>8} {'ratio':>7}  budget")
    for name, found in times.items():
        median = statistics.median(found)
        budget = f"{BUDGET_S[name]:.1f} s" if name in BUDGET_S else ""
        print(f"{name:<18} {median:6.3f} s {min(found):6.3f} s {median / base:7.1f}  {budget}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
