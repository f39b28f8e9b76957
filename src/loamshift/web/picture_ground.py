"""The ground of a strip along the year: a run of colours as one gradient, for light and dark."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from loamshift.web.picture_path import path_of

Block = tuple[float, float, str, str]
"""Left and right [px], colour on paper and colour in the dark [#RRGGBB]."""
UNSEEN: Final = 6
"""Colours that differ by no more than this in red, green or blue look alike [of 255]."""


def ground(blocks: Sequence[Block], *, top: float, foot: float) -> str:
    """A band of colours that pass into each other.

    Parameters
    ----------
    blocks
        The colours from left to right [objects].
    top
        Upper edge [px].
    foot
        Lower edge [px].

    Returns
    -------
    str
        A gradient of few stops, and the band that is filled with it [text].
    """
    left, right = blocks[0][0], blocks[-1][1]
    name = f"ground-{round(right - left)}"
    stops = "".join(
        f'<stop offset="{_share((x - left) / (right - left))}" '
        f'stop-color="light-dark({light},{dark})"/>'
        for x, light, dark in _stops(list(_places(blocks)))
    )
    across = path_of([[(left, top), (right, top), (right, foot), (left, foot)]])
    return (
        f'<linearGradient id="{name}">{stops}</linearGradient>'
        f'<path fill="url(#{name})" d="{across}z"/>'
    )


def _places(blocks: Sequence[Block]) -> Iterator[tuple[float, str, str]]:
    """Each colour at the middle of its block; at both ends of a run of one colour."""
    before: Block | None = None
    for at, (left, right, light, dark) in enumerate(blocks):
        after = blocks[at + 1] if at + 1 < len(blocks) else None
        if before is not None and after is not None and before[2] == light == after[2]:
            pass
        elif before is None:
            yield left, light, dark
        elif after is None:
            yield right, light, dark
        else:
            yield (left + right) / 2.0, light, dark
        before = (left, right, light, dark)


def _stops(places: list[tuple[float, str, str]]) -> list[tuple[float, str, str]]:
    """The fewest places between which the others lie as near as can be seen."""
    shades = [_shade(light) + _shade(dark) for _x, light, dark in places]
    kept = {0, len(places) - 1}
    spans = [(0, len(places) - 1)]
    while spans:
        first, last = spans.pop()
        x0, x1 = places[first][0], places[last][0]
        worst, at = 0.0, first
        for i in range(first + 1, last):
            share = (places[i][0] - x0) / (x1 - x0)
            off = max(
                abs(here - a - share * (b - a))
                for here, a, b in zip(shades[i], shades[first], shades[last], strict=True)
            )
            worst, at = max((worst, at), (off, i))
        if worst > UNSEEN:
            kept.add(at)
            spans += [(first, at), (at, last)]
    return [places[i] for i in sorted(kept)]


def _shade(colour: str) -> tuple[int, ...]:
    return tuple(int(colour[i : i + 2], 16) for i in (1, 3, 5))


def _share(value: float) -> str:
    return f"{value:.3f}".rstrip("0").rstrip(".").removeprefix("0") or "0"
