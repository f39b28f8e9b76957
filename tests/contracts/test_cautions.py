"""Every caution has a least case that shows it and a nearest case that does not."""

from __future__ import annotations

import copy
import tomllib
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from loamshift.case.read import case_from_tree
from loamshift.domain.answer import Application, Decision, Direction, Option, Reason
from loamshift.domain.case import Case
from loamshift.report.messages import say
from loamshift.report.words import Words
from loamshift.services.advise import advise
from loamshift.services.cautions import cautions as module
from loamshift.services.cautions.caution_facts import CautionFacts
from loamshift.services.cautions.caution_rules import RULES
from loamshift.services.context.build_context import build_context
from loamshift.tables.rules import load_cautions

TODAY = date(2026, 4, 12)
FILE = Path(__file__).with_name("caution_cases.toml")
OURS = ("code", "rule", "change", "to", "judged", "parts", "options")
Row = Mapping[str, Any]

ROWS: list[Row] = tomllib.loads(FILE.read_text(encoding="utf-8"))["case"]
NAMES = [f"{number}-{row['code']}-{row['rule']}" for number, row in enumerate(ROWS)]


@dataclass(frozen=True)
class Judged:
    """A judgement taken as it stands."""

    decision: Decision
    direction: Direction
    reason: Reason


def part(material: str) -> Application:
    return Application(
        date=TODAY, material=material, rate_g_m2=10.0, amount_g=None, incorporate_cm=15.0,
        only_if=None,
    )  # fmt: skip


def option(material: str) -> Option:
    return Option(
        material=material, rate_g_m2=10.0, amount_g=None, cost=None, currency=None,
        cost_per_mol_acid=None, cost_per_kg_caco3_eq=None, weeks_to_half=None, ec_rise_ds_m=None,
        cautions=(),
    )  # fmt: skip


def nearest(row: Row) -> Row:
    """The same row with the one value changed, or left out."""
    changed: Any = copy.deepcopy(row)
    place = changed
    *path, last = row["change"].split(".")
    for key in path:
        place = place[int(key)] if isinstance(place, list) else place.setdefault(key, {})
    if isinstance(place, list):
        place[int(last) : int(last) + 1] = [row["to"]] if "to" in row else []
    elif "to" in row:
        assert place.get(last) != row["to"], "the nearest case is the same case"
        place[last] = row["to"]
    else:
        del place[last]
    return changed


def case_of(row: Row) -> Case:
    tree = {key: value for key, value in row.items() if key not in OURS}
    return case_from_tree({"case": 1, "name": "a bed", "today": TODAY} | tree, source="a row")


def codes_of(row: Row) -> set[str]:
    """Codes of the answer, or of the judgement where the row brings its own."""
    case = case_of(row)
    if "judged" not in row:
        return {caution.code for caution in advise(case).cautions}
    found = module.cautions(
        build_context(case),
        Judged(
            decision=Decision(row["judged"]["decision"]),
            direction=Direction(row["judged"]["direction"]),
            reason=Reason(row["judged"]["reason"]),
        ),
        applications=tuple(part(material) for material in row.get("parts", ())),
        options=tuple(option(material) for material in row.get("options", ())),
    )
    return {caution.code for caution in found}


def facts_of(row: Row, monkeypatch: pytest.MonkeyPatch) -> CautionFacts:
    """What the rules are shown of a row."""
    seen: list[CautionFacts] = []

    def look(facts: CautionFacts) -> tuple[str, ...]:
        seen.append(facts)
        return ()

    with monkeypatch.context() as patch:
        patch.setattr(module, "RULES", (look,))
        codes_of(row)
    return seen[-1]


@pytest.mark.parametrize("row", ROWS, ids=NAMES)
def test_the_least_case_shows_it_and_the_nearest_does_not(row: Row) -> None:
    assert row["code"] in codes_of(row)
    assert row["code"] not in codes_of(nearest(row))


@pytest.mark.parametrize("row", ROWS, ids=NAMES)
def test_the_rule_named_is_one_that_shows_it(row: Row, monkeypatch: pytest.MonkeyPatch) -> None:
    facts = facts_of(row, monkeypatch)
    assert row["rule"] in [rule.__name__ for rule in RULES if row["code"] in rule(facts)]


def test_every_code_and_every_rule_has_a_row() -> None:
    assert {row["code"] for row in ROWS} == set(load_cautions())
    assert {row["rule"] for row in ROWS} == {rule.__name__ for rule in RULES}


@pytest.mark.parametrize("words", [Words("uk", "metric"), Words("us", "us")])
def test_every_caution_has_its_figures_in_short_as_well(words: Words) -> None:
    for rule in load_cautions().values():
        for figure in rule.figures:
            assert figure in rule.short.values
        assert say(rule.short, words) and say(rule.label, words)


def test_a_rule_shows_only_codes_that_are_printed(monkeypatch: pytest.MonkeyPatch) -> None:
    """A code that no text answers to would be lost without a word."""
    for row in ROWS:
        facts = facts_of(row, monkeypatch)
        assert {code for rule in RULES for code in rule(facts)} <= set(load_cautions())


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.__name__)
def test_a_rule_cannot_be_deleted_unnoticed(
    rule: Callable[[CautionFacts], object], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(module, "RULES", tuple(other for other in RULES if other is not rule))
    rows = [row for row in ROWS if row["rule"] == rule.__name__]
    assert any(row["code"] not in codes_of(row) for row in rows)
