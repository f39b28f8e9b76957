"""Home: quick advice in one sentence, and the beds worked on last."""

from __future__ import annotations

import tomllib
from dataclasses import replace
from typing import Final

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import reverse
from django.utils.http import urlencode

from loamshift.domain.message import Message, message
from loamshift.report.messages import say
from loamshift.report.words import Words
from loamshift.store.models import Bed, Office
from loamshift.store.scope import kept
from loamshift.web.beds.samples import SAMPLES
from loamshift.web.middleware import office_of
from loamshift.web.plan.facts import field_of
from loamshift.web.plan.plan_page import leaves
from loamshift.web.plan.views.plan import today
from loamshift.web.wording import words_of

RECENT: Final = 6
"""Beds listed on the start page [count]."""
ASKED_FIRST: Final[tuple[tuple[str, str, Message | None], ...]] = (
    ("ph", "soil.ph", message("start-empty-ph")),
    ("method", "soil.ph_method", None),
    ("texture", "soil.texture", message("start-empty-texture")),
    ("plant", "aim.plant", message("start-empty-plant")),
    ("place", "place.name", message("start-empty-town")),
)


def start(request: HttpRequest) -> HttpResponse:
    """Ask the four things that matter most; the answer is the plan page."""
    office = office_of(request)
    words = words_of(office)
    beds = kept(Bed, office).select_related("garden__client").order_by("-changed_at", "id")
    context = {
        "fields": {
            name: replace(
                field_of(path, {}, words=words), empty="" if empty is None else say(empty, words)
            )
            for name, path, empty in ASKED_FIRST
        },
        "beds": beds[: RECENT + 1],
        "recent": RECENT,
        "example": None if _has_own(office) else _example(words),
    }
    return render(request, "plan/start.html", context)


def _has_own(office: Office) -> bool:
    """True where somebody has saved a bed of their own, and knows what a letter is."""
    return kept(Bed, office).filter(is_sample=False).exists()


def _example(words: Words) -> str:
    """The address of the letter for an invented bed; the address holds all of it."""
    sample = tomllib.loads(SAMPLES[0].as_of(today()))
    tree = sample | {"name": say(message("start-example-name"), words)}
    return f"{reverse('plan')}?{urlencode(list(leaves(tree)))}"
