"""Clients and their gardens."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from django.http import HttpRequest
from ninja import Query, Router

from loamshift.domain.message import Given, message
from loamshift.domain.worded_error import fault
from loamshift.errors import CaseError
from loamshift.store.models import Client, Garden
from loamshift.store.scope import found, kept
from loamshift.web.api.beds import ASKED, LOOKED, WRITES
from loamshift.web.api.door import added, changed, deleted
from loamshift.web.api.shapes import (
    ActOut,
    ClientIn,
    ClientOut,
    ClientPut,
    ClientsOut,
    GardenIn,
    GardenOut,
    GardenPut,
    GardensOut,
    ListQuery,
    VersionQuery,
    brief,
    page_of,
)
from loamshift.web.middleware import kept_or_404, office_of

router = Router(tags=["clients and gardens"])


@router.get("/clients", response={200: ClientsOut, **ASKED})
def list_clients(request: HttpRequest, asked: Query[ListQuery]) -> Any:
    """Clients by name."""
    return page_of(found(kept(Client, office_of(request)), asked.search), asked)


@router.post("/clients", response={201: ClientOut, **WRITES})
def add_client(request: HttpRequest, given: ClientIn) -> Any:
    """Keep a new client."""
    client = Client(**given.model_dump())
    return added(request, client, message("clients-added", client=Given(client.name)))


@router.get("/clients/{uuid:pk}", response={200: ClientOut, **LOOKED})
def get_client(request: HttpRequest, pk: UUID) -> Any:
    """One client."""
    return brief(kept_or_404(request, Client, pk))


@router.put("/clients/{uuid:pk}", response={200: ClientOut, **WRITES})
def put_client(request: HttpRequest, pk: UUID, given: ClientPut) -> Any:
    """Change a client; 409 where somebody else changed it since."""
    client = kept_or_404(request, Client, pk)
    for name, value in given.model_dump(exclude={"version"}).items():
        setattr(client, name, value)
    what = message("clients-changed", client=Given(client.name))
    return changed(request, client, what, seen=given.version)


@router.delete("/clients/{uuid:pk}", response={200: ActOut, **WRITES})
def delete_client(request: HttpRequest, pk: UUID, seen: Query[VersionQuery]) -> Any:
    """Put a client away with gardens, beds and letters; for thirty days it can be taken back."""
    client = kept_or_404(request, Client, pk)
    what = message("clients-deleted", client=Given(client.name))
    return deleted(request, client, what, seen=seen.version)


@router.get("/gardens", response={200: GardensOut, **ASKED})
def list_gardens(request: HttpRequest, asked: Query[ListQuery]) -> Any:
    """Gardens by name; words of the search are looked for in garden and client."""
    return page_of(found(kept(Garden, office_of(request)), asked.search), asked)


@router.post("/gardens", response={201: GardenOut, **WRITES})
def add_garden(request: HttpRequest, given: GardenIn) -> Any:
    """Keep a new garden of a client."""
    garden = Garden(client=_owner(request, given), name=given.name, place=given.place)
    return added(request, garden, message("gardens-added", garden=Given(garden.name)))


@router.get("/gardens/{uuid:pk}", response={200: GardenOut, **LOOKED})
def get_garden(request: HttpRequest, pk: UUID) -> Any:
    """One garden with its plan."""
    return brief(kept_or_404(request, Garden, pk))


@router.put("/gardens/{uuid:pk}", response={200: GardenOut, **WRITES})
def put_garden(request: HttpRequest, pk: UUID, given: GardenPut) -> Any:
    """Change a garden; its plan stays. 409 where somebody else changed it since."""
    garden = kept_or_404(request, Garden, pk)
    garden.client, garden.name, garden.place = _owner(request, given), given.name, given.place
    what = message("gardens-changed", garden=Given(garden.name))
    return changed(request, garden, what, seen=given.version)


@router.delete("/gardens/{uuid:pk}", response={200: ActOut, **WRITES})
def delete_garden(request: HttpRequest, pk: UUID, seen: Query[VersionQuery]) -> Any:
    """Put a garden away with its beds and letters; for thirty days it can be taken back."""
    garden = kept_or_404(request, Garden, pk)
    what = message("gardens-deleted", garden=Given(garden.name))
    return deleted(request, garden, what, seen=seen.version)


def _owner(request: HttpRequest, given: GardenIn) -> Client:
    client = kept(Client, office_of(request)).filter(pk=given.client).first()
    if client is None:
        wrong, right = message("api-no-client"), message("api-clients-listed")
        raise CaseError([fault("client", wrong, right, given=str(given.client))])
    return client
