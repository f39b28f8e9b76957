"""The plan of a walk with the spade, drawn in plain lines."""

from __future__ import annotations

import math
from html import escape
from typing import Final

from loamshift.domain.card import WalkPlan
from loamshift.report.typeface import SANS_STACK

WIDTH_PX: Final = 330.0
_SIDE: Final = 6.0
_FOOT: Final = 26.0
_RIGHT: Final = 62.0
_SPOT: Final = 5.0
_TEXT: Final = 13.0


def walk_svg(plan: WalkPlan) -> str:
    """A plan as SVG in one colour, that of the text around it.

    Notes
    -----
    The bed is an outline, the walk a dashed line with an arrow, each core a filled spot; nothing
    is told by colour alone.
    """
    walk = plan.walk
    across = WIDTH_PX - _SIDE - (_RIGHT if plan.across else _SIDE)
    down = across / walk.aspect
    if down > 190.0:
        across, down = across * 190.0 / down, 190.0
    height = down + _SIDE + (_FOOT if plan.along else _SIDE)

    def at(place: tuple[float, float]) -> tuple[float, float]:
        return _SIDE + place[0] * across, _SIDE + place[1] * down

    lines = []
    if walk.pot_radius is not None:
        radius = walk.pot_radius * across
        for pot in walk.pots:
            x, y = at(pot)
            lines.append(f'<circle cx="{x:.1f}" cy="{y:.1f}" r="{radius:.1f}"/>')
    else:
        lines.append(
            f'<rect x="{_SIDE}" y="{_SIDE}" width="{across:.1f}" height="{down:.1f}" rx="3"/>'
        )
    if walk.path:
        points = " ".join(f"{x:.1f},{y:.1f}" for x, y in map(at, walk.path))
        lines.append(f'<polyline points="{points}" stroke-width="1" stroke-dasharray="4 4"/>')
        lines.append(_arrow(at(walk.path[-2]), at(walk.path[-1])))
    spot = min(_SPOT, 0.3 * walk.pot_radius * across) if walk.pot_radius is not None else _SPOT
    for place in walk.spots:
        x, y = at(place)
        lines.append(f'<circle cx="{x:.1f}" cy="{y:.1f}" r="{spot:.1f}" fill="currentColor"/>')
    texts = []
    if plan.along:
        texts.append(_text(_SIDE + across / 2.0, height - 8.0, "middle", plan.along))
    if plan.across:
        texts.append(_text(_SIDE + across + 8.0, _SIDE + down / 2.0 + 4.0, "start", plan.across))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{WIDTH_PX:.0f}" height="{height:.0f}" '
        f'viewBox="0 0 {WIDTH_PX:.0f} {height:.0f}" role="img" '
        f'aria-label="{escape(plan.sentence)}">'
        f'<g fill="none" stroke="currentColor" stroke-width="1.4">{"".join(lines)}</g>'
        f"{''.join(texts)}</svg>"
    )


def _arrow(start: tuple[float, float], end: tuple[float, float]) -> str:
    """The head of an arrow at the end of a line."""
    turn = math.atan2(end[1] - start[1], end[0] - start[0])
    sides = (
        f"{end[0] - 9.0 * math.cos(turn + side):.1f},{end[1] - 9.0 * math.sin(turn + side):.1f}"
        for side in (0.4, -0.4)
    )
    return f'<polyline points="{next(sides)} {end[0]:.1f},{end[1]:.1f} {next(sides)}"/>'


def _text(x: float, y: float, anchor: str, text: str) -> str:
    family = escape(SANS_STACK, quote=True)
    return (
        f'<text x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}" font-family="{family}" '
        f'font-size="{_TEXT:.0f}" fill="currentColor">{escape(text)}</text>'
    )
