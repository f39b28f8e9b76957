"""Rows that are known not to hold, each with its reason; every other row is to say "yes"."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import cache

from published.check import Check, Kind, Outcome
from published.courses import rows


@cache
def expected() -> Mapping[str, tuple[Outcome, str]]:
    """Outcome and reason by claim, as listed in ``cases/expected_outcomes.csv``."""
    return {
        row["claim"]: (Outcome(row["outcome"]), row["reason"])
        for row in rows("expected_outcomes.csv")
    }


def outcome_expected(check: Check) -> Outcome:
    """What a row is to come to: as listed, else "differs" for a source in error, else "yes"."""
    if check.claim in expected():
        return expected()[check.claim][0]
    return Outcome.DIFFERS if check.kind is Kind.CAUGHT else Outcome.YES


def faults_in_list(checks: Iterable[Check]) -> list[str]:
    """What is wrong with the list itself: a claim nobody makes, or a row that needs none."""
    by_claim = {check.claim: check for check in checks}
    found = [f"no such row: {claim}" for claim in expected() if claim not in by_claim]
    found += [
        f"no reason given: {claim}" for claim, (_, reason) in expected().items() if not reason
    ]
    found += [
        f"listed as {outcome}, which every row is by itself: {claim}"
        for claim, (outcome, _) in expected().items()
        if outcome is Outcome.YES
    ]
    return found
