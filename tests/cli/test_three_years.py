"""An invented bed over three years: report in, plan, test, second part, second test, score."""

from __future__ import annotations

import json
from datetime import date
from pathlib import Path
from typing import Any

REPORT = (
    "Sample ID;Date sampled;pH (H2O 1:2.5);Org. matter (%);Clay (%);Sand (%);Silt (%);Depth (cm)\n"
    "Long border;12.03.2026;6,9;3,1;18;40;42;0-15\n"
)
WANTED = """
[place]
name = "Minneapolis"
[bed]
area = "20 m2"
[aim]
plant = "highbush blueberry"
[water]
alkalinity = "60 mg/L CaCO3"
weekly = "20 mm"
"""
PUT_ON = """
[[applied]]
date = {on}
material = "{material}"
amount = "{amount_g} g"
incorporated = "15 cm"
"""


def test_the_second_part_follows_the_test_and_both_tests_are_scored(command, tmp_path) -> None:
    report, beds = tmp_path / "report.csv", tmp_path / "2026"
    report.write_text(REPORT, encoding="utf-8")
    made = command(
        "intake", str(report), "--as", "cases", "--to", str(beds), "--today", "2026-03-20"
    )
    assert made.code == 0, made.err
    bed = beds / "long-border.toml"
    entered = bed.read_text(encoding="utf-8").replace("today = 2026-03-20", "")
    bed.write_text(entered + WANTED, encoding="utf-8")
    assert command("check", str(bed)).code == 0

    kept, first = _answer(command, bed, tmp_path, "2026-03-20")
    (part,) = first["plan"]["parts"]
    test_on = first["plan"]["decides"][0]["test"]
    assert command("next", str(bed), "--json").code == 0
    bed = _next_year(command, bed, part, "6.1", test_on, tmp_path / "2027")

    kept_again, second = _answer(command, bed, tmp_path, test_on)
    assert second["refit"]["readings"] == 2, "the report and one test"
    assert second["verdict"]["decision"] in ("go", "effort")
    assert second["dose"]["sulfur_as_s_g_m2"]["mid"] < first["dose"]["sulfur_as_s_g_m2"]["mid"]
    (part,) = second["plan"]["parts"]
    test_on = second["plan"]["decides"][0]["test"]
    bed = _next_year(command, bed, part, "5.2", test_on, tmp_path / "2028")

    _, third = _answer(command, bed, tmp_path, test_on)
    assert third["refit"]["readings"] == 3
    assert third["verdict"]["decision"] == "leave"
    scored = json.loads(
        command("score", str(kept), str(kept_again), str(bed), "--json", "--today", test_on).out
    )
    assert [pair["issued_as"] for pair in scored["pairs"]] == ["letter", "letter"]
    assert {pair["counted"] for pair in scored["pairs"]} == {"yes"}


def _answer(command, bed: Path, folder: Path, today: str) -> tuple[Path, dict[str, Any]]:
    """The answer to a case on a day, and the file in which it is kept."""
    done = command("advise", str(bed), "--json", "--today", today)
    assert done.code == 0, done.err
    kept = folder / f"{today}.json"
    kept.write_text(done.out, encoding="utf-8")
    return kept, json.loads(done.out)


def _next_year(command, bed: Path, part: dict[str, Any], ph: str, test_on: str, to: Path) -> Path:
    """The bed a year on: the part that was put on, and the test, from notes of the field."""
    put_on = PUT_ON.format(
        on=part["date"], material=part["material"], amount_g=round(part["amount_g"])
    )
    bed.write_text(bed.read_text(encoding="utf-8") + put_on, encoding="utf-8")
    notes = to.with_suffix(".csv")
    day = date.fromisoformat(test_on)
    notes.write_text(
        f"bed,date,pH,method,depth\nlong border,{day:%d.%m.%Y},{ph},water 1:2.5,15 cm\n",
        encoding="utf-8",
    )
    done = command("intake", str(notes), "--beds", str(bed), "--to", str(to), "--today", test_on)
    assert done.code == 0, done.err
    return to / bed.name
