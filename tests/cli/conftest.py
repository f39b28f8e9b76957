from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import pytest

from loamshift.cli.run import run


@dataclass(frozen=True)
class Outcome:
    """What a command left behind."""

    code: int
    out: str
    err: str


Command = Callable[..., Outcome]


@pytest.fixture
def command(capsys: pytest.CaptureFixture[str]) -> Command:
    """Runs a command line inside this process, as the entry point would."""

    def call(*arguments: str) -> Outcome:
        code = run(list(arguments))
        captured = capsys.readouterr()
        return Outcome(code, captured.out, captured.err)

    return call
