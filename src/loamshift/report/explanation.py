"""A number opened, as a page: what it means in general, and the sum of one bed."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from loamshift.domain.explanation import ExplainedFigure, Explanation
from loamshift.domain.letter import Align, Block, Column, Items, Letter, Paragraph, Section, Table
from loamshift.domain.message import Given, Message, message
from loamshift.domain.own_sum import OwnSum
from loamshift.report.catalogue import evidence_said
from loamshift.report.messages import say, say_each
from loamshift.report.own_sum import SaidSum, said_sum
from loamshift.report.sources import source_numbers, sources_section
from loamshift.report.words import Words


def explanation_letter(explanation: Explanation, *, words: Words) -> Letter:
    """An explanation in this reader's words as a letter."""
    title = _title(say(explanation.title, words))
    kind = message("why-kind", kind=explanation.kind)
    under = message("why-subtitle-kind", key=Given(explanation.key), kind=kind)
    sections = _general(explanation, words=words, heading=None)
    return Letter(title, say(under, words), tuple(sections))


def sum_letter(own: OwnSum, explanation: Explanation | None, *, name: str, words: Words) -> Letter:
    """The sum behind one number of one bed, with what holds for every bed under it.

    Parameters
    ----------
    explanation
        What the number means in general, or None.
    name
        The bed; empty where it has none.
    """
    said = said_sum(own, words=words)
    numbers = source_numbers(said.source_keys)
    sections = [Section(_say("why-heading-sum", words), tuple(_steps(said)))]
    if said.inputs:
        table = _inputs(said, numbers, words)
        sections.append(Section(_say("why-heading-inputs", words), (table,)))
    for heading, texts in (("why-heading-sure", said.sure), ("why-heading-narrow", said.narrow)):
        if texts:
            sections.append(Section(_say(heading, words), (Paragraph(" ".join(texts)),)))
    if explanation is not None:
        lead: list[Block] = [Paragraph(text) for text in say_each(explanation.text, words)]
        if explanation.equations:
            lead.append(Items(tuple(say_each(explanation.equations, words))))
        sections.append(Section(_say("why-heading-general", words), tuple(lead)))
    if said.source_keys:
        heading = _say("why-heading-sources", words)
        sections.append(sources_section(said.source_keys, heading=heading))
    under = (
        message("why-subtitle-bed", key=Given(own.key), name=Given(name))
        if name
        else message("why-subtitle-unnamed", key=Given(own.key))
    )
    return Letter(_title(said.title), say(under, words), tuple(sections))


def keys_letter(keys: Mapping[str, tuple[str, ...]], *, words: Words) -> Letter:
    """All keys that can be opened [text by kind] in a reader's words as a letter."""
    sections = tuple(
        Section(say(message("why-kinds", kind=kind), words), (Paragraph("; ".join(names) + "."),))
        for kind, names in keys.items()
    )
    return Letter(_say("why-title-keys", words), _say("why-subtitle-keys", words), sections)


def own_keys_letter(keys: Iterable[str], *, name: str, words: Words) -> Letter:
    """The numbers of one answer that have a sum, for a bed by its name."""
    section = Section(_say("why-heading-keys", words), (Items(tuple(keys)),))
    title = _say("why-title-keys", words)
    return Letter(name or title, _say("why-subtitle-keys-case", words), (section,))


def _general(explanation: Explanation, *, words: Words, heading: str | None) -> list[Section]:
    sections = []
    lead: list[Block] = [Paragraph(text) for text in say_each(explanation.text, words) if text]
    if lead:
        sections.append(Section(heading, tuple(lead)))
    if explanation.equations:
        equations = Items(tuple(say_each(explanation.equations, words)))
        sections.append(Section(_say("why-heading-equation", words), (equations,)))
    if len(explanation.figures) == 1:
        found = _one(explanation.figures[0], words, explanation.text)
        sections.append(Section(_say("why-heading-figure", words), tuple(found)))
    elif explanation.figures:
        numbers = source_numbers(explanation.source_keys)
        table = _table(explanation.figures, numbers, words)
        sections.append(Section(_say("why-heading-figures", words), (table,)))
    if explanation.see_also:
        see: list[Block] = [Items(tuple(f"loamshift why {key}" for key in explanation.see_also))]
        if explanation.kind == "answer":
            bed = message("why-with-case", key=Given(explanation.key))
            see.append(Paragraph(say(bed, words)))
        sections.append(Section(_say("why-heading-see", words), tuple(see)))
    if explanation.source_keys:
        heading = _say("why-heading-sources", words)
        sections.append(sources_section(explanation.source_keys, heading=heading))
    return sections


def _steps(said: SaidSum) -> Iterable[Block]:
    for number, step in enumerate(said.steps, 1):
        yield Paragraph(f"**{number}.** {step.says}")
        lines = tuple(line for line in (step.symbols, step.figures, step.result) if line)
        yield Items(lines)
    for note in said.notes:
        yield Paragraph(note)


def _inputs(said: SaidSum, numbers: Mapping[str, str], words: Words) -> Table:
    columns = (
        Column(_say("why-column-symbol", words)),
        Column(_say("why-column-what", words)),
        Column(_say("why-column-value", words), Align.RIGHT),
        Column(_say("why-column-range", words), Align.RIGHT),
        Column(_say("why-column-from", words)),
        Column(_say("why-column-source", words), Align.RIGHT),
    )
    rows = tuple(
        (one.symbol, one.name, one.value, one.spread, one.whence, numbers.get(one.source_key, ""))
        for one in said.inputs
    )
    return Table(columns, rows)


def _one(figure: ExplainedFigure, words: Words, said: tuple[Message, ...]) -> list[Block]:
    value = f"**{figure.value:.4g} {figure.unit}**".replace(" -**", "**")
    evidence = evidence_said(figure.evidence, words)
    if figure.where:
        evidence += f" ({words.text(figure.where)})"
    spread = _spread(figure, words)
    line = (
        message(
            "explained-figure-spread",
            figure=Given(value),
            spread=Given(spread),
            evidence=Given(evidence),
        )
        if spread
        else message("explained-figure-alone", figure=Given(value), evidence=Given(evidence))
    )
    blocks: list[Block] = [Paragraph(say(line, words) + ".")]
    if figure.note and message("explained-note", text=Given(figure.note)) not in said:
        blocks.append(Paragraph(words.text(figure.note)))
    return blocks


def _table(figures: tuple[ExplainedFigure, ...], numbers: Mapping[str, str], words: Words) -> Table:
    columns = (
        Column(_say("why-column-what", words)),
        Column(_say("why-column-value", words), Align.RIGHT),
        Column(_say("why-column-range", words), Align.RIGHT),
        Column(_say("why-column-unit", words)),
        Column(_say("why-column-evidence", words)),
        Column(_say("why-column-source", words), Align.RIGHT),
    )
    rows = tuple(
        (
            figure.name,
            f"{figure.value:g}",
            _spread(figure, words),
            figure.unit,
            figure.evidence.value,
            numbers[figure.source_key],
        )
        for figure in figures
    )
    return Table(columns, rows)


def _spread(figure: ExplainedFigure, words: Words) -> str:
    if figure.low is None or figure.high is None:
        return ""
    return words.message("unit-range", {"low": f"{figure.low:g}", "high": f"{figure.high:g}"})


def _say(key: str, words: Words) -> str:
    return words.message(key, {})


def _title(text: str) -> str:
    return text[:1].upper() + text[1:] if not text.startswith("pH") else text
