"""What keeps something from being saved, as faults that a page shows."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from functools import cache
from typing import Final

from loamshift.case.questions import questions_by_path
from loamshift.domain.message import Given, Message, Prose, Value, message
from loamshift.domain.worded_error import WordedFault, fault, plainly
from loamshift.errors import Fault, InputError
from loamshift.report.messages.refusal import fault_text
from loamshift.report.words import Words
from loamshift.web.beds.case_form import asked_as

NEAR: Final = "case-did-you-mean"
"""How keys of messages begin that name something near."""

IN_A_FORM: Final[Mapping[str, str]] = {
    "case-where-names-are": "case-where-names-are-in-form",
    "case-limit-or-nothing": "case-limit-or-nothing-in-form",
    "case-words-or-nothing": "case-words-or-nothing-in-form",
    "case-day-wanted": "case-day-wanted-in-form",
    "case-give-area": "case-give-area-in-form",
    "case-amount-or-rate": "case-amount-or-rate-in-form",
    "case-feed-keep-one": "case-feed-keep-one-in-form",
    "case-keep-label": "case-keep-label-in-form",
    "map-no-ph-column": "map-no-ph-column-in-form",
    "map-method-missing": "map-method-missing-in-form",
    "map-crs-missing": "map-crs-missing-in-form",
    "map-no-degrees": "map-no-degrees-in-form",
    "map-boundary-small": "map-boundary-small-in-form",
}
"""Messages that speak of commands and keys, and what a page says in their place."""
_KEY: Final = re.compile(r"(?<![\w.])[a-z]+(?:[._][a-z0-9]+)+(?![\w.]*\w)")


def told(found: Fault, words: Words) -> str:
    """What is wrong and what works instead, for somebody who sees a form and no file.

    Returns
    -------
    str
        Whole sentences that name no command, and call keys what the form calls them.
    """
    if isinstance(found, WordedFault):
        said_here = tuple(_in_a_form(one) for one in found.said.sentences)
        found = replace(found, said=Prose(said_here))
    names = _names(words)
    return _KEY.sub(lambda key: names.get(key[0], key[0]), fault_text(found, words))


def _in_a_form(said: Message) -> Message:
    """A message as a page has it; the example of a list without its brackets."""
    values: dict[str, Value] = dict(said.values)
    example = values.get("example")
    if isinstance(example, Given):
        values["example"] = Given(example.text.strip("[]"))
    return Message(IN_A_FORM.get(said.key, said.key), values)


@cache
def _names(words: Words) -> dict[str, str]:
    """What the form calls each key, by its path and by its last word where that is enough."""
    named: dict[str, str] = {}
    several: set[str] = set()
    for path in questions_by_path():
        key = path.rpartition(".")[2]
        if key in named:
            several.add(key)
        named[path] = named[key] = f"“{asked_as(path, words)}”"
    return {key: name for key, name in named.items() if key not in several or "." in key}


def whole_fault(error: InputError, *, path: str = "", mend: Message | None = None) -> Fault:
    """An error as a fault of a whole page, or of one field.

    Parameters
    ----------
    path
        The field that is to blame; empty where none is.
    mend
        What works instead, where the error does not say it.

    Returns
    -------
    Fault
        With the messages of the error, or its text where it has none.
    """
    said = getattr(error, "said", None)
    if said is None:
        text = str(error).strip()
        said = message("verbatim", text=Given(text if text.endswith((".", ":")) else f"{text}."))
    prose = said if isinstance(said, Prose) else Prose((said,))
    for one in getattr(error, "faults", ()):
        if isinstance(one, WordedFault):
            prose += one.said
    if mend is not None:
        prose += Prose((mend,))
    return WordedFault(path, "", plainly(said), "" if mend is None else plainly(mend), prose)


def names_another(found: Fault) -> bool:
    """True where a fault says which known name is near to what was typed."""
    said = found.said.sentences if isinstance(found, WordedFault) else ()
    return any(one.key.startswith(NEAR) for one in said)


def with_mend(found: Fault, right: Message) -> Fault:
    """A fault with another sentence of what works instead."""
    if isinstance(found, WordedFault) and found.said:
        wrong = found.said.sentences[0]
    else:
        text = found.problem[:1].upper() + found.problem[1:].rstrip(".")
        wrong = message("verbatim", text=Given(f"{text}."))
    return fault(found.path, wrong, right, given=found.given)


def without_keys(found: Fault) -> Fault:
    """A fault whose examples are as a cell has them: without a key and its quotation marks."""
    if not isinstance(found, WordedFault):
        return found
    bare = []
    for one in found.said.sentences:
        if "example" in one.values and "key" in one.values:
            values = {
                name: Given(value.text.replace('"', "")) if isinstance(value, Given) else value
                for name, value in one.values.items()
            }
            one = message(one.key, **{**values, "key": Given("")})
        bare.append(one)
    return replace(found, said=Prose(tuple(bare)))
