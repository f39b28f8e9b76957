"""Products known by their label are what the shipped materials are, figure by figure."""

from __future__ import annotations

from datetime import date

import pytest

from loamshift.case.label import read_label
from loamshift.domain.material import Material, MaterialGroup
from loamshift.services.materials.acid import acid_brought_mmolc_m2, acid_course_mmolc_m2
from loamshift.services.materials.caps import Substance, product_cap
from loamshift.services.materials.labelled import labelled_material
from loamshift.tables.materials import load_materials

MATERIALS = load_materials()
LABELS = {
    "ammonium sulfate": "n_ammonium = 21, s_sulfate = 24",
    "urea": "n_urea = 46",
    "ammonium nitrate": "n_ammonium = 17, n_nitrate = 17",
    "ammonium chloride": "n_ammonium = 25",
    "calcium ammonium nitrate": "n_ammonium = 13.5, n_nitrate = 13.5, nv_as_cao = 12.1",
    "sulfur-coated urea": "n_urea = 37, s_element = 14.5",
    "uan solution, 32 %": "n_urea = 16.5, n_ammonium = 7.75, n_nitrate = 7.75",
    "calcium nitrate": "n_nitrate = 14.4, n_ammonium = 1.1, cao = 26.5",
    "potassium nitrate": "n_nitrate = 13, k2o = 44",
    "sodium nitrate": "n_nitrate = 16",
    "monoammonium phosphate": "n_ammonium = 11, p2o5 = 56",
    "diammonium phosphate": "n_ammonium = 18, p2o5 = 46",
    "gypsum": "ca = 23, s_sulfate = 18.5",
    "epsom salt": "mgo = 16, so3 = 32.5",
    "potassium sulfate": "k2o = 50, s_sulfate = 18",
    "potassium chloride": "k2o = 63",
    "ferrous sulfate, heptahydrate": "fe_sulfate = 20.1, s_sulfate = 11.5",
    "ferrous sulfate, monohydrate": "fe_sulfate = 32.9, s_sulfate = 18.9",
    "aluminium sulfate, 18-hydrate": "al_sulfate = 8.1, s_sulfate = 14.4",
    "elemental sulfur, powder": "s_element = 99",
    "elemental sulfur, pastilles": "s_element = 90, filler = 10",
    "ground limestone, calcitic": "nv_as_caco3 = 98, cao = 54",
    "ground limestone, dolomitic": "nv_as_cao = 56, mgo = 20",
    "hydrated lime": "nv_as_caco3 = 128.3",
}
ALIKE = {"monoammonium phosphate": 0.02, "diammonium phosphate": 0.01}
"""Grades of the trade are rounded: so much of the acid may differ; elsewhere half a per cent.

The net acid of diammonium phosphate is a small rest of acid and base, so a rounding weighs more.
"""


def bag(line: str, kind: Material | None = None) -> Material:
    return labelled_material(read_label(line), key="bag", written="bag", kind=kind)


@pytest.mark.parametrize("key", LABELS)
@pytest.mark.parametrize("in_pot", [False, True])
def test_it_brings_what_the_shipped_material_brings(key: str, in_pot: bool) -> None:
    ours = acid_brought_mmolc_m2(bag(LABELS[key]), rate_g_m2=100.0, in_pot=in_pot)
    shipped = acid_brought_mmolc_m2(MATERIALS[key], rate_g_m2=100.0, in_pot=in_pot)
    assert ours == pytest.approx(shipped, rel=ALIKE.get(key, 0.005), abs=1e-9)


@pytest.mark.parametrize("key", LABELS)
def test_its_kind_and_its_salt_are_those_of_the_shipped_one(key: str) -> None:
    ours, shipped = bag(LABELS[key]), MATERIALS[key]
    assert ours.group is shipped.group
    assert ours.salt_molc_kg == pytest.approx(shipped.salt_molc_kg, rel=0.03, abs=0.1)


@pytest.mark.parametrize("key", LABELS)
def test_with_its_kind_named_it_keeps_the_same_time(key: str) -> None:
    def course(material: Material) -> list[float]:
        return list(
            acid_course_mmolc_m2(
                material,
                rate_g_m2=100.0,
                soil_temp_c=(),
                start=date(2026, 4, 12),
                days=400,
                ph_water=6.0,
                in_pot=False,
            )[[29, 179, 399]]
        )

    shipped = MATERIALS[key]
    assert course(bag(LABELS[key], shipped)) == pytest.approx(
        course(shipped), rel=ALIKE.get(key, 0.005), abs=1e-6
    )


def test_sulfate_in_a_name_does_not_count() -> None:
    neutral = bag("k2o = 30, mgo = 10, so3 = 42")
    assert acid_brought_mmolc_m2(neutral, rate_g_m2=100.0, in_pot=True) == 0.0
    assert neutral.group is MaterialGroup.NEUTRAL_SALT
    assert {"neutral-salt", "salt"} <= set(neutral.cautions)


def test_calcium_is_lime_only_by_the_neutralising_value() -> None:
    gypsum, lime = bag("ca = 23, s_sulfate = 18.5"), bag("ca = 38, nv_as_caco3 = 95")
    assert gypsum.caco3_eq_frac == 0.0 and lime.caco3_eq_frac == 0.95
    assert gypsum.figures["sulfate_molc_kg"].value == pytest.approx(11.5, abs=0.1)
    assert "sulfate_molc_kg" not in lime.figures


def test_nitrogen_with_lime_warns_of_ammonia() -> None:
    assert "ammonia" in bag("n_ammonium = 10, n_nitrate = 10, nv_as_cao = 12").cautions
    assert "ammonia" not in bag("n_nitrate = 14.4, n_ammonium = 1.1, cao = 26.5").cautions


def test_dust_is_said_of_powder_and_not_of_pastilles() -> None:
    assert "sulfur-dust" in bag("s_element = 90").cautions
    pastilles = bag("s_element = 85", MATERIALS["elemental sulfur, pastilles"])
    assert "sulfur-dust" not in pastilles.cautions
    assert pastilles.intact_diameter_um == 3000.0


def test_iron_and_caustic_lime_are_minded() -> None:
    assert {"iron-stain", "nitrogen"} <= set(bag("n_ammonium = 6, fe_sulfate = 5").cautions)
    assert "caustic-lime" in bag("nv_as_caco3 = 135").cautions
    assert "caustic-lime" not in bag("nv_as_caco3 = 95").cautions


def test_slow_nitrogen_counts_in_full_however_little() -> None:
    # a compost of as little nitrogen would set free only a part of it
    slow = acid_brought_mmolc_m2(bag("n_slow = 1.5"), rate_g_m2=100.0, in_pot=True)
    urea = acid_brought_mmolc_m2(bag("n_urea = 1.5"), rate_g_m2=100.0, in_pot=True)
    assert slow == pytest.approx(urea)


def test_the_limit_that_is_reached_first_governs() -> None:
    by_sulfur = product_cap(bag("s_element = 90, n_urea = 1"), cap_situation="planted")
    by_nitrogen = product_cap(bag("s_element = 5, n_urea = 30"), cap_situation="planted")
    assert by_sulfur is not None and by_sulfur.applies_to is Substance.SULFUR
    assert by_nitrogen is not None and by_nitrogen.applies_to is Substance.NITROGEN


def test_fineness_makes_size_classes() -> None:
    lime = bag('nv_as_caco3 = 95, fineness = "60 % through 100 mesh, 95 % through 2 mm"')
    assert [(s.low_um, s.high_um, round(s.mass_frac, 3)) for s in lime.sizes] == [
        (0.0, 150.0, 0.6),
        (150.0, 2000.0, 0.35),
        (2000.0, 4000.0, 0.05),
    ]
    sulfur = bag('s_element = 99, fineness = "100 % through 80 mesh"')
    assert sum(size.mass_frac for size in sulfur.sizes) == pytest.approx(1.0)
    assert all(size.high_um / size.low_um <= 2.0 + 1e-9 for size in sulfur.sizes)
