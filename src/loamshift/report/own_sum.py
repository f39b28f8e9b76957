"""The sum behind a number of one bed, in words and figures: equation lines, inputs, notes."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from typing import Final

from loamshift.domain.field_name import field_in_text
from loamshift.domain.message import Given, Measure, Message, Quantity, message
from loamshift.domain.own_sum import Origin, OwnSum, SumInput, SumStep, SumUnit
from loamshift.report.messages import say, say_each
from loamshift.report.words import Words

_SYMBOL: Final = re.compile(r"\{([^{}]+)\}")
_TWICE_MINUS: Final = re.compile(r"(?<![^\s(])−\(−([^()]*)\)")
"""A sign turned round where a term begins: ``−(−12)`` is 12."""
_AGREES: Final = 1e-3
"""A sum this near to the answer gives its figure [relative]."""
_READERS: Final = (Quantity.RATE, Quantity.AMOUNT)
"""What a reader of other units is told again in their own."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SaidStep:
    """One step as a reader sees it: what it does, symbols, the same in figures, the outcome.

    ``symbols`` is empty where there is no arithmetic; ``figures`` then names the outcome alone.
    """

    says: str
    symbols: str
    figures: str
    result: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SaidInput:
    """One figure that goes in: symbol, name, value, range, where from, and what opens further.

    ``opens`` is the key of its row in the tables, empty where there is none.
    """

    symbol: str
    name: str
    value: str
    spread: str
    whence: str
    opens: str
    source_key: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SaidSum:
    """A sum as a reader sees it, in texts."""

    title: str
    steps: tuple[SaidStep, ...]
    inputs: tuple[SaidInput, ...]
    notes: tuple[str, ...]
    sure: tuple[str, ...]
    narrow: tuple[str, ...]
    source_keys: tuple[str, ...]


def said_sum(own: OwnSum, *, words: Words) -> SaidSum:
    """A sum in a reader's words."""
    notes = say_each(own.aside.sentences, words)
    if words.units != "metric" and any(step.result is not None for step in own.steps):
        notes.append(say(message("why-metric"), words))
    if not agrees(own):
        notes.append(say(_differs(own, words), words))
    keys = [*own.source_keys, *(one.source_key for one in own.inputs if one.source_key)]
    return SaidSum(
        title=say(own.title, words),
        steps=tuple(said_step(step, words=words) for step in own.steps),
        inputs=tuple(_input(one, words) for one in own.inputs),
        notes=tuple(notes),
        sure=tuple(say_each(own.sure.sentences, words)),
        narrow=tuple(say_each(own.narrow.sentences, words)),
        source_keys=tuple(dict.fromkeys(keys)),
    )


def agrees(own: OwnSum) -> bool:
    """Whether a sum gives the figure of its answer, within rounding."""
    told = own.answer_value
    return told is None or math.isclose(own.last.value, told, rel_tol=_AGREES, abs_tol=1e-6)


def said_step(step: SumStep, *, words: Words) -> SaidStep:
    """One step in a reader's words."""
    return SaidStep(
        says=say(step.says, words),
        symbols=_SYMBOL.sub(lambda found: found[1], step.formula),
        figures=in_figures(step, words=words),
        result=_result(step, words),
    )


def in_figures(step: SumStep, *, words: Words) -> str:
    """The formula of a step with the figures of the bed in it, and what comes out.

    Returns
    -------
    str
        ``225 kg/m² = 10 × 15 cm × 1.5 g/cm³``, or the outcome alone without a formula.
    """
    outcome = figure(step.value, step.unit, words)
    if not step.formula:
        return f"{step.symbol} = {outcome}"
    by_symbol = {one.symbol: one for one in step.inputs}
    right = step.formula.split(" = ", 1)[1]

    def put_in(found: re.Match[str]) -> str:
        one = by_symbol[found[1]]
        text = figure(one.value, one.unit, words)
        before = right[: found.start()].rstrip()
        negative = one.value < 0.0 and bool(before) and not before.endswith(("(", ","))
        return f"({text})" if negative else text

    put = _TWICE_MINUS.sub(r"\1", _SYMBOL.sub(put_in, right))
    return f"{step.symbol} = {put} = {outcome}"


def figure(value: float, unit: SumUnit, words: Words) -> str:
    """A number of a sum with its unit, for a value [its unit] and a reader."""
    text = words.worked(value).replace("-", "−")
    return words.message(f"why-unit-{unit.value}", {"n": 1 if text == "1" else text})


def _result(step: SumStep, words: Words) -> str:
    if step.day is not None:
        return say(message("why-result-day", day=step.day), words)
    told: Measure | None = step.result
    if told is None:
        return ""
    if told.kind is Quantity.IN_100:
        return say(message("why-result-in-100", result=told), words)
    if told.kind in _READERS and words.units == "metric":
        return ""
    return "" if told.kind is Quantity.PH else say(message("why-result", result=told), words)


def _input(one: SumInput, words: Words) -> SaidInput:
    spread = ""
    if one.low is not None and one.high is not None and one.low != one.high:
        low = words.worked(one.low).replace("-", "−")
        high = words.worked(one.high).replace("-", "−")
        spread = words.message("unit-range", {"low": low, "high": high})
    return SaidInput(
        symbol=one.symbol,
        name=say(one.name, words),
        value=figure(one.value, one.unit, words),
        spread=spread,
        whence=say(_whence(one), words),
        opens=one.row,
        source_key=one.source_key,
    )


def _whence(one: SumInput) -> Message:
    match one.origin:
        case Origin.CASE:
            return message("why-from-case", field=field_in_text(one.path))
        case Origin.ASSUMED:
            return message("why-from-assumed", field=field_in_text(one.path))
        case Origin.TABLE if one.row:
            return message("why-from-table", row=Given(one.row))
        case Origin.TABLE if one.path == "place":
            return message("why-from-place")
        case Origin.TABLE:
            return message("why-from-published")
        case Origin.BEDS:
            return message("why-from-beds")
        case Origin.STEP:
            return message("why-from-step")
        case _:
            return message("why-from-fixed")


def _differs(own: OwnSum, words: Words) -> Message:
    assert own.answer_value is not None
    unit = own.last.unit
    return message(
        "why-differs",
        today=Given(figure(own.last.value, unit, words)),
        then=Given(figure(own.answer_value, unit, words)),
    )
