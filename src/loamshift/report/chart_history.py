"""Drawing the life of a bed: tests with their error, forecasts of their time, today's ahead."""

from __future__ import annotations

from typing import Final

from loamshift.domain.history import Outcome
from loamshift.domain.letter import Figure
from loamshift.report.chart_axes import (
    EVENT_PX,
    FOOT_PX,
    GAP_PX,
    KEY_PX,
    LEAD_PX,
    NARROW_PX,
    EndLabel,
    bands,
    date_labels,
    end_labels,
    foot_line,
    ph_grid,
    ph_span,
    wanted_edges,
    wanted_field,
)
from loamshift.report.chart_drawing import Drawing, Mark, Row, Scale, number, rows_of
from loamshift.report.chart_text import text_width
from loamshift.report.chart_tones import Colour
from loamshift.report.chart_year import warmth_share
from loamshift.report.figures.course import days_between

_STRIP_TOP_PX: Final = 22.0
_STRIP_PX: Final = 8.0
_HEAD_PX: Final = 38.0
"""Where the field begins, under the year strip."""
_LABEL_SHARE, _LABEL_MOST, _LABEL_PX = 0.22, 0.36, 132.0
_RING_PX2: Final = 46.0
_SERIF_PX: Final = 3.0
"""Half the cross line at the end of an error bar."""


def draw_history(figure: Figure, *, width: float) -> Drawing:
    """The life of a bed as marks.

    Parameters
    ----------
    width
        Width of the picture [px].
    """
    labels = dict(figure.labels)
    (span,) = rows_of(figure, "span")
    first = str(span["first"])
    low, high, step = _ph_range(figure)
    words = [
        text_width(word, bold=key == "plan")
        for key in ("plan", "band", "wanted")
        for word in labels[key].split(" ")
    ]
    room = max(min(_LABEL_SHARE * width, _LABEL_PX), max(words) + LEAD_PX + 2.0)
    room = min(room, _LABEL_MOST * width)
    field = 190.0 if width < NARROW_PX else 240.0
    left = 12.0 + text_width("10.5")
    drawing = Drawing(
        width=width,
        height=_HEAD_PX + field + FOOT_PX,
        x=Scale(
            low=0.0,
            high=float(days_between(first, str(span["last"]))),
            start_px=left,
            end_px=width - room - GAP_PX,
        ),
        y=Scale(low=low, high=high, start_px=_HEAD_PX + field, end_px=_HEAD_PX),
    )
    _strip(drawing, figure, first)
    wanted = wanted_field(drawing, figure)
    ph_grid(drawing, labels["axis"], step=step)
    _past(drawing, figure, first)
    ends = _course(drawing, figure, first, labels)
    wanted_edges(drawing, figure)
    _today(drawing, days_between(first, str(span["today"])), labels["today"])
    _tests(drawing, figure, first)
    _events(drawing, figure, labels, first)
    date_labels(drawing, figure, first)
    end_labels(drawing, [*ends, *([wanted] if wanted else [])], room=room)
    return drawing


def _ph_range(figure: Figure) -> tuple[float, float, float]:
    values = [number(v) for row in rows_of(figure, "wanted") for v in row.values()]
    for name, keys in (
        ("tests", ("low", "high")),
        ("past", ("q05", "q95")),
        ("course", ("q05", "q95")),
    ):
        values += [number(row[key]) for row in rows_of(figure, name) for key in keys]
    return ph_span(values)


def _strip(drawing: Drawing, figure: Figure, first: str) -> None:
    """The warmth of the soil over the years, thin above the field."""
    rows: list[Row] = []
    for row in rows_of(figure, "warmth"):
        day = float(days_between(first, str(row["date"])))
        if day >= drawing.x.high:
            continue
        rows.append(
            {
                "x": day,
                "x2": min(day + 7.6, drawing.x.high),
                "y": drawing.y.at(_STRIP_TOP_PX),
                "y2": drawing.y.at(_STRIP_TOP_PX + _STRIP_PX),
                "share": warmth_share(number(row["soil_c"])),
            }
        )
    drawing.put("warmth", Mark.WARMTH, rows, "x y x2 y2 share", color=Colour.WARM)


def _past(drawing: Drawing, figure: Figure, first: str) -> None:
    """Forecasts of letters as they were then: a quiet band between broken lines."""
    lots: dict[str, list[Row]] = {}
    for row in rows_of(figure, "past"):
        shown: Row = {"x": float(days_between(first, str(row["date"])))}
        shown |= {key: number(row[key]) for key in ("q05", "q50", "q95")}
        lots.setdefault(str(row["letter"]), []).append(shown)
    for place, rows in enumerate(lots.values()):
        if len(rows) < 2:
            continue
        name = f"past_{place}"
        drawing.put(name, Mark.AREA, rows, "x y=q05 y2=q95", color=Colour.PAST)
        for edge in ("q05", "q95"):
            drawing.put(
                name,
                Mark.LINE,
                rows,
                f"x y={edge}",
                color=Colour.QUIET,
                strokeWidth=0.8,
                strokeDash=(3.0, 3.0),
            )
        drawing.put(name, Mark.LINE, rows, "x y=q50", color=Colour.QUIET, strokeWidth=1.1)


def _course(drawing: Drawing, figure: Figure, first: str, labels: dict[str, str]) -> list[EndLabel]:
    rows: list[Row] = [
        {
            "x": float(days_between(first, str(row["date"]))),
            **{key: number(row[key]) for key in ("q05", "q25", "q50", "q75", "q95")},
        }
        for row in rows_of(figure, "course")
    ]
    if len(rows) < 2:
        return []
    bands(drawing, rows)
    drawing.put("course", Mark.LINE, rows, "x y=q50", color=Colour.RUST, strokeWidth=2.0)
    middle = drawing.y.px(number(rows[-1]["q50"]))
    edges = [drawing.y.px(number(rows[-1][key])) for key in ("q95", "q05")]
    far = max(edges, key=lambda y: abs(y - middle))
    return [
        EndLabel(labels["plan"], middle, Colour.RUST, bold=True),
        EndLabel(labels["band"], far, Colour.QUIET),
    ]


def _today(drawing: Drawing, day: int, text: str) -> None:
    at = drawing.x.px(float(day))
    drawing.put(
        "today",
        Mark.RULE,
        [drawing.box(at, _STRIP_TOP_PX - 4.0, at, drawing.y.start_px)],
        "x y x2 y2",
        color=Colour.INK,
        strokeWidth=0.8,
    )
    half = 0.5 * text_width(text)
    left = 4.0 + text_width("pH in water") + GAP_PX
    start = min(max(at - half, left), drawing.width - 2.0 * half - 2.0)
    drawing.put(
        "today_label",
        Mark.TEXT,
        [{**drawing.point(start, 9.0), "text": text}],
        "x y text",
        color=Colour.INK,
        align="left",
    )


def _tests(drawing: Drawing, figure: Figure, first: str) -> None:
    """Tests as rings on their error bars; one that missed its forecast is filled."""
    bars: dict[str, list[Row]] = {"careful": [], "rough": []}
    rings: dict[bool, list[Row]] = {False: [], True: []}
    missed = (Outcome.ABOVE.value, Outcome.BELOW.value)
    for row in rows_of(figure, "tests"):
        day = float(days_between(first, str(row["date"])))
        at = drawing.x.px(day)
        low, high = drawing.y.px(number(row["low"])), drawing.y.px(number(row["high"]))
        lot = bars[str(row["care"])]
        lot.append(drawing.box(at, low, at, high))
        lot += [drawing.box(at - _SERIF_PX, y, at + _SERIF_PX, y) for y in (low, high)]
        rings[row["outcome"] in missed].append({"x": day, "y": number(row["ph"])})
    for name, dash in (("careful", None), ("rough", (2.0, 2.0))):
        drawing.put(
            f"{name}_bars",
            Mark.RULE,
            bars[name],
            "x y x2 y2",
            color=Colour.INK,
            strokeWidth=1.0,
            strokeDash=dash,
        )
    for is_miss, name in ((False, "tests"), (True, "missed")):
        drawing.put(
            name,
            Mark.POINT,
            rings[is_miss],
            "x y",
            fill=Colour.INK if is_miss else Colour.PAPER,
            stroke=Colour.INK,
            strokeWidth=1.4,
            size=_RING_PX2,
        )


def _events(drawing: Drawing, figure: Figure, labels: dict[str, str], first: str) -> None:
    """What was put on as ticks and letters as small strokes under the field, with their key."""
    middle = drawing.y.start_px + EVENT_PX
    foot_line(drawing)
    marks: dict[str, list[Row]] = {"parts": [], "letters": []}
    for name, rows in marks.items():
        for row in rows_of(figure, name):
            at = drawing.x.px(days_between(first, str(row["date"])))
            rows.append(_mark(drawing, name, at, middle))
    words: list[Row] = []
    at = drawing.x.end_px + GAP_PX + 2.0
    for name, key in (("parts", "part"), ("letters", "letter")):
        if not marks[name]:
            continue
        wide = text_width(labels[key]) + KEY_PX
        if at + wide > drawing.width:
            continue  # a narrow picture has its key in the sentence under it
        marks[name].append(_mark(drawing, name, at + 3.0, middle))
        words.append({**drawing.point(at + 10.0, middle), "text": labels[key]})
        at += wide + 2.0
    drawing.put("parts", Mark.RULE, marks["parts"], "x y x2 y2", color=Colour.RUST, strokeWidth=2.6)
    drawing.put(
        "letters", Mark.RULE, marks["letters"], "x y x2 y2", color=Colour.QUIET, strokeWidth=1.6
    )
    drawing.put("event_labels", Mark.TEXT, words, "x y text", color=Colour.QUIET, align="left")


def _mark(drawing: Drawing, name: str, at: float, middle: float) -> Row:
    """A tick for what was put on, a lying stroke for a letter."""
    if name == "parts":
        return drawing.box(at, middle - 6.0, at, middle + 5.0)
    return drawing.box(at - 4.0, middle + 5.0, at + 4.0, middle + 5.0)
