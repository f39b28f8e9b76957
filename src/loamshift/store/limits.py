"""What the store can hold, checked at its one door, so that no page has to trust another."""

from __future__ import annotations

import json
import math
import re
import tomllib
from collections.abc import Iterator, Sequence
from typing import Any, Final

from django.core.exceptions import ValidationError
from django.db import models

from loamshift.errors import Fault, InputError
from loamshift.store.models import Kept
from loamshift.store.plain import field_value

LARGEST_JSON: Final = 1_000_000
DEEPEST: Final = 20
_UNWRITABLE: Final = re.compile("[\x00\ud800-\udfff]")
_SHOWN: Final = 60


class Unfit(InputError):
    """A thing cannot be kept as it is; carries every reason with its field."""

    def __init__(self, faults: Sequence[Fault], *, source: str) -> None:
        self.faults = tuple(faults)
        self.source = source
        super().__init__("\n".join([f"{source} cannot be kept:", *(f"  {f}" for f in faults)]))


def check(thing: Kept) -> None:
    """Raise ``Unfit`` where a thing cannot be kept as it stands."""
    faults = faults_in(thing)
    if faults:
        raise Unfit(faults, source=f"“{shown(str(thing))}”")


def faults_in(thing: Kept) -> list[Fault]:
    """Everything that keeps a thing from being kept: lengths, choices, numbers, broken files."""
    faults: list[Fault] = []
    for field in thing._meta.concrete_fields:
        value = getattr(thing, field.attname)
        for problem, mend in _problems(field, value):
            faults.append(Fault(field.name, shown(value), problem, mend))
    return faults


def shown(value: object) -> str:
    """The beginning of a value, for messages, without signs that cannot be written."""
    text = _UNWRITABLE.sub("�", str(value))
    return text if len(text) <= _SHOWN else text[: _SHOWN - 1] + "…"


def _problems(field: models.Field[Any, Any], value: Any) -> Iterator[tuple[str, str]]:
    if field.name in ("office", "sought"):
        return
    if isinstance(field, models.JSONField):
        yield from _json_problems(value)
        return
    if value is None:
        if not field.null:
            yield "it is missing", "Fill it in."
        return
    if isinstance(field, (models.CharField, models.TextField)):
        yield from _text_problems(field, value)
        return
    try:
        held = field_value(field, value)
    except ValidationError:
        yield "it is of the wrong kind", "Write it as the other entries have it."
        return
    if isinstance(held, float) and not math.isfinite(held):
        yield "it is no number", "Write a number, or leave it out."
    if isinstance(field, models.PositiveIntegerField) and not 1 <= held <= 2_147_483_647:
        yield "it is outside 1 to 2147483647", "Write a whole number from 1 up."


def _text_problems(field: models.Field[Any, Any], value: Any) -> Iterator[tuple[str, str]]:
    if not isinstance(value, str):
        yield "it is no text", "Write a text."
        return
    if _UNWRITABLE.search(value):
        yield "it holds a sign that cannot be kept (NUL or half a pair)", "Take that sign out."
        return
    if not value.strip() and not field.blank:
        yield "it is empty", "Fill it in."
    if field.max_length is not None and len(value) > field.max_length:
        yield f"it has {len(value)} signs", f"Shorten it to {field.max_length}."
    elif field.name == "case_text":
        try:
            tomllib.loads(value)
        except (tomllib.TOMLDecodeError, RecursionError) as fault:
            yield f"it is not TOML ({fault})", "Mend the case file."
    elif field.name == "answer_text":
        try:
            json.loads(value)
        except (ValueError, RecursionError) as fault:
            yield f"it is not JSON ({fault})", "Use the answer as loamshift wrote it."


def _json_problems(value: Any) -> Iterator[tuple[str, str]]:
    if not isinstance(value, dict):
        yield "it is no table", "Write a table of keys and values."
    elif not _sound(value, DEEPEST):
        yield (
            "it holds something that cannot be kept, or is nested too deeply",
            f"Use texts, finite numbers, yes or no, lists and tables, at most {DEEPEST} deep.",
        )
    elif len(json.dumps(value)) > LARGEST_JSON:
        yield "it is larger than 1 MB", "Draw fewer points."


def _sound(value: Any, depth: int) -> bool:
    if depth < 0:
        return False
    if isinstance(value, dict):
        return all(
            isinstance(key, str) and _sound(key, 0) and _sound(one, depth - 1)
            for key, one in value.items()
        )
    if isinstance(value, (list, tuple)):
        return all(_sound(one, depth - 1) for one in value)
    if isinstance(value, str):
        return not _UNWRITABLE.search(value)
    if isinstance(value, float):
        return math.isfinite(value)
    if isinstance(value, int):
        return abs(value) < 10**30
    return value is None
