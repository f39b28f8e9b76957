"""Drawing the year strip: warmth of the soil as one hue, parts and tests upon it."""

from __future__ import annotations

from typing import Final

from loamshift.domain.letter import Figure
from loamshift.report.chart_drawing import Drawing, Mark, Row, Scale, number, rows_of
from loamshift.report.chart_text import LINE_PX, TEXT_PX, text_width
from loamshift.report.chart_tones import Colour, on_warmth
from loamshift.report.figures.course import days_between

_TOP_PX: Final = 19.0
_STRIP_PX: Final = 17.0
_SIDE_PX: Final = 7.0
_COLD_C, _WARM_C = 0.0, 24.0
"""The ends of the hue, the same for every bed so that strips can be compared."""
_LEAST_SHARE: Final = 0.1
_SMALL_PX: Final = TEXT_PX
_CLOSE_C: Final = 1.0
"""Weeks as near as this to the coldest or warmest may carry its label."""
_CLEAR_PX: Final = 28.0


def draw_year(figure: Figure, *, width: float) -> Drawing:
    """The year strip as marks.

    Parameters
    ----------
    width
        Width of the picture [px].
    """
    warmth = rows_of(figure, "warmth")
    first = str(warmth[0]["date"])
    days = days_between(first, str(warmth[-1]["date"]))
    height = _TOP_PX + _STRIP_PX + 8.0 + 2.0 * LINE_PX + 3.0
    drawing = Drawing(
        width=width,
        height=height,
        x=Scale(low=0.0, high=float(days), start_px=_SIDE_PX, end_px=width - _SIDE_PX),
        y=Scale(low=0.0, high=height, start_px=0.0, end_px=height),
    )
    _months(drawing, figure, first)
    _strip(drawing, figure, first)
    _marks(drawing, figure, first)
    return drawing


def warmth_share(soil_c: float) -> float:
    """How much of the hue of warm soil stands for a temperature [degC], the same in every picture.

    Parameters
    ----------
    soil_c
        Temperature of the soil [degC].

    Returns
    -------
    float
        Share of the hue; cold soil keeps a little, to be seen on the paper [0-1].
    """
    share = (soil_c - _COLD_C) / (_WARM_C - _COLD_C)
    return round(_LEAST_SHARE + (1.0 - _LEAST_SHARE) * min(max(share, 0.0), 1.0), 3)


def _months(drawing: Drawing, figure: Figure, first: str) -> None:
    rows = rows_of(figure, "months")
    month_px = 30.4 * (drawing.x.end_px - drawing.x.start_px) / drawing.x.high
    short = month_px < max(text_width(str(row["text"]), size=_SMALL_PX) for row in rows) + 4.0
    words: list[Row] = []
    ticks: list[Row] = []
    for row in rows:
        text = str(row["text"])[:1] if short else str(row["text"])
        at = drawing.x.px(days_between(first, str(row["date"])))
        if at + 3.0 + text_width(text, size=_SMALL_PX) < drawing.width - 1.0:
            words.append({**drawing.point(at + 3.0, 8.0), "text": text})
        ticks.append(drawing.box(at, 2.0, at, _TOP_PX - 2.0))
    drawing.put("month_ticks", Mark.RULE, ticks, "x y x2 y2", color=Colour.RULE, strokeWidth=0.8)
    drawing.put(
        "months",
        Mark.TEXT,
        words,
        "x y text",
        color=Colour.QUIET,
        align="left",
        fontSize=_SMALL_PX,
    )


def _strip(drawing: Drawing, figure: Figure, first: str) -> None:
    warmth = rows_of(figure, "warmth")
    top, foot = _TOP_PX, _TOP_PX + _STRIP_PX
    seam = drawing.x.at(drawing.x.start_px + 0.7)
    rows: list[Row] = []
    for row in warmth[:-1]:
        day = float(days_between(first, str(row["date"])))
        rows.append(
            {
                "x": day,
                "x2": min(day + 7.0 + seam, drawing.x.high),
                "y": top,
                "y2": foot,
                "share": warmth_share(number(row["soil_c"])),
            }
        )
    drawing.put("warmth", Mark.WARMTH, rows, "x y x2 y2 share", color=Colour.WARM)
    edges = [drawing.box(drawing.x.start_px, at, drawing.x.end_px, at) for at in (top, foot)]
    edges += [drawing.box(at, top, at, foot) for at in (drawing.x.start_px, drawing.x.end_px)]
    drawing.put("strip_edges", Mark.RULE, edges, "x y x2 y2", color=Colour.OUTLINE, strokeWidth=0.7)
    marks = [
        drawing.x.px(days_between(first, str(row["date"]))) for row in rows_of(figure, "marks")
    ]
    _ends_of_warmth(drawing, warmth[:-1], rows, marks)


def _ends_of_warmth(
    drawing: Drawing,
    warmth: list[dict[str, str | float | None]],
    rows: list[Row],
    marks: list[float],
) -> None:
    """The coldest and the warmest week in figures, so that the hue can be read."""
    temps = [number(row["soil_c"]) for row in warmth]
    for name, temp in (("coldest", min(temps)), ("warmest", max(temps))):
        close = [week for week, value in enumerate(temps) if abs(value - temp) <= _CLOSE_C]
        middle = 0.5 * (close[0] + close[-1])

        def worth(week: int, middle: float = middle) -> float:
            """Nearness to the middle of the season, far behind being clear of every mark."""
            at = drawing.x.px(number(rows[week]["x"]) + 3.5)
            clear = min((abs(at - mark) for mark in marks), default=_CLEAR_PX)
            return min(clear, _CLEAR_PX) - 0.1 * abs(week - middle)

        week = max(close, key=worth)
        text = str(warmth[week]["text"])
        half = 0.5 * text_width(text, size=_SMALL_PX) + 4.0
        at = drawing.x.px(number(rows[week]["x"]) + 3.5)
        at = min(max(at, drawing.x.start_px + half), drawing.x.end_px - half)
        colour = on_warmth(number(rows[week]["share"]))
        drawing.put(
            name,
            Mark.TEXT,
            [{**drawing.point(at, _TOP_PX + 0.5 * _STRIP_PX + 0.5), "text": text}],
            "x y text",
            color=colour,
            align="center",
            fontSize=_SMALL_PX,
        )


def _marks(drawing: Drawing, figure: Figure, first: str) -> None:
    top, foot = _TOP_PX, _TOP_PX + _STRIP_PX
    lines: dict[str, list[Row]] = {"today": [], "part": []}
    tests: list[Row] = []
    words: dict[str, list[Row]] = {"today": [], "part": [], "test": []}
    leaders: list[Row] = []
    taken: list[list[tuple[float, float]]] = [[], []]
    for row in sorted(rows_of(figure, "marks"), key=lambda row: str(row["date"])):
        kind, text = str(row["kind"]), str(row["text"])
        at = drawing.x.px(days_between(first, str(row["date"])))
        if kind == "test":
            tests.append(drawing.point(at, 0.5 * (top + foot)))
        else:
            lines[kind].append(drawing.box(at, top - 5.0, at, foot + 5.0))
        wide = text_width(text) + 1.0
        start = min(max(at - 0.5 * wide, 2.0), drawing.width - wide - 2.0)
        level = next(
            (
                level
                for level, spans in enumerate(taken)
                if all(start > end + 6.0 or start + wide < begin - 6.0 for begin, end in spans)
            ),
            None,
        )
        if level is None:
            continue  # a third mark within a few days is drawn, and told in the table of parts
        taken[level].append((start, start + wide))
        y = foot + 7.0 + LINE_PX * (level + 0.5)
        if level == 1:
            leaders.append(drawing.box(at, foot + 5.0, at, y - 6.0))
        words[kind].append({**drawing.point(start, y), "text": text})
    if not taken[1]:
        drawing.height -= LINE_PX
        drawing.y = Scale(low=0.0, high=drawing.height, start_px=0.0, end_px=drawing.height)
    drawing.put("leaders", Mark.RULE, leaders, "x y x2 y2", color=Colour.RULE, strokeWidth=0.8)
    drawing.put("today", Mark.RULE, lines["today"], "x y x2 y2", color=Colour.INK, strokeWidth=1.0)
    drawing.put("parts", Mark.RULE, lines["part"], "x y x2 y2", color=Colour.RUST, strokeWidth=2.6)
    drawing.put(
        "tests",
        Mark.POINT,
        tests,
        "x y",
        fill=Colour.PAPER,
        stroke=Colour.INK,
        strokeWidth=1.4,
        size=60.0,
    )
    for kind, colour in (("today", Colour.INK), ("part", Colour.RUST), ("test", Colour.QUIET)):
        drawing.put(
            f"{kind}_labels", Mark.TEXT, words[kind], "x y text", color=colour, align="left"
        )
