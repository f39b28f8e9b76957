"""What these pages need beyond Sphinx: equations as MathML, figures out of the shipped tables.

``{par}`sulfur.rate_ug_cm2_d``` prints a parameter with its unit, ``{src}`key``` names a source
and leads to the list of sources, and the directive ``parameters`` sets out rows of the parameter
table. A key that is gone is a warning, and a warning fails the build, so no page can keep a
figure that the model has dropped.
"""

from __future__ import annotations

import base64
import json
import re
import shlex
from html import escape
from pathlib import Path
from typing import Any, ClassVar

from docutils import nodes
from docutils.utils.math.latex2mathml import tex2mathml
from pygments.lexer import RegexLexer, bygroups
from pygments.style import Style
from pygments.token import (
    Comment,
    Generic,
    Keyword,
    Literal,
    Name,
    Number,
    Operator,
    String,
    Token,
)
from sphinx.application import Sphinx
from sphinx.util import logging
from sphinx.util.docutils import SphinxDirective, SphinxRole

import loamshift
from loamshift.domain.evidence import Parameter
from loamshift.report.catalogue import evidence_said
from loamshift.report.words import Words
from loamshift.tables.parameters import load_parameters
from loamshift.tables.references import load_references

LOG = logging.getLogger(__name__)
SOURCES_PAGE = "sources"
BRITISH = Words("uk", "metric")
"""The docs are in British spelling."""
PARTS = (
    ("tutorial", "Tutorial"),
    ("how-to/index", "How to"),
    ("why/index", "Why it works"),
    ("pitfalls", "Pitfalls"),
    ("trust", "Trust"),
    ("reference", "Reference"),
)
LOOKED_UP = ("case", "cli", "answer-keys", "python", "glossary", "sources", "speed")
NUMBER = re.compile(r"\d+(?:\.\d+)?")
MARKS = re.compile(r"^ *<!-- (?:show|exit|file): .*? -->\n", re.MULTILINE)
"""Instructions to the tool that runs the examples; readers need not see them."""
LETTER = re.compile(r"<mi>(.)</mi>")
"""One letter is a quantity and stands in italics, by the page's own type."""
RAISED = str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹")
LEAST_PH = 2.5
"""A figure in pH below this is a difference of two, not a pH."""
BARE_FRACTION = re.compile(r"\\[td]?frac\s*[^{\s]")
"""The converter misreads these without a word."""
LONG_TEX = 110
"""An equation of more signs than this is set smaller, so that it fits its column."""
MOST_TEXT = 40_000
"""So much of a page can be searched for an excerpt [signs]."""
UNITS = (
    ("degC2", "°C²"),
    ("degC", "°C"),
    ("ug", "µg"),
    ("um", "µm"),
    ("m2", "m²"),
    ("cm2", "cm²"),
    ("m3", "m³"),
    ("cm3", "cm³"),
)


class Ink(Style):
    """Code in the ink of the page: weight and one accent instead of a rainbow."""

    background_color = "transparent"
    styles: ClassVar[dict[Any, str]] = {
        Token: "#22201C",
        Comment: "#6B645A",
        Keyword: "bold",
        Operator: "#6B645A",
        Name.Tag: "#22201C",
        Name.Builtin: "#22201C",
        Number: "#22201C",
        Literal: "#22201C",
        String: "#8C3A1E",
        Generic.Prompt: "#8C3A1E bold",
        Generic.Output: "#22201C",
        Generic.Traceback: "#22201C",
    }


class Console(RegexLexer):
    """A command after ``$`` and what it prints; nothing in a letter is taken for a prompt."""

    name = "console"
    aliases: ClassVar[list[str]] = ["console"]
    tokens: ClassVar[dict[str, Any]] = {
        "root": [
            (r"^(\$ )", Generic.Prompt, "command"),
            (r".*\n", Generic.Output),
        ],
        "command": [
            (r"(\\)(\n)", bygroups(Operator, Token.Text)),
            (r"\n", Token.Text, "#pop"),
            (r'"[^"\n]*"', String),
            (r"[^\\\n\"]+", Token.Text),
        ],
    }


def unit_words(unit: str) -> str:
    """A unit of the tables as it is printed; nothing for a bare number."""
    if unit in ("-", "1", "0-1", "log10", ""):
        return ""
    if unit.startswith("1/"):
        return f"per {unit_words(unit.removeprefix('1/')).removesuffix('s')}"
    unit = re.sub(r"/d\b", "/day", "days" if unit == "d" else unit)
    for plain, printed in UNITS:
        unit = re.sub(rf"(?<![a-zA-Z]){plain}(?![a-zA-Z0-9])", printed, unit)
    return unit


def value_words(value: float) -> str:
    """A figure with the digits the table gives it."""
    text = f"{value:.6g}"
    if "e" in text:
        mantissa, power = text.split("e")
        return f"{mantissa} × 10{str(int(power)).translate(RAISED)}"
    return text.replace("-", "−")


def figure_words(parameter: Parameter) -> str:
    """Value and unit, joined by a space that does not break."""
    unit = unit_words(parameter.unit)
    if unit == "pH" and parameter.value >= LEAST_PH:
        return f"pH\N{NO-BREAK SPACE}{value_words(parameter.value)}"
    if unit == "field capacity":
        unit = "of field capacity"
    return f"{value_words(parameter.value)}\N{NO-BREAK SPACE}{unit}".rstrip("\N{NO-BREAK SPACE}")


def source_link(key: str, text: str, uri: str) -> nodes.reference:
    """A link to one entry of the list of sources."""
    return nodes.reference(
        "", text, internal=True, refuri=f"{uri}#{nodes.make_id('source ' + key)}", classes=["src"]
    )


class Curve(SphinxDirective):
    """The picture of a buffer curve: keys of a soil as options in one line, ``ph=6.5 ...``."""

    required_arguments = 1
    optional_arguments = 0
    final_argument_whitespace = True

    def run(self) -> list[nodes.Node]:
        """One picture for paper and one for the dark, and the sentence that says the same."""
        soil: dict[str, Any] = {}
        for part in shlex.split(self.arguments[0]):
            key, _, value = part.partition("=")
            soil[key] = float(value) if NUMBER.fullmatch(value) else value
        curve = loamshift.buffer_curve(**soil)
        light, dark = curve.plot(), curve.plot(dark=True)
        html = (
            '<picture><source media="(prefers-color-scheme: dark)" '
            f'srcset="{_as_data(dark.svg)}"><img class="curve" src="{_as_data(light.svg)}" '
            f'alt="{escape(light.sentence, quote=True)}"></picture>'
        )
        return [nodes.raw("", html, format="html"), nodes.paragraph("", light.sentence)]


def _as_data(svg: str) -> str:
    return f"data:image/svg+xml;base64,{base64.b64encode(svg.encode('utf-8')).decode('ascii')}"


class ParameterRole(SphinxRole):
    """One parameter, printed with its unit; its range, evidence and source on hovering."""

    def run(self) -> tuple[list[nodes.Node], list[nodes.system_message]]:
        """The figure as a text node, and a warning where the table has no such row."""
        topic, _, name = self.text.partition(".")
        parameter = load_parameters().get(topic, {}).get(name)
        if parameter is None:
            LOG.warning("no parameter called %s", self.text, location=self.get_location())
            return [nodes.Text(self.text)], []
        abbreviation = nodes.abbreviation(
            "", figure_words(parameter), explanation=_hover(parameter), classes=["par"]
        )
        return [abbreviation], []


def _hover(parameter: Parameter) -> str:
    spread = _spread(parameter)
    between = f"likely {spread}; " if spread else ""
    return (
        f"{parameter.topic}.{parameter.name}: {between}"
        f"{evidence_said(parameter.evidence, BRITISH)}; {parameter.source_key}"
    )


def _spread(parameter: Parameter) -> str:
    ends = [value_words(end) for end in (parameter.low, parameter.high) if end is not None]
    return " to ".join(ends) if len(ends) == 2 else ""


class SourceRole(SphinxRole):
    """The key of a source as a link into the list of sources."""

    def run(self) -> tuple[list[nodes.Node], list[nodes.system_message]]:
        """The link, and a warning where no such source is listed."""
        if self.text not in load_references():
            LOG.warning("no source called %s", self.text, location=self.get_location())
        return [source_link(self.text, self.text, _uri(self.env, SOURCES_PAGE))], []


def _uri(env: Any, page: str) -> str:
    return str(env.app.builder.get_relative_uri(env.docname, page))


class Parameters(SphinxDirective):
    """Rows of the parameter table: ``topic`` for all of it, or names after the topic."""

    required_arguments = 1
    optional_arguments = 0
    final_argument_whitespace = True

    def run(self) -> list[nodes.Node]:
        """A table of figure, value, likely range, evidence and source."""
        chosen: list[Parameter] = []
        for wanted in self.arguments[0].split():
            topic, dot, name = wanted.partition(".")
            rows = load_parameters().get(topic, {})
            found = list(rows.values()) if not dot else [rows[name]] if name in rows else []
            if not found:
                LOG.warning("no parameter called %s", wanted, location=self.get_location())
            chosen += found
        return [_table(chosen, _uri(self.env, SOURCES_PAGE))]


def _table(rows: list[Parameter], uri: str) -> nodes.table:
    heads = ("figure", "value", "likely", "evidence", "source")
    group = nodes.tgroup("", cols=len(heads))
    group += [nodes.colspec("", colwidth=1) for _ in heads]
    group += nodes.thead("", _row([nodes.Text(head) for head in heads]))
    body = nodes.tbody("")
    for row in rows:
        body += _row(
            [
                nodes.literal("", f"{row.topic}.{row.name}"),
                nodes.Text(figure_words(row)),
                nodes.Text(_spread(row)),
                nodes.Text(row.evidence.value),
                source_link(row.source_key, row.source_key, uri),
            ]
        )
    group += body
    return nodes.table("", group, classes=["figures"])


def _row(cells: list[Any]) -> nodes.row:
    return nodes.row("", *[nodes.entry("", nodes.paragraph("", "", cell)) for cell in cells])


def inline_math(self: Any, node: nodes.math) -> None:
    """An equation in a sentence, as MathML."""
    self.body.append(_mathml(node, node.astext(), block=False))
    raise nodes.SkipNode


def block_math(self: Any, node: nodes.math_block) -> None:
    """An equation on a line of its own, as MathML."""
    long = " long" if len(node.astext()) > LONG_TEX else ""
    self.body.append(f'<div class="math{long}">{_mathml(node, node.astext(), block=True)}</div>\n')
    raise nodes.SkipNode


def _mathml(node: nodes.Element, tex: str, *, block: bool) -> str:
    if bare := BARE_FRACTION.search(tex):
        LOG.warning("fraction without braces: %s", bare[0], location=node)
    try:
        return LETTER.sub(r'<mi class="v">\1</mi>', str(tex2mathml(tex.strip(), as_block=block)))
    except Exception as error:
        LOG.warning("equation not understood: %s (%s)", tex, error, location=node)
        return nodes.Text(tex).astext()


def drop_marks(app: Sphinx, docname: str, source: list[str]) -> None:
    """Take the instructions to the example runner out of a page."""
    source[0] = MARKS.sub("", source[0])


def page_words(app: Sphinx, pagename: str, template: str, context: Any, doctree: Any) -> None:
    """The parts for the head of each page, and the list of its own headings where it is long."""
    homes = [page for page, _ in PARTS if pagename.startswith(page.removesuffix("index"))]
    if pagename in LOOKED_UP or pagename.startswith(("decisions/", "gallery/")):
        homes = ["reference"]
    context["parts"] = PARTS
    context["part_here"] = homes[0] if homes else ""
    toc = context.get("toc") or ""
    inner = re.search(r"</a>(<ul>.*</ul>)</li>", toc.replace("\n", ""))
    headings = inner.group(1).count("<li>") if inner else 0
    context["toc_here"] = inner.group(1) if inner and headings > 3 else ""


def frame_tables(app: Sphinx, doctree: nodes.document) -> None:
    """Each table in a frame of its own that scrolls sideways where it is too wide."""
    for table in list(doctree.findall(nodes.table)):
        frame = nodes.container("", classes=["wide"])
        table.replace_self(frame)
        frame += table


def keep_texts(app: Sphinx, error: Exception | None) -> None:
    """Write the text of every page beside them, for the excerpts of the search."""
    if error is not None or app.builder.format != "html":
        return
    texts = {name: _text_of(app.env.get_doctree(name)) for name in sorted(app.env.found_docs)}
    script = f"const PAGE_TEXTS = {json.dumps(texts, ensure_ascii=False)};\n"
    (Path(app.outdir) / "_static" / "page-texts.js").write_text(script, encoding="utf-8")


def _text_of(page: nodes.document) -> str:
    """The words of a page without its formulas, whose source nobody reads in an excerpt."""
    copy = page.deepcopy()
    for formula in [*copy.findall(nodes.math), *copy.findall(nodes.math_block)]:
        formula.replace_self(nodes.Text("…"))
    return " ".join(copy.astext().split())[:MOST_TEXT]


def plain_bars(app: Sphinx, what: str, name: str, thing: Any, options: Any, lines: Any) -> None:
    """Bars of absolute values stay bars instead of naming a substitution."""
    lines[:] = [line.replace("|", "\\|") for line in lines]


def setup(app: Sphinx) -> dict[str, Any]:
    """Called by Sphinx."""
    app.add_role("par", ParameterRole())
    app.add_role("src", SourceRole())
    app.add_lexer("console", Console)
    app.add_directive("curve", Curve)
    app.add_directive("parameters", Parameters)
    app.add_html_math_renderer("mathml", (inline_math, None), (block_math, None))
    app.connect("autodoc-process-docstring", plain_bars)
    app.connect("source-read", drop_marks)
    app.connect("build-finished", keep_texts)
    app.connect("html-page-context", page_words)
    app.connect("doctree-read", frame_tables)
    return {"version": "1", "parallel_read_safe": True, "parallel_write_safe": True}
