"""Short forms about a kept thing: kept as typed, put together with what somebody else saved."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from django.http import HttpRequest

from loamshift.domain.message import Given, Message, message
from loamshift.errors import Fault, InputError
from loamshift.report.messages import say
from loamshift.report.words import Words
from loamshift.store.changes import Overtaken, Writer, snapshot
from loamshift.store.limits import Unfit
from loamshift.store.models import Kept
from loamshift.store.plain import restore
from loamshift.web.beds.merge import merge_fields
from loamshift.web.middleware import office_of
from loamshift.web.notices import notify_done, notify_fault, person_of
from loamshift.web.problems import whole_fault


@dataclass(frozen=True, slots=True, kw_only=True)
class FormState:
    """Why a form stands there again, or nothing where it is fresh."""

    version: int = 1
    faults: tuple[Fault, ...] = ()
    now: Mapping[str, Any] = field(default_factory=dict)
    """What somebody else saved in fields that both changed, by the names of fields."""
    status: int = 200

    def whole(self, fields: Iterable[str]) -> list[Fault]:
        """Faults for which none of these fields is to blame."""
        return [fault for fault in self.faults if fault.path not in set(fields)]


@dataclass(frozen=True, slots=True, kw_only=True)
class FormLine:
    """One field as a form shows it."""

    name: str
    label: str
    value: str
    fault: Fault | None
    now: Message | None

    @property
    def said(self) -> str:
        """The id of what is said about it."""
        return f"{self.name}-said"


def form_lines(
    labels: Mapping[str, Message | str],
    values: Mapping[str, str],
    state: FormState,
    *,
    words: Words,
    now: Mapping[str, str] | None = None,
) -> dict[str, FormLine]:
    """The fields of a form by their names.

    Parameters
    ----------
    now
        What is saved in fields that both changed, where it is not shown as it is kept.
    """
    wrong = {fault.path: fault for fault in reversed(state.faults)}
    there = state.now if now is None else now
    return {
        name: FormLine(
            name=name,
            label=say(label, words),
            value=values.get(name, ""),
            fault=wrong.get(name),
            now=_there_now(str(there[name])) if name in there else None,
        )
        for name, label in labels.items()
    }


def _there_now(saved: str) -> Message:
    return message("form-there-now", now=Given(saved) if saved else None)


def version_seen(request: HttpRequest) -> int:
    """The version that somebody saw before they typed; none is 0, which no thing has."""
    typed = request.POST.get("version", "")
    return int(typed) if typed.isdecimal() and len(typed) < 10 else 0


def keep_typed(
    request: HttpRequest, thing: Kept, what: Message, *, fields: Iterable[str]
) -> FormState | None:
    """Keep a thing as it was typed; None where that was done, else why not.

    Fields that only somebody else changed meanwhile stay as they saved them.

    Parameters
    ----------
    fields
        What the form asks, by the names of columns.
    """
    writer = Writer(office_of(request), user=person_of(request), what=what)
    version, also = version_seen(request), None
    try:
        if thing._state.adding:
            writer.add(thing)
        else:
            also = _change(writer, thing, version, fields)
    except _BothChanged as both:
        current = both.overtaken.current
        return FormState(
            version=current.version,
            faults=(whole_fault(both.overtaken),),
            now=both.now,
            status=409,
        )
    except Unfit as unfit:
        return FormState(version=version, faults=unfit.faults, status=422)
    except InputError as error:
        return FormState(version=version, faults=(whole_fault(error),), status=422)
    notify_done(request, writer, also=also)
    return None


def delete_kept(
    request: HttpRequest, thing: Kept, what: Message, *, seen_version: int | None = None
) -> bool:
    """Put a thing away and say so on the next page; false where it was refused, which is told."""
    writer = Writer(office_of(request), user=person_of(request), what=what)
    try:
        writer.put_away(thing, seen_version=seen_version)
    except InputError as error:
        notify_fault(request, error)
        return False
    notify_done(request, writer)
    return True


class _BothChanged(Exception):
    def __init__(self, overtaken: Overtaken, now: Mapping[str, Any]) -> None:
        self.overtaken = overtaken
        self.now = now


def _change(writer: Writer, thing: Kept, version: int, fields: Iterable[str]) -> Message | None:
    """Change a thing; what is to be told besides, where two changes were put together."""
    try:
        writer.change(thing, seen_version=version)
    except Overtaken as overtaken:
        current = overtaken.current
        typed, there = snapshot(thing), snapshot(current)
        mine = {name: typed[name] for name in fields}
        merged = merge_fields(current, version, mine)
        if merged is None:
            now = {name: there[name] for name in mine if there[name] != mine[name]}
            raise _BothChanged(overtaken, now) from None
        restore(thing, there | {name: merged.tree.get(name) for name in mine})
        if merged.asked:
            asked = {path.partition(".")[0] for path, *_ in merged.asked}
            raise _BothChanged(overtaken, {name: there[name] for name in asked}) from None
        thing.version = current.version
        try:
            writer.change(thing, seen_version=current.version)
        except Overtaken as again:
            raise _BothChanged(again, {}) from None
        return message("form-merged")
    return None
