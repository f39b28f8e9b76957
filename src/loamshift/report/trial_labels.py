"""Labels of a trial to cut out, behind a map of who stands where, as one tagged PDF."""

from __future__ import annotations

import json
import re
from importlib import resources
from typing import Any, Final

from loamshift.domain.message import message
from loamshift.domain.trial import Place, TrialPlan
from loamshift.report.html import LANGUAGES
from loamshift.report.messages import say
from loamshift.report.pdf import PaperSize, document_title
from loamshift.report.trial_plan import map_notes, map_row
from loamshift.report.typeface import settable
from loamshift.report.typesetting import set_pdf, typesetting
from loamshift.report.words import Words

GRID: Final = {PaperSize.A4: (3, 8), PaperSize.LETTER: (3, 10)}
"""Labels across and down one sheet [count]."""
_UPRIGHT: Final = 7
"""A map of more columns lies on its side [count]."""
_NAMED: Final = 14
"""A map of more columns has no room for names; they stand on the labels [count]."""
_LONG_WORD: Final = re.compile(r"\S{13,}")


def trial_labels_pdf(plan: TrialPlan, *, paper: PaperSize, words: Words) -> bytes:
    """A map of who stands where, and one label for each pot, plot or strip.

    Labels and map of a blind trial bear numbers alone: one letter for each treatment would tell
    whoever reads the pots which belong together.
    """
    trial = plan.trial
    language, region = LANGUAGES[words.spelling].split("-")
    day = trial.start
    data = {
        "paper": paper.value,
        "lang": language,
        "region": region,
        "document": settable(document_title(trial.name, day=day, words=words)),
        "day": {"year": day.year, "month": day.month, "day": day.day},
        "trial": _breakable(trial.name),
        "start": say(message("trial-label-start", day=day), words),
        "across": GRID[paper][0],
        "down": GRID[paper][1],
        "map": _map(plan, words),
        "labels": [_label(place, plan, words) for place in plan.places],
    }
    template = resources.files("loamshift.report").joinpath("trial_labels.typ").read_bytes()
    files = {"main.typ": template, "labels.json": json.dumps(data).encode("utf-8")}
    with typesetting():
        return set_pdf(files, day=day)


def _map(plan: TrialPlan, words: Words) -> dict[str, Any]:
    columns = max(place.column for place in plan.places)
    at = {(place.row, place.column): place for place in plan.places}
    rows = [
        {
            "name": say(map_row(row), words),
            "cells": [
                None if (place := at.get((row, column))) is None else _cell(place, plan)
                for column in range(1, columns + 1)
            ],
        }
        for row in range(1, max(place.row for place in plan.places) + 1)
    ]
    return {
        "title": say(message("trial-heading-map"), words),
        "about": _breakable(plan.trial.name),
        "wide": columns > _UPRIGHT,
        "named": columns <= _NAMED,
        "rows": rows,
        "side": say(message("trial-map-side", row=map_row(1)), words),
        "notes": [say(note, words) for note in map_notes(plan)],
    }


def _cell(place: Place, plan: TrialPlan) -> dict[str, str | None]:
    trial = plan.trial
    name = None if trial.blind else _breakable(trial.treatments[place.treatment].name)
    return {"number": settable(place.label), "name": name}


def _label(place: Place, plan: TrialPlan, words: Words) -> dict[str, str | None]:
    where = message("trial-label-place", row=map_row(place.row), column=place.column)
    return {**_cell(place, plan), "place": say(where, words)}


def _breakable(text: str) -> str:
    """A text in our type, in which words longer than a label is wide may be broken."""
    return _LONG_WORD.sub(lambda word: "\u200b".join(word[0]), settable(text))
