"""Adding and editing a bed: everything its case file holds, as a form or as plain text."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import Any, Final
from uuid import UUID

from django.http import HttpRequest, HttpResponse, QueryDict
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_POST

from loamshift.case.questions import case_questions
from loamshift.domain.message import Given, Message, message
from loamshift.domain.worded_error import WordedError, fault
from loamshift.errors import CaseError, Fault, InputError
from loamshift.report.messages.refusal import refusal
from loamshift.report.words import Words
from loamshift.store.changes import Overtaken
from loamshift.store.models import Bed, Garden, Office
from loamshift.store.scope import kept
from loamshift.store.toml_out import as_json
from loamshift.web.acts import writer_of
from loamshift.web.beds.case_form import (
    case_form,
    faulty_lines,
    path_label,
    typed_tree,
    untold,
    value_text,
)
from loamshift.web.beds.forms import QUICK, QuickForm
from loamshift.web.beds.keeping import garden_called, put_case
from loamshift.web.beds.merge import Merged, as_kept, before, merge
from loamshift.web.cases import Tree, text_of_bed, with_fields
from loamshift.web.kept_form import version_seen
from loamshift.web.middleware import kept_or_404, office_of
from loamshift.web.notices import notify_done
from loamshift.web.problems import whole_fault
from loamshift.web.wording import words_for

MOST_ROWS: Final = 20


@dataclass(kw_only=True)
class Draft:
    """A bed as it is being written: the form or the text, and what stands in the way."""

    tree: Tree
    text: str
    as_text: bool
    garden: str
    version: int
    faults: tuple[Fault, ...] = ()
    whole: str = ""
    """Why it could not be kept, where no field is to blame [text]."""
    standing: tuple[tuple[str, str, str], ...] = ()
    """What somebody else wrote in the meantime: key, what stands there now, what was typed."""
    empty_rows: dict[str, int] = field(default_factory=dict)
    shortened: str = ""
    """The list from which a row was just taken."""


@require_http_methods(["GET", "HEAD", "POST"])
def new(request: HttpRequest) -> HttpResponse:
    """A new bed; what the address says stands in the form already."""
    office = office_of(request)
    if request.method == "POST":
        return _posted(request, Bed(name=""), draft_from(request))
    said = [(key, value) for key, values in request.GET.lists() for value in values]
    tree = typed_tree(said)
    garden = request.GET.get("garden", "")
    place = _place_of(office, garden)
    if place and not tree.get("place"):
        tree = with_fields(tree, [("place.name", place)])
    draft = Draft(tree=tree, text="", as_text=_wants_text(request), garden=garden, version=0)
    return _page(request, None, draft)


@require_http_methods(["GET", "HEAD", "POST"])
def edit(request: HttpRequest, pk: UUID) -> HttpResponse:
    """Everything of one bed, to be changed."""
    bed = kept_or_404(request, Bed, pk)
    if request.method == "POST":
        return _posted(request, bed, draft_from(request))
    draft = draft_of(bed)
    draft.as_text = draft.as_text or _wants_text(request)
    return _page(request, bed, draft)


@require_POST
def quick(request: HttpRequest, pk: UUID, table: str) -> HttpResponse:
    """Add one test, or one thing put on, to a bed and go back to its letter.

    What is wrong with it is told in the same short form, on the page where it stood.
    """
    bed = kept_or_404(request, Bed, pk)
    standing = draft_of(bed)
    if standing.faults:
        return _page(request, bed, standing, status=422)
    form = QUICK[table](request, bed, typed=True)
    if not form.is_valid():
        return _quick_again(request, pk, form)
    entry = typed_tree((f"{table}.0.{key}", value) for key, value in form.cleaned_data.items())
    held = standing.tree.get(table)
    entries = held if isinstance(held, list) else []
    what = message(form.done, bed=Given(bed.name))
    writer = writer_of(request, what)
    seen = bed.version
    try:
        if table not in entry:
            raise WordedError(message("beds-nothing-entered"))
        tree = {**standing.tree, table: [*entries, *entry[table]]}
        put_case(bed, tree, today=date.today())  # noqa: DTZ011 - the local day
        writer.change(bed, seen_version=seen)
    except InputError as error:
        faults = error.faults if isinstance(error, CaseError) else (whole_fault(error),)
        form.tell(faults, number=len(entries))
        return _quick_again(request, pk, form)
    notify_done(request, writer)
    return redirect("bed", pk=bed.pk)


def _quick_again(request: HttpRequest, pk: UUID, form: QuickForm) -> HttpResponse:
    """The page of a bed on which a short form was filled in, with the form as it was typed."""
    from loamshift.web.beds.views.history import show_history
    from loamshift.web.plan.views.plan import show_plan

    bed = kept_or_404(request, Bed, pk)
    more = {"quick": form}
    if request.POST.get("page") == "history":
        return show_history(request, bed, status=422, more=more)
    return show_plan(request, bed.case_json, bed=bed, status=422, more=more)


def draft_of(bed: Bed) -> Draft:
    """A bed as it is kept."""
    faults: tuple[Fault, ...] = ()
    if not bed.case_json:  # a text of an earlier version that nobody could read
        try:
            tomllib.loads(bed.own_text)
        except ValueError as error:
            faults = (_unreadable(error, message("form-text-correct")),)
    return Draft(
        tree=bed.case_json,
        text=text_of_bed(bed),
        as_text=bool(faults),
        garden=str(bed.garden_id or ""),
        version=bed.version,
        faults=faults,
    )


def draft_from(request: HttpRequest) -> Draft:
    """What was typed, by either way of writing; nothing of it is judged yet."""
    post = request.POST
    as_text = "case_text" in post
    text = post.get("case_text", "").replace("\r\n", "\n")
    pairs = [(key, value) for key, values in post.lists() for value in values]
    tree = {} if as_text else typed_tree(pairs)
    drop, more = post.get("drop", ""), post.get("more", "")
    if drop:
        tree = _without(tree, drop)
    return Draft(
        tree=tree,
        text=text,
        as_text=as_text,
        garden=post.get("garden", ""),
        version=version_seen(request),
        shortened=drop.rpartition(".")[0],
        empty_rows={more: min(_empty_rows(post, more), MOST_ROWS)} if more else {},
    )


def differences(
    now: Mapping[str, Any], typed: Mapping[str, Any], *, words: Words
) -> Iterator[tuple[str, str, str]]:
    """What two case files hold differently: what it is called, and both values as texts."""
    left, right = dict(_leaves(now)), dict(_leaves(typed))
    for path_ in dict.fromkeys([*left, *right]):
        if left.get(path_, "") != right.get(path_, "") and path_ != "case":
            yield path_label(path_, words), left.get(path_, ""), right.get(path_, "")


def _posted(request: HttpRequest, bed: Bed, draft: Draft) -> HttpResponse:
    is_new = bed._state.adding
    turn = request.POST.get("turn", "")
    if turn:
        _turn(draft, bed, turn)
    if turn or request.POST.get("more") or request.POST.get("drop"):
        return _page(request, None if is_new else bed, draft)
    return _keep(request, bed, draft, what=message("form-changed", bed=Given(bed.name)))


def _keep(
    request: HttpRequest,
    bed: Bed,
    draft: Draft,
    *,
    what: Message,
    also: Message | None = None,
) -> HttpResponse:
    """Check and keep a draft; or show it again with what stands in the way."""
    office = office_of(request)
    is_new = bed._state.adding
    shown = None if is_new else bed
    try:
        given = draft.text if draft.as_text else as_kept(bed.case_json, draft.tree)
        put_case(bed, given, today=date.today())  # noqa: DTZ011 - the local day
        bed.garden = garden_called(office, draft.garden)
        if is_new:
            added = message("form-added", bed=Given(bed.name))
            writer = writer_of(request, added)
            writer.add(bed)
        else:
            writer = writer_of(request, what)
            writer.change(bed, seen_version=draft.version)
    except CaseError as error:
        draft.faults = error.faults
        return _page(request, shown, draft, status=422)
    except Overtaken as overtaken:
        current = overtaken.current
        assert isinstance(current, Bed)
        words = words_for(request)
        merged = _merged(current, draft, bed.case_json)
        if merged is not None:
            draft.tree, draft.version = merged.tree, current.version
            if not merged.asked:
                return _keep(request, current, draft, what=what, also=message("form-merged"))
            draft.whole = refusal(overtaken, words)
            draft.standing = tuple(_asked(merged, words))
            return _page(request, shown, draft, status=409)
        draft.whole, draft.version = refusal(overtaken, words), current.version
        draft.standing = tuple(differences(current.case_json, bed.case_json, words=words))
        return _page(request, shown, draft, status=409)
    except InputError as error:
        draft.whole = refusal(error, words_for(request))
        return _page(request, shown, draft, status=422)
    notify_done(request, writer, also=also)
    return redirect("bed", pk=bed.pk)


def _merged(current: Bed, draft: Draft, typed: Tree) -> Merged | None:
    """What was typed put together with what somebody else saved; None where that cannot be."""
    was = before(current, draft.version)
    if was is None or current.deleted_at is not None:
        return None
    if draft.garden == str(was["garden_id"] or ""):
        draft.garden = str(current.garden_id or "")
    merged = merge(base=was["case_json"], theirs=current.case_json, mine=typed)
    if draft.as_text:
        began = Bed(case_json=was["case_json"], own_text=was["own_text"])
        has_own_remarks = text_of_bed(began, typed) != draft.text
        theirs = Bed(own_text=draft.text) if has_own_remarks else current
        draft.text = text_of_bed(theirs, merged.tree)
    return merged


def _asked(merged: Merged, words: Words) -> Iterator[tuple[str, str, str]]:
    for path_, theirs, mine in merged.asked:
        yield from differences(_nested(path_, theirs), _nested(path_, mine), words=words)


def _nested(path_: str, value: Any) -> Tree:
    node: Any = {} if value is None else value
    for key in reversed(path_.split(".")):
        node = {key: node}
    made: Tree = node
    return made


def _turn(draft: Draft, bed: Bed, turn: str) -> None:
    """Go on with the same draft the other way: as text, or in the form."""
    if turn == "text" and not draft.as_text:
        draft.text = text_of_bed(bed, as_kept(bed.case_json, draft.tree))
        draft.as_text = True
    elif turn == "form" and draft.as_text:
        try:
            draft.tree, draft.as_text = as_json(tomllib.loads(draft.text)), False
        except ValueError as error:
            draft.faults = (_unreadable(error, message("form-text-correct-first")),)


def _unreadable(error: ValueError, right: Message) -> Fault:
    return fault("", message("form-text-unreadable", why=Given(str(error))), right)


def _page(
    request: HttpRequest, bed: Bed | None, draft: Draft, *, status: int = 200
) -> HttpResponse:
    office = office_of(request)
    words = words_for(request)
    groups = case_form(
        draft.tree,
        faults=draft.faults,
        words=words,
        empty_rows=draft.empty_rows,
    )
    elsewhere = draft.faults if draft.as_text else untold(groups, draft.faults)
    context = {
        "bed": bed,
        "draft": draft,
        "groups": groups,
        "focus": next(iter(draft.empty_rows), ""),
        "focus_after": draft.shortened,
        "gardens": gardens_of(office),
        "elsewhere": [(path_label(one.path, words), one) for one in elsewhere],
        "faulty": len(draft.faults),
        "wrong": [] if draft.as_text else faulty_lines(groups, words),
    }
    return render(request, "beds/edit.html", context, status=status)


def gardens_of(office: Office) -> list[Garden]:
    """The gardens of an office under their clients, for a choice."""
    gardens = kept(Garden, office).select_related("client")
    return list(gardens.order_by("client__sought", "sought", "id"))


def _place_of(office: Office, key: str) -> str:
    try:
        garden = garden_called(office, key)
    except InputError:
        return ""
    return str(garden.place.get("name", "")) if garden is not None else ""


def _wants_text(request: HttpRequest) -> bool:
    return request.GET.get("as") == "text"


def _empty_rows(post: QueryDict, name: str) -> int:
    """One empty row more than were there: rows typed into stay, the others are counted on."""
    known = {table.name for table in case_questions() if table.is_list}
    if name not in known:
        return 1
    asked = {key.split(".")[name.count(".") + 1] for key in post if key.startswith(f"{name}.")}
    filled = typed_tree((key, post.get(key, "")) for key in post if key.startswith(f"{name}."))
    node: Any = filled
    for key in name.split("."):
        node = node.get(key, {}) if isinstance(node, dict) else {}
    return len(asked) - (len(node) if isinstance(node, list) else 0) + 1


def _without(tree: Tree, row: str) -> Tree:
    """A case file without one entry of a list, named by its path ``applied.1``."""
    name, _, number = row.rpartition(".")
    grown = with_fields(tree, [])
    node: Any = grown
    for key in name.split("."):
        node = node.get(key) if isinstance(node, dict) else None
    if isinstance(node, list) and number.isdecimal() and int(number) < len(node):
        del node[int(number)]
    return with_fields(grown, [])


def _leaves(node: Any, at: str = "") -> Iterator[tuple[str, str]]:
    if isinstance(node, Mapping):
        for key, value in node.items():
            yield from _leaves(value, f"{at}.{key}" if at else str(key))
    elif isinstance(node, list) and any(isinstance(item, Mapping) for item in node):
        for number, value in enumerate(node, start=1):
            yield from _leaves(value, f"{at}[{number}]")
    else:
        yield at, value_text(node)
