"""The bed card: the one sheet that hangs in the shed."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from loamshift.domain.answer import Answer, Decision
from loamshift.domain.card import Card, CardBlock, CardKind, Choices, Chores, Log, Part
from loamshift.domain.case import Case
from loamshift.domain.letter import Items, Paragraph
from loamshift.domain.message import message, ph, plants
from loamshift.report.card.text import READINGS, cautions_listed, closing, first_sentence
from loamshift.report.figures.course import course_figure
from loamshift.report.figures.year import year_figure
from loamshift.report.front import opening
from loamshift.report.inline import bare
from loamshift.report.letter_decides import decision_tables
from loamshift.report.letter_fields import field_called
from loamshift.report.letter_head import subtitle
from loamshift.report.letter_plan import parts_table, too_early, when_to_retest
from loamshift.report.letter_rescue import putting_right, steps_said
from loamshift.report.letter_upkeep import keeping
from loamshift.report.letter_words import sentence
from loamshift.report.messages import say
from loamshift.report.words import Words
from loamshift.tables.materials import load_materials


def bed_card(answer: Answer, case: Case, *, words: Words) -> Card:
    """An answer as the sheet to hang up: what to do and when, when to test, what never to do."""
    words = words.on(case.bed.kind.value)
    said = opening(answer, case, words=words)
    lead, *rest = (b.text for b in said.blocks if isinstance(b, Paragraph))
    because = rest[0] if rest else ""
    rows = [
        (_aim(answer, case, because, words),),
        _one(_chores(answer, case, words)),
        _one(_decides(answer, case, words)),
        _one(_steps(answer, words)),
        _one(_measure(answer, words)),
        *_middle(answer, case, words),
        _one(_year(answer, case, words)),
        _both(_course(answer, case, words), _readings(words)),
        _one(_care(answer, words)),
    ]
    return Card(
        kind=CardKind.BED,
        title=answer.name,
        subtitle=subtitle(answer, case, words=words),
        lead=bare(lead),
        rows=tuple(row for row in rows if row),
        closing=closing(words, version=answer.made_by.version),
        elsewhere=say(message("card-elsewhere"), words),
        day=answer.today,
    )


def _one(part: Part | None) -> tuple[Part, ...]:
    return () if part is None else (part,)


def _both(first: Part | None, second: Part | None) -> tuple[Part, ...]:
    return tuple(part for part in (first, second) if part is not None)


def _middle(answer: Answer, case: Case, words: Words) -> tuple[tuple[Part, ...], ...]:
    """What never to do, tests, and the year's upkeep, which comes last where all is to stop."""
    never, testing = _never(answer, words), _testing(answer, case, words)
    yearly = _every_year(answer, case, words)
    if never is None:
        return (_both(testing, yearly),)
    return (_both(never, testing or yearly), _one(yearly if testing is not None else None))


def _steps(answer: Answer, words: Words) -> Part | None:
    """The rescue, where there is one: on such a bed it is what is to be done."""
    section = putting_right(answer, words=words)
    if answer.rescue is None or section is None or not answer.rescue.steps:
        return None
    today, later = steps_said(answer.rescue, words)
    return Part(
        heading=section.heading,
        blocks=_in_order(today, later, words),
        brief=_in_order(
            tuple(map(first_sentence, today)), tuple(map(first_sentence, later)), words
        ),
    )


def _in_order(
    today: tuple[str, ...], later: tuple[str, ...], words: Words
) -> tuple[CardBlock, ...]:
    """What is to be done today, then the numbered steps after it."""
    if not today or not later:
        return (Items(later or today, numbered=True),)
    return (
        Paragraph(say(message("rescue-today"), words)),
        Items(today),
        Paragraph(say(message("rescue-then"), words)),
        Items(later, numbered=True),
    )


def _aim(answer: Answer, case: Case, because: str, words: Words) -> Part:
    aim = ""
    if answer.wanted is not None:
        wanted = answer.wanted
        aim = say(
            message(
                "card-aim",
                plants=plants(wanted.names) if wanted.names else None,
                range=ph(wanted.ph_low, high=wanted.ph_high),
                aim=ph(wanted.ph_aim),
            ),
            words,
        )
    blocks = tuple(Paragraph(text) for text in (aim, because) if text)
    brief = (Paragraph(aim or because),)
    return Part(heading=None, blocks=blocks, brief=brief)


def _chores(answer: Answer, case: Case, words: Words) -> Part | None:
    if not answer.applications or answer.verdict.decision is Decision.MEASURE_FIRST:
        return None  # a card on a shed door with weights on it gets spread
    table = parts_table(answer, case, words)
    return Part(heading=say(message("front-do-this"), words), blocks=(Chores(table),))


def _decides(answer: Answer, case: Case, words: Words) -> Part | None:
    """What the next test decides, to be read off when its report comes."""
    if answer.verdict.decision is Decision.MEASURE_FIRST:
        return None
    blocks: list[CardBlock] = []
    for table in decision_tables(answer, case, words=words):
        blocks += [Paragraph(f"{table.caption}."), replace(table, caption=None)]
    return (
        Part(heading=say(message("decides-heading"), words), blocks=tuple(blocks))
        if blocks
        else None
    )


def _measure(answer: Answer, words: Words) -> Part | None:
    if answer.verdict.decision is not Decision.MEASURE_FIRST or not answer.missing:
        return None
    whole = tuple(
        f"**{field_called(gap.field, words)}.** {sentence(gap.how, words)}".strip()
        for gap in answer.missing
    )
    short = tuple(f"**{field_called(gap.field, words)}**" for gap in answer.missing)
    return Part(
        heading=say(message("card-first"), words), blocks=(Choices(whole),), brief=(Choices(short),)
    )


def _testing(answer: Answer, case: Case, words: Words) -> Part | None:
    if answer.verdict.decision is Decision.MEASURE_FIRST:
        return None  # days after a part that is not to go on yet
    lines = (too_early(answer, words), when_to_retest(answer, case, words))
    items = tuple(words.text(line) for line in lines if line)
    return (
        Part(heading=say(message("card-testing"), words), blocks=(Items(items),)) if items else None
    )


def _every_year(answer: Answer, case: Case, words: Words) -> Part | None:
    section = keeping(answer, case, words=words)
    if section is None:
        return None
    texts = [block for block in section.blocks if isinstance(block, Paragraph)]
    if not texts:
        return None
    return Part(
        heading=section.heading,
        blocks=tuple(texts),
        brief=tuple(Paragraph(first_sentence(block.text)) for block in texts[:2]),
        spare=3,
    )


def _year(answer: Answer, case: Case, words: Words) -> Part | None:
    figure = year_figure(answer, case, words=words)
    return None if figure is None else Part(heading=None, blocks=(figure,), spare=1)


def _course(answer: Answer, case: Case, words: Words) -> Part | None:
    figure = course_figure(answer, case, words=words)
    return None if figure is None else Part(heading=None, blocks=(figure,), spare=2)


def _readings(words: Words) -> Part:
    return Part(heading=say(message("card-readings"), words), blocks=(Log(READINGS),))


def _never(answer: Answer, words: Words) -> Part | None:
    rescue = answer.rescue
    if rescue is None or not rescue.never:
        return None
    lines = tuple(sentence(line, words) for line in rescue.never)
    return Part(heading=say(message("card-never"), words), blocks=(Items(lines),), care=True)


def _care(answer: Answer, words: Words) -> Part | None:
    cautions = tuple(c for c in answer.cautions if c.code not in _of_other_ways(answer))
    if not cautions:
        return None
    whole: tuple[CardBlock, ...] = (cautions_listed(cautions, words=words),)
    brief: tuple[CardBlock, ...] = (cautions_listed(cautions, words=words, brief=True),)
    return Part(heading=say(message("caution-title"), words), blocks=whole, brief=brief, care=True)


def _of_other_ways(answer: Answer) -> set[str]:
    """Cautions that belong to materials the letter only offers: none of them goes on here."""
    materials = load_materials()

    def codes(keys: Iterable[str]) -> set[str]:
        return {code for key in keys if key in materials for code in materials[key].cautions}

    used = codes(part.material for part in answer.applications)
    return codes(option.material for option in answer.options) - used if used else set()
