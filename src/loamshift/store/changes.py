"""The one way to change the store: every change is kept, and the last thirty days come back."""

from __future__ import annotations

import uuid
from collections.abc import Iterable, Sequence
from datetime import date, datetime, timedelta
from typing import Any, Final, TypeVar

from django.db import transaction
from django.utils import timezone

from loamshift.domain.message import Given, Message, Worded, message
from loamshift.domain.worded_error import WordedError, given, plainly
from loamshift.store.limits import check
from loamshift.store.models import Change, Kept, Office, User
from loamshift.store.plain import (
    BELOW,
    KINDS,
    PARENT,
    differing,
    kind_of,
    restore,
    snapshot,
)
from loamshift.store.recorded import other_way, text_of, what_of

__all__ = ["KEPT_DAYS", "KINDS", "Overtaken", "Writer", "purge", "snapshot", "take_back"]

Thing = TypeVar("Thing", bound=Kept)

KEPT_DAYS: Final = 30
_purged: Final[dict[str, date]] = {}


class Overtaken(WordedError):
    """Somebody else changed the thing in the meantime; carries what is there now."""

    def __init__(self, current: Kept) -> None:
        self.current = current
        at = current.deleted_at or current.changed_at
        super().__init__(
            message(
                "store-overtaken",
                how="changed" if current.deleted_at is None else "deleted",
                name=given(current),
                at=Given(f"{at:%H:%M}"),
            )
        )


class Writer:
    """Who writes, and the act that the changes belong to; one for each thing a person does.

    Rows are locked from the top down (client, garden, bed, letter), so that two people never
    wait for each other in a ring; on SQLite one writes after the other anyway.

    Parameters
    ----------
    user
        Who does it; None for a single adviser.
    """

    def __init__(self, office: Office, *, user: User | None = None, what: Worded) -> None:
        self.office = office
        self.user = user
        self.what = what
        self.act = uuid.uuid4()

    def add(self, thing: Kept, *, seen_version: int | None = None) -> None:
        """Keep something new; ``seen_version`` is that of what it lies in, where it matters.

        Raises
        ------
        Overtaken
            Where what it lies in is no longer the version that was seen.
        InputError
            Where it cannot be kept as it is, or what it lies in is gone.
        """
        thing.office = self.office
        check(thing)
        with transaction.atomic():
            self._stands_on_something(thing, seen_version=seen_version)
            thing.save(force_insert=True)
            self._note(thing, before=None, after=snapshot(thing))
        _purge_daily()

    def change(self, thing: Kept, *, seen_version: int) -> None:
        """Keep a thing as it stands now in memory.

        Raises
        ------
        Overtaken
            Where the kept version is no longer the one that was seen; nothing is written.
        InputError
            Where it cannot be kept as it is, or what it lies in is gone.
        """
        thing.office = self.office
        check(thing)
        with transaction.atomic():
            self._stands_on_something(thing)
            kept = _locked(type(thing), self.office, [thing.pk])
            if not kept:
                raise _removed(thing)
            if kept[0].version != seen_version or kept[0].deleted_at is not None:
                raise Overtaken(kept[0])
            before, after = differing(snapshot(kept[0]), snapshot(thing))
            thing.version = kept[0].version
            if not before:
                return
            self._keep(thing, before=before, after=after)
        _purge_daily()

    def put_away(self, thing: Kept, *, seen_version: int | None = None) -> None:
        """Put a thing away with all that lies in it; it can be taken back for thirty days.

        Raises
        ------
        Overtaken
            Where it was deleted already, or is no longer the version that was seen.
        """
        now = timezone.now()
        with transaction.atomic():
            kept = _locked(type(thing), self.office, [thing.pk])
            if not kept:
                raise _removed(thing)
            if kept[0].deleted_at is not None or seen_version not in (None, kept[0].version):
                raise Overtaken(kept[0])
            for one in [*kept, *belongings(kept[0], locked=True)]:
                one.deleted_at = now
                self._keep(one, before={"deleted_at": None}, after={"deleted_at": now.isoformat()})
            thing.deleted_at, thing.version = now, kept[0].version
        _purge_daily()

    def _keep(self, thing: Kept, *, before: dict[str, Any], after: dict[str, Any]) -> None:
        """Write a changed thing whose row is locked."""
        thing.version += 1
        thing.changed_at = timezone.now()
        thing.save(force_update=True)
        self._note(thing, before=before, after=after)

    def _stands_on_something(self, thing: Kept, *, seen_version: int | None = None) -> None:
        """Lock what a thing lies in, and refuse where that is gone or another office's."""
        name = PARENT.get(type(thing))
        if name is None or getattr(thing, f"{name}_id") is None:
            return
        parent = _locked(KINDS[name], self.office, [getattr(thing, f"{name}_id")])
        if not parent:
            raise WordedError(message("store-parent-missing", kind=name, name=given(thing)))
        if parent[0].deleted_at is not None and thing.deleted_at is None:
            raise WordedError(
                message(
                    "store-parent-deleted",
                    kind=name,
                    above=given(parent[0]),
                    name=given(thing),
                )
            )
        if seen_version not in (None, parent[0].version):
            raise Overtaken(parent[0])

    def _note(self, thing: Kept, *, before: dict[str, Any] | None, after: dict[str, Any]) -> None:
        Change.objects.create(
            office=self.office,
            user=self.user,
            who="" if self.user is None else self.user.get_username()[:150],
            act=self.act,
            what=plainly(self.what)[:200],
            said=text_of(self.what),
            kind=kind_of(thing),
            thing=thing.pk,
            before=before,
            after=after,
        )


def take_back(office: Office, act: uuid.UUID, *, user: User | None = None) -> Writer:
    """Undo one act as a whole; the undoing is itself an act that can be taken back.

    Only the fields that the act changed go back; what others changed beside them stays.

    Raises
    ------
    InputError
        Where the act is older than thirty days, was taken back already, or something it touched
        was changed since; nothing is written.
    """
    with transaction.atomic():
        changes = list(
            Change.objects.select_for_update(of=("self",))
            .filter(office=office, act=act, at__gte=timezone.now() - timedelta(days=KEPT_DAYS))
            .order_by("-id")
        )
        if not changes:
            raise WordedError(message("store-no-such-act", days=KEPT_DAYS))
        what = what_of(changes[0].said, changes[0].what)
        if changes[0].taken_back:
            raise WordedError(message("store-already-undone", what=_in_message(what)))
        things = _things_of(office, changes)
        writer = Writer(office, user=user, what=other_way(what))
        for change in changes:
            thing = things.get(change.thing)
            if thing is None:
                raise WordedError(message("store-touched-removed", what=_in_message(what)))
            _undo(thing, change, writer)
        for thing in things.values():
            _whole(thing, writer)
        Change.objects.filter(pk__in=[change.pk for change in changes]).update(taken_back=True)
    return writer


def purge(*, now: datetime) -> int:
    """Remove for good what was put away more than thirty days before now; how many things."""
    limit = now - timedelta(days=KEPT_DAYS)
    gone = 0
    with transaction.atomic():
        for model in reversed(KINDS.values()):
            gone += model._default_manager.filter(deleted_at__lt=limit).delete()[0]
        Change.objects.filter(at__lt=limit).delete()
    return gone


def _purge_daily() -> None:
    """Purge with the first change of a day, for a program that runs for months."""
    today = timezone.now().date()
    if _purged.get("on") != today:
        _purged["on"] = today
        purge(now=timezone.now())


def belongings(thing: Kept, *, locked: bool = False) -> list[Kept]:
    """All that lies in a thing and is not put away, the highest first."""
    found: list[Kept] = []
    above: Sequence[Kept] = [thing]
    model = type(thing)
    while model in BELOW:
        model = BELOW[model]
        rows = model._default_manager.filter(
            **{f"{PARENT[model]}__in": [one.pk for one in above]}, deleted_at__isnull=True
        ).order_by("pk")
        above = list(rows.select_for_update(of=("self",)) if locked else rows)
        found += above
    return found


def _undo(thing: Kept, change: Change, writer: Writer) -> None:
    now = snapshot(thing)
    if any(now.get(key) != value for key, value in change.after.items()):
        what = _in_message(what_of(change.said, change.what))
        raise WordedError(message("store-changed-again", name=given(thing), what=what))
    if change.before is None:
        thing.deleted_at = timezone.now()
    else:
        restore(thing, change.before)
    before, after = differing(now, snapshot(thing))
    writer._keep(thing, before=before, after=after)


def _whole(thing: Kept, writer: Writer) -> None:
    """Refuse where a thing would be left without what it lies in, or with things left in it."""
    if thing.deleted_at is None:
        writer._stands_on_something(thing)
        return
    left = belongings(thing)
    if left:
        raise WordedError(
            message("store-something-inside", inside=given(left[0]), name=given(thing))
        )


def _removed(thing: Kept) -> WordedError:
    return WordedError(message("store-removed", name=given(thing)))


def _in_message(what: Worded) -> Message | Given:
    """What an act did, as a value of another message."""
    return what if isinstance(what, Message) else given(what)


def _things_of(office: Office, changes: Sequence[Change]) -> dict[uuid.UUID, Kept]:
    """The things that changes touched; they and what they lie in are locked from the top down."""
    keys: dict[type[Kept], set[Any]] = {model: set() for model in KINDS.values()}
    for change in changes:
        keys[KINDS[change.kind]].add(change.thing)
    for model, name in PARENT.items():
        above = keys[KINDS[name]]
        above |= set(
            model._default_manager.filter(pk__in=keys[model], office=office)
            .exclude(**{name: None})
            .values_list(f"{name}_id", flat=True)
        )
        told = (change.before or {} for change in changes if KINDS[change.kind] is model)
        above |= {uuid.UUID(one[f"{name}_id"]) for one in told if one.get(f"{name}_id")}
    things: dict[uuid.UUID, Kept] = {}
    for model, wanted in keys.items():
        things |= {thing.pk: thing for thing in _locked(model, office, wanted)}
    touched = {change.thing for change in changes}
    return {key: thing for key, thing in things.items() if key in touched}


def _locked(model: type[Thing], office: Office, keys: Iterable[Any]) -> list[Thing]:
    rows = model._default_manager.select_for_update(of=("self",))
    return list(rows.filter(pk__in=keys, office=office).order_by("pk"))
