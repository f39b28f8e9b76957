"""Sheets set in a process of their own: the same bytes, and nothing left behind."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from loamshift.report.pdf import PaperSize
from loamshift.web import press as module
from loamshift.web.press import press, set_here
from report.letters import example_letters

pytestmark = pytest.mark.drawn
PAPER = PaperSize.A4
MOST_MB = 50.0
"""Letters leave less than this behind in the process that asks for them [MB]."""


def resident_mb() -> float:
    return int(Path("/proc/self/statm").read_text(encoding="ascii").split()[1]) * 4096 / 1e6


def test_the_bytes_are_those_of_the_same_process() -> None:
    letter, words = example_letters()["bean-rows"]
    assert press(letter, paper=PAPER, words=words) == set_here(letter, paper=PAPER, words=words)


@pytest.mark.skipif(sys.platform != "linux", reason="memory is read off another place there")
def test_letters_leave_no_memory_behind() -> None:
    letters = [example_letters()[name] for name in ("bean-rows", "overdone-bed", "white-oak")]
    press(letters[0][0], paper=PAPER, words=letters[0][1])
    before = resident_mb()
    for letter, words in letters:
        assert press(letter, paper=PAPER, words=words).startswith(b"%PDF")
    assert resident_mb() - before < MOST_MB


def test_what_cannot_be_set_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(module, "MODULE", "loamshift.no_such_press")
    letter, words = example_letters()["bean-rows"]
    with pytest.raises(RuntimeError, match=r"could not be set: .*no_such_press"):
        press(letter, paper=PAPER, words=words)
