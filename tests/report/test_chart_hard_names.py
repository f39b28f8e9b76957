"""Charts hold with very long names, other alphabets, right-to-left text and pictures in names."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations
from xml.etree import ElementTree

import pytest

from loamshift.domain.letter import DataSet, Figure, FigureKind
from loamshift.report.chart import NARROWEST_PX, PAGE_WIDTH_PX, PHONE_WIDTH_PX, chart_inline, draw
from loamshift.report.chart_files import chart_file
from loamshift.report.chart_plain import PLAIN_KINDS, plain_picture
from loamshift.report.chart_talk import ChartSize
from report.drawn import figures
from report.test_charts import boxes

NAMES = {
    "sixty": "Vaccinium corymbosum × V. angustifolium cultivated highbush no. 7",
    "one word": "Donaudampfschifffahrtsgesellschaftskapitänsmützenbeerenstrauch",
    "hebrew": "אוכמנית גבוהה של גינת בית הספר ברחוב הראשי",
    "arabic": "التوت البري طويل الساق في الحديقة الشمالية",
    "chinese": "高丛越橘在学校花园北侧边界的长苗床里",
    "pictures": "🫐🌱👩🏽‍🌾 blueberry 🫐🫐🫐 of the 👨‍👩‍👧‍👦 bed",
    "turned": "blue\u202eyrreb\u2066 <b>&amp; \x07bell",
    "empty": "",
}
KINDS = {
    FigureKind.DECIDES: "rule",
    FigureKind.COURSE: "effort",
    FigureKind.LEDGER: "effort",
    FigureKind.CLAIMS: "effort",
    FigureKind.OPTIONS: "effort",
}


def hard(kind: FigureKind, name: str) -> Figure:
    """A figure whose names are all this one."""
    figure = figures(KINDS[kind])[kind]
    data = tuple(
        DataSet(
            one.name,
            one.columns,
            tuple(
                tuple(
                    f"{name}{place}" if column == "name" else value
                    for column, value in zip(one.columns, row, strict=True)
                )
                for place, row in enumerate(one.rows)
            ),
        )
        for one in figure.data
    )
    labels = tuple(
        (key, name if key in ("wanted", "plan") else text) for key, text in figure.labels
    )
    return replace(figure, data=data, labels=labels, title=name or figure.title)


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("name", NAMES.values(), ids=NAMES)
@pytest.mark.parametrize("width", [NARROWEST_PX, PHONE_WIDTH_PX, PAGE_WIDTH_PX])
def test_no_name_leaves_the_picture_or_lies_on_another(
    kind: FigureKind, name: str, width: int
) -> None:
    drawing = draw(hard(kind, name), width=width)
    stand = [box for box in boxes(drawing) if box[4]]
    for left, top, right, foot, text in stand:
        assert left >= -0.5 and right <= width + 0.5, text
        assert top >= -0.5 and foot <= drawing.height + 0.5, text
    for one, other in combinations(stand, 2):
        apart = one[2] <= other[0] or other[2] <= one[0] or one[3] <= other[1] or other[3] <= one[1]
        assert apart, (one, other)


@pytest.mark.parametrize("name", NAMES.values(), ids=NAMES)
def test_a_picture_with_any_name_can_be_read(name: str) -> None:
    figure = hard(FigureKind.CLAIMS, name)
    for svg in (
        chart_inline(figure, width=PHONE_WIDTH_PX),
        chart_file(figure, ending="svg").decode(),
        *(chart_file(figure, ending="svg", size=size, source=name).decode() for size in ChartSize),
    ):
        ElementTree.fromstring(svg)
        assert "\u202e" not in svg and "<b>" not in svg
    assert chart_file(figure, ending="png").startswith(b"\x89PNG")


@pytest.mark.parametrize("kind", PLAIN_KINDS)
@pytest.mark.parametrize("name", NAMES.values(), ids=NAMES)
@pytest.mark.parametrize("width", [32, 44, 80])
def test_no_line_of_a_picture_in_characters_is_too_long(
    kind: FigureKind, name: str, width: int
) -> None:
    for line in plain_picture(hard(kind, name), width=width):
        assert len(line) <= width
