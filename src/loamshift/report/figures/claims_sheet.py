"""Folk remedies as bars under what the soil needs, each with its usual amount."""

from __future__ import annotations

from loamshift.domain.claims_sheet import ClaimsSheet, SheetLine
from loamshift.domain.letter import Figure
from loamshift.domain.message import Message, Product, message
from loamshift.report.figures.claims import bars_figure
from loamshift.report.letter_claims import brings_of, worth
from loamshift.report.messages import say
from loamshift.report.words import Words


def sheet_figure(sheet: ClaimsSheet, *, words: Words, with_amounts: bool = False) -> Figure:
    """The remedies of a sheet as bars on one scale, acid to the right and lime to the left.

    Parameters
    ----------
    sheet
        Remedies side by side, one or more.
    with_amounts
        True for a picture that stands without the table of amounts.
    """
    bars = tuple(
        (
            "claim",
            _name(line, words, with_amount=with_amounts),
            round(line.claim.acid_brought_mmolc_m2, 2),
            say(_worth(line), words),
        )
        for line in sheet.lines
    )
    told = tuple(
        message("claim-sheet-line", material=Product(line.claim.material), said=_worth(line))
        for line in sheet.lines
    )
    return bars_figure(
        sheet.lines[0].claim.acid_needed_mmolc_m2,
        bars,
        sheet.case,
        title=message("claim-sheet-figure"),
        told=told,
        words=words,
    )


def _name(line: SheetLine, words: Words, *, with_amount: bool) -> str:
    material = Product(line.claim.material)
    if not with_amount:
        return say(message("claim-material", material=material), words)
    return say(message("claim-sheet-bar", material=material, usual=line.usual), words)


def _worth(line: SheetLine) -> Message:
    brought = line.claim.acid_brought_mmolc_m2
    return message("claim-worth-in-figure", brings=brings_of(brought), amount=worth(brought))
