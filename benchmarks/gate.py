"""Hold what things cost, as ratios measured side by side in one run, to the ratios stored.

    python benchmarks/gate.py            compare; 1 where one costs a fifth more than stored
    python benchmarks/gate.py --keep     store what was measured, after a change that is meant
    python benchmarks/gate.py letter     only the ratios whose name holds this word

Both sides of a ratio take turns in this process or in fresh ones, by their processor time, and the
least of each counts; so a busy machine and a slow one give nearly the same. What comes out too
dear is measured once more before it is believed.
"""

from __future__ import annotations

import argparse
import json
import sys
import time
import tomllib
from collections.abc import Callable
from dataclasses import replace
from datetime import date
from functools import cache
from pathlib import Path
from typing import Any, Final

ROOT: Final = Path(__file__).resolve().parents[1]
sys.path[:0] = [str(ROOT)]

from benchmarks.test_commands import HEAVY, loamshift, processor_s  # noqa: E402

from loamshift.cli.kernel_cache import keep_kernels  # noqa: E402

keep_kernels()

from loamshift.case.answer import answer_to_json  # noqa: E402
from loamshift.case.read import parse_case  # noqa: E402
from loamshift.domain.case import Case  # noqa: E402
from loamshift.report.html import letter_html  # noqa: E402
from loamshift.report.letter import letter_from_answer  # noqa: E402
from loamshift.report.pdf import PaperSize, letter_pdf  # noqa: E402
from loamshift.report.words import Words  # noqa: E402
from loamshift.services.advise import LookAhead, advise  # noqa: E402

STORED: Final = Path(__file__).with_name("ratios.toml")
TOLERANCE: Final = 0.2
"""What a ratio may rise above the stored one: repeats on a busy machine differ by a tenth."""
ROUNDS: Final = 5
TODAY: Final = date(2026, 4, 12)
TEXT: Final = (ROOT / "examples" / "north-border.toml").read_text(encoding="utf-8")

Work = Callable[[], object]
Cost = Callable[[Work], float]


@cache
def bed() -> Case:
    """The example that all of them ask about."""
    return parse_case(TEXT, today=TODAY)


def yardstick() -> object:
    """Work of a fixed size in plain Python, for what has nothing else to be held against."""
    rows = [{"name": str(n * 7919 % 1009), "value": n / 7.0} for n in range(4000)]
    return sorted(json.loads(json.dumps(rows)), key=lambda row: (row["name"], row["value"]))


def quick() -> Any:
    """The answer without a forecast."""
    return advise(bed())


def ahead(members: int = 400, years: int = 3) -> Any:
    """The answer with one."""
    return advise(bed(), look_ahead=LookAhead(members=members, years=years))


@cache
def answered() -> Any:
    """An answer to write letters of."""
    return ahead()


def letter() -> Any:
    """A letter of it, each time under another name, so that nothing of it is known already."""
    answer = replace(answered(), name=f"Bed {time.perf_counter_ns()}")
    return letter_from_answer(answer, bed(), words=Words())


def heavy() -> list[str]:
    """A command that only loads what stands behind the others."""
    return [sys.executable, "-c", HEAVY]


def in_process(work: Work) -> float:
    """Processor time of a piece of work here [s]."""
    start = time.process_time()
    work()
    return time.process_time() - start


def as_process(command: Work) -> float:
    """Processor time of a fresh process [s]."""
    words: Any = command()
    return processor_s(words)


RATIOS: Final[dict[str, tuple[Work, Work, Cost]]] = {
    "case read, of the yardstick": (lambda: parse_case(TEXT, today=TODAY), yardstick, in_process),
    "answer without forecast, of the yardstick": (quick, yardstick, in_process),
    "answer with forecast, of one without": (ahead, quick, in_process),
    "twice the members": (lambda: ahead(800), ahead, in_process),
    "twice the years": (lambda: ahead(years=6), ahead, in_process),
    "answer as JSON, of the yardstick": (
        lambda: answer_to_json(answered()), yardstick, in_process
    ),
    "letter in HTML, of an answer without forecast": (
        lambda: letter_html(letter(), words=Words()), quick, in_process
    ),
    "letter in PDF, of one in HTML": (
        lambda: letter_pdf(letter(), words=Words(), paper=PaperSize.A4),
        lambda: letter_html(letter(), words=Words()),
        in_process,
    ),
    "advise --json, of importing the heavy parts": (
        lambda: loamshift(["advise", str(ROOT / "examples" / "north-border.toml"), "--json"]),
        heavy,
        as_process,
    ),
    "convert, of importing the heavy parts": (
        lambda: loamshift(["convert", "1 kg", "g"]), heavy, as_process
    ),
    "--help, of importing the heavy parts": (lambda: loamshift(["--help"]), heavy, as_process),
}  # fmt: skip
"""What is held: a piece of work, what it is held against, and how both are measured."""


def ratio(name: str) -> float:
    """Least cost of a piece of work over least cost of the other, both in turn."""
    work, other, cost = RATIOS[name]
    cost(work), cost(other)
    turns = [(cost(work), cost(other)) for _ in range(ROUNDS)]
    return min(one for one, _ in turns) / min(other for _, other in turns)


def main(words: list[str]) -> int:
    """Measure and compare, or keep; 1 where something costs more than it may."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("word", nargs="?", default="")
    parser.add_argument("--keep", action="store_true")
    asked = parser.parse_args(words)
    stored = tomllib.loads(STORED.read_text(encoding="utf-8")) if STORED.exists() else {}
    dearer = []
    for name in (name for name in RATIOS if asked.word in name):
        was: float | None = stored.get(name)
        now = ratio(name)
        if was is not None and now > was * (1.0 + TOLERANCE) and not asked.keep:
            now = min(now, ratio(name))
        if asked.keep:
            stored[name] = float(f"{now:.3g}")
        state = "new" if was is None else f"{now / was - 1.0:+.0%}"
        if was is None or now > was * (1.0 + TOLERANCE):
            dearer.append(name)
        print(f"{name:<48} {now:8.3g}  stored {was or 0.0:8.3g}  {state}", flush=True)
    if asked.keep:
        lines = [f'"{name}" = {stored[name]}' for name in RATIOS if name in stored]
        STORED.write_text("\n".join([*HEAD, *lines]) + "\n", encoding="utf-8")
        return 0
    for name in dearer:
        print(f"dearer than stored: {name}; mend it, or store it with --keep and say why")
    return 1 if dearer else 0


HEAD: Final = (
    "# Ratios of processor time, written by `benchmarks/gate.py --keep`: what each costs, as many",
    '# times as what stands behind "of". A change that is meant is stored with its reason in the',
    "# commit.",
)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
