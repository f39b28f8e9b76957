"""Streams a long table through ``triage`` in a fresh process, and says what that took.

    many_worker.py ROWS FOLDER         judged by a stand-in: what remains is reading and writing
    many_worker.py ROWS FOLDER real    every row judged

Prints a JSON object: rows a second of processor time, and the most memory held at a time [MB].
"""

from __future__ import annotations

import json
import random
import resource
import sys
import time
from dataclasses import replace
from pathlib import Path
from typing import Any

from loamshift.case.table import judge_block as judging
from loamshift.cli.run import run
from loamshift.domain.answer import Decision, Direction, Reason
from loamshift.services.many.outcome import Outcome

TEXTURES = ("sand", "loamy sand", "sandy loam", "loam", "silt loam", "clay loam", "clay")
PLANTS = ("highbush blueberry", "cabbage", "potato", "rhododendron", "asparagus", "broad bean")


def write_table(path: Path, rows: int) -> None:
    """A table of invented samples [count]."""
    dice = random.Random(7)
    with path.open("w", encoding="utf-8") as file:
        file.write("id,soil.ph,soil.ph_method,soil.texture,soil.organic_matter_pct,aim.plant\n")
        for n in range(rows):
            ph, humus = dice.gauss(6.3, 0.8), dice.uniform(1.0, 8.0)
            texture, plant = dice.choice(TEXTURES), dice.choice(PLANTS)
            file.write(f"S{n:08},{ph:.1f},water 1:1,{texture},{humus:.1f},{plant}\n")


def stand_in() -> None:
    """Put an outcome that costs nothing in place of the judgement of each row."""
    one = Outcome(
        key="",
        verdict=Decision.LEAVE,
        reason=Reason.IN_RANGE,
        direction=Direction.NONE,
        ph_now=6.5,
        ph_low=6.0,
        ph_high=7.0,
        questions=("bed.area", "place.name"),
    )
    module: Any = judging
    module.judge_alike = lambda rows, **_: {
        place: replace(one, key=key) for place, (key, _) in enumerate(rows)
    }


def main() -> None:
    """Write a table, stream it, and print what that took."""
    rows, folder = int(sys.argv[1]), Path(sys.argv[2])
    real = sys.argv[3:] == ["real"]
    table, out = folder / f"{rows}.csv", folder / f"{rows}.parquet"
    write_table(table, rows)
    if not real:
        stand_in()
    words = ["triage", str(table), "-o", str(out), "--jobs", "1", "--today", "2026-04-12"]
    block = [] if real else ["--block-rows", "2000"]
    begun_s = time.process_time()
    code = run([*words, *block])
    taken_s = time.process_time() - begun_s
    assert code == 0 or real, code
    most_mb = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024.0
    sys.stdout.write(json.dumps({"rows_per_s": rows / taken_s, "most_mb": most_mb}) + "\n")


if __name__ == "__main__":
    main()
