"""A number opened: what it answers, its equation, what goes into it, and who says so."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import URLPattern, path
from django.utils.translation import gettext as _
from django.views.decorators.http import require_safe

from loamshift.domain.explanation import ExplainedFigure, Explanation
from loamshift.domain.figure_name import figure_called
from loamshift.report.catalogue import EVIDENCE_WORDS
from loamshift.report.messages import say_each
from loamshift.report.sources import source_numbers
from loamshift.services.why import UnknownKey, explain, explained_keys
from loamshift.tables.references import load_references
from loamshift.web.answers import words_of
from loamshift.web.middleware import office_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One figure that goes into a number, as the page shows it."""

    name: str
    key: str
    value: str
    spread: str
    unit: str
    evidence: str
    note: str
    source: str


@require_safe
def why(request: HttpRequest, key: str) -> HttpResponse:
    """Open one number, or say what is called nearly so."""
    words = words_of(office_of(request))
    try:
        found = explain(key)
    except UnknownKey as fault:
        unknown = {"key": key, "nearest": fault.nearest}
        return render(request, "loamshift/plan/why_unknown.html", unknown, status=404)
    references = load_references()
    context = {
        "found": found,
        "title": words.text(found.title[:1].upper() + found.title[1:]),
        "text": [
            words.text(text)
            for text in say_each(found.text, words)
            if text and "loamshift why" not in text
        ],
        "rows": [_row(figure, found) for figure in found.figures],
        "see": [(one, words.text(_titled(one))) for one in dict.fromkeys(found.see_also)],
        "sources": [references[source] for source in dict.fromkeys(found.source_keys)],
    }
    return render(request, "loamshift/plan/why.html", context)


@require_safe
def all_keys(request: HttpRequest) -> HttpResponse:
    """Everything that can be opened, by kind."""
    kinds = [
        (kind[:1].upper() + kind[1:], [(letter, list(keys)) for letter, keys in _by_stem(names)])
        for kind, names in explained_keys().items()
    ]
    return render(request, "loamshift/plan/why_all.html", {"kinds": kinds})


def _by_stem(names: tuple[str, ...]) -> list[tuple[str, list[str]]]:
    return [
        (stem, list(keys)) for stem, keys in groupby(sorted(names), key=lambda n: n[:1].upper())
    ]


def _row(figure: ExplainedFigure, found: Explanation) -> Row:
    numbers = source_numbers(found.source_keys)
    within = figure.name if "." in figure.name else f"{found.key}.{figure.name}"
    low = "" if figure.low is None else f"{figure.low:g}"
    high = "" if figure.high is None else f"{figure.high:g}"
    return Row(
        name=figure_called(figure.name.rpartition(".")[2], figure.unit),
        key=within if _opens(within) and within != found.key else "",
        value=f"{figure.value:.6g}",
        spread=_("%(low)s to %(high)s") % {"low": low, "high": high} if low and high else "",
        unit=figure.unit if figure.unit != "-" else "",
        evidence=EVIDENCE_WORDS[figure.evidence],
        note=figure.note if figure.note not in found.text else "",
        source=numbers.get(figure.source_key, ""),
    )


def _titled(key: str) -> str:
    title = explain(key).title if _opens(key) else key
    return title[:1].upper() + title[1:]


def _opens(key: str) -> bool:
    try:
        explain(key)
    except UnknownKey:
        return False
    return True


ROUTES: list[URLPattern] = [
    path("why/", all_keys, name="why-all"),
    path("why/<path:key>", why, name="why"),
]
