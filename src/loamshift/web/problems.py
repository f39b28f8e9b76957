"""What keeps something from being saved, as faults that a page shows."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from loamshift.domain.message import Given, Message, Prose, message
from loamshift.domain.worded_error import WordedFault, fault, plainly
from loamshift.errors import Fault, InputError

NEAR: Final = "case-did-you-mean"
"""How keys of messages begin that name something near."""


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
