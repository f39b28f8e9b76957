from __future__ import annotations

import json
from pathlib import Path

import pytest

CASE = """\
case = 1
name = "North border"
today = 2026-04-12
[place]
name = "Minneapolis"
[bed]
area = "20 m2"
depth = "15 cm"
[soil]
ph = 7.2
ph_method = "water 1:1"
texture = "loam"
organic_matter_pct = 3
fizz = "none"
fizz_acid = "HCl"
[aim]
plant = "highbush blueberry"
[[applied]]
date = 2026-03-01
material = "elemental sulfur, powder"
rate = "10 g/m2"
"""


@pytest.fixture
def case_file(tmp_path: Path) -> Path:
    path = tmp_path / "bed.toml"
    path.write_text(CASE, encoding="utf-8")
    return path


def test_a_case_is_answered_with_a_letter(command, case_file: Path) -> None:
    result = command("advise", str(case_file))
    assert result.code == 0, result.err
    assert "North border" in result.out
    assert all(line == line.rstrip() for line in result.out.splitlines())


def test_json_holds_every_key_and_is_the_same_each_time(command, case_file: Path) -> None:
    first = command("advise", str(case_file), "--json", "--members", "20").out
    answer = json.loads(first)
    assert answer["answer"] == 1 and answer["name"] == "North border"
    assert {"verdict", "dose", "applications", "sources", "cautions"} <= set(answer)
    assert command("advise", str(case_file), "--json", "--members", "20").out == first


def test_markdown_goes_to_its_file(command, case_file: Path, tmp_path: Path) -> None:
    target = tmp_path / "letter.md"
    result = command("advise", str(case_file), "--members", "20", "--md", str(target))
    assert (result.code, result.out) == (0, "")
    assert target.read_text(encoding="utf-8").startswith("# ")


def test_us_units_and_words(command, case_file: Path) -> None:
    result = command("advise", str(case_file), "--members", "20", "--units", "us")
    assert "lb" in result.out and "sulphur" not in result.out.casefold()


def test_another_day_may_be_asked_for(command, case_file: Path) -> None:
    quick = ("advise", str(case_file), "--years", "0", "--json")
    result = command(*quick, "--today", "2026-06-01")
    assert json.loads(result.out)["today"] == "2026-06-01"


@pytest.mark.parametrize("day", ["2026-02-01", "yesterday", "2026-13-01"])
def test_a_day_that_cannot_be_is_refused(command, case_file: Path, day: str) -> None:
    result = command("advise", str(case_file), "--today", day)
    assert result.code == 1 and result.out == "" and "--today" in result.err


@pytest.mark.parametrize(
    "content",
    [b"", b"\x00\x01\x02", b"case = 1\n[soil]\nph = nan\n", b"\xff\xfe", b"[" * 5000, b"not toml"],
)
def test_a_broken_file_is_exit_1_without_a_traceback(
    command, tmp_path: Path, content: bytes
) -> None:
    path = tmp_path / "bad.toml"
    path.write_bytes(content)
    result = command("advise", str(path))
    assert result.code == 1 and result.out == ""
    assert str(path) in result.err and "Traceback" not in result.err


def test_a_missing_file_is_exit_1(command, tmp_path: Path) -> None:
    result = command("advise", str(tmp_path / "none.toml"))
    assert result.code == 1 and "no such file" in result.err


def test_every_fault_comes_at_once(command, tmp_path: Path) -> None:
    path = tmp_path / "bad.toml"
    path.write_text('case = 1\n[soil]\nph = 72\ntexture = "loan"\ncolour = "red"\n', "utf-8")
    result = command("advise", str(path))
    assert result.code == 1
    assert all(key in result.err for key in ("[soil] ph", "[soil] texture", "[soil] colour"))


def test_every_form_of_one_letter_at_once(command, case_file: Path, tmp_path: Path) -> None:
    page, pdf, text = (tmp_path / f"letter.{end}" for end in ("html", "pdf", "md"))
    result = command(
        "advise", str(case_file), "--years", "0", "--json",
        "--html", str(page), "--pdf", str(pdf), "--md", str(text),
    )  # fmt: skip
    assert result.code == 0
    assert json.loads(result.out)["letter"]["title"] == "North border"
    assert page.read_text("utf-8").startswith("<!doctype html>")
    assert pdf.read_bytes().startswith(b"%PDF") and text.read_text("utf-8").startswith("# ")
    assert result.err.count("Letter written to ") == 3


def test_short_is_the_front_sheet_in_every_form(command, case_file: Path, tmp_path: Path) -> None:
    whole = command("advise", str(case_file), "--years", "0").out
    short = command("advise", str(case_file), "--years", "0", "--short").out
    assert "Sources" in whole and "Sources" not in short
    assert len(short.split()) < 0.5 * len(whole.split())
    made = {end: tmp_path / f"letter.{end}" for end in ("html", "md", "pdf", "json")}
    command("advise", str(case_file), "--years", "0", "--short", *(
        part for end in ("html", "md", "pdf") for part in (f"--{end}", str(made[end]))
    ))  # fmt: skip
    assert "Sources" not in made["md"].read_text("utf-8") and made["pdf"].stat().st_size > 1000
    assert ">Sources<" not in made["html"].read_text("utf-8")
    answer = command("advise", str(case_file), "--years", "0", "--short", "--json").out
    assert '"Sources"' in answer
    made["json"].write_text(answer, "utf-8")
    again = command("reprint", str(made["json"]), "--short")
    assert again.out == short and command("reprint", str(made["json"])).out == whole


def test_the_json_answer_keeps_case_and_letter(command, case_file: Path) -> None:
    answer = json.loads(command("advise", str(case_file), "--years", "0", "--json").out)
    assert answer["case"]["soil"]["ph"] == 7.2 and answer["case"]["bed"]["area"] == "20 m2"
    assert (answer["letter"]["units"], answer["letter"]["spelling"]) == ("metric", "uk")
    assert answer["letter"]["sections"][0]["blocks"][0]["text"].startswith("**")


def page_size(pdf: Path) -> tuple[float, float]:
    """Width and height of the first page [pt]."""
    import pypdfium2

    document = pypdfium2.PdfDocument(pdf.read_bytes())
    try:
        return document[0].get_size()  # type: ignore[no-any-return]
    finally:
        document.close()


@pytest.mark.parametrize(
    ("options", "width"),
    [((), 595), (("--units", "us"), 612), (("--paper", "letter"), 612),
     (("--units", "us", "--paper", "a4"), 595)],
)  # fmt: skip
def test_paper_is_chosen_or_follows_the_units(
    command, case_file: Path, tmp_path: Path, options: tuple[str, ...], width: int
) -> None:
    pdf = tmp_path / "letter.pdf"
    result = command("advise", str(case_file), "--years", "0", "--pdf", str(pdf), *options)
    assert result.code == 0, result.err
    assert round(page_size(pdf)[0]) == width


def test_charts_go_to_a_file_or_a_folder(command, case_file: Path, tmp_path: Path) -> None:
    quick = ("advise", str(case_file), "--members", "20")
    one, folder = tmp_path / "ph.svg", tmp_path / "charts"
    assert command(*quick, "--chart", str(one), "--chart", str(one)).code == 0
    assert b"<svg" in one.read_bytes()
    assert command(*quick, "--chart", str(folder)).code == 0
    assert {"course.svg", "course.png"} <= {path.name for path in folder.iterdir()}
    assert (folder / "course.svg").read_bytes() == one.read_bytes()
    wrong = command(*quick, "--chart", str(tmp_path / "ph.gif"))
    assert wrong.code == 1 and ".svg or .png" in wrong.err


def test_nothing_is_written_where_two_forms_share_a_file(
    command, case_file: Path, tmp_path: Path
) -> None:
    target = str(tmp_path / "letter")
    result = command("advise", str(case_file), "--years", "0", "--md", target, "--html", target)
    assert result.code == 1 and "named twice" in result.err
    assert not (tmp_path / "letter").exists()


def test_the_case_file_is_never_replaced_by_its_letter(command, case_file: Path) -> None:
    before = case_file.read_bytes()
    result = command("advise", str(case_file), "--years", "0", "--md", str(case_file))
    assert result.code == 1 and case_file.read_bytes() == before


def test_an_answer_is_answered_anew(command, case_file: Path, tmp_path: Path) -> None:
    kept = tmp_path / "bed.json"
    kept.write_text(command("advise", str(case_file), "--years", "0", "--json").out, "utf-8")
    again = command("advise", str(kept), "--years", "0", "--json")
    assert again.code == 0 and again.out == kept.read_text("utf-8")


def test_a_name_too_long_for_a_file_is_told(command, case_file: Path, tmp_path: Path) -> None:
    long = tmp_path / ("n" * 300)
    result = command("advise", str(case_file), "--years", "0", "--md", str(long))
    assert result.code == 1 and "cannot be written" in result.err


@pytest.mark.parametrize("many", [False, True], ids=["one", "many"])
@pytest.mark.parametrize(("options", "refit"), [((), True), (("--no-refit",), False)])
def test_readings_are_set_aside_on_request(
    command, monkeypatch, case_file: Path, options: tuple[str, ...], refit: bool, many: bool
) -> None:
    from loamshift.services import advise as door

    asked, real = [], door.advise

    def watched(case, *, look_ahead=None):  # type: ignore[no-untyped-def]
        asked.append(look_ahead)
        return real(case)

    monkeypatch.setattr(door, "advise", watched)
    out = ("--as", "md") if many else ()
    result = command("advise", str(case_file), *out, *options)
    assert result.code == 0, result.err
    assert [one.refit for one in asked] == [refit]


def test_the_help_names_the_switch_for_readings(command) -> None:
    assert "--no-refit" in command("advise", "--help").out


def test_an_empty_name_is_not_the_current_folder(command, monkeypatch, tmp_path: Path) -> None:
    monkeypatch.chdir(tmp_path)
    result = command("advise", "")
    assert result.code == 2 and result.out == ""
    assert "the name is empty" in result.err
