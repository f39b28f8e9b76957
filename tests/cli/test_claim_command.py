from __future__ import annotations

import json
import struct

import pytest

BED = ("--ph", "7.2", "--texture", "loam", "--om", "3", "--target-ph", "5.5", "--area", "20 m2")


def test_coffee_grounds_are_settled_on_one_scale(command) -> None:
    result = command("claim", "coffee grounds, spent", "2 kg/m2", *BED)
    assert result.code == 0, result.err
    assert "it adds" in result.out and "the bed needs" in result.out


def test_json_carries_the_figures(command) -> None:
    result = command("claim", "elemental sulfur, powder", "100 g/m2", *BED, "--json")
    found = json.loads(result.out)
    assert found["acid_brought_mmolc_m2"] == pytest.approx(99.0 / 16.03 * 1000.0, rel=0.02)


def test_a_claim_runs_the_year_and_years_0_asks_the_curve(command) -> None:
    lime = ("claim", "ground limestone", "300 g/m2", *BED, "--json")
    year, curve = (json.loads(command(*lime, *more).out) for more in ((), ("--years", "0")))
    assert year["acid_brought_mmolc_m2"] == curve["acid_brought_mmolc_m2"]
    assert year["ph_change_1_year"] < curve["ph_change_1_year"]
    assert "fter a year" in year["comment"] and "fter a year" not in curve["comment"]
    (said, _) = year["said"]["/comment"][:2]
    assert said["message"] == "claim-lime-on-acid-need" and said["values"] == {"place": "bed"}


def test_a_page_gives_the_ph_in_tenths_with_its_reason(command) -> None:
    year = command("claim", "elemental sulfur, powder", "50 g/m2", *BED)
    assert "in the first two weeks. After a year it would" in " ".join(year.out.split())
    curve = command("claim", "elemental sulfur, powder", "50 g/m2", *BED, "--years", "0")
    assert "After a year the pH would be about 0." in " ".join(curve.out.split())


@pytest.mark.parametrize(
    ("arguments", "code"),
    [
        (("gypsum",), 2),
        (("gypsum", "1 kg"), 2),
        (("gypsum", "1 kg", "--case", "x.toml", *BED), 2),
        (("gypsum", "1 kg", "--case", "x.toml"), 1),
        (("gypsumm", "1 kg", *BED), 1),
        (("gypsum", "1 furlong", *BED), 1),
        (("gypsum", "1 kg", "--ph", "72"), 1),
        (("gypsum", "1 kg", "--years", "2", *BED), 2),
    ],
)
def test_wrong_usage_and_what_can_be_mended(command, arguments: tuple[str, ...], code: int) -> None:
    result = command("claim", *arguments)
    assert result.code == code and result.out == "" and "Traceback" not in result.err


def test_ten_folk_remedies_side_by_side(command) -> None:
    result = command("claim", "--sheet", *BED, "--years", "0")
    assert result.code == 0, result.err
    said = " ".join(result.out.split())
    assert "What ten folk remedies add" in said and "a year of rain" in said
    found = json.loads(command("claim", "--sheet", *BED, "--years", "0", "--json").out)
    assert len(found["remedies"]) == 10
    assert found["remedies"][0]["usual"].startswith("a year of rain")
    assert found["said"]["/0/usual"]["message"] == "claim-usual-rain"


@pytest.mark.parametrize(("shape", "size"), [("slide", (1600, 900)), ("square", (1080, 1080))])
@pytest.mark.parametrize("what", [("--sheet",), ("gypsum", "50 g/m2")])
def test_a_picture_for_a_talk(command, tmp_path, what, shape: str, size: tuple[int, int]) -> None:
    for ending in ("png", "svg"):
        path = tmp_path / f"out.{ending}"
        more = ("--years", "0", "--figure", str(path), "--shape", shape)
        result = command("claim", *what, *BED, *more)
        assert result.code == 0 and result.out == "", result.err
    assert struct.unpack(">II", (tmp_path / "out.png").read_bytes()[16:24]) == size
    assert f'viewBox="0 0 {size[0]} {size[1]}"' in (tmp_path / "out.svg").read_text("utf-8")


@pytest.mark.parametrize(
    ("arguments", "code", "said"),
    [
        (("--sheet", "gypsum", "1 kg", *BED), 2, "or --sheet"),
        (("gypsum", "1 kg", *BED, "--figure", "out.gif"), 2, ".png or .svg"),
        (("gypsum", "50 g/m2", "--ph", "6", "--ph-method", "water 1:1", "--texture", "loam",
          "--target-ph", "6", "--figure", "out.png"), 1, "no picture to draw"),
    ],
)  # fmt: skip
def test_a_picture_or_sheet_that_cannot_be(command, arguments, code: int, said: str) -> None:
    result = command("claim", *arguments)
    assert result.code == code and said in " ".join(result.err.split())
