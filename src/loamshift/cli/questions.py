"""The questions of ``loamshift new``, in the order an adviser asks them."""

from __future__ import annotations

import sys
from dataclasses import dataclass
from datetime import date
from typing import Final

from loamshift.cli.case_options import Answers, case_from, figure
from loamshift.cli.show import tell, warn, worded
from loamshift.domain.message import message
from loamshift.domain.worded_error import WordedError
from loamshift.errors import CaseError


@dataclass(frozen=True, slots=True)
class Question:
    """One question: the key it fills, the keys of its message and of what helps to answer it.

    ``only_if`` names a key that must have been answered first.
    """

    key: str
    text: str
    hint: str = ""
    only_if: str = ""
    unless: str = ""


QUESTIONS: Final = (
    Question("name", "cli-ask-name"),
    Question("aim.plant", "cli-ask-plant", "cli-ask-plant-hint"),
    Question("aim.target_ph", "cli-ask-target-ph", unless="aim.plant"),
    Question("bed.planted", "cli-ask-planted", "cli-ask-planted-hint"),
    Question("soil.ph", "cli-ask-ph", "cli-ask-ph-hint"),
    Question("soil.ph_method", "cli-ask-ph-method", "cli-ask-ph-method-hint", only_if="soil.ph"),
    Question("soil.sampled", "cli-ask-sampled", "cli-ask-sampled-hint", only_if="soil.ph"),
    Question("soil.sample_depth", "cli-ask-sample-depth", "cli-ask-depth-hint", only_if="soil.ph"),
    Question("soil.fizz", "cli-ask-fizz", "cli-ask-fizz-hint"),
    Question("soil.fizz_acid", "cli-ask-fizz-acid", "cli-ask-fizz-acid-hint", only_if="soil.fizz"),
    Question("soil.texture", "cli-ask-texture", "cli-ask-texture-hint"),
    Question("soil.organic_matter_pct", "cli-ask-organic-matter", "cli-ask-organic-matter-hint"),
    Question("bed.kind", "cli-ask-kind", "cli-ask-kind-hint"),
    Question("bed.area", "cli-ask-area", "cli-ask-area-hint"),
    Question("bed.depth", "cli-ask-depth", "cli-ask-depth-hint"),
    Question("bed.drainage", "cli-ask-drainage", "cli-ask-drainage-hint"),
    Question("water.alkalinity", "cli-ask-alkalinity", "cli-ask-alkalinity-hint"),
    Question("water.weekly", "cli-ask-weekly", "cli-ask-weekly-hint"),
    Question("place.name", "cli-ask-place", "cli-ask-place-hint"),
    Question("units", "cli-ask-units", "cli-ask-units-hint"),
)

_YES: Final = ("y", "yes", "true")
_NO: Final = ("n", "no", "false")


def ask_all(*, today: date) -> Answers:
    """Ask every question; a wrong answer is explained and asked again."""
    tell(message("cli-new-hint"))
    answers: Answers = {}
    for question in QUESTIONS:
        if question.only_if and question.only_if not in answers:
            continue
        if question.unless and question.unless in answers:
            continue
        _ask(question, answers, today=today)
    return answers


def _ask(question: Question, answers: Answers, *, today: date) -> None:
    asked = message(question.text)
    if question.hint:
        asked = message("cli-new-asked", question=asked, hint=message(question.hint))
    prompt = worded(asked)
    while True:
        text = _typed(prompt)
        if not text:
            return
        trial = {**answers, question.key: _value(question.key, text)}
        faults = _faults(trial, question.key, today=today)
        if not faults:
            answers[question.key] = trial[question.key]
            return
        for fault in faults:
            warn(f"  {fault}")


def _typed(prompt: str) -> str:
    """One line from the keyboard; the prompt goes to stderr, so that stdout is only the file."""
    sys.stderr.write(f"{prompt} ")
    sys.stderr.flush()
    line = sys.stdin.readline()
    if not line:
        raise WordedError(message("cli-new-ended"))
    return line.strip()


def _value(key: str, text: str) -> object:
    if key == "aim.plant":
        return [part.strip() for part in text.split(",") if part.strip()]
    if key == "bed.planted":
        word = text.casefold()
        return True if word in _YES else False if word in _NO else text
    if key == "soil.sampled":
        try:
            return date.fromisoformat(text)
        except ValueError:
            return text
    return figure(key, text)


def _faults(answers: Answers, key: str, *, today: date) -> list[str]:
    """What the reader of case files says about this answer; faults elsewhere wait."""
    from loamshift.report.messages.refusal import fault_text
    from loamshift.report.words import Words

    try:
        case_from(answers, today=today)
    except CaseError as error:
        return [
            fault_text(fault, Words())
            for fault in error.faults
            if fault.path == key or fault.path.startswith((f"{key}[", f"{key}."))
        ]
    return []
