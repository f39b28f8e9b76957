"""The claim card: what is said to help beside what it would really do."""

from __future__ import annotations

from datetime import date
from typing import Final

from loamshift.domain.answer import Caution, ClaimResult
from loamshift.domain.card import Card, CardBlock, CardKind, Log, Part
from loamshift.domain.case import Case
from loamshift.domain.letter import Align, Column, Paragraph, Table
from loamshift.domain.message import Message, Product, Prose, Worded, message, ph, rate
from loamshift.report.card.text import after_first, cautions_listed, closing, first_sentence
from loamshift.report.figures.claims import brought_figure
from loamshift.report.letter_claims import turn_of
from loamshift.report.letter_head import told_of
from loamshift.report.letter_words import sentence
from loamshift.report.messages import say
from loamshift.report.words import Words
from loamshift.tables.materials import load_materials
from loamshift.tables.rules import caution_text, load_cautions

_LOG: Final = ("date", "with", "without", "method", "by")


def claim_card(
    claim: ClaimResult,
    case: Case,
    *,
    rate_g_m2: float,
    notes: tuple[Worded, ...],
    day: date,
    words: Words,
) -> Card:
    """A checked claim as a sheet to pin up or hand over.

    Parameters
    ----------
    rate_g_m2
        The material at the rate it makes on this bed [g/m2].
    """

    def label(key: str) -> str:
        return say(message(f"claim-card-{key}"), words)

    lead, rest = _lead(claim, words)
    figure = brought_figure((claim,), case, words=words)
    rows: list[tuple[Part, ...]] = []
    if figure is not None:
        sentences = (figure, Paragraph(figure.sentence))
        rows.append((Part(heading=None, blocks=sentences, brief=(figure,)),))
    reading = Part(heading=label("readings"), blocks=(_readings(claim, words),))
    why = tuple(text for text in (rest, *(sentence(note, words) for note in notes)) if text)
    if why:
        explained = Part(heading=label("why"), blocks=tuple(Paragraph(text) for text in why))
        rows.append((reading, explained))
    else:
        rows.append((reading,))
    log = Log(tuple(say(message(f"claim-log-{key}"), words) for key in _LOG))
    fair = (Paragraph(label("fair-text")), log)
    rows.append((Part(heading=label("fair"), blocks=fair, spare=1),))
    care = _care(claim.material, case, words)
    if care is not None:
        rows.append((care,))
    title = message("claim-title", material=Product(claim.material), rate=rate(rate_g_m2))
    return Card(
        kind=CardKind.CLAIM,
        title=say(title, words),
        subtitle=told_of(case, day=day, words=words),
        lead=lead,
        rows=tuple(rows),
        closing=closing(words),
        elsewhere=label("elsewhere"),
        day=day,
    )


def _lead(claim: ClaimResult, words: Words) -> tuple[str, str]:
    """The first sentence of what is said of a claim, and the others."""
    comment = claim.comment
    if isinstance(comment, Prose):
        first, rest = comment.sentences[0], Prose(comment.sentences[1:])
        return say(first, words), say(rest, words)
    text = sentence(comment, words)
    return first_sentence(text), after_first(text)


def _readings(claim: ClaimResult, words: Words) -> Table:
    rows = (
        (message("claim-card-now"), _change(claim.ph_change_now)),
        (message("claim-card-year"), _change(claim.ph_change_1_year)),
    )
    columns = (
        Column(say(message("claim-card-when"), words)),
        Column(say(message("claim-card-would"), words), Align.LEFT),
    )
    return Table(columns, tuple((say(when, words), say(said, words)) for when, said in rows))


def _change(change: float | None) -> Message:
    if change is None:
        return message("claim-card-change", turn="off", change=None)
    return message("claim-card-change", turn=turn_of(change), change=ph(abs(change)))


def _care(key: str, case: Case, words: Words) -> Part | None:
    material = case.own_materials.get(key) or load_materials().get(key)
    known = load_cautions()
    if material is None:
        return None
    cautions = [
        Caution(
            code=code,
            text=caution_text(known[code], material.cautions),
            source_key=known[code].source_key,
            short=known[code].short,
            handling=True,
        )
        for code in material.cautions
        if code in known
    ]
    if not cautions:
        return None
    whole: tuple[CardBlock, ...] = (cautions_listed(cautions, words=words),)
    brief: tuple[CardBlock, ...] = (cautions_listed(cautions, words=words, brief=True),)
    heading = say(message("claim-card-care"), words)
    return Part(heading=heading, blocks=whole, brief=brief, care=True)
