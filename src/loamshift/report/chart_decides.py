"""Drawing what the next test decides: the course up to it, and where each reading leads."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from loamshift.domain.letter import Figure
from loamshift.report.chart_axes import (
    FOOT_PX,
    GAP_PX,
    LEAD_PX,
    NARROW_PX,
    EndLabel,
    alone_line,
    bands,
    date_labels,
    end_labels,
    ph_grid,
    ph_span,
    wanted_edges,
    wanted_field,
)
from loamshift.report.chart_course import draw_events
from loamshift.report.chart_drawing import Drawing, Mark, Row, Scale, number, rows_of
from loamshift.report.chart_text import LINE_PX, spread, text_width, wrapped
from loamshift.report.chart_tones import Colour, ph_ink
from loamshift.report.figures.course import days_between

_HEAD_PX: Final = 24.0
_BRACKET_PX: Final = 8.0
"""How far the arms of a bracket reach."""
_FAN_PX: Final = 12.0
"""From the end of a course to the arms of its bracket."""
_APART_PX: Final = 9.0
"""Between two brackets, one above the other."""
_LABEL_SHARE, _LABEL_MOST = 0.24, 0.4
_BRACKET_SHARE: Final = 0.44
"""Share of the width that the brackets and their words may take at the most."""
_ABOVE_PX: Final = 12.0
"""How far the words at the right may stand above the field."""
_UNDER_PX: Final = 10.0
"""From the foot of a narrow course to the words under it."""
_RING_PX2: Final = 60.0
_KEY_PX: Final = 14.0
"""From the number of a course to its words under a narrow picture."""
_SHORTEST_PX: Final = 150.0
"""A course narrower than this says nothing; its brackets then stand under it."""


@dataclass(frozen=True, slots=True)
class _Path:
    """Where one reading leads: its number, its points, and what it says."""

    number: int
    rows: list[Row]
    reads: str
    then: str


def draw_decides(figure: Figure, *, width: float) -> Drawing:
    """The course up to the next test, and what each reading leads to, as marks.

    Parameters
    ----------
    width
        Width of the picture [px].

    Notes
    -----
    Where there is room, a bracket at the right of each course says what is read and what goes on
    then. On a phone the courses are numbered and the words stand under them.
    """
    (span,) = rows_of(figure, "span")
    first = str(span["first"])
    days = float(days_between(first, str(span["last"])))
    paths = _paths(figure, first)
    labels = dict(figure.labels)
    beside = bool(paths) and width >= NARROW_PX
    room = _room(labels, paths, width, beside=beside)
    low, high, step = _ph_range(figure)
    texts = _bracket_texts(paths, room) if beside else []
    field = _field_px(width)
    if beside:
        plain = [wrapped(labels[key], width=room - _start_px()) for key in ("alone", "wanted")]
        stacked = sum(map(_tall, texts)) + sum(map(_plain_tall, plain))
        field = max(field, stacked - _ABOVE_PX)
    left = 12.0 + text_width("10.5")
    right = width - room - GAP_PX
    narrow = width < NARROW_PX
    under = _under(figure, paths, width) if narrow else []
    drawing = Drawing(
        width=width,
        height=_HEAD_PX + field + FOOT_PX + (_UNDER_PX if under else 0.0) + LINE_PX * len(under),
        x=Scale(low=0.0, high=days, start_px=left, end_px=right),
        y=Scale(low=low, high=high, start_px=_HEAD_PX + field, end_px=_HEAD_PX),
    )
    wanted = wanted_field(drawing, figure)
    ph_grid(drawing, labels["axis"], step=step)
    course = _course(drawing, figure, first)
    _fan(drawing, paths)
    wanted_edges(drawing, figure)
    draw_events(drawing, figure, labels, first)
    _test_day(drawing, figure, labels, course, first)
    date_labels(drawing, figure, first, foot_px=_HEAD_PX + field + FOOT_PX)
    beside_field = None if narrow else wanted
    others = _others(drawing, figure, labels, course, beside_field, paths)
    if beside:
        _brackets(drawing, paths, texts, others, wanted=wanted, room=room)
    else:
        ends = [
            EndLabel(str(path.number), drawing.y.px(number(path.rows[-1]["y"])), Colour.RUST, True)
            for path in paths
            if path.rows
        ]
        end_labels(drawing, [*ends, *others], room=room)
        _put_under(drawing, under)
    return drawing


def _field_px(width: float) -> float:
    return 170.0 if width < NARROW_PX else 200.0


def _paths(figure: Figure, first: str) -> list[_Path]:
    rows: dict[int, list[Row]] = {}
    for row in rows_of(figure, "after"):
        day = float(days_between(first, str(row["date"])))
        rows.setdefault(int(number(row["line"])), []).append({"x": day, "y": number(row["ph"])})
    return [
        _Path(
            int(number(line["line"])),
            rows.get(int(number(line["line"])), []),
            str(line["reads"]),
            str(line["then"]),
        )
        for line in rows_of(figure, "lines")
    ]


def _room(labels: dict[str, str], paths: list[_Path], width: float, *, beside: bool) -> float:
    """Room for what stands at the right of the field [px]."""
    if beside:
        words = [text_width(text, bold=True) for path in paths for text in (path.reads, path.then)]
        words.append(text_width(labels["wanted"]))
        most = min(_BRACKET_SHARE * width, width - _SHORTEST_PX)
        return min(_start_px() + max(words) + 2.0, most)
    keys = ("alone",) if width < NARROW_PX else ("alone", "wanted")
    words = [text_width(word) for key in keys for word in labels[key].split(" ")]
    room = max(_LABEL_SHARE * width, max(words) + LEAD_PX + 2.0)
    return min(room, _LABEL_MOST * width)


def _start_px() -> float:
    """From the end of the courses to the words of their brackets [px]."""
    return _FAN_PX + _BRACKET_PX + 8.0


def _ph_range(figure: Figure) -> tuple[float, float, float]:
    values = [number(row[key]) for row in rows_of(figure, "course") for key in ("q05", "q95")]
    values += [number(row["ph"]) for name in ("alone", "after") for row in rows_of(figure, name)]
    values += [number(value) for row in rows_of(figure, "wanted") for value in row.values()]
    return ph_span(values)


def _bracket_texts(paths: list[_Path], room: float) -> list[tuple[str, str]]:
    wide = room - _start_px()
    return [
        (
            wrapped(path.reads, width=wide, lines=2, bold=True),
            wrapped(path.then, width=wide, lines=2, bold=True),
        )
        for path in paths
    ]


def _tall(text: tuple[str, str]) -> float:
    return LINE_PX * sum(1 + one.count("\n") for one in text) + _APART_PX


def _plain_tall(text: str) -> float:
    return LINE_PX * (1 + text.count("\n")) + 5.0


def _course(drawing: Drawing, figure: Figure, first: str) -> list[Row]:
    """Band and median course up to the test, and the bed left alone beyond it."""
    rows: list[Row] = [
        {
            "x": float(days_between(first, str(row["date"]))),
            **{key: number(row[key]) for key in ("q05", "q25", "q50", "q75", "q95")},
        }
        for row in rows_of(figure, "course")
    ]
    bands(drawing, rows)
    alone: list[Row] = [
        {"x": float(days_between(first, str(row["date"]))), "y": number(row["ph"])}
        for row in rows_of(figure, "alone")
    ]
    alone_line(drawing, "alone", alone, "x y")
    drawing.put("course", Mark.LINE, rows, "x y=q50", color=Colour.RUST, strokeWidth=2.2)
    return rows


def _fan(drawing: Drawing, paths: list[_Path]) -> None:
    for path in paths:
        drawing.put(
            f"after_{path.number}",
            Mark.LINE,
            path.rows,
            "x y",
            color=Colour.RUST,
            strokeWidth=1.5,
        )


def _test_day(
    drawing: Drawing,
    figure: Figure,
    labels: dict[str, str],
    course: list[Row],
    first: str,
) -> None:
    """The day of the test as a line, the course read there as a ring, the day above."""
    rules: list[Row] = []
    rings: list[Row] = []
    words: list[Row] = []
    for row in rows_of(figure, "decides"):
        day = float(days_between(first, str(row["date"])))
        at, text = drawing.x.px(day), str(row["text"])
        rules.append(drawing.box(at, drawing.y.end_px - 6.0, at, drawing.y.start_px))
        rings.append({"x": day, "y": number(course[-1]["q50"])})
        half = 0.5 * text_width(text, bold=True)
        after_title = 4.0 + text_width(labels["axis"]) + 2.0 * GAP_PX
        start = min(max(at - half, after_title), drawing.width - 2.0 * half - 2.0)
        words.append({**drawing.point(start, 8.0), "text": text})
        if not start <= at <= start + 2.0 * half:
            rules.append(drawing.box(at, drawing.y.end_px - 6.0, start - 3.0, 10.0))
    drawing.put("test_day", Mark.RULE, rules, "x y x2 y2", color=Colour.INK, strokeWidth=0.9)
    drawing.put(
        "test_ring",
        Mark.POINT,
        rings,
        "x y",
        fill=Colour.PAPER,
        stroke=Colour.INK,
        strokeWidth=1.5,
        size=_RING_PX2,
    )
    drawing.put(
        "test_label",
        Mark.TEXT,
        words,
        "x y text",
        color=Colour.INK,
        align="left",
        fontWeight="bold",
    )


def _others(
    drawing: Drawing,
    figure: Figure,
    labels: dict[str, str],
    course: list[Row],
    wanted: EndLabel | None,
    paths: list[_Path],
) -> list[EndLabel]:
    """Labels of what is no reading: the bed left alone, the range wanted, a course not split."""
    found = [] if wanted is None else [wanted]
    alone = rows_of(figure, "alone")
    if alone:
        y = drawing.y.px(number(alone[-1]["ph"]))
        found.append(EndLabel(labels["alone"], y, Colour.INK))
    if not paths:
        last = course[-1]
        found.append(
            EndLabel(labels["plan"], drawing.y.px(number(last["q50"])), Colour.RUST, bold=True)
        )
        if not labels["band"]:
            return found
        edges = [drawing.y.px(number(last[key])) for key in ("q95", "q05")]
        far = max(edges, key=lambda y: min(abs(y - end.y_px) for end in found))
        found.append(EndLabel(labels["band"], far, Colour.QUIET))
    return found


def _brackets(
    drawing: Drawing,
    paths: list[_Path],
    texts: list[tuple[str, str]],
    others: list[EndLabel],
    *,
    wanted: EndLabel | None,
    room: float,
) -> None:
    """A bracket for each reading, as near to its course as can be, and the other labels."""
    end = drawing.x.end_px
    plain = [wrapped(one.text, width=room - _start_px()) for one in others]
    homes = [drawing.y.px(number(path.rows[-1]["y"])) if path.rows else None for path in paths]
    known = [home for home in homes if home is not None]
    wants = [_mean(known) if home is None else home for home in homes]
    wants = sorted(wants)  # readings keep their order, whatever their courses do
    heights = [_tall(text) for text in texts]
    heights += [_plain_tall(text) for text in plain]
    between = [wants[0] <= one.y_px <= wants[-1] for one in others]
    below = wants[-1] + 0.5  # the brackets stand together, other labels above or below them
    middles = spread(
        [
            *wants,
            *(below if is_in else one.y_px for one, is_in in zip(others, between, strict=True)),
        ],
        heights,
        low=drawing.y.end_px - _ABOVE_PX,
        high=drawing.y.start_px,
    )
    arms: list[Row] = []
    leaders: list[Row] = []
    saids: dict[tuple[Colour, bool], list[Row]] = {}
    edge = end + _FAN_PX + _BRACKET_PX
    for home, text, middle, tall in zip(homes, texts, middles, heights, strict=False):
        top, foot = middle - 0.5 * (tall - _APART_PX), middle + 0.5 * (tall - _APART_PX)
        arms.append(drawing.box(edge - _BRACKET_PX, top, edge, top))
        arms.append(drawing.box(edge, top, edge, foot))
        arms.append(drawing.box(edge - _BRACKET_PX, foot, edge, foot))
        if home is not None:
            leaders.append(drawing.box(end + 1.0, home, edge - 3.0, middle))
        y = top + 0.5 * LINE_PX
        for one, colour in zip(text, (Colour.INK, Colour.RUST), strict=True):
            row = {**drawing.point(end + _start_px(), y), "text": one}
            saids.setdefault((colour, True), []).append(row)
            y += LINE_PX * (1 + one.count("\n"))
    placed = zip(others, plain, middles[len(paths) :], between, strict=True)
    for other, text_, middle, is_in in placed:
        if abs(middle - other.y_px) > 3.0 and not is_in and other is not wanted:
            leaders.append(drawing.box(end + 2.0, other.y_px, end + _start_px() - 4.0, middle))
        top = middle - 0.5 * LINE_PX * text_.count("\n")
        row = {**drawing.point(end + _start_px(), top), "text": text_}
        saids.setdefault((other.colour, False), []).append(row)
    drawing.put("leaders", Mark.RULE, leaders, "x y x2 y2", color=Colour.QUIET, strokeWidth=0.6)
    drawing.put("brackets", Mark.RULE, arms, "x y x2 y2", color=Colour.INK, strokeWidth=1.2)
    for place, ((colour, bold), rows) in enumerate(saids.items()):
        drawing.put(
            f"said_{place}",
            Mark.TEXT,
            rows,
            "x y text",
            color=colour,
            align="left",
            fontWeight="bold" if bold else None,
        )


def _mean(values: list[float]) -> float:
    return sum(values) / len(values)


@dataclass(frozen=True, slots=True)
class _Under:
    """A line of words under a narrow course, with the number of its course where it has one."""

    key: str
    text: str
    colour: Colour


def _under(figure: Figure, paths: list[_Path], width: float) -> list[_Under]:
    """What each number stands for, and the range wanted."""
    wide = width - 2.0 * _KEY_PX
    found: list[_Under] = []
    for path in paths:
        text = wrapped(f"{path.reads}: {path.then}", width=wide)
        for place, line in enumerate(text.split("\n")):
            found.append(_Under(str(path.number) if place == 0 else "", line, Colour.INK))
    for row in rows_of(figure, "wanted"):
        colour = ph_ink(0.5 * (number(row["low"]) + number(row["high"])))[0]
        text = wrapped(dict(figure.labels)["wanted"], width=wide)
        found += [_Under("", line, colour) for line in text.split("\n")]
    return found


def _put_under(drawing: Drawing, under: list[_Under]) -> None:
    top = drawing.height - LINE_PX * len(under) + 0.5 * LINE_PX - 2.0
    numbers: list[Row] = []
    words: dict[Colour, list[Row]] = {}
    for place, one in enumerate(under):
        y = top + LINE_PX * place
        if one.key:
            numbers.append({**drawing.point(8.0, y), "text": one.key})
        row = {**drawing.point(8.0 + _KEY_PX, y), "text": one.text}
        words.setdefault(one.colour, []).append(row)
    drawing.put(
        "under_numbers",
        Mark.TEXT,
        numbers,
        "x y text",
        color=Colour.RUST,
        align="left",
        fontWeight="bold",
    )
    for place, (colour, rows) in enumerate(words.items()):
        drawing.put(f"under_{place}", Mark.TEXT, rows, "x y text", color=colour, align="left")
