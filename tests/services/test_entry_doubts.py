"""Figures that look like a slip of the unit are asked about, and the usual ones are not."""

from __future__ import annotations

import re
from collections.abc import Sequence

import pytest

from loamshift.case.frozen_case import case_from_plain, case_to_plain
from loamshift.case.read import parse_case
from loamshift.case.write_case import case_to_toml
from loamshift.domain.answer import Severity
from loamshift.domain.case import Case
from loamshift.domain.message import message
from loamshift.services.advise import advise
from loamshift.services.cautions.entry_doubts import (
    CHECK,
    WHEN,
    entry_doubt_findings,
    entry_doubts,
    figure_told,
)
from loamshift.tables.entry_ranges import load_entry_ranges
from services.beds import bed
from wording import read

SOIL = 'ph = 7.0\nph_method = "water 1:1"\n'
POT = 'kind = "container"\narea = "0.07 m2"\ndepth = "30 cm"'
PEAT = SOIL + 'medium = "peat mix"'
OWN = """case = 1
today = 2026-04-12
[place]
latitude = 45
air_temp_c = {air}
rain_mm = {rain}
"""
COOL = [1, 2, 5, 9, 14, 17, 19, 18, 15, 10, 5, 2]
WET = [60, 50, 55, 60, 70, 80, 75, 70, 65, 70, 70, 65]


def soil(line: str) -> Case:
    return bed(SOIL + line)


def own(air: Sequence[float], rain: Sequence[float]) -> Case:
    return parse_case(OWN.format(air=list(air), rain=list(rain)))


ASKED = [
    (soil("organic_matter_pct = 0.03"), "soil.organic_matter_pct", "a fraction, it is 3%"),
    (soil("organic_matter_pct = 35"), "soil.organic_matter_pct", "g/kg, it is 3.5%"),
    (soil("organic_carbon_pct = 0.018"), "soil.organic_carbon_pct", "it is 1.8%"),
    (soil("clay_pct = 0.18"), "soil.clay_pct", "a fraction, it is 18%"),
    (soil("carbonate_pct = 0.02"), "soil.carbonate_pct", "a fraction, it is 2%"),
    (soil("cec_cmolc_kg = 120"), "soil.cec_cmolc_kg", "mmol/kg, it is 12 cmolc/kg"),
    (soil("base_saturation_pct = 0.85"), "soil.base_saturation_pct", "it is 85%"),
    (soil("mg_saturation_pct = 0.1"), "soil.mg_saturation_pct", "it is 10%"),
    (soil("sodium_pct = 0.05"), "soil.sodium_pct", "it is 5%"),
    (soil("exchangeable_al_cmolc_kg = 36"), "soil.exchangeable_al_cmolc_kg", "mg/kg, it is 0.4"),
    (soil("ec_ds_m = 45"), "soil.ec_ds_m", "mS/m, it is 0.45 dS/m"),
    (soil("bulk_density_g_cm3 = 0.13"), "soil.bulk_density_g_cm3", "Is the figure right?"),
    (bed(PEAT + "\nbulk_density_g_cm3 = 1.3", bed=POT), "soil.bulk_density_g_cm3", "high"),
    (soil('sample_depth = "15 mm"'), "soil.sample_depth", "cm, it is 15 cm"),
    (soil("lab_lime_requirement = 4"), "soil.lab_lime_requirement", "t/ha, it is 400 g/m²"),
    (soil("lab_lime_requirement = 4000"), "soil.lab_lime_requirement", "kg/ha, it is 400 g/m²"),
    (bed(bed='area = 20\ndepth = "15 mm"'), "bed.depth", "cm, it is 15 cm"),
    (bed(bed='kind = "field"\narea = 0.5'), "bed.area", "hectares, it is 5,000 m²"),
    (bed(bed='kind = "container"\narea = 700'), "bed.area", "square centimetres, it is 0.07 m²"),
    (bed(bed="area = 20\nplants = 3\ntreated_diameter = 6"), "bed.treated_diameter", "feet, it is"),
    (bed(more="[water]\nalkalinity = 3.6"), "water.alkalinity", "it is 180 mg/L CaCO3"),
    (bed(more='[water]\nalkalinity = "12"'), "water.alkalinity", "(dKH), it is 214 mg/L CaCO3"),
    (bed(more="[water]\nhardness = 16"), "water.hardness", "it is 286 mg/L CaCO3"),
    (bed(more='[water]\nalkalinity = 100\nweekly = "25 cm"'), "water.weekly", "mm, it is 25 mm"),
    (bed(more="[water]\nalkalinity = 100\nweekly = 15"), "water.weekly", "for one plant"),
    (
        bed(more='[feed]\nn_g_m2_year = 80\nform = "ammonium"'),
        "feed.n_g_m2_year",
        "kg/ha, it is 8.0 g/m²",
    ),
    (own([2, 3, 6, 10, 15, 18, 20, 19, 16, 11, 6, 3], [2, 2, 3, 3, 4, 4, 4, 4, 3, 3, 3, 2]),
     "place.rain_mm", "inches, it is 940 mm a year"),
    (own([38, 39, 42, 46, 51, 56, 59, 59, 55, 49, 43, 39], WET), "place.air_temp_c", "°F, it is"),
    (
        bed(more='[[on_hand]]\nmaterial = "gypsum"\npack = 25\nprice = 9\ncurrency = "GBP"'),
        "on_hand[1].pack",
        "kg, it is 25 kg",
    ),
    (
        bed(more='[[on_hand]]\nmaterial = "flowers of sulphur"\npurity_pct = 0.9'),
        "on_hand[1].purity_pct",
        "it is 90%",
    ),
    (
        bed(more='[[applied]]\ndate = 2025-10-05\nmaterial = "flowers of sulphur"\namount = 1.5'),
        "applied[1]",
        "kg, it is 75 g/m²",
    ),
    (
        bed(more='[[claim]]\nmaterial = "flowers of sulphur"\namount = 2'),
        "claim[1]",
        "kg, it is 100 g/m²",
    ),
    (
        bed(more='[[reading]]\ndate = 2025-10-05\nph = 6.8\ndepth = "15 mm"'),
        "reading[1].depth",
        "cm, it is 15 cm",
    ),
    (
        bed(more="[[reading]]\ndate = 2025-10-05\nph = 6.8\nph_sd = 0.001"),
        "reading[1].ph_sd",
        "standard deviation",
    ),
]  # fmt: skip

NOT_ASKED = [
    soil("organic_matter_pct = 0.3"),
    soil("organic_matter_pct = 15"),
    bed(PEAT + "\norganic_matter_pct = 90", bed=POT),
    soil("sand_pct = 97.5\nsilt_pct = 2\nclay_pct = 0.5"),
    soil("clay_pct = 2"),
    soil("clay_pct = 0"),
    soil("carbonate_pct = 0"),
    soil("carbonate_pct = 0.2"),
    soil("cec_cmolc_kg = 55"),
    soil("organic_matter_pct = 60\ncec_cmolc_kg = 120\nmedium = 'peat mix'"),
    soil("sodium_pct = 0.2"),
    soil("ec_ds_m = 12"),
    soil("bulk_density_g_cm3 = 0.5"),
    bed(PEAT + "\nbulk_density_g_cm3 = 0.13", bed=POT),
    soil('lab_lime_requirement = "2 t/ha"'),
    soil("lab_lime_requirement = 0"),
    bed(bed='area = 20\ndepth = "5 cm"'),
    bed(bed='kind = "container"\narea = "2 m2"\ndepth = "80 cm"'),
    bed(bed='kind = "field"\narea = "0.5 ha"'),
    bed(more='[water]\nalkalinity = "3.6 mg/L CaCO3"'),
    bed(more='[water]\nalkalinity = "3.6 meq/L"'),
    bed(more="[water]\nalkalinity = 0"),
    bed(more="[water]\nalkalinity = 40"),
    bed(more='[water]\nhardness = "16 dH"'),
    bed(more='[water]\nalkalinity = 100\nweekly = "70 mm"'),
    bed(PEAT, bed=POT, more='[water]\nalkalinity = 100\nweekly = "14 L"'),
    bed(more='[feed]\nn_g_m2_year = 28\nform = "urea"'),
    bed(PEAT, bed=POT, more='[feed]\nn_g_m2_year = 90\nform = "urea"'),
    own(COOL, WET),
    bed(more='[[on_hand]]\nmaterial = "gypsum"\npack = "25 kg"'),
    bed(more='[[claim]]\nmaterial = "flowers of sulphur"\nrate = "1 g/m2"'),
    bed(more="[[reading]]\ndate = 2025-10-05\nph = 6.8\nph_sd = 0.05"),
]


@pytest.mark.parametrize(("case", "path", "words"), ASKED, ids=lambda part: str(part)[:40])
def test_a_likely_slip_is_asked_about_with_what_may_be_meant(
    case: Case, path: str, words: str
) -> None:
    rows = entry_doubt_findings(case)
    assert [row.check for row in rows] == [CHECK + path]
    told = read(rows[0].comment)
    assert words in told
    assert "?" in told
    assert rows[0].severity is Severity.CAUTION
    assert not rows[0].passed
    assert [doubt.path for doubt in entry_doubts(case)] == [path]


@pytest.mark.parametrize("case", NOT_ASKED)
def test_the_nearest_usual_figure_is_not_asked_about(case: Case) -> None:
    assert entry_doubt_findings(case) == ()


def test_every_range_is_tried_from_outside() -> None:
    tried = {re.sub(r"\[\d+\]", "[]", path) for _, path, _ in ASKED}
    not_tried = {row.path for row in load_entry_ranges()} - tried
    assert not_tried == {
        "soil.sand_pct",  # as clay
        "soil.silt_pct",  # as clay
        "place.soil_temp[].c",
        "place.soil_temp[].depth",
        "applied[].incorporated",
    }


def test_lists_of_pairs_are_walked_to_the_entry_that_is_doubtful() -> None:
    temps = (
        'soil_temp = [{ date = 2026-04-01, c = 8 }, { date = 2026-04-08, c = 54, depth = "5 mm" }]'
    )
    case = parse_case(f'case = 1\ntoday = 2026-04-12\n[place]\nname = "Minneapolis"\n{temps}')
    found = {doubt.path: doubt for doubt in entry_doubts(case)}
    assert set(found) == {"place.soil_temp[2].c", "place.soil_temp[2].depth"}
    (unit, meant) = found["place.soil_temp[2].c"].meant[0]
    assert unit == "deg-f"
    assert meant == pytest.approx((54 - 32) / 1.8, abs=0.01)


def test_a_depth_worked_in_beyond_the_spade_is_asked_about() -> None:
    entry = '[[applied]]\ndate = 2025-10-05\nmaterial = "gypsum"\nrate = 90\nincorporated = 100'
    assert [doubt.path for doubt in entry_doubts(bed(more=entry))] == ["applied[1].incorporated"]


def test_only_units_that_explain_the_figure_are_offered() -> None:
    meant = {
        value: entry_doubts(bed(more=f"[water]\nalkalinity = {value}"))[0].meant
        for value in (0.3, 3.6, 15)
    }
    assert [len(units) for units in meant.values()] == [0, 2, 1]


def test_every_word_of_the_table_is_known() -> None:
    assert {row.when for row in load_entry_ranges()} <= set(WHEN)


@pytest.mark.parametrize("units", ["metric", "us"])
def test_every_phrase_hint_and_unit_of_the_table_has_its_words(units: str) -> None:
    other = read(message("doubt-meant", meant="kg", value=None), units=units)
    for row in load_entry_ranges():
        assert read(message(f"doubt-what-{row.phrase}"), units=units)
        assert not row.hint or read(message(f"doubt-hint-{row.hint}"), units=units).endswith("?")
        used = read(message("doubt-until", given=figure_told(3.0, row.unit)), units=units)
        assert used != "Until you correct it, we use 3." or row.unit == "pH"
        for slip in row.slips:
            said = read(message("doubt-meant", meant=slip.meant, value=None), units=units)
            assert (said == other) is (slip.meant == "kg"), slip.meant


def test_a_bare_figure_stays_bare_in_a_kept_case_and_in_a_file() -> None:
    case = bed(more="[water]\nalkalinity = 3.6\nhardness = 16")
    assert case.without_unit == ("water.alkalinity", "water.hardness")
    assert parse_case(case_to_toml(case)).without_unit == case.without_unit
    assert case_from_plain(case_to_plain(case), source="test").without_unit == case.without_unit
    united = bed(more='[water]\nalkalinity = "3.6 mg/L CaCO3"')
    assert united.without_unit == ()
    assert parse_case(case_to_toml(united)).without_unit == ()


def test_a_question_brings_the_caution_and_its_absence_does_not() -> None:
    def codes(case: Case) -> set[str]:
        return {caution.code for caution in advise(case).cautions}

    assert "unit-slip" in codes(soil("organic_matter_pct = 0.03"))
    assert "unit-slip" not in codes(soil("organic_matter_pct = 3"))


@pytest.mark.parametrize(
    ("rate", "is_warned"),
    [
        ("1 cup per plant", True),
        ("a handful per plant", True),
        ("2 tablespoons per plant", True),
        ("30 g per plant", False),
    ],
)
@pytest.mark.parametrize("table", ["claim", "applied"])
def test_household_measures_are_told_by_the_reader_and_not_by_their_words(
    table: str, rate: str, is_warned: bool
) -> None:
    date = "date = 2026-03-01\n" if table == "applied" else ""
    entry = f'[[{table}]]\n{date}material = "flowers of sulphur"\nrate = "{rate}"'
    case = bed(bed="area = 9\nplants = 9\nplanted = true", more=entry)
    flags = [one.in_household_measures for one in case.claims]
    flags += [one.in_household_measures for one in case.applied]
    assert flags == [is_warned]
    assert ("unit-slip" in {caution.code for caution in advise(case).cautions}) is is_warned


def test_a_reader_in_us_units_is_asked_in_them() -> None:
    text = 'case = 1\ntoday = 2026-04-12\nunits = "us"\n[bed]\narea = 20\ndepth = "15 mm"'
    comment = read(entry_doubt_findings(parse_case(text))[0].comment, units="us")
    assert "depth of 0.591 in is" in comment
    assert "it is 6 in." in comment
