from __future__ import annotations

from datetime import date, timedelta
from itertools import pairwise

import numpy as np
import pytest

from loamshift.domain.answer import Application
from loamshift.domain.message import message
from loamshift.services.belief.column_inputs import forecast_inputs
from loamshift.services.belief.column_priors import Cause
from loamshift.services.context.build_context import build_context
from loamshift.services.forecast.outlook import (
    Outlook,
    WidthShare,
    forecast,
    width_shares,
    width_words,
)
from services.beds import TODAY, bed
from wording import read

NO_LIME = (
    'ph = 7.0\nph_method = "water 1:1"\ntexture = "loam"\norganic_matter_pct = 3\ncarbonate_pct = 0'
)
MEMBERS = 60


def powder(rate_g_m2: float, *, on: date = date(2026, 5, 1), depth_cm: float = 15.0) -> Application:
    return Application(
        date=on,
        material="elemental sulfur, powder",
        rate_g_m2=rate_g_m2,
        amount_g=None,
        incorporate_cm=depth_cm,
        only_if=None,
    )


@pytest.fixture(scope="module")
def loam() -> Outlook:
    """Minneapolis loam at pH 7 without free lime, 100 g/m2 of powder dug in in May."""
    return forecast(build_context(bed(NO_LIME)), [powder(100.0)], members=MEMBERS)


def week_of(outlook: Outlook, day: date) -> int:
    return next(i for i, d in enumerate(outlook.forecast.dates) if d >= day)


def test_it_runs_from_today_week_by_week_for_three_years(loam: Outlook) -> None:
    dates = loam.forecast.dates
    assert dates[0] == TODAY
    assert {b - a for a, b in pairwise(dates)} == {timedelta(days=7)}
    assert (dates[-1] - TODAY).days > 3 * 365 - 7


def test_sulfur_lowers_the_ph(loam: Outlook) -> None:
    median = loam.forecast.ph.q50
    assert median[0] == pytest.approx(7.0, abs=0.08)
    assert median[week_of(loam, date(2026, 10, 1))] < 6.3
    assert min(median) > 4.0


def test_the_first_fall_comes_within_four_to_sixteen_weeks(loam: Outlook) -> None:
    fall = np.median(loam.control_ph - loam.bed_ph, axis=0)
    first = int(np.argmax(fall >= 0.3))
    weeks_after = (loam.forecast.dates[first] - date(2026, 5, 1)).days / 7.0
    assert 4.0 <= weeks_after <= 16.0


def test_bands_are_in_order(loam: Outlook) -> None:
    ph = loam.forecast.ph
    bands = np.array([ph.q05, ph.q25, ph.q50, ph.q75, ph.q95])
    assert np.all(np.diff(bands, axis=0) > 0.0)


def test_left_alone_the_ph_hardly_moves(loam: Outlook) -> None:
    alone = loam.forecast.do_nothing.q50
    year = week_of(loam, date(2027, 4, 12))
    assert abs(alone[year] - alone[0]) < 0.15
    assert alone[year] - loam.forecast.ph.q50[year] > 0.5


def test_the_acid_balance_closes(loam: Outlook) -> None:
    assert 0.0 <= loam.balance_error < 1e-9


def test_a_seed_gives_the_same_forecast_again(loam: Outlook) -> None:
    again = forecast(build_context(bed(NO_LIME)), [powder(100.0)], members=MEMBERS)
    assert again.forecast == loam.forecast
    other = forecast(build_context(bed(NO_LIME)), [powder(100.0)], members=MEMBERS, seed=2)
    assert other.forecast != loam.forecast


def test_without_a_plan_the_control_is_the_forecast() -> None:
    outlook = forecast(build_context(bed(NO_LIME)), [], members=20, years=1)
    assert outlook.forecast.do_nothing.q50 == outlook.forecast.ph.q50


def test_more_sulfur_goes_lower_in_every_member() -> None:
    context = build_context(bed(NO_LIME))
    less, more = (
        forecast(context, [powder(rate)], members=20, years=1).bed_ph for rate in (40.0, 80.0)
    )
    assert np.all(more <= less + 1e-9)


def test_earlier_sulfur_still_comes_without_a_plan() -> None:
    applied = (
        '[[applied]]\ndate = 2026-03-20\nmaterial = "elemental sulfur, powder"\n'
        'rate = "100 g/m2"\nincorporated = "15 cm"'
    )
    outlook = forecast(build_context(bed(NO_LIME, more=applied)), [], members=20, years=1)
    assert outlook.forecast.do_nothing.q50[-1] < 6.5


def test_autumn_sulfur_waits_for_warmth() -> None:
    outlook = forecast(
        build_context(bed(NO_LIME)), [powder(100.0, on=date(2026, 10, 1))], members=MEMBERS, years=2
    )
    assert outlook.oxidised_frac[week_of(outlook, date(2027, 4, 1))] < 0.15
    assert outlook.oxidised_frac[week_of(outlook, date(2027, 9, 15))] > 0.5


def test_lime_raises_the_ph() -> None:
    lime = Application(
        date=date(2026, 4, 20),
        material="ground limestone, calcitic",
        rate_g_m2=400.0,
        amount_g=None,
        incorporate_cm=15.0,
        only_if=None,
    )
    soil = NO_LIME.replace("7.0", "5.2", 1)
    outlook = forecast(build_context(bed(soil)), [lime], members=40, years=1)
    assert outlook.forecast.ph.q50[-1] - outlook.forecast.do_nothing.q50[-1] > 0.4


def test_hard_water_lifts_a_peat_pot() -> None:
    pot = 'kind = "container"\narea = "0.1 m2"\ndepth = "20 cm"'
    water = '[water]\nalkalinity = "250 mg/L"\nweekly = "50 mm"'
    soil = 'ph = 4.8\nph_method = "water 1:2"\nmedium = "peat mix"'
    outlook = forecast(build_context(bed(soil, bed=pot, more=water)), [], members=40, years=1)
    assert outlook.forecast.ph.q50[26] - outlook.forecast.ph.q50[0] > 0.3


def test_the_width_is_explained_in_one_sentence(loam: Outlook) -> None:
    assert sum(one.share for one in loam.width_shares) == pytest.approx(1.0)
    assert loam.width_shares[0].cause == message("cause-buffering")
    assert "buffer pH or a jar titration would narrow it most" in read(loam.width_words)
    assert "11 April 2027" in read(loam.width_words)
    assert "nitrogen" not in read(loam.width_words)


def test_unknown_free_lime_is_named_as_the_cause() -> None:
    untried = NO_LIME.replace("7.0", "7.4").replace("carbonate_pct = 0", "")
    outlook = forecast(build_context(bed(untried)), [powder(100.0)], members=250, years=1)
    assert outlook.width_shares[0].cause == message("cause-free-lime")
    assert "free lime would narrow it most" in read(outlook.width_words)


def test_the_share_of_a_cause_follows_its_draw() -> None:
    inputs = forecast_inputs(build_context(bed(NO_LIME)), [powder(100.0)], members=200)
    causes, draws = inputs.members.causes, inputs.members.draws
    index = causes.index(Cause.FIRST_READING)
    shares = width_shares(causes, draws, draws[:, index], events=inputs.events)
    assert shares[0].cause == message("cause-first-reading")
    assert shares[0].share > 0.9


def test_a_width_without_a_cause_is_said() -> None:
    shares = [WidthShare(message("cause-lime"), 0.05)]
    words = width_words(build_context(bed(NO_LIME)), shares, on=date(2027, 1, 1))
    assert read(words).startswith("No single cause")


CHALKY = NO_LIME.replace("7.0", "7.6").replace("carbonate_pct = 0", "{lime}")


@pytest.mark.parametrize(
    ("soil", "cause", "asked"),
    [
        (NO_LIME, "buffering", "A laboratory buffer pH or a jar titration would narrow"),
        (CHALKY.format(lime=""), "buffering", "A jar titration would narrow"),
        (CHALKY.format(lime=""), "free-lime", "A laboratory figure for free lime would narrow"),
        (CHALKY.format(lime="carbonate_pct = 2"), "free-lime", "A second careful sample now"),
    ],
)
def test_no_test_is_asked_for_that_was_made_or_tells_nothing(
    soil: str, cause: str, asked: str
) -> None:
    widest = WidthShare(message(f"cause-{cause}"), 0.6)
    shares = [widest, WidthShare(message("cause-first-reading"), 0.4)]
    words = width_words(build_context(bed(soil)), shares, on=date(2027, 1, 1))
    assert asked in read(words)


def test_the_middle_of_the_forecast_is_the_median_of_the_beds(loam: Outlook) -> None:
    for band, beds in (
        (loam.forecast.ph.q50, loam.bed_ph),
        (loam.forecast.do_nothing.q50, loam.control_ph),
    ):
        assert band == pytest.approx(np.median(beds, axis=0).tolist())
