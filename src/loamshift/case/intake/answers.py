"""Answers to the questions of a file: checked, brought to one spelling, remembered in a file."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Mapping
from datetime import date
from pathlib import Path
from typing import Final

from loamshift.case.intake.asked import CONVERT, IGNORE
from loamshift.case.intake.checks import SWAPPED_KEY
from loamshift.case.intake.days import ORDER_KEY
from loamshift.case.intake.figures import Commas, Order, read_day
from loamshift.case.intake.headings import plain_words
from loamshift.case.intake.history import DOUBLES_KEY, KEPT
from loamshift.case.intake.keys import BUFFER_METHOD, DEPTH, PH_METHOD
from loamshift.case.intake.lab_units import unit_of
from loamshift.case.intake.proposal import Aspect, Finding, Proposal
from loamshift.case.intake.refused import refuse
from loamshift.case.intake.rows import DAY_KEY, DEPTH_KEY, KEEP, LEAVE_OUT
from loamshift.case.mend import Mend, Refused, in_english, shown
from loamshift.case.questions import questions_by_path
from loamshift.case.toml_string import toml_string
from loamshift.domain.message import Given, Listed, Message, message
from loamshift.domain.worded_error import fault
from loamshift.errors import Fault
from loamshift.tables.header_words import load_header_words
from loamshift.tables.laboratory import load_buffer_ph_methods

COMMA_KEY: Final = "numbers: comma"
LARGEST_MAP: Final = 1_000_000
_EC_METHODS: Final = ("paste", "1:1", "1:2", "1:5")
_CHOICES: Final[Mapping[str, tuple[str, ...]]] = {
    ORDER_KEY: tuple(one.value for one in Order),
    COMMA_KEY: (Commas.DECIMAL.value, Commas.THOUSANDS.value),
    DOUBLES_KEY: KEPT,
    SWAPPED_KEY: (KEEP, LEAVE_OUT),
}
_BY_ASPECT: Final[Mapping[str, tuple[str, ...]]] = {
    "outside": (KEEP, LEAVE_OUT),
    "mixed units": (CONVERT, IGNORE),
}


def plain_key(key: str) -> str:
    """The key of a question however its heading is spelled.

    >>> plain_key("pH (H₂O): Method")
    'ph h2o: method'
    """
    heading, _, aspect = key.rpartition(":")
    return f"{plain_words(heading)}: {aspect.strip().casefold()}"


def checked_answers(answers: Mapping[str, str], *, source: str) -> dict[str, str]:
    """Answers as they are used: keys in one spelling, and values that exist.

    Raises
    ------
    Refused
        With every answer that is none, and what could be answered.
    """
    found: dict[str, str] = {}
    faults: list[Fault] = []
    for key, value in answers.items():
        plain = plain_key(key)
        taken, choices = _checked(plain, value.strip())
        if taken is None:
            wrong = message("intake-answer-unknown", given=Given(shown(value)))
            listed = Listed(tuple(Given(f"“{one}”") for one in choices), either=True)
            faults.append(
                fault(key, wrong, message("intake-answer-one-of", choices=listed), given=value)
            )
        else:
            found[plain] = taken
    if faults:
        raise Refused(message("intake-answers-wrong", file=Given(source)), faults)
    return found


def _checked(key: str, value: str) -> tuple[str | None, tuple[str, ...]]:
    """The value as it is used, or None; and what it could be."""
    aspect = key.rpartition(":")[2].strip()
    choices = _CHOICES.get(key) or _BY_ASPECT.get(aspect)
    if aspect == "bed":
        return value or None, ()
    if choices:
        return next((one for one in choices if one == value.casefold()), None), choices
    if key == DEPTH_KEY:
        return _parsed(DEPTH, value), ("15 cm", "6 in")
    if key == DAY_KEY:
        day = read_day(value, None)
        return None if day is None else day.isoformat(), ("2026-04-12",)
    if aspect == Aspect.UNIT.value:
        unit = unit_of(value)
        return unit or None, ("%", "g/kg", "mg/kg", "cmolc/kg", "mmolc/kg", "t/ha", "cm", "in")
    if aspect == Aspect.METHOD.value:
        return _method(value)
    keys = {word.key for many in load_header_words().values() for word in many}
    if aspect == Aspect.MEANING.value:
        known = value if value in keys or value == IGNORE else None
        return known, (*sorted(keys), IGNORE)
    return None, (f"{key.partition(':')[0]}: method", *_CHOICES)


def _method(value: str) -> tuple[str | None, tuple[str, ...]]:
    methods = load_buffer_ph_methods()
    if value in _EC_METHODS:
        return value, ()
    if parsed := _parsed(PH_METHOD, value):
        return parsed, ()
    named = next((name for name in methods if name.casefold() == value.casefold()), None)
    if named is None and _parsed(BUFFER_METHOD, value):
        named = value
    return named, (*questions_by_path()[PH_METHOD].choices, *_EC_METHODS, *methods)


def _parsed(path: str, value: str) -> str | None:
    try:
        found = questions_by_path()[path].reads.parse(value)
    except (Mend, ValueError):
        return None
    return str(found) if path == PH_METHOD else value


def typed_answers(texts: Iterable[str]) -> dict[str, str]:
    """Answers typed as ``pH: method=CaCl2``.

    Raises
    ------
    Refused
        Where a text has no equals sign.
    """
    found = {}
    for text in texts:
        key, equals, value = text.partition("=")
        if not equals or ":" not in key:
            raise Refused(message("intake-answer-form", given=Given(shown(text))))
        found[key.strip()] = value.strip().strip('"')
    return found


def read_map(path: Path) -> dict[str, str]:
    """What was answered before for files of a laboratory; nothing where there is no file yet.

    Raises
    ------
    Refused
        Where the file cannot be read or holds an answer that is none.
    """
    try:
        with path.open("rb") as handle:
            data = handle.read(LARGEST_MAP + 1)
    except FileNotFoundError:
        return {}
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or str(error)
        raise refuse("intake-unreadable", file=str(path), why=why) from None
    try:
        tree = tomllib.loads(data[:LARGEST_MAP].decode("utf-8-sig"))
    except (UnicodeDecodeError, tomllib.TOMLDecodeError, RecursionError, ValueError) as error:
        raise refuse("intake-map-not-toml", file=str(path), why=str(error)) from None
    answers = tree.get("answers", {})
    if not isinstance(answers, dict) or set(tree) - {"answers", "laboratory"}:
        raise refuse("intake-map-keys", file=str(path))
    plain = {
        key: value.isoformat() if isinstance(value, date) else str(value)
        for key, value in answers.items()
    }
    return checked_answers(plain, source=str(path))


def map_text(before: str, proposal: Proposal, answers: Mapping[str, str]) -> str:
    """A mapping file with new answers, and with each open question as a comment to be filled in.

    What stands in the file stays as it is, its comments too; nothing is asked twice.

    Parameters
    ----------
    before
        The file as it is; empty where there is none yet.
    answers
        New answers, as typed.
    """
    head = before or "".join(f"# {line}\n" for line in _head()) + "\n[answers]\n"
    lines = [
        f"{toml_string(key)} = {toml_string(value)}"
        for key, value in answers.items()
        if not _stands(key, before)
    ]
    told = {plain_key(key) for key in answers}
    for one in proposal.questions:
        if one.key and not _stands(one.key, before) and plain_key(one.key) not in told:
            pair = f"{toml_string(one.key)} = {toml_string(_example(one))}"
            lines.append(f"# {pair}  # {_asked(one)}")
    if not lines and before:
        return before
    return head.rstrip("\n") + "\n" + "".join(f"{line}\n" for line in lines)


def _stands(key: str, text: str) -> bool:
    wanted = f"{toml_string(key)} ="
    return any(line.lstrip("# ").startswith(wanted) for line in text.splitlines())


def _head() -> list[str]:
    return [in_english(Message(key)) for key in ("intake-map-head", "intake-map-how")]


def _example(one: Finding) -> str:
    return one.choices[0] if one.choices else "15 cm" if one.key == DEPTH_KEY else "2026-04-12"


def _asked(one: Finding) -> str:
    question = in_english(one.question) if one.question is not None else ""
    return f"{question} {', '.join(one.choices)}".strip()
