"""Claims run through the year: the bed with the material less the same bed without it."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from loamshift.domain.answer import ClaimResult
from loamshift.domain.bed_context import BedContext
from loamshift.domain.case import Case, ClaimEntry
from loamshift.services.advise import LookAhead, advise
from loamshift.services.claim.course import FIRST_DAYS, Course, claim_courses
from loamshift.services.claim.put_on import worked_in_cm
from loamshift.services.claim.settle import CLAIM_MEMBERS, settle_claim, settle_claims
from loamshift.services.context.build_context import build_context
from loamshift.tables.materials import load_materials
from services.beds import bed
from wording import read

WATER = '[water]\nalkalinity = "250 mg/L CaCO3"\nweekly = "25 mm"\n'
BARE = 'area = "20 m2"\nplanted = false'
PLANTED = 'area = "20 m2"\nplanted = true'
LOAM = (
    'ph = 7.0\nph_method = "water 1:1"\ntexture = "loam"\norganic_matter_pct = 3\ncarbonate_pct = 0'
)
BEDS: dict[str, Case] = {
    "acid sand": bed(
        'ph = 5.0\nph_method = "water 1:1"\ntexture = "sand"\norganic_matter_pct = 2',
        bed=BARE,
        aim="target_ph = 6.3",
    ),
    "loam": bed(LOAM, bed=BARE, aim="target_ph = 5.5"),
    "planted loam": bed(LOAM, bed=PLANTED, aim="target_ph = 5.5"),
    "limy clay": bed(
        'ph = 7.8\nph_method = "water 1:1"\ntexture = "clay"\norganic_matter_pct = 3\n'
        'fizz = "strong"\nfizz_acid = "vinegar"',
        bed=PLANTED,
        aim="target_ph = 6.3",
    ),
    "peat pot": bed(
        'ph = 4.8\nph_method = "water 1:2"\nmedium = "peat mix"',
        bed='kind = "container"\ndepth = 20\narea = "0.1 m2"',
        aim="target_ph = 4.8",
        more=WATER,
    ),
}
FEW = 40


def claim(key: str, rate_g_m2: float) -> ClaimEntry:
    return ClaimEntry(material=load_materials()[key], rate_g_m2=rate_g_m2, as_given="")


def settled(name: str, key: str, rate_g_m2: float) -> ClaimResult:
    return settle_claim(BEDS[name], claim(key, rate_g_m2), seed=1, members=FEW)


def course(name: str, key: str, rate_g_m2: float, *, members: int = FEW) -> Course:
    (found,) = claim_courses(
        build_context(BEDS[name]), [claim(key, rate_g_m2)], members=members, seed=1
    )
    return found


# -- what happens, on every soil ---------------------------------------------------------------

NOTHING = (
    ("gypsum", 200.0),
    ("epsom salt", 60.0),
    ("potassium sulfate", 50.0),
    ("iron chelate, eddha", 5.0),
    ("coffee grounds, spent", 1000.0),
)


@pytest.mark.parametrize("name", BEDS)
@pytest.mark.parametrize(("key", "rate"), NOTHING)
def test_what_acidifies_nothing_moves_nothing(name: str, key: str, rate: float) -> None:
    """Neutral salts by their charges; grounds near neutral (seen in the table of materials)."""
    found = settled(name, key, rate)
    limit = 0.35 if (name, key) == HELD_BY_LIME else 0.05
    assert found.ph_change_now is not None and abs(found.ph_change_now) < limit
    assert found.ph_change_1_year is not None and abs(found.ph_change_1_year) < 0.05


SALTS = [pair for pair in NOTHING if "coffee" not in pair[0]]
HELD_BY_LIME = ("limy clay", "gypsum")
"""Its calcium holds the calcite back, so lime holds the soil a little lower while it lasts."""


@pytest.mark.parametrize("name", BEDS)
@pytest.mark.parametrize(("key", "rate"), SALTS)
def test_a_neutral_salt_differs_by_no_bit(name: str, key: str, rate: float) -> None:
    if (name, key) != HELD_BY_LIME:
        assert not course(name, key, rate).ph_change.any()


def test_gypsum_lowers_the_plateau_of_a_limy_soil_until_it_is_washed_out() -> None:
    """Calcite with gypsum reads 0.3 to 0.5 lower than without (seen in the carbonate tables)."""
    change = course("limy clay", "gypsum", 1000.0).ph_change
    assert -0.5 < change.min() < -0.2
    assert change.max() < 0.01


@pytest.mark.parametrize("name", BEDS)
@pytest.mark.parametrize(
    ("key", "rate"), [("vinegar, 5 %", 2000.0), ("citric acid, anhydrous", 100.0)]
)
def test_organic_acids_dip_and_are_gone(name: str, key: str, rate: float) -> None:
    """Common practice, no source: microbes use these acids up within days to weeks."""
    found = settled(name, key, rate)
    assert found.ph_change_now is not None and found.ph_change_now < -0.05
    assert found.ph_change_1_year is not None and abs(found.ph_change_1_year) < 0.03
    assert "comes back" in read(found.comment)


@pytest.mark.parametrize("name", ["acid sand", "loam", "planted loam", "peat pot"])
@pytest.mark.parametrize(
    ("key", "rate", "low", "high"),
    [
        ("elemental sulfur, powder", 60.0, -1.2, -0.2),
        ("aluminium sulfate, 18-hydrate", 200.0, -0.8, -0.1),
        ("ferrous sulfate, heptahydrate", 200.0, -0.7, -0.1),
        ("ammonium sulfate", 50.0, -0.4, -0.03),
        ("wood ash", 300.0, 0.1, 1.2),
        ("ground limestone, calcitic", 300.0, 0.2, 2.0),
        ("compost, manure", 5000.0, 0.1, 1.2),
        ("oak leaves, fallen", 2000.0, 0.0, 0.3),
        ("pine needles, fallen", 2000.0, -0.02, 0.15),
    ],
)
def test_a_year_later_without_lime_in_the_soil(
    name: str, key: str, rate: float, low: float, high: float
) -> None:
    """Directions of the trade; sizes between a light and a heavy garden soil."""
    found = settled(name, key, rate)
    assert found.ph_change_1_year is not None
    assert low < found.ph_change_1_year < high


@pytest.mark.parametrize(
    ("key", "rate"),
    [
        ("elemental sulfur, wettable", 60.0),
        ("ferrous sulfate, heptahydrate", 100.0),
        ("ammonium sulfate", 50.0),
        ("sphagnum peat", 10000.0),
        ("sulfuric acid, 98 %", 200.0),
    ],
)
def test_free_lime_leaves_nothing_after_a_year(key: str, rate: float) -> None:
    """A tenth of a per cent of lime holds 20 mmolc/kg: arithmetic; this clay has far more."""
    found = settled("limy clay", key, rate)
    assert found.ph_change_1_year is not None and abs(found.ph_change_1_year) < 0.05
    assert "ree lime" in read(found.comment)


def test_peat_on_a_limy_soil_drops_it_and_is_gone_within_two_weeks() -> None:
    """Common practice, no source: at once down, near its start within about nine days."""
    limy = BEDS["limy clay"]
    bare = build_context(replace(limy, bed=replace(limy.bed, planted=False)))
    (found,) = claim_courses(bare, [claim("sphagnum peat", 10_000.0)], members=FEW, seed=1)
    change = found.ph_change
    assert change[1] == change.min() < -0.1
    assert abs(change[FIRST_DAYS]) < 0.5 * abs(change.min())
    assert abs(change[60]) < 0.02


def test_a_mulch_of_needles_gets_in_slowly_where_dug_in_needles_act_at_once() -> None:
    """Common practice, no source: a mulch of needles does not acidify the soil measurably."""
    mulch, dug_in = (
        course(name, "pine needles, fallen", 2000.0) for name in ("planted loam", "loam")
    )
    assert np.abs(mulch.ph_change[: FIRST_DAYS + 1]).max() == 0.0
    assert dug_in.ph_change[1] < -0.05
    assert abs(mulch.ph_change[60]) < 0.5 * abs(dug_in.ph_change[1])


def test_lime_hardly_raises_a_limy_soil() -> None:
    found = settled("limy clay", "ground limestone, calcitic", 400.0)
    assert found.ph_change_1_year is not None and 0.0 <= found.ph_change_1_year < 0.05
    assert "lime hardly dissolves" in read(found.comment)


def test_what_lies_on_the_surface_is_slower_than_what_is_dug_in() -> None:
    for key, rate in (("elemental sulfur, powder", 60.0), ("ground limestone, calcitic", 300.0)):
        top, dug = course("planted loam", key, rate), course("loam", key, rate)
        assert abs(top.year) < abs(dug.year)
        assert top.left_frac > dug.left_frac


def test_finer_sulfur_is_ahead_of_prills_and_shows_within_four_to_sixteen_weeks() -> None:
    """Common practice, no source."""
    fine = course("loam", "elemental sulfur, powder", 60.0)
    prills = course("loam", "elemental sulfur, prills", 60.0)
    assert fine.year < 4.0 * prills.year < 0.0
    assert fine.first_shows_day is not None and 28 <= fine.first_shows_day <= 112


@pytest.mark.parametrize("key", ["vinegar, 5 %", "citric acid, anhydrous"])
def test_an_acid_that_is_burnt_off_leaves_no_base_behind_at_any_rate(key: str) -> None:
    """Nothing lasting goes on, so nothing lasting stays: conservation."""
    for rate in (500.0, 5000.0, 20_000.0):
        found = course("acid sand", key, rate)
        assert -0.05 < found.year <= 0.0


def test_urea_limes_first_and_acidifies_later() -> None:
    found = course("peat pot", "urea", 20.0)
    assert found.now > 0.02 and found.year < -0.03


def test_a_peat_takes_no_bed_below_its_own_ph() -> None:
    sour = bed('ph = 4.5\nph_method = "water 1:1"\ntexture = "sand"', aim="target_ph = 4.2")
    (found,) = claim_courses(
        build_context(sour), [claim("ericaceous compost", 50_000.0)], members=FEW, seed=1
    )
    assert found.now == 0.0 and found.year > -0.05


# -- how it is run -----------------------------------------------------------------------------


def test_the_middle_of_the_members_run_is_that_of_many() -> None:
    for key, rate in (("elemental sulfur, powder", 60.0), ("ground limestone, calcitic", 300.0)):
        few = course("loam", key, rate, members=CLAIM_MEMBERS)
        many = course("loam", key, rate, members=1500)
        assert few.now == pytest.approx(many.now, abs=0.05)
        assert few.year == pytest.approx(many.year, abs=0.05)


def test_claims_are_alternatives_and_a_seed_gives_the_same_bits() -> None:
    context = build_context(BEDS["loam"])
    entries = [claim("elemental sulfur, powder", 60.0), claim("wood ash", 200.0)]
    both = settle_claims(context, entries, seed=3, members=FEW)
    alone = tuple(settle_claims(context, [e], seed=3, members=FEW)[0] for e in entries)
    assert both == alone
    other = settle_claims(context, entries, seed=4, members=FEW)
    assert other[0].ph_change_1_year != both[0].ph_change_1_year


def test_digging_alone_is_no_effect_of_the_material() -> None:
    """Lime lies on top from before; a salt is dug in: what the spade mixes is not its doing."""
    more = (
        '[[applied]]\ndate = 2026-03-20\nmaterial = "ground limestone"\nrate = "400 g/m2"\n'
        '[[applied]]\ndate = 2026-03-21\nmaterial = "leaf mould"\nrate = "5 kg/m2"\n'
    )
    case = bed(LOAM.replace("7.0", "5.5") + "\nsampled = 2025-09-01", bed=BARE, more=more)
    entries = [claim("gypsum", 100.0), claim("blood meal", 50.0)]
    gypsum, meal = claim_courses(build_context(case), entries, members=FEW, seed=1)
    assert not gypsum.ph_change.any()
    assert -0.2 < meal.year < 0.0


def test_where_a_material_goes() -> None:
    def depth(name: str, key: str) -> float:
        return worked_in_cm(build_context(BEDS[name]), load_materials()[key])

    assert depth("loam", "wood ash") == 15.0
    assert depth("planted loam", "ammonium sulfate") == 0.0
    assert depth("peat pot", "ammonium sulfate") == 20.0
    assert depth("peat pot", "elemental sulfur, powder") == 0.0


def test_a_dangerous_amount_is_told_before_the_course() -> None:
    comment = read(settled("planted loam", "elemental sulfur, powder", 180.0).comment)
    assert comment.index("a dangerous overdose") < comment.index("The pH would")


def test_an_amount_off_the_curve_gives_no_change() -> None:
    found = settled("acid sand", "sulfuric acid, 98 %", 20_000.0)
    assert found.ph_change_now is None and found.ph_change_1_year is None
    text = read(found.comment)
    assert "where no figure holds" in text and "never for a bed" in text


def test_the_letter_takes_them_with_a_forecast_and_the_curve_without() -> None:
    more = '[[claim]]\nmaterial = "ground limestone"\nrate = "300 g/m2"\n'
    case = bed(LOAM, bed=PLANTED, more=more)
    static = advise(case).claims
    assert static == settle_claims(build_context(case), case.claims)
    ahead = advise(case, look_ahead=LookAhead(members=FEW, seed=2, years=1)).claims
    assert ahead == settle_claims(build_context(case), case.claims, seed=2, members=FEW)
    (by_curve,), (by_column,) = static, ahead
    assert by_curve.ph_change_1_year is not None and by_column.ph_change_1_year is not None
    assert by_curve.ph_change_1_year > 1.5 * by_column.ph_change_1_year > 0.0
    assert (by_curve.share, by_curve.material) == (by_column.share, by_column.material)


# -- what is said ------------------------------------------------------------------------------

STILL = Course(
    ph_change=np.zeros(366),
    now=0.0,
    year=0.0,
    year_low=0.0,
    year_high=0.0,
    most=0.0,
    most_day=0,
    first_shows_day=None,
    left_frac=0.0,
    lime_frac=0.0,
    given_back_frac=0.0,
    alone=0.0,
    lowest_ph=6.5,
    lowest_alone_ph=6.5,
)


def said(
    key: str,
    *,
    context: BedContext | None = None,
    acidifies: bool = True,
    place: str = "bed",
    against: bool = False,
    **more: object,
) -> str:
    from loamshift.services.claim.year_words import year_words

    return read(
        year_words(
            context or build_context(BEDS["loam"]),
            load_materials()[key],
            replace(STILL, **more),  # type: ignore[arg-type]
            place=place,
            acidifies=acidifies,
            against_the_aim=against,
        )
    )


@pytest.mark.parametrize(
    ("now", "year", "low", "high", "text"),
    [
        (0.0, 0.0, 0.0, 0.0, "The pH would barely change, now or in a year."),
        (0.0, -0.04, -0.3, 0.0,
         "The pH would barely change, now or in a year. For 90 in 100 such beds it would then be "
         "between unchanged and 0.3 lower."),
        (0.0, -0.62, -1.44, -0.2,
         "The pH would barely change in the first two weeks. After a year it would be about 0.6 "
         "lower. For 90 in 100 such beds it would then be 0.2 to 1.4 lower."),
        (-0.32, 0.0, 0.0, 0.0,
         "The pH would fall by about 0.3 in the first two weeks and be back where it was after a "
         "year."),
        (0.75, 1.5, 0.6, 2.6,
         "The pH would rise by about 0.8 in the first two weeks. After a year it would be about "
         "1.5 higher. For 90 in 100 such beds it would then be 0.6 to 2.6 higher."),
        (0.32, 0.29, 0.28, 0.33,
         "The pH would rise by about 0.3 in the first two weeks and be much the same after a "
         "year."),
        (0.13, 0.06, -0.1, 0.2,
         "The pH would rise by about 0.1 in the first two weeks and be much the same after a year. "
         "For 90 in 100 such beds it would then be anything from 0.1 lower to 0.2 higher."),
    ],
)  # fmt: skip
def test_now_and_after_a_year(now: float, year: float, low: float, high: float, text: str) -> None:
    assert (
        said("aluminium sulfate, 18-hydrate", now=now, year=year, year_low=low, year_high=high)
        == text
    )


def test_when_a_test_could_first_tell_and_why() -> None:
    slow = {"year": -0.6, "year_low": -0.6, "year_high": -0.6, "first_shows_day": 40}
    assert (
        "after about 6 weeks, because soil microbes have to turn it into acid first. At 6°C, as now"
    ) in said("elemental sulfur, powder", **slow)
    winter = replace(BEDS["loam"], today=BEDS["loam"].today.replace(month=1))
    assert "too cold for that now" in said(
        "elemental sulfur, powder", context=build_context(winter), **slow
    )
    assert "after about 6 weeks, because its nitrogen has to nitrify first." in said(
        "ammonium sulfate", **slow
    )
    assert "after about 7 months" in said("oyster shell", **(slow | {"first_shows_day": 210}))
    assert "only above its own pH" in said("ericaceous compost", **slow)
    assert "could first show" not in said("ammonium sulfate", **(slow | {"now": -0.2}))


def test_what_lies_there_unreacted_and_why() -> None:
    assert "Nearly all of it would still be there unreacted after a year. Only the outside" in said(
        "elemental sulfur, prills", left_frac=0.97
    )
    limestone = said("ground limestone, calcitic", acidifies=False, left_frac=0.41)
    assert "About 40% of it would still be there unreacted after a year. So near the" in limestone
    assert "turned to carbonate" in said("hydrated lime", acidifies=False, left_frac=0.41)
    sand = build_context(BEDS["acid sand"])
    assert "Its coarse grains last for years" in said(
        "oyster shell", context=sand, acidifies=False, left_frac=0.41
    )
    pot = build_context(BEDS["peat pot"])
    assert "limes the top few centimetres and works down slowly" in said(
        "oyster shell", context=pot, acidifies=False, left_frac=0.41
    )
    assert "On the surface it dries out" in said(
        "elemental sulfur, powder", context=pot, left_frac=0.41
    )
    assert "still be there" not in said("oyster shell", acidifies=False, left_frac=0.2)


def test_what_takes_it_back() -> None:
    limy = build_context(BEDS["limy clay"])
    salt = "aluminium sulfate, 18-hydrate"
    assert "Free lime in the soil takes up all of its acid." in said(
        salt, context=limy, lime_frac=1.0
    )
    perhaps = build_context(bed(LOAM.replace("carbonate_pct = 0", "").replace("7.0", "7.5")))
    assert (
        "probably contains free lime, which takes up about 75% of its acid. A fizz test would show."
    ) in said(salt, context=perhaps, lime_frac=0.76)
    assert "If this soil contains free lime" in said(
        salt, context=perhaps, year=-0.5, year_low=-1.0, year_high=0.0
    )
    assert "Soil microbes break its acid down as it" in said("pine bark, fresh", now=-0.2)
    assert "so most of the change is lost again" in said(salt, now=-0.2, given_back_frac=0.5)
    assert "Free lime" not in said("calcium nitrate", context=limy, acidifies=False, lime_frac=1.0)


def test_what_the_bed_does_meanwhile() -> None:
    pot = build_context(BEDS["peat pot"])
    lifted = {"context": pot, "place": "pot", "alone": 0.4}
    assert said("ammonium sulfate", year=-0.2, **lifted).endswith(  # type: ignore[arg-type]
        "Untreated, the pH of this pot would rise by about 0.4 in a year, from the lime in its "
        "water. So a test would then read about 0.2 higher than today."
    )
    assert "what it reads today" in said("ammonium sulfate", year=-0.41, **lifted)  # type: ignore[arg-type]
    assert "Untreated" not in said("wood ash", year=0.2, **lifted)  # type: ignore[arg-type]
    assert "Untreated" not in said("ammonium sulfate", year=-0.2, against=True, **lifted)  # type: ignore[arg-type]


def test_the_top_is_told_where_roots_are_in_it() -> None:
    planted = build_context(BEDS["planted loam"])
    assert "The top few centimetres, where it lies, would fall to about pH 4.4." in said(
        "elemental sulfur, powder", context=planted, lowest_ph=4.4
    )
    assert "top few" not in said("elemental sulfur, powder", lowest_ph=4.4)


def test_a_dip_in_between_is_told() -> None:
    assert "In between it would fall by about 0.2 and come back" in said(
        "elemental sulfur, powder", most=-0.2, most_day=100
    )


@pytest.mark.parametrize(
    ("name", "key", "rate", "text"),
    [
        ("peat pot", "gypsum", 50.0, "This adds no acid"),
        ("peat pot", "ammonium sulfate", 50.0, "This pot needs neither acid nor lime now."),
        ("peat pot", "wood ash", 300.0, "this would only move it away from its target"),
        ("acid sand", "cottonseed meal", 20.0, "The little that is left in the end is acid, and"),
        ("acid sand", "elemental sulfur, powder", 50.0, "the bed needs lime: keep it off"),
        ("loam", "elemental sulfur, prills", 60.0, "In the end that is 50% of the acid this bed"),
        ("loam", "calcium nitrate", 30.0, "The little that is left in the end is lime, and this"),
        ("loam", "coffee grounds, spent", 2000.0, "this has added 1% of the acid this bed needs"),
    ],
)
def test_the_lead_does_not_contradict_the_year(name: str, key: str, rate: float, text: str) -> None:
    assert text in read(settled(name, key, rate).comment)


@pytest.mark.parametrize("key", sorted(load_materials()))
def test_every_material_is_settled_on_a_limy_bed_and_in_a_pot(key: str) -> None:
    for name in ("limy clay", "peat pot"):
        found = settle_claim(BEDS[name], claim(key, 100.0), seed=1, members=8)
        for units in ("metric", "us"):
            text = read(found.comment, units=units)
            assert text.endswith(".") and "  " not in text and ".." not in text
        for change in (found.ph_change_now, found.ph_change_1_year):
            assert change is None or np.isfinite(change)
