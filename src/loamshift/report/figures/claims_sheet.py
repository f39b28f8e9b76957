"""Folk remedies as bars under what the soil needs, each with its usual amount."""

from __future__ import annotations

from loamshift.domain.claims_sheet import ClaimsSheet, SheetLine
from loamshift.domain.letter import Align, Column, DataSet, Figure, FigureKind, Table
from loamshift.domain.message import Listed, Message, Product, message
from loamshift.report.letter_claims import brings_of, claim_place, worth
from loamshift.report.messages import say
from loamshift.report.words import Words


def sheet_figure(sheet: ClaimsSheet, *, words: Words, with_amounts: bool = False) -> Figure:
    """The remedies of a sheet as bars on one scale, acid to the right and lime to the left.

    Parameters
    ----------
    sheet
        Remedies side by side, one or more [object].
    words
        Spelling and units of the reader [object].
    with_amounts
        True for a picture that stands without the table of amounts [truth].

    Returns
    -------
    Figure
        The figure [object].
    """
    place = claim_place(sheet.case)
    need = sheet.lines[0].claim.acid_needed_mmolc_m2
    rows: list[tuple[str, str, float, str]] = [
        (
            "need",
            say(message("claim-sheet-bar-need", place=place), words),
            round(need, 1),
            say(_worth(need), words),
        )
    ]
    rows += [
        (
            "claim",
            _name(line, words, with_amount=with_amounts),
            round(line.claim.acid_brought_mmolc_m2, 2),
            say(_worth(line.claim.acid_brought_mmolc_m2), words),
        )
        for line in sheet.lines
    ]
    columns = (
        Column(say(message("claim-column-material"), words)),
        Column(say(message("claim-sheet-column-adds"), words), Align.RIGHT),
    )
    told = Listed(
        tuple(
            message(
                "claim-sheet-picture-line",
                material=Product(line.claim.material),
                said=_worth(line.claim.acid_brought_mmolc_m2),
            )
            for line in sheet.lines
        )
    )
    return Figure(
        kind=FigureKind.CLAIMS,
        title=say(message("claim-sheet-figure"), words),
        sentence=say(message("claim-sheet-picture", need=_worth(need), lines=told), words),
        data=(DataSet("brought", ("kind", "name", "acid_mmolc_m2", "said"), tuple(rows)),),
        table=Table(columns, tuple((name, said) for _, name, _, said in rows)),
        labels=(
            ("left", say(message("claim-sheet-limes"), words)),
            ("right", say(message("claim-sheet-acidifies"), words)),
        ),
    )


def _name(line: SheetLine, words: Words, *, with_amount: bool) -> str:
    material = Product(line.claim.material)
    if not with_amount:
        return say(message("claim-material", material=material), words)
    return say(message("claim-sheet-bar", material=material, usual=line.usual), words)


def _worth(acid_mmolc_m2: float) -> Message:
    return message(
        "claim-sheet-bar-said", brings=brings_of(acid_mmolc_m2), amount=worth(acid_mmolc_m2)
    )
