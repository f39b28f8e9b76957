from __future__ import annotations

import pytest


@pytest.mark.parametrize("what", ["plants", "materials", "places"])
def test_without_a_name_everything_is_listed(command, what: str) -> None:
    result = command(what)
    assert result.code == 0
    assert len(result.out.splitlines()) > 40


def test_part_of_a_name_lists_the_matches(command) -> None:
    result = command("plants", "blueberry")
    assert "highbush blueberry" in result.out and "lowbush blueberry" in result.out


def test_one_plant_is_shown_with_every_source(command) -> None:
    result = command("plants", "highbush blueberry")
    assert "Vaccinium corymbosum" in result.out
    assert "Published ranges" in result.out and "Sources" in result.out


def test_one_material_is_shown_with_its_figures_and_how_to_write_it(command) -> None:
    result = command("materials", "elemental sulfur, powder", "--words", "us")
    assert "In a case file, write “elemental sulfur, powder”" in result.out
    assert "Figures" in result.out and "Sources" in result.out
    assert "sulfur-dust" in result.out


def test_uk_words_spell_sulphur_but_leave_codes_alone(command) -> None:
    result = command("materials", "elemental sulfur, powder")
    assert "elemental sulphur" in result.out and "sulfur-dust" in result.out


def test_a_place_shows_its_twelve_months(command) -> None:
    result = command("places", "Minneapolis", "--units", "us")
    assert "January" in result.out and "December" in result.out and "°F" in result.out


@pytest.mark.parametrize("typed", ["40.7,-74", "40.7, -74", "40.7 -74", "40.7;−74"])
def test_a_position_may_stand_where_a_name_does(command, typed: str) -> None:
    assert command("places", typed).out == command("places", "--near", "40.7,-74").out
    assert "New York" in command("places", typed).out


def test_the_nearest_point_to_a_position(command) -> None:
    result = command("places", "--near", "51.5,-0.1")
    assert result.code == 0 and "January" in result.out


@pytest.mark.parametrize(
    ("arguments", "code"),
    [
        (("plants", "zzzqqq"), 1),
        (("materials", "unobtainium"), 1),
        (("places", "--near", "north"), 1),
        (("places", "--near", "95,0"), 1),
        (("places", "Oslo", "--near", "1,1"), 2),
    ],
)
def test_nothing_found_is_said(command, arguments: tuple[str, ...], code: int) -> None:
    result = command(*arguments)
    assert result.code == code and result.out == "" and result.err


@pytest.mark.parametrize(
    "arguments",
    [
        ("plants",),
        ("materials",),
        ("materials", "urea"),
        ("plants", "highbush blueberry"),
        ("places", "Oslo"),
        ("why",),
        ("why", "buffer"),
        ("sample",),
        ("water", "180"),
    ],
)
def test_no_printed_line_ends_in_a_space_or_holds_a_mark(command, arguments: tuple[str]) -> None:
    result = command(*arguments)
    assert result.code == 0
    for line in result.out.splitlines():
        assert line == line.rstrip() and "**" not in line and "\x1b" not in line


def test_why_opens_a_number_to_its_source(command) -> None:
    result = command("why", "sampling.core_sd_even")
    assert "0.24 pH" in result.out and "LimeSoDa" in result.out


def test_why_names_the_nearest_key(command) -> None:
    result = command("why", "dose.acid_mmolckg")
    assert result.code == 1 and "dose.acid_mmolc_kg" in result.err


def test_sample_speaks_the_readers_units(command) -> None:
    assert "6 cores, each 15 cm deep" in command("sample").out
    assert "6 cores, each 6 in deep" in command("sample", "--units", "us").out


def test_sample_reads_areas_and_depths_as_the_case_file_does(command) -> None:
    result = command("sample", "--kind", "field", "--area", "25 acres", "--depth", "8 in")
    assert "20.3 cm" in result.out and "three samples" in result.out
    assert command("sample", "--area", "20 parsecs").code == 1
