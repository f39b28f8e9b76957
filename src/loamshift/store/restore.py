"""Reading back the zips that ``export`` writes: every fault with its file, nothing half done."""

from __future__ import annotations

import csv
import io
import tomllib
import uuid
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any, Final

from django.core.exceptions import ValidationError
from django.db import models

from loamshift.domain.message import Message, message
from loamshift.domain.worded_error import fault, given
from loamshift.errors import Fault
from loamshift.store.archive import ArchiveFault, Limits, files_in, refuse
from loamshift.store.cells import (
    LATER,
    LATER_TABLES,
    TABLES,
    Unreadable,
    columns,
    value_of,
)
from loamshift.store.digests import DIGESTS, digest_of, read_digests
from loamshift.store.export import ABOUT, FORMAT, HEAD, OFFICE_FIELDS
from loamshift.store.forecast_files import read_forecasts
from loamshift.store.limits import faults_in, shown
from loamshift.store.models import Bed, ForecastIssued, Garden, Kept, Office
from loamshift.store.plain import KINDS, PARENT, REFERS, kind_of
from loamshift.store.toml_out import with_nulls

__all__ = ["Archive", "ArchiveFault", "Limits", "read_zip"]

_TEXT_OF: Final[Mapping[str, tuple[str, str, str]]] = {
    "beds.csv": ("beds/", ".toml", "case_text"),
    "letters.csv": ("letters/", ".json", "answer_text"),
    "trials.csv": ("trials/", ".toml", "trial_text"),
    "jars.csv": ("jars/", ".csv", "sheet_text"),
}
_MAY_LACK: Final[Mapping[str, tuple[tuple[str, str], ...]]] = {
    "trials.csv": ((".readings.csv", "readings_text"), (".forecast.json", "forecast_text")),
}
"""Files that a row has beside its own where there is something in them."""
_GARDENS: Final = "gardens/"
_SCOPES: Final = ("store", "client")


@dataclass(frozen=True, slots=True, kw_only=True)
class Archive:
    """What a zip holds: whose it was, and every thing in it, what holds others first."""

    scope: str
    made_at: datetime
    office: Office
    things: tuple[Kept, ...]
    forecasts: tuple[ForecastIssued, ...] = ()
    """Those of saved plans, each of a bed among the things."""

    def count(self, kind: str) -> int:
        """How many things of a kind [count]."""
        return sum(isinstance(thing, KINDS[kind]) for thing in self.things)


def read_zip(data: bytes, *, limits: Limits | None = None) -> Archive:
    """Everything in a zip, checked as a whole; the store is not touched.

    Parameters
    ----------
    limits
        How much it may hold; those of an upload without them.

    Raises
    ------
    ArchiveFault
        With every fault and the file and row it stands in.
    """
    files = files_in(data, head=HEAD, limits=limits or Limits())
    files.pop(ABOUT, None)
    changed = list(_changed(files))
    reading = _Reading(files)
    head = reading.head()
    things = reading.things()
    if reading.faults:
        raise ArchiveFault(reading.faults)
    office = reading.office(head)
    if changed:
        raise ArchiveFault(changed)
    return Archive(
        scope=head["scope"],
        made_at=head["made_at"],
        office=office,
        things=tuple(things),
        forecasts=tuple(reading.forecasts),
    )


def _changed(files: dict[str, bytes]) -> Iterator[Fault]:
    """Files that are not what they were when the zip was written; the list itself is taken out.

    Zips of earlier versions have no list, and a line that somebody took out is not asked for.
    """
    data = files.pop(DIGESTS, None)
    if data is None:
        return
    try:
        digests = read_digests(data)
    except ValueError:
        yield fault(DIGESTS, message("store-digests-unread"), message("store-use-other-zip"))
        return
    for name, digest in digests.items():
        if name not in files:
            yield fault(shown(name), message("store-file-missing"), message("store-file-put-back"))
        elif digest_of(files[name]) != digest:
            right = message("store-file-changed-mend", list=given(DIGESTS))
            yield fault(shown(name), message("store-file-changed"), right)


class _Reading:
    """One zip being read; files are taken out as they are used, so that none is left over."""

    def __init__(self, files: dict[str, bytes]) -> None:
        self.files = files
        self.faults: list[Fault] = []
        self.forecasts: list[ForecastIssued] = []

    def head(self) -> dict[str, Any]:
        """What the zip says of itself; anything wrong with it ends the reading."""
        head = self._toml(HEAD, self.files.pop(HEAD))
        if head is None:
            raise ArchiveFault(self.faults)
        number = head.get("format")
        if isinstance(number, int) and number > FORMAT:
            raise refuse(
                HEAD,
                message("store-zip-later-version", version=given(shown(head.get("program")))),
                message("store-install-later-version"),
                entry=f"format = {number}",
            )
        if number != FORMAT or head.get("scope") not in _SCOPES:
            raise refuse(HEAD, message("store-head-unknown"))
        if not isinstance(head.get("made_at"), datetime):
            raise refuse(HEAD, message("store-head-no-date"), message("store-put-back-made-at"))
        return head

    def office(self, head: Mapping[str, Any]) -> Office:
        """The settings of the office, unsaved."""
        told = head.get("office")
        office = Office()
        if not isinstance(told, dict):
            raise refuse(HEAD, message("store-head-no-office"), message("store-put-back-office"))
        for name in OFFICE_FIELDS:
            field = Office._meta.get_field(name)
            assert isinstance(field, models.Field)
            if name not in told:
                continue
            try:
                if isinstance(told[name], bool) is not isinstance(field, models.BooleanField):
                    raise ValidationError("kind")
                setattr(office, name, field.clean(told[name], office))
            except ValidationError:
                choices = ", ".join(str(value) for value, _ in field.flatchoices)
                right = message("store-shorten-or-leave-out")
                if choices:
                    right = message("store-write-one-of", choices=given(choices))
                self._fault(
                    f"{HEAD} office.{name}", told[name], message("store-setting-unusable"), right
                )
        if self.faults:
            raise ArchiveFault(self.faults)
        return office

    def things(self) -> list[Kept]:
        """Every thing, the highest first, checked one by one and against each other."""
        found: list[tuple[str, Kept]] = []
        for name in TABLES:
            if name in self.files or name not in LATER_TABLES:
                found += self._table(name)
        found += self._gardens()
        beds = [thing for _, thing in found if isinstance(thing, Bed)]
        self.forecasts, wrong = read_forecasts(self.files, beds)
        self.faults += wrong
        for name in self.files:
            self._fault(shown(name), "", message("store-file-strange"), message("store-remove-it"))
        for where, thing in found:
            self.faults += [replace(one, path=f"{where}: {one.path}") for one in faults_in(thing)]
        if not self.faults:
            self._tied_together(found)
        order = list(KINDS)
        return sorted((thing for _, thing in found), key=lambda one: order.index(kind_of(one)))

    def _table(self, name: str) -> Iterator[tuple[str, Kept]]:
        text = self._text(name)
        if text is None:
            return
        model, heads = TABLES[name], columns(TABLES[name])
        rows = csv.reader(io.StringIO(text, newline=""), strict=True)
        try:
            found = next(rows, [])
            heads = {
                head: field for head, field in heads.items() if head in found or head not in LATER
            }
            if found != list(heads):
                self._fault(
                    f"{name} row 1",
                    "",
                    message("store-wrong-columns"),
                    message("store-use-columns", columns=given(", ".join(heads))),
                )
                return
            for number, row in enumerate(rows, start=2):
                where = f"{name} row {number}"
                if not row:
                    continue
                if len(row) != len(heads):
                    self._fault(
                        where,
                        "",
                        message("store-cells", count=len(row)),
                        message("store-cells-needed", count=len(heads)),
                    )
                    continue
                thing = self._thing(model, heads, row, where)
                if thing is not None and self._with_file(name, thing, where):
                    yield where, thing
        except csv.Error as error:
            wrong = message("store-row-broken", why=given(error))
            self._fault(f"{name} row {rows.line_num}", "", wrong, message("store-fix-row"))

    def _thing(
        self,
        model: type[Kept],
        heads: Mapping[str, models.Field[Any, Any]],
        row: list[str],
        where: str,
    ) -> Kept | None:
        thing = model()
        sound = True
        for (head, field), cell in zip(heads.items(), row, strict=True):
            try:
                setattr(thing, field.attname, value_of(field, cell))
            except Unreadable as error:
                sound = False
                self._fault(
                    f"{where}: {head}", shown(cell), message("store-cell-unread"), error.right
                )
        return thing if sound else None

    def _with_file(self, name: str, thing: Kept, where: str) -> bool:
        """Read the file that belongs to a row; false where it is missing or broken."""
        if name not in _TEXT_OF:
            return True
        folder, tail, attribute = _TEXT_OF[name]
        text = self._text(f"{folder}{thing.pk}{tail}", told_by=where)
        if text is None:
            return False
        setattr(thing, attribute, text)
        for tail, attribute in _MAY_LACK.get(name, ()):
            if f"{folder}{thing.pk}{tail}" in self.files:
                setattr(thing, attribute, self._text(f"{folder}{thing.pk}{tail}") or "")
        return True

    def _gardens(self) -> Iterator[tuple[str, Kept]]:
        heads = columns(Garden)
        for name in sorted(one for one in self.files if one.startswith(_GARDENS)):
            tree = self._toml(name, self.files.pop(name))
            if tree is None:
                continue
            garden = Garden(deleted_at=None)
            wrong = [key for key in tree if key not in heads and key != "nothing_at"]
            wrong += [key for key, f in heads.items() if key not in tree and not f.null]
            try:
                with_nulls(tree, tree.pop("nothing_at", []))
                for key, field in heads.items():
                    setattr(garden, field.attname, _garden_value(field, tree.get(key)))
            except (ValueError, LookupError, TypeError, ValidationError):
                wrong.append("a value")
            if name != f"{_GARDENS}{garden.pk}.toml":
                wrong.append("id")
            if wrong:
                self._fault(
                    shown(name),
                    ", ".join(shown(one) for one in wrong[:5]),
                    message("store-garden-keys"),
                    message("store-use-columns", columns=given(", ".join(heads))),
                )
                continue
            yield name, garden

    def _tied_together(self, found: list[tuple[str, Kept]]) -> None:
        """No id twice; in a whole store everything lies in something that is there and kept."""
        by_id: dict[tuple[str, uuid.UUID], Kept] = {}
        for where, thing in found:
            key = (kind_of(thing), thing.pk)
            if key in by_id:
                self._fault(where, thing.pk, message("store-id-twice"), message("store-remove-one"))
            by_id[key] = thing
        for where, thing in found:
            above = PARENT.get(type(thing))
            for name in REFERS.get(type(thing), () if above is None else (above,)):
                held_by = getattr(thing, f"{name}_id")
                if held_by is None:
                    continue
                parent = by_id.get((name, held_by))
                if parent is None:
                    self._fault(
                        f"{where}: {name}",
                        held_by,
                        message("store-id-missing", kind=name),
                        message("store-put-back", kind=name),
                    )
                elif name == above and parent.deleted_at is not None and thing.deleted_at is None:
                    self._fault(
                        f"{where}: deleted_at",
                        "",
                        message("store-above-deleted", kind=name),
                        message("store-same-moment"),
                    )

    def _text(self, name: str, *, told_by: str = "") -> str | None:
        data = self.files.pop(name, None)
        if data is None:
            self._fault(
                told_by or shown(name),
                name,
                message("store-file-missing"),
                message("store-add-file"),
            )
            return None
        try:
            return data.decode("utf-8-sig" if name.endswith(".csv") else "utf-8")
        except UnicodeDecodeError:
            self._fault(shown(name), "", message("store-not-utf-8"), message("store-save-utf-8"))
            return None

    def _toml(self, name: str, data: bytes) -> dict[str, Any] | None:
        try:
            return tomllib.loads(data.decode("utf-8"))
        except UnicodeDecodeError:
            self._fault(shown(name), "", message("store-not-utf-8"), message("store-save-utf-8"))
        except (tomllib.TOMLDecodeError, RecursionError, ValueError) as error:
            wrong = message("store-not-toml", why=given(shown(error)))
            self._fault(shown(name), "", wrong, message("store-fix-file"))
        return None

    def _fault(self, path: str, entry: object, wrong: Message, right: Message) -> None:
        self.faults.append(fault(path, wrong, right, given=shown(entry) if entry != "" else ""))


def _garden_value(field: models.Field[Any, Any], value: Any) -> Any:
    """A value from a garden's file as its field holds it."""
    if isinstance(field, models.DateTimeField):
        if value is None and field.null:
            return None
        if not isinstance(value, datetime) or value.tzinfo is None:
            raise ValueError(field.name)
        return value
    if isinstance(field, (models.UUIDField, models.ForeignKey)):
        return uuid.UUID(value)
    return value
