"""Runs every check of ``tests/published/checks``, and holds ``docs/trust.md`` to what they give.

A row that is known not to hold stands in ``cases/expected_outcomes.csv`` with its reason. The run
fails when a row does worse than listed, and when it does better: the list is never out of date.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

import trust
from published.check import Check, Kind, Outcome
from published.checks.worked_examples import examples_not_worked
from published.expected import faults_in_list, outcome_expected

ALL = trust.gathered()


@pytest.mark.parametrize("check", ALL, ids=lambda check: f"{check.topic}: {check.claim}")
def test_published(check: Check) -> None:
    listed = outcome_expected(check)
    assert check.outcome is listed, (
        f"{check.claim}: {check.outcome}, expected {listed}; {check.figure}, promised "
        f"{check.limit} ({check.source})"
    )


def test_the_list_of_exceptions_is_right() -> None:
    assert faults_in_list(ALL) == []
    assert faults_in_list([])


def test_the_page_is_what_the_checks_give_today() -> None:
    assert trust.stale(ALL) == "", "run tools/trust.py and read the difference"


def test_every_row_is_named_once() -> None:
    claims = [check.claim for check in ALL]
    assert len(claims) == len(set(claims))


def test_what_was_measured_in_soil_says_what_was_in_view() -> None:
    assert [check.claim for check in ALL if check.kind is Kind.SOIL and not check.in_view] == []


def test_every_printed_example_is_worked_again() -> None:
    assert examples_not_worked() == set()


def test_a_row_that_shows_a_source_wrong_never_says_yes() -> None:
    row = replace(ALL[0], kind=Kind.CAUGHT, passed=True)
    assert row.outcome is Outcome.DIFFERS
    assert replace(row, kind=Kind.ADVICE, differs=True).outcome is Outcome.DIFFERS
    assert replace(row, passed=False).outcome is Outcome.NO
