"""What the cautions depend on, beyond the least cases of ``tests/contracts``."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import pytest

from loamshift.domain.answer import Application, Decision, Direction, Option, Reason
from loamshift.services.advise import advise
from loamshift.services.cautions.caution_rules import HAZARDS, RULES
from loamshift.services.cautions.cautions import cautions
from loamshift.services.context.build_context import build_context
from loamshift.services.products.options import ACID_CHOICES, LIME_CHOICES
from loamshift.tables.rules import load_cautions
from services.beds import TODAY, bed
from wording import read

HANDLING = HAZARDS | {"children-pets", "salt", "nitrogen", "hydrogen-sulfide", "ammonia"}
LOAM = 'ph = 6.4\nph_method = "water 1:1"\ntexture = "loam"\norganic_matter_pct = 3\n'


@dataclass(frozen=True)
class Judged:
    decision: Decision
    direction: Direction
    reason: Reason


def option(material: str) -> Option:
    return Option(
        material=material, rate_g_m2=10.0, amount_g=None, cost=None, currency=None,
        cost_per_mol_acid=None, cost_per_kg_caco3_eq=None, weeks_to_half=None, ec_rise_ds_m=None,
        cautions=("split",),
    )  # fmt: skip


def codes(judged: Judged, *, more: str = "", options: tuple[str, ...] = ()) -> set[str]:
    found = cautions(
        build_context(bed(LOAM, more=more)),
        judged,
        applications=(),
        options=tuple(map(option, options)),
    )
    return {caution.code for caution in found}


@pytest.mark.parametrize("decision", [Decision.LEAVE, Decision.STOP, Decision.ELSEWHERE])
@pytest.mark.parametrize("direction", list(Direction))
@pytest.mark.parametrize("reason", [Reason.IN_RANGE, Reason.CAPS, Reason.SODIC])
def test_where_nothing_goes_on_nobody_is_warned_of_products(
    decision: Decision, direction: Direction, reason: Reason
) -> None:
    judged = Judged(decision, direction, reason)
    assert not codes(judged, options=(*ACID_CHOICES, *LIME_CHOICES)) & HANDLING


def test_what_is_proposed_is_warned_of_whatever_the_judgement() -> None:
    claim = '[[claim]]\nmaterial = "aluminum sulfate"\nrate = "100 g/m2"'
    for decision in Decision:
        found = codes(Judged(decision, Direction.NONE, Reason.IN_RANGE), more=claim)
        assert {"aluminium", "children-pets"} <= found


def test_an_overdose_of_lime_is_not_called_too_acid() -> None:
    lime = '[[applied]]\ndate = 2026-04-01\nmaterial = "hydrated lime"\nrate = "2 kg/m2"'
    answer = advise(bed(LOAM, more=lime))
    found = {caution.code for caution in answer.cautions}
    assert "overdose" in found and "too-acid" not in found
    acid = lime.replace("hydrated lime", "aluminium sulfate")
    found = {caution.code for caution in advise(bed(LOAM, more=acid)).cautions}
    assert {"overdose", "aluminium", "salt", "children-pets"} <= found


def test_the_text_for_an_overdose_holds_both_ways() -> None:
    text = read(load_cautions()["overdose"].text)
    assert "neither acid nor lime" in text


def test_each_code_is_printed_once_what_is_handled_first() -> None:
    sulfur = "elemental sulfur, powder"
    claim = f'[[claim]]\nmaterial = "{sulfur}"\namount = "1 cup per plant"'
    case = bed(LOAM, bed='area = "9 m2"\nplants = 9\nplanted = true', more=claim)
    part = Application(
        date=TODAY, material=sulfur, rate_g_m2=30.0, amount_g=None, incorporate_cm=0.0, only_if=None
    )
    judged = Judged(Decision.GO, Direction.ACIDIFY, Reason.WITHIN_REACH)
    found = cautions(build_context(case), judged, applications=(part, part), options=())
    order = list(load_cautions())
    for part_of_list in (True, False):
        places = [order.index(one.code) for one in found if one.handling is part_of_list]
        assert places and places == sorted(set(places))
    assert [one.handling for one in found] == sorted((one.handling for one in found), reverse=True)
    proposed = [one for one in found if one.code == "overdose"]
    assert [read(one.text) for one in proposed if "scrape up" in read(one.text)] == []
    others = [one for one in found if one.code != "overdose"]
    assert all(caution.text == load_cautions()[caution.code].text for caution in others)
    assert all(caution.short == load_cautions()[caution.code].short for caution in others)


def handled(judged: Judged, planned: tuple[str, ...], **more: Any) -> set[str]:
    parts = tuple(
        Application(
            date=TODAY, material=key, rate_g_m2=30.0, amount_g=None, incorporate_cm=0.0,
            only_if=None,
        )
        for key in planned
    )  # fmt: skip
    options = tuple(map(option, more.pop("options", ())))
    found = cautions(build_context(bed(LOAM, **more)), judged, applications=parts, options=options)
    return {caution.code for caution in found if caution.handling}


def test_only_what_is_applied_is_marked_as_handled() -> None:
    """Other products beside the plan, proposals and explanations are not."""
    judged = Judged(Decision.GO, Direction.ACIDIFY, Reason.WITHIN_REACH)
    claim = '[[claim]]\nmaterial = "hydrated lime"\nrate = "100 g/m2"'
    others = ("aluminium sulfate, 18-hydrate", "ferrous sulfate, heptahydrate")
    found = handled(judged, ("elemental sulfur, powder",), options=others, more=claim)
    assert found == {"sulfur-dust", "hydrogen-sulfide", "children-pets"}
    dry = 'area = "9 m2"\ndrainage = "free"\nplanted = true'
    found = handled(judged, ("elemental sulfur, powder",), options=others, bed=dry)
    assert found == {"sulfur-dust", "established-roots", "children-pets"}
    assert handled(judged, others[1:], bed=dry) >= {"iron-stain"}
    lime = Judged(Decision.GO, Direction.LIME, Reason.WITHIN_REACH)
    assert handled(lime, ("ground limestone",)) == {"ammonia", "children-pets"}


def test_where_nothing_is_handled_nothing_is_marked() -> None:
    judged = Judged(Decision.LEAVE, Direction.NONE, Reason.IN_RANGE)
    claim = '[[claim]]\nmaterial = "aluminium sulfate"\nrate = "100 g/m2"'
    assert handled(judged, (), more=claim) == set()


def test_an_overdose_that_is_taken_up_is_handled() -> None:
    sulfur = '[[applied]]\ndate = 2026-04-01\nmaterial = "flowers of sulphur"\nrate = "2 kg/m2"'
    found = {one.code: one for one in advise(bed(LOAM, more=sulfur)).cautions}
    assert found["sulfur-dust"].handling and found["children-pets"].handling
    assert not found["overdose"].handling


def test_no_rule_stands_twice() -> None:
    assert len(RULES) == len(set(RULES))


@pytest.mark.parametrize(
    ("more", "begins"),
    [("", "Let the ground drain"), ('[[claim]]\nmaterial = "sulfur dust"\nrate = 20\n', "Put no")],
)
def test_wet_ground_to_which_nothing_goes_is_not_told_to_put_no_sulfur_on(
    more: str, begins: str
) -> None:
    lying = '[[applied]]\ndate = 2026-03-01\nmaterial = "sulfur dust"\nrate = 200\n'
    wet = bed(LOAM, bed='area = 5\nplanted = true\ndrainage = "waterlogged"', more=lying + more)
    answer = advise(wet)
    assert answer.verdict.decision is Decision.STOP
    caution = next(one for one in answer.cautions if one.code == "hydrogen-sulfide")
    assert read(caution.short).startswith(begins)
    assert answer.rescue is not None
    assert "almost no acid" in read(answer.rescue.problem)
