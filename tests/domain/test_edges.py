"""What the objects of the trade say of themselves, each on both sides of its mark."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from loamshift.domain.answer import Band, Caution, Decision
from loamshift.domain.bed_context import BedContext, Pending
from loamshift.domain.carbonate_belief import (
    CarbonateRule,
    carbonate_belief_from_rule,
    carbonate_rule,
)
from loamshift.domain.case import Case
from loamshift.domain.changes import (
    Changes,
    ForecastRow,
    InputChange,
    Maker,
    MakerChange,
    Outcome,
)
from loamshift.domain.evidence import Evidence
from loamshift.domain.letter import DataSet
from loamshift.domain.material import Material, MaterialGroup
from loamshift.domain.names import NameFault, match_name, plain_name
from loamshift.domain.ph import PhBelief, PhMethod
from loamshift.domain.plant import Plant, PlantSource
from loamshift.domain.soil import CarbonateBelief, Fizz, FizzAcid, KBelief, Medium, Soil
from loamshift.domain.texture import texture_class_from_fractions
from loamshift.errors import OutOfRangeError, TableError


def rule(**given: Any) -> CarbonateRule:
    usual: dict[str, Any] = {
        "fizz": Fizz.SLIGHT,
        "acid": FizzAcid.HCL,
        "any_acid": False,
        "ph_low": 2.0,
        "ph_high": 11.5,
        "full_from_ph": 2.0,
        "zero_weight": 0.2,
        "low_pct": 0.5,
        "high_pct": 2.0,
        "basis": "a drop of acid",
        "source_key": "own-judgement",
        "evidence": Evidence.JUDGEMENT,
        "note": "",
    }
    return CarbonateRule(**{**usual, **given})


ACID_ROWS = (
    rule(ph_high=6.5),
    rule(ph_low=6.5),
    rule(acid=FizzAcid.VINEGAR),
    rule(acid=None),
    rule(fizz=None, acid=None, any_acid=True),
)


@pytest.mark.parametrize(
    ("fizz", "acid", "ph", "place"),
    [
        (Fizz.SLIGHT, FizzAcid.HCL, 2.0, 0),
        (Fizz.SLIGHT, FizzAcid.HCL, 6.49, 0),
        (Fizz.SLIGHT, FizzAcid.HCL, 6.5, 1),
        (Fizz.SLIGHT, FizzAcid.HCL, 11.0, 1),
        (Fizz.SLIGHT, FizzAcid.VINEGAR, 7.0, 2),
        (Fizz.SLIGHT, None, 7.0, 3),
        (None, FizzAcid.HCL, 7.0, 4),
        (None, None, 7.0, 4),
    ],
)
def test_one_rule_fits_the_fizz_the_acid_and_the_ph(
    fizz: Fizz | None, acid: FizzAcid | None, ph: float, place: int
) -> None:
    assert carbonate_rule(fizz, acid, ph_water=ph, rules=ACID_ROWS) is ACID_ROWS[place]


@pytest.mark.parametrize("ph", [1.99, 11.01, float("nan")])
def test_a_fizz_in_a_soil_of_no_soil_ph_is_refused(ph: float) -> None:
    with pytest.raises(OutOfRangeError, match="between 2 and 11"):
        carbonate_rule(Fizz.SLIGHT, FizzAcid.HCL, ph_water=ph, rules=ACID_ROWS)


@pytest.mark.parametrize("rules", [(), (rule(), rule())])
def test_a_table_with_no_rule_or_two_for_one_finding_is_broken(
    rules: tuple[CarbonateRule, ...],
) -> None:
    with pytest.raises(TableError, match=f"{len(rules)} fizz rules .* want one"):
        carbonate_rule(Fizz.SLIGHT, FizzAcid.HCL, ph_water=7.0, rules=rules)


def test_a_rule_that_leaves_no_doubt_leaves_no_lime() -> None:
    assert carbonate_belief_from_rule(rule(zero_weight=1.0)) == CarbonateBelief(
        1.0, 0.0, 0.0, "a drop of acid", measured=False
    )
    assert carbonate_belief_from_rule(rule(zero_weight=0.999)) == CarbonateBelief(
        0.999, 0.5, 2.0, "a drop of acid", measured=False
    )


OUTCOME = Outcome(
    decision=Decision.GO,
    because="it is too limy",
    direction="acidify",
    ph_aim=5.0,
    sulfur_as_s_g_m2=None,
    lime_as_caco3_g_m2=None,
    by_forecast_g_m2=60.0,
    applications=(),
    too_early_before=None,
    retest=(),
    drift_ph_year=0.1,
    ledger_net_mmolc_m2_year=-300.0,
)
BAND = Band(lo90=5.0, mid=5.5, hi90=6.0)
DAY = ForecastRow(day=date(2026, 5, 1), old=BAND, new=BAND)
MOVED_DAY = replace(DAY, day=date(2026, 6, 1), new=replace(BAND, mid=5.6))
CAUTION = Caution(code="dust", text="Wear a mask.", source_key=None)
SAME = Changes(
    name="the long bed",
    inputs=(),
    makers=(),
    old=OUTCOME,
    new=OUTCOME,
    between=None,
    cautions_gained=(),
    cautions_lost=(),
    forecast=(DAY,),
    also=(),
)
INPUT = InputChange(path="soil.ph", old=6.0, new=6.1)
MAKER = MakerChange(what=Maker.SEED, old=1, new=2)


@pytest.mark.parametrize(
    ("changes", "moved", "same"),
    [
        ({}, False, True),
        ({"inputs": None}, False, True),
        ({"forecast": ()}, False, True),
        ({"inputs": (INPUT,)}, False, False),
        ({"makers": (MAKER,)}, False, False),
        ({"new": replace(OUTCOME, ph_aim=5.1)}, True, False),
        ({"cautions_gained": (CAUTION,)}, True, False),
        ({"cautions_lost": (CAUTION,)}, True, False),
        ({"also": ("upkeep",)}, True, False),
        ({"forecast": (DAY, MOVED_DAY)}, True, False),
    ],
)
def test_one_difference_is_enough_to_differ(
    changes: dict[str, Any], moved: bool, same: bool
) -> None:
    found = replace(SAME, **changes)
    assert (found.moved, found.is_same) == (moved, same)


def test_a_row_of_figures_has_one_value_per_column() -> None:
    assert DataSet("course", ("day", "ph"), (("2026-05-01", 6.0),)).rows[0][1] == 6.0
    for row in (("2026-05-01",), ("2026-05-01", 6.0, 6.1)):
        with pytest.raises(ValueError, match="values, not 2"):
            DataSet("course", ("day", "ph"), (row,))


def test_nitrogen_of_every_form_counts_once() -> None:
    feed = Material(
        key="a feed",
        name_uk="a feed",
        name_us="a feed",
        synonyms=(),
        group=MaterialGroup.NITROGEN,
        form="granules",
        n_as_nh4_frac=0.1,
        n_as_urea_frac=0.02,
        n_as_no3_frac=0.003,
        n_organic_frac=0.0004,
    )
    assert feed.n_frac == pytest.approx(0.1234)


TREES = {
    "red oak": ("Northern  Red-Oak", "champion"),
    "pin oak": ("swamp oak", "champion"),
    "elm": ("wych elm", "elm"),
}


@pytest.mark.parametrize(
    ("text", "key"),
    [
        ("red oak", "red oak"),
        ("RED-OAK", "red oak"),
        ("northern red oak", "red oak"),
        ("elm", "elm"),
        ("wych", "elm"),
        ("swamp", "pin oak"),
        ("red", "red oak"),
    ],
)
def test_a_name_a_synonym_or_whole_words_of_one_find_it(text: str, key: str) -> None:
    assert match_name(text, TREES, kind="tree") == key


@pytest.mark.parametrize(
    ("text", "candidates"), [("oak", ("pin oak", "red oak")), ("Champion", ("red oak", "pin oak"))]
)
def test_a_name_of_two_things_asks_which(text: str, candidates: tuple[str, ...]) -> None:
    with pytest.raises(NameFault, match="more than one tree; say which: “") as caught:
        match_name(text, TREES, kind="tree")
    fault = caught.value
    assert (fault.text, fault.kind, fault.candidates) == (text, "tree", candidates)
    assert fault.ambiguous


def test_a_name_nearly_right_is_told_the_nearest() -> None:
    with pytest.raises(NameFault, match="no tree called “rod oak”; nearest: “") as caught:
        match_name("rod oak", TREES, kind="tree")
    assert "red oak" in caught.value.candidates
    assert not caught.value.ambiguous


@pytest.mark.parametrize("text", ["", "zzz", "larch", "re", "oa"])
def test_part_of_a_word_or_nothing_like_it_finds_nothing(text: str) -> None:
    with pytest.raises(NameFault, match="and nothing like it") as caught:
        match_name(text, TREES, kind="tree")
    assert caught.value.candidates == ()


def test_likeness_of_six_letters_in_ten_is_near_and_five_names_are_the_most_told() -> None:
    with pytest.raises(NameFault) as caught:
        match_name("abcdefxxxx", {"abcdefyyyy": ()}, kind="word")
    assert caught.value.candidates == ("abcdefyyyy",)
    alike = {f"lavender {letter}": () for letter in "abcdefg"}
    with pytest.raises(NameFault) as caught:
        match_name("lavendar", alike, kind="plant")
    assert len(caught.value.candidates) == 5


def test_no_more_than_eight_names_are_asked_about() -> None:
    heathers = {f"heather {letter}": () for letter in "abcdefghij"}
    with pytest.raises(NameFault, match="more than one") as caught:
        match_name("heather", heathers, kind="plant")
    assert caught.value.candidates == tuple(heathers)[:8]


@pytest.mark.parametrize(
    ("text", "plain"),
    [
        ("Aluminum  Sulphate", "aluminium sulfate"),
        ("Sulphur_prills , pelletized", "sulfur prills, pelletised"),
        ("Crème-brûlée", "creme brulee"),
        ("Leaf mold", "leaf mould"),
    ],
)
def test_spellings_fold_into_one(text: str, plain: str) -> None:
    assert plain_name(text) == plain


@pytest.mark.parametrize(
    ("method", "water", "salt", "rough"),
    [
        *((PhMethod(f"water 1:{part}"), True, False, False) for part in ("1", "2", "2.5", "5")),
        (PhMethod.PASTE, True, False, False),
        (PhMethod.CACL2, False, True, False),
        (PhMethod.KCL, False, True, False),
        (PhMethod.PROBE, False, False, True),
        (PhMethod.STRIP, False, False, True),
        (PhMethod.UNKNOWN, False, False, True),
    ],
)
def test_every_method_is_of_water_of_salt_or_rough(
    method: PhMethod, water: bool, salt: bool, rough: bool
) -> None:
    assert (method.is_water, method.is_salt, method.is_rough) == (water, salt, rough)


def source(grade: str, evidence: str = "seen") -> PlantSource:
    return PlantSource(ph_low=5.0, ph_high=6.0, source_key="a-list", grade=grade, evidence=evidence)


def plant(n_sources: int = 2, *sources: PlantSource, all_seen: bool = True) -> Plant:
    return Plant(
        key="a plant",
        name="a plant",
        latin_name="",
        synonyms=(),
        group="shrub",
        ph_low=5.0,
        ph_high=6.0,
        lowest=5.0,
        highest=6.0,
        tolerated_low=None,
        tolerated_high=None,
        n_sources=n_sources,
        all_seen=all_seen,
        midpoint_spread=0.0,
        ranges_agree=True,
        calcifuge=False,
        note="",
        sources=sources or (source("A"), source("B")),
    )


@pytest.mark.parametrize(
    ("found", "weak"),
    [
        (plant(), False),
        (plant(1), True),
        (plant(3), False),
        (plant(all_seen=False), True),
        (plant(2, source("C"), source("C")), True),
        (plant(2, source("A"), source("C")), False),
        (plant(2, source("A", "memory"), source("B", "memory")), True),
        (plant(2, source("A", "memory"), source("C")), True),
        (plant(2, source("A", "memory"), source("B")), False),
    ],
)
def test_a_range_is_weak_with_one_source_unseen_or_of_the_lowest_grade(
    found: Plant, weak: bool
) -> None:
    assert found.is_weak is weak


def context(**given: Any) -> BedContext:
    usual: dict[str, Any] = {
        "case": Case(name="the long bed", today=date(2026, 4, 12)),
        "soil": None,
        "target": None,
        "place": None,
        "depth_cm": 15.0,
        "soil_mass_kg_m2": 200.0,
        "area_m2": None,
        "total_area_m2": None,
        "planted": False,
        "cap_situation": "unplanted",
        "land_use": "unknown",
        "is_bare": False,
        "soil_temp_c": (),
        "water_base_mmolc_m2_year": 0.0,
        "water_known": False,
        "irrigation_mm_year": 0.0,
        "drainage_mm_year": 200.0,
        "available_water_mm": 100.0,
        "pending": (),
        "assumed": (),
    }
    return BedContext(**{**usual, **given})


def soil(medium: Medium) -> Soil:
    return Soil(
        ph=PhBelief(6.0, 0.2, PhMethod.WATER_1_1, "a test"),
        clay_pct=18.0,
        organic_carbon_pct=1.5,
        bulk_density_g_cm3=1.3,
        field_capacity_frac=0.3,
        wilting_frac=0.1,
        medium=medium,
        carbonate=CarbonateBelief(1.0, 0.0, 0.0, "a test", measured=False),
        k=KBelief(0.0, 0.2, "texture by feel"),
        texture_name="loam",
        assumed=(),
    )


def test_only_a_container_is_a_pot() -> None:
    assert context(cap_situation="container").in_pot
    for other in ("unplanted", "planted", "lawn", "field"):
        assert not context(cap_situation=other).in_pot


def test_only_peat_and_bark_are_organic_alone() -> None:
    assert not context().organic_only
    assert not context(soil=soil(Medium.MINERAL)).organic_only
    assert context(soil=soil(Medium.PEAT_MIX)).organic_only
    assert context(soil=soil(Medium.BARK_MIX)).organic_only


def test_what_is_still_to_come_is_acid_less_lime() -> None:
    sulfur, lime = (
        Pending(
            material=name,
            rate_g_m2=50.0,
            acid_mmolc_m2=acid,
            total_mmolc_m2=2.0 * acid,
            since_days=30,
            as_given="50 g/m2",
        )
        for name, acid in (("sulfur", 1500.0), ("lime", -400.0))
    )
    assert context().pending_acid_mmolc_m2 == 0.0
    assert context(pending=(sulfur, lime)).pending_acid_mmolc_m2 == 1100.0


@pytest.mark.parametrize(("sand", "clay"), [(0.0, 0.0), (100.0, 0.0), (0.0, 100.0)])
def test_a_share_of_none_or_all_of_a_soil_is_let_through_and_beyond_is_refused(
    sand: float, clay: float
) -> None:
    assert texture_class_from_fractions(sand_pct=sand, clay_pct=clay) in ("silt", "sand", "clay")
    for wrong in ({"sand_pct": -0.01}, {"clay_pct": -0.01}):
        with pytest.raises(OutOfRangeError, match="must lie between 0 and 100 %"):
            texture_class_from_fractions(**{"sand_pct": sand, "clay_pct": clay, **wrong})


def test_shares_may_pass_100_by_half_a_per_cent_and_no_more() -> None:
    assert texture_class_from_fractions(sand_pct=60.0, clay_pct=40.5) == "sandy clay"
    with pytest.raises(OutOfRangeError, match="come to more than 100 %"):
        texture_class_from_fractions(sand_pct=60.0, clay_pct=40.51)
    for wrong in ({"sand_pct": 100.1, "clay_pct": 0.0}, {"sand_pct": 0.0, "clay_pct": 100.1}):
        with pytest.raises(OutOfRangeError, match="must lie between 0 and 100 %"):
            texture_class_from_fractions(**wrong)
