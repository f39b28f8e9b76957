"""The first steps: four sentences, one after another, at the top of the start and plan pages."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Final

from django.http import HttpRequest
from django.urls import reverse

from loamshift.domain.message import Message, message
from loamshift.store.changes import KEPT_DAYS
from loamshift.store.models import Bed, Office
from loamshift.store.scope import kept

ALONE: Final = message("tour-alone")
"""The first step once the example beds are gone."""
STEPS: Final = (
    message("tour-start"),
    message("tour-fields"),
    message("tour-verdict"),
    message("tour-letters", days=KEPT_DAYS),
)
PARAMETER: Final = "tour"


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One step: its sentence, and the addresses of the one before and the one after."""

    number: int
    of: int
    said: Message
    before: str
    after: str
    samples: bool


def strip(request: HttpRequest) -> Step | None:
    """The step that a page shows; None once the office has put the steps away.

    Parameters
    ----------
    request
        Its address names the step as ``?tour=2``; every other parameter stays.

    Returns
    -------
    Step or None
        The step, the first where none or no such is named.
    """
    office = getattr(request, "office", None)
    if not isinstance(office, Office) or office.toured:
        return None
    if not getattr(request, "may_change", False):
        return None
    asked = request.GET.get(PARAMETER, "")
    number = int(asked) if asked.isdecimal() and len(asked) == 1 else 1
    number = min(max(number, 1), len(STEPS))
    examples = samples(office).exists()
    return Step(
        number=number,
        of=len(STEPS),
        said=ALONE if number == 1 and not examples else STEPS[number - 1],
        before=_address(request, number - 1) if number > 1 else "",
        after=_address(request, number + 1) if number < len(STEPS) else "",
        samples=examples,
    )


def samples(office: Office) -> Any:
    """The example beds that are still there."""
    return kept(Bed, office).filter(is_sample=True)


def _address(request: HttpRequest, number: int) -> str:
    query = request.GET.copy()
    query[PARAMETER] = str(number)
    path = request.path if request.method in ("GET", "HEAD") else reverse("start")
    return f"{path}?{query.urlencode()}"
