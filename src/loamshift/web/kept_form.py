"""Short forms about a kept thing: kept as typed, put together with what somebody else saved."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, ClassVar, Generic, TypeVar

from django.http import HttpRequest

from loamshift.domain.message import Given, Message, message
from loamshift.errors import InputError
from loamshift.store.changes import Overtaken, Writer, snapshot
from loamshift.store.limits import Unfit
from loamshift.store.models import Kept
from loamshift.store.plain import restore
from loamshift.web.acts import writer_of
from loamshift.web.beds.merge import merge_fields
from loamshift.web.forms import Form
from loamshift.web.notices import notify_done
from loamshift.web.problems import whole_fault

Thing = TypeVar("Thing", bound=Kept)


class KeptForm(Form, Generic[Thing]):
    """A form about a thing; its fields are the columns, unless a form says otherwise."""

    columns: ClassVar[tuple[str, ...]] = ()
    """What it asks, by the names of columns."""
    asks: ClassVar[Mapping[str, str]] = {}
    """Fields that are called otherwise than their column, by the column."""

    def __init__(self, request: HttpRequest, thing: Thing) -> None:
        self.thing = thing
        self.is_new = thing._state.adding
        self.overtaken = False
        self.version = version_seen(request) if request.method == "POST" else thing.version
        super().__init__(request, initial=self.shown(thing))

    def shown(self, thing: Thing) -> dict[str, Any]:
        """A thing as the fields show it."""
        return {name: getattr(thing, name) for name in self.columns}

    def saved(self, column: str, thing: Thing) -> dict[str, str]:
        """What stands in a column, as the fields say it that ask for it."""
        name = self.asks.get(column, column)
        return {name: self.shown(thing)[name]}

    def fill(self) -> None:
        """Put what was typed into the thing."""
        for name in self.columns:
            setattr(self.thing, name, self.cleaned_data[name])

    def what(self) -> Message:
        """What is done with the thing."""
        raise NotImplementedError

    @property
    def status(self) -> int:
        """That of the page the form stands on [number]."""
        return 409 if self.overtaken else super().status

    def keep(self) -> bool:
        """Keep the thing as it was typed; false where that was not done, which the form tells.

        Fields that only somebody else changed meanwhile stay as they saved them.
        """
        if not self.is_valid():
            return False
        self.fill()
        writer = writer_of(self.request, self.what())
        also = None
        try:
            if self.is_new:
                writer.add(self.thing)
            else:
                also = self._change(writer)
        except Overtaken as overtaken:
            self.overtaken, self.version = True, overtaken.current.version
            self.data = {name: value or "" for name, value in self.shown(self.thing).items()}
            self.refuse([whole_fault(overtaken)])
        except Unfit as unfit:
            self.refuse(unfit.faults)
        except InputError as error:
            self.refuse([whole_fault(error)])
        else:
            notify_done(self.request, writer, also=also)
            return True
        return False

    def _change(self, writer: Writer) -> Message | None:
        """Change the thing; what is to be told besides, where two changes were put together."""
        thing = self.thing
        try:
            writer.change(thing, seen_version=self.version)
        except Overtaken as overtaken:
            current = overtaken.current
            assert isinstance(current, type(thing))
            typed, there = snapshot(thing), snapshot(current)
            mine = {name: typed[name] for name in self.columns}
            merged = merge_fields(current, self.version, mine)
            asked = {name for name in mine if there[name] != mine[name]}
            if merged is not None:
                restore(thing, there | {name: merged.tree.get(name) for name in mine})
                asked = {path.partition(".")[0] for path, *_ in merged.asked}
            if merged is None or asked:
                for column in asked:
                    for name, value in self.saved(column, current).items():
                        self.now[name] = message(
                            "form-there-now", now=Given(value) if value else None
                        )
                raise
            thing.version = current.version
            writer.change(thing, seen_version=current.version)
            return message("form-merged")
        return None


def version_seen(request: HttpRequest) -> int:
    """The version that somebody saw before they typed; none is 0, which no thing has."""
    typed = request.POST.get("version", "")
    return int(typed) if typed.isdecimal() and len(typed) < 10 else 0
