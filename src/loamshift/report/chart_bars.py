"""Drawing bars on one line: acid to the right, lime to the left, words at both ends."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from loamshift.domain.letter import Figure
from loamshift.report.chart_drawing import Drawing, Mark, Row, Scale, number, rows_of
from loamshift.report.chart_text import LINE_PX, text_width, widest_word, wrapped
from loamshift.report.chart_tones import Colour

_HEAD_PX: Final = 20.0
_BAR_PX: Final = 12.0
_ROW_PX: Final = 23.0
_GAP_PX: Final = 8.0
_SIDE_PX: Final = 4.0
_SUM_PX: Final = 6.0
_NAME_SHARE: Final = 0.36
_SAID_SHARES: Final = (0.6, 0.45, 0.36, 0.28)
"""Share of the width that the figures at the bars' ends may take, the most first."""
_LEAST_SHARE: Final = 0.3
"""Share of the width below which the longest bar is not pressed for the sake of words."""
_ROUNDS: Final = 50


@dataclass(frozen=True, slots=True)
class _Bar:
    kind: str
    name: str
    value: float
    said: str
    middle: float

    @property
    def bold(self) -> bool:
        return self.kind in ("sum", "need")

    @property
    def name_px(self) -> float:
        return text_width(self.name, bold=self.bold) + _GAP_PX

    @property
    def said_px(self) -> float:
        return text_width(self.said, bold=self.bold) + _GAP_PX


def draw_bars(figure: Figure, *, width: float) -> Drawing:
    """The ledger or the claims as marks.

    Parameters
    ----------
    width
        Width of the picture [px].
    """
    bars, height = _laid_out(figure, width)
    zero, per_unit = _place_of_zero(bars, width - 2.0 * _SIDE_PX)
    largest = max(abs(bar.value) for bar in bars)
    zero += _SIDE_PX
    drawing = Drawing(
        width=width,
        height=height,
        x=Scale(low=0.0, high=largest, start_px=zero, end_px=zero + largest * per_unit),
        y=Scale(low=0.0, high=height, start_px=0.0, end_px=height),
    )
    labels = dict(figure.labels)
    _reach(drawing, bars)
    _rectangles(drawing, bars)
    drawing.put(
        "zero",
        Mark.RULE,
        [drawing.box(zero, _HEAD_PX - 4.0, zero, height - 3.0)],
        "x y x2 y2",
        color=Colour.INK,
        strokeWidth=0.9,
    )
    _words(drawing, bars)
    sides = (("left", -_GAP_PX, "right", -1.0), ("right", _GAP_PX, "left", 1.0))
    for side, offset, align, sign in sides:
        used = any(bar.value * sign > 0.0 for bar in bars)
        room = zero if side == "left" else width - zero
        text = labels[side]
        shown = used and text_width(text) + _GAP_PX + 2.0 < room
        drawing.put(
            f"way_{side}",
            Mark.TEXT,
            [{**drawing.point(zero + offset, 8.0), "text": text}] if shown else [],
            "x y text",
            color=Colour.QUIET,
            align=align,
        )
    return drawing


def _laid_out(figure: Figure, width: float) -> tuple[list[_Bar], float]:
    """Bars with their words, broken into lines no more than the bars' length asks for."""
    for share in _SAID_SHARES:
        bars, height = _rows(figure, width, said_px=share * width)
        longest = max(abs(bar.value) for bar in bars)
        if longest * _place_of_zero(bars, width - 2.0 * _SIDE_PX)[1] >= _LEAST_SHARE * width:
            break
    return bars, height


def _rows(figure: Figure, width: float, *, said_px: float) -> tuple[list[_Bar], float]:
    bars: list[_Bar] = []
    top = _HEAD_PX
    for row in rows_of(figure, figure.data[0].name):
        kind = str(row["kind"])
        shrink = 1.09 if kind in ("sum", "need") else 1.0
        name = wrapped(str(row["name"]), width=_NAME_SHARE * width / shrink)
        bold = kind in ("sum", "need")
        least = min(widest_word(str(row["said"]), bold=bold), _SAID_SHARES[0] * width)
        said = wrapped(str(row["said"]), width=max(said_px / shrink, least), bold=bold)
        value = next(number(v) for key, v in row.items() if key.startswith("acid_"))
        lines = 1 + max(name.count("\n"), said.count("\n"))
        room = max(_ROW_PX, LINE_PX * lines + 7.0)
        if kind == "sum":
            top += _SUM_PX
        bars.append(_Bar(kind, name, value, said, top + 0.5 * room))
        top += room
        if kind == "need":
            top += 2.0
    return bars, top + 3.0


def _place_of_zero(bars: list[_Bar], width: float) -> tuple[float, float]:
    """Where the line stands [px] and how long a unit is [px], so that every word has room."""

    def sides(per_unit: float) -> tuple[float, float]:
        left, right = _GAP_PX, _GAP_PX
        for bar in bars:
            long = abs(bar.value) * per_unit + bar.said_px
            if bar.value < 0.0:
                left, right = max(left, long), max(right, bar.name_px)
            else:
                left, right = max(left, bar.name_px), max(right, long)
        return left, right

    low, high = 0.0, width / max(abs(bar.value) for bar in bars)
    for _ in range(_ROUNDS):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if sum(sides(middle)) <= width else (low, middle)
    left, right = sides(low)
    return left + 0.5 * max(0.0, width - left - right), low


def _reach(drawing: Drawing, bars: list[_Bar]) -> None:
    """A line down from the end of what is needed, for the others to be held against."""
    rows: list[Row] = []
    need = next((bar for bar in bars if bar.kind == "need"), None)
    if need is not None:
        at, top = drawing.x.px(need.value), need.middle + 0.5 * _BAR_PX
        for bar, foot in zip(bars[1:], _feet(bars[1:], drawing.height), strict=True):
            end = drawing.x.px(bar.value)
            reach = end + bar.said_px if bar.value >= 0.0 else end - bar.said_px
            if not min(end, reach) - 2.0 < at < max(end, reach) + 2.0:
                rows.append(drawing.box(at, top, at, foot))
            top = foot
    drawing.put(
        "reach",
        Mark.RULE,
        rows,
        "x y x2 y2",
        color=Colour.QUIET,
        strokeWidth=0.8,
        strokeDash=(1.0, 3.0),
    )


def _feet(bars: list[_Bar], height: float) -> list[float]:
    """Where the room of each row ends [px]."""
    middles = [bar.middle for bar in bars]
    return [*(0.5 * (a + b) for a, b in pairwise(middles)), height - 3.0]


def _rectangles(drawing: Drawing, bars: list[_Bar]) -> None:
    fills: dict[str, list[Row]] = {"acid": [], "base": [], "need_acid": [], "need_base": []}
    hatch: list[Row] = []
    for bar in bars:
        side = "acid" if bar.value >= 0.0 else "base"
        top, foot = bar.middle - 0.5 * _BAR_PX, bar.middle + 0.5 * _BAR_PX
        row: Row = {"x": 0.0, "x2": bar.value, "y": top, "y2": foot}
        fills[f"need_{side}" if bar.kind == "need" else side].append(row)
        if side == "base" and bar.kind != "need":
            hatch.append(row)
    for name, rows in fills.items():
        needed = name.startswith("need")
        acid = name.endswith("acid")
        edge = Colour.ACID if acid else Colour.BASE
        field = Colour.FIELD_ACID if acid else Colour.FIELD_BASE
        solid = Colour.BAR_ACID if acid else Colour.BAR_BASE
        drawing.put(
            f"bars_{name}",
            Mark.RECT,
            rows,
            "x y x2 y2",
            fill=field if needed else solid,
            stroke=edge if needed else Colour.OUTLINE,
            strokeWidth=1.0,
        )
    drawing.put("hatch", Mark.HATCH, hatch, "x y x2 y2", color=Colour.LINED, step=4.0)


def _words(drawing: Drawing, bars: list[_Bar]) -> None:
    words: dict[tuple[str, bool, Colour], list[Row]] = {}
    for bar in bars:
        way = -1.0 if bar.value < 0.0 else 1.0
        zero, end = drawing.x.px(0.0), drawing.x.px(bar.value)
        names, saids = ("left", "right") if way < 0.0 else ("right", "left")
        said_colour = Colour.INK if bar.bold else Colour.QUIET
        for at, text, align, colour in (
            (zero - way * _GAP_PX, bar.name, names, Colour.INK),
            (end + way * _GAP_PX * 0.8, bar.said, saids, said_colour),
        ):
            top = bar.middle - 0.5 * LINE_PX * text.count("\n") + 0.5
            words.setdefault((align, bar.bold, colour), []).append(
                {**drawing.point(at, top), "text": text}
            )
    for index, ((align, bold, colour), rows) in enumerate(sorted(words.items())):
        drawing.put(
            f"words_{index}",
            Mark.TEXT,
            rows,
            "x y text",
            color=colour,
            align=align,
            fontWeight="bold" if bold else None,
        )
