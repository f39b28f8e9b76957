from __future__ import annotations

import io

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.console import Console

from loamshift.domain.letter import (
    Align,
    Column,
    Items,
    Letter,
    Note,
    Paragraph,
    Section,
    Table,
)
from loamshift.report.layout import letter_lines, plain_text
from loamshift.report.markdown import letter_markdown
from loamshift.report.terminal import letter_text, print_letter

LETTER = Letter(
    "North border",
    "20 April 2026",
    (
        Section(
            None,
            (
                Paragraph(
                    "**Leave it.** The reading is what the plant likes, and no dose of sulfur "
                    "would make it like the bed better; **98 g/m²** would be wasted."
                ),
            ),
        ),
        Section(
            "What to put on",
            (
                Table(
                    (Column("Date"), Column("Material"), Column("Rate", Align.RIGHT)),
                    (
                        ("20 April 2026", "elemental sulfur, powder", "98 g/m²"),
                        ("1 August 2026", "elemental sulfur, prills, only if asked for", "9 g/m²"),
                    ),
                    "The parts",
                ),
                Items(("wait", "test again"), numbered=True),
                Note("Never add water to acid.", "Care"),
            ),
        ),
    ),
)

PLAIN = """\
North border
20 April 2026
─────────────

Leave it. The reading is what the plant
likes, and no dose of sulfur would make it
like the bed better; 98 g/m² would be
wasted.

What to put on
The parts
Date           Material               Rate
─────────────  ──────────────────  ───────
20 April 2026  elemental sulfur,   98 g/m²
               powder
1 August 2026  elemental sulfur,    9 g/m²
               prills, only if
               asked for

1. wait
2. test again

│ Care: Never add water to acid.
"""

MARKDOWN = """\
# North border

20 April 2026

**Leave it.** The reading is what the plant likes, and no dose of sulfur would make it like \
the bed better; **98 g/m²** would be wasted.

## What to put on

**The parts**

| Date | Material | Rate |
| --- | --- | ---: |
| 20 April 2026 | elemental sulfur, powder | 98 g/m² |
| 1 August 2026 | elemental sulfur, prills, only if asked for | 9 g/m² |

1. wait
2. test again

> **Care:** Never add water to acid.
"""


def test_plain_text_is_laid_out_as_agreed() -> None:
    assert letter_text(LETTER, width=42) == PLAIN


def test_markdown_is_written_as_agreed() -> None:
    assert letter_markdown(LETTER) == MARKDOWN


def printed(*, width: int, colour: bool) -> str:
    out = io.StringIO()
    console = Console(
        file=out, width=width, force_terminal=colour, color_system="standard" if colour else None
    )
    print_letter(LETTER, console)
    return out.getvalue()


def test_a_console_without_colour_prints_the_plain_text() -> None:
    assert printed(width=42, colour=False) == PLAIN


def test_a_terminal_gets_bold_and_the_same_words() -> None:
    import re

    text = printed(width=42, colour=True)
    assert "\x1b[1mLeave it." in text
    assert re.sub(r"\x1b\[[0-9;]*m", "", text) == PLAIN


def test_no_line_is_wider_than_88_even_on_a_wide_terminal() -> None:
    assert max(map(len, printed(width=200, colour=False).splitlines())) <= 88


WORDS = st.text(st.sampled_from("abc98 ²°-*_|#`[]"), max_size=60)


@st.composite
def letters(draw: st.DrawFn) -> Letter:
    paragraph = Paragraph(draw(WORDS))
    items = Items(tuple(draw(st.lists(WORDS, max_size=3))), draw(st.booleans()))
    cells = st.tuples(WORDS, WORDS)
    table = Table(
        (Column(draw(WORDS)), Column("n", Align.RIGHT)),
        tuple(draw(st.lists(cells, max_size=3))),
        draw(st.none() | WORDS),
    )
    note = Note(draw(WORDS), draw(WORDS))
    return Letter(
        "T",
        draw(WORDS),
        (Section(draw(st.none() | WORDS), (paragraph, items)), Section("S", (table, note))),
    )


@given(letters(), st.integers(min_value=1, max_value=120))
def test_no_line_ends_in_a_space_and_the_text_is_stable(letter: Letter, width: int) -> None:
    text = plain_text(letter_lines(letter, width=width))
    assert all(line == line.rstrip(" ") for line in text.split("\n"))
    assert text == plain_text(letter_lines(letter, width=width))
    marked = letter_markdown(letter)
    assert all(line == line.rstrip() for line in marked.split("\n"))
    assert marked.endswith("\n")


@given(st.lists(st.text(st.sampled_from("abcdefg"), min_size=1, max_size=12), max_size=40))
def test_wrapping_keeps_every_word_in_order_and_in_width(words: list[str]) -> None:
    letter = Letter("t", "", (Section(None, (Paragraph(" ".join(words)),)),))
    text = plain_text(letter_lines(letter, width=40))
    assert text.split()[2:] == words
    assert all(len(line) <= 40 for line in text.splitlines())


def test_a_figure_stays_with_its_unit() -> None:
    sentence = "x" * 30 + " 98 g/m² and pH 5.5"
    letter = Letter("t", "", (Section(None, (Paragraph(sentence),)),))
    for width in range(34, 52):
        lines = plain_text(letter_lines(letter, width=width)).splitlines()
        assert not any(line.endswith(("98", "pH")) for line in lines), width


def test_markdown_makes_marks_literal() -> None:
    letter = Letter("a_b", "", (Section(None, (Paragraph("1. [x] a*b <i> **bold**"),)),))
    assert letter_markdown(letter) == "# a\\_b\n\n1\\. \\[x\\] a\\*b \\<i\\> **bold**\n"


def test_a_row_must_fit_its_columns() -> None:
    with pytest.raises(ValueError, match="not 1"):
        Table((Column("one"),), (("a", "b"),))
