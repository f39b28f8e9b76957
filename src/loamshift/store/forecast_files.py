"""Forecasts of saved plans in a zip: one file for each bed that has any, written and read back.

Those of letters are not in them: the letters hold them whole, and they are drawn from there.
"""

from __future__ import annotations

import json
import math
import uuid
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import asdict, fields
from datetime import date
from typing import Any, Final

from django.db.models import QuerySet

from loamshift.domain.message import message
from loamshift.domain.score import BedFacts, IssuedAs, IssuedForecast
from loamshift.domain.worded_error import fault, given
from loamshift.errors import Fault
from loamshift.store.issued_course import course_of, issued_of
from loamshift.store.limits import shown
from loamshift.store.models import Bed, ForecastIssued, Office

FOLDER: Final = "forecasts/"
VERSION: Final = 1
"""Of the form of such a file; one of a later version is refused."""
_TAIL: Final = ".json"
_MOST_PLANS: Final = 4_000
_LONGEST: Final = 200
_MOST_PH: Final = 14.0


def forecast_parts(beds: QuerySet[Bed]) -> Iterator[tuple[str, str]]:
    """The file of each bed with saved plans, by its name."""
    plans = ForecastIssued.objects.filter(bed__in=beds, letter=None, course__isnull=False)
    held: dict[uuid.UUID, list[Any]] = {}
    for plan in plans.order_by("bed_id", "issued_on").iterator(chunk_size=100):
        one = {"issued_on": plan.issued_on.isoformat(), "course": plan.course}
        held.setdefault(plan.bed_id, []).append(one)
    for bed, listed in held.items():
        text = json.dumps({"forecasts": VERSION, "plans": listed}, ensure_ascii=False, indent=1)
        yield f"{FOLDER}{bed}{_TAIL}", text + "\n"


def read_forecasts(
    files: dict[str, bytes], beds: Iterable[Bed]
) -> tuple[list[ForecastIssued], list[Fault]]:
    """Saved plans out of the files of a zip, which are taken out, and what is wrong with them."""
    by_name = {f"{FOLDER}{bed.pk}{_TAIL}": bed for bed in beds}
    found: list[ForecastIssued] = []
    faults: list[Fault] = []
    for name in sorted(one for one in files if one.startswith(FOLDER)):
        data, bed = files.pop(name), by_name.get(name)
        if bed is None:
            kind = given("bed")
            faults.append(
                fault(
                    shown(name),
                    message("store-id-missing", kind=kind),
                    message("store-put-back", kind=kind),
                )
            )
            continue
        try:
            found += _read(data, bed)
        except (ValueError, TypeError, KeyError, AttributeError, RecursionError):
            faults.append(
                fault(
                    shown(name), message("store-forecasts-unread"), message("store-use-other-zip")
                )
            )
    return found, faults


def put_forecasts(plans: Sequence[ForecastIssued], office: Office) -> None:
    """Keep saved plans of beds that have none yet, in an office that has the beds."""
    for plan in plans:
        plan.office = office
    ForecastIssued.objects.bulk_create(plans, batch_size=100)


def _read(data: bytes, bed: Bed) -> list[ForecastIssued]:
    tree = json.loads(data.decode("utf-8"))
    if tree["forecasts"] != VERSION or len(tree["plans"]) > _MOST_PLANS:
        raise ValueError(VERSION)
    plans = {}
    for plan in tree["plans"]:
        issued = issued_of(plan["course"], key="", issued_as=IssuedAs.PLAN)
        _check(issued)
        course = course_of(issued)
        issued_on = date.fromisoformat(plan["issued_on"])
        plans[issued_on] = ForecastIssued(bed=bed, issued_on=issued_on, course=course)
    if len(plans) != len(tree["plans"]):
        raise ValueError(bed.pk)
    return list(plans.values())


def _check(issued: IssuedForecast) -> None:
    """Refuse what is no forecast although it has the shape of one."""
    courses = list(asdict(issued.ph).values())
    numbers = [*(one for values in courses for one in values), issued.known_g_m2]
    numbers += [part.rate_g_m2 for part in issued.parts]
    numbers += [one for one in (issued.measured_ph, issued.measured_sd) if one is not None]
    sound = (
        all(len(values) == len(issued.dates) for values in courses)
        and all(map(_is_number, numbers))
        and all(0.0 <= one <= _MOST_PH for values in courses for one in values)
        and list(issued.dates) == sorted(set(issued.dates))
    )
    if not sound or not all(_is_fact(one.type, getattr(issued.facts, one.name)) for one in _FACTS):
        raise ValueError(issued.on)


_FACTS: Final = fields(BedFacts)


def _is_number(one: object) -> bool:
    return isinstance(one, (int, float)) and not isinstance(one, bool) and math.isfinite(one)


def _is_fact(kind: object, value: object) -> bool:
    if value is None:
        return True
    if "float" in str(kind):
        return _is_number(value)
    return isinstance(value, str) and len(value) <= _LONGEST
