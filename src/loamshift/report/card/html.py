"""A card as one HTML file: on a phone in the field, or printed from there on one sheet."""

from __future__ import annotations

import base64
import hashlib
from collections.abc import Iterator
from html import escape
from importlib import resources

from loamshift.domain.card import (
    Blanks,
    Card,
    CardBlock,
    Choices,
    Chores,
    Log,
    Part,
    WalkPlan,
)
from loamshift.domain.letter import Figure, Paragraph, Table
from loamshift.report.card.data import HALF_PX
from loamshift.report.card.pdf import fitted
from loamshift.report.card.shorter import stacked
from loamshift.report.card.walk import walk_svg
from loamshift.report.chart_tones import tones_css
from loamshift.report.html import LANGUAGES
from loamshift.report.html_blocks import block_html, inline_html, table_html
from loamshift.report.html_figure import WIDTH_PX, figure_html
from loamshift.report.inline import bare
from loamshift.report.pdf import PaperSize
from loamshift.report.typeface import font_faces_css
from loamshift.report.words import Words

_SHEETS = {PaperSize.A4: "A4", PaperSize.LETTER: "letter"}
_LONG_TITLE = 60
_LEAST_PT = 10.0
"""A browser sets a page a little wider than the press, so the smallest may be smaller too [pt]."""
_HTML_LINES = 4
"""Lines to write on that a page keeps fewer than the sheet set for print."""


def card_html(card: Card, *, paper: PaperSize, words: Words) -> str:
    """A card as one self-contained page.

    Notes
    -----
    It holds as much as fits on the sheet, so that it prints on one.
    """
    fit = fitted(card, paper=paper, words=words)
    size = (
        f"@page{{size:{_SHEETS[paper]};margin:9mm 14mm}}"
        f":root{{--size:{max(fit.size_pt - 1.0, _LEAST_PT)}pt;--gaps:{fit.gaps};"
        f"--title:{_title_pt(card.title)}pt}}"
    )
    style = f"{font_faces_css()}\n{tones_css()}{_css('letter.css')}\n{_css('card.css')}\n{size}"
    lines = max(fit.lines - _HTML_LINES, 0)
    names = iter(range(1, 1000))
    rows = "\n".join(
        '<div class="row">\n'
        + "".join(_column(column, names, lines, half=len(row) > 1) for column in row)
        + "</div>"
        for row in stacked(fit.card)
    )
    about = f'<p class="about">{inline_html(card.subtitle)}</p>' if card.subtitle else ""
    digest = base64.b64encode(hashlib.sha256(style.encode("utf-8")).digest()).decode("ascii")
    policy = (
        f"default-src 'none'; style-src 'sha256-{digest}'; font-src data:; img-src data:; "
        "script-src 'none'; base-uri 'none'; form-action 'none'"
    )
    return (
        f'<!doctype html>\n<html lang="{LANGUAGES[words.spelling]}">\n<head>\n'
        f'<meta charset="utf-8">\n<meta http-equiv="Content-Security-Policy" content="{policy}">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        '<meta name="referrer" content="no-referrer">\n'
        f"<title>{escape(bare(card.title))}</title>\n<style>{style}</style>\n</head>\n"
        f'<body class="card">\n<article>\n<header>\n'
        f"<h1><bdi>{inline_html(fit.card.title)}</bdi></h1>\n"
        f"{about}\n"
        f'</header>\n<p class="lead">{inline_html(bare(card.lead))}</p>\n{rows}\n'
        f'<p class="colophon">{inline_html(fit.card.closing)}</p>\n</article>\n</body>\n</html>\n'
    )


def _title_pt(title: str) -> int:
    """Size of a title in print: a long name is set smaller [pt]."""
    return 21 if len(title) < _LONG_TITLE else 14


def _css(name: str) -> str:
    return resources.files("loamshift.report").joinpath(name).read_text(encoding="utf-8")


def _column(parts: tuple[Part, ...], names: Iterator[int], lines: int, *, half: bool) -> str:
    inside = "".join(_part(part, names, lines, half=half) for part in parts)
    return f'<div class="stack">\n{inside}</div>\n'


def _part(part: Part, names: Iterator[int], lines: int, *, half: bool) -> str:
    heading = f"<h2>{inline_html(part.heading)}</h2>\n" if part.heading else ""
    captions = {block.sentence for block in part.blocks if isinstance(block, Figure)}
    shown = [
        block
        for block in part.blocks
        if not (isinstance(block, Paragraph) and block.text in captions)  # under its figure
    ]
    blocks = "\n".join(_block(block, names, lines, half=half) for block in shown)
    return f'<div class="part{" warned" if part.care else ""}">\n{heading}{blocks}\n</div>\n'


def _block(block: CardBlock, names: Iterator[int], lines: int, *, half: bool) -> str:
    match block:
        case Chores(table):
            return f'<div class="chores">{table_html(table)}</div>'
        case Choices(texts):
            items = "".join(f"<li>{inline_html(text)}</li>" for text in texts)
            return f'<ul class="choices">{items}</ul>'
        case Blanks(known):
            said = "".join(
                f"<dt>{inline_html(label)}</dt><dd>{inline_html(text)}</dd>"
                for label, text in known
            )
            return f'<dl class="blanks">{said}</dl>'
        case Log(columns, fewest, most):
            return _log(columns, min(fewest + lines, most))
        case WalkPlan():
            return f'<figure class="walk">{walk_svg(block)}</figure>'
        case Figure():
            width = HALF_PX if half else WIDTH_PX
            return figure_html(
                block,
                name=f"picture-{next(names)}",
                sources=0,
                repeated=True,
                width_px=width,
            )
        case Table():
            return table_html(block)
    return block_html(block, sources=0)


def _log(columns: tuple[str, ...], count: int) -> str:
    head = "".join(f'<th scope="col">{inline_html(title)}</th>' for title in columns)
    row = "<tr>" + "<td></td>" * len(columns) + "</tr>"
    return f'<table class="log"><thead><tr>{head}</tr></thead><tbody>{row * count}</tbody></table>'
