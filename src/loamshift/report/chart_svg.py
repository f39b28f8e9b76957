"""A drawing written out as SVG, for a page in colours that its style sheet names, or as a file.

Every chart goes through here: the page's own and those of print, of files and of talks. On a page
one picture serves light, dark and print, since ``var(--p-…)`` stands where a file has its colour.
"""

from __future__ import annotations

import math
import re
import zlib
from collections.abc import Callable, Iterator, Sequence
from html import escape
from typing import Final

from loamshift.report.chart_drawing import Drawing, Layer, Mark, Row
from loamshift.report.chart_path import UNSEEN_PX, Point, path_of, plainer
from loamshift.report.chart_text import LINE_PX, TEXT_PX
from loamshift.report.chart_tones import Colour, Colours
from loamshift.report.typeface import SANS_STACK

Paint = Callable[[Colour], str | None]
"""What stands for a colour; None where it is not seen."""

MOST_POINTS: Final = 60
"""A line is drawn with no more points than about this; the eye sees no more."""
_MIDDLE_EM: Final = 0.35
"""From the middle of a line of text down to its foot, in its size."""
_ANCHORS: Final = {"right": "end", "center": "middle"}
_MOVED: Final = {
    (Mark.AREA, "q05"): "b90",
    (Mark.AREA, "q25"): "b50",
    (Mark.LINE, "q50"): "mid",
}
"""What a page that moves them calls the bands and the course."""
_SOFT_PX: Final = 0.6
"""The edge of a band may stay as far off its points as this; it is soft to the eye."""
_ALIKE: Final = 0.02
"""Shares of warmth that differ by no more than this look alike."""
_NOT_SHOWN: Final = re.compile(
    "[\x00-\x08\x0b-\x1f\x7f-\x9f\u200e\u200f\u202a-\u202e\u2066-\u2069]"
)
"""What no file may hold, and what would turn the direction of the text after it."""


def page_svg(drawing: Drawing, *, name: str = "", moves: bool = False, about: str = "") -> str:
    """A drawing to stand in a page, hidden from those who cannot see it.

    Parameters
    ----------
    name
        What the names inside it begin with, where it shares a page.
    moves
        Whether the page will move its lines, point by point.
    """
    inside = _inside(drawing, lambda colour: f"var(--p-{colour.value})", name=name, moves=moves)
    wide, high = _n(drawing.width), _n(drawing.height)
    return (
        f'<svg class="chart" aria-hidden="true"{about} viewBox="0 0 {wide} {high}" '
        f'width="{wide}">{inside}</svg>'
    )


def file_svg(drawing: Drawing, *, colours: Colours, sentence: str) -> str:
    """A drawing as a picture of its own."""
    said = escape(_NOT_SHOWN.sub("", sentence), quote=True)
    wide, high = _n(drawing.width), _n(drawing.height)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-label="{said}" '
        f'viewBox="0 0 {wide} {high}" width="{wide}" height="{high}" '
        f'font-family="{escape(SANS_STACK, quote=True)}" font-size="{_n(TEXT_PX)}">'
        f'<path fill="{colours[Colour.PAPER]}" d="M0 0h{wide}v{high}'
        f'H0z"/>{_inside(drawing, colours.__getitem__, name="", moves=False)}</svg>'
    )


def inner_svg(drawing: Drawing, *, colours: Colours, name: str = "") -> str:
    """What stands inside the picture of a drawing, to be put into another."""
    return _inside(drawing, colours.__getitem__, name=name, moves=False)


def shown(text: str) -> str:
    """A text as it may stand between tags: no control signs, nothing that turns it."""
    return escape(_NOT_SHOWN.sub("", text), quote=False)


def thinned(count: int) -> list[int]:
    """Which of so many points [count] a line is drawn through, the last always among them."""
    step = max(1, math.ceil(count / MOST_POINTS))
    chosen = list(range(0, count, step))
    if chosen and chosen[-1] != count - 1:
        chosen.append(count - 1)
    return chosen


def _inside(drawing: Drawing, paint: Paint, *, name: str, moves: bool) -> str:
    return "".join(
        _layer(layer, drawing, paint, name=name, moves=moves)
        for layer in drawing.layers
        if layer.rows
    )


def _layer(layer: Layer, drawing: Drawing, paint: Paint, *, name: str, moves: bool) -> str:
    style, fields = dict(layer.style), dict(layer.fields)
    look = list(_colours(style, layer.mark, paint))
    if not look:
        return ""
    text = "".join((*look, *_strokes(style), *_type(style, layer.mark)))
    match layer.mark:
        case Mark.AREA | Mark.LINE:
            return _course(layer, fields, text, drawing, moves)
        case Mark.HATCH:
            return _hatch(layer, drawing, paint, name)
        case Mark.WARMTH:
            return _warmth(layer, drawing, paint, name)
        case Mark.TEXT:
            body = "".join(_text(row, style, drawing) for row in layer.rows)
        case Mark.POINT:
            radius = _n(math.sqrt(_float(style.get("size", 30.0)) / math.pi))
            body = "".join(
                f'<circle cx="{_n(x)}" cy="{_n(y)}" r="{radius}"/>'
                for x, y in (_place(row, drawing) for row in layer.rows)
            )
        case Mark.RULE:
            body = f'<path d="{path_of(_ends(row, fields, drawing) for row in layer.rows)}"/>'
        case Mark.RECT:
            body = "".join(_rect(row, drawing) for row in layer.rows)
    named = ""
    if moves:
        named = ' class="ends"' if layer.name.startswith("end_labels") else ""
        named = ' class="leaders"' if layer.name == "leaders" else named
    return f"<g{named}{text}>{body}</g>"


def _colours(
    style: dict[str, str | float | bool | tuple[float, ...]], mark: Mark, paint: Paint
) -> Iterator[str]:
    """Fill and stroke; nothing where neither is seen."""
    lines = mark in (Mark.RULE, Mark.LINE)
    keys = {"color": "stroke" if lines else "fill", "fill": "fill", "stroke": "stroke"}
    told = {keys[key]: paint(Colour(str(style[key]))) for key in keys if key in style}
    seen = {key: colour for key, colour in told.items() if colour is not None}
    if seen and "fill" not in seen and mark is not Mark.RULE:  # a straight line has no inside
        yield ' fill="none"'
    for key, colour in seen.items():
        if colour.startswith("#") and len(colour) == 9:  # not every reader of files knows eight
            yield f' {key}="{colour[:7]}" {key}-opacity="{int(colour[7:], 16) / 255:.2f}"'
        else:
            yield f' {key}="{colour}"'


def _strokes(style: dict[str, str | float | bool | tuple[float, ...]]) -> Iterator[str]:
    if "fillOpacity" in style:
        yield f' fill-opacity="{_float(style["fillOpacity"]):.2f}"'
    if "strokeWidth" in style:
        yield f' stroke-width="{_n(_float(style["strokeWidth"]))}"'
    dash = style.get("strokeDash")
    if isinstance(dash, tuple):
        yield f' stroke-dasharray="{" ".join(_n(part) for part in dash)}"'
    if "strokeCap" in style:
        yield f' stroke-linecap="{style["strokeCap"]}"'


def _type(style: dict[str, str | float | bool | tuple[float, ...]], mark: Mark) -> Iterator[str]:
    if mark is not Mark.TEXT:
        return
    anchor = _ANCHORS.get(str(style.get("align", "left")))
    if anchor:
        yield f' text-anchor="{anchor}"'
    if "fontWeight" in style:
        yield f' font-weight="{style["fontWeight"]}"'
    if "fontSize" in style and style["fontSize"] != TEXT_PX:
        yield f' font-size="{_n(_float(style["fontSize"]))}"'


def _course(layer: Layer, fields: dict[str, str], look: str, drawing: Drawing, moves: bool) -> str:
    rows = [layer.rows[i] for i in thinned(len(layer.rows)) if fields["y"] in layer.rows[i]]
    edges = [_line(rows, fields["y"], drawing)]
    if layer.mark is Mark.AREA:
        edges.append(_line(rows[::-1], fields["y2"], drawing))
    if moves:
        path = "L".join(f"{_n(x)} {_n(y)}" for edge in edges for x, y in edge)
        path = f"M{path}"
    else:
        unseen = _SOFT_PX if layer.mark is Mark.AREA else UNSEEN_PX
        path = path_of([[point for edge in edges for point in plainer(edge, unseen=unseen)]])
    path += "Z" if layer.mark is Mark.AREA else ""
    name = _MOVED.get((layer.mark, fields["y"])) if moves else None
    named = f' class="{name}"' if name else ""
    return f'<path{named}{look} d="{path}"/>'


def _line(rows: Sequence[Row], column: str, drawing: Drawing) -> list[Point]:
    return [(drawing.x.px(_float(row["x"])), drawing.y.px(_float(row[column]))) for row in rows]


def _text(
    row: Row, style: dict[str, str | float | bool | tuple[float, ...]], drawing: Drawing
) -> str:
    size = _float(style.get("fontSize", TEXT_PX))
    x, y = _place(row, drawing)
    lines = _NOT_SHOWN.sub("", str(row["text"])).split("\n")
    apart = _n(LINE_PX * size / TEXT_PX)
    inside = escape(lines[0], quote=False) + "".join(
        f'<tspan x="{_n(x)}" dy="{apart}">{escape(line, quote=False)}</tspan>' for line in lines[1:]
    )
    return f'<text x="{_n(x)}" y="{_n(y + _MIDDLE_EM * size)}">{inside}</text>'


def _ends(row: Row, fields: dict[str, str], drawing: Drawing) -> list[Point]:
    x, y = _place(row, drawing)
    x2 = drawing.x.px(_float(row["x2"])) if "x2" in fields else x
    y2 = drawing.y.px(_float(row["y2"])) if "y2" in fields else y
    return [(x, y), (x2, y2)]


def _rect(row: Row, drawing: Drawing) -> str:
    left, right = sorted(drawing.x.px(_float(row[key])) for key in ("x", "x2"))
    top, foot = sorted(drawing.y.px(_float(row[key])) for key in ("y", "y2"))
    return f'<path d="{path_of([[(left, top), (right, top), (right, foot), (left, foot)]])}z"/>'


def _hatch(layer: Layer, drawing: Drawing, paint: Paint, name: str) -> str:
    """Boxes filled with slanting lines: one tile, laid side by side."""
    style = dict(layer.style)
    step = _float(style["step"])
    wide, over = _n(step), _n(step + 1.0)
    key = escape(f"{name}{layer.name}", quote=True)
    colour = paint(Colour(str(style["color"])))
    boxes = "".join(_rect(row, drawing) for row in layer.rows)
    return (
        f'<pattern id="{key}" width="{wide}" height="{wide}" '
        f'patternUnits="userSpaceOnUse"><path fill="none" stroke="{colour}" '
        f'stroke-width="0.8" d="M-1 1L1 -1M0 {wide}L{wide} 0M{_n(step - 1.0)} {over}L{over} '
        f'{_n(step - 1.0)}"/></pattern><g fill="url(#{key})">{boxes}</g>'
    )


def _warmth(layer: Layer, drawing: Drawing, paint: Paint, name: str) -> str:
    """A band of one hue that is seen through the more the cooler it is: one gradient."""
    colour = str(paint(Colour(str(dict(layer.style)["color"]))))
    hue = "" if colour.startswith("var") else f' stop-color="{colour}"'  # pages say it once
    blocks = [
        (drawing.x.px(_float(row["x"])), drawing.x.px(_float(row["x2"])), _float(row["share"]))
        for row in layer.rows
    ]
    left, right = blocks[0][0], blocks[-1][1]
    top, foot = sorted(drawing.y.px(_float(layer.rows[0][key])) for key in ("y", "y2"))
    stops = "".join(
        f'<stop offset="{_share((x - left) / (right - left))}"{hue} '
        f'stop-opacity="{_share(share)}"/>'
        for x, share in fewest_stops(list(_stops(blocks)))
    )
    key = escape(f"{name}warmth-{zlib.crc32(stops.encode('ascii')):08x}", quote=True)
    across = path_of([[(left, top), (right, top), (right, foot), (left, foot)]])
    return (
        f'<linearGradient id="{key}">{stops}</linearGradient>'
        f'<path fill="url(#{key})" d="{across}z"/>'
    )


def _stops(blocks: Sequence[tuple[float, float, float]]) -> Iterator[Point]:
    """Each share at the middle of its block; at the outer edges those of the ends."""
    yield blocks[0][0], blocks[0][2]
    for left, right, share in blocks[1:-1]:
        yield (left + right) / 2.0, share
    yield blocks[-1][1], blocks[-1][2]


def fewest_stops(stops: list[Point]) -> list[Point]:
    """The fewest places between which the shares at the others are as near as can be seen.

    Parameters
    ----------
    stops
        Places and shares from left to right [px, 0-1].

    Returns
    -------
    list of tuple
        Some of them, the ends always among them [px, 0-1].
    """
    return plainer(stops, unseen=_ALIKE)


def _place(row: Row, drawing: Drawing) -> Point:
    return drawing.x.px(_float(row["x"])), drawing.y.px(_float(row["y"]))


def _float(value: str | float | bool | tuple[float, ...]) -> float:
    assert isinstance(value, (int, float))
    return float(value)


def _share(value: float) -> str:
    return f"{value:.3f}".rstrip("0").rstrip(".").removeprefix("0") or "0"


def _n(value: float) -> str:
    return f"{value:.1f}".removesuffix(".0")
