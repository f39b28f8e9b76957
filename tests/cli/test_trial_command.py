"""A whole invented trial by command: from a question to a report, and what stops it on the way."""

import contextlib
import io
import json
from pathlib import Path

import pytest
from PIL import Image

from cli.conftest import Outcome
from loamshift.case.trial_read import read_trial
from loamshift.case.trial_sheets import record_csv
from loamshift.cli.run import run
from loamshift.domain.trial_result import PotReading
from loamshift.services.trial.design import plan_trial

NEW = (
    *("--question", "Does peat lower our pH for long?", "--treatment", "peat=peat:10 kg/m2"),
    *("--ph", "7.8", "--ph-method", "water 1:2.5", "--texture", "loam", "--om", "3"),
    *("--fizz", "moderate", "--area", "0.03 m2", "--depth", "15 cm", "--start", "2026-04-20"),
    *("--replicates", "4", "--seed", "7"),
)


def ran(folder: Path, *words: str) -> Outcome:
    """A command in a folder, inside this process."""
    said, told = io.StringIO(), io.StringIO()
    streams = contextlib.redirect_stdout(said), contextlib.redirect_stderr(told)
    with contextlib.chdir(folder), streams[0], streams[1]:
        code = run(["trial", *words])
    return Outcome(code, said.getvalue(), told.getvalue())


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A trial with its sheets written."""
    home = tmp_path_factory.mktemp("trial")
    made = ran(home, "new", "peat.toml", *NEW)
    assert made.code == 0, made.err
    assert "likely to show a difference" in made.out
    wrote = ran(home, "sheet", "peat.toml", "--folder", "out", "--today", "2026-04-10")
    assert wrote.code == 0, wrote.err
    return home


def filled(folder: Path, name: str, *, days: tuple[int, ...] = (0, 1, 9)) -> Path:
    """The record sheet with readings made up: peat falls on day 1."""
    plan = plan_trial(read_trial(folder / "peat.toml"))
    readings = [
        PotReading(
            pot=place.label,
            day=day,
            on=plan.trial.due(day),
            ph=round(7.8 - 0.5 * (place.treatment == 1 and day == 1) + 0.01 * (n % 4), 2),
            method=plan.trial.ph_method,
        )
        for day in days
        for n, place in enumerate(plan.places)
    ]
    path = folder / name
    path.write_text(record_csv(plan, readings), encoding="utf-8")
    return path


def test_the_sheets_are_there_and_the_forecast_is_kept(folder: Path) -> None:
    assert {p.name for p in (folder / "out").iterdir()} == {
        *("protocol.html", "protocol.pdf"),
        *("record.csv", "record.xlsx", "record.pdf", "labels.pdf"),
    }
    kept = json.loads((folder / "peat.forecast.json").read_text(encoding="utf-8"))
    days = read_trial(folder / "peat.toml").days
    assert kept["made_on"] == "2026-04-10" and days[:3] == (0, 1, 3)
    assert [one["day"] for one in kept["rows"]] == [*days, *days], "of “nothing” and of peat"


def test_from_readings_to_a_report(folder: Path) -> None:
    filled(folder, "filled.csv")
    read = ran(folder, "read", "peat.toml", "filled.csv")
    assert read.code == 0, read.err
    assert "24 readings on 3 days" in read.err
    assert "Days 3, 30 and 90 have not been read." in read.out
    shown = ran(folder, "report", "peat.toml")
    assert "lower than with “nothing” on day 1" in " ".join(shown.out.split())
    assert "The forecast of 10 April 2026 agrees with" in " ".join(shown.out.split())
    wrote = ran(
        folder,
        *("report", "peat.toml", "--pdf", "r.pdf", "--html", "r.html", "--chart", "r.svg"),
        *("--data", "d.csv", "--script", "s.py", "--page", "p.pdf", "--page", "p.html"),
        *("--figure", "f.png", "--shape", "square"),
    )
    assert wrote.code == 0, wrote.err
    assert (folder / "p.pdf").read_bytes().startswith(b"%PDF")
    assert "Own trial “peat”" in (folder / "p.html").read_text(encoding="utf-8")
    with Image.open(folder / "f.png") as picture:
        assert picture.size == (1080, 1080)
    assert (folder / "r.pdf").read_bytes().startswith(b"%PDF")
    assert "<svg" in (folder / "r.svg").read_text(encoding="utf-8")
    told = json.loads(ran(folder, "report", "peat.toml", "--json").out)
    assert [day["day"] for day in told["days"]] == [0, 1, 9]
    assert told["days"][1]["rows"][0]["shown"] == "differs"


def test_once_there_are_readings_the_forecast_stays(folder: Path) -> None:
    filled(folder, "again.csv")
    ran(folder, "read", "peat.toml", "again.csv")
    kept = (folder / "peat.forecast.json").read_bytes()
    text = (folder / "peat.toml").read_text(encoding="utf-8")
    (folder / "peat.toml").write_text(text.replace("10 kg/m2", "9 kg/m2"), encoding="utf-8")
    again = ran(folder, "sheet", "peat.toml", "--csv", "x.csv")
    assert "The forecast stays as it was" in again.err
    assert (folder / "peat.forecast.json").read_bytes() == kept
    shown = " ".join(ran(folder, "report", "peat.toml").out.split())
    assert "made for another version" in shown
    (folder / "peat.toml").write_text(text, encoding="utf-8")


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("new", "x.toml", "--treatment", "peat=10 kg"), "NAME=MATERIAL:RATE"),
        (("new", "x.toml", *NEW[:2], "--treatment", "p=peet:1 kg/m2", "--ph", "7"), "peet"),
        (("new", "x.toml", "--doses", "4"), "--to-ph"),
        (("report", "nowhere.toml"), "nowhere.toml"),
        (("read", "peat.toml"), "record sheets"),
        (("report", "peat.toml", "--page", "p.docx"), ".pdf or .html"),
        (("report", "peat.toml", "--figure", "p.gif"), ".png or .svg"),
    ],
)
def test_what_cannot_be_done_says_why(folder: Path, words: tuple[str, ...], told: str) -> None:
    found = ran(folder, *words)
    assert found.code in (1, 2) and told in found.err
    assert "Traceback" not in found.err and not (folder / "x.toml").exists()


def test_a_dose_series_is_worked_out_from_the_soil(folder: Path) -> None:
    made = ran(
        folder,
        *("new", "doses.toml", "--doses", "4", "--to-ph", "5.5", "--ph", "6.5"),
        *("--material", "elemental sulfur, powder", "--texture", "loam", "--om", "3"),
        *("--fizz", "none", "--fizz-acid", "HCl", "--area", "0.03 m2", "--depth", "15 cm"),
    )
    assert made.code == 0, made.err
    trial = read_trial(folder / "doses.toml")
    rates = [one.rate_g_m2 for one in trial.treatments]
    assert rates[0] == 0.0 and rates == sorted(rates) and len(rates) == 4


def test_a_lost_label_is_mended_by_reading_the_sheet_again(folder: Path) -> None:
    text = filled(folder, "lost.csv", days=(30,)).read_text(encoding="utf-8")
    lines = text.splitlines()
    place = next(n for n, line in enumerate(lines) if line.startswith("3,") and ",30," in line)
    broken = [*lines[:place], lines[place][1:], *lines[place + 1 :]]
    (folder / "lost.csv").write_text("\n".join(broken), encoding="utf-8")
    assert "has a pH but no label" in ran(folder, "read", "peat.toml", "lost.csv").out
    (folder / "lost.csv").write_text(text, encoding="utf-8")
    mended = ran(folder, "read", "peat.toml", "lost.csv")
    assert "no pot" not in mended.out and "Day 30" not in mended.out
