"""Every number of an answer, worked out again from what its sum shows."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace
from functools import lru_cache
from pathlib import Path

import pytest

from loamshift.case.read import parse_case, read_case
from loamshift.domain.answer import Answer
from loamshift.domain.case import Case
from loamshift.domain.own_sum import Origin, OwnSum, SumStep
from loamshift.services.advise import LookAhead, advise
from loamshift.services.own_sum.margin import margin_sums
from loamshift.services.own_sum.opened import open_bed
from loamshift.services.own_sum.sums import NoSum, own_keys, own_sum, own_sums
from loamshift.services.own_sum.width import Cause
from loamshift.services.own_sum.width import test_for as asked_for
from loamshift.tables.references import load_references
from odd_cases.cases import LIME_FREE, PEAT_POTS, WATER, put_on, read, read_again, text
from services.beds import bed

EXAMPLES = sorted((Path(__file__).parents[3] / "examples").glob("*.toml"))
HARD_WATER = '[water]\nalkalinity = "220 mg/L CaCO3"\nweekly = "20 L"\n'
AHEAD = LookAhead(members=50)
"""A sum is worked out from what it shows, however many members that came from."""
DUG_IN = put_on("2025-04-20", "elemental sulfur, powder", "80 g/m2", depth="15 cm")
LATE = put_on("2026-03-20", "elemental sulfur, powder", "40 g/m2", depth="15 cm")
SAMPLED = "sampled = 2026-03-01\n"
ODD = {
    "salt reading": text(
        soil='ph = 6.2\nph_method = "CaCl2"\ntexture = "clay loam"\n', aim="target_ph = 5.2"
    ),
    "two readings": text(
        soil=f'ph = 6.4\n{WATER}texture = "loam"\n'
        '[[soil.other_ph]]\nph = 5.8\nph_method = "CaCl2"\n',
        aim="target_ph = 5.2",
    ),
    "read again": text(
        soil=f'ph = 6.8\n{WATER}texture = "loam"\nsampled = 2025-03-20\n',
        aim="target_ph = 5.5",
        more=DUG_IN + read_again("2026-04-01", 6.6),
    ),
    "lime on its way": text(
        soil=read(5.0) + SAMPLED,
        aim="target_ph = 6.5",
        more=put_on("2026-03-20", "ground limestone, calcitic", "100 g/m2", depth="15 cm"),
    ),
    "sulfur on its way": text(
        soil=f'ph = 7.4\n{WATER}texture = "clay"\nfizz = "slight"\n{SAMPLED}',
        aim="target_ph = 6.0",
        more=LATE + '[[claim]]\nmaterial = "pine needles"\nrate = "2 kg/m2"\n',
    ),
    "pots": text(
        bed=PEAT_POTS,
        soil=f'ph = 6.4\n{WATER}medium = "peat mix"\n',
        aim='plant = "highbush blueberry"',
        more=HARD_WATER + '[feed]\nmaterial = "ammonium sulfate"\nrate = "20 g/m2"\ntimes = 3\n',
    ),
    "probe": text(soil='ph = 7.2\nph_method = "probe"\n', aim='plant = "highbush blueberry"'),
    "turf dug in": text(
        bed='area = "20 m2"\nplanted = false\nbefore = "turf"\nbefore_years = 1',
        soil=read(6.2),
        aim="target_ph = 6.5",
    ),
    "water of no alkalinity": text(
        soil=read(6.4),
        aim="target_ph = 5.5",
        more='[water]\nalkalinity = 0\nweekly = "20 mm"\n[feed]\nn_g_m2_year = 8\nform = "urea"\n',
    ),
    "free lime left since a reading": text(
        soil=f'ph = 6.3\n{WATER}texture = "loam"\ncarbonate_pct = 0.4\nsampled = 2024-03-01\n',
        aim="target_ph = 6.5",
        more='[feed]\nn_g_m2_year = 8\nform = "ammonium"\n',
    ),
    "bare ground": text(
        bed='area = "20 m2"\nplanted = false', soil=read(6.4), aim="target_ph = 6.5"
    ),
    "jars": text(
        soil=read(6.4, texture="clay loam"),
        aim="target_ph = 5.0",
        more="[[titration]]\nacid_mmolc_kg = 20\nph = 5.9\n"
        "[[titration]]\nacid_mmolc_kg = 40\nph = 5.3\n",
    ),
    "no aim": text(
        soil=read(6.4), aim="", more='[[claim]]\nmaterial = "vinegar"\nrate = "1 L/m2"\n'
    ),
    "weak lime and nitrate": text(
        soil=read(5.2),
        aim='plant = "cabbage"',
        more='[[on_hand]]\nmaterial = "garden lime"\npurity_pct = 85\npack = "20 kg"\n'
        'price = 9\ncurrency = "GBP"\n[feed]\nn_g_m2_year = 10\nform = "nitrate"\n' + HARD_WATER,
    ),
    "wanted soon": text(soil=read(7.0, lime=LIME_FREE), aim="target_ph = 6.0\nby = 2026-05-20"),
    "no place": text(soil=read(6.6), aim="target_ph = 5.0").replace(
        '[place]\nname = "Manchester"\n', ""
    ),
}


@lru_cache(maxsize=64)
def example(path: Path) -> tuple[Case, Answer]:
    case = read_case(path)
    return case, advise(case, look_ahead=AHEAD)


@lru_cache(maxsize=64)
def odd(name: str, *, forecast: bool) -> tuple[Case, Answer]:
    case = parse_case(ODD[name])
    return case, advise(case, look_ahead=AHEAD if forecast else None)


def worked_out(step: SumStep) -> float:
    """The formula of a step, worked out from the inputs that stand beside it."""
    right = step.formula.split(" = ", 1)[1]
    for one in step.inputs:
        right = right.replace(f"{{{one.symbol}}}", f"({one.value!r})")
    assert "{" not in right, step.formula
    python = right.replace("×", "*").replace("−", "-").replace("^", "**")
    return float(eval(python, {"min": min, "max": max, "exp": math.exp}))


def check(sums: Mapping[str, OwnSum]) -> None:
    assert sums
    for key, own in sums.items():
        if own.answer_value is not None:
            assert own.last.value == pytest.approx(own.answer_value, rel=2e-6, abs=1e-6), key
        seen: dict[str, float] = {}
        for step in own.steps:
            if step.formula:
                assert worked_out(step) == pytest.approx(step.value, rel=1e-4, abs=1e-6), key
            for one in step.inputs:
                if one.origin is Origin.STEP and one.symbol in seen:
                    assert one.value == seen[one.symbol], (key, one.symbol)
            seen[step.symbol] = step.value
        assert own.sure, key
        for source in own.source_keys:
            assert source in load_references(), key


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_sum_of_an_example_gives_the_figure_of_the_answer(path: Path) -> None:
    case, answer = example(path)
    sums = own_sums(case, answer)
    assert tuple(sums) == own_keys(answer)
    check(sums)


@pytest.mark.parametrize("name", ODD)
def test_every_sum_of_an_odd_case_gives_the_figure_of_the_answer(name: str) -> None:
    check(own_sums(*odd(name, forecast=True)))


@pytest.mark.parametrize("name", ["read again", "lime on its way", "pots"])
def test_sums_without_a_forecast(name: str) -> None:
    check(own_sums(*odd(name, forecast=False)))


@pytest.mark.parametrize("forecast", [False, True])
def test_the_sums_in_the_margin_know_what_readings_taught(forecast: bool) -> None:
    """Rotting matter hands back base by the strength of the soil, here half of its texture's."""
    taught = bed(
        'ph = 5.8\nph_method = "water 1:1"\ntexture = "loam"\norganic_matter_pct = 3\n'
        "carbonate_pct = 0\nsampled = 2026-03-29",
        aim="target_ph = 6.0\nby = 2028-04-12",
        more='[[reading]]\ndate = 2025-04-01\nph = 7.0\nph_method = "water 1:1"\n'
        '[[applied]]\ndate = 2025-04-12\nmaterial = "elemental sulfur, powder"\n'
        'rate = "25 g/m2"\nincorporated = "15 cm"\n',
    )
    answer = advise(taught, look_ahead=AHEAD if forecast else None)
    assert answer.refit is not None and answer.refit.acid_scale.now.mid < 0.8
    told = [own for own in margin_sums(taught, answer).values() if own.answer_value is not None]
    assert told
    for own in told:
        assert own.last.value == pytest.approx(own.answer_value, rel=1e-5), own.key


def test_a_sum_follows_the_case_and_not_the_answer() -> None:
    case, answer = odd("jars", forecast=True)
    deeper = replace(case, bed=replace(case.bed, depth_cm=30.0))
    own = own_sum(deeper, answer, "dose.sulfur_as_s_g_m2")
    assert own.answer_value is not None
    assert own.last.value == pytest.approx(2.0 * own.answer_value)


def test_what_was_said_assumed_and_looked_up_is_told_apart() -> None:
    case, answer = odd("probe", forecast=True)
    own = own_sum(case, answer, "dose.sulfur_as_s_g_m2.mid")
    origins = {one.symbol: one.origin for one in own.inputs}
    assert origins["clay"] is Origin.ASSUMED
    assert origins["d"] is Origin.ASSUMED
    assert origins["k"] is Origin.TABLE
    assert origins["pH₀"] is Origin.CASE
    told = parse_case(text(bed='area = "8 m2"\ndepth = "20 cm"', soil=read(6.9),
                           aim="target_ph = 5.5"))  # fmt: skip
    known = own_sum(told, advise(told), "dose.sulfur_as_s_g_m2")
    origins = {one.symbol: one.origin for one in known.inputs}
    assert origins["clay"] is Origin.CASE
    assert origins["d"] is Origin.CASE


@pytest.mark.parametrize(
    ("written", "full"),
    [
        ("dose", "dose.acid_mmolc_kg.mid"),
        ("dose.sulfur_as_s_g_m2", "dose.sulfur_as_s_g_m2.mid"),
        ("applications[0].rate_g_m2", "applications.0.rate_g_m2"),
        ("applications.rate_g_m2", "applications.0.rate_g_m2"),
        ("plan", "plan.share_in_range"),
        (" PLAN.SHARE_IN_RANGE ", "plan.share_in_range"),
        ("ledger.lines.value", "ledger.lines.0.value"),
    ],
)
def test_a_key_may_be_written_short(written: str, full: str) -> None:
    case, answer = odd("jars", forecast=True)
    assert own_sum(case, answer, written).key == full


@pytest.mark.parametrize("key", ["", "plan.share_in_rang", "dose.lime_as_caco3_g_m2", "name"])
def test_a_number_the_answer_lacks_is_refused_with_one_that_works(key: str) -> None:
    case, answer = odd("jars", forecast=True)
    with pytest.raises(NoSum) as error:
        own_sum(case, answer, key)
    for near in error.value.nearest:
        assert own_sum(case, answer, near).key == near
    assert "For example: loamshift why " in str(error.value)


def test_what_is_told_to_type_works_where_nothing_is_near() -> None:
    case, answer = example(next(path for path in EXAMPLES if path.stem == "overdone-bed"))
    with pytest.raises(NoSum) as error:
        own_sum(case, answer, "zzzz")
    typed = str(error.value).split("loamshift why ", 1)[1].split(" --case")[0]
    assert own_sum(case, answer, typed).key == typed


@pytest.mark.parametrize(
    ("lime", "asked"),
    [
        ("", "fizz"),
        ('fizz = "none"\nfizz_acid = "vinegar"', "laboratory-lime"),
        ('fizz = "strong"\nfizz_acid = "HCl"', "laboratory-lime"),
        ("carbonate_pct = 2", None),
    ],
)
def test_no_test_of_the_lime_is_asked_for_twice(lime: str, asked: str | None) -> None:
    soil = 'ph = 7.6\nph_method = "water 1:1"\ntexture = "loam"\norganic_matter_pct = 3\n'
    case = parse_case(text(soil=soil + lime, aim="target_ph = 6.0"))
    opened = open_bed(case, advise(case))
    assert asked_for(opened, Cause.LIME) == asked
