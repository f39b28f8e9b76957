"""A figure on the page: its picture for light, dark, print and phone, its sentence, its table."""

from __future__ import annotations

import json
import re
from collections.abc import Sequence
from html import escape
from importlib import resources
from typing import Final

from loamshift.domain.letter import Figure, FigureKind
from loamshift.report.drawn import drawn
from loamshift.report.html_blocks import inline_html, table_html

WIDTH_PX: Final = 664
"""How wide a picture is drawn for the column of the page."""
PHONE_PX: Final = 340
PRINT_PX: Final = 500

_LIVE: Final = (FigureKind.COURSE, FigureKind.YEAR)
"""Pictures that tell more under the pointer; the others have all they know in their labels."""
_ID: Final = re.compile(r'(\bid="|url\(#|href="#)')


def figure_html(
    figure: Figure,
    *,
    name: str,
    sources: int,
    repeated: bool = False,
    width_px: int = WIDTH_PX,
    print_px: int = PRINT_PX,
) -> str:
    """A figure with its caption, and its figures in a table that opens.

    Parameters
    ----------
    figure
        What to show [object].
    name
        Name of the figure in its page, unlike every other [text].
    sources
        How many numbered sources can be linked to [count].
    repeated
        True where the same figures stand in a table beside it, so that none has to open
        [truth].
    width_px, print_px
        How wide it is drawn for the page and for print [px].

    Returns
    -------
    str
        One element [text].
    """
    from loamshift.report.chart_tones import Tone

    sets = (
        ("on-light", Tone.LIGHT, width_px),
        ("on-dark", Tone.DARK, width_px),
        ("on-light on-phone", Tone.LIGHT, PHONE_PX),
        ("on-dark on-phone", Tone.DARK, PHONE_PX),
        ("on-print", Tone.PRINT, print_px),
    )
    pictures = "\n".join(
        f'<div class="{where}">'
        f"{_own(drawn(figure, tone=tone, width_px=width), f'{name}-{i}')}</div>"
        for i, (where, tone, width) in enumerate(sets)
    )
    opens = ""
    if not repeated:
        table = table_html(figure.table)
        opens = f"\n<details><summary>The figures in a table</summary>\n{table}\n</details>"
    return (
        f'<figure id="{name}">\n<p class="figure-title">{inline_html(figure.title)}</p>\n'
        f'<div class="picture">\n{pictures}\n</div>\n'
        f"<figcaption>{inline_html(figure.sentence, sources=sources)}</figcaption>{opens}\n"
        "</figure>"
    )


def live_data(named: Sequence[tuple[str, Figure]]) -> str:
    """What the live pictures are drawn from.

    Parameters
    ----------
    named
        Each figure of the page with its name there [text, object].

    Returns
    -------
    str
        JSON that may stand inside a page; empty where no picture would gain by it [text].
    """
    from loamshift.report.chart import chart_data, chart_spec
    from loamshift.report.chart_tones import Tone

    plans = [
        {
            "name": name,
            "tones": {
                tone.value: {
                    "spec": chart_spec(figure, tone=tone, width=WIDTH_PX, live=True),
                    "data": chart_data(figure, tone=tone, width=WIDTH_PX),
                }
                for tone in (Tone.LIGHT, Tone.DARK)
            },
        }
        for name, figure in named
        if figure.kind in _LIVE
    ]
    if not plans:
        return ""
    text = json.dumps(plans, ensure_ascii=True, separators=(",", ":"), allow_nan=False)
    return text.replace("<", "\\u003c").replace(">", "\\u003e").replace("&", "\\u0026")


def live_script() -> str:
    """The script that puts live pictures in the place of drawn ones, with all it needs [text]."""
    from loamshift.report.chart import live_bundle

    own = resources.files("loamshift.report").joinpath("letter.js").read_text(encoding="utf-8")
    return f"{live_bundle()}\n{own}"


def _own(svg: str, prefix: str) -> str:
    """A drawing whose inner names are its own, and which is one picture to a screen reader."""
    return _ID.sub(lambda found: f"{found[1]}{escape(prefix)}-", svg)
