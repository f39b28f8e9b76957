"""The first steps: four sentences, one after another, at the top of the start and plan pages."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Final

from django.http import HttpRequest
from django.urls import reverse
from django.utils.translation import gettext_lazy as _

from loamshift.store.models import Bed, Office
from loamshift.store.scope import kept

ALONE: Final = _("Say what you know of a soil, and the answer is a letter.")
"""The first step once the invented beds are gone."""
STEPS: Final = (
    _(
        "Say what you know of a soil, and the answer is a letter. Two invented beds are here to "
        "look around in: Berry border wants acid, Kitchen plot wants lime."
    ),
    _(
        "Words and figures with dots under them can be changed where they stand; the letter "
        "follows. What you leave empty counts as not known, and widens the range of the answer."
    ),
    _(
        "The verdict comes before the dose, and it may be “leave it”. Notes in the margin say why, "
        "from where, and which cheap test would tell more."
    ),
    _(
        "Keep a letter as sent and it opens the same for good. Whatever you change or delete comes "
        "back for thirty days, under Changes."
    ),
)
PARAMETER: Final = "tour"


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One step: its sentence, and the addresses of the one before and the one after."""

    number: int
    of: int
    said: Any
    before: str
    after: str
    samples: bool


def strip(request: HttpRequest) -> Step | None:
    """The step that a page shows; None once the office has put the steps away.

    Parameters
    ----------
    request
        Its address names the step as ``?tour=2``; every other parameter stays [object].

    Returns
    -------
    Step or None
        The step, the first where none or no such is named [object].
    """
    office = getattr(request, "office", None)
    if not isinstance(office, Office) or office.toured:
        return None
    if not getattr(request, "may_change", False):
        return None
    asked = request.GET.get(PARAMETER, "")
    number = int(asked) if asked.isdecimal() and len(asked) == 1 else 1
    number = min(max(number, 1), len(STEPS))
    invented = samples(office).exists()
    return Step(
        number=number,
        of=len(STEPS),
        said=ALONE if number == 1 and not invented else STEPS[number - 1],
        before=_address(request, number - 1) if number > 1 else "",
        after=_address(request, number + 1) if number < len(STEPS) else "",
        samples=invented,
    )


def samples(office: Office) -> Any:
    """The invented beds that are still there."""
    return kept(Bed, office).filter(is_sample=True)


def _address(request: HttpRequest, number: int) -> str:
    query = request.GET.copy()
    query[PARAMETER] = str(number)
    path = request.path if request.method in ("GET", "HEAD") else reverse("start")
    return f"{path}?{query.urlencode()}"
