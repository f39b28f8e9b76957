from __future__ import annotations

import base64
import hashlib
import re
from dataclasses import replace
from functools import cache
from html.parser import HTMLParser
from itertools import pairwise

import pytest

from loamshift.domain.letter import Letter
from loamshift.report import html_figure
from loamshift.report.chart_tones import PALETTES, Tone
from loamshift.report.html import letter_html
from loamshift.report.html_blocks import table_html
from loamshift.report.inline import without_repeats
from loamshift.report.letter import letter_from_answer
from loamshift.report.words import Words
from report.answers import ALL
from report.examples import with_forecast
from report.letters import HOSTILE, UK, US, every_block, example_letters, figures_in
from report.test_letter import texts

SOME = ("bean-rows", "white-oak")
VOID = {"meta", "br", "hr", "img", "input", "link", "col", "wbr"}


class Reader(HTMLParser):
    """Elements, attributes and text of a page; refuses what is not nested well."""

    def __init__(self, page: str) -> None:
        super().__init__(convert_charrefs=True)
        self.open: list[str] = []
        self.elements: list[tuple[str, dict[str, str | None]]] = []
        self.said: list[str] = []
        self.inside: dict[str, list[str]] = {"script": [], "style": []}
        self.feed(page)
        self.close()
        assert self.open == []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        assert len(attrs) == len(dict(attrs)), (tag, attrs)
        self.elements.append((tag, dict(attrs)))
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.append((tag, dict(attrs)))

    def handle_endtag(self, tag: str) -> None:
        assert self.open and self.open[-1] == tag, (tag, self.open[-3:])
        self.open.pop()

    def handle_data(self, data: str) -> None:
        last = self.open[-1] if self.open else ""
        self.inside.get(last, self.said).append(data)

    @property
    def text(self) -> str:
        return " ".join("".join(self.said).replace("\u00a0", " ").split())


def page_of(letter: Letter, words: Words = UK) -> Reader:
    return Reader(letter_html(letter, words=words))


@cache
def forecast_page() -> Reader:
    return page_of(letter_from_answer(*with_forecast("north-border"), words=UK))


@pytest.fixture(scope="module", params=["blocks", "forecast", *SOME])
def read(request: pytest.FixtureRequest) -> Reader:
    if request.param == "blocks":
        return page_of(every_block())
    if request.param == "forecast":
        return forecast_page()
    return page_of(*example_letters()[request.param])


def test_nothing_is_loaded_from_anywhere(read: Reader) -> None:
    for tag, attributes in read.elements:
        assert tag not in ("link", "iframe", "object", "embed", "base", "form", "img", "image"), tag
        assert "src" not in attributes and "srcset" not in attributes, (tag, attributes)
        for name, value in attributes.items():
            if name in ("href", "xlink:href"):
                assert tag == "a" or str(value).startswith("#"), (tag, value)
    css = "".join(read.inside["style"])
    assert "@import" not in css
    assert all(url.startswith("data:") for url in re.findall(r"url\(\s*[\"']?([^)]*)", css))


def test_no_element_carries_a_handler_or_a_style(read: Reader) -> None:
    for tag, attributes in read.elements:
        assert not [name for name in attributes if name.startswith("on") or name == "style"], tag


def test_the_policy_lets_only_what_is_here_run(read: Reader) -> None:
    policy = next(
        a["content"] or ""
        for t, a in read.elements
        if a.get("http-equiv") == "Content-Security-Policy"
    )
    assert policy.startswith("default-src 'none'; ")
    assert "unsafe" not in policy and "http" not in policy and "*" not in policy
    for text in read.inside["style"]:
        digest = hashlib.sha256(text.encode()).digest()
        assert f"'sha256-{base64.b64encode(digest).decode()}'" in policy


def test_headings_go_down_by_one_step(read: Reader) -> None:
    levels = [int(tag[1]) for tag, _ in read.elements if re.fullmatch(r"h[1-6]", tag)]
    assert levels[0] == 1 and levels.count(1) == 1
    assert all(after - before <= 1 for before, after in pairwise(levels))


def test_every_name_stands_once_and_every_link_inside_finds_one(read: Reader) -> None:
    names = [a["id"] for _, a in read.elements if a.get("id")]
    assert len(names) == len(set(names))
    for _, attributes in read.elements:
        href = attributes.get("href") or ""
        if href.startswith("#"):
            assert href[1:] in names


def test_tables_name_their_rows_and_columns(read: Reader) -> None:
    cells = [attributes for tag, attributes in read.elements if tag == "th"]
    assert all(cell.get("scope") in ("row", "col") for cell in cells)


@pytest.mark.parametrize("name", ALL)
def test_every_text_of_a_letter_is_on_the_page(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(html_figure, "chart_inline", lambda *_, **__: "<svg></svg>")
    letter = letter_from_answer(*ALL[name](), words=UK)
    said = page_of(letter).text
    kept = [replace(section, blocks=without_repeats(section)) for section in letter.sections]
    for text in texts(replace(letter, sections=tuple(kept))):
        bare = re.sub(r"\s*(?:\[\d+\]|https?://\S+)$", "", " ".join(text.replace("**", "").split()))
        assert bare in said, bare


def test_a_figure_has_its_sentence_its_table_and_a_picture_of_every_kind() -> None:
    letter = letter_from_answer(*with_forecast("north-border"), words=UK)
    shown = figures_in(letter)
    page = forecast_page()
    tags = [tag for tag, _ in page.elements]
    assert len(shown) >= 4
    assert tags.count("figure") == tags.count("figcaption") == len(shown) <= tags.count("details")
    twice = sum(figure.kind in html_figure.ALONG_THE_CALENDAR for figure in shown)
    assert twice >= 2 and tags.count("svg") == twice + len(shown)
    assert all(a.get("aria-hidden") == "true" for tag, a in page.elements if tag == "svg")
    assert all(" ".join(figure.sentence.split()) in page.text for figure in shown)


def test_a_letter_is_small_and_has_no_script(read: Reader) -> None:
    assert "script" not in [tag for tag, _ in read.elements]
    policy = next(a["content"] or "" for _, a in read.elements if a.get("http-equiv"))
    assert "script-src 'none'" in policy


def test_a_letter_with_all_its_figures_and_its_type_is_small() -> None:
    letter = letter_from_answer(*with_forecast("north-border"), words=UK)
    assert len(letter_html(letter, words=UK).encode()) < 250_000


def test_the_colours_of_charts_are_those_of_the_tones() -> None:
    css = "".join(forecast_page().inside["style"])
    sets = [
        dict(re.findall(r"--p-([a-z0-9-]+): ([^;]+);", one))
        for one in re.findall(r"\.chart \{([^}]*--p-[^}]*)\}", css)
    ]
    told = [
        {c.value: (hexes or "transparent").lower() for c, hexes in PALETTES[tone].items()}
        for tone in (Tone.LIGHT, Tone.DARK, Tone.PRINT)
    ]
    assert sets == told


def test_hostile_text_stays_text() -> None:
    clean, hostile = page_of(every_block()), page_of(every_block(HOSTILE))
    assert [tag for tag, _ in hostile.elements] == [tag for tag, _ in clean.elements]
    assert hostile.text.count("<script>alert(1)</script>") >= 10
    assert "alert" not in "".join(hostile.inside["script"] + hostile.inside["style"])


def test_the_language_is_the_readers() -> None:
    assert ("html", {"lang": "en-GB"}) in page_of(every_block()).elements
    assert ("html", {"lang": "en-US"}) in page_of(every_block(), US).elements


def test_a_wide_table_tells_its_titles_in_every_cell() -> None:
    letter = letter_from_answer(*ALL["effort"](), words=UK)
    wide = [
        table_html(block)
        for section in letter.sections
        for block in section.blocks
        if getattr(block, "columns", ()) and len(block.columns) >= 5  # type: ignore[union-attr]
    ]
    assert wide and all('class="wide"' in one and "data-title=" in one for one in wide)


def luminance(colour: str) -> float:
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    linear = [p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def test_every_set_of_colours_can_be_read() -> None:
    css = "".join(page_of(every_block()).inside["style"])
    sets = [
        dict(re.findall(r"--(paper|ink|quiet|accent): (#[0-9a-f]{3,6})", found))
        for found in re.findall(r":root \{[^}]*\}", css)
    ]
    assert len(sets) == 3
    for colours in sets:
        full = {
            k: v if len(v) == 7 else f"#{v[1] * 2}{v[2] * 2}{v[3] * 2}" for k, v in colours.items()
        }
        paper = luminance(full["paper"])
        for name in ("ink", "quiet", "accent"):
            light, dark = sorted((paper, luminance(full[name])), reverse=True)
            assert (light + 0.05) / (dark + 0.05) >= 4.5, (name, full)
