"""A number opened: the sum of one bed step by step, and what stands behind it in general."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import groupby
from uuid import UUID

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils.http import urlencode
from django.views.decorators.http import require_safe

from loamshift.domain.explanation import ExplainedFigure, Explanation
from loamshift.domain.figure_name import figure_called
from loamshift.domain.message import Given, message
from loamshift.errors import InputError
from loamshift.report.catalogue import evidence_said
from loamshift.report.messages import say, say_each
from loamshift.report.own_sum import SaidSum, said_sum
from loamshift.report.sources import source_numbers
from loamshift.report.words import Words
from loamshift.services.own_sum.sums import NoSum, own_keys, own_sum
from loamshift.services.why import UnknownKey, explain, explained_keys
from loamshift.tables.references import load_references
from loamshift.web.answers import Answered, answered
from loamshift.web.middleware import office_of
from loamshift.web.plan.plan_page import said_in
from loamshift.web.plan.views.plan import address_of, asked_in, today
from loamshift.web.wording import words_of


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


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """Whose number is opened: the bed's name, its answer, and how addresses say so."""

    name: str
    answered: Answered
    query: str
    back: str


@require_safe
def why(request: HttpRequest, key: str) -> HttpResponse:
    """Open one number, with the sum of a bed where the address names one."""
    asked = _asked(request)
    words = words_of(office_of(request)) if asked is None else asked.answered.words
    own = None
    if asked is not None:
        try:
            own = own_sum(asked.answered.case, asked.answered.answer, key)
        except NoSum:
            own = None
    try:
        found = explain(key if own is None else own.key)
    except UnknownKey as fault:
        unknown = {"key": key, "nearest": fault.nearest, "query": _query(asked)}
        return render(request, "plan/why_unknown.html", unknown, status=404)
    said = None if own is None else said_sum(own, words=words)
    title = say(found.title, words) if said is None else said.title
    sources = dict.fromkeys((*(said.source_keys if said else ()), *found.source_keys))
    references = load_references()
    context = {
        "found": found,
        "asked": asked,
        "query": _query(asked),
        "title": title if title.startswith("pH") else title[:1].upper() + title[1:],
        "under": _under(found, own.key if own else "", asked, words),
        "sum": said,
        "inputs": [] if said is None else _inputs(said, sources),
        "sure": "" if said is None else " ".join(said.sure),
        "narrow": "" if said is None else " ".join(said.narrow),
        "keys": [] if asked is None else own_keys(asked.answered.answer),
        "text": [text for text in say_each(found.text, words) if "loamshift why" not in text],
        "equations": say_each(found.equations, words),
        "rows": [_row(figure, found, sources, words) for figure in found.figures],
        "see": [(one, _titled(one, words)) for one in dict.fromkeys(found.see_also)],
        "sources": [references[source] for source in sources],
    }
    return render(request, "plan/why.html", context)


@require_safe
def all_keys(request: HttpRequest) -> HttpResponse:
    """Everything that can be opened, by kind; first the numbers of a bed, where one is named."""
    asked = _asked(request)
    words = words_of(office_of(request))
    kinds = [
        (
            say(message("why-kinds", kind=kind), words),
            [(letter, list(keys)) for letter, keys in _by_stem(names)],
        )
        for kind, names in explained_keys().items()
    ]
    context = {
        "kinds": kinds,
        "asked": asked,
        "query": _query(asked),
        "keys": [] if asked is None else own_keys(asked.answered.answer),
    }
    return render(request, "plan/why_all.html", context)


def _asked(request: HttpRequest) -> Asked | None:
    """The bed an address names, or the fields of quick advice in it; None where it has neither.

    Raises
    ------
    Http404
        Where there is no such bed.
    """
    fields = said_in(request.GET)
    pk = request.GET.get("bed", "")
    if not pk and not fields:
        return None
    office = office_of(request)
    try:
        bed, tree = asked_in(request, UUID(pk) if pk else None)
    except ValueError as error:
        raise Http404 from error
    try:
        found = answered(tree, office=office, today=today())
    except InputError:
        return None
    pairs = [*((("bed", str(bed.pk)),) if bed is not None else ()), *fields]
    here = address_of(bed)
    back = f"{here}?{urlencode(fields)}" if fields else here
    name = found.case.name or (bed.name if bed is not None else "")
    return Asked(name=name, answered=found, query=urlencode(pairs), back=back)


def _query(asked: Asked | None) -> str:
    return "" if asked is None else f"?{asked.query}"


def _under(found: Explanation, own_key: str, asked: Asked | None, words: Words) -> str:
    if own_key and asked is not None and asked.name:
        return say(message("why-subtitle-bed", key=Given(own_key), name=Given(asked.name)), words)
    if own_key:
        return say(message("why-subtitle-unnamed", key=Given(own_key)), words)
    kind = message("why-kind", kind=found.kind)
    return say(message("why-subtitle-kind", key=Given(found.key), kind=kind), words)


def _by_stem(names: tuple[str, ...]) -> list[tuple[str, list[str]]]:
    return [
        (stem, list(keys)) for stem, keys in groupby(sorted(names), key=lambda n: n[:1].upper())
    ]


def _inputs(said: SaidSum, sources: Iterable[str]) -> list[Row]:
    numbers = source_numbers(sources)
    return [
        Row(
            name=f"{one.symbol}: {one.name}",
            key=one.opens if _opens(one.opens) else "",
            value=one.value,
            spread=one.spread,
            unit="",
            evidence=one.whence,
            note="",
            source=numbers.get(one.source_key, ""),
        )
        for one in said.inputs
    ]


def _row(figure: ExplainedFigure, found: Explanation, sources: Iterable[str], words: Words) -> Row:
    numbers = source_numbers(sources)
    within = figure.name if "." in figure.name else f"{found.key}.{figure.name}"
    spread = ""
    if figure.low is not None and figure.high is not None:
        ends = {"low": f"{figure.low:g}", "high": f"{figure.high:g}"}
        spread = words.message("unit-range", ends)
    told = message("explained-note", text=Given(figure.note))
    return Row(
        name=figure_called(figure.name.rpartition(".")[2], figure.unit),
        key=within if _opens(within) and within != found.key else "",
        value=f"{figure.value:.6g}",
        spread=spread,
        unit=figure.unit if figure.unit != "-" else "",
        evidence=evidence_said(figure.evidence, words),
        note=figure.note if told not in found.text else "",
        source=numbers.get(figure.source_key, ""),
    )


def _titled(key: str, words: Words) -> str:
    title = say(explain(key).title, words) if _opens(key) else key
    return title if title.startswith("pH") else title[:1].upper() + title[1:]


def _opens(key: str) -> bool:
    try:
        explain(key)
    except UnknownKey:
        return False
    return True
