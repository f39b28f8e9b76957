"""Every example is answered, whole and in every form, and the set covers what it promises."""

from __future__ import annotations

import json
import math
from functools import cache
from pathlib import Path

import pytest

from loamshift.case.answer import answer_from_json, answer_to_dict, answer_to_json
from loamshift.case.answer_file import answer_file_from_json
from loamshift.case.frozen import FrozenLetter
from loamshift.case.read import read_case
from loamshift.domain.answer import Answer, Decision, Direction
from loamshift.domain.case import Case
from loamshift.report.letter import letter_from_answer
from loamshift.report.markdown import letter_markdown
from loamshift.report.terminal import letter_text
from loamshift.report.words import Words
from loamshift.services.advise import advise
from loamshift.tables.references import load_references

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))
EXPECTED = {
    "bean-rows": Decision.LEAVE,
    "blue-hydrangeas": Decision.EFFORT,
    "cabbage-plot": Decision.GO,
    "camellia-corner": Decision.MEASURE_FIRST,
    "front-lawn": Decision.GO,
    "limy-courtyard": Decision.ELSEWHERE,
    "north-border": Decision.EFFORT,
    "overdone-bed": Decision.STOP,
    "patio-pots": Decision.ELSEWHERE,
    "sandy-patch": Decision.GO,
    "white-oak": Decision.ELSEWHERE,
    "young-orchard": Decision.GO,
}


@cache
def case_of(path: Path) -> Case:
    return read_case(path)


@cache
def answer_of(path: Path) -> Answer:
    return advise(case_of(path))


def test_the_set_covers_every_decision_both_ways_and_ten_cases() -> None:
    answers = [answer_of(path) for path in EXAMPLES]
    assert len(answers) >= 10
    assert {answer.verdict.decision for answer in answers} == set(Decision)
    assert {answer.dose.direction for answer in answers} >= {Direction.ACIDIFY, Direction.LIME}


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_the_decision_is_the_one_the_example_was_written_for(path: Path) -> None:
    assert answer_of(path).verdict.decision is EXPECTED[path.stem]


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_the_json_answer_is_whole_and_comes_back(path: Path) -> None:
    text = answer_to_json(answer_of(path))
    assert list(json.loads(text)) == list(answer_to_dict(answer_of(path)))
    assert json.loads(text)["forecast"] is None
    assert answer_to_json(answer_from_json(text)) == text
    assert all(math.isfinite(value) for value in _numbers(json.loads(text)))


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_the_answer_keeps_case_and_letter(path: Path) -> None:
    words = Words("us", "us")
    letter = letter_from_answer(answer_of(path), case_of(path), words=words)
    frozen = FrozenLetter(letter, words)
    text = answer_to_json(answer_of(path), case=case_of(path), letter=frozen)
    kept = answer_file_from_json(text)
    assert kept.letter == frozen and kept.case() == case_of(path)
    assert answer_to_json(kept.answer, case=kept.case(), letter=kept.letter) == text
    assert answer_to_json(advise(kept.case())) == answer_to_json(answer_of(path))


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
@pytest.mark.parametrize("words", [Words("uk", "metric"), Words("us", "us")], ids=["uk", "us"])
def test_the_letter_prints(path: Path, words: Words) -> None:
    letter = letter_from_answer(answer_of(path), case_of(path), words=words)
    for text in (letter_text(letter, width=88), letter_markdown(letter)):
        assert answer_of(path).name in text
        assert "None" not in text and "nan" not in text.split()
        assert "does not replace a licensed or local adviser" in " ".join(text.split())


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_source_named_is_listed(path: Path) -> None:
    answer = answer_of(path)
    keys = [line.key for line in answer.sources]
    assert len(keys) == len(set(keys))
    assert set(keys) <= set(load_references())


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_the_same_case_gives_the_same_answer(path: Path) -> None:
    assert answer_to_json(advise(read_case(path))) == answer_to_json(answer_of(path))


def _numbers(value: object) -> list[float]:
    if isinstance(value, bool) or value is None or isinstance(value, str):
        return []
    if isinstance(value, int | float):
        return [float(value)]
    if isinstance(value, dict):
        return [number for part in value.values() for number in _numbers(part)]
    assert isinstance(value, list)
    return [number for part in value for number in _numbers(part)]
