"""Figures drawn: one Vega-Lite specification of each kind for page, print and file."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import cache
from html import escape
from types import MappingProxyType
from typing import TYPE_CHECKING, Any, Final

from loamshift.domain.letter import Figure, FigureKind
from loamshift.report.chart_bars import draw_bars
from loamshift.report.chart_course import draw_course
from loamshift.report.chart_dose import draw_dose
from loamshift.report.chart_drawing import Drawing, Layer, Mark, Row
from loamshift.report.chart_history import draw_history
from loamshift.report.chart_options import draw_options
from loamshift.report.chart_text import LINE_PX, TEXT_PX
from loamshift.report.chart_tones import PALETTES, Palette, Tone
from loamshift.report.chart_year import draw_year
from loamshift.report.typeface import SANS_STACK, register_fonts

if TYPE_CHECKING:
    import altair as alt

PAGE_WIDTH_PX: Final = 620
"""A column of text on a page, 37 em of 17 px."""
PHONE_WIDTH_PX: Final = 340
PRINT_WIDTH_PX: Final = 624
"""165 mm at 96 px to the inch."""
NARROWEST_PX: Final = 280

DRAWN: Mapping[FigureKind, Callable[..., Drawing]] = MappingProxyType(
    {
        FigureKind.COURSE: draw_course,
        FigureKind.YEAR: draw_year,
        FigureKind.LEDGER: draw_bars,
        FigureKind.CLAIMS: draw_bars,
        FigureKind.DOSE: draw_dose,
        FigureKind.OPTIONS: draw_options,
        FigureKind.HISTORY: draw_history,
    }
)
"""What draws each kind of figure."""

_HOVERED: Final = {FigureKind.COURSE: "course", FigureKind.YEAR: "warmth"}
"""Rows that a live chart tells of under the pointer."""


def draw(figure: Figure, *, tone: Tone, width: int = PAGE_WIDTH_PX) -> Drawing:
    """A figure as plain marks.

    Parameters
    ----------
    figure
        The figure [object].
    tone
        Where it will be looked at [enumeration].
    width
        Width of the picture, 280 or more [px].

    Returns
    -------
    Drawing
        Marks and their rows [object].

    Raises
    ------
    ValueError
        For a picture too narrow for its labels.
    """
    if width < NARROWEST_PX:
        raise ValueError(f"a chart {width} px wide has no room for labels; {NARROWEST_PX} or more")
    return DRAWN[figure.kind](figure, palette=PALETTES[tone], width=float(width))


def chart_spec(
    figure: Figure, *, tone: Tone, width: int = PAGE_WIDTH_PX, live: bool = False
) -> dict[str, Any]:
    """The Vega-Lite specification of a figure.

    Parameters
    ----------
    figure
        The figure [object].
    tone
        Where it will be looked at [enumeration].
    width
        Width of the picture, 280 or more [px].
    live
        True for a view on a page: rows are left out, to be put in once the view stands (see
        ``chart_data``), and the pointer is answered [truth].

    Returns
    -------
    dict
        A specification; its rows are data sets under names.
    """
    drawing = draw(figure, tone=tone, width=width)
    if live and figure.kind in _HOVERED:
        _answer_the_pointer(drawing, _HOVERED[figure.kind])
    spec = _vega_lite(drawing, PALETTES[tone], figure.sentence)
    if not live:
        spec["datasets"] = {name: list(rows) for name, rows in drawing.data()}
    return spec


def chart_data(
    figure: Figure, *, tone: Tone, width: int = PAGE_WIDTH_PX
) -> dict[str, tuple[Row, ...]]:
    """The rows of every data set of a drawn figure, by name, for a live view.

    Parameters
    ----------
    figure
        The figure [object].
    tone
        The tone of the specification they go into [enumeration].
    width
        The width of that specification [px].

    Returns
    -------
    dict
        Rows by the name of their data set.
    """
    return dict(draw(figure, tone=tone, width=width).data())


def chart_svg(figure: Figure, *, tone: Tone, width: int = PAGE_WIDTH_PX) -> str:
    """A figure as SVG, with its sentence as what a screen reader says.

    Parameters
    ----------
    figure
        The figure [object].
    tone
        Where it will be looked at [enumeration].
    width
        Width of the picture, 280 or more [px].

    Returns
    -------
    str
        SVG; its text stays text, in our sans face or the reader's [text].
    """
    import vl_convert

    register_fonts()
    svg: str = vl_convert.vegalite_to_svg(chart_spec(figure, tone=tone, width=width))
    said = escape(figure.sentence, quote=True)
    return svg.replace("<svg ", f'<svg role="img" aria-label="{said}" ', 1)


def chart_png(
    figure: Figure, *, tone: Tone, width: int = PAGE_WIDTH_PX, scale: float = 2.0
) -> bytes:
    """A figure as PNG.

    Parameters
    ----------
    figure
        The figure [object].
    tone
        Where it will be looked at [enumeration].
    width
        Width of the picture, 280 or more [px].
    scale
        Dots per pixel, above 0 [1].

    Returns
    -------
    bytes
        The file [bytes].
    """
    import vl_convert

    register_fonts()
    spec = chart_spec(figure, tone=tone, width=width)
    png: bytes = vl_convert.vegalite_to_png(spec, scale=scale)
    return png


@cache
def live_bundle() -> str:
    """JavaScript that draws live charts on a page, with nothing fetched from anywhere.

    Returns
    -------
    str
        One module; it puts ``vegaEmbed``, ``vega`` and ``vegaLite`` on the window [text].

    Notes
    -----
    Embed with ``{ast: true, defaultStyle: false, actions: false, tooltip: {disableDefaultStyle:
    true}}``: then it runs under a policy without ``unsafe-eval`` and without inline style. Put
    rows in with ``view.data(name, rows)`` and one ``view.runAsync()``; the rows inside the
    specification take twenty times as long.
    """
    import vl_convert

    snippet = "window.vegaEmbed = vegaEmbed; window.vega = vega; window.vegaLite = vegaLite;"
    bundle: str = vl_convert.javascript_bundle(snippet)
    return bundle


def _answer_the_pointer(drawing: Drawing, name: str) -> None:
    rows = dict(drawing.data())[name]
    drawing.put(
        name,
        Mark.RULE,
        rows,
        "x tooltip=said",
        color="transparent",
        opacity=0.01,
        strokeWidth=max(3.0, (drawing.x.end_px - drawing.x.start_px) / max(len(rows), 1)),
    )


def _vega_lite(drawing: Drawing, palette: Palette, sentence: str) -> dict[str, Any]:
    import altair as alt
    from altair.utils.schemapi import debug_mode

    with debug_mode(False):  # the tests hold every kind against the schema; it takes a second
        layers = [_layer(layer, drawing) for layer in drawing.layers]
        chart = alt.layer(*layers).properties(
            width=drawing.width,
            height=drawing.height,
            padding=0,
            autosize=alt.AutoSizeParams(type="none"),
            background=palette.paper,
            description=sentence,
        )
        chart = (
            chart.configure(aria=False, font=SANS_STACK)
            .configure_view(stroke=None)
            .configure_text(
                fontSize=TEXT_PX,
                font=SANS_STACK,
                lineBreak="\n",
                lineHeight=LINE_PX,
                baseline="middle",
            )
        )
        spec: dict[str, Any] = chart.to_dict(validate=False)
    return spec


def _layer(layer: Layer, drawing: Drawing) -> alt.Chart:
    import altair as alt

    fields = dict(layer.fields)
    encoding: dict[str, Any] = {}
    for channel, scale in (("x", drawing.x), ("y", drawing.y)):
        if channel in fields:
            encoding[channel] = (alt.X if channel == "x" else alt.Y)(
                field=fields[channel],
                type="quantitative",
                axis=None,
                scale=alt.Scale(
                    domain=[scale.low, scale.high],
                    range=[scale.start_px, scale.end_px],
                    nice=False,
                    zero=False,
                ),
            )
    if "x2" in fields:
        encoding["x2"] = alt.X2(field=fields["x2"])
    if "y2" in fields:
        encoding["y2"] = alt.Y2(field=fields["y2"])
    if "text" in fields:
        encoding["text"] = alt.Text(field=fields["text"], type="nominal")
    if "fill" in fields:
        encoding["color"] = alt.Color(field=fields["fill"], type="nominal", scale=None, legend=None)
    if "tooltip" in fields:
        encoding["tooltip"] = alt.Tooltip(field=fields["tooltip"], type="nominal")
    style = {key: list(v) if isinstance(v, tuple) else v for key, v in layer.style}
    mark = alt.MarkDef.from_dict({"type": layer.mark.value, **style}, validate=False)
    return alt.Chart(alt.NamedData(name=layer.name), mark=mark).encode(**encoding)
