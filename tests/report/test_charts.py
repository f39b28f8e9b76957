"""Charts are legible: nothing clipped, no word on another, contrast enough, same bytes again."""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from itertools import pairwise
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image

from loamshift.domain.letter import Figure, FigureKind
from loamshift.report.chart import (
    NARROWEST_PX,
    PAGE_WIDTH_PX,
    PHONE_WIDTH_PX,
    chart_inline,
    chart_png,
    chart_svg,
    draw,
)
from loamshift.report.chart_drawing import Drawing, Layer, Mark
from loamshift.report.chart_files import chart_file, chart_files
from loamshift.report.chart_talk import ChartSize, first_sentence
from loamshift.report.chart_text import LINE_PX, TEXT_PX, spread, text_width, wrapped
from loamshift.report.chart_tones import (
    PALETTES,
    UNSEEN,
    Colour,
    Tone,
    contrast,
    mixed,
    on_warmth,
)
from loamshift.report.figures import FIGURES
from loamshift.report.typeface import type_folder
from report.drawn import COURSES, UK, US, every_figure, figures

EVERY = dict(every_figure())
WIDTHS = (NARROWEST_PX, PHONE_WIDTH_PX, PAGE_WIDTH_PX, 900)
DRAWN_IN_TESTS = ("effort", "go-lime", "leave")
Box = tuple[float, float, float, float, str]


def boxes(drawing: Drawing) -> Iterator[Box]:
    """Where each text of a drawing stands: left, top, right, foot, and the text."""
    for layer in drawing.layers:
        if layer.mark is Mark.TEXT:
            yield from _boxes_of(layer, drawing)


def _boxes_of(layer: Layer, drawing: Drawing) -> Iterator[Box]:
    style = dict(layer.style)
    size = float(str(style.get("fontSize", TEXT_PX)))
    for row in layer.rows:
        text = str(row["text"])
        wide = text_width(text, size=size, bold=style.get("fontWeight") == "bold")
        x, y = drawing.x.px(float(row["x"])), drawing.y.px(float(row["y"]))
        left = x - wide * {"left": 0.0, "center": 0.5, "right": 1.0}[str(style["align"])]
        foot = y + 0.4 * size + LINE_PX * text.count("\n")
        yield left, y - 0.45 * size, left + wide, foot, text


@pytest.mark.parametrize("name", EVERY)
@pytest.mark.parametrize("width", WIDTHS)
def test_no_word_leaves_the_picture_or_lies_on_another(name: str, width: int) -> None:
    drawing = draw(EVERY[name], width=width)
    placed = list(boxes(drawing))
    assert placed
    for left, top, right, foot, text in placed:
        assert left >= -0.5 and right <= width + 0.5, text
        assert top >= -0.5 and foot <= drawing.height + 0.5, text
    for number, one in enumerate(placed):
        for other in placed[number + 1 :]:
            apart = (
                one[2] <= other[0] or other[2] <= one[0] or one[3] <= other[1] or other[3] <= one[1]
            )
            assert apart, f"{one[4]!r} lies on {other[4]!r}"


@pytest.mark.parametrize("weeks", [2, 14, 53, 105, 521, 2600])
def test_a_course_of_any_length_has_dates_that_do_not_collide(weeks: int) -> None:
    figure = figures("effort", weeks=weeks)[FigureKind.COURSE]
    for width in (PHONE_WIDTH_PX, PAGE_WIDTH_PX):
        drawing = draw(figure, width=width)
        dates = next(layer for layer in drawing.layers if layer.name == "date_labels")
        spans = sorted((left, right) for left, _, right, *_ in _boxes_of(dates, drawing))
        assert spans
        assert all(a[1] < b[0] for a, b in pairwise(spans))


def test_an_axis_names_each_july_or_none() -> None:
    """One named July among three would be read as the only one."""
    figure = figures("effort", weeks=157)[FigureKind.COURSE]
    julys = set()
    for width in range(NARROWEST_PX, PAGE_WIDTH_PX + 1, 10):
        layers = {layer.name: layer for layer in draw(figure, width=width).layers}
        words = [str(row["text"]) for row in layers["date_labels"].rows]
        assert len(layers["date_ticks"].rows) > len(words), "a tick still marks each day"
        julys.add(words.count("Jul"))
    assert 0 in julys and 1 not in julys and max(julys) >= 2


def cases() -> Iterator[tuple[str, Figure, Tone, int]]:
    for name in DRAWN_IN_TESTS:
        for kind, figure in figures(name, US if name == "go-lime" else UK).items():
            for tone, width in (
                (Tone.LIGHT, PAGE_WIDTH_PX), (Tone.DARK, PHONE_WIDTH_PX), (Tone.PRINT, 624),
            ):  # fmt: skip
                yield f"{name} {kind.value} {tone.value}", figure, tone, width


@pytest.mark.parametrize(
    ("figure", "tone", "width"),
    [pytest.param(figure, tone, width, id=name) for name, figure, tone, width in cases()],
)
def test_no_ink_touches_the_edge(figure: Figure, tone: Tone, width: int) -> None:
    picture = Image.open(io.BytesIO(chart_png(figure, tone=tone, width=width, scale=1.0)))
    picture = picture.convert("RGB")
    assert picture.width == width
    paper = tuple(int(str(PALETTES[tone][Colour.PAPER])[at : at + 2], 16) for at in (1, 3, 5))
    right, foot = picture.width - 1, picture.height - 1
    edge = [picture.getpixel((x, y)) for x in range(picture.width) for y in (0, foot)]
    edge += [picture.getpixel((x, y)) for y in range(picture.height) for x in (0, right)]
    assert set(edge) == {paper}
    assert len(picture.getcolors(1 << 20) or ()) > 8, "something is drawn"


@pytest.mark.parametrize("name", EVERY)
def test_one_picture_on_a_page_names_its_colours_and_holds_no_other(name: str) -> None:
    svg = chart_inline(EVERY[name], width=PAGE_WIDTH_PX, name="first-")
    root = ElementTree.fromstring(svg)
    named = set(re.findall(r"var\(--p-([a-z-]+)\)", svg))
    assert named <= {colour.value for colour in Colour} and "quiet" in named
    assert not re.findall(r"#[0-9a-fA-F]{6}", svg) and "light-dark" not in svg
    assert all(one.get("id", "first-").startswith("first-") for one in root.iter())
    assert "<script" not in svg and " on" not in re.sub(r">[^<]*<", "><", svg)


@pytest.mark.parametrize("tone", list(Tone))
def test_a_file_has_the_colours_of_its_tone(tone: Tone) -> None:
    svg = chart_svg(EVERY["effort, course, metric"], tone=tone)
    known = {str(hexes)[:7] for hexes in PALETTES[tone].values()}
    told = set(re.findall(r"#[0-9A-F]{6}", svg))
    assert told <= known and len(told) > 5 and "var(" not in svg
    assert (str(PALETTES[Tone.PRINT][Colour.LINED]) in svg) is (tone is Tone.PRINT)


def test_only_print_shows_what_stands_for_colour() -> None:
    for tone in Tone:
        for colour in Colour:
            unseen = colour in UNSEEN and tone is not Tone.PRINT
            assert (PALETTES[tone][colour] is None) is unseen


@pytest.mark.parametrize("kind", list(FIGURES))
def test_the_same_figure_gives_the_same_bytes(kind: FigureKind) -> None:
    name = next(name for name in COURSES if kind in figures(name))
    first = chart_svg(figures(name)[kind], tone=Tone.LIGHT)
    assert first == chart_svg(figures(name)[kind], tone=Tone.LIGHT)
    root = ElementTree.fromstring(first)
    assert root.get("role") == "img"
    assert root.get("aria-label") == figures(name)[kind].sentence
    assert root.get("width") == str(PAGE_WIDTH_PX)
    assert "http" not in first.replace("http://www.w3.org/", "")


INKS = {
    Colour.INK, Colour.QUIET, Colour.RUST, Colour.ACID, Colour.NEUTRAL, Colour.BASE,
}  # fmt: skip


def test_every_text_is_in_a_colour_for_text() -> None:
    for figure in EVERY.values():
        for layer in draw(figure).layers:
            if layer.mark is Mark.TEXT and layer.name not in ("coldest", "warmest"):
                assert dict(layer.style)["color"] in INKS, layer.name


@pytest.mark.parametrize("tone", list(Tone))
def test_every_text_can_be_read_on_paper_and_in_a_field(tone: Tone) -> None:
    hexes = {colour: str(value) for colour, value in PALETTES[tone].items()}
    assert min(contrast(hexes[ink], hexes[Colour.PAPER]) for ink in INKS) >= 4.5


@pytest.mark.parametrize("tone", list(Tone))
@pytest.mark.parametrize("share", [n / 24 for n in range(25)])
def test_a_temperature_can_be_read_on_its_own_warmth(tone: Tone, share: float) -> None:
    hexes = {colour: str(value) for colour, value in PALETTES[tone].items()}
    fill = mixed(hexes[Colour.WARM], hexes[Colour.PAPER], share)
    assert contrast(hexes[on_warmth(share)], fill) >= 4.5


def test_print_tells_everything_apart_without_colour() -> None:
    greys = [str(colour)[:7] for colour in PALETTES[Tone.PRINT].values()]
    assert all(len({colour[at : at + 2] for at in (1, 3, 5)}) == 1 for colour in greys)
    names = {layer.name for layer in draw(EVERY["effort, ledger, metric"]).layers if layer.rows}
    assert "hatch" in names
    course = draw(EVERY["effort, course, metric"])
    assert {"wanted_lines", "wanted_edges", "too_early"} <= {layer.name for layer in course.layers}


def test_contrast_is_that_of_the_guidelines() -> None:
    assert contrast("#000000", "#FFFFFF") == pytest.approx(21.0)
    assert contrast("#777777", "#FFFFFF") == pytest.approx(4.48, abs=0.01)


def test_widths_are_those_of_our_type() -> None:
    from fontTools.ttLib import TTFont

    with type_folder() as folder:
        for file, bold in (("LoamSans-Regular.ttf", False), ("LoamSans-Bold.ttf", True)):
            font = TTFont(f"{folder}/{file}")
            advances, letters = font["hmtx"], font.getBestCmap()
            em = font["head"].unitsPerEm
            for code, glyph in letters.items():
                real, told = advances[glyph][0] / em, text_width(chr(code), size=1.0, bold=bold)
                assert real <= told <= real + 0.0011, chr(code)


@pytest.mark.parametrize("text", ["庭園の土", "حديقة", "🌱🌿", "ก้อน"])
def test_what_our_type_lacks_still_has_a_width(text: str) -> None:
    assert 0.4 < text_width(text, size=1.0) / len(text) < 1.5


@given(
    st.lists(st.tuples(st.floats(0, 200), st.floats(8, 30)), min_size=1, max_size=6),
)
def test_labels_are_spread_without_overlap(labels: list[tuple[float, float]]) -> None:
    wanted, heights = [w for w, _ in labels], [h for _, h in labels]
    middles = spread(wanted, heights, low=0.0, high=200.0)
    order = sorted(range(len(labels)), key=lambda i: (wanted[i], i))
    edges = [(middles[i] - 0.5 * heights[i], middles[i] + 0.5 * heights[i]) for i in order]
    assert all(a[1] <= b[0] + 1e-6 for a, b in pairwise(edges))
    assert edges[0][0] >= -1e-6 and edges[-1][1] <= 200.0 + 1e-6


def test_a_lone_label_stays_where_it_belongs() -> None:
    assert spread([50.0, 90.0], [14.0, 14.0], low=0.0, high=200.0) == [50.0, 90.0]


def test_lines_are_broken_evenly_and_units_kept() -> None:
    assert wrapped("90 in 100 tests", width=70.0) == "90 in\n100 tests"
    assert "100\u00a0sq\u00a0ft" in wrapped("0.16 oz/100 sq ft of sulfur", width=110.0)
    long = wrapped("pneumonoultramicroscopic", width=60.0)
    assert long.endswith("…") and text_width(long) <= 60.0
    many = wrapped("one two three four five six seven", width=40.0, lines=2)
    assert many.count("\n") == 1 and many.endswith("…")


def test_too_narrow_is_refused() -> None:
    with pytest.raises(ValueError, match="no room"):
        draw(EVERY["effort, ledger, metric"], width=NARROWEST_PX - 1)


def test_files_are_named_by_kind() -> None:
    some = [f for f in figures("effort").values() if f.kind in (FigureKind.DOSE, FigureKind.YEAR)]
    files = chart_files(some, ending="svg")
    assert list(files) == ["dose.svg", "year.svg"]
    assert all(data.startswith(b"<svg ") and data.endswith(b"\n") for data in files.values())
    png = chart_files(some, ending="png", kind=FigureKind.DOSE)
    assert list(png) == ["dose.png"] and png["dose.png"].startswith(b"\x89PNG")
    with pytest.raises(ValueError, match="svg or png"):
        chart_files(some, ending="gif")


@pytest.mark.parametrize("size", list(ChartSize))
@pytest.mark.parametrize("kind", list(FIGURES))
def test_a_picture_for_a_talk_has_its_size_title_sentence_and_source(
    size: ChartSize, kind: FigureKind
) -> None:
    name = next(name for name in COURSES if kind in figures(name))
    figure = figures(name)[kind]
    made = chart_file(figure, ending="png", size=size, source="after a soil test of 2026")
    assert Image.open(io.BytesIO(made)).size == {
        ChartSize.SLIDE: (1600, 900), ChartSize.SQUARE: (1080, 1080),
    }[size]  # fmt: skip
    svg = chart_file(figure, ending="svg", size=size, source="after a soil test of 2026").decode()
    said = " ".join("".join(ElementTree.fromstring(svg).itertext()).split())
    assert "after a soil test of 2026" in said
    assert figure.title.split()[0] in said and figure.sentence.split()[0] in said
    placed = re.search(r"translate\(([\d.]+) ([\d.]+)\) scale\(([\d.]+)\)", svg)
    assert placed is not None and float(placed[3]) >= 1.6, "words of 19 px or more"


def test_a_reading_has_its_bracket_beside_the_course_and_its_line_under_it() -> None:
    figure = figures("rule")[FigureKind.DECIDES]
    told = next(data for data in figure.data if data.name == "lines").rows
    assert len(told) >= 2
    for width, reads in ((PAGE_WIDTH_PX, "brackets"), (PHONE_WIDTH_PX, "under_numbers")):
        layers = {layer.name: layer for layer in draw(figure, width=width).layers}
        assert reads in layers
        said = " ".join(text.replace("\n", " ") for *_, text in boxes(draw(figure, width=width)))
        for _, reading, then in told:
            assert str(reading) in said.replace("\u00a0", " ")
            assert str(then) in said.replace("\u00a0", " ")


@pytest.mark.parametrize(
    ("text", "first"),
    [
        ("The best estimate is pH 5.0. Then it rises.", "The best estimate is pH 5.0."),
        ("Until 1 May 2027. 90 of 100 tests agree.", "Until 1 May 2027."),
        ("By 12. March it rises. Then it falls.", "By 12. March it rises."),
        ("Ça monte. Écoutez.", "Ça monte."),
        ("One alone", "One alone"),
    ],
)
def test_the_first_sentence_of_a_picture_is_whole(text: str, first: str) -> None:
    assert first_sentence(text) == first
