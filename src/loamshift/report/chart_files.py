"""The charts of a letter as files: their names and their bytes, for a door to write."""

from __future__ import annotations

from collections.abc import Iterable

from loamshift.domain.letter import Figure, FigureKind, Letter
from loamshift.report.chart import PAGE_WIDTH_PX, chart_png, chart_svg
from loamshift.report.chart_png import png_of
from loamshift.report.chart_talk import ChartSize, talk_svg
from loamshift.report.chart_tones import PALETTES, Tone

FORMATS = ("svg", "png")
"""Endings of the files that charts can be written to."""


def letter_figures(letter: Letter) -> tuple[Figure, ...]:
    """The figures of a letter, in reading order."""
    return tuple(
        block
        for section in letter.sections
        for block in section.blocks
        if isinstance(block, Figure)
    )


def chart_file(
    figure: Figure,
    *,
    ending: str,
    tone: Tone = Tone.LIGHT,
    width: int = PAGE_WIDTH_PX,
    size: ChartSize | None = None,
    source: str = "",
    told: str = "",
) -> bytes:
    """One figure as the bytes of a file.

    Parameters
    ----------
    width
        Width of the picture, 280 or more; a size has its own [px].
    size
        A picture for a talk or a class, with title, sentence and source in it; None for the
        chart alone.

    Raises
    ------
    ValueError
        For another ending.
    """
    if ending not in FORMATS:
        raise ValueError(f"charts are written as {' or '.join(FORMATS)}, not as {ending!r}")
    if size is not None:
        svg = talk_svg(figure, size=size, colours=PALETTES[tone], source=source, told=told)
        return f"{svg}\n".encode() if ending == "svg" else png_of(svg, scale=1.0)
    if ending == "svg":
        return (chart_svg(figure, tone=tone, width=width) + "\n").encode("utf-8")
    return chart_png(figure, tone=tone, width=width)


def chart_files(
    figures: Iterable[Figure],
    *,
    ending: str = "svg",
    kind: FigureKind | None = None,
    tone: Tone = Tone.LIGHT,
    width: int = PAGE_WIDTH_PX,
) -> dict[str, bytes]:
    """Figures as files by name: ``course.svg``, ``ledger.svg`` and so on.

    Parameters
    ----------
    kind
        The only kind wanted, or all of them for None.
    width
        Width of each picture, 280 or more [px].

    Returns
    -------
    dict
        Bytes by file name, in the order given; empty where no figure is of the kind.

    Raises
    ------
    ValueError
        For another ending.
    """
    return {
        f"{figure.kind.value}.{ending}": chart_file(figure, ending=ending, tone=tone, width=width)
        for figure in figures
        if kind is None or figure.kind is kind
    }
