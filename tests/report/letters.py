"""Letters to lay out: invented beds, every block and hostile text."""

from __future__ import annotations

from datetime import date
from functools import cache

from loamshift.domain.letter import (
    Align,
    Column,
    Figure,
    Items,
    Letter,
    Matter,
    Note,
    Paragraph,
    Section,
    Table,
)
from loamshift.report.letter import letter_from_answer
from loamshift.report.words import Words
from report.answers import ALL
from report.examples import example_answers

UK = Words("uk", "metric")
US = Words("us", "us")
HOSTILE = "<script>alert(1)</script> & \" ' #panic() $x$ `y` @z \\ */ // {{a}} 庭 \u202e </style>"


@cache
def example_letters() -> dict[str, tuple[Letter, Words]]:
    """The letter of every example, without a forecast, for its own reader."""
    made = {}
    for name, (answer, case) in example_answers().items():
        words = US if case.units.value == "us" else UK
        made[name] = (letter_from_answer(answer, case, words=words), words)
    return made


@cache
def invented_letter(name: str) -> Letter:
    """The letter of an invented bed."""
    return letter_from_answer(*ALL[name](), words=UK)


def every_block(text: str = "Words") -> Letter:
    """A letter with one of everything, the same words everywhere."""
    table = Table((Column(text), Column("n", Align.RIGHT)), ((text, "1"), ("b", "2")), text)
    return Letter(
        text,
        text,
        (
            Section(None, (Paragraph(f"**{text}**"), Note(text, text)), Matter.OPENING),
            Section(text, (Paragraph(text), Items((text, text)), table, Note(text, text))),
            Section(text, (Items((text,), numbered=True),), Matter.ASIDE),
            Section(text, (Items((text,)), Paragraph(f"{text} [1]")), Matter.CARE),
            Section(text, (Items((f"{text} https://example.org/a_b",), True),), Matter.SOURCES),
            Section(None, (Paragraph(text),), Matter.COLOPHON),
        ),
        date(2026, 4, 12),
    )


def figures_in(letter: Letter) -> list[Figure]:
    """Every figure of a letter."""
    return [b for s in letter.sections for b in s.blocks if isinstance(b, Figure)]
