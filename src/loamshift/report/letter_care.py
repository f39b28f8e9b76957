"""Cautions, sources, and what made the letter."""

from __future__ import annotations

from collections.abc import Mapping

from loamshift.domain.answer import Answer
from loamshift.domain.letter import Block, Items, Matter, Paragraph, Section
from loamshift.report.letter_checks import cited
from loamshift.report.letter_words import raised, sentence
from loamshift.report.sources import sources_section
from loamshift.report.words import Words
from loamshift.tables.references import load_references

CLOSING = "Follow the label and local rules; this does not replace a licensed or local adviser."

LABELS = {
    "sulfur-dust": "Dust",
    "caustic-lime": "Caustic lime",
    "acid-handling": "Handling acid",
    "salt": "Scorch",
    "aluminium": "Roots and aluminium",
    "nitrogen": "Nitrogen",
    "hydrogen-sulfide": "Wet ground",
    "iron-stain": "Rust",
    "metals": "Metals",
    "free-lime": "Lime in the soil",
    "water-alkalinity": "The water",
    "cold-soil": "Warmth",
    "too-early": "Patience",
    "over-cap": "Too much at once",
    "overdose": "Overdose",
    "too-acid": "Too acid",
    "probe-reading": "The reading",
    "method-unknown": "Which pH",
    "unit-slip": "Units",
    "neutral-salt": "Salts without acid",
    "split": "Not all at once",
    "established-roots": "Living roots",
    "iron-chlorosis": "Iron",
    "ammonia": "Lime and feed apart",
    "children-pets": "Safe keeping",
    "acid-sulfate": "Acid sulfate soil",
    "sodic": "Sodium",
}
"""A short name for each caution, set before its text."""


def take_care(answer: Answer, *, numbers: Mapping[str, str], words: Words) -> Section:
    """The cautions of an answer, each under its short name, and the closing sentence.

    Parameters
    ----------
    answer
        The answer [object].
    numbers
        Number of each source in the list at the end [text].
    words
        Spelling and units of the reader [object].

    Returns
    -------
    Section
        The section; the closing sentence always stands [object].
    """
    blocks: list[Block] = []
    if answer.cautions:
        items = tuple(
            f"**{words.text(_label(caution.code))}.** {sentence(caution.text, words)}"
            f"{cited(caution.source_key, numbers)}"
            for caution in answer.cautions
        )
        blocks.append(Items(items))
    blocks.append(Paragraph(words.text(CLOSING)))
    return Section("Take care", tuple(blocks), Matter.CARE)


def _label(code: str) -> str:
    return LABELS.get(code) or raised(code.replace("-", " "))


def sources(answer: Answer) -> Section | None:
    """The numbered sources of an answer [object] as a section [object], if it names any.

    An answer kept from earlier may cite what the tables no longer hold; then its own citations
    are printed.
    """
    if not answer.sources:
        return None
    known = load_references()
    if all(line.key in known for line in answer.sources):
        return sources_section(line.key for line in answer.sources)
    kept = Items(tuple(line.citation for line in answer.sources), numbered=True)
    return Section("Sources", (kept,), Matter.SOURCES)


def made_by(answer: Answer, *, words: Words) -> Section:
    """What worked this letter out: version, model, tables [object, object, object]."""
    made = answer.made_by
    parts = [f"Worked out with loamshift {made.version}"]
    parts.append(f"model {made.model}")
    parts.append(f"tables {made.tables}")
    if made.members is not None and made.years is not None:
        parts.append(f"{made.members} runs over {made.years} years")
    if made.seed is not None:
        parts.append(f"seed {made.seed}")
    text = ", ".join(parts) + f", for {words.date(answer.today)}."
    return Section(None, (Paragraph(text),), Matter.COLOPHON)
