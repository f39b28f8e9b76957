"""Files of a field as they come from a browser: looked at before any map program opens them."""

from __future__ import annotations

import json
import re
import tempfile
import threading
from collections.abc import Mapping
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path
from typing import Any, Final

from django.db.models import QuerySet
from django.utils import timezone

from loamshift.case.field.layers import TABLES
from loamshift.case.field.read import FieldFiles as Files
from loamshift.case.field.read import read_field
from loamshift.domain.case import Case
from loamshift.domain.field import FieldMap
from loamshift.domain.message import Given, Listed, Message, Value, message
from loamshift.domain.ph import PhMethod
from loamshift.domain.worded_error import WordedError, WordedFault, fault, given
from loamshift.errors import Fault, InputError
from loamshift.report.missing_extra import missing_extra
from loamshift.services.field.map import field_map
from loamshift.store.changes import KEPT_DAYS
from loamshift.store.models import FieldFiles, Office
from loamshift.web.once import Once
from loamshift.web.products.with_shelf import case_with_shelf, in_stock, shelf_entries

LARGEST_BYTES: Final = 5_000_000
SHAPES: Final = (".gpkg", ".geojson", ".json")
"""Files of shapes that a page takes; those of several parts are for the command."""
_SQLITE: Final = b"SQLite format 3\x00"
_GPKG_MARKS: Final = (b"GPKG", b"GP10", b"GP11")
_MARK_AT: Final = 68
"""Where a GeoPackage says what it is [byte] (OGC 12-128r18, requirement 2)."""
_GEOMETRIES: Final = frozenset(
    ("FeatureCollection", "Feature", "GeometryCollection", "Polygon", "MultiPolygon")
)
_CODE: Final = re.compile(r"(?:urn:ogc:def:crs:|EPSG:)[\w:.]+", re.IGNORECASE)
_ONE_AT_A_TIME: Final = threading.Lock()
"""A map takes seconds of a core: whoever asks for another waits, and other pages do not."""
_MAPS: Final[Once[FieldMap]] = Once(16)


def files_of(office: Office) -> QuerySet[FieldFiles]:
    """Fields of an office, the latest first; those kept long enough are removed for good."""
    limit = timezone.now() - timedelta(days=KEPT_DAYS)
    FieldFiles.objects.filter(changed_at__lt=limit).delete()
    return FieldFiles.objects.filter(office=office)


def check_file(data: bytes, name: str) -> None:
    """Refuse what is not the kind of file that its name says.

    A map program chooses by the content how it reads a file, and some of its ways follow links
    to other files and hosts. So nothing reaches it here but a GeoPackage or GeoJSON.

    Raises
    ------
    WordedError
        Where it is too large, of another kind, or damaged.
    """
    ending = Path(name).suffix.casefold()
    if len(data) > LARGEST_BYTES:
        most = LARGEST_BYTES // 1_000_000
        raise WordedError(message("intake-page-too-large", file=Given(name), most=most))
    if ending in TABLES:
        return  # read by the reader of laboratory files, which opens nothing else
    if ending not in SHAPES:
        raise WordedError(message("fields-page-kind", file=Given(name)))
    sound = _is_geopackage(data) if ending == ".gpkg" else _is_geojson(data)
    if not sound:
        raise WordedError(message("fields-page-content", file=Given(name)))


def _is_geopackage(data: bytes) -> bool:
    mark = data[_MARK_AT : _MARK_AT + len(_GPKG_MARKS[0])]
    return data.startswith(_SQLITE) and mark in _GPKG_MARKS


def _is_geojson(data: bytes) -> bool:
    try:
        tree = json.loads(data.decode("utf-8-sig"))
    except (ValueError, RecursionError):
        return False
    return isinstance(tree, dict) and tree.get("type") in _GEOMETRIES and _stays_here(tree)


def _stays_here(tree: dict[str, Any]) -> bool:
    """True where every coordinate system goes by a code: one that is a link would be fetched."""
    left: list[Any] = [tree]
    while left:
        one = left.pop()
        if isinstance(one, list):
            left += one
        elif isinstance(one, dict):
            left += one.values()
            if one.get("crs") is not None and not _CODE.fullmatch(_name_of(one["crs"])):
                return False
    return True


def _name_of(crs: Any) -> str:
    told = crs.get("properties") if isinstance(crs, dict) and crs.get("type") == "name" else None
    return str(told.get("name", "")) if isinstance(told, dict) else ""


def case_of_field(told: Mapping[str, Any], *, office: Office, today: date) -> Case:
    """What was said of a field as a whole, with the products of the shelf.

    Raises
    ------
    CaseError
        Where it cannot be used; it carries every fault with its path.
    """
    return case_with_shelf(dict(told["case"]), shelf_entries(in_stock(office)), today=today)


def map_of(files: FieldFiles, *, today: date) -> FieldMap:
    """The map of a field, worked out once.

    Raises
    ------
    InputError
        Where the files or what was said of them cannot be used, or the part that reads maps is
        not installed.
    """
    office = files.office
    key = (files.pk, files.changed_at, today, shelf_entries(in_stock(office)))
    return _MAPS.get(key, lambda: _make(files, today))


def _make(files: FieldFiles, today: date) -> FieldMap:
    """The map of a field; what is wrong speaks of the files by the names that they came with."""
    base = case_of_field(files.told, office=files.office, today=today)
    method = files.told.get("method") or None
    if method is None and base.soil.ph is not None:
        method = base.soil.ph.method
    with tempfile.TemporaryDirectory() as folder:
        samples = _put(Path(folder), "samples", bytes(files.samples), files.samples_name)
        names = {str(samples): files.samples_name}
        boundary = None
        if files.boundary is not None:
            boundary = _put(Path(folder), "boundary", bytes(files.boundary), files.boundary_name)
            names[str(boundary)] = files.boundary_name
        given_files = Files(
            samples=samples,
            boundary=boundary,
            crs=files.told.get("crs") or None,
            method=None if method is None else PhMethod(method),
            name=files.name,
        )
        try:
            with _ONE_AT_A_TIME:
                return field_map(
                    read_field(given_files),
                    base,
                    sample_price=files.told.get("sample_price"),
                    loss_per_ha_year=files.told.get("loss_per_ha"),
                )
        except InputError as error:
            raise _by_their_names(error, names) from error
        except ModuleNotFoundError as error:
            if missing_extra(error) is None:
                raise
            raise WordedError(message("fields-page-extra")) from error


def _put(folder: Path, stem: str, data: bytes, name: str) -> Path:
    """A file under a name of ours: of theirs only the ending is taken, one of those known."""
    check_file(data, name)
    made = folder / f"{stem}{Path(name).suffix.casefold()}"
    made.write_bytes(data)
    return made


def _by_their_names(error: InputError, names: Mapping[str, str]) -> InputError:
    said = getattr(error, "said", None)
    if not isinstance(said, Message):
        return error
    faults = [_renamed_fault(one, names) for one in getattr(error, "faults", ())]
    return WordedError(_renamed(said, names), faults)


def _renamed_fault(one: Fault, names: Mapping[str, str]) -> Fault:
    if not isinstance(one, WordedFault):
        return replace(one, path=_named(one.path, names), problem=_named(one.problem, names))
    wrong, *right = (_renamed(said, names) for said in one.said.sentences)
    return fault(
        _named(one.path, names), wrong, right[0] if right else None, given=_named(one.given, names)
    )


def _renamed(said: Message, names: Mapping[str, str]) -> Message:
    return Message(said.key, {key: _value(value, names) for key, value in said.values.items()})


def _value(value: Value, names: Mapping[str, str]) -> Value:
    if isinstance(value, Given):
        return given(_named(value.text, names))
    if isinstance(value, Message):
        return _renamed(value, names)
    if isinstance(value, Listed):
        return replace(value, items=tuple(_value(one, names) for one in value.items))
    return value


def _named(text: str, names: Mapping[str, str]) -> str:
    """A text in which a file goes by the name it came with, not by where it lay."""
    ours = "|".join(re.escape(one) for path in names for one in (path, Path(path).name))
    theirs = {**names, **{Path(path).name: name for path, name in names.items()}}
    return re.sub(ours, lambda found: theirs[found[0]], text)
