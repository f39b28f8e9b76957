"""What is asked to restore a zip, and to delete a client permanently."""

from __future__ import annotations

from django import forms
from django.http import HttpRequest

from loamshift.domain.message import Given, message
from loamshift.domain.worded_error import fault
from loamshift.store.models import Client
from loamshift.web.forms import Form, text, upload
from loamshift.web.wording import ISOLATES


class RestoreForm(Form):
    """A zip, and what becomes of what is here already."""

    zip = upload("data-zip", hint="data-zip-most", accept=".zip,application/zip")
    how = forms.ChoiceField(
        label="data-how",
        choices=[("add", "data-how-add"), ("replace", "data-how-replace")],
        initial="add",
        required=False,
        widget=forms.RadioSelect,
    )
    sure = forms.BooleanField(label="data-sure", required=False)


class ForGoodForm(Form):
    """The name of the client, typed once more."""

    name = text("data-permanent-type", missing="page-fill-in")

    def __init__(self, request: HttpRequest, client: Client) -> None:
        self.client = Given(client.name)
        super().__init__(request, values={"client": self.client})

    def clean_name(self) -> None:
        """The same as it is kept."""
        if self.cleaned_data["name"].strip(ISOLATES).strip() != self.client.text.strip():
            self.refuse([fault("name", message("data-permanent-wrong", client=self.client))])
