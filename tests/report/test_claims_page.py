from __future__ import annotations

from dataclasses import replace

import pytest

from loamshift.domain.answer import Answer
from loamshift.domain.case import Case
from loamshift.domain.letter import Figure, Letter, Matter, Note, Paragraph, Table
from loamshift.domain.message import Prose
from loamshift.report.claims_page import claims_page
from loamshift.report.words import Words
from loamshift.services.claims_asked import claims_asked
from services.beds import bed
from wording import read

UK = Words(spelling="uk", units="metric")


def page(*claims: tuple[str, str], soil: str | None = None) -> tuple[Letter, Answer, Case]:
    more = "".join(f'[[claim]]\nmaterial = "{m}"\namount = "{a}"\n' for m, a in claims)
    case = bed(more=more) if soil is None else bed(soil, more=more)
    answer = claims_asked(case, seed=None)
    return claims_page(answer, case, words=UK), answer, case


def lead(letter: Letter) -> str:
    first = letter.sections[0].blocks[0]
    assert isinstance(first, Paragraph)
    return first.text


def test_one_claim_has_its_verdict_in_the_first_sentence() -> None:
    letter, answer, _ = page(("coffee grounds", "1 kg/m2"))
    assert letter.sections[0].matter is Matter.OPENING
    assert lead(letter).startswith("Spent coffee grounds: ")
    said = " ".join(b.text for b in letter.sections[0].blocks if isinstance(b, Paragraph))
    comment = answer.claims[0].comment
    assert isinstance(comment, Prose) and read(Prose(comment.sentences[1:])) in said


@pytest.mark.parametrize(
    ("amounts", "said"),
    [
        (("10 g/m2", "epsom salt"), "None of these is enough"),
        (("240 g/m2", "epsom salt"), "only sulphur powder would add the acid"),
        (("900 g/m2", "epsom salt"), "would add far more acid than"),
        (("240 g/m2", "aluminium sulphate"), "Two of these add all the acid"),
    ],
)
def test_several_claims_are_weighed_against_each_other(amounts: tuple[str, str], said: str) -> None:
    sulfur, other = amounts
    letter, answer, _ = page(("flowers of sulphur", sulfur), (other, "2 kg/m2"))
    assert said in lead(letter)
    assert [s.heading for s in letter.sections[1:3]].count(None) == 0
    assert len(answer.claims) == 2


def test_none_that_acidifies() -> None:
    letter, _, _ = page(("epsom salt", "50 g/m2"), ("gypsum", "50 g/m2"))
    assert lead(letter) == "None of these adds any of the acid the bed needs."


def test_bars_and_readings_stand_on_the_page() -> None:
    letter, _, _ = page(("vinegar", "1 l/m2"), ("garden lime", "50 g/m2"))
    blocks = letter.sections[0].blocks
    (figure,) = [block for block in blocks if isinstance(block, Figure)]
    assert {row[0] for row in figure.data[0].rows} == {"need", "claim"}
    (table,) = [block for block in blocks if isinstance(block, Table)]
    assert [column.title for column in table.columns[2:]] == ["pH at once", "after a year"]
    assert table.rows[1][1] == "50 g/m²"
    assert any(row[3].startswith("+") for row in table.rows)


def test_a_measure_says_what_it_was_read_as() -> None:
    letter, _, _ = page(("coffee grounds", "2 cups per m2"))
    (note,) = [block for block in letter.sections[0].blocks if isinstance(block, Note)]
    assert note.label == "As read" and "claim[" not in note.text and "Weigh" in note.text


def test_cautions_and_sources_close_the_page() -> None:
    letter, answer, _ = page(("hydrated lime", "50 g/m2"))
    matters = [section.matter for section in letter.sections]
    assert matters[-2:] == [Matter.CARE, Matter.SOURCES]
    assert "caustic-lime" in {caution.code for caution in answer.cautions}
    assert "goggles" in str(letter.sections[-2])


def test_an_unknown_change_is_said_so() -> None:
    _, answer, case = page(("vinegar", "1 l/m2"))
    off = replace(answer, claims=(replace(answer.claims[0], ph_change_now=None),))
    assert "beyond our figures" in str(claims_page(off, case, words=UK))
