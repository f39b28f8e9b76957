"""A number opened, as a page."""

from __future__ import annotations

from collections.abc import Mapping

from loamshift.domain.explanation import ExplainedFigure, Explanation
from loamshift.domain.letter import Align, Block, Column, Items, Letter, Paragraph, Section, Table
from loamshift.domain.message import Worded
from loamshift.report.catalogue import EVIDENCE_WORDS
from loamshift.report.messages import say_each
from loamshift.report.sources import source_numbers, sources_section
from loamshift.report.words import Words


def explanation_letter(explanation: Explanation, *, words: Words) -> Letter:
    """An explanation [object] in this reader's words [object] as a letter [object]."""
    sections = []
    lead: list[Block] = [
        Paragraph(words.text(text)) for text in say_each(explanation.text, words) if text
    ]
    if lead:
        sections.append(Section(None, tuple(lead)))
    if explanation.equations:
        sections.append(Section("Equation", (Items(explanation.equations),)))
    if len(explanation.figures) == 1:
        figure = explanation.figures[0]
        sections.append(Section("Figure", tuple(_one(figure, words, explanation.text))))
    elif explanation.figures:
        numbers = source_numbers(explanation.source_keys)
        sections.append(Section("What goes in", (_table(explanation.figures, numbers),)))
    if explanation.see_also:
        see = Items(tuple(f"loamshift why {key}" for key in explanation.see_also))
        sections.append(Section("See also", (see,)))
    if explanation.source_keys:
        sections.append(sources_section(explanation.source_keys))
    title = explanation.title[:1].upper() + explanation.title[1:]
    return Letter(words.text(title), f"{explanation.key} ({explanation.kind})", tuple(sections))


def keys_letter(keys: Mapping[str, tuple[str, ...]]) -> Letter:
    """All keys that can be opened [text by kind] as a letter [object]."""
    sections = tuple(
        Section(kind[:1].upper() + kind[1:], (Paragraph("; ".join(names) + "."),))
        for kind, names in keys.items()
    )
    return Letter("What can be opened", "loamshift why KEY", sections)


def _one(figure: ExplainedFigure, words: Words, said: tuple[Worded, ...]) -> list[Block]:
    line = f"**{figure.value:.4g} {figure.unit}**".replace(" -**", "**")
    spread = _spread(figure)
    if spread:
        line += f", {spread} with 95 % probability"
    line += f"; {EVIDENCE_WORDS[figure.evidence]}"
    if figure.where:
        line += f" ({figure.where})"
    blocks: list[Block] = [Paragraph(words.text(line) + ".")]
    if figure.note and figure.note not in said:
        blocks.append(Paragraph(words.text(figure.note)))
    return blocks


def _table(figures: tuple[ExplainedFigure, ...], numbers: Mapping[str, str]) -> Table:
    columns = (
        Column("figure"),
        Column("value", Align.RIGHT),
        Column("likely", Align.RIGHT),
        Column("unit"),
        Column("evidence"),
        Column("source", Align.RIGHT),
    )
    rows = tuple(
        (
            figure.name,
            f"{figure.value:g}",
            _spread(figure),
            figure.unit,
            figure.evidence.value,
            numbers[figure.source_key],
        )
        for figure in figures
    )
    return Table(columns, rows)


def _spread(figure: ExplainedFigure) -> str:
    if figure.low is None and figure.high is None:
        return ""
    low = "" if figure.low is None else f"{figure.low:g}"
    high = "" if figure.high is None else f"{figure.high:g}"
    return f"{low} to {high}".strip()
