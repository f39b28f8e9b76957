from __future__ import annotations

import json
from pathlib import Path

import pytest

TODAY = ("--today", "2026-04-12")
BED = """case = 1
name = "Border"
[place]
name = "Minneapolis"
[bed]
depth = "15 cm"
[soil]
ph = 5.9
ph_method = "water 1:1"
sampled = 2024-04-01
texture = "loam"
organic_matter_pct = 3
[aim]
plant = "cabbage"
"""
LATER = """
[[reading]]
date = 2025-04-01
ph = 5.8
ph_method = "water 1:1"

[[reading]]
date = 2025-06-01
ph = 6.9
ph_method = "probe"
"""


@pytest.fixture
def bed(tmp_path: Path) -> Path:
    file = tmp_path / "bed.toml"
    file.write_text(BED + LATER, encoding="utf-8")
    return file


def test_a_case_file_alone_is_hindcast_and_says_so(command, bed) -> None:
    result = command("score", str(bed), *TODAY)
    assert result.code == 0
    assert "one test proves nothing" in result.out
    assert "hindcast" in result.out
    assert "too rough to judge a forecast" in " ".join(result.out.split())


def test_a_program_gets_every_pair(command, bed) -> None:
    found = json.loads(command("score", str(bed), "--json", *TODAY).out)
    first, rough = found["pairs"]
    assert (first["forecast_on"], first["read_on"]) == ("2025-03-31", "2025-04-01")
    assert (first["issued_as"], first["counted"], rough["counted"]) == ("hindcast", "yes", "rough")
    assert first["measured_ph"] == pytest.approx(5.9)
    assert found["summary"]["count"] == 1
    assert found["summary"]["shown"] == "few"


def test_a_kept_answer_is_scored_by_the_case_file_of_its_bed(command, bed, tmp_path) -> None:
    old = tmp_path / "old.toml"
    old.write_text(BED, encoding="utf-8")
    answer = command("advise", str(old), "--json", "--today", "2024-04-12", "--members", "50").out
    kept = tmp_path / "kept.json"
    kept.write_text(answer, encoding="utf-8")
    found = json.loads(command("score", str(kept), str(bed), "--json", *TODAY).out)
    assert found["pairs"][0]["issued_as"] == "letter"
    assert found["pairs"][0]["forecast_on"] == "2024-04-12"
    assert found["summary"]["hindcast"] == 0
    alone = command("score", str(kept))
    assert alone.code == 1 and "Name the case file" in " ".join(alone.err.split())
    bed.write_text((BED + LATER).replace('"Border"', '"Plot"'), encoding="utf-8")
    other = command("score", str(kept), str(bed))
    assert other.code == 1 and "“Border”" in other.err


def test_a_bed_without_later_tests_proves_nothing(command, tmp_path) -> None:
    file = tmp_path / "bed.toml"
    file.write_text(BED, encoding="utf-8")
    result = command("score", str(file), *TODAY)
    assert result.code == 0
    assert "nothing can be said" in " ".join(result.out.split())
