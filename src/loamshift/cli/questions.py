"""The questions of ``loamshift new``, in the order an adviser asks them."""

from __future__ import annotations

import sys
from dataclasses import dataclass
from datetime import date
from typing import Final

from loamshift.cli.case_options import Answers, case_from, figure
from loamshift.cli.show import warn
from loamshift.errors import CaseError, InputError


@dataclass(frozen=True, slots=True)
class Question:
    """One question: the key it fills, how it is put, and what helps to answer it.

    ``only_if`` names a key that must have been answered first.
    """

    key: str
    text: str
    hint: str = ""
    only_if: str = ""
    unless: str = ""


QUESTIONS: Final = (
    Question("name", "What do you call the bed?"),
    Question("aim.plant", "What is to grow there?", "several with commas; Enter for a target pH"),
    Question("aim.target_ph", "Which pH do you want?", unless="aim.plant"),
    Question("bed.planted", "Is it planted already?", "yes or no"),
    Question("soil.ph", "Which pH did the soil read?", "Enter if nobody has read it"),
    Question(
        "soil.ph_method",
        "How was it read?",
        "water 1:1, water 1:2.5, water 1:5, CaCl2, KCl, paste, probe, strip, unknown",
        only_if="soil.ph",
    ),
    Question("soil.sampled", "When was it sampled?", "as 2026-03-20", only_if="soil.ph"),
    Question("soil.sample_depth", "From how deep?", "as 15 cm or 6 in", only_if="soil.ph"),
    Question(
        "soil.fizz",
        "Does a drop of acid make the soil fizz?",
        "none, slight, moderate, strong, extreme",
    ),
    Question("soil.fizz_acid", "Which acid was it?", "HCl or vinegar", only_if="soil.fizz"),
    Question("soil.texture", "How does the soil feel?", "sand, sandy loam, loam, clay loam, clay"),
    Question("soil.organic_matter_pct", "How much organic matter, in %?", "3 is a usual garden"),
    Question("bed.kind", "What kind of bed?", "ground, raised, container, lawn, field"),
    Question("bed.area", "How large is it?", "as 20 m2, 215 sq ft or 5 x 4 m"),
    Question("bed.depth", "How deep can you work material in?", "as 15 cm or 6 in"),
    Question("bed.drainage", "How does water leave it?", "free, slow, waterlogged"),
    Question("water.alkalinity", "Alkalinity of the water you give?", "as 180 mg/L CaCO3"),
    Question("water.weekly", "How much do you give in a dry week?", "as 25 mm or 500 L"),
    Question("place.name", "Which known town is nearest?", "loamshift places lists them"),
    Question("units", "Print metric or us units?", "metric or us"),
)

_YES: Final = ("y", "yes", "true")
_NO: Final = ("n", "no", "false")


def ask_all(*, today: date) -> Answers:
    """Ask every question; a wrong answer is explained and asked again.

    Parameters
    ----------
    today
        The date that past events are checked against [calendar].

    Returns
    -------
    dict
        Dotted keys of the case file with the answers given [any].
    """
    warn("Enter passes a question by; Ctrl-C stops and writes nothing.")
    answers: Answers = {}
    for question in QUESTIONS:
        if question.only_if and question.only_if not in answers:
            continue
        if question.unless and question.unless in answers:
            continue
        _ask(question, answers, today=today)
    return answers


def _ask(question: Question, answers: Answers, *, today: date) -> None:
    prompt = question.text + (f" ({question.hint})" if question.hint else "")
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
        raise InputError("the answers ended before the questions did; nothing was written")
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
    try:
        case_from(answers, today=today)
    except CaseError as error:
        return [
            f"{fault.problem[:1].upper()}{fault.problem[1:]}. {fault.mend}"
            for fault in error.faults
            if fault.path == key or fault.path.startswith((f"{key}[", f"{key}."))
        ]
    return []
