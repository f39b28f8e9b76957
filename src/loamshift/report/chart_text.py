"""How wide a text stands in a chart, where it breaks, and how labels keep out of each other.

Widths are those of our own sans face, which ``tools/type/build.py`` writes down, so that a text
drawn in that face is as wide as said here but for kerning, and rarely wider in any other sans.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Sequence
from functools import cache, lru_cache
from importlib import resources
from typing import Final

from loamshift.report import type as type_files
from loamshift.report.layout import TOGETHER

TEXT_PX: Final = 12.0
"""Size of the text in charts, 9 pt where one is printed as it was drawn [px]."""
LINE_PX: Final = 15.0
"""From one line of text to the next [px]."""

_OTHER, _WIDE, _PICTURE = 0.8, 1.05, 1.4
"""Widths of what our face does not have: other alphabets, wide scripts, pictures [em]."""
_PICTURES_FROM: Final = 0x1F000
_JOINER: Final = "\u200d"


@lru_cache(maxsize=16_384)
def text_width(text: str, *, size: float = TEXT_PX, bold: bool = False) -> float:
    """The width of a text, of its longest line where it has several.

    Parameters
    ----------
    text
        The text, lines parted by newlines.
    size
        Size of the type [px].

    Returns
    -------
    float
        Width [px].
    """
    face = 1 if bold else 0
    return max(sum(_em(letter, face) for letter in line) for line in text.split("\n")) * size


def _em(letter: str, face: int) -> float:
    known = _widths().get(letter)
    if known is not None:
        return known[face]
    if unicodedata.category(letter)[0] in "MC":
        return 0.0
    if ord(letter) >= _PICTURES_FROM:
        return _PICTURE
    return _WIDE if unicodedata.east_asian_width(letter) in "WF" else _OTHER


@cache
def _widths() -> dict[str, tuple[float, float]]:
    """Upright and bold width of each character of our face [em]."""
    lines = resources.files(type_files).joinpath("widths.txt").read_text(encoding="ascii")
    found: dict[str, tuple[float, float]] = {}
    for line in lines.splitlines():
        upright, bold, first, last = line.split()
        pair = int(upright) / 1000.0, int(bold) / 1000.0
        found |= {chr(code): pair for code in range(int(first, 16), int(last, 16) + 1)}
    return found


def wrapped(
    text: str, *, width: float, lines: int = 3, size: float = TEXT_PX, bold: bool = False
) -> str:
    """A text broken at its spaces into lines no wider than a width, shortened where it must be.

    Parameters
    ----------
    width
        Room for one line [px].
    lines
        How many lines there may be, 1 or more [count].
    size
        Size of the type [px].

    Returns
    -------
    str
        Lines parted by newlines; what does not fit ends in an ellipsis.
    """
    text = TOGETHER.sub("\u00a0", text)
    made = _broken(text, width, size, bold)
    if len(made) > lines:
        made = [*made[: lines - 1], f"{made[lines - 1].rstrip(',;')} …"]
    elif len(made) > 1:
        made = _even(text, made, size, bold)
    return "\n".join(_cut(line, width, size, bold) for line in made)


def widest_word(text: str, *, size: float = TEXT_PX, bold: bool = False) -> float:
    """The width of the longest piece of a text that no line may break [px]."""
    words = TOGETHER.sub("\u00a0", text).split(" ")
    return max(text_width(word, size=size, bold=bold) for word in words)


def _broken(text: str, width: float, size: float, bold: bool) -> list[str]:
    made: list[str] = []
    for word in text.split(" "):
        joined = f"{made[-1]} {word}" if made else word
        if made and text_width(joined, size=size, bold=bold) <= width:
            made[-1] = joined
        else:
            made.append(word)
    return made


def _even(text: str, made: list[str], size: float, bold: bool) -> list[str]:
    """The same number of lines, as even as they can be, so that no word stands alone."""
    words = text.split(" ")
    widths = sorted(
        {
            text_width(" ".join(words[i:j]), size=size, bold=bold)
            for i in range(len(words))
            for j in range(i + 1, len(words) + 1)
        }
    )
    for width in widths:
        tried = _broken(text, width, size, bold)
        if (
            len(tried) <= len(made)
            and max(text_width(t, size=size, bold=bold) for t in tried) <= width
        ):
            return tried
    return made


def _cut(line: str, width: float, size: float, bold: bool) -> str:
    if text_width(line, size=size, bold=bold) <= width:
        return line
    while line and text_width(f"{line}…", size=size, bold=bold) > width:
        line = line[:-1]
    while line and (line[-1] == _JOINER or unicodedata.category(line[-1])[0] in "MC"):
        line = line[:-1]  # never half a character of several signs
    return f"{line.rstrip(' …')}…"


def spread(
    wanted: Sequence[float], heights: Sequence[float], *, low: float, high: float
) -> list[float]:
    """Middles of labels as near as can be to where they belong, none over another.

    Parameters
    ----------
    wanted
        Where the middle of each label belongs [px].
    heights
        How much room each takes [px].
    low
        Least position of the edge of any label [px].
    high
        Greatest position of the edge of any label [px].

    Returns
    -------
    list of float
        Middles, in the order given; order on the line is kept [px].
    """
    order = sorted(range(len(wanted)), key=lambda i: (wanted[i], i))
    groups: list[list[int]] = []
    starts: list[float] = []
    for index in order:
        groups.append([index])
        starts.append(_start([index], wanted, heights, low, high))
        while len(groups) > 1 and starts[-1] < starts[-2] + _height(groups[-2], heights):
            last = groups.pop()
            starts.pop()
            groups[-1] += last
            starts[-1] = _start(groups[-1], wanted, heights, low, high)
    middles = [0.0] * len(wanted)
    for group, start in zip(groups, starts, strict=True):
        top = start
        for index in group:
            middles[index] = top + 0.5 * heights[index]
            top += heights[index]
    return middles


def _height(group: Sequence[int], heights: Sequence[float]) -> float:
    return sum(heights[index] for index in group)


def _start(
    group: Sequence[int],
    wanted: Sequence[float],
    heights: Sequence[float],
    low: float,
    high: float,
) -> float:
    """Top of a pile of labels whose middles together are nearest to where they belong."""
    above, best = 0.0, 0.0
    for index in group:
        best += wanted[index] - above - 0.5 * heights[index]
        above += heights[index]
    return max(low, min(high - above, best / len(group)))
