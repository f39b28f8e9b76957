"""What an office may see: every question to the store starts here."""

from __future__ import annotations

from typing import Final, TypeVar

from django.db.models import Q, QuerySet

from loamshift.store.models import Bed, Garden, Kept, Office, SentLetter, Trial
from loamshift.store.models.base import folded

Thing = TypeVar("Thing", bound=Kept)

ABOVE: Final[dict[type[Kept], tuple[str, ...]]] = {
    Garden: ("client",),
    Bed: ("garden", "garden__client"),
    SentLetter: ("bed", "bed__garden", "bed__garden__client"),
    Trial: ("bed", "bed__garden", "bed__garden__client", "client"),
}
"""Whose words also find a thing: a bed is found by the names of its garden and client."""

MOST_WORDS: Final = 8


def kept(model: type[Thing], office: Office) -> QuerySet[Thing]:
    """What this office has and has not put away."""
    return model._default_manager.filter(office=office, deleted_at__isnull=True)


def put_away(model: type[Thing], office: Office) -> QuerySet[Thing]:
    """What this office has put away and may still take back."""
    return model._default_manager.filter(office=office, deleted_at__isnull=False)


def found(things: QuerySet[Thing], text: str) -> QuerySet[Thing]:
    """Those of some things that hold every word of a text, in any order, capitals and accents
    aside; the names of what they lie in count as their own words.

    Parameters
    ----------
    text
        What somebody typed; an empty text finds everything.

    Returns
    -------
    QuerySet
        The things found, in the order they had.
    """
    for word in folded(text).split()[:MOST_WORDS]:
        holds = Q(sought__contains=word)
        for above in ABOVE.get(things.model, ()):
            holds |= Q(**{f"{above}__sought__contains": word})
        things = things.filter(holds)
    return things
