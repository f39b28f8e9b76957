from __future__ import annotations

from pathlib import Path

import pytest

from loamshift.case.answer import answer_from_json

EXAMPLES = Path(__file__).parents[2] / "examples"
BED = str(EXAMPLES / "blue-hydrangeas.toml")


def test_a_number_of_a_bed_is_worked_out_step_by_step(command) -> None:
    result = command("why", "dose.sulfur_as_s_g_m2", "--case", BED)
    assert result.code == 0, result.err
    assert "Blue hydrangeas" in result.out
    assert "P = n × m × g" in result.out
    for heading in ("The sum for this bed", "What goes into it", "How sure this is", "Sources"):
        assert heading in result.out


def test_the_numbers_of_a_bed_are_listed_and_open(command) -> None:
    listing = command("why", "--case", BED)
    assert listing.code == 0
    keys = [line.strip("- ").strip() for line in listing.out.splitlines() if line.startswith("- ")]
    assert "dose.sulfur_as_s_g_m2.mid" in keys
    assert not any(key.startswith("dose.lime") for key in keys)


def test_units_follow_the_option(command) -> None:
    result = command("why", "dose.sulfur_as_s_g_m2", "--case", BED, "--units", "us")
    assert "lb/100" in result.out.replace("\n", " ")
    assert "Sulfur" in result.out


def test_an_answer_that_was_kept_opens_without_being_made_again(command, tmp_path: Path) -> None:
    kept = tmp_path / "kept.json"
    printed = command("advise", BED, "--json", "--members", "60")
    kept.write_text(printed.out, encoding="utf-8")
    answer = answer_from_json(printed.out)
    result = command("why", "plan.share_in_range", "--case", str(kept))
    assert result.code == 0, result.err
    assert answer.made_by.members is not None
    assert f"{answer.made_by.members} beds" in result.out.replace("\xa0", " ")


def test_a_parameter_opens_beside_a_bed_as_without_it(command) -> None:
    assert command("why", "buffer", "--case", BED).out == command("why", "buffer").out


@pytest.mark.parametrize("key", ["dose.lime_as_caco3_g_m2", "plan.share_in_rang", "zzzz"])
def test_a_number_the_bed_lacks_is_refused_with_one_to_type(command, key: str) -> None:
    result = command("why", key, "--case", BED)
    assert result.code == 1
    assert result.out == ""
    told = " ".join(result.err.split())
    assert f"“{key}”" in told
    typed = told.split("loamshift why ", 1)[1].split(" --case")[0]
    assert command("why", typed, "--case", BED).code == 0


def test_a_folder_or_a_missing_file_is_refused(command, tmp_path: Path) -> None:
    assert command("why", "plan", "--case", str(tmp_path)).code == 1
    assert command("why", "plan", "--case", str(tmp_path / "none.toml")).code == 1
