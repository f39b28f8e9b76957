"""Times one version of the program from a process of its own: a case and a question a line.

Reads ``question path`` from standard input and answers with the seconds of processor it took.
The package it times is the first on PYTHONPATH; an older one is asked by its older names.
"""

from __future__ import annotations

import importlib
import sys
import time
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

TODAY = date(2026, 4, 12)


def questions() -> dict[str, Callable[[Any], object]]:
    """What can be asked: the whole advice, the advice without forecast, the bare decision."""
    advising = importlib.import_module("loamshift.services.advise")
    try:
        build = importlib.import_module("loamshift.services.context.build_context").build_context
        decide = importlib.import_module("loamshift.services.verdict.decide").decide
    except ModuleNotFoundError:
        build = importlib.import_module("loamshift.services.understand").understand
        decide = importlib.import_module("loamshift.services.decide").decide
    return {
        "full": lambda case: advising.advise(case, look_ahead=advising.LookAhead()),
        "static": lambda case: advising.advise(case),
        "decision": lambda case: decide(build(case)),
    }


def main() -> None:
    """Answer every line until the input ends."""
    importlib.import_module("loamshift.cli.kernel_cache").keep_kernels()
    reading = importlib.import_module("loamshift.case.read")
    asked = questions()
    cases: dict[str, Any] = {}
    for line in sys.stdin:
        question, path = line.split()
        if path not in cases:
            text = Path(path).read_text(encoding="utf-8")
            cases[path] = reading.parse_case(text, today=TODAY)
        start = time.process_time()
        asked[question](cases[path])
        print(time.process_time() - start, flush=True)


if __name__ == "__main__":
    main()
