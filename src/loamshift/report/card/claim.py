"""The claim card: what is said to help beside what it would really do."""

from __future__ import annotations

from datetime import date

from loamshift.domain.answer import Caution, ClaimResult
from loamshift.domain.card import Card, CardBlock, CardKind, Log, Part
from loamshift.domain.case import Case
from loamshift.domain.letter import Align, Column, Paragraph, Table
from loamshift.report.card.text import after_first, cautions_listed, closing, first_sentence
from loamshift.report.figures.claims import brought_figure
from loamshift.report.letter_claims import moved
from loamshift.report.letter_head import told_of
from loamshift.report.letter_words import material_called, sentence
from loamshift.report.words import Words
from loamshift.tables.materials import load_materials
from loamshift.tables.rules import load_cautions

_FAIR = (
    "The same soil, one part with it and one without, watered alike and tested on the same days "
    "by the same method."
)
_LOG = ("date", "pH with it", "pH without it", "method", "by")


def claim_card(
    claim: ClaimResult,
    case: Case,
    *,
    rate_g_m2: float,
    notes: tuple[str, ...],
    day: date,
    words: Words,
) -> Card:
    """A settled claim as a sheet to pin up or hand over.

    Parameters
    ----------
    claim
        What the service found [object].
    case
        The bed it was settled for [object].
    rate_g_m2
        The material at the rate it makes on this bed [g/m2].
    notes
        What the reading of the amount gave cause to say [text].
    day
        The day it was settled [date].
    words
        Spelling and units of the reader [object].

    Returns
    -------
    Card
        The card [object].
    """
    comment = sentence(claim.comment, words)
    figure = brought_figure((claim,), case, words=words)
    rows: list[tuple[Part, ...]] = []
    if figure is not None:
        sentences = (figure, Paragraph(figure.sentence))
        rows.append((Part(heading=None, blocks=sentences, brief=(figure,)),))
    reading = Part(heading="What a test would show", blocks=(_readings(claim, words),))
    why = tuple(text for text in (after_first(comment), *map(words.text, notes)) if text)
    if why:
        explained = Part(heading="Why", blocks=tuple(Paragraph(text) for text in why))
        rows.append((reading, explained))
    else:
        rows.append((reading,))
    rows.append((Part(heading="A fair test", blocks=(Paragraph(_FAIR), Log(_LOG)), spare=1),))
    care = _care(claim.material, words)
    if care is not None:
        rows.append((care,))
    return Card(
        kind=CardKind.CLAIM,
        title=f"{material_called(claim.material, words)}, {words.rate(rate_g_m2)}",
        subtitle=told_of(case, day=day, words=words),
        lead=first_sentence(comment),
        rows=tuple(rows),
        closing=closing(words),
        elsewhere="what loamshift claim prints",
        day=day,
    )


def _readings(claim: ClaimResult, words: Words) -> Table:
    rows = (
        ("at once", _said(claim.ph_change_now)),
        ("after a year", _said(claim.ph_change_1_year)),
    )
    columns = (Column("when"), Column("the pH would", Align.LEFT))
    return Table(columns, tuple((when, words.text(said)) for when, said in rows))


def _said(change: float | None) -> str:
    if change is None:
        return "**run off what was ever measured**"
    return f"**{moved(change)}**"


def _care(key: str, words: Words) -> Part | None:
    material = load_materials().get(key)
    known = load_cautions()
    if material is None:
        return None
    cautions = [
        Caution(code=code, text=known[code].text, source_key=known[code].source_key)
        for code in material.cautions
        if code in known
    ]
    if not cautions:
        return None
    whole: tuple[CardBlock, ...] = (cautions_listed(cautions, words=words),)
    brief: tuple[CardBlock, ...] = (cautions_listed(cautions, words=words, brief=True),)
    return Part(heading="Take care", blocks=whole, brief=brief, care=True)
