from __future__ import annotations

import json
import math
import subprocess
import sys
from itertools import pairwise

import pytest
from build_materials import log_classes, ohio_classes

from loamshift.core.formula import acid_molc_kg
from loamshift.domain.material_comment import material_comment
from loamshift.domain.names import NameFault
from loamshift.tables.materials import find_material, load_materials
from loamshift.tables.parameters import parameter_values
from loamshift.tables.rules import load_cautions
from loamshift.units import SULFUR_G_MOL
from wording import read

MATERIALS = load_materials()
ACID_OF_SULFUR_MOLC_KG = 2000.0 / SULFUR_G_MOL


def test_every_material_asked_for_is_there() -> None:
    wanted = (
        *("sulphate of iron", "copperas", "iron sulphate", "sulphate of ammonia", "garden lime"),
        *("ground chalk", "ag lime", "slaked lime", "quicklime", "Epsom salts", "Epsom salt"),
        *("magnesium sulfate", "sulphate of potash", "coffee grounds", "pine straw", "leaf mold"),
        *("moss peat", "flowers of sulphur", "aluminum sulfate", "UAN 32", "MAP", "DAP"),
        *("muriate of potash", "wood ash", "eggshells", "marl", "bone meal", "mushroom compost"),
        *("sawdust", "biochar", "alfalfa meal", "cottonseed meal", "blood meal", "vinegar"),
        *("citric acid", "battery acid", "oak leaves", "leaf litter", "EDDHA iron", "gypsum"),
    )
    for name in wanted:
        assert find_material(name).key in MATERIALS


@pytest.mark.parametrize("word", ["sulfur", "sulphur", "elemental sulfur", "Elemental Sulphur"])
def test_plain_sulfur_asks_for_the_form(word: str) -> None:
    with pytest.raises(NameFault) as caught:
        find_material(word)
    assert caught.value.ambiguous
    forms = ("powder", "wettable", "100 mesh", "50-80 mesh", "prills", "pastilles")
    assert {f"elemental sulfur, {form}" for form in forms} <= set(caught.value.candidates)


def test_a_form_after_a_comma_finds_it() -> None:
    assert find_material("elemental sulfur, powder").key == "elemental sulfur, powder"
    assert find_material("sulphur, prills").key == "elemental sulfur, prills"


@pytest.mark.parametrize("word", ["peaty mooss", "lime", "unobtainium"])
def test_unknown_or_loose_words_are_refused(word: str) -> None:
    with pytest.raises(NameFault):
        find_material(word)


@pytest.mark.parametrize(
    ("key", "formula"),
    [
        ("aluminium sulfate, 18-hydrate", "Al2(SO4)3.18H2O"),
        ("aluminium sulfate, 14-hydrate", "Al2(SO4)3.14H2O"),
        ("aluminium sulfate, anhydrous", "Al2(SO4)3"),
        ("ferrous sulfate, heptahydrate", "FeSO4.7H2O"),
        ("ferrous sulfate, monohydrate", "FeSO4.H2O"),
        ("ferric sulfate, nonahydrate", "Fe2(SO4)3.9H2O"),
    ],
)
def test_acid_salts_agree_with_the_charge_balance(key: str, formula: str) -> None:
    assert MATERIALS[key].fast_acid_molc_kg == pytest.approx(acid_molc_kg(formula), rel=1e-5)


@pytest.mark.parametrize(
    ("key", "kg_per_kg_sulfur"),
    [("aluminium sulfate, 18-hydrate", 6.9), ("ferrous sulfate, heptahydrate", 8.7)],
)
def test_weight_for_the_acid_of_a_kilogram_of_sulfur(key: str, kg_per_kg_sulfur: float) -> None:
    weight = ACID_OF_SULFUR_MOLC_KG / MATERIALS[key].fast_acid_molc_kg
    assert weight == pytest.approx(kg_per_kg_sulfur, abs=0.05)


@pytest.mark.parametrize(
    ("key", "formula", "purity"),
    [
        ("ammonium sulfate", "(NH4)2SO4", 21.0 / 21.2),
        ("urea", "CO(NH2)2", 46.0 / 46.65),
        ("diammonium phosphate", "(NH4)2HPO4", 18.0 / 21.21),
        ("monoammonium phosphate", "NH4H2PO4", 11.0 / 12.18),
        ("ammonium nitrate", "NH4NO3", 34.0 / 35.0),
        ("anhydrous ammonia", "NH3", 1.0),
        ("potassium nitrate", "KNO3", 13.0 / 13.85),
        ("nitric acid, 67 %", "HNO3", 0.67),
    ],
)
def test_nitrogen_vectors_add_up_to_the_charge_balance(
    key: str, formula: str, purity: float
) -> None:
    material = MATERIALS[key]
    acid = material.fast_acid_molc_kg + 1000.0 / 14.007 * (
        2.0 * material.n_as_nh4_frac + material.n_as_urea_frac
    )
    assert acid == pytest.approx(purity * acid_molc_kg(formula), rel=2e-3, abs=1e-9)


def test_figures_by_dry_mass_are_turned_into_figures_as_sold() -> None:
    peat = MATERIALS["sphagnum peat"]
    assert peat.water_frac == 0.5
    assert peat.fast_acid_molc_kg == pytest.approx(0.5 * 50.0 * 2.0 / 100.09, rel=1e-4)
    assert peat.bulk_density_kg_m3 == pytest.approx(160.0)
    # Seen for peat loosened: 3 to 4 kg CaCO3 a cubic metre; our two figures must agree with it.
    lime_kg_m3 = peat.fast_acid_molc_kg * peat.bulk_density_kg_m3 * 0.05005
    assert 3.0 <= lime_kg_m3 <= 4.0 + 0.05


def test_leaf_litter_is_the_geometric_mean_of_the_ends_seen() -> None:
    figure = MATERIALS["leaf litter, any tree"].figures["ash_alkalinity_molc_kg"]
    assert figure.low is not None
    assert figure.high is not None
    assert figure.value**2 == pytest.approx(figure.low * figure.high, rel=1e-4)
    assert figure.low / 0.85 == pytest.approx(0.36)


def test_log_classes_share_mass_by_log_size() -> None:
    classes = log_classes(10.0, 75.0)
    assert len(classes) == 3
    assert classes[0][0] == 10.0
    assert classes[-1][1] == 75.0
    ratios = [high / low for low, high, _ in classes]
    assert max(ratios) <= 2.0
    assert ratios == pytest.approx([ratios[0]] * 3)
    for (_, high, _), (low, _, _) in pairwise(classes):
        assert high == low
    assert len(log_classes(10.0, 80.0)) == 3


def test_ohio_pulverised_grade() -> None:
    shares = [share for _, _, share in ohio_classes("55")]
    assert shares == pytest.approx([0.60, 0.10, 0.25, 0.05])


def test_loading_takes_less_than_30_ms() -> None:
    code = (
        "import time, json\n"
        "import loamshift.tables.materials as m\n"
        "times = []\n"
        "for _ in range(5):\n"
        "    m.load_materials.cache_clear()\n"
        "    start = time.perf_counter()\n"
        "    m.load_materials()\n"
        "    times.append(time.perf_counter() - start)\n"
        "print(json.dumps(min(times)))\n"
    )
    out = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert json.loads(out.stdout) < 0.030


def test_hand_crushed_shell_is_coarser_than_the_sieves_of_lime_laws() -> None:
    shell = find_material("eggshell, hand crushed")
    assert sum(one.mass_frac for one in shell.sizes if one.low_um >= 2000.0) >= 0.9
    assert "take years" in read(material_comment(shell))


def test_every_peat_has_a_ph_of_its_own() -> None:
    for name in ("sphagnum peat", "black peat", "ericaceous compost"):
        assert 3.0 < find_material(name).figures["ph_water"].value < 6.0


def test_the_caution_on_cold_soil_says_what_the_rate_does() -> None:
    """Arrhenius from 25 degC, by the row of the sulfur table."""
    energy = parameter_values("sulfur")["activation_energy_kj_mol"]
    figures = load_cautions()["cold-soil"].figures
    assert figures["warm"].value == 25.0
    for name in ("cool", "cold"):
        inverse = 1.0 / 298.15 - 1.0 / (figures[name].value + 273.15)
        share = figures[f"{name}_share"].value / 100.0
        assert math.exp(energy / 0.008314 * inverse) == pytest.approx(share, abs=0.025)
