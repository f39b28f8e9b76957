"""Every material obeys one contract."""

from __future__ import annotations

from collections import defaultdict
from itertools import pairwise

import pytest

from loamshift.core.acidity import acid_parts_molc_kg, lasting_acid_molc_kg
from loamshift.domain.material import BREAK_UP_DUG_IN, BREAK_UP_TOP, Material, MaterialGroup
from loamshift.domain.material_comment import material_comment
from loamshift.domain.names import plain_name
from loamshift.tables.materials import VECTOR_FIELDS, find_material, load_materials
from loamshift.tables.references import load_references
from loamshift.tables.rows import read_rows
from loamshift.units import CACO3_G_MOL
from wording import read

MATERIALS = list(load_materials().values())
CAUTIONS = {row["code"] for row in read_rows("cautions")}
ACID_FIELDS = (
    *("elemental_s_frac", "fast_acid_molc_kg", "n_as_nh4_frac", "n_as_urea_frac"),
    *("n_as_no3_frac", "n_organic_frac", "caco3_eq_frac", "ash_alkalinity_molc_kg"),
    "organic_acid_molc_kg",
)


@pytest.mark.parametrize("material", MATERIALS, ids=lambda material: material.key)
def test_contract(material: Material) -> None:
    assert material.key == material.key.casefold().strip()
    assert material.name_uk
    assert material.name_us
    assert material.form
    comment = material_comment(material)
    for units in ("metric", "us"):
        assert read(comment, units=units).endswith(".")
    assert set(material.cautions) <= CAUTIONS
    shares = (
        *(material.elemental_s_frac, material.n_as_nh4_frac, material.n_as_urea_frac),
        *(material.n_as_no3_frac, material.n_organic_frac, material.water_frac),
    )
    assert all(0.0 <= share <= 1.0 for share in shares)
    assert sum(shares) <= 1.0
    assert 0.0 <= material.caco3_eq_frac <= 2.5
    assert 0.0 <= material.ash_alkalinity_molc_kg <= 3.0
    assert 0.0 <= material.organic_acid_molc_kg <= 20.0
    assert 0.0 <= material.salt_molc_kg <= 60.0
    assert -60.0 < material.fast_acid_molc_kg < 25.0


@pytest.mark.parametrize("material", MATERIALS, ids=lambda material: material.key)
def test_every_figure_has_a_source_and_lies_in_its_range(material: Material) -> None:
    assert material.figures
    for name in VECTOR_FIELDS:
        value = getattr(material, name)
        if value:
            assert material.figures[name].value == value
    for name, figure in material.figures.items():
        assert figure.source_key in load_references(), name
        assert figure.unit
        assert figure.low is None or figure.low <= figure.value, name
        assert figure.high is None or figure.value <= figure.high, name


@pytest.mark.parametrize("material", MATERIALS, ids=lambda material: material.key)
def test_sizes(material: Material) -> None:
    if material.elemental_s_frac or material.group is MaterialGroup.LIME:
        assert material.sizes
    if material.sizes:
        assert sum(size.mass_frac for size in material.sizes) == pytest.approx(1.0, abs=1e-9)
    for size in material.sizes:
        assert 0.0 <= size.low_um < size.high_um <= 6000.0
    for finer, coarser in pairwise(material.sizes):
        assert finer.high_um <= coarser.low_um
    kinds = ("prills", "pastilles", "dispersible", "prilled")
    breaks_up = material.key in [f"elemental sulfur, {kind}" for kind in kinds]
    if material.elemental_s_frac and not breaks_up:
        assert all(size.high_um / size.low_um <= 2.0 + 1e-9 for size in material.sizes)
    assert (material.intact_diameter_um is not None) == breaks_up
    for name in (BREAK_UP_TOP, BREAK_UP_DUG_IN):
        assert (name in material.figures) == breaks_up
        if breaks_up:
            speed = material.figures[name]
            assert speed.low is not None and speed.high is not None
            assert 0.0 < speed.low < speed.value < speed.high


@pytest.mark.parametrize("material", MATERIALS, ids=lambda material: material.key)
def test_its_group_says_what_it_does(material: Material) -> None:
    brings = {name: getattr(material, name) for name in ACID_FIELDS if getattr(material, name)}
    if material.group in (MaterialGroup.NEUTRAL_SALT, MaterialGroup.IRON):
        assert not brings
    if material.group is MaterialGroup.NEUTRAL_SALT:
        assert material.salt_molc_kg > 0.0
        assert "neutral-salt" in material.cautions
    if material.group is MaterialGroup.SULFUR:
        assert set(brings) == {"elemental_s_frac"}
    if material.group is MaterialGroup.ACID_SALT:
        assert set(brings) == {"fast_acid_molc_kg"}
        assert material.fast_acid_molc_kg > 0.0
    if material.group is MaterialGroup.LIME:
        assert set(brings) == {"caco3_eq_frac"}
    if material.group is MaterialGroup.NITROGEN:
        assert material.n_frac > 0.0
        assert "nitrogen" in material.cautions


@pytest.mark.parametrize("material", MATERIALS, ids=lambda material: material.key)
def test_each_of_its_names_finds_it(material: Material) -> None:
    for spelling in (material.key, material.name_uk, material.name_us, *material.synonyms):
        assert find_material(spelling).key == material.key


@pytest.mark.parametrize("material", MATERIALS, ids=lambda material: material.key)
def test_its_vector_gives_an_acid_balance_near_the_printed_one(material: Material) -> None:
    parts = acid_parts_molc_kg(**{name: getattr(material, name) for name in ACID_FIELDS})
    as_caco3_frac = lasting_acid_molc_kg(parts) * CACO3_G_MOL / 2000.0
    printed = material.figures.get("printed_acidity_as_caco3_frac")
    if printed is None:
        return
    # Half uptake by convention; MAP and DAP stand on one garbled row, and organic feeds vary.
    loose = "phosphate" in material.key or material.group is MaterialGroup.ORGANIC
    assert as_caco3_frac == pytest.approx(printed.value, abs=0.25 if loose else 0.07)
    if material.group is MaterialGroup.NEUTRAL_SALT:
        assert as_caco3_frac == 0.0


@pytest.mark.parametrize("material", MATERIALS, ids=lambda material: material.key)
def test_nitrogen_of_strawy_stuff_is_not_counted_as_released(material: Material) -> None:
    c_to_n = material.figures.get("c_to_n")
    if c_to_n is not None and c_to_n.value > 30.0:
        assert material.n_frac == 0.0
    if "n_total_frac" in material.figures:
        assert material.n_frac == 0.0


def test_no_name_is_shared() -> None:
    owners = defaultdict(set)
    for material in MATERIALS:
        for spelling in (material.key, material.name_uk, material.name_us, *material.synonyms):
            owners[plain_name(spelling)].add(material.key)
    assert not {spelling: keys for spelling, keys in owners.items() if len(keys) > 1}
