from __future__ import annotations

import shutil
from pathlib import Path

import pypdfium2
import pytest

EXAMPLES = Path(__file__).parents[2] / "examples"


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    for name in ("north-border", "overdone-bed"):
        shutil.copy(EXAMPLES / f"{name}.toml", tmp_path)
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_a_bed_card_is_printed_and_written_in_every_form(command, here: Path) -> None:
    shown = command("card", "north-border.toml", "--years", "0")
    assert shown.code == 0 and "Do this" in shown.out and "☐" in shown.out
    made = command(
        *("card", "north-border.toml", "--years", "0", "--pdf", "a.pdf"),
        *("--html", "a.html", "--md", "a.md"),
    )
    assert made.code == 0 and made.out == "" and "Card written to a.pdf" in made.err
    assert len(pypdfium2.PdfDocument(here / "a.pdf")) == 1
    assert (here / "a.html").read_text(encoding="utf-8").startswith("<!doctype html>")
    assert (here / "a.md").read_text(encoding="utf-8").startswith("# North border")


def test_units_choose_the_paper_unless_it_is_named(command, here: Path) -> None:
    for arguments, wide in (
        ((), 210.0),
        (("--units", "us"), 215.9),
        (("--units", "us", "--paper", "a4"), 210.0),
    ):
        command("card", "north-border.toml", "--years", "0", "--pdf", "a.pdf", *arguments)
        width = pypdfium2.PdfDocument(here / "a.pdf")[0].get_size()[0] / 72.0 * 25.4
        assert width == pytest.approx(wide, abs=0.1)


def test_the_card_of_an_answer_is_that_of_its_case(command, here: Path) -> None:
    answer = command("advise", "north-border.toml", "--years", "0", "--json")
    (here / "spring.json").write_text(answer.out, encoding="utf-8")
    kept = command("card", "spring.json")
    assert kept.code == 0
    assert kept.out == command("card", "north-border.toml", "--years", "0").out


def test_a_rescue_sheet_only_where_there_is_something_to_put_right(command, here: Path) -> None:
    sheet = command("card", "overdone-bed.toml", "--rescue", "--years", "0")
    assert sheet.code == 0 and "Whom to ask" in sheet.out
    none = command("card", "north-border.toml", "--rescue", "--years", "0")
    assert none.code == 1 and none.out == ""
    assert "Nothing needs correcting on “North border”" in none.err


def test_open_needs_something_to_open_and_the_case_is_never_replaced(command, here: Path) -> None:
    assert command("card", "north-border.toml", "--open").code == 2
    result = command("card", "north-border.toml", "--years", "0", "--md", "north-border.toml")
    assert result.code == 1 and "is the file that is read" in result.err
    twice = command(
        "card", "north-border.toml", "--years", "0", "--md", "x.html", "--html", "x.html"
    )
    assert twice.code == 1 and "named twice" in twice.err and not (here / "x.html").exists()


def test_the_other_commands_write_their_cards(command, here: Path) -> None:
    claim = ("claim", "coffee grounds", "2 kg/m2", "--case", "north-border.toml", "--years", "0")
    for arguments in (
        claim,
        ("sample", "--area", "20 m2", "--bed", "North border"),
        ("water", "180", "--tank", "200 L", "--acid", "citric"),
    ):
        result = command(*arguments, "--pdf", "a.pdf", "--html", "a.html")
        assert result.code == 0, result.err
        assert result.out == ""
        assert len(pypdfium2.PdfDocument(here / "a.pdf")) == 1


def test_a_tank_is_a_volume_and_an_acid_one_that_is_known(command) -> None:
    card = command("water", "180", "--tank", "200 L", "--acid", "sulphuric 93")
    assert card.code == 0 and "to 200 L of water" in card.out
    assert command("water", "180", "--tank", "200 kg").code == 1
    several = command("water", "180", "--acid", "sulfuric")
    assert several.code == 1 and "say which" in several.err
    unknown = command("water", "180", "--acid", "vinegar")
    assert unknown.code == 1 and "citric acid" in unknown.err
