"""A lime that nobody knows is asked about, reckoned wider, and told alike wherever it counts."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from loamshift.case.read import parse_case
from loamshift.domain.answer import Answer
from loamshift.domain.case import Case
from loamshift.domain.material import LimeGrade
from loamshift.services.advise import advise
from loamshift.services.belief.column_inputs import forecast_inputs
from loamshift.services.belief.column_runs import run as run_column
from loamshift.services.claim.settle import settle_claims
from loamshift.services.context.build_context import build_context
from loamshift.services.courses.seasons import choose_material, seasons_ahead
from loamshift.services.own_sum.sums import own_sum
from loamshift.tables.lime_grades import GARDEN_LIME, LIMESTONE
from wording import read

PLOT = """
case = 1
name = "Sour plot"
today = 2026-10-18
{place}
[bed]
area = "24 m2"
depth = "20 cm"
planted = false
[soil]
ph = 5.4
ph_method = "water 1:2.5"
texture = "sandy loam"
organic_matter_pct = 4.5
sampled = 2026-09-30
[aim]
plant = "cabbage"
{more}
"""
ON_HAND = '[[on_hand]]\nmaterial = "{}"\n'
APPLIED = '[[applied]]\ndate = {}\nmaterial = "{}"\nrate = "200 g/m2"\nincorporated = "20 cm"\n'
CLAIM = '[[claim]]\nmaterial = "{}"\nrate = "200 g/m2"\n'


def plot(more: str = "", *, place: str = "Manchester") -> Case:
    return parse_case(PLOT.format(place=f'[place]\nname = "{place}"' if place else "", more=more))


def asked(answer: Answer) -> list[str]:
    return [row.field for row in answer.missing if read(row.how).startswith("Which lime")]


@pytest.mark.parametrize(
    ("place", "grade"),
    [
        ("Manchester", LimeGrade.BRITISH),
        ("Dublin", LimeGrade.IRISH),
        ("Minneapolis", LimeGrade.PULVERISED),
        ("", LimeGrade.MIXED),
    ],
)
def test_every_ground_limestone_of_a_case_has_the_grade_of_its_place(
    place: str, grade: LimeGrade
) -> None:
    more = ON_HAND.format("ground limestone") + APPLIED.format("2026-04-10", "ground limestone")
    for case in (plot(place=place), plot(more, place=place)):
        context = build_context(case)
        assert choose_material(context, acidify=False)[0].lime_grade is grade
        assert {one.material.lime_grade for one in context.case.applied} <= {grade}
        assert context.case.own_materials[LIMESTONE].lime_grade is grade


def test_coarser_law_asks_for_more_and_acts_later() -> None:
    found = {place: advise(plot(place=place)).options for place in ("Manchester", "Minneapolis")}
    weeks = {
        place: next(o.weeks_to_half for o in rows if o.material == LIMESTONE)
        for place, rows in found.items()
    }
    assert weeks["Manchester"] > weeks["Minneapolis"]


@pytest.mark.parametrize(
    ("more", "field"),
    [
        (ON_HAND.format("garden lime"), "on_hand[1].material"),
        (ON_HAND.format("lump lime"), "on_hand[1].material"),
        (APPLIED.format("2026-04-10", "garden lime"), "applied[1].material"),
        (CLAIM.format("garden lime"), "claim[1].material"),
    ],
)
def test_the_answer_asks_which_lime_it_was(more: str, field: str) -> None:
    answer = advise(plot(more))
    assert asked(answer) == [field]
    row = next(row for row in answer.missing if row.field == field)
    assert ("was it?" in read(row.how)) is field.startswith("applied")
    assert "burn" in read(row.how).casefold() and "skin and eyes" in read(row.how)
    assert "60%, in a range of 35 to 95%" in read(row.why)


@pytest.mark.parametrize(
    "more",
    [
        ON_HAND.format("ground limestone"),
        ON_HAND.format("garden lime") + "purity_pct = 90\n",
        ON_HAND.format("garden lime") + 'label = "nv_as_cao = 50"\n',
        APPLIED.format("2026-04-10", "hydrated lime"),
        APPLIED.format("2019-04-10", "garden lime"),  # its pH has been read since
    ],
)
def test_nothing_is_asked_of_a_lime_that_is_known(more: str) -> None:
    assert asked(advise(plot(more))) == []


def test_a_neutralising_value_makes_it_a_known_lime() -> None:
    context = build_context(plot(ON_HAND.format("garden lime") + "purity_pct = 90\n"))
    material, active = choose_material(context, acidify=False)
    assert material.key == LIMESTONE
    assert active == pytest.approx(0.9 * 0.85)


def test_more_of_an_unknown_lime_goes_on_by_what_of_it_counts() -> None:
    told, untold = (
        seasons_ahead(build_context(plot(ON_HAND.format(name))), acidify=False)
        for name in ("ground limestone", "garden lime")
    )
    assert untold.material.key == GARDEN_LIME
    assert untold.active_frac / told.active_frac == pytest.approx(0.6 / 0.85)


def test_past_and_proposed_lime_count_in_one_proportion() -> None:
    contexts = [
        build_context(plot(APPLIED.format("2026-10-10", name) + CLAIM.format(name)))
        for name in ("ground limestone", "garden lime")
    ]
    pending = [context.pending[0].acid_mmolc_m2 for context in contexts]
    brought = [
        settle_claims(context, context.case.claims)[0].acid_brought_mmolc_m2 for context in contexts
    ]
    assert pending[1] / pending[0] == pytest.approx(0.6 / 0.85)
    assert brought[1] / brought[0] == pytest.approx(0.6 / 0.85)


def test_the_forecast_of_a_limed_bed_is_wider_where_the_lime_is_unknown() -> None:
    lots = APPLIED.replace("200 g/m2", "500 g/m2")
    medians, ratios = [], []
    for name in ("ground limestone", "garden lime"):
        context = build_context(plot(lots.format("2026-10-10", name)))
        inputs = forecast_inputs(context, (), years=1, members=200)
        lime = replace(
            inputs.members.parameters,
            log10_k=np.full(200, np.median(inputs.members.parameters.log10_k)),
            start_ph_shift=np.zeros(200),
        )
        known = replace(inputs, members=replace(inputs.members, parameters=lime))
        ends = run_column(known, known.events).ph[:, -1]
        medians.append(np.median(ends))
        ratios.append(np.subtract(*np.quantile(ends, (0.95, 0.05))))
    assert medians[1] < medians[0] - 0.05
    assert ratios[1] > ratios[0]


@pytest.mark.parametrize(
    ("place", "source"),
    [("Manchester", "uk-fertilisers-1991"), ("Minneapolis", "ohio-code-905-54")],
)
def test_the_working_names_the_law_of_the_grade(place: str, source: str) -> None:
    case = plot(place=place)
    answer = advise(case)
    assert source in {line.key for line in answer.sources}
    sums = own_sum(case, answer, "applications.0.rate_g_m2")
    assert source in sums.source_keys
    assert "below 0.15 mm" in read(sums.aside)
