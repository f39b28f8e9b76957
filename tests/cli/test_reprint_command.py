"""A letter printed again is the letter that was printed."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from cli.kept import answer_text, changed, write_case

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))


@pytest.fixture
def answer_file(tmp_path: Path) -> Path:
    write_case(tmp_path / "bed.toml")
    path = tmp_path / "bed.json"
    path.write_text(answer_text(), "utf-8")
    return path


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
@pytest.mark.parametrize("units", ["metric", "us"])
def test_every_example_prints_again_byte_for_byte(
    command, tmp_path: Path, path: Path, units: str
) -> None:
    asked = ["advise", str(path), "--units", units, "--years", "0"]
    first = command(*asked, "--md", str(tmp_path / "first.md"), "--json")
    answer = tmp_path / "answer.json"
    answer.write_text(first.out, "utf-8")
    assert command("reprint", str(answer)).out == command(*asked).out
    assert command("reprint", str(answer), "--md", str(tmp_path / "again.md")).code == 0
    assert (tmp_path / "again.md").read_bytes() == (tmp_path / "first.md").read_bytes()


def test_every_form_of_a_letter_with_figures_is_the_same_again(
    command, tmp_path: Path, answer_file: Path
) -> None:
    case = str(tmp_path / "bed.toml")
    names = ("html", "pdf", "md")
    first = [part for n in names for part in (f"--{n}", str(tmp_path / f"first.{n}"))]
    again = [part for n in names for part in (f"--{n}", str(tmp_path / f"again.{n}"))]
    assert command("advise", case, "--members", "20", *first).code == 0
    assert command("reprint", str(answer_file), *again).code == 0
    for name in names:
        data = (tmp_path / f"again.{name}").read_bytes()
        assert data == (tmp_path / f"first.{name}").read_bytes(), name
    assert (tmp_path / "again.pdf").read_bytes().startswith(b"%PDF")


def test_nothing_is_worked_out_again(command, monkeypatch, answer_file: Path) -> None:
    first = command("reprint", str(answer_file)).out

    def fail(*_: object, **__: object) -> None:
        raise AssertionError("a reprint asks nobody")

    monkeypatch.setattr("loamshift.services.advise.advise", fail)
    monkeypatch.setattr("loamshift.report.letter.letter_from_answer", fail)
    monkeypatch.setattr("loamshift.case.read.read_case", fail)
    monkeypatch.setattr("loamshift.tables.plants.load_plants", fail)
    assert command("reprint", str(answer_file)).out == first


def test_what_was_said_is_printed_even_where_the_answer_says_otherwise(
    command, tmp_path: Path, answer_file: Path
) -> None:
    other = changed(answer_file, tmp_path / "other.json", name="Another", letter__title="As it was")
    assert command("reprint", str(other)).out.startswith("As it was\n")


@pytest.mark.parametrize(
    ("options", "code"),
    [(("--units", "metric"), 0), (("--words", "uk"), 0), (("--units", "us"), 1),
     (("--words", "us"), 1)],
)  # fmt: skip
def test_other_units_are_refused_with_what_to_do(
    command, answer_file: Path, options: tuple[str, ...], code: int
) -> None:
    result = command("reprint", str(answer_file), *options)
    assert result.code == code
    if code:
        assert result.out == ""
        assert f"loamshift advise {answer_file} {' '.join(options)}" in result.err
        assert command("advise", str(answer_file), *options, "--years", "0").code == 0


def test_an_answer_without_a_letter_says_so(command, tmp_path: Path, answer_file: Path) -> None:
    bare = changed(answer_file, tmp_path / "bare.json", letter=None)
    result = command("reprint", str(bare))
    assert result.code == 1 and "contains no letter" in result.err


@pytest.mark.parametrize(
    ("change", "path"),
    [({"letter__sections": 5}, "letter.sections"), ({"verdict__decision": "x"}, "verdict.decision"),
     ({"answer": 2}, "answer"), ({"letter": []}, "letter")],
)  # fmt: skip
def test_a_file_edited_by_hand_is_told_with_its_path(
    command, tmp_path: Path, answer_file: Path, change: dict[str, object], path: str
) -> None:
    bad = changed(answer_file, tmp_path / "bad.json", **change)
    result = command("reprint", str(bad))
    assert result.code == 1 and result.out == ""
    assert f"\n  {path}" in result.err and str(bad) in result.err and "Traceback" not in result.err


@pytest.mark.parametrize("content", [b"", b"{", b"\xff\xfe", b"[" * 50_000, b"null", b"[1, 2]"])
def test_what_is_no_answer_is_exit_1(command, tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "x.json"
    path.write_bytes(content)
    result = command("reprint", str(path))
    assert result.code == 1 and "Traceback" not in result.err


def test_the_answer_is_never_replaced_by_its_letter(command, answer_file: Path) -> None:
    before = answer_file.read_bytes()
    result = command("reprint", str(answer_file), "--md", str(answer_file))
    assert result.code == 1 and answer_file.read_bytes() == before


@pytest.mark.parametrize("lost", ["data", "labels"])
def test_a_chart_that_cannot_be_drawn_any_more_leaves_its_sentence_and_its_table(
    command, tmp_path: Path, answer_file: Path, lost: str
) -> None:
    plain = json.loads(answer_file.read_text("utf-8"))
    figures = [
        block
        for section in plain["letter"]["sections"]
        for block in section["blocks"]
        if block["block"] == "figure"
    ]
    needed = [figure for figure in figures if lost == "data" or figure["kind"] != "year"]
    assert needed  # the year is drawn without labels
    for figure in figures:
        figure[lost] = []
    old = tmp_path / "old.json"
    old.write_text(json.dumps(plain), "utf-8")
    for option in ("--md", "--html", "--pdf"):
        assert command("reprint", str(old), option, str(tmp_path / f"x.{option[2:]}")).code == 0
    page = (tmp_path / "x.md").read_text("utf-8")
    assert page.count("cannot be drawn again") == len(needed)
    assert all(figure["sentence"] in page for figure in needed)
    assert command("reprint", str(old)).out.count("Its figures are below") == len(needed)


def test_an_answer_of_0_1_0_prints_the_same_letter_and_has_its_card(
    command, tmp_path: Path, answer_file: Path
) -> None:
    """It lacks the plan as a rule and has an amount by the forecast instead."""
    plain = json.loads(answer_file.read_text("utf-8"))
    for key in ("plan", "branches"):
        del plain[key]
    del plain["verdict"]["reason"]
    plain["refit"] = None
    plain["dose"]["by_forecast"] = {
        "sulfur_as_s_g_m2": 60.0, "lime_as_caco3_g_m2": None, "by": "2027-05-01",
        "limited_by": "risk", "share_in_range": 0.62, "share_past_limit": 0.04,
        "median_ph_by": 5.04, "median_in_range_on": None, "because": ["The water takes it back."],
    }  # fmt: skip
    old = tmp_path / "old.json"
    old.write_text(json.dumps(plain, ensure_ascii=False), "utf-8")
    first = command("reprint", str(answer_file), "--md", str(tmp_path / "now.md"))
    again = command("reprint", str(old), "--md", str(tmp_path / "then.md"))
    assert first.code == again.code == 0
    assert (tmp_path / "now.md").read_bytes() == (tmp_path / "then.md").read_bytes()
    card = command("card", str(old))
    assert card.code == 0 and "Readings" in card.out
    assert "What the test decides" not in card.out
    compared = command("compare-letters", str(old), str(answer_file))
    assert compared.code == 0
    assert "The same according to the forecast" in " ".join(compared.out.split())
