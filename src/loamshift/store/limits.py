"""What the store can hold, checked at its one door, so that no page has to trust another."""

from __future__ import annotations

import json
import math
import re
import tomllib
from collections.abc import Iterator, Sequence
from typing import Any, Final, TypeAlias

from django.core.exceptions import ValidationError
from django.db import models

from loamshift.domain.message import Message, message
from loamshift.domain.worded_error import WordedError, fault, given
from loamshift.errors import Fault
from loamshift.store.models import Kept
from loamshift.store.plain import field_value

LARGEST_JSON: Final = 1_000_000
DEEPEST: Final = 20
_UNWRITABLE: Final = re.compile("[\x00\ud800-\udfff]")
_SHOWN: Final = 60
_LARGEST_WHOLE: Final = 2_147_483_647


class Unfit(WordedError):
    """A thing cannot be kept as it is; carries every reason with its field."""

    def __init__(self, faults: Sequence[Fault], *, source: str) -> None:
        self.source = source
        super().__init__(message("store-unfit", name=given(source)), faults)


def check(thing: Kept) -> None:
    """Raise ``Unfit`` where a thing cannot be kept as it stands."""
    faults = faults_in(thing)
    if faults:
        raise Unfit(faults, source=shown(thing))


def faults_in(thing: Kept) -> list[Fault]:
    """Everything that keeps a thing from being kept: lengths, choices, numbers, broken files."""
    faults: list[Fault] = []
    for field in thing._meta.concrete_fields:
        value = getattr(thing, field.attname)
        for wrong, right in _problems(field, value):
            faults.append(fault(field.name, wrong, right, given=shown(value)))
    return faults


def shown(value: object) -> str:
    """The beginning of a value, for messages, without signs that cannot be written."""
    text = _UNWRITABLE.sub("�", str(value))
    return text if len(text) <= _SHOWN else text[: _SHOWN - 1] + "…"


_Problem: TypeAlias = tuple[Message, Message]


def _problems(field: models.Field[Any, Any], value: Any) -> Iterator[_Problem]:
    if field.name in ("office", "sought"):
        return
    if isinstance(field, models.JSONField):
        yield from _json_problems(field, value)
        return
    if value is None:
        if not field.null:
            yield message("store-missing"), message("store-fill-in")
        return
    if isinstance(field, (models.CharField, models.TextField)):
        yield from _text_problems(field, value)
        return
    try:
        held = field_value(field, value)
    except ValidationError:
        yield message("store-wrong-kind"), message("store-write-like-others")
        return
    if isinstance(held, float) and not math.isfinite(held):
        yield message("store-not-a-number"), message("store-write-a-number")
    if isinstance(field, models.PositiveIntegerField) and not 1 <= held <= _LARGEST_WHOLE:
        yield (
            message("store-outside", most=_LARGEST_WHOLE),
            message("store-write-whole-number"),
        )


def _text_problems(field: models.Field[Any, Any], value: Any) -> Iterator[_Problem]:
    if not isinstance(value, str):
        yield message("store-not-a-text"), message("store-write-a-text")
        return
    if _UNWRITABLE.search(value):
        yield message("store-bad-character"), message("store-remove-character")
        return
    if not value.strip() and not field.blank:
        yield message("store-empty"), message("store-fill-in")
    if field.max_length is not None and len(value) > field.max_length:
        yield (
            message("store-too-long", count=len(value)),
            message("store-shorten", most=field.max_length),
        )
    elif field.name == "own_text" and value:
        try:
            tomllib.loads(value)
        except (ValueError, RecursionError) as error:
            yield message("store-not-toml", why=given(error)), message("store-fix-bed-text")
    elif field.name in ("answer_text", "forecast_text") and value:
        try:
            json.loads(value)
        except (ValueError, RecursionError) as error:
            yield message("store-not-json", why=given(error)), message("store-use-answer-as-is")


def _json_problems(field: models.Field[Any, Any], value: Any) -> Iterator[_Problem]:
    if not isinstance(value, dict):
        yield message("store-not-a-table"), message("store-write-a-table")
    elif field.name == "trial_json" and not value:
        yield message("store-trial-unread"), message("store-fix-trial")
    elif not _sound(value, DEEPEST):
        yield message("store-not-storable"), message("store-use-storable", deepest=DEEPEST)
    elif len(json.dumps(value)) > LARGEST_JSON:
        less = message("store-shorten", most=LARGEST_JSON)
        yield (
            message("store-plan-too-large"),
            message("store-draw-less") if field.name == "plan" else less,
        )


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
