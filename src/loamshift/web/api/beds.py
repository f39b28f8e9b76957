"""Beds, and what is read and put on them."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from django.http import HttpRequest, HttpResponse
from ninja import Query, Router, Status

from loamshift.domain.message import Given, message
from loamshift.domain.worded_error import fault
from loamshift.errors import CaseError
from loamshift.store.models import Bed, Garden
from loamshift.store.scope import found, kept
from loamshift.web.acts import writer_of
from loamshift.web.api.cases import case_given, clock_today, whole_bed, with_entry
from loamshift.web.api.door import acted, deleted
from loamshift.web.api.faults import RefusedOut
from loamshift.web.api.shapes import (
    ActOut,
    BedIn,
    BedOut,
    BedPut,
    BedsOut,
    EntryIn,
    ListQuery,
    OvertakenOut,
    VersionQuery,
    page_of,
)
from loamshift.web.beds.keeping import put_case
from loamshift.web.cases import text_of_bed
from loamshift.web.middleware import kept_or_404, office_of

router = Router(tags=["beds"])
ASKED = dict.fromkeys((400, 401, 422), RefusedOut)
LOOKED = {**ASKED, 404: RefusedOut}
WRITES = {**dict.fromkeys((400, 401, 403, 404, 413, 422), RefusedOut), 409: OvertakenOut}


@router.get("/beds", response={200: BedsOut, **ASKED})
def list_beds(request: HttpRequest, asked: Query[ListQuery]) -> Any:
    """Beds by name; words of the search are looked for in bed, plants, garden and client."""
    return page_of(found(kept(Bed, office_of(request)), asked.search), asked)


@router.post("/beds", response={201: BedOut, **WRITES})
def add_bed(request: HttpRequest, given: BedIn) -> Any:
    """Keep a new bed; its name is the name of its case."""
    bed = Bed()
    _put(request, bed, given)
    writer = writer_of(request, message("form-added", bed=Given(bed.name)))
    writer.add(bed)
    return Status(201, {**whole_bed(bed), "act": writer.act})


@router.get("/beds/{uuid:pk}", response={200: BedOut, **LOOKED})
def get_bed(request: HttpRequest, pk: UUID) -> Any:
    """A bed with its case, as JSON and as text."""
    return whole_bed(kept_or_404(request, Bed, pk))


@router.put("/beds/{uuid:pk}", response={200: BedOut, **WRITES})
def put_bed(request: HttpRequest, pk: UUID, given: BedPut) -> Any:
    """Put another case in the place of a bed's; 409 where somebody else changed it since."""
    bed = kept_or_404(request, Bed, pk)
    _put(request, bed, given)
    return _change(request, bed, given.version)


@router.delete("/beds/{uuid:pk}", response={200: ActOut, **WRITES})
def delete_bed(request: HttpRequest, pk: UUID, seen: Query[VersionQuery]) -> Any:
    """Put a bed away with its letters; for thirty days it can be taken back."""
    bed = kept_or_404(request, Bed, pk)
    what = message("beds-deleted", bed=Given(bed.name))
    return deleted(request, bed, what, seen=seen.version)


@router.get(
    "/beds/{uuid:pk}/case.toml",
    response=LOOKED,
    openapi_extra={
        "responses": {
            200: {
                "description": "The case file",
                "content": {"application/toml": {"schema": {"type": "string"}}},
            }
        }
    },
)
def case_file(request: HttpRequest, pk: UUID) -> HttpResponse:
    """The case file of a bed, with the remarks of whoever wrote one."""
    text = text_of_bed(kept_or_404(request, Bed, pk))
    return HttpResponse(text, content_type="application/toml; charset=utf-8")


@router.post("/beds/{uuid:pk}/readings", response={201: BedOut, **WRITES})
def add_reading(request: HttpRequest, pk: UUID, given: EntryIn) -> Any:
    """Add a reading of the pH: date, ph, ph_method, depth."""
    return Status(201, _entry(request, pk, "reading", given))


@router.post("/beds/{uuid:pk}/applied", response={201: BedOut, **WRITES})
def add_applied(request: HttpRequest, pk: UUID, given: EntryIn) -> Any:
    """Add what was put on: date, material, amount or rate, incorporated."""
    return Status(201, _entry(request, pk, "applied", given))


def _entry(request: HttpRequest, pk: UUID, name: str, given: EntryIn) -> dict[str, Any]:
    bed = kept_or_404(request, Bed, pk)
    put_case(bed, with_entry(bed, name, given.entry), today=clock_today())
    return _change(request, bed, given.version)


def _change(request: HttpRequest, bed: Bed, seen: int) -> dict[str, Any]:
    writer = writer_of(request, message("form-changed", bed=Given(bed.name)))
    writer.change(bed, seen_version=seen)
    return {**whole_bed(bed), "act": acted(bed, writer, seen=seen)}


def _put(request: HttpRequest, bed: Bed, given: BedIn) -> None:
    bed.garden = None
    if given.garden is not None:
        bed.garden = kept(Garden, office_of(request)).filter(pk=given.garden).first()
        if bed.garden is None:
            wrong, right = message("api-no-garden"), message("api-gardens-listed")
            raise CaseError([fault("garden", wrong, right, given=str(given.garden))])
    put_case(bed, case_given(given), today=clock_today())
