"""A chart before it is written out: two straight scales and layers of plain marks.

Positions are in the units of the scales; a place known in pixels is turned into them by the
scale. Colours are named, so that one drawing serves paper, the dark and print.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from enum import StrEnum

from loamshift.domain.letter import Figure

Row = dict[str, str | float]


class Mark(StrEnum):
    """What a layer is drawn with."""

    AREA = "area"
    LINE = "line"
    RULE = "rule"
    RECT = "rect"
    TEXT = "text"
    POINT = "point"
    HATCH = "hatch"
    """A box filled with slanting lines, one ``step`` apart [px]."""
    WARMTH = "warmth"
    """A run of blocks that pass into each other, each with its share of one hue."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Scale:
    """A straight scale: values from ``low`` to ``high`` lie between two pixels."""

    low: float
    high: float
    start_px: float
    end_px: float

    def px(self, value: float) -> float:
        """Where a value [unit of the scale] lies [px]."""
        share = (value - self.low) / (self.high - self.low)
        return self.start_px + share * (self.end_px - self.start_px)

    def at(self, px: float) -> float:
        """The value [unit of the scale] that lies at a place [px]."""
        share = (px - self.start_px) / (self.end_px - self.start_px)
        return round(self.low + share * (self.high - self.low), 6)


@dataclass(frozen=True, slots=True, kw_only=True)
class Layer:
    """Marks of one look: their name, their rows, and the look itself.

    ``fields`` names the column behind each channel (x, y, x2, y2, text, share).
    """

    name: str
    mark: Mark
    rows: tuple[Row, ...]
    fields: tuple[tuple[str, str], ...]
    style: tuple[tuple[str, str | float | bool | tuple[float, ...]], ...]


@dataclass(slots=True, kw_only=True)
class Drawing:
    """A picture of ``width`` by ``height`` [px] with one scale each way."""

    width: float
    height: float
    x: Scale
    y: Scale
    layers: list[Layer] = field(default_factory=list)

    def put(
        self,
        name: str,
        mark: Mark,
        rows: Sequence[Row],
        fields: str,
        **style: str | float | bool | tuple[float, ...] | None,
    ) -> None:
        """Add a layer; ``fields`` are channels, each with its column (``x y=q50``).

        A layer without rows is added too, and draws nothing.
        """
        channels = tuple(
            (channel, column or channel)
            for channel, _, column in (part.partition("=") for part in fields.split())
        )
        look = tuple((key, value) for key, value in style.items() if value is not None)
        self.layers.append(
            Layer(name=name, mark=mark, rows=tuple(rows), fields=channels, style=look)
        )

    def point(self, x_px: float, y_px: float) -> Row:
        """A row at a place in pixels [px]."""
        return {"x": self.x.at(x_px), "y": self.y.at(y_px)}

    def box(self, x_px: float, y_px: float, x2_px: float, y2_px: float) -> Row:
        """A row from one place to another in pixels [px]."""
        return {
            "x": self.x.at(x_px),
            "y": self.y.at(y_px),
            "x2": self.x.at(x2_px),
            "y2": self.y.at(y2_px),
        }


def rows_of(figure: Figure, name: str) -> list[dict[str, str | float | None]]:
    """The rows of one set of data of a figure as columns with values."""
    data = next(data for data in figure.data if data.name == name)
    return [dict(zip(data.columns, row, strict=True)) for row in data.rows]


def number(value: str | float | None) -> float:
    """A value of a column of numbers [any unit]."""
    assert isinstance(value, (int, float))
    return float(value)
