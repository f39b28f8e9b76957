"""The claims sheet: folk remedies side by side, beside what one soil needs."""

from __future__ import annotations

from datetime import date
from typing import Final

from loamshift.domain.card import Card, CardKind, Part
from loamshift.domain.claims_sheet import ClaimsSheet
from loamshift.domain.letter import Align, Column, Paragraph, Table
from loamshift.domain.message import (
    Measure,
    Message,
    Product,
    Prose,
    Quantity,
    message,
    prose,
    rate,
)
from loamshift.report.card.text import closing
from loamshift.report.claims_page import change_cell, claims_about
from loamshift.report.figures.claims_sheet import sheet_figure
from loamshift.report.letter_claims import brings_of, claim_place, worth
from loamshift.report.messages import say
from loamshift.report.words import Words

_ENOUGH: Final = 0.9
_TINY: Final = 0.01
_NOTES: Final = prose(
    message("claim-usual-area"), message("claim-usual-common"), message("claim-usual-figures")
)
"""What the amounts are for, and where they and the figures come from."""


def claims_sheet_card(sheet: ClaimsSheet, *, day: date, words: Words) -> Card:
    """Folk remedies beside what one soil needs, as a sheet to show or hand out."""
    title = message("claim-sheet-title", n=len(sheet.lines))
    return Card(
        kind=CardKind.CLAIM,
        title=say(title, words),
        subtitle=claims_about(sheet.answer, sheet.case, words),
        lead=say(sheet_lead(sheet), words),
        rows=(
            (Part(heading=None, blocks=(sheet_figure(sheet, words=words),)),),
            (
                Part(
                    heading=say(message("claim-sheet-heading-each"), words),
                    blocks=(
                        sheet_table(sheet, words),
                        Paragraph(say(_NOTES, words)),
                    ),
                ),
            ),
        ),
        closing=closing(words),
        elsewhere=say(message("claim-sheet-elsewhere"), words),
        day=day,
    )


def sheet_lead(sheet: ClaimsSheet) -> Prose:
    """What the soil needs, and which of the remedies comes nearest."""
    needed = sheet.lines[0].claim.acid_needed_mmolc_m2
    needs = brings_of(needed)
    need = message(
        "claim-sheet-need", needs=needs, amount=worth(needed), place=claim_place(sheet.case)
    )
    return prose(need, None if needs == "none" else _best(sheet))


def _best(sheet: ClaimsSheet) -> Message:
    share, best = max(
        ((line.claim.share or 0.0, line.claim) for line in sheet.lines), key=lambda pair: pair[0]
    )
    size = "enough" if share >= _ENOUGH else "tiny" if share < _TINY else "part"
    return message(
        "claim-sheet-best",
        size=size,
        n=len(sheet.lines),
        material=Product(best.material),
        share=Measure(Quantity.SHARE, share),
    )


def sheet_table(sheet: ClaimsSheet, words: Words) -> Table:
    """Every remedy with its amount, what the pH would do in a year, and one plain sentence."""
    rows = tuple(
        (
            say(message("claim-material", material=Product(line.claim.material)), words),
            say(line.usual, words),
            say(message("claim-sheet-rate", rate=rate(line.rate_g_m2)), words),
            say(change_cell(line.claim.ph_change_1_year), words),
            say(line.verdict, words),
        )
        for line in sheet.lines
    )
    columns = (
        Column(say(message("claim-column-material"), words)),
        Column(say(message("claim-sheet-column-usual"), words)),
        Column(say(message("claim-sheet-column-rate"), words), Align.RIGHT),
        Column(say(message("claim-sheet-column-ph"), words), Align.RIGHT),
        Column(say(message("claim-sheet-column-verdict"), words)),
    )
    return Table(columns, rows)
