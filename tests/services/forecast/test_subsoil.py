"""Layers below the sample: how the column starts them, what they mean, and what reaches them."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from loamshift.core.column_layout import ColumnResult
from loamshift.domain.answer import Answer
from loamshift.domain.case import Case, LayerEntry
from loamshift.domain.ph import PhMethod
from loamshift.domain.soil import Fizz, FizzAcid
from loamshift.domain.subsoil import RootsBelow, Subsoil
from loamshift.report.letter import letter_from_answer
from loamshift.report.markdown import letter_markdown
from loamshift.report.words import Words
from loamshift.services.advise import LookAhead, advise
from loamshift.services.belief.column_inputs import forecast_inputs
from loamshift.services.belief.column_runs import run
from loamshift.services.belief.layers_below import layers_below
from loamshift.services.context.build_context import build_context
from loamshift.services.forecast.subsoil import subsoil_of
from loamshift.tables.soils import carbonate_belief
from services.beds import bed

ACID_TOP = (
    'ph = 5.4\nph_method = "water 1:1"\ntexture = "loam"\norganic_matter_pct = 3\n'
    'carbonate_pct = 0\nsample_depth = "15 cm"'
)
CHALK = LayerEntry(
    top_cm=30.0, bottom_cm=60.0, ph=7.9, method=PhMethod.WATER_1_1, carbonate_pct=20.0
)
ACID = replace(CHALK, ph=4.6, carbonate_pct=0.0)


def over(*layers: LayerEntry, aim: str = 'plant = "cabbage"', kind: str = "") -> Case:
    case = bed(ACID_TOP, aim=aim, bed=f'area = "20 m2"\ndepth = "15 cm"\n{kind}planted = false')
    return replace(case, soil=replace(case.soil, layers=layers))


@cache
def left_alone(*layers: LayerEntry) -> ColumnResult:
    inputs = forecast_inputs(build_context(over(*layers)), (), years=1, members=6)
    return run(inputs, inputs.control_events)


@cache
def answered(layer: LayerEntry) -> Answer:
    return advise(over(layer), look_ahead=LookAhead(members=25, years=2))


def told(*layers: LayerEntry, aim: str = 'plant = "cabbage"') -> Subsoil:
    found = subsoil_of(build_context(over(*layers, aim=aim)))
    assert found is not None
    return found


def test_the_column_goes_down_to_the_deepest_layer() -> None:
    inputs = forecast_inputs(build_context(over(CHALK)), (), years=1, members=3)
    assert inputs.soil.edges_cm.tolist() == [0.0, 5.0, 15.0, 30.0, 60.0]
    assert inputs.soil.start_ph.tolist() == [5.4, 5.4, 5.4, 7.9]
    assert inputs.soil.own_lime_mmolc_m2 is not None
    lime = inputs.soil.own_lime_mmolc_m2[3].sum() / inputs.soil.mass_kg_m2[3]
    assert lime == pytest.approx(20.0 * 200.0), "200 mmolc/kg for 1 % CaCO3: 2 over 100.09 g/mol"


def test_without_layers_nothing_is_the_soils_own() -> None:
    inputs = forecast_inputs(build_context(over()), (), years=1, members=3)
    assert inputs.soil.own_lime_mmolc_m2 is None
    assert inputs.soil.edges_cm.tolist() == [0.0, 5.0, 15.0, 30.0]


def test_a_layer_like_the_sample_changes_no_bit() -> None:
    alike = replace(ACID, top_cm=15.0, bottom_cm=30.0, ph=5.4)
    with_it, without = left_alone(alike), left_alone()
    assert np.array_equal(with_it.ph, without.ph)
    assert np.array_equal(with_it.end_ph, without.end_ph)


def test_lime_holds_the_layer_at_the_ph_it_was_found_at() -> None:
    """Calcite holds a soil for as long as there is any: Lindsay 1979, from memory."""
    result = left_alone(CHALK)
    start = left_alone(replace(CHALK, bottom_cm=60.0)).end_ph[:, 3]
    assert np.median(start) == pytest.approx(7.9, abs=0.05)
    assert result.balance_error.max() < 1e-9
    mass = forecast_inputs(build_context(over(CHALK)), (), years=1, members=6).soil.mass_kg_m2[3]
    left_pct = np.median(result.carbonate_mmolc_m2[:, 3]) / mass / 200.0
    assert 0.5 * 20.0 < left_pct <= 20.0, "the fine share of it"


def test_a_fizz_stands_for_the_middle_of_what_it_allows() -> None:
    fizzed = replace(CHALK, carbonate_pct=None, fizz=Fizz.STRONG, fizz_acid=FizzAcid.HCL)
    belief = carbonate_belief(Fizz.STRONG, FizzAcid.HCL, 7.9)
    (found,) = layers_below(build_context(over(fizzed)))
    assert found.carbonate_pct == pytest.approx(np.sqrt(belief.low_pct * belief.high_pct))


def test_a_pot_has_no_layers_below() -> None:
    context = build_context(over(CHALK, kind='kind = "container"\n'))
    assert layers_below(context) == ()
    assert subsoil_of(context) is None


@pytest.mark.parametrize(
    ("read", "roots"),
    [(4.7, RootsBelow.ALUMINIUM), (4.9, RootsBelow.TOO_LOW), (5.8, RootsBelow.SUITS)],
)
def test_aluminium_is_told_below_the_published_limit(read: float, roots: RootsBelow) -> None:
    """Toxic in the subsoil below pH 4.8 in calcium chloride: Western Australia department of
    agriculture, Effects of soil acidity.
    """
    layer = replace(ACID, ph=read, method=PhMethod.CACL2)
    assert told(layer, aim="target_ph = 6.6").layers[0].roots is roots


def test_acid_that_the_plant_wants_is_no_fault_of_the_layer() -> None:
    assert told(ACID, aim='plant = "highbush blueberry"').layers[0].roots is RootsBelow.SUITS
    assert told(CHALK, aim='plant = "highbush blueberry"').layers[0].roots is RootsBelow.TOO_HIGH


def test_lime_dug_into_the_topsoil_does_not_reach_an_acid_subsoil_in_two_years() -> None:
    found = answered(ACID).subsoil
    assert found is not None and found.treated
    top, deepest = found.depths[0], found.depths[-1]
    assert top.shows_from is not None and top.ph_planned > top.ph_untreated + 0.5
    assert deepest.shows_from is None
    assert deepest.ph_planned == pytest.approx(deepest.ph_untreated, abs=0.1)
    assert found.reached_cm < ACID.top_cm


def test_the_letter_says_what_lies_below_and_how_far_the_lime_reaches() -> None:
    case = over(ACID)
    text = letter_markdown(letter_from_answer(answered(ACID), case, words=Words()))
    section = text[text.index("What lies below") :]
    assert "30 to 60 cm:" in section
    assert "aluminium in a subsoil is toxic to roots" in section
    assert "Only lime dug in that deep would." in section
    alone = letter_from_answer(advise(replace(case, soil=over().soil)), case, words=Words())
    assert "What lies below" not in letter_markdown(alone)
