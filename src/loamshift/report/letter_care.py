"""Cautions, sources, and what made the letter."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import Final

from loamshift.domain.answer import Answer, Caution
from loamshift.domain.letter import Block, Items, Matter, Paragraph, Section
from loamshift.domain.message import Given, message, number
from loamshift.domain.rules import CautionKind
from loamshift.report.letter_checks import cited
from loamshift.report.letter_words import raised, sentence
from loamshift.report.messages import say
from loamshift.report.sources import sources_section
from loamshift.report.words import Words
from loamshift.tables.references import load_references
from loamshift.tables.rules import load_cautions

OWN_SECTIONS: Final = (CautionKind.SIGN, CautionKind.AROUND, CautionKind.COLOUR)
"""Kinds that stand in sections of their own."""
RULES_LINE: Final = message("caution-rules")
"""The sentence below every list of cautions."""


def take_care(answer: Answer, *, numbers: Mapping[str, str], words: Words) -> Section:
    """The cautions of an answer, each under its short name, and the closing sentence."""
    blocks: list[Block] = []
    others = [
        one
        for one in answer.cautions
        if _kind(one) not in OWN_SECTIONS and not _plan_says(one, answer)
    ]
    if others:
        blocks.append(_told(others, numbers=numbers, words=words))
    blocks.append(Paragraph(say(RULES_LINE, words)))
    return Section(say(message("caution-title"), words), tuple(blocks), Matter.CARE)


def of_the_bed(
    answer: Answer, kind: CautionKind, *, numbers: Mapping[str, str], words: Words
) -> Section | None:
    """What plants show, what lies around a bed, or what colours its flowers, as its own section.

    Parameters
    ----------
    kind
        Which of them.
    """
    of_kind = [one for one in answer.cautions if _kind(one) is kind]
    if not of_kind:
        return None
    title = say(message("caution-section", kind=kind.value), words)
    return Section(title, (_told(of_kind, numbers=numbers, words=words),))


def _told(cautions: Iterable[Caution], *, numbers: Mapping[str, str], words: Words) -> Items:
    return Items(
        tuple(
            caution_line(caution, words=words) + cited(caution.source_key, numbers)
            for caution in cautions
        )
    )


def _plan_says(caution: Caution, answer: Answer) -> bool:
    """True of what the dated plan says with figures of its own: when to test, and in what parts."""
    if caution.code == "too-early":
        return answer.too_early_before is not None
    return caution.code == "split" and answer.plan is not None and bool(answer.plan.parts)


def _kind(caution: Caution) -> CautionKind | None:
    rule = load_cautions().get(caution.code)
    return None if rule is None else rule.kind


def cautions_to_handle(answer: Answer) -> tuple[Caution, ...]:
    """The hazards of what this answer has somebody apply, take up or treat: for a front sheet.

    Returns
    -------
    tuple of Caution
        In order, each with its short text; one kept by an earlier version does not tell what
        is handled, so that every hazard in it counts.
    """
    if any(caution.short for caution in answer.cautions):
        return tuple(caution for caution in answer.cautions if caution.handling)
    rules = load_cautions()
    hazards = {code for code, rule in rules.items() if rule.kind is CautionKind.HAZARD}
    return tuple(
        replace(caution, short=rules[caution.code].short)
        for caution in answer.cautions
        if caution.code in hazards
    )


def caution_line(caution: Caution, *, words: Words, short: bool = False) -> str:
    """A caution under its short name, in Markdown.

    Parameters
    ----------
    short
        True for what must be done alone, where the answer has it.
    """
    text = sentence(caution.short if short and caution.short else caution.text, words)
    label = Given(caution_label(caution.code, words=words))
    return say(message("caution-line", label=label, text=Given(text)), words)


def caution_label(code: str, *, words: Words) -> str:
    """The short name of a caution."""
    rule = load_cautions().get(code)
    return raised(code.replace("-", " ")) if rule is None else say(rule.label, words)


def sources(answer: Answer, cited_keys: Iterable[str], *, words: Words) -> Section | None:
    """The numbered sources that a letter or page cites.

    Parameters
    ----------
    cited_keys
        Keys of the sources, in the order of their numbers.
    """
    keys = tuple(cited_keys)
    if not keys:
        return None
    heading = say(message("colophon-sources"), words)
    known = load_references()
    if all(key in known for key in keys):
        return sources_section(keys, heading=heading)
    kept = {line.key: line.citation for line in answer.sources}
    items = Items(tuple(kept[key] for key in keys), numbered=True)
    return Section(heading, (items,), Matter.SOURCES)


def made_by(answer: Answer, *, words: Words) -> Section:
    """Which weather this letter rests on, and what worked it out: version, model, tables."""
    made = answer.made_by
    ran = made.members is not None and made.years is not None
    text = message(
        "colophon-made",
        version=Given(made.version),
        model=Given(str(made.model)),
        tables=Given(made.tables),
        members=made.members if ran else None,
        years=None if made.years is None else number(made.years),
        seed=None if made.seed is None else Given(str(made.seed)),
        day=answer.today,
    )
    weather = () if answer.soil_temperature is None else answer.soil_temperature.weather
    told = (Paragraph(" ".join(say(one, words) for one in weather)),) if weather else ()
    return Section(None, (*told, Paragraph(say(text, words))), Matter.COLOPHON)
