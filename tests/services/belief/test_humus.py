"""Humus that rots beyond what the use of the ground gives back: whose, and what is said of it."""

from __future__ import annotations

import numpy as np
import pytest

from loamshift.domain.case import Before, Case
from loamshift.services.advise import advise
from loamshift.services.belief.column_inputs import draw_members_of
from loamshift.services.belief.column_priors import Cause, FloatArray
from loamshift.services.belief.humus import HUMUS_FIELDS, humus_history
from loamshift.services.context.build_context import build_context, require_soil
from loamshift.services.upkeep.humus import humus_year
from services.beds import bed

SOIL = 'ph = 6.0\nph_method = "water 1:2.5"\ntexture = "loam"\norganic_matter_pct = 5'
BARE = 'area = "20 m2"\nplanted = false'
PLANTED = 'area = "20 m2"\nplanted = true'
NO_PLANT = "target_ph = 6.5"


def plot(ground: str, *, aim: str = NO_PLANT, soil: str = SOIL) -> Case:
    return bed(soil, bed=ground, aim=aim)


def drawn(case: Case, members: int = 200) -> dict[str, FloatArray]:
    context = build_context(case)
    found = draw_members_of(context, (), soil=require_soil(context), members=members, seed=1)
    return {name: getattr(found.parameters, name) for name in (*HUMUS_FIELDS, "realised_frac")}


@pytest.mark.parametrize(
    ("ground", "aim"),
    [
        (PLANTED, NO_PLANT),
        (f'{PLANTED}\nbefore = "arable"', NO_PLANT),
        (f'{BARE}\nbefore = "arable"', 'plant = "cabbage"'),
        (f'{BARE}\nkind = "raised"', 'plant = "cabbage"'),
        ('kind = "lawn"\nbefore = "turf"', NO_PLANT),
        ('kind = "container"\narea = "0.1 m2"\nbefore = "turf"', NO_PLANT),
    ],
)
def test_nothing_rots_beyond_the_use_of_lawns_pots_and_usual_planted_ground(
    ground: str, aim: str
) -> None:
    case = plot(ground, aim=aim)
    assert humus_history(build_context(case)) is None
    assert all(not np.any(values) for name, values in drawn(case).items() if name in HUMUS_FIELDS)


def test_turf_that_bears_plants_rots_fast_and_bare_ground_slowly_too() -> None:
    planted = drawn(plot(f'{PLANTED}\nbefore = "turf"\nbefore_years = 0'))
    bare = drawn(plot(f'{BARE}\nbefore = "turf"\nbefore_years = 0'))
    assert np.all(planted["humus_labile_mmol_kg"] > 0.0)
    assert not np.any(planted["humus_slow_mmol_kg"])
    assert np.all(bare["humus_slow_mmol_kg"] > 0.0)
    assert np.median(bare["realised_frac"]) > 1.8 * np.median(planted["realised_frac"])


def test_the_longer_ago_the_less_is_left_that_rots_fast() -> None:
    medians = [
        np.median(
            drawn(plot(f'{PLANTED}\nbefore = "turf"\nbefore_years = {years}'))[
                "humus_labile_mmol_kg"
            ]
        )
        for years in (0, 5, 20, 60)
    ]
    assert medians == sorted(medians, reverse=True)
    assert medians[-1] < 0.02 * medians[0]


def test_bare_ground_of_unknown_history_is_drawn_wider_than_any_one_history_and_is_asked_for() -> (
    None
):
    unknown = drawn(plot(BARE))["humus_labile_mmol_kg"]
    turf = drawn(plot(f'{BARE}\nbefore = "turf"\nbefore_years = 0'))["humus_labile_mmol_kg"]
    assert np.std(np.log(unknown)) > 2.0 * np.std(np.log(turf))
    asked = [row.field for row in advise(plot(BARE)).missing]
    assert "bed.before" in asked
    told = advise(plot(f'{BARE}\nbefore = "turf"'))
    assert "bed.before_years" in [row.field for row in told.missing]
    settled = advise(plot(f'{BARE}\nbefore = "turf"\nbefore_years = 2'))
    assert not {"bed.before", "bed.before_years"} & {row.field for row in settled.missing}


def test_members_of_other_beds_are_the_ones_of_before() -> None:
    for ground in (PLANTED, f'{PLANTED}\nbefore = "turf"\nbefore_years = 1'):
        context = build_context(plot(ground))
        found = draw_members_of(context, (), soil=require_soil(context), members=50, seed=1)
        has_humus = humus_history(context) is not None
        assert (Cause.HUMUS in found.causes) == has_humus
        first = found.parameters.lime_half_time_d
        plain = build_context(plot(PLANTED))
        same = draw_members_of(plain, (), soil=require_soil(plain), members=50, seed=1)
        assert np.array_equal(first, same.parameters.lime_half_time_d)


def test_the_ledger_has_the_line_of_hand_arithmetic_and_the_letter_says_what_it_is() -> None:
    case = plot(f'{BARE}\nbefore = "turf"\nbefore_years = 0', soil=SOIL)
    context = build_context(case)
    year = humus_year(context, held_ph=6.0)
    assert year is not None
    carbon = 5.0 / 1.724
    turf, rest = 0.4 * (1 - np.exp(-0.126)), 0.6 * (1 - np.exp(-0.017))
    by_hand = carbon * 10.0 / 10.5 / 0.014007 * (turf + rest)
    assert year.nitrogen_mmol_kg == pytest.approx(by_hand, rel=0.12)
    assert year.base_mol_mol == pytest.approx(2.3 * 10.5 * 0.014007, rel=0.15)
    answer = advise(case)
    assert answer.ledger is not None and answer.upkeep is not None
    names = [str(line.name) for line in answer.ledger.lines]
    assert any("humus-rotting" in name for name in names)
    said = str(answer.upkeep.comment)
    assert "upkeep-humus" in said
    assert humus_history(context) is not None
    assert context.case.bed.before is Before.TURF
