"""The sum of a bed as a reader sees it, on the page and in the margin of a letter."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache
from pathlib import Path

import pytest

from loamshift.case.read import parse_case, read_case
from loamshift.domain.answer import Answer
from loamshift.domain.case import Case
from loamshift.domain.letter import Note
from loamshift.domain.own_sum import OwnSum, SumUnit
from loamshift.report.explanation import own_keys_letter, sum_letter
from loamshift.report.margin import LONGEST, margin_notes
from loamshift.report.own_sum import agrees, figure, said_sum
from loamshift.report.sources import source_numbers
from loamshift.report.terminal import letter_text
from loamshift.report.words import Words
from loamshift.services.advise import LookAhead, advise
from loamshift.services.own_sum.margin import margin_sums
from loamshift.services.own_sum.sums import own_keys, own_sums
from loamshift.services.why import explain
from odd_cases.cases import WATER, put_on, read_again, text

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))
READERS = [Words("uk", "metric"), Words("us", "us"), Words("uk", "us", "lawn")]
READ_AGAIN = text(
    soil=f'ph = 6.8\n{WATER}texture = "loam"\nsampled = 2025-03-20\n',
    aim="target_ph = 5.5",
    more=put_on("2025-04-20", "elemental sulfur, powder", "80 g/m2", depth="15 cm")
    + read_again("2026-04-01", 6.6),
)
_NUMBER = re.compile(r"−?\d[\d,]*(?:\.\d+)?")
_UNIT = re.compile(
    r"(?<=\d)(?:%|°C|[ \xa0](?:g/mmolc|g/cm³|g/m²|kg/m²|mmolc/(?:kg|m²|L|g)(?: per pH)?"
    r"|mg/L CaCO3|dS/m|beds?|days?|weeks?|years?|per mol|per kg|cm|mm|m²|g))(?![\w/²³])"
)


@lru_cache(maxsize=16)
def example(path: Path) -> tuple[Case, Answer]:
    case = read_case(path)
    return case, advise(case, look_ahead=LookAhead())


@lru_cache(maxsize=2)
def twice_read() -> tuple[Case, Answer]:
    case = parse_case(READ_AGAIN)
    return case, advise(case, look_ahead=LookAhead())


def printed_pairs(own: OwnSum, words: Words) -> Iterator[tuple[str, float, float]]:
    """Each line of figures that has arithmetic: the line, what it comes to, what it says."""
    for step, said in zip(own.steps, said_sum(own, words=words).steps, strict=True):
        if not step.formula:
            continue
        _, *middle, outcome = said.figures.split(" = ")
        plain = _UNIT.sub("", " = ".join(middle)).replace(",", "\0")
        plain = re.sub(r"(?<=\d)\0(?=\d{3})", "", plain).replace("\0", ",")
        python = plain.replace("×", "*").replace("−", "-").replace("^", "**").replace("\xa0", " ")
        worked = float(eval(python, {"min": min, "max": max, "exp": math.exp}))
        last = _NUMBER.search(outcome)
        assert last is not None
        yield said.figures, worked, float(last[0].replace("−", "-").replace(",", ""))


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_a_reader_who_works_the_printed_sum_out_gets_the_printed_figure(path: Path) -> None:
    for key, own in own_sums(*example(path)).items():
        for line, worked, printed in printed_pairs(own, READERS[0]):
            terms = [
                abs(float(n.replace("−", "-").replace(",", ""))) for n in _NUMBER.findall(line)
            ]
            slack = 1e-3 * max(terms) if " − " in line or " + " in line else 0.0
            assert worked == pytest.approx(printed, rel=5e-3, abs=max(slack, 1e-9)), (key, line)


@pytest.mark.parametrize("words", READERS, ids=lambda w: f"{w.spelling}-{w.units}-{w.ground}")
@pytest.mark.parametrize("path", EXAMPLES[::3], ids=lambda path: path.stem)
def test_every_sum_can_be_printed_for_every_reader(path: Path, words: Words) -> None:
    case, answer = example(path)
    for own in own_sums(case, answer).values():
        page = letter_text(sum_letter(own, explain(own.key), name=case.name, words=words))
        assert case.name in page
        if words.units == "us":
            assert "sulphur" not in page or words.spelling == "uk"
    listing = letter_text(own_keys_letter(own_keys(answer), name=case.name, words=words))
    assert all(key in listing for key in own_keys(answer))


def test_an_american_gets_the_outcome_in_pounds_and_the_sum_in_grams() -> None:
    own = own_sums(*example(EXAMPLES[1]))["dose.sulfur_as_s_g_m2.mid"]
    said = said_sum(own, words=READERS[1])
    assert "g/m²" in said.steps[-1].figures
    assert "lb/100 sq ft" in said.steps[-1].result
    assert any("metric" in note for note in said.notes)
    british = said_sum(own, words=READERS[0])
    assert british.steps[-1].result == ""
    assert not any("metric" in note for note in british.notes)


def test_a_sum_that_does_not_give_the_answer_says_so() -> None:
    own = own_sums(*example(EXAMPLES[1]))["dose.sulfur_as_s_g_m2.mid"]
    assert agrees(own)
    assert own.answer_value is not None
    other = replace(own, answer_value=1.1 * own.answer_value)
    assert not agrees(other)
    notes = said_sum(other, words=READERS[0]).notes
    assert any(figure(other.answer_value or 0.0, SumUnit.G_M2, READERS[0]) in n for n in notes)


@pytest.mark.parametrize("words", READERS[:2], ids=lambda w: w.units)
@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_notes_for_the_margin_are_short_and_carry_the_figure(path: Path, words: Words) -> None:
    case, answer = example(path)
    sums = margin_sums(case, answer)
    numbers = source_numbers(line.key for line in answer.sources)
    notes = margin_notes(sums, numbers=numbers, words=words)
    assert set(notes) == set(sums)
    assert set(notes) <= {"need", "plan", "decides", "expect", "undo", "keep", "claims"}
    for topic, (note, *more) in notes.items():
        assert isinstance(note, Note) and not more
        assert 0 < len(note.text.split()) <= LONGEST, (topic, note.text)
        assert note.label
    if answer.dose.sulfur_as_s_g_m2 is not None:
        assert words.rate(answer.dose.sulfur_as_s_g_m2.mid) in notes["need"][0].text
    if answer.plan is not None and answer.plan.decides:
        assert {"plan", "decides", "expect"} <= set(notes)


def test_the_need_in_the_margin_is_that_of_the_answer_where_readings_taught_something() -> None:
    case, answer = twice_read()
    assert answer.refit is not None and answer.refit.used
    own = margin_sums(case, answer)["need"]
    assert own.answer_value == pytest.approx(own.last.value)


def test_a_source_is_cited_by_its_number_only_where_the_letter_lists_it() -> None:
    case, answer = example(EXAMPLES[1])
    sums = {"need": margin_sums(case, answer)["need"]}
    (note,) = margin_notes(sums, numbers={}, words=READERS[0])["need"]
    assert not note.text.endswith("]")
    key = sums["need"].source_keys[0]
    (note,) = margin_notes(sums, numbers={key: "7"}, words=READERS[0])["need"]
    assert note.text.endswith(" [7]")
