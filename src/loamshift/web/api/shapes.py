"""What goes in and out: one shape for each kind of thing."""

from __future__ import annotations

from datetime import date, datetime
from typing import Annotated, Any, TypeVar
from uuid import UUID

from django.db.models import QuerySet
from ninja import Schema
from pydantic import ConfigDict, Field

from loamshift.store.models import Bed, Client, Garden, Kept, Product, SentLetter
from loamshift.web.api.faults import RefusedOut

Name = Annotated[str, Field(min_length=1, max_length=160)]
Number = Annotated[float, Field(allow_inf_nan=False)]
Version = Annotated[int, Field(ge=1, le=2_147_483_647)]


class Strict(Schema):
    """A body in which no key may stand that nobody reads."""

    model_config = ConfigDict(extra="forbid")


class Seen(Strict):
    """The version that was seen, so that a change made meanwhile is not overwritten."""

    version: Version


class ThingOut(Schema):
    """What every kept thing has; ``act`` takes back what was just done to it."""

    act: UUID | None = None
    id: UUID
    version: int
    created_at: datetime
    changed_at: datetime


class ClientIn(Strict):
    """A client to keep."""

    name: Name
    contact: Annotated[str, Field(max_length=1000)] = ""
    note: Annotated[str, Field(max_length=4000)] = ""


class ClientPut(ClientIn, Seen):
    """A client as it is to stand."""


class ClientOut(ThingOut):
    """A client."""

    name: str
    contact: str
    note: str


class GardenIn(Strict):
    """A garden of a client; ``place`` as the case file has it."""

    client: UUID
    name: Name
    place: dict[str, Any] = Field(default_factory=dict)


class GardenPut(GardenIn, Seen):
    """A garden as it is to stand."""


class GardenOut(ThingOut):
    """A garden with its plan."""

    client: UUID
    name: str
    place: dict[str, Any]
    plan: dict[str, Any]


class BedBrief(ThingOut):
    """A bed in a list."""

    name: str
    garden: UUID | None
    plants: str
    ph: float | None
    decision: str
    is_sample: bool


class BedOut(BedBrief):
    """A bed with its case: as the keys of the case file, and as its text."""

    case: dict[str, Any]
    case_toml: str


class CaseIn(Strict):
    """A case as JSON or as the text of a case file, one of the two."""

    case: dict[str, Any] | None = None
    case_toml: Annotated[str, Field(max_length=1_000_000)] | None = None


class BedIn(CaseIn):
    """A bed to keep: its case, and the garden it lies in."""

    garden: UUID | None = None


class BedPut(BedIn, Seen):
    """A bed as it is to stand."""


class EntryIn(Strict):
    """One entry of a list of the case: its keys as the case file has them, and the version seen."""

    version: Version
    entry: dict[str, Any]


class LetterBrief(ThingOut):
    """A letter in a list."""

    bed: UUID
    title: str
    sent_on: date
    decision: str
    note: str


class LetterIn(Strict):
    """What goes with a letter that is sent."""

    bed: UUID
    title: Annotated[str, Field(max_length=200)] = ""
    note: Annotated[str, Field(max_length=2000)] = ""


class ProductIn(Strict):
    """A product of the shelf."""

    name: Name
    material: Name
    purity_pct: Annotated[float, Field(gt=0, le=100, allow_inf_nan=False)] | None = None
    pack: Annotated[str, Field(max_length=40)] = ""
    price: Annotated[float, Field(ge=0, le=1e7, allow_inf_nan=False)] | None = None
    currency: Annotated[str, Field(max_length=3)] = ""
    in_stock: bool = True
    note: Annotated[str, Field(max_length=1000)] = ""
    label: Annotated[str, Field(max_length=1000)] = ""


class ProductPut(ProductIn, Seen):
    """A product as it is to stand."""


class ProductOut(ThingOut):
    """A product."""

    name: str
    material: str
    purity_pct: float | None
    pack: str
    price: float | None
    currency: str
    in_stock: bool
    note: str
    label: str


class ActOut(Schema):
    """One act that was done, and that can be taken back."""

    act: UUID
    what: str


class Page(Schema):
    """Which part of a list this is."""

    count: int
    offset: int
    limit: int


class ClientsOut(Page):
    """Clients."""

    items: list[ClientOut]


class GardensOut(Page):
    """Gardens."""

    items: list[GardenOut]


class BedsOut(Page):
    """Beds."""

    items: list[BedBrief]


class LettersOut(Page):
    """Letters."""

    items: list[LetterBrief]


class ProductsOut(Page):
    """Products."""

    items: list[ProductOut]


class OvertakenOut(RefusedOut):
    """Refused because somebody else was first; ``current`` is what stands there now."""

    current: dict[str, Any] | None = None


class VersionQuery(Schema):
    """The version that was seen; left out, whatever stands there goes."""

    version: Version | None = None


class ListQuery(Schema):
    """What is looked for, and which part of what is found."""

    search: Annotated[str, Field(max_length=200, description="Words that all must occur.")] = ""
    offset: Annotated[int, Field(ge=0, le=1_000_000_000)] = 0
    limit: Annotated[int, Field(ge=1, le=200)] = 50


def brief(thing: Kept) -> dict[str, Any]:
    """What every shape of a thing has, and the fields of its own kind."""
    return {
        name: getattr(thing, f"{name}_id" if name in _LIES_IN else name)
        for name in _OUT[type(thing)].model_fields
        if name != "act"
    }


_LIES_IN = ("client", "garden", "bed")
_OUT: dict[type[Kept], type[Schema]] = {
    Client: ClientOut,
    Garden: GardenOut,
    Bed: BedBrief,
    SentLetter: LetterBrief,
    Product: ProductOut,
}


def shape_of(thing: Kept) -> dict[str, Any]:
    """A thing as JSON shows it, a bed with its case."""
    if isinstance(thing, Bed):
        from loamshift.web.api.cases import whole_bed

        return BedOut(**whole_bed(thing)).model_dump(mode="json")
    return _OUT[type(thing)](**brief(thing)).model_dump(mode="json")


AnyThing = TypeVar("AnyThing", bound=Kept)


def page_of(things: QuerySet[AnyThing], asked: ListQuery) -> dict[str, Any]:
    """One part of a list, with how many there are in all."""
    part = things[asked.offset : asked.offset + asked.limit]
    return {
        "count": things.count(),
        "offset": asked.offset,
        "limit": asked.limit,
        "items": [brief(thing) for thing in part],
    }
