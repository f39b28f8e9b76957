"""What was put on, summed against printed limits; the limits are converted here by hand."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from loamshift.domain.answer import Direction, Severity
from loamshift.domain.bed_context import BedContext
from loamshift.domain.case import Applied, Bed, BedKind, Case, SoilEntry
from loamshift.domain.message import Worded, rate, times
from loamshift.domain.ph import PhMethod, PhReading
from loamshift.services.cautions.amount_checks import APPLIED_CHECK, amount_findings
from loamshift.services.context.amount_words import load_sentence
from loamshift.services.context.build_context import build_context
from loamshift.services.context.overdose import Load, overdose, overdoses, recent_loads
from loamshift.services.materials.acid import acid_brought_mmolc_m2, acid_within_days
from loamshift.services.materials.caps import Substance
from loamshift.tables.materials import load_materials
from wording import read

TODAY = date(2026, 4, 12)
LB_100FT2 = 453.59237 / (100 * 0.3048**2)
"""One pound on a hundred square feet [g/m2]."""
S_PLANTED = 0.7 * LB_100FT2  # Gough and Crouse 2010, a year
S_BARE = 2 * 2 * LB_100FT2  # two of the largest doses of a state's garden article
S_LAWN = 1.0 * LB_100FT2  # Purdue: 10 lb per 1000 sq ft a year
AL_YEAR = 5 * LB_100FT2  # as aluminium sulfate with 18 water
FE_YEAR = 7 * LB_100FT2  # as iron sulfate with 7 water
LIME_PLANTED = 10 * LB_100FT2  # twice 50 lb per 1000 sq ft
LIME_BARE = 20 * LB_100FT2  # Penn State, two doses
N_PLANTED = 15.5  # Jayasinghege 2024, 155 kg/ha
SULFUR = "elemental sulfur, powder"
PRILLS = "elemental sulfur, prills"
ALUMINIUM = "aluminium sulfate, 18-hydrate"
IRON = "ferrous sulfate, heptahydrate"
LIMED = ("ground limestone, calcitic", "wood ash", "hydrated lime")
FED = ("ammonium sulfate", "calcium nitrate")
PRODUCTS = (SULFUR, PRILLS, ALUMINIUM, IRON, "sulfuric acid, 35 %", *FED, *LIMED)


def put_on(key: str, rate_g_m2: float, *, days_ago: int = 12, worked_in: bool = True) -> Applied:
    return Applied(
        on=TODAY - timedelta(days=days_ago),
        material=load_materials()[key],
        rate_g_m2=rate_g_m2,
        as_given="",
        incorporated_cm=15.0 if worked_in else 0.0,
    )


def bed_of(
    *applied: Applied, planted: bool = True, kind: BedKind = BedKind.GROUND, **soil: object
) -> BedContext:
    entry = SoilEntry(**soil)  # type: ignore[arg-type]
    bed = Bed(kind=kind, planted=planted)
    return build_context(Case(name="a bed", today=TODAY, bed=bed, soil=entry, applied=applied))


def found(context: BedContext) -> Load:
    load = overdose(context)
    assert load is not None
    return load


def test_three_drenches_of_aluminium_sulfate_are_one_sum() -> None:
    drenches = [put_on(ALUMINIUM, 200.0, days_ago=days) for days in (70, 40, 12)]
    load = found(bed_of(*drenches))
    assert (load.substance, load.direction) == (Substance.ALUMINIUM_SULFATE, Direction.ACIDIFY)
    assert load.rate_g_m2 == pytest.approx(600.0)
    assert load.last_on == TODAY - timedelta(days=12)
    assert load.limit_g_m2 == pytest.approx(AL_YEAR, rel=1e-3)
    assert load.times == pytest.approx(600.0 / AL_YEAR, rel=1e-3)
    assert overdose(bed_of(*drenches[:2])) is None


READ = PhReading(ph=4.3, method=PhMethod.WATER_1_1)


@pytest.mark.parametrize("planted", [True, False])
@pytest.mark.parametrize(
    "soil",
    [
        {},
        {"ph": READ},
        {"ph": READ, "sampled": TODAY},
        {"ph": READ, "sampled": TODAY - timedelta(days=60)},
        {"ph": replace(READ, ph=6.9), "sampled": TODAY - timedelta(days=5)},
    ],
    ids=["no pH", "undated", "today", "sampled before", "sampled after"],
)
def test_it_needs_no_ph_and_no_day_of_the_sample(planted: bool, soil: dict[str, object]) -> None:
    load = found(bed_of(put_on(ALUMINIUM, 1500.0), planted=planted, **soil))
    assert load.times == pytest.approx(1500.0 / AL_YEAR, rel=1e-3)


def test_sulfur_put_on_today_on_bare_ground() -> None:
    load = found(bed_of(put_on(SULFUR, 1100.0, days_ago=0), planted=False))
    assert load.times == pytest.approx(1100.0 * 0.99 / S_BARE, rel=1e-3)


def test_a_us_cup_of_sulfur_on_a_square_metre_of_planted_ground() -> None:
    cup_g = 453.59 / 2.5  # a pound is printed as two and a half cups
    load = found(bed_of(put_on(SULFUR, cup_g)))
    assert load.times == pytest.approx(cup_g * 0.99 / S_PLANTED, rel=1e-3)
    assert overdose(bed_of(put_on(SULFUR, cup_g), planted=False)) is None
    assert overdose(bed_of(put_on(SULFUR, cup_g), kind=BedKind.LAWN)) is not None
    assert overdose(bed_of(put_on(SULFUR, 2.0 * S_LAWN), kind=BedKind.LAWN)) is None


@pytest.mark.parametrize(
    ("key", "value_frac"), [("wood ash", 0.45), ("ground limestone, calcitic", 0.98)]
)
@pytest.mark.parametrize(("planted", "year"), [(True, LIME_PLANTED), (False, LIME_BARE)])
def test_lime_and_wood_ash_count_as_pure_lime(
    key: str, value_frac: float, planted: bool, year: float
) -> None:
    just_over, just_under = 2.02 * year / value_frac, 1.98 * year / value_frac
    load = found(bed_of(put_on(key, just_over), planted=planted))
    assert (load.substance, load.direction) == (Substance.LIMESTONE, Direction.LIME)
    assert load.times == pytest.approx(2.02, rel=1e-3)
    assert overdose(bed_of(put_on(key, just_under), planted=planted)) is None


def test_lime_and_ash_are_one_sum_and_do_not_cancel_acid() -> None:
    limed = (put_on("wood ash", 1100.0), put_on("ground limestone, calcitic", 600.0))
    load = found(bed_of(*limed))
    assert load.rate_g_m2 == pytest.approx(1100.0 * 0.45 + 600.0 * 0.98)
    acid = put_on(ALUMINIUM, 1500.0)
    assert found(bed_of(acid, *limed)).times == found(bed_of(acid)).times


def test_a_salt_counts_by_its_acid_whatever_its_water() -> None:
    """Molar masses of the anhydrous salt and of that with 18 water, by IUPAC atomic weights."""
    dry = found(bed_of(put_on("aluminium sulfate, anhydrous", 600.0)))
    assert dry.rate_g_m2 == pytest.approx(600.0 * 666.4 / 342.15, rel=2e-3)


def test_what_acidifies_shares_one_year() -> None:
    """Four products, each within its own limit; the third of nitrogen's acid that stays is told
    by the ledger, so only bounds can be given for it."""
    three = (put_on(SULFUR, 30.0), put_on(ALUMINIUM, 200.0), put_on(IRON, 250.0))
    shares = 30.0 * 0.99 / S_PLANTED + 200.0 / AL_YEAR + 250.0 / FE_YEAR
    load = found(bed_of(*three))
    assert load.substance is None and load.direction is Direction.ACIDIFY
    assert load.materials == (SULFUR, ALUMINIUM, IRON)
    assert load.times == pytest.approx(shares, rel=1e-3)
    assert all(row.times < 1.0 for row in recent_loads(bed_of(*three))[:-1])
    assert [row.check.partition(": ")[2] for row in amount_findings(bed_of(*three))] == [
        "sulfur", "aluminium sulfate", "iron sulfate", "all that acidifies",
    ]  # fmt: skip
    with_feed = found(bed_of(*three, put_on("ammonium sulfate", 60.0))).times
    whole = 2.0 * 60.0 * 0.212 / 14.007 / (S_PLANTED / 32.06 * 2.0)
    assert shares < with_feed < shares + whole


def test_one_product_is_told_by_its_own_limit_and_a_trace_of_another_changes_nothing() -> None:
    iron = put_on(IRON, 900.0)
    alone = found(bed_of(iron))
    assert alone.times == pytest.approx(900.0 / FE_YEAR, rel=1e-3)
    trace = found(bed_of(iron, put_on(SULFUR, 1e-4)))
    assert trace.times == pytest.approx(alone.times, abs=1e-5)


def test_a_year_counts_in_full_and_what_is_older_by_what_has_yet_to_react() -> None:
    assert overdose(bed_of(put_on(ALUMINIUM, 600.0, days_ago=365))) is not None
    assert overdose(bed_of(put_on(ALUMINIUM, 600.0, days_ago=366))) is None
    assert recent_loads(bed_of(put_on(SULFUR, 300.0, days_ago=5 * 365))) == ()
    context = bed_of(put_on(PRILLS, 300.0, days_ago=3 * 365))
    come = acid_within_days(
        load_materials()[PRILLS],
        rate_g_m2=300.0,
        soil_temp_c=(),
        start=TODAY - timedelta(days=3 * 365),
        days=3 * 365,
        ph_water=6.5,
        in_pot=False,
    )
    whole = acid_brought_mmolc_m2(load_materials()[PRILLS], rate_g_m2=300.0, in_pot=False)
    load = found(context)
    assert load.rate_g_m2 == pytest.approx(297.0 * (1.0 - come / whole))
    assert load.acid_left_mmolc_m2 == pytest.approx(whole - come)
    assert load.acid_mmolc_m2 == pytest.approx(whole - come)
    assert load.is_old


def test_a_mineral_acid_counts_as_the_sulfur_that_brings_its_acid() -> None:
    """35 % sulfuric acid is 7.14 mol of acid a kilogram: 350 g over 98.08 g/mol, twice."""
    load = found(bed_of(put_on("sulfuric acid, 35 %", 1000.0)))
    assert load.rate_g_m2 == pytest.approx(350.0 / 98.08 * 32.06, rel=2e-3)


def test_nitrogen_has_a_limit_of_its_own_that_moves_the_ph_neither_way() -> None:
    load = found(bed_of(put_on("urea", 200.0)))
    assert (load.substance, load.direction) == (Substance.NITROGEN, Direction.NONE)
    assert load.times == pytest.approx(200.0 * 0.46 / N_PLANTED, rel=1e-2)


def test_peat_mulch_and_neutral_salts_are_no_overdose() -> None:
    heaps = [
        put_on(key, 20_000.0)
        for key in ("sphagnum peat", "compost, spent mushroom", "pine bark, fresh", "gypsum")
    ]
    assert recent_loads(bed_of(*heaps)) == ()


def test_doses_too_soon_after_one_another_are_one() -> None:
    """Bare ground waits three months after 98 g of sulfur; a month is too short."""
    early = bed_of(put_on(SULFUR, 70.0, days_ago=40), put_on(SULFUR, 70.0), planted=False)
    apart = bed_of(put_on(SULFUR, 70.0, days_ago=120), put_on(SULFUR, 70.0), planted=False)
    assert recent_loads(early)[0].at_once_g_m2 == pytest.approx(140.0 * 0.99)
    assert recent_loads(apart)[0].at_once_g_m2 == pytest.approx(70.0 * 0.99)
    (row,) = amount_findings(early)
    assert not row.passed and row.severity is Severity.CAUTION
    assert row.value == pytest.approx(138.6) and row.limit == pytest.approx(
        S_BARE / 2, abs=0.06
    )  # told to a tenth
    (row,) = amount_findings(apart)
    assert row.passed and row.severity is Severity.INFO
    assert row.value == pytest.approx(138.6) and row.limit == pytest.approx(S_BARE, abs=0.06)


def test_nitrate_takes_no_acid_away() -> None:
    acid = (put_on(SULFUR, 40.0), put_on(ALUMINIUM, 300.0))
    fed = (*acid, put_on("calcium nitrate", 60.0))
    assert found(bed_of(*fed)).times == found(bed_of(*acid)).times


@pytest.mark.parametrize(
    ("applied", "words"),
    [
        (
            [put_on(ALUMINIUM, 750.0, days_ago=90), put_on(ALUMINIUM, 750.0)],
            "In the past year, 1,500 g/m² of aluminium sulphate was applied. "
            "That is 6.1 times the published yearly limit for planted beds, 240 g/m².",
        ),
        (
            [put_on("wood ash", 2500.0)],
            "In the past year, 1.1 kg/m² of pure lime from wood ash was applied. That is 2.3 times "
            "the published yearly limit for planted beds, 0.49 kg/m².",
        ),
        (
            [put_on(PRILLS, 300.0, days_ago=3 * 365)],
            "Of what was applied earlier, 185 g/m² of pure sulphur from sulphur chips or "
            "prills (pure) has not yet reacted. That is 5.5 times the published yearly limit for "
            "planted beds, 34 g/m².",
        ),
        (
            [put_on(SULFUR, 60.0), put_on(ALUMINIUM, 200.0)],
            "In the past year, acid equal to 87 g/m² of pure sulphur, from sulphur powder and "
            "aluminium sulphate, was applied. That is 2.6 times the "
            "published yearly limit for planted beds, 34 g/m².",
        ),
    ],
)
def test_the_sentence_is_made_from_the_figures(applied: list[Applied], words: str) -> None:
    load = found(bed_of(*applied))
    told = load_sentence(bed_of(*applied), load)
    assert read(told) == words
    amount, compared = (one.values for one in told.sentences)
    assert amount["rate"] == rate(load.rate_g_m2, against=load.limit_g_m2)
    assert compared["times"] == times(load.times)
    assert compared["limit"] == rate(load.limit_g_m2, against=load.rate_g_m2)


def rows_that_block(context: BedContext) -> list[Worded]:
    return [
        row.comment
        for row in amount_findings(context)
        if row.severity is Severity.BLOCK and row.check.startswith(APPLIED_CHECK)
    ]


AMOUNTS = st.lists(
    st.tuples(
        st.sampled_from(PRODUCTS),
        st.floats(0.0, 2000.0, allow_nan=False),
        st.integers(0, 900),
    ),
    max_size=4,
)


@given(amounts=AMOUNTS, planted=st.booleans())
def test_a_check_blocks_exactly_where_there_is_an_overdose_of_acid_or_lime(
    amounts: list[tuple[str, float, int]], planted: bool
) -> None:
    context = bed_of(
        *(put_on(key, rate, days_ago=days) for key, rate, days in amounts), planted=planted
    )
    moving = [load for load in overdoses(context) if load.direction is not Direction.NONE]
    told = [load_sentence(context, load) for load in moving]
    assert sorted(map(str, rows_that_block(context))) == sorted(map(str, told))
    assert overdose(context) == max(overdoses(context), key=lambda load: load.times, default=None)


def worst_times(context: BedContext) -> float:
    return max((load.times for load in recent_loads(context)), default=0.0)


@given(
    amounts=AMOUNTS,
    more=st.tuples(st.sampled_from(PRODUCTS), st.floats(0.0, 500.0), st.integers(0, 900)),
)
def test_more_never_makes_it_less(
    amounts: list[tuple[str, float, int]], more: tuple[str, float, int]
) -> None:
    applied = [put_on(key, rate, days_ago=days) for key, rate, days in amounts]
    key, rate, days = more
    before = worst_times(bed_of(*applied))
    after = worst_times(bed_of(*applied, put_on(key, rate, days_ago=days)))
    assert after >= before * (1.0 - 1e-9)
