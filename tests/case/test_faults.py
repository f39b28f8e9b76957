"""What is wrong with a case file, told all at once with its path and its mend."""

from __future__ import annotations

import time
from datetime import date
from pathlib import Path

import pytest

from loamshift.case.read import parse_case, read_case
from loamshift.errors import CaseError, Fault
from loamshift.report.messages.refusal import refusal
from loamshift.report.words import Words
from loamshift.tables.materials import find_material, load_materials
from wording import read

TODAY = date(2026, 4, 12)


def faults_of(text: str) -> dict[str, Fault]:
    with pytest.raises(CaseError) as caught:
        parse_case(text, today=TODAY)
    return {fault.path: fault for fault in caught.value.faults}


def test_all_faults_at_once_with_their_paths() -> None:
    faults = faults_of(
        """
case = 1
[bed]
area = "20 m"
dept = 3
[soil]
ph = 65
clay_pct = 40
sand_pct = 40
silt_pct = 40
sampled = 2030-01-01
[aim]
plant = "blueberri"
by = 2020-01-01
[[applied]]
date = 2027-01-01
material = "gypsum"
amount = "3 boxes"
[[applied]]
material = "gipsum"
amount = "3 kg"
rate = "3 g/m2"
[[reading]]
date = 2025-01-01
ph = true
"""
    )
    assert set(faults) == {
        "bed.area",
        "bed.dept",
        "soil.ph",
        "soil.clay_pct",
        "soil.sampled",
        "aim.plant",
        "aim.by",
        "applied[1].date",
        "applied[1].amount",
        "applied[2].date",
        "applied[2].material",
        "applied[2]",
        "reading[1].ph",
    }
    assert faults["soil.ph"].given == "65"
    assert "6.5" in faults["soil.ph"].mend
    assert "“depth”" in faults["bed.dept"].mend
    assert "highbush blueberry" in faults["aim.plant"].mend
    assert '"Gypsum"' in faults["applied[2].material"].mend
    assert "120%" in faults["soil.clay_pct"].problem


@pytest.mark.parametrize(
    ("text", "path", "says"),
    [
        ("nam = 'x'", "nam", "“name”"),
        ("plants = 3", "plants", "bed.plants"),
        ("[soil]\npH = 7", "soil.pH", "“ph”"),
        ("[soil]\nom = 3", "soil.om", "soil.organic_matter_pct"),
        ("[soils]\nph = 7", "soils", "“soil”"),
        ("[soil]\nxyzzy = 3", "soil.xyzzy", "keys of [soil]"),
        ("[claim]\nmaterial = 'gypsum'", "claim", "[[claim]]"),
        ("soil = 5", "soil", "[soil]"),
        ("applied = [1]", "applied[1]", "[[applied]]"),
        ("[bed]\nkind = 'groud'", "bed.kind", 'mean "ground"'),
        ("[bed]\ncount = 1.5", "bed.count", "whole number"),
        ("[bed]\nplanted = 'maybe'", "bed.planted", "true nor false"),
        ("[soil]\nph = 7\nph_method = 'water'", "soil.ph_method", "water 1:2.5"),
        ("[soil]\ncarbonate_pct = nan", "soil.carbonate_pct", "not a number"),
        ("[soil]\ncec_cmolc_kg = inf", "soil.cec_cmolc_kg", "not a number"),
        ("[soil]\ncec_cmolc_kg = 180", "soil.cec_cmolc_kg", "Divide it by ten"),
        ("[soil]\norganic_matter_pct = 120", "soil.organic_matter_pct", "0 to 100"),
        ("[soil]\ncarbonate_pct = 90", "soil.carbonate_pct", "0 to 80"),
        ("[soil]\nph = '<4'", "soil.ph", "number alone"),
        (f"[soil]\nclay_pct = {'9' * 400}", "soil.clay_pct", "too large"),
        ("[soil]\ntexture = 'lome'", "soil.texture", "loam"),
        ("[soil]\nlab_lime_requirement = '3000 t/ha'", "soil.lab_lime_requirement", "2 t/ha"),
        ("[water]\nalkalinity = '12 dH'", "water.alkalinity", "water.hardness"),
        ("[water]\nweekly = '550 L'", "water.weekly", "bed.area"),
        ("[water]\nmonths = [5, 5]", "water.months", "[5]"),
        ("[water]\nmonths = [13]", "water.months", "1 to 12"),
        ("[feed]\nn_g_m2_year = 6", "feed.form", "urea"),
        ("[feed]\nn_g_m2_year = 120\nform = 'urea'", "feed.n_g_m2_year", "kg/ha"),
        ("[feed]\nrate = '20 g/m2'", "feed.material", "feed"),
        ("[feed]\nmaterial = 'gypsum'", "feed.rate", "20 g/m2"),
        ("[feed]\nmaterial = 'gypsum'\nform = 'urea'", "feed", "Keep"),
        ("[place]\nlatitude = 45", "place.longitude", "longitude"),
        ("[place]\nlongitude = 45", "place.latitude", "latitude"),
        ("[place]\nlatitude = 95\nlongitude = 0", "place.latitude", "-90 to 90"),
        ("[place]\nname = 'Madison'", "place.name", "Madison, WI"),
        ("[place]\nair_temp_c = [1, 2]\nrain_mm = [1]", "place.air_temp_c", "Twelve"),
        (f"[place]\nair_temp_c = {[5] * 12}", "place.rain_mm", "twelve"),
        (f"[place]\nair_temp_c = {[5] * 12}\nrain_mm = {[5] * 12}", "place.latitude", "season"),
        ("[[on_hand]]\nmaterial = 'gypsum'\ncurrency = 'pound'", "on_hand[1].currency", "GBP"),
        ("[[claim]]\nmaterial = 'gypsum'", "claim[1].amount", "600 g"),
        ("[[claim]]\nmaterial = 'gypsum'\namount = '3 kg'", "claim[1].amount", "bed.area"),
        ("[[claim]]\nmaterial = 'gypsum'\nrate = '3 kg per plant'", "claim[1].rate", "ring"),
        ("[[claim]]\nmaterial = 'sulfur'\nrate = 30", "claim[1].material", "more than one"),
        ("[[titration]]\nph = 6", "titration[1].acid_mmolc_kg", "acid_mmolc_kg = 20"),
        ("[[reading]]\ndate = 2026-05-01\nph = 6", "reading[1].date", "day it happened"),
    ],
)
def test_each_fault_names_its_mend(text: str, path: str, says: str) -> None:
    faults = faults_of(f"case = 1\n{text}")
    assert path in faults
    assert says in f"{faults[path].problem} {faults[path].mend}"


def test_versions() -> None:
    assert "later" in faults_of("case = 2")["case"].mend
    assert "case = 1" in faults_of("name = 'x'")["case"].mend


def test_a_thousandfold_slip_is_refused_with_the_figure() -> None:
    text = (
        'case = 1\n[bed]\narea = "20 m2"\n[[claim]]\n'
        'material = "elemental sulfur, powder"\namount = "600 kg"'
    )
    fault = faults_of(text)["claim[1].amount"]
    assert "“600 kg” on 20 m² would be 30 kg/m²" in fault.problem
    assert 'Did you mean amount = "600 g"?' in fault.mend
    lime = text.replace("elemental sulfur, powder", "ground limestone").replace("600 kg", "6 t")
    assert 'Did you mean amount = "6 kg"?' in faults_of(lime)["claim[1].amount"].mend


def test_a_kitchen_measure_that_cannot_be_meant_names_the_smaller_one() -> None:
    text = (
        'case = 1\n[bed]\ntreated_diameter = "15 cm"\n[[claim]]\n'
        'material = "elemental sulfur, powder"\nrate = "1 cup per plant"'
    )
    fault = faults_of(text)["claim[1].rate"]
    assert "kg/m²" in fault.problem
    assert '"1 tablespoon per plant"' in fault.mend
    cup = text.replace("15 cm", "60 cm")
    assert parse_case(cup, today=TODAY).claims[0].rate_g_m2 < 2000.0


def test_a_faulty_area_is_told_once_and_not_again_for_every_amount() -> None:
    text = (
        'case = 1\n[bed]\narea = "20 m"\n[water]\nweekly = "5 L"\n'
        '[[claim]]\nmaterial = "gypsum"\namount = "3 kg"'
    )
    assert set(faults_of(text)) == {"bed.area"}


def test_every_wrong_name_of_a_list_is_told() -> None:
    faults = faults_of('case = 1\n[aim]\nplant = ["blueberri", "rhododendron", "xyzzy"]')
    assert set(faults) == {"aim.plant[1]", "aim.plant[3]"}


def test_a_list_without_end_is_cut_short_and_told() -> None:
    text = "case = 1\n" + "[[claim]]\nmaterial = 'gypsum'\nrate = 1\n" * 3000
    assert "at most 500" in faults_of(text)["claim"].mend


def test_sixty_thousand_unknown_keys_are_answered_soon() -> None:
    started = time.perf_counter()
    faults = faults_of("case = 1\n" + "".join(f"k{n} = 1\n" for n in range(60_000)))
    assert time.perf_counter() - started < 5.0
    assert len(faults) == 101


def test_faults_are_cut_at_a_hundred() -> None:
    with pytest.raises(CaseError) as caught:
        parse_case("case = 1\n" + "[[claim]]\n" * 400, today=TODAY)
    assert len(caught.value.faults) == 101
    assert "more" in caught.value.faults[-1].problem


@pytest.mark.parametrize(
    ("text", "path", "problem", "mend"),
    [
        ("case = 1\ncase = 1", "line 2", "twice", "Keep one"),
        ("case = 1\n[soil]\nph = 7\n[soil]\nph = 6", "line 4", "twice", "one [soil]"),
        ("case = 1\n[bed]\narea = 20 m2", "line 3", "in quotation marks", 'area = "20 m2"'),
        ("case = 1\n[bed]\ndepth = 2,5", "line 3", "decimal comma", "depth = 2.5"),
        ("case = 1\nname = North", "line 2", "in quotation marks", 'name = "North"'),
        ("case = 1\njust words", "line 2", "key = value", "case = 1"),
        ('case = 1\nname = "open', "line 2", "closed", 'name = "open"'),
        ("", "file", "empty", "case = 1"),
        (" \n\n", "file", "empty", "case = 1"),
        ("a\x00b", "file", "binary", "TOML"),
        ("x = " + "[" * 5000, "file", "nested", "two levels"),
        ("x = " + "[" * 50 + "]" * 50, "file", "nested", "two levels"),
        ("a." * 50000 + "b = 1", "line 1", "far too many dots", "[soil]"),
        ("today = 2026-13-45", "line 1", "no such day", "2026-04-12"),
        ("case = 1\ntoday = 2026-4-12", "line 2", "no such day", "2026-04-12"),
    ],
)
def test_text_that_is_no_case_file(text: str, path: str, problem: str, mend: str) -> None:
    with pytest.raises(CaseError) as caught:
        parse_case(text)
    (fault,) = caught.value.faults
    assert fault.path == path
    assert problem in fault.problem
    assert mend in fault.mend


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (b"case = 1\n\x00\x01", "binary"),
        (b"\xff\xfec\x00a\x00", "UTF-16"),
        ("case = 1\nname = 'Café'".encode("latin-1"), "line 2 is not UTF-8"),
        (b"", "empty"),
    ],
)
def test_files_that_are_not_utf8_text(tmp_path: Path, data: bytes, says: str) -> None:
    path = tmp_path / "bed.toml"
    path.write_bytes(data)
    with pytest.raises(CaseError, match=says) as caught:
        read_case(path)
    assert caught.value.source == str(path)


def test_missing_file_folder_and_odd_name(tmp_path: Path) -> None:
    with pytest.raises(CaseError, match="no such file"):
        read_case(tmp_path / "none.toml")
    with pytest.raises(CaseError, match="folder"):
        read_case(tmp_path)
    with pytest.raises(CaseError, match="cannot be read"):
        read_case(Path("odd\x00name"))


def test_a_hundred_megabytes_are_answered_at_once(tmp_path: Path) -> None:
    path = tmp_path / "huge.toml"
    with path.open("wb") as handle:
        handle.truncate(100_000_000)
    started = time.perf_counter()
    with pytest.raises(CaseError, match="100 MB"):
        read_case(path)
    assert time.perf_counter() - started < 1.0


def test_no_message_carries_a_whole_long_value() -> None:
    faults = faults_of(f"case = 1\n[bed]\narea = '{'x' * 5000}'\n{'k' * 3000} = 1")
    assert all(len(str(fault)) < 1500 for fault in faults.values())


@pytest.mark.parametrize("quote", ["", '"'])
@pytest.mark.parametrize(
    ("typed", "written"),
    [("20.03.2026", "2026-03-20"), ("3/20/2026", "2026-03-20"), ("20-3-2026", "2026-03-20")],
)
def test_what_is_advised_for_a_date_can_be_read(typed: str, quote: str, written: str) -> None:
    (fault,) = faults_of(f"case = 1\n[soil]\nsampled = {quote}{typed}{quote}").values()
    assert written in fault.mend
    assert parse_case(f"case = 1\n[soil]\nsampled = {written}", today=TODAY).soil.sampled


def test_a_date_that_could_be_two_days_is_not_guessed() -> None:
    (fault,) = faults_of("case = 1\n[soil]\nsampled = 03.04.2026").values()
    assert "year-month-day" in fault.mend
    assert "2026-03-04" not in fault.mend and "2026-04-03" not in fault.mend


def test_a_second_equals_sign_is_not_put_in_quotes() -> None:
    (fault,) = faults_of("case = 1\n[soil]\nph = = 7").values()
    assert fault.mend == "For example: ph = 7"


def test_shares_given_as_fractions_are_told_in_per_cent() -> None:
    text = "case = 1\n[soil]\nsand_pct = 0.4\nsilt_pct = 0.42\nclay_pct = 0.18"
    assert "clay_pct = 18" in faults_of(text)["soil.clay_pct"].mend
    wrong = "case = 1\n[soil]\nsand_pct = 40\nsilt_pct = 42\nclay_pct = 30"
    assert "fractions of 1" not in faults_of(wrong)["soil.clay_pct"].mend


def test_a_daily_file_beside_twelve_figures_is_named_as_not_read() -> None:
    figures = f"air_temp_c = {[9] * 12}\nrain_mm = {[50] * 12}\nlatitude = 50"
    case = parse_case(f'case = 1\n[place]\n{figures}\ndaily_file = "x.csv"', today=TODAY)
    assert [read(note) for note in case.notes_on("place.daily_file")] == [
        "It is not read, because air_temp_c and rain_mm are given as well."
    ]
    case = parse_case(f"case = 1\n[place]\n{figures}", today=TODAY)
    assert case.notes == ()


def test_a_material_is_offered_by_its_name_as_this_reader_can_type_it() -> None:
    text = 'case = 1\n[[applied]]\ndate = 2025-10-05\nmaterial = "sulpur powder"\namount = "3 kg"'
    with pytest.raises(CaseError) as raised:
        parse_case(text, today=date(2026, 4, 12))
    told = {words: refusal(raised.value, words) for words in (Words(), Words("us", "us"))}
    assert '"Sulphur powder (flowers of sulphur)"' in told[Words()]
    assert '"Elemental sulfur, powder (flowers of sulfur)"' in told[Words("us", "us")]
    for material in load_materials().values():
        for name in (Words().material_name(material), Words("us", "us").material_name(material)):
            assert find_material(name).key == material.key


@pytest.mark.parametrize(
    ("line", "units"),
    [('units = "us"', "us"), ('units = "imperial"', "us"), ("", ""), ("units = 3", "")],
)
def test_an_error_knows_the_units_that_the_file_asks_for(line: str, units: str) -> None:
    with pytest.raises(CaseError) as raised:
        parse_case(f"case = 1\n{line}\n[soil]\nph = 70", today=date(2026, 4, 12))
    assert raised.value.units == units


def test_a_products_own_name_is_told_as_it_was_typed() -> None:
    text = '[[applied]]\ndate = 2025-10-05\nrate = "30 g/m2"\nlabel = "s_element = 90"\n'
    faults = faults_of(f'case = 1\n{text}material = "{"Own name " * 12}"')
    assert [fault.given[:8] for fault in faults.values()] == ["Own name"]
