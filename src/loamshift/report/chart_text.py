"""How wide a text stands in a chart, where it breaks, and how labels keep out of each other.

Widths are those of our own sans face, rounded up, so that a text is never wider than said
here where it is drawn in that face, and rarely in any other sans.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from loamshift.report.layout import TOGETHER

TEXT_PX = 11.5
"""Size of the text in charts [px]."""
LINE_PX = 14.0
"""From one line of text to the next [px]."""

_BY_WIDTH = {
    18: "’",
    24: "'",
    26: " ijl\u00a0",
    28: "!,.:;J·",
    30: "()`",
    34: "-I[]",
    36: "f²“”₃",
    38: "/\\t{}",
    42: '"r',
    44: "?°",
    48: "csz",
    50: "–",
    52: "Fvy",
    54: "Lkx",
    56: "*EST|",
    58: "$+0123456789<=>YZ^ae~−×≥≤é",
    60: "VX",
    62: "KPbdghnopqu",
    64: "ACR",
    66: "#B",
    74: "&DGU",
    76: "HN",
    78: "½",
    80: "OQw",
    84: "%",
    90: "@",
    92: "M",
    94: "Wm",
}
_WIDTH = {letter: width / 100.0 for width, letters in _BY_WIDTH.items() for letter in letters}
_WIDEST_USUAL = 0.8
_BOLD = 1.09


@lru_cache(maxsize=16_384)
def text_width(text: str, *, size: float = TEXT_PX, bold: bool = False) -> float:
    """The width of a text, of its longest line where it has several.

    Parameters
    ----------
    text
        The text, lines parted by newlines [text].
    size
        Size of the type [px].
    bold
        True for bold type [truth].

    Returns
    -------
    float
        Width [px].
    """
    em = max(sum(_WIDTH.get(letter, _WIDEST_USUAL) for letter in line) for line in text.split("\n"))
    return em * size * (_BOLD if bold else 1.0)


def wrapped(text: str, *, width: float, lines: int = 3, size: float = TEXT_PX) -> str:
    """A text broken at its spaces into lines no wider than a width, shortened where it must be.

    Parameters
    ----------
    text
        The text [text].
    width
        Room for one line [px].
    lines
        How many lines there may be, 1 or more [count].
    size
        Size of the type [px].

    Returns
    -------
    str
        Lines parted by newlines; what does not fit ends in an ellipsis [text].
    """
    text = TOGETHER.sub("\u00a0", text)
    made = _broken(text, width, size)
    if len(made) > lines:
        made = [*made[: lines - 1], f"{made[lines - 1].rstrip(',;')} …"]
    elif len(made) > 1:
        made = _even(text, made, size)
    return "\n".join(_cut(line, width, size) for line in made)


def _broken(text: str, width: float, size: float) -> list[str]:
    made: list[str] = []
    for word in text.split(" "):
        joined = f"{made[-1]} {word}" if made else word
        if made and text_width(joined, size=size) <= width:
            made[-1] = joined
        else:
            made.append(word)
    return made


def _even(text: str, made: list[str], size: float) -> list[str]:
    """The same number of lines, as even as they can be, so that no word stands alone."""
    words = text.split(" ")
    widths = sorted(
        {
            text_width(" ".join(words[i:j]), size=size)
            for i in range(len(words))
            for j in range(i + 1, len(words) + 1)
        }
    )
    for width in widths:
        tried = _broken(text, width, size)
        if len(tried) <= len(made) and max(text_width(t, size=size) for t in tried) <= width:
            return tried
    return made


def _cut(line: str, width: float, size: float) -> str:
    if text_width(line, size=size) <= width:
        return line
    while line and text_width(f"{line}…", size=size) > width:
        line = line[:-1]
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
