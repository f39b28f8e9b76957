"""Messages of a kept answer that today's words ask more of: the text that was said stays."""

from __future__ import annotations

import json
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any, Final

import pytest

from loamshift.case.answer import answer_from_json, answer_to_dict, answer_to_json
from loamshift.case.read import read_case
from loamshift.domain.answer import Answer
from loamshift.domain.case import Case
from loamshift.domain.message import Message, Prose, message, ph
from loamshift.report.letter import letter_from_answer
from loamshift.report.messages import can_say
from loamshift.report.words import Words
from loamshift.services.advise import advise

EXAMPLES: Final = Path(__file__).parents[2] / "examples"
NAMES: Final = ("blue-hydrangeas", "limy-courtyard", "overdone-bed", "patio-pots", "young-orchard")


@cache
def kept(name: str) -> tuple[Case, str]:
    case = read_case(EXAMPLES / f"{name}.toml")
    return case, answer_to_json(advise(case), case=case)


def messages_in(plain: Any) -> Iterator[dict[str, Any]]:
    """Every message in plain data, those inside others too."""
    if isinstance(plain, dict):
        if "message" in plain:
            yield plain
        for value in plain.values():
            yield from messages_in(value)
    elif isinstance(plain, list):
        for value in plain:
            yield from messages_in(value)


def texts(answer: Answer) -> dict[str, Any]:
    """Everything an answer says, as text."""
    plain = answer_to_dict(answer)
    del plain["said"]
    return plain


@pytest.mark.parametrize("name", NAMES)
def test_an_answer_that_lacks_values_or_words_says_what_it_said(name: str) -> None:
    """Every value of every message is taken away in turn, and every key made unknown."""
    _, text = kept(name)
    whole = texts(answer_from_json(text))
    count = len(list(messages_in(json.loads(text)["said"])))
    assert count > 10
    for place in range(count):
        for change in ("values", "key"):
            plain = json.loads(text)
            found = list(messages_in(plain["said"]))[place]
            if change == "key":
                found["message"] = "no-such-message"
            elif not found["values"]:
                continue
            else:
                found["values"] = {}
            assert texts(answer_from_json(json.dumps(plain))) == whole, found


@pytest.mark.parametrize("name", NAMES)
def test_a_letter_is_written_from_an_answer_without_any_of_its_values(name: str) -> None:
    case, text = kept(name)
    plain = json.loads(text)
    for one in messages_in(plain["said"]):
        one["values"] = {}
    answer = answer_from_json(json.dumps(plain))
    letter = letter_from_answer(answer, case, words=Words())
    assert letter.sections
    because = json.loads(text)["verdict"]["because"]
    assert answer.verdict.because == because


def test_what_has_all_its_values_is_a_message_again() -> None:
    _, text = kept("young-orchard")
    assert isinstance(answer_from_json(text).verdict.because, (Prose, Message))


@pytest.mark.parametrize(
    ("one", "holds"),
    [
        (message("verdict-too-acid-change", limit=ph(4.0)), True),
        (message("verdict-too-acid-change"), False),
        (message("verdict-nothing-of-the-kind"), False),
        (message("applied-on", product=message("verdict-too-acid-change"), days=None), False),
        (message("verdict-need", direction="lime", since="on", aim=ph(5.0), need=ph(1.0)), True),
        (message("verdict-need", direction="lime", since="none", aim=ph(5.0), need=ph(1.0)), False),
    ],
)
def test_a_message_can_be_said_where_the_wording_chosen_has_what_it_names(
    one: Message, holds: bool
) -> None:
    assert can_say(one, Words()) is holds
