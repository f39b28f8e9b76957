"""A case file read into a case."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from loamshift.case.read import parse_case, read_case
from loamshift.case.write_case import case_to_toml
from loamshift.domain.case import BedKind, Before, Drainage, Units
from loamshift.domain.ph import PhMethod
from loamshift.domain.soil import Fizz, FizzAcid, Medium
from loamshift.errors import CaseError
from wording import read

TODAY = date(2026, 4, 12)
FULL = """
case = 1
name = "North border"
today = 2026-04-12
[place]
name = "minneapolis"
soil_temp = [{ date = 2026-04-01, c = "50 F" }]
[bed]
area = "20 m2"
depth = "6 in"
drainage = "free"
growing = "rhododendron"
[soil]
ph = "7,2"
ph_method = "water 1:1"
texture = "loam"
organic_matter_pct = 3
fizz = "Slight"
fizz_acid = "vinegar"
buffer_ph = 68
lab_lime_requirement = "2 t/ha"
sampled = 2026-03-20
sample_depth = "15 cm"
[[soil.other_ph]]
ph = 6.6
ph_method = "cacl2"
[aim]
plant = "blueberry"
by = "2027-05-01"
[water]
alkalinity = "180 mg/L CaCO3"
weekly = "550 L"
hardness = "16 dH"
[feed]
material = "sulphate of ammonia"
rate = "20 g/m2"
times = 2
[[on_hand]]
material = "elemental sulfur, prills"
pack = "25 kg"
price = 32.5
currency = "£"
[[applied]]
date = 2025-10-05
material = "flowers of sulphur"
amount = "600 g"
incorporated = "10 cm"
[[reading]]
date = 2025-10-01
ph = 7.0
ph_method = "probe"
ph_sd = 0.3
[[titration]]
acid_mmolc_kg = -20
ph = 7.9
[[claim]]
material = "gypsum"
rate = "2 lb/100 sq ft"
"""


def test_every_table_is_read() -> None:
    case = parse_case(FULL)
    assert (case.name, case.today, case.units) == ("North border", TODAY, Units.METRIC)
    assert case.place is not None
    assert case.place.name == "Minneapolis"
    assert case.soil_temps == ((date(2026, 4, 1), 10.0, 10.0),)
    assert case.bed.kind is BedKind.GROUND
    assert (case.bed.area_m2, case.bed.drainage) == (20.0, Drainage.FREE)
    assert case.bed.depth_cm == pytest.approx(15.24)
    assert len(case.bed.growing) == 1
    assert case.soil.ph is not None
    assert (case.soil.ph.ph, case.soil.ph.method) == (7.2, PhMethod.WATER_1_1)
    assert (case.soil.ph.taken, case.soil.ph.depth_cm) == (date(2026, 3, 20), 15.0)
    assert [(r.ph, r.method) for r in case.soil.other_ph] == [(6.6, PhMethod.CACL2)]
    assert case.soil.texture is not None
    assert case.soil.texture.key == "loam"
    assert (case.soil.fizz, case.soil.fizz_acid) == (Fizz.SLIGHT, FizzAcid.VINEGAR)
    assert case.soil.buffer_ph == pytest.approx(6.8)
    assert case.soil.lab_lime_requirement_g_m2 == pytest.approx(200.0)
    assert [plant.key for plant in case.aim.plants] == ["highbush blueberry"]
    assert case.aim.by == date(2027, 5, 1)
    assert case.water.alkalinity_mg_l_as_caco3 == 180.0
    assert case.water.weekly_mm == 27.5
    assert case.water.months == (5, 6, 7, 8, 9)
    assert case.water.hardness_mg_l_as_caco3 == pytest.approx(285.57, abs=0.01)
    assert case.feed is not None
    assert (case.feed.rate_g_m2, case.feed.times) == (20.0, 2)
    assert (case.on_hand[0].pack_g, case.on_hand[0].currency) == (25000.0, "GBP")
    assert (case.applied[0].rate_g_m2, case.applied[0].as_given) == (30.0, "600 g")
    assert case.applied[0].incorporated_cm == 10.0
    assert (case.readings[0].ph, case.readings[0].ph_sd) == (7.0, 0.3)
    assert case.titration[0].acid_mmolc_kg == -20.0
    assert case.claims[0].rate_g_m2 == pytest.approx(97.6486, rel=1e-5)


def test_what_the_ground_was_is_read_and_never_filled_in() -> None:
    told = parse_case('case = 1\n[bed]\nbefore = "pasture"\nbefore_years = 2.5\n', today=TODAY)
    assert (told.bed.before, told.bed.before_years) == (Before.TURF, 2.5)
    quiet = parse_case("case = 1\n[bed]\nplanted = false\n", today=TODAY)
    assert (quiet.bed.before, quiet.bed.before_years) == (None, None)
    assert parse_case(case_to_toml(told), today=TODAY).bed == told.bed
    for wrong in ('before = "forest"', "before_years = -1", "before_years = 300"):
        with pytest.raises(CaseError):
            parse_case(f"case = 1\n[bed]\n{wrong}\n", today=TODAY)


def test_nothing_is_filled_in() -> None:
    case = parse_case("case = 1", today=TODAY)
    assert case.name == "Unnamed bed"
    assert (case.place, case.feed, case.soil.ph, case.bed.area_m2) == (None, None, None, None)
    assert case.soil.medium is Medium.MINERAL
    assert case.notes == ()


def test_the_day_in_the_file_goes_before_the_argument() -> None:
    assert parse_case("case = 1\ntoday = 2026-04-12", today=date(2030, 1, 1)).today == TODAY
    with pytest.raises(CaseError, match="today"):
        parse_case("case = 1")


def test_notes_say_what_the_reader_noticed() -> None:
    notes = " ".join(map(read, parse_case(FULL).notes))
    assert "lime test index" in notes
    assert "hardness" in notes
    bare = parse_case('case = 1\nunits = "us"\n[bed]\ndepth = 6', today=TODAY)
    assert bare.bed.depth_cm == 6.0
    assert 'Write "6 in"' in read(bare.notes[0])


def test_organic_matter_and_carbon_that_do_not_fit_are_noted() -> None:
    text = "case = 1\n[soil]\norganic_matter_pct = 2\norganic_carbon_pct = 2"
    assert "do not fit together" in read(parse_case(text, today=TODAY).notes[0])
    text = "case = 1\n[soil]\norganic_matter_pct = 3.4\norganic_carbon_pct = 2"
    assert parse_case(text, today=TODAY).notes == ()


def test_cups_become_grams_with_their_spread() -> None:
    text = (
        'case = 1\n[bed]\narea = "20 m2"\n[[applied]]\ndate = 2025-10-05\n'
        'material = "elemental sulfur, powder"\namount = "3 US cups"'
    )
    case = parse_case(text, today=TODAY)
    assert case.applied[0].rate_g_m2 * 20.0 == pytest.approx(3 * 453.592 / 2.5, rel=0.01)
    assert "is about 540 g (" in read(case.notes[0])
    assert read(case.notes[0]).startswith("applied[1].amount: “3 US cups”")


def test_amounts_per_plant_use_the_ring_or_the_share_of_the_bed() -> None:
    claim = '[[claim]]\nmaterial = "gypsum"\nrate = "100 g per plant"'
    ring = parse_case(f'case = 1\n[bed]\ntreated_diameter = "1 m"\n{claim}', today=TODAY)
    assert ring.claims[0].rate_g_m2 == pytest.approx(127.324, rel=1e-5)
    share = parse_case(f'case = 1\n[bed]\narea = "20 m2"\nplants = 10\n{claim}', today=TODAY)
    assert share.claims[0].rate_g_m2 == pytest.approx(50.0)
    pot = parse_case(f'case = 1\n[bed]\nkind = "pot"\narea = "0.1 m2"\n{claim}', today=TODAY)
    assert pot.claims[0].rate_g_m2 == pytest.approx(1000.0)


def test_a_past_overdose_is_accepted() -> None:
    text = (
        'case = 1\n[bed]\narea = "20 m2"\n[[applied]]\ndate = 2025-10-05\n'
        'material = "elemental sulfur, powder"\namount = "20 kg"'
    )
    assert parse_case(text, today=TODAY).applied[0].rate_g_m2 == 1000.0


def test_places_by_position_own_figures_and_south() -> None:
    near = parse_case("case = 1\n[place]\nlatitude = 44.98\nlongitude = -93.27", today=TODAY).place
    assert near is not None
    assert near.latitude == pytest.approx(44.98)
    figures = f"air_temp_c = {list(range(20, 8, -1))}\nrain_mm = {[50] * 12}\nlatitude = -37.8"
    case = parse_case(f"case = 1\n[place]\n{figures}\n[water]\nalkalinity = 50", today=TODAY)
    assert case.place is not None
    assert (case.place.air_temp_c[0], case.place.rain_mm[11]) == (20.0, 50.0)
    assert case.place.source_key == "case-file"
    assert case.water.months == (11, 12, 1, 2, 3)


def _daily_rows(*, days: int, rain: bool) -> str:
    start = date(2024, 1, 1).toordinal()
    lines = ["date,tmin_c,tmax_c" + (",rain_mm" if rain else "")]
    for offset in range(days):
        day = date.fromordinal(start + offset)
        lines.append(f"{day},{day.month},{day.month + 4}" + (",2" if rain else ""))
    return "\n".join(lines)


def test_a_daily_file_gives_monthly_means(tmp_path: Path) -> None:
    (tmp_path / "station.csv").write_text(_daily_rows(days=366, rain=True), encoding="utf-8")
    path = tmp_path / "bed.toml"
    path.write_text(
        'case = 1\n[place]\nlatitude = 50\ndaily_file = "station.csv"', encoding="utf-8"
    )
    place = read_case(path, today=TODAY).place
    assert place is not None
    assert place.air_temp_c == pytest.approx([month + 2.0 for month in range(1, 13)])
    assert place.rain_mm[0] == pytest.approx(62.0)
    assert "366 days" in read(place.basis)


def test_a_daily_file_without_rain_takes_it_from_the_place(tmp_path: Path) -> None:
    (tmp_path / "station.csv").write_text(_daily_rows(days=366, rain=False), encoding="utf-8")
    path = tmp_path / "bed.toml"
    text = 'case = 1\n[place]\nname = "Minneapolis"\ndaily_file = "station.csv"'
    path.write_text(text, encoding="utf-8")
    place = read_case(path, today=TODAY).place
    shipped = parse_case('case = 1\n[place]\nname = "Minneapolis"', today=TODAY).place
    assert place is not None
    assert shipped is not None
    assert place.rain_mm == shipped.rain_mm
    assert place.latitude == shipped.latitude


@pytest.mark.parametrize(
    ("content", "says"),
    [
        ("a,b\n1,2", "columns a, b"),
        ("", "empty"),
        ("date,temp_f\n2024-01-01,10", "looks like °C"),
        ("date,temp_c\n01/02/2024,5", "day first or month first"),
        ("date,temp_c\n2024-01-01,warm", "not a number"),
        ("date,temp_c\n2024-01-01,-99", "under 20 days"),
        ("date,temp_c\n2024-01-01,-75", "-75"),
        ("date,temp_c\n2024-01-01,5", "under 20 days"),
    ],
)
def test_daily_file_faults(tmp_path: Path, content: str, says: str) -> None:
    (tmp_path / "station.csv").write_text(content, encoding="utf-8")
    path = tmp_path / "bed.toml"
    path.write_text('case = 1\n[place]\nlatitude = 50\ndaily_file = "station.csv"', "utf-8")
    with pytest.raises(CaseError, match=says):
        read_case(path, today=TODAY)


def test_a_daily_file_needs_a_case_on_disk_and_must_exist(tmp_path: Path) -> None:
    text = 'case = 1\n[place]\nlatitude = 50\ndaily_file = "none.csv"'
    with pytest.raises(CaseError, match="on disk"):
        parse_case(text, today=TODAY)
    with pytest.raises(CaseError, match="cannot be read"):
        parse_case(text, today=TODAY, folder=tmp_path)


def test_a_byte_order_mark_and_windows_lines_are_read(tmp_path: Path) -> None:
    path = tmp_path / "bed.toml"
    path.write_bytes(b"\xef\xbb\xbfcase = 1\r\n[soil]\r\nph = 6.5\r\n")
    case = read_case(path, today=TODAY)
    assert case.soil.ph is not None
    assert case.soil.ph.method is PhMethod.UNKNOWN
