from __future__ import annotations

import math
import re
from importlib import resources
from itertools import pairwise

import pytest

from loamshift.report.chart_tones import PALETTES, Tone
from loamshift.web.picture import colours
from loamshift.web.picture_ground import ground
from loamshift.web.picture_path import UNSEEN_PX, Point, path_of, plainer

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
    kept = plainer(WAVE)
    assert kept[0] == WAVE[0] and kept[-1] == WAVE[-1]
    assert len(kept) < len(WAVE) / 2
    for x, y in WAVE:
        (x0, y0), (x1, y1) = next(pair for pair in pairwise(kept) if pair[0][0] <= x <= pair[1][0])
        assert abs(y0 + (y1 - y0) * (x - x0) / (x1 - x0) - y) <= UNSEEN_PX
    assert plainer(WAVE[::-1]) == kept[::-1]


def test_a_ground_shows_its_colours_where_they_were() -> None:
    shades = [f"#{64 + min(i, 20) * 8:02X}4040" for i in range(40)]
    blocks = [(10.0 * i, 10.0 * i + 10.0, shade, shade) for i, shade in enumerate(shades)]
    told = ground(blocks, top=2.0, foot=12.0)
    stops = [
        (float(at), int(light[1:3], 16))
        for at, light in re.findall(r'offset="([\d.]+)" stop-color="light-dark\((#\w+),', told)
    ]
    assert len(stops) < 8 and stops[0][0] == 0.0 and stops[-1][0] == 1.0
    for left, right, light, _dark in blocks[1:-1]:
        at = (left + right) / 2.0 / 400.0
        (x0, red0), (x1, red1) = next(p for p in pairwise(stops) if p[0][0] <= at <= p[1][0])
        assert abs(red0 + (red1 - red0) * (at - x0) / (x1 - x0) - int(light[1:3], 16)) < 10.0


def test_every_colour_of_a_picture_is_in_the_style_sheet() -> None:
    style = resources.files("loamshift.web").joinpath("static/loamshift/desk.css").read_text()
    told = {
        name: (light, dark)
        for name, light, dark in re.findall(r"--p-([\w-]+): light-dark\((#\w+), (#\w+)\);", style)
    }
    assert told == {name: pair for pair, name in colours().items()}


@pytest.mark.parametrize("name", ["ink", "quiet", "rust", "hatch"])
def test_colours_are_those_of_the_charts(name: str) -> None:
    pair = getattr(PALETTES[Tone.LIGHT], name), getattr(PALETTES[Tone.DARK], name)
    assert colours()[pair] == name
