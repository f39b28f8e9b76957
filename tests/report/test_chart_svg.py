from __future__ import annotations

import math
import re
from itertools import pairwise

import desk_tones
from loamshift.report.chart_path import Point, path_of, plainer
from loamshift.report.chart_svg import fewest_stops
from loamshift.report.chart_tones import PALETTES, Tone, tones_css

WAVE: list[Point] = [(8.23 * i, 120.0 + 60.0 * math.sin(i / 9.0)) for i in range(80)]


def drawn(path: str) -> list[Point]:
    """Where a path goes, as a browser reads it."""
    points: list[Point] = []
    x = y = 0.0
    for sign, rest in re.findall(r"([Mmlhv])([^Mmlhv]*)", path):
        steps = [float(one) for one in re.findall(r"-?(?:\d+\.\d+|\.\d+|\d+)", rest)]
        if sign == "M":
            x, y = steps
        elif sign in "ml":
            x, y = x + steps[0], y + steps[1]
        elif sign == "h":
            x += steps[0]
        else:
            y += steps[0]
        points.append((x, y))
    return points


def test_a_path_goes_where_it_was_told_to_a_tenth_and_no_error_adds_up() -> None:
    there = drawn(path_of([WAVE]))
    assert len(there) == len(WAVE)
    for (x, y), (told_x, told_y) in zip(there, WAVE, strict=True):
        assert abs(x - told_x) < 0.051 and abs(y - told_y) < 0.051


def test_each_line_of_a_path_has_its_two_ends() -> None:
    lines = [[(0.0, 5.0), (100.0, 5.0)], [(0.0, 9.5), (100.0, 9.5)], [(3.0, 0.0), (3.0, 7.0)]]
    there = drawn(path_of(lines))
    ends = [frozenset(there[i : i + 2]) for i in range(0, len(there), 2)]
    assert ends == [frozenset(line) for line in lines]


def test_a_plainer_line_has_fewer_points_and_looks_the_same() -> None:
    assert len(plainer(WAVE)) < len(WAVE)
    kept = plainer(WAVE, unseen=0.5)
    assert kept[0] == WAVE[0] and kept[-1] == WAVE[-1]
    assert len(kept) < len(WAVE) / 2
    for x, y in WAVE:
        (x0, y0), (x1, y1) = next(pair for pair in pairwise(kept) if pair[0][0] <= x <= pair[1][0])
        assert abs(y0 + (y1 - y0) * (x - x0) / (x1 - x0) - y) <= 0.5
    assert plainer(WAVE[::-1], unseen=0.5) == kept[::-1]


def test_few_stops_show_the_warmth_where_it_was() -> None:
    year = [(10.0 * week, 0.55 + 0.45 * math.cos(week / 8.3)) for week in range(53)]
    kept = fewest_stops(year)
    assert kept[0] == year[0] and kept[-1] == year[-1] and len(kept) < 20
    for x, share in year:
        (x0, low), (x1, high) = next(p for p in pairwise(kept) if p[0][0] <= x <= p[1][0])
        assert abs(low + (high - low) * (x - x0) / (x1 - x0) - share) <= 0.02


def test_the_desk_has_the_colours_of_the_charts_as_the_tool_writes_them() -> None:
    desk = desk_tones.SHEET.read_text(encoding="utf-8")
    assert desk_tones.with_tones(desk) == desk


def test_a_style_sheet_has_every_colour_of_every_tone() -> None:
    told = [
        dict(re.findall(r"--p-([\w-]+): ([^;]+);", rule))
        for rule in re.findall(r"\.chart \{([^}]*--p-[^}]*)\}", tones_css())
    ]
    assert told == [
        {colour.value: (value or "transparent").lower() for colour, value in PALETTES[tone].items()}
        for tone in (Tone.LIGHT, Tone.DARK, Tone.PRINT)
    ]
