"""Claims asked about by themselves, as a page: verdict, bars, the pH now and after a year."""

from __future__ import annotations

import re

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
from loamshift.report.figures.claims import claims_figure
from loamshift.report.letter_care import sources, take_care
from loamshift.report.letter_head import subtitle
from loamshift.report.letter_words import (
    bed_noun,
    lowered,
    material_called,
    material_in_text,
    sentence,
)
from loamshift.report.sources import source_numbers
from loamshift.report.words import Words

_ENOUGH = 0.9
_FAR_TOO_MUCH = 1.5
_WORTH_NAMING = 0.01
_HARDLY_PH = 0.05
_SENTENCE_END = re.compile(r"(?<=[.!?]) (?=[A-Z])")
_CLAIM_NOTE = re.compile(r"^claim\[\d+\]\.?\w*: ")


def claims_page(answer: Answer, case: Case, *, words: Words) -> Letter:
    """Claims settled, on a page of their own.

    Parameters
    ----------
    answer
        From ``claims_asked`` [object].
    case
        The bed and what was claimed [object].
    words
        Spelling and units of the reader [object].

    Returns
    -------
    Letter
        Verdict first, then the bars, the readings, what to mind and the sources [object].
    """
    claims = answer.claims
    numbers = source_numbers(line.key for line in answer.sources)
    lead, rest = _verdict(claims, case, words)
    blocks: list[Block] = [Paragraph(lead), *(Paragraph(text) for text in rest)]
    figure = claims_figure(answer, case, words=words)
    if figure is not None:
        blocks.append(figure)
    blocks.append(_readings(claims, case, words))
    noted = [_CLAIM_NOTE.sub("", note) for note in case.notes if note.startswith("claim[")]
    blocks += [Note(sentence(note, words), "As read") for note in dict.fromkeys(noted)]
    sections = [Section(None, tuple(blocks), Matter.OPENING)]
    if len(claims) > 1:
        sections += [
            Section(
                material_called(claim.material, words),
                (Paragraph(sentence(claim.comment, words)),),
            )
            for claim in claims
        ]
    sections.append(take_care(answer, numbers=numbers, words=words))
    listed = sources(answer)
    if listed is not None:
        sections.append(listed)
    return Letter(case.name, _about(answer, case, words), tuple(sections), case.today)


def _about(answer: Answer, case: Case, words: Words) -> str:
    """Which soil it is about, and what it is wanted for."""
    said = subtitle(answer, case, words=words)
    wanted = answer.wanted
    if wanted is None:
        return said
    names = words.listed([words.text(name) for name in wanted.names])
    return f"{said} Wanted at pH {words.ph(wanted.ph_aim)}{f' for {names}' if names else ''}."


def _verdict(
    claims: tuple[ClaimResult, ...], case: Case, words: Words
) -> tuple[str, tuple[str, ...]]:
    """The sentence to be read from across the room, and what follows it."""
    if len(claims) == 1:
        first, *rest = _SENTENCE_END.split(sentence(claims[0].comment, words), maxsplit=1)
        called = material_called(claims[0].material, words)
        return f"{called}: {lowered(first)}", tuple(rest)
    shares = [(claim.share or 0.0, claim) for claim in claims]
    share, best = max(shares, key=lambda pair: pair[0])
    noun = bed_noun(case)
    what = "acid" if best.acid_needed_mmolc_m2 > 0.0 else "lime"
    if abs(best.acid_needed_mmolc_m2) == 0.0:
        return words.text(f"The {noun} needs neither acid nor lime now."), ()
    if share < _WORTH_NAMING:
        return words.text(f"None of these brings the {what} that the {noun} needs."), ()
    name = material_in_text(best.material, words)
    enough = sum(1 for one, _ in shares if one >= _ENOUGH)
    if enough > 1:
        return words.text(f"{_counted(enough)} of these bring the {what} the {noun} needs."), ()
    if share > _FAR_TOO_MUCH:
        return words.text(f"Of these, {name} brings far more {what} than the {noun} needs."), ()
    if share >= _ENOUGH:
        return words.text(f"Of these, {name} alone brings the {what} the {noun} needs."), ()
    return (
        words.text(
            f"None of these is enough; {name} comes nearest, with {words.percent(share)} of the "
            f"{what} the {noun} needs."
        ),
        (),
    )


def _readings(claims: tuple[ClaimResult, ...], case: Case, words: Words) -> Table:
    rows = tuple(
        (
            material_called(claim.material, words),
            _put_on(entry.as_given, words.rate(entry.rate_g_m2)),
            _moved(claim.ph_change_now),
            _moved(claim.ph_change_1_year),
        )
        for claim, entry in zip(claims, case.claims, strict=True)
    )
    columns = (
        Column("material"),
        Column("put on", Align.RIGHT),
        Column("pH at once", Align.RIGHT),
        Column("after a year", Align.RIGHT),
    )
    return Table(columns, rows)


def _put_on(as_given: str, rate: str) -> str:
    """What was said, and the rate it makes where that is not the same."""
    given = " ".join(as_given.replace("m2", "m²").replace("ft2", "ft²").split())
    return given if _same(given, rate) else f"{given}, {rate}"


def _same(given: str, rate: str) -> bool:
    """True for one rate written twice, as 1 kg/m² and 1.0 kg/m²."""
    first, second = given.split(" ", 1), rate.split(" ", 1)
    if len(first) == 1 or first[1:] != second[1:]:
        return given == rate
    try:
        return float(first[0]) == float(second[0])
    except ValueError:
        return False


def _moved(change: float | None) -> str:
    if change is None:
        return "off the scale"
    if abs(change) < _HARDLY_PH:
        return "no change"
    return f"{change:+.1f}".replace("-", "\u2212")


def _counted(number: int) -> str:
    return {2: "Two", 3: "Three", 4: "Four", 5: "Five"}.get(number, str(number))
