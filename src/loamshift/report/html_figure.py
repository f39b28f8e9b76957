"""A figure on the page: its picture for light, dark and print, its sentence, its table."""

from __future__ import annotations

import re
from collections.abc import Sequence
from html import escape
from typing import Final

from loamshift.domain.letter import Figure
from loamshift.report.html_blocks import inline_html, table_html
from loamshift.report.words import Words

WIDTH_PX: Final = 660
"""How wide a picture is drawn; the column of the page is a little wider."""


def figure_html(figure: Figure, *, name: str, sources: int) -> str:
    """A figure with its caption, and its figures in a table that opens.

    Parameters
    ----------
    figure
        What to show [object].
    name
        Name of the figure in its page, unlike every other [text].
    sources
        How many numbered sources can be linked to [count].

    Returns
    -------
    str
        One element [text].
    """
    table = table_html(figure.table)
    caption = f"<figcaption>{inline_html(figure.sentence, sources=sources)}</figcaption>"
    pictures = _pictures(figure, name)
    if not pictures:
        return f"<figure>\n{table}\n{caption}\n</figure>"
    return (
        f'<figure id="{name}">\n{pictures}\n{caption}\n'
        f"<details><summary>The figures</summary>\n{table}\n</details>\n</figure>"
    )


def live_script(figures: Sequence[Figure], *, words: Words) -> str:
    """The script [text] that makes the pictures of these figures [object] live; may be empty."""
    return ""


def _pictures(figure: Figure, name: str) -> str:
    return ""


_ID: Final = re.compile(r'\b(id="|url\(#|href="#)')


def own_names(svg: str, prefix: str) -> str:
    """A drawing [text] whose inner names start with a prefix [text], unlike its neighbours'."""
    return _ID.sub(lambda found: f"{found[1]}{escape(prefix)}-", svg)
