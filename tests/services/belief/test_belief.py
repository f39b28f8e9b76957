"""One belief: what readings teach about a bed, and what they cannot."""

from __future__ import annotations

from functools import cache
from itertools import pairwise

import numpy as np
import pytest

from loamshift.domain.answer import Refit
from loamshift.domain.case import Case
from loamshift.services.belief.belief import Belief, believe
from loamshift.services.context.build_context import build_context, require_soil
from services.beds import bed
from wording import read

MEMBERS = 100
LOAM = (
    'ph = {}\nph_method = "{}"\nsampled = 2026-04-01\ntexture = "loam"\n'
    "organic_matter_pct = 3\ncarbonate_pct = 0\n"
)
BEFORE = '[[reading]]\ndate = {}\nph = {}\nph_method = "{}"\n'
SULFUR = (
    '[[applied]]\ndate = 2023-04-20\nmaterial = "elemental sulfur, powder"\n'
    'rate = "{} g/m2"\nincorporated = "15 cm"\n'
)


def case(
    now: float, *more: str, before: float = 7.2, method: str = "water 1:1", on: str = "2023-04-01"
) -> Case:
    return bed(LOAM.format(now, method), more=BEFORE.format(on, before, method) + "".join(more))


def believed(of: Case, *, refit: bool = True, ahead: int = 400) -> Belief:
    return believe(build_context(of), members=MEMBERS, seed=1, days_ahead=ahead, refit=refit)


@cache
def after_sulfur(rate_g_m2: float, now: float = 6.6) -> Belief:
    return believed(case(now, *([SULFUR.format(rate_g_m2)] if rate_g_m2 else [])))


def learned(belief: Belief) -> Refit:
    assert belief.refit is not None
    return belief.refit


def test_without_a_history_the_prior_stands() -> None:
    only = bed(LOAM.format(6.6, "water 1:1"))
    belief = believed(only)
    soil = require_soil(build_context(only))
    assert belief.refit is None and belief.soil == soil
    found = belief.beds.log10_k
    assert found.mean() == pytest.approx(soil.k.log10_k_mean, abs=0.01)
    assert found.std() == pytest.approx(soil.k.log10_k_sd, rel=0.1)


def test_more_sulfur_for_the_same_fall_is_a_soil_that_resists_more() -> None:
    """98 and 300 g/m2 three years ago, and pH 6.6 now: not the same soil twice.

    After 600 g/m2 no soil reads 6.6: there the reading is doubted.
    """
    scales = [learned(after_sulfur(rate)).acid_scale.now.mid for rate in (0, 98, 300)]
    assert all(b > 1.3 * a for a, b in pairwise(scales))
    assert learned(after_sulfur(600)).doubted
    assert scales[1] > 1.4, "98 g/m2 should have taken this loam well below 6.6"


def test_a_lower_reading_after_the_same_sulfur_is_a_soil_that_resists_less() -> None:
    scales = [learned(after_sulfur(98, now)).acid_scale.now.mid for now in (4.2, 5.0, 6.6)]
    assert scales == sorted(scales) and scales[0] < 0.5


def test_what_was_learned_narrows_the_scale_and_reaches_soil_and_beds() -> None:
    belief = after_sulfur(98)
    prior = require_soil(build_context(case(6.6))).k
    assert belief.soil.k.log10_k_sd < 0.7 * prior.log10_k_sd
    assert belief.soil.k.log10_k_mean == pytest.approx(
        np.log10(learned(belief).acid_scale.now.mid), abs=0.03
    )
    assert belief.beds.log10_k.mean() == pytest.approx(belief.soil.k.log10_k_mean, abs=0.03)
    assert belief.soil.k.contributions[-1] == "earlier readings of this bed"


def test_the_beds_read_today_what_was_read() -> None:
    belief = after_sulfur(98)
    today = belief.beds.run(()).ph[:, 0]
    error = require_soil(build_context(case(6.6))).ph.ph_water_sd
    assert np.median(today) == pytest.approx(6.6, abs=error), "the sulfur says lower, the test not"
    assert today.std() < 0.3


def test_earlier_readings_are_set_aside_on_request() -> None:
    of = case(6.6, SULFUR.format(300))
    aside = believed(of, refit=False)
    told = learned(aside)
    assert not told.used and told.readings == 2 and "left out" in read(told.words)
    assert told.acid_scale.now == told.acid_scale.prior
    assert aside.soil == require_soil(build_context(of))


@pytest.mark.parametrize("now", [7.9, 8.3])
def test_a_reading_that_fits_no_bed_is_doubted_before_the_soil(now: float) -> None:
    """Sulfur went on, and the pH rose."""
    told = learned(after_sulfur(98, now))
    (doubt,) = told.doubted
    assert f"pH {now}" in read(doubt) and "1 April 2026" in read(doubt)
    assert "times as much" not in read(told.words)


def test_readings_that_contradict_each_other_are_named() -> None:
    told = learned(
        believed(
            bed(
                LOAM.format(6.6, "water 1:1"),
                more="".join(
                    BEFORE.format(on, ph, "water 1:1")
                    for on, ph in (("2022-04-01", 5.0), ("2023-04-01", 7.6), ("2024-04-01", 5.2))
                ),
            )
        )
    )
    assert told.doubted and told.readings == 4


def test_a_strange_soil_at_the_end_of_what_can_be_told_is_said() -> None:
    told = learned(after_sulfur(300))
    assert "even more than we can represent" in read(told.words) and not told.doubted
    assert "even less than we can represent" in read(learned(after_sulfur(98, 3.9)).words)


def test_readings_of_one_season_are_one_and_teach_nothing() -> None:
    assert believed(case(6.6, on="2026-01-10", before=6.8)).refit is None
    assert believed(case(6.6, on="2026-04-01", before=6.6)).refit is None


def test_a_probe_before_the_laboratory_is_left_out() -> None:
    of = bed(LOAM.format(6.6, "water 1:1"), more=BEFORE.format("2023-04-01", 7.9, "probe"))
    assert believed(of).refit is None


def test_readings_by_probe_alone_are_weighed_and_called_rough() -> None:
    rough = learned(believed(case(6.6, SULFUR.format(98), method="probe")))
    exact = learned(after_sulfur(98))
    assert "rough" in read(rough.words)
    width = [np.log(told.acid_scale.now.hi90 / told.acid_scale.now.lo90) for told in (rough, exact)]
    assert width[0] > width[1]


def test_nothing_put_on_between_two_like_readings_says_little_of_the_soil() -> None:
    told = learned(after_sulfur(0, 7.2))
    prior, now = told.acid_scale.prior, told.acid_scale.now
    assert now.lo90 < 0.75 * prior.mid < prior.mid < 0.75 * now.hi90
    assert now.hi90 / now.lo90 > 0.75 * prior.hi90 / prior.lo90


def test_free_lime_nobody_looked_for_may_be_the_reason_too() -> None:
    unknown = LOAM.replace("carbonate_pct = 0\n", "").format(7.4, "water 1:1")
    of = bed(unknown, more=BEFORE.format("2023-04-01", 7.6, "water 1:1") + SULFUR.format(200))
    known = case(7.4, SULFUR.format(200), before=7.6)
    assert learned(believed(of)).acid_scale.now.mid < learned(believed(known)).acid_scale.now.mid


def test_the_same_seed_gives_the_same_beds_and_another_others() -> None:
    context = build_context(case(6.6, SULFUR.format(98)))
    one, two, other = (
        believe(context, members=MEMBERS, seed=seed, days_ahead=100) for seed in (1, 1, 2)
    )
    assert one.refit == two.refit and np.array_equal(one.beds.log10_k, two.beds.log10_k)
    assert not np.array_equal(one.beds.log10_k, other.beds.log10_k)
    a, b = learned(one).acid_scale.now.mid, learned(other).acid_scale.now.mid
    assert a == pytest.approx(b, rel=0.1), "draws of another seed must not tell another soil"
