"""Runs every check of ``tests/published/checks``: each module has ``checks() -> list[Check]``."""

from __future__ import annotations

import importlib
from pathlib import Path

import pytest

from published.check import Check

MODULES = sorted(
    path.stem for path in (Path(__file__).parent / "checks").glob("*.py") if path.stem != "__init__"
)


def all_checks() -> list[Check]:
    found: list[Check] = []
    for name in MODULES:
        found.extend(importlib.import_module(f"published.checks.{name}").checks())
    return found


@pytest.mark.parametrize("check", all_checks(), ids=lambda check: f"{check.topic}: {check.claim}")
def test_published(check: Check) -> None:
    assert check.passed, f"{check.claim}: {check.figure}, promised {check.limit} ({check.source})"
