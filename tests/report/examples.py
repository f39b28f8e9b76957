"""The answers of the shipped examples, worked out once in a run of the tests."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from loamshift.case.read import read_case
from loamshift.domain.answer import Answer
from loamshift.domain.case import Case
from loamshift.services.advise import LookAhead, advise

FOLDER = Path(__file__).parents[2] / "examples"
NAMES = tuple(sorted(path.stem for path in FOLDER.glob("*.toml")))


@cache
def example_answers() -> dict[str, tuple[Answer, Case]]:
    """Every example's answer without a forecast."""
    cases = {name: read_case(FOLDER / f"{name}.toml", today=None) for name in NAMES}
    return {name: (advise(case), case) for name, case in cases.items()}


@cache
def with_forecast(name: str) -> tuple[Answer, Case]:
    """One example's answer with a small forecast."""
    case = read_case(FOLDER / f"{name}.toml", today=None)
    return advise(case, look_ahead=LookAhead(members=40, seed=1, years=3)), case
