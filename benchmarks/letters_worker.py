"""Answers, letters and PDFs of one version of the program, in a process of their own.

Reads a question a line from standard input and answers each with one line of JSON. The package it
asks is the first on PYTHONPATH; both versions have the same two functions.

    letter PATH             processor time of the answer, its JSON, its HTML and its PDF [s]
    memory COUNT PATH ...   growth while COUNT different letters are set as PDF [MB]
"""

from __future__ import annotations

import importlib
import json
import resource
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any, Final

PAGE_BYTES: Final = resource.getpagesize()
answering: Any = importlib.import_module("loamshift.cli.answering")
forms: Any = importlib.import_module("loamshift.cli.letter_forms")


def answered(path: str) -> Any:
    """A case file answered with its letter."""
    return answering.answered(Path(path), answering.Wish())


def letter(path: str) -> dict[str, float]:
    """Processor time of each step from a case file to its letters [s]."""
    took: dict[str, float] = {}

    def timed(name: str, work: Callable[[], Any]) -> Any:
        begun = time.process_time()
        made = work()
        took[name] = time.process_time() - begun
        return made

    done = timed("answer", lambda: answered(path))
    timed("json", done.json)
    content = forms.letter_content
    timed("html", lambda: content(forms.Form.HTML, done.frozen, paper=None))
    timed("pdf", lambda: content(forms.Form.PDF, done.frozen, paper=None))
    return took


def memory(count: str, *paths: str) -> dict[str, float]:
    """Growth of the process over some PDFs, no two alike [MB]; the answers are there before."""
    letters = [answered(path).frozen for path in paths[: int(count)]]
    forms.letter_content(forms.Form.HTML, letters[0], paper=None)
    before_mb = resident_mb()
    most_mb = before_mb
    for one in letters:
        forms.letter_content(forms.Form.PDF, one, paper=None)
        most_mb = max(most_mb, resident_mb())
    return {"growth": resident_mb() - before_mb, "most": most_mb - before_mb}


def resident_mb() -> float:
    """Memory that this process holds [MB]."""
    return int(Path("/proc/self/statm").read_text(encoding="ascii").split()[1]) * PAGE_BYTES / 1e6


def main() -> None:
    """Answer every line until the input ends."""
    questions: dict[str, Callable[..., dict[str, float]]] = {"letter": letter, "memory": memory}
    for line in sys.stdin:
        question, *rest = line.split()
        print(json.dumps(questions[question](*rest)), flush=True)


if __name__ == "__main__":
    main()
