"""The belief without the column learns from readings as the one with it does."""

from __future__ import annotations

import numpy as np
import pytest

from loamshift.domain.case import Case
from loamshift.services.belief.belief import believe
from loamshift.services.context.build_context import build_context
from loamshift.services.courses.cheap_belief import cheap_belief
from loamshift.services.courses.seasons import seasons_ahead
from services.beds import bed

LOAM = 'ph = {}\nph_method = "water 1:1"\ntexture = "loam"\norganic_matter_pct = 3\n'
MEASURED = LOAM + "carbonate_pct = 0\n"
BEFORE = '[[reading]]\ndate = 2023-04-01\nph = 7.0\nph_method = "water 1:1"\n'
SULFUR = (
    '[[applied]]\ndate = 2023-04-12\nmaterial = "elemental sulfur, powder"\nrate = "{} g/m2"\n'
    'incorporated = "15 cm"\n'
)
PLANTED = 'kind = "ground"\nplanted = true\narea = "10 m2"'
AHEAD = 800


def scales(case: Case) -> tuple[float, float]:
    """Resistance against the usual after the readings: by one layer, and by the column."""
    context = build_context(case)
    quick = cheap_belief(context, days_ahead=AHEAD).refit
    full = believe(context, members=60, seed=1, days_ahead=AHEAD).refit
    assert quick is not None and full is not None
    return quick.acid_scale.now.mid, full.acid_scale.now.mid


@pytest.mark.parametrize(("sulfur", "ph"), [(60, 6.6), (150, 6.6), (60, 6.0), (30, 6.4)])
def test_readings_teach_as_much_as_with_the_column(sulfur: float, ph: float) -> None:
    quick, full = scales(bed(MEASURED.format(ph), more=BEFORE + SULFUR.format(sulfur)))
    assert quick == pytest.approx(full, rel=0.2)


def test_more_sulfur_for_the_same_fall_is_a_soil_that_resists_more() -> None:
    found = [
        scales(bed(MEASURED.format(6.6), more=BEFORE + SULFUR.format(amount)))[0]
        for amount in (30, 90, 270)
    ]
    assert found == sorted(found) and found[-1] > 1.5 * found[0]


def test_readings_set_aside_leave_the_scale() -> None:
    context = build_context(bed(MEASURED.format(6.6), more=BEFORE + SULFUR.format(150)))
    aside = cheap_belief(context, days_ahead=AHEAD, refit=False).refit
    assert aside is not None and not aside.used
    assert aside.acid_scale.now.mid == aside.acid_scale.prior.mid


@pytest.mark.parametrize("ph", [7.6, 6.2])
def test_the_bed_goes_on_from_the_day_it_was_read(ph: float) -> None:
    """Two years lie between reading and today: both ways go on from that day."""
    context = build_context(bed(MEASURED.format(ph) + "sampled = 2024-04-12\n"))
    quick = cheap_belief(context, days_ahead=AHEAD).beds.run(()).ph
    full = believe(context, members=60, seed=1, days_ahead=AHEAD).beds.run(()).ph
    now, then = (float(np.median(one[:, 0])) for one in (quick, full))
    assert now == pytest.approx(then, abs=0.1)
    assert now < ph - 0.02


@pytest.mark.parametrize("depth_cm", [10, 15, 30])
def test_a_sample_of_another_depth_sees_surface_sulfur_as_the_column_does(depth_cm: float) -> None:
    sulfur = (
        '[[applied]]\ndate = 2026-04-01\nmaterial = "elemental sulfur, powder"\nrate = "40 g/m2"\n'
    )
    soil = MEASURED.format(6.6) + f"sample_depth = {depth_cm}\n"
    context = build_context(bed(soil, more=sulfur))
    quick = cheap_belief(context, days_ahead=AHEAD).beds.run(()).ph
    full = believe(context, members=60, seed=1, days_ahead=AHEAD).beds.run(()).ph
    falls = [float(np.median(one[:, -1]) - np.median(one[:, 0])) for one in (quick, full)]
    assert falls[0] == pytest.approx(falls[1], abs=0.15)


@pytest.mark.parametrize(("ph", "amount"), [(5.3, 400.0), (6.2, 400.0)])
def test_lime_left_on_the_surface_gets_in_as_slowly_as_in_the_column(
    ph: float, amount: float
) -> None:
    context = build_context(bed(MEASURED.format(ph), bed=PLANTED, aim="target_ph = 6.8"))
    parts = seasons_ahead(context, acidify=False).simulated((amount,))
    quick = cheap_belief(context, days_ahead=AHEAD).beds
    full = believe(context, parts, members=60, seed=1, days_ahead=AHEAD).beds
    rises = [float(np.median(one.run(parts).ph[:, -1]) - ph) for one in (quick, full)]
    assert rises[0] == pytest.approx(rises[1], abs=0.15)


@pytest.mark.parametrize(("ph", "method"), [(9.9, "water 1:1"), (9.4, "CaCl2"), (2.4, "KCl")])
def test_an_earlier_reading_beyond_the_curve_is_started_at_its_end(ph: float, method: str) -> None:
    before = f'[[reading]]\ndate = 2024-04-01\nph = {ph}\nph_method = "{method}"\n'
    context = build_context(bed(MEASURED.format(6.6), more=before))
    for beds in (
        cheap_belief(context, days_ahead=AHEAD).beds,
        believe(context, members=25, seed=1, days_ahead=AHEAD).beds,
    ):
        assert np.all(np.isfinite(beds.run(()).ph))
