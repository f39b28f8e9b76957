"""Taking back what was done."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from django.http import HttpRequest
from ninja import Router

from loamshift.errors import InputError
from loamshift.store.changes import take_back
from loamshift.store.models import Change
from loamshift.web.api.beds import WRITES
from loamshift.web.api.faults import Refused, answer_for_status
from loamshift.web.api.shapes import ActOut
from loamshift.web.middleware import office_of
from loamshift.web.notices import person_of
from loamshift.web.wording import said

router = Router(tags=["changes"])


@router.post("/acts/{uuid:act}/take-back", response={200: ActOut, **WRITES})
def undo(request: HttpRequest, act: UUID) -> Any:
    """Take back one act as a whole; 409 where what it touched was changed since."""
    office = office_of(request)
    if not Change.objects.filter(office=office, act=act).exists():
        return answer_for_status(request, 404)
    try:
        writer = take_back(office, act, user=person_of(request))
    except InputError as fault:
        raise Refused(409, getattr(fault, "said", str(fault))) from fault
    return {"act": writer.act, "what": said(request, writer.what)}
