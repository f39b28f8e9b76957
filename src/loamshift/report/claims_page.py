"""Claims asked about by themselves, as a page: verdict, bars, the pH now and after a year."""

from __future__ import annotations

from typing import Final

from loamshift.domain.answer import Answer, ClaimResult
from loamshift.domain.case import Case
from loamshift.domain.letter import (
    Align,
    Block,
    Column,
    Letter,
    Matter,
    Note,
    Paragraph,
    Section,
    Table,
)
from loamshift.domain.message import (
    Given,
    Measure,
    Message,
    Product,
    Prose,
    Quantity,
    message,
    ph,
    plants,
    rate,
)
from loamshift.report.figures.claims import claims_figure
from loamshift.report.letter_care import sources, take_care
from loamshift.report.letter_claims import brings_of, claim_place, turn_of
from loamshift.report.letter_head import subtitle
from loamshift.report.letter_words import sentence
from loamshift.report.messages import say
from loamshift.report.sources import source_numbers
from loamshift.report.words import Words

_ENOUGH: Final = 0.9
_FAR_TOO_MUCH: Final = 1.5
_WORTH_NAMING: Final = 0.01


def claims_page(answer: Answer, case: Case, *, words: Words) -> Letter:
    """Claims checked, on a page of their own.

    Returns
    -------
    Letter
        Verdict first, then the bars, the readings, what to mind and the sources.
    """
    claims = answer.claims
    numbers = source_numbers(line.key for line in answer.sources)
    blocks: list[Block] = _opening(claims, case, words)
    figure = claims_figure(answer, case, words=words)
    if figure is not None:
        blocks.append(figure)
    blocks.append(readings_table(claims, case, words))
    noted = case.notes_on("claim[")
    label = say(message("claim-as-read"), words)
    blocks += [Note(sentence(note, words), label) for note in noted]
    sections = [Section(None, tuple(blocks), Matter.OPENING)]
    if len(claims) > 1:
        sections += [
            Section(
                say(message("claim-material", material=Product(claim.material)), words),
                (Paragraph(sentence(claim.comment, words)),),
            )
            for claim in claims
        ]
    sections.append(take_care(answer, numbers=numbers, words=words))
    listed = sources(answer, numbers, words=words)
    if listed is not None:
        sections.append(listed)
    return Letter(case.name, claims_about(answer, case, words), tuple(sections), case.today)


def claims_about(answer: Answer, case: Case, words: Words) -> str:
    """Which soil it is about, and what it is wanted for."""
    said = subtitle(answer, case, words=words)
    wanted = answer.wanted
    if wanted is None:
        return said
    target = message(
        "claim-wanted",
        aim=ph(wanted.ph_aim),
        plants=plants(list(wanted.names)) if wanted.names else None,
    )
    return f"{said} {say(target, words)}"


def _opening(claims: tuple[ClaimResult, ...], case: Case, words: Words) -> list[Block]:
    """The sentence to be read from across the room, and what follows it."""
    if len(claims) > 1:
        return [Paragraph(say(verdict_of_several(claims, case), words))]
    (claim,) = claims
    comment = claim.comment
    if isinstance(comment, str):  # worded by an earlier version
        return [Paragraph(sentence(comment, words))]
    first, *rest = comment.sentences if isinstance(comment, Prose) else (comment,)
    lead = message("claim-lead", material=Product(claim.material), said=first)
    blocks: list[Block] = [Paragraph(say(lead, words))]
    if rest:
        blocks.append(Paragraph(say(Prose(tuple(rest)), words)))
    return blocks


def verdict_of_several(claims: tuple[ClaimResult, ...], case: Case) -> Message:
    """Which of several materials is enough, if any."""
    place = claim_place(case)
    shares = [(claim.share or 0.0, claim) for claim in claims]
    share, best = max(shares, key=lambda pair: pair[0])
    needs = brings_of(best.acid_needed_mmolc_m2)
    if needs == "none":
        return message("claim-verdict-nothing-needed", place=place)
    if share < _WORTH_NAMING:
        return message("claim-verdict-none", needs=needs, place=place)
    enough = sum(1 for one, _ in shares if one >= _ENOUGH)
    if enough > 1:
        return message("claim-verdict-several", needs=needs, n=enough, place=place)
    material = Product(best.material)
    if share > _FAR_TOO_MUCH:
        return message("claim-verdict-far-more", needs=needs, material=material, place=place)
    if share >= _ENOUGH:
        return message("claim-verdict-one", needs=needs, material=material, place=place)
    return message(
        "claim-verdict-nearest",
        needs=needs,
        material=material,
        share=Measure(Quantity.SHARE, share),
        place=place,
    )


def readings_table(claims: tuple[ClaimResult, ...], case: Case, words: Words) -> Table:
    """Each material with its amount and what the pH would do at once and after a year.

    Parameters
    ----------
    claims
        Claims on one bed, in the order of the case.
    """
    rows = tuple(
        (
            say(message("claim-material", material=Product(claim.material)), words),
            _amount(entry.as_given, entry.rate_g_m2, words),
            say(change_cell(claim.ph_change_now), words),
            say(change_cell(claim.ph_change_1_year), words),
        )
        for claim, entry in zip(claims, case.claims, strict=True)
    )
    columns = (
        Column(say(message("claim-column-material"), words)),
        Column(say(message("claim-column-amount"), words), Align.RIGHT),
        Column(say(message("claim-column-now"), words), Align.RIGHT),
        Column(say(message("claim-column-year"), words), Align.RIGHT),
    )
    return Table(columns, rows)


def _amount(as_given: str, rate_g_m2: float, words: Words) -> str:
    """What was said, and the rate it makes where that is not the same."""
    given = " ".join(as_given.replace("m2", "m²").replace("ft2", "ft²").split())
    said = words.rate(rate_g_m2)
    if not given or _same(given, said):
        return said
    return say(message("claim-amount-both", given=Given(given), rate=rate(rate_g_m2)), words)


def _same(given: str, said: str) -> bool:
    """True for one rate written twice, as 1 kg/m² and 1.0 kg/m²."""
    first, second = given.split(maxsplit=1), said.split(maxsplit=1)
    if len(first) == 1 or first[1:] != second[1:]:
        return given == said
    try:
        return float(first[0]) == float(second[0])
    except ValueError:
        return False


def change_cell(change: float | None) -> Message:
    """A change for a cell of a table.

    Parameters
    ----------
    change
        The change; None beyond what was ever measured [pH].
    """
    if change is None:
        return message("claim-cell-off")
    turn = turn_of(change)
    if turn == "none":
        return message("claim-cell-none")
    if turn == "rise":
        return message("claim-cell-up", change=ph(change))
    return message("claim-cell-down", change=ph(-change))
