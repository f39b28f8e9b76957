"""What is asked of a client, and of a garden."""

from __future__ import annotations

from typing import Any, ClassVar

from django import forms
from django.http import HttpRequest

from loamshift.domain.message import Given, Message, message
from loamshift.errors import InputError
from loamshift.store.models import Client, Garden
from loamshift.store.scope import kept
from loamshift.tables.places import find_place
from loamshift.web.forms import Names, text
from loamshift.web.kept_form import KeptForm
from loamshift.web.middleware import office_of
from loamshift.web.problems import whole_fault


class ClientForm(KeptForm[Client]):
    """Name, contact and note of a client."""

    columns = ("name", "contact", "note")

    name = text("page-name", missing="page-enter-name")
    contact = text("page-contact", hint="clients-contact-hint", rows=3)
    note = text("page-note", rows=5)

    def what(self) -> Message:
        """A client added or changed."""
        done = "clients-added" if self.is_new else "clients-changed"
        return message(done, client=Given(self.thing.name))


class GardenForm(KeptForm[Garden]):
    """Name, client and place of a garden."""

    columns = ("name", "client_id", "place")
    asks: ClassVar = {"client_id": "client"}

    name = text("page-name", missing="page-enter-name")
    client = forms.ModelChoiceField(
        Client.objects.none(),
        label="page-client",
        empty_label="page-choose",
        widget=Names,
        error_messages=dict.fromkeys(("required", "invalid_choice"), "page-choose-client"),
    )
    place = text("page-place", hint="gardens-place-hint", list="places")

    def __init__(self, request: HttpRequest, thing: Garden) -> None:
        super().__init__(request, thing)
        choice: Any = self.fields["client"]
        choice.queryset = kept(Client, office_of(request))

    def shown(self, thing: Garden) -> dict[str, Any]:
        """A garden with the name of its place alone."""
        place = str(thing.place.get("name", ""))
        return {"name": thing.name, "client": thing.client_id, "place": place}

    def saved(self, column: str, thing: Garden) -> dict[str, str]:
        """What stands there, the client by name."""
        if column == "client_id":
            return {"client": thing.client.name}
        return super().saved(column, thing)

    def clean_place(self) -> dict[str, Any]:
        """The place with another name; a name alone has to be one of the list."""
        name = self.cleaned_data["place"]
        place = {key: value for key, value in self.thing.place.items() if key != "name"}
        if name and not place:
            try:
                find_place(name)
            except InputError as error:
                mend = message("gardens-place-or-blank")
                self.refuse([whole_fault(error, path="place", mend=mend)])
        return {"name": name, **place} if name else place

    def fill(self) -> None:
        """Put what was typed into the garden."""
        for name in ("name", "client", "place"):
            setattr(self.thing, name, self.cleaned_data[name])

    def what(self) -> Message:
        """A garden added or changed."""
        done = "gardens-added" if self.is_new else "gardens-changed"
        return message(done, garden=Given(self.thing.name))
