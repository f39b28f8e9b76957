"""What stands under the field of the place: a note that blocks nothing, and names to choose."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Final
from urllib.parse import urlencode

from loamshift.domain.case import Case
from loamshift.domain.names import NameFault
from loamshift.errors import InputError
from loamshift.report.messages import say_sentence
from loamshift.report.words import Words
from loamshift.tables.places import find_place
from loamshift.web.plan.facts import Beside, value_at

PLACE: Final = "place.name"


def place_beside(
    tree: Mapping[str, Any],
    *,
    case: Case | None,
    fields: list[tuple[str, str]],
    words: Words,
) -> dict[str, Beside]:
    """What stands under the field of the place; nothing where one place is meant.

    Parameters
    ----------
    case
        The case, for what its reader noticed; None where it could not be made.
    fields
        What the address says now.
    """
    typed = value_at(tree, PLACE)
    if not typed or value_at(tree, "place.latitude"):
        return {}
    notes = () if case is None else case.notes_on(PLACE)
    others = [(path, value) for path, value in fields if path != PLACE]
    offers = [(name, urlencode([*others, (PLACE, name)])) for name in _meant(typed)]
    note = " ".join(say_sentence(one, words) for one in notes)
    return {PLACE: Beside(note=note, offers=tuple(offers))}


def _meant(typed: str) -> tuple[str, ...]:
    """Names that could be meant; none where it is clear, or nothing is like it."""
    try:
        find_place(typed)
    except NameFault as fault:
        return fault.candidates
    except InputError:
        return ()
    return ()
