"""Forecasts of many beds: the answer of one bed at a time, whatever block it stands in."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from functools import cache
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest

from loamshift.case.read import read_case
from loamshift.core.ensemble import quantile_bands
from loamshift.core.water_years import water_days
from loamshift.domain.answer import Application
from loamshift.domain.bed_context import BedContext
from loamshift.domain.case import Feed
from loamshift.errors import DeviceError, InputError, OutOfRangeError
from loamshift.services.belief.column_inputs import forecast_inputs
from loamshift.services.belief.column_runs import run
from loamshift.services.context.build_context import build_context
from loamshift.services.many.forecast import Device, bands, forecast_many, median
from loamshift.services.many.forecast_beds import ManyBeds, many_beds
from loamshift.services.many.forecast_inputs import ready_blocks
from loamshift.tables.materials import find_material
from services.beds import bed

EXAMPLES = Path(__file__).resolve().parents[3] / "examples"
MEMBERS = 5
YEARS = 1
FARTHEST_PH = 1e-9
PLANS = (
    (),
    (("elemental sulfur, powder", 0, 40.0, 15.0), ("ammonium sulfate", 60, 30.0, 0.0)),
    (("elemental sulfur, prills", 14, 80.0, 10.0),),
    (("ground limestone", 3, 300.0, 20.0), ("peat moss", 200, 900.0, 0.0)),
    (("elemental sulfur, powder", 0, 0.0, 15.0), ("elemental sulfur, powder", 900, 50.0, 15.0)),
    (("aluminium sulfate", 30, 90.0, 12.0), ("elemental sulfur, powder", 30, 20.0, 0.0)),
)
WATERED = '[water]\nweekly = "20 mm"\nmonths = [6, 7, 8]\n'
BARE = bed(
    'ph = 6.4\nph_method = "CaCl2"\nclay_pct = 31\nsand_pct = 20\norganic_matter_pct = 6',
    bed='area = "4 m2"\nplanted = false\nbefore = "turf"',
    aim="target_ph = 6.0",
    more=WATERED + "alkalinity = 210\n",
)
POT = bed(
    'ph = 5.2\nph_method = "water 1:2"\nmedium = "peat mix"',
    bed='kind = "container"\narea = "0.2 m2"\ndepth = "25 cm"',
    more=WATERED,
)
FED = bed(
    'ph = 7.6\nph_method = "water 1:1"\ntexture = "clay loam"\nfizz = "slight"\nfizz_acid = "HCl"',
    more='[feed]\nn_g_m2_year = 8\nform = "ammonium"\ntimes = 3\n',
)


def sown(today: date, material: str, later: int, rate_g_m2: float, depth_cm: float) -> Application:
    return Application(
        date=today + timedelta(days=later),
        material=material,
        rate_g_m2=rate_g_m2,
        amount_g=None,
        incorporate_cm=depth_cm,
        only_if=None,
    )


@cache
def odd_beds() -> tuple[tuple[BedContext, ...], tuple[tuple[Application, ...], ...]]:
    """Every example with a soil, and beds bare, potted and fed, each with another plan."""
    cases = [read_case(path) for path in sorted(EXAMPLES.glob("*.toml"))]
    contexts = [build_context(case) for case in (*cases, BARE, POT, FED)]
    known = tuple(context for context in contexts if context.soil is not None)
    plans = tuple(
        tuple(sown(context.case.today, *part) for part in PLANS[i % len(PLANS)])
        for i, context in enumerate(known)
    )
    return known, plans


def seeds(count: int) -> np.ndarray[tuple[int], np.dtype[np.int64]]:
    return np.arange(count, dtype=np.int64) * 7 % 5


def test_odd_beds_together_give_the_ph_of_each_alone() -> None:
    contexts, plans = odd_beds()
    assert len(contexts) > 12 and len({len(plan) for plan in plans}) == 3
    beds = many_beds(contexts)
    found = forecast_many(beds, plans, seeds=seeds(len(contexts)), years=YEARS, members=MEMBERS)
    for i, (context, plan) in enumerate(zip(contexts, plans, strict=True)):
        inputs = forecast_inputs(
            context, plan, years=YEARS, seed=int(seeds(len(contexts))[i]), members=MEMBERS
        )
        alone = run(inputs, inputs.events)
        first = (inputs.today - inputs.start).days // 7
        name = context.case.name
        assert np.abs(found.ph[i] - quantile_bands(alone.ph[:, first:])).max() < FARTHEST_PH, name
        middle = np.median(alone.oxidised_frac[:, first:], axis=0)
        assert np.abs(found.oxidised_frac[i] - middle).max() < FARTHEST_PH, name
        assert found.balance_error[i] < 1e-9


def some_of(beds: ManyBeds, which: slice) -> ManyBeds:
    names = [one for one in ManyBeds.__slots__ if one != "kinds"]
    return replace(beds, **{name: getattr(beds, name)[which] for name in names})


def test_blocks_and_threads_change_no_bit() -> None:
    contexts, plans = (part[:9] for part in odd_beds())
    beds, chosen = many_beds(contexts), seeds(9)
    whole = forecast_many(beds, plans, seeds=chosen, years=YEARS, members=MEMBERS, threads=2)
    for a, b in pairwise((0, 2, 3, 9)):
        which = slice(a, b)
        part = forecast_many(
            some_of(beds, which), plans[which], seeds=chosen[which], years=YEARS, members=MEMBERS
        )
        assert np.array_equal(part.ph, whole.ph[which])


def test_bands_are_those_of_one_forecast() -> None:
    made = np.random.default_rng(3).normal(6.0, 0.4, (2, 9, 4))
    for one, members in zip(bands(made), made, strict=True):
        assert one == pytest.approx(quantile_bands(members), abs=1e-12)
    assert median(made)[0] == pytest.approx(np.median(made[0], axis=0), abs=1e-12)
    assert np.array_equal(bands(made[:, :1])[0, 2], made[0, 0])


def test_water_of_many_soils_is_balanced() -> None:
    rng = np.random.default_rng(2)
    rain = rng.gamma(0.7, 4.0, (5, 365))
    watering = np.array([[0.0] * 12, [0.0] * 5 + [40.0] * 3 + [0.0] * 4])
    drained, store = water_days(
        rain,
        np.full(365, 1.5),
        np.arange(12) < 2,
        watering_mm=watering,
        evaporable_mm=np.array([60.0, 25.0]),
        eased_below_mm=np.array([30.0, 12.0]),
    )
    yearly = rain.sum() / 5.0
    assert (store >= 0.0).all() and (store.max(axis=1) <= [60.0, 25.0]).all()
    assert (drained.sum(axis=1) < yearly + watering.sum(axis=1)).all()
    assert (drained[:, :59] == 0.0).all()


def test_a_bed_that_no_forecast_reaches_is_named() -> None:
    beds = many_beds(odd_beds()[0][:3])
    with pytest.raises(OutOfRangeError, match=r"bed 1 has a pH of 9\.7"):
        replace(beds, ph_water=np.array([6.0, 9.7, 7.0]))
    with pytest.raises(OutOfRangeError, match="clay_pct holds a value that is no number"):
        replace(beds, clay_pct=np.array([10.0, np.nan, 7.0]))
    with pytest.raises(InputError, match="feeds holds 1 beds"):
        replace(beds, feeds=[None])


def test_what_cannot_be_run_is_refused() -> None:
    contexts, plans = (part[:2] for part in odd_beds())
    beds = many_beds(contexts)
    with pytest.raises(InputError, match="1 plans and 2 seeds for 2 beds"):
        ready_blocks(beds, plans[:1], seeds=seeds(2), years=1, members=3)
    with pytest.raises(OutOfRangeError, match="between 1 and 50"):
        ready_blocks(beds, plans, seeds=seeds(2), years=0, members=3)
    with pytest.raises(OutOfRangeError, match="every seed 0 or more"):
        ready_blocks(beds, plans, seeds=-1 - seeds(2), years=1, members=3)
    bad = (sown(contexts[0].case.today, "gypsum", 0, -5.0, 0.0),)
    with pytest.raises(OutOfRangeError, match="bed 0: -5 g/m2 of gypsum"):
        ready_blocks(beds, (bad, ()), seeds=seeds(2), years=1, members=3)
    own = replace(find_material("gypsum"), key="own-product")
    fed = replace(beds, feeds=[Feed(material=own, rate_g_m2=5.0), None], contexts=())
    with pytest.raises(InputError, match="own-product is a product of one case only"):
        ready_blocks(fed, plans, seeds=seeds(2), years=1, members=3)


def test_no_beds_have_no_forecast() -> None:
    assert ready_blocks(many_beds(()), (), seeds=seeds(0), years=1, members=3) == ()


def test_a_card_that_is_not_there_is_not_replaced(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("numba.cuda.is_available", lambda: False)
    contexts, plans = (part[:1] for part in odd_beds())
    with pytest.raises(DeviceError, match="--device cpu"):
        forecast_many(
            many_beds(contexts),
            plans,
            seeds=seeds(1),
            years=1,
            members=3,
            device=Device.CUDA,
        )
