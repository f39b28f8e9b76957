"""Advice, forecast and claim: the same answer as the command, with tables, a page and pictures."""

from __future__ import annotations

import json
import xml.etree.ElementTree as ET
from datetime import date
from html.parser import HTMLParser
from pathlib import Path

import pandas as pd
import polars as pl
import pytest

import loamshift
from loamshift.errors import InputError

EXAMPLES = Path(__file__).parents[2] / "examples"
EVERY = sorted(EXAMPLES.glob("*.toml"))
MOST_BYTES = 60_000
"""A notebook with fifty beds stays small enough to send."""


@pytest.fixture(scope="module")
def advice() -> loamshift.Advice:
    return loamshift.advise(EXAMPLES / "sandy-patch.toml", years=0)


@pytest.fixture(scope="module")
def course() -> loamshift.PhCourse:
    return loamshift.forecast(EXAMPLES / "sandy-patch.toml", years=1, members=25)


def test_the_answer_is_that_of_the_command(
    advice: loamshift.Advice, capsys: pytest.CaptureFixture[str]
) -> None:
    from loamshift.cli.run import run

    path = str(EXAMPLES / "sandy-patch.toml")
    assert run(["advise", path, "--years", "0", "--json"]) == 0
    assert json.loads(capsys.readouterr().out) == json.loads(advice.json())


def test_text_markdown_and_page_say_the_same_bed(advice: loamshift.Advice) -> None:
    assert advice.text().startswith("Sandy patch")
    assert advice.markdown().startswith("# Sandy patch")
    assert "<h1><bdi>Sandy patch</bdi></h1>" in advice.html()
    assert advice.because[0].isupper() and "Sandy patch" in repr(advice)


def test_units_and_spelling_are_the_readers() -> None:
    case = loamshift.read_case(EXAMPLES / "cabbage-plot.toml")
    assert "sq ft" in loamshift.advise(case, years=0, units="us").text()
    assert "sq ft" not in loamshift.advise(case, years=0, units="metric").text()


class _Page(HTMLParser):
    """Tags and addresses of a piece of HTML."""

    def __init__(self) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.loads: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        for name, value in attrs:
            assert not name.startswith("on"), name
            if name in ("src", "href", "srcset", "data"):
                self.loads.append(str(value))


@pytest.mark.parametrize("path", EVERY, ids=lambda path: path.stem)
def test_the_page_of_a_notebook_is_small_and_safe(path: Path) -> None:
    piece = loamshift.advise(path, years=0)._repr_html_()
    page = _Page()
    page.feed(piece)
    assert len(piece) < MOST_BYTES
    assert not {"script", "style", "link", "iframe", "object", "form"} & set(page.tags)
    assert all(one.startswith("data:image/svg+xml;base64,") for one in page.loads)


def test_a_name_cannot_write_html_into_a_notebook() -> None:
    case = loamshift.new_case(
        name="<script>alert(1)</script>",
        soil={"ph": 6.9},
        aim={"target_ph": 5.8},
        today=date(2026, 4, 12),
    )
    piece = loamshift.advise(case, years=0)._repr_html_()
    assert "<script" not in piece and "&lt;script" in piece


@pytest.mark.parametrize(("library", "kind"), [("pandas", pd.DataFrame), ("polars", pl.DataFrame)])
def test_tables_come_as_frames_of_either_library(
    advice: loamshift.Advice, library: str, kind: type
) -> None:
    for table in ("plan", "ledger", "options", "findings"):
        assert isinstance(advice.to_frame(table, library=library), kind)  # type: ignore[arg-type]
    ledger = advice.to_frame("ledger", library=library)  # type: ignore[arg-type]
    assert advice.ledger is not None
    assert sum(ledger["acid_mmolc_m2_year"]) == pytest.approx(advice.ledger.net)
    plan = advice.to_frame(library=library)  # type: ignore[arg-type]
    assert list(plan["rate_g_m2"]) == [part.rate_g_m2 for part in advice.applications]


def test_a_table_that_is_not_there_is_told(advice: loamshift.Advice) -> None:
    with pytest.raises(InputError, match=r"no table called “dosis”\. Write forecast, ledger"):
        advice.to_frame("dosis")  # type: ignore[arg-type]
    with pytest.raises(InputError, match="This answer has no forecast"):
        advice.to_frame("forecast")


def test_pictures_are_svg_with_their_sentence(advice: loamshift.Advice, tmp_path: Path) -> None:
    picture = advice.plot("dose")
    root = ET.fromstring(picture.svg)
    assert root.attrib["aria-label"] == picture.sentence and picture._repr_svg_() == picture.svg
    assert picture.save(tmp_path / "dose.png").read_bytes().startswith(b"\x89PNG")
    with pytest.raises(InputError, match=r"written as \.svg or \.png"):
        picture.save(tmp_path / "dose.gif")
    with pytest.raises(InputError, match=r"no picture called “pie”\. It has dose"):
        advice.plot("pie")


@pytest.mark.parametrize(
    ("ending", "start"),
    [(".txt", b"Sandy"), (".md", b"# Sandy"), (".html", b"<!doctype"), (".json", b"{"),
     (".pdf", b"%PDF")],
)  # fmt: skip
def test_a_letter_is_saved_by_the_ending_of_its_name(
    advice: loamshift.Advice, tmp_path: Path, ending: str, start: bytes
) -> None:
    assert advice.save(tmp_path / f"letter{ending}").read_bytes().startswith(start)
    with pytest.raises(InputError, match="has another ending"):
        advice.save(tmp_path / "letter.doc")


def test_a_forecast_has_its_table_and_its_picture(course: loamshift.PhCourse) -> None:
    frame = course.to_frame(library="pandas")
    assert len(frame) == len(course.forecast.dates)
    assert (frame["ph_q05"] <= frame["ph_q50"]).all() and (frame["ph_q50"] <= frame["ph_q95"]).all()
    assert list(frame["left_alone_ph_q50"]) == list(course.forecast.do_nothing.q50)
    assert course.plot().svg in course.advice.plot().svg
    assert "base64" in course._repr_html_() and "2027" in repr(course)
    assert course.advice.to_frame(library="pandas").equals(frame)


def test_a_forecast_is_drawn_where_the_letter_waits_for_a_test() -> None:
    bed = {"soil": {"ph": 7.2, "texture": "loam"}, "aim": {"plant": "highbush blueberry"}}
    waiting = loamshift.forecast(bed, years=1, members=25)
    assert waiting.advice.decision.value == "measure-first"
    with pytest.raises(InputError, match="no picture"):
        waiting.advice.plot("course")
    assert waiting.plot().svg.startswith("<svg") and waiting.plot().sentence
    assert "base64" in waiting._repr_html_()


def test_a_soil_without_a_ph_has_no_forecast_and_the_error_says_so() -> None:
    with pytest.raises(InputError, match="No forecast could be made"):
        loamshift.forecast({"aim": {"target_ph": 5.8}}, years=1, members=25)


def test_a_claim_is_settled_as_by_the_command(capsys: pytest.CaptureFixture[str]) -> None:
    from loamshift.cli.run import run

    bed = {"soil": {"ph": 7.2, "texture": "loam"}, "aim": {"target_ph": 5.5}}
    settled = loamshift.claim("coffee grounds", "2 kg/m2", case=bed, years=0)
    assert run(
        ["claim", "coffee grounds", "2 kg/m2", "--ph", "7.2", "--texture", "loam",
         "--target-ph", "5.5", "--years", "0", "--json"]
    ) == 0  # fmt: skip
    printed = json.loads(capsys.readouterr().out)
    assert printed["comment"] == settled.comment
    assert printed["acid_brought_mmolc_m2"] == settled.result.acid_brought_mmolc_m2
    assert settled.rate_g_m2 == 2000.0 and settled.plot().svg.startswith("<svg")
    assert loamshift.claim("gypsum", 200, case=bed, years=0).rate_g_m2 == 200.0


def test_a_material_or_an_amount_that_is_not_understood_is_told() -> None:
    bed = {"soil": {"ph": 7.2}, "aim": {"target_ph": 5.5}}
    with pytest.raises(InputError, match="cofee"):
        loamshift.claim("cofee grounds", "2 kg/m2", case=bed, years=0)
    with pytest.raises(InputError, match="lots"):
        loamshift.claim("gypsum", "lots", case=bed, years=0)
