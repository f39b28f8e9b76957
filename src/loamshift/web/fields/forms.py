"""What is asked of a field: its files, and what is wanted of it as a whole."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any, Final

from django import forms
from django.core.files.uploadedfile import UploadedFile
from django.http import HttpRequest

from loamshift.case.field.layers import figure
from loamshift.domain.message import message
from loamshift.domain.ph import PhMethod
from loamshift.domain.worded_error import WordedError, fault, given
from loamshift.errors import CaseError, InputError
from loamshift.store.models import Client, FieldFiles, Office
from loamshift.store.scope import kept
from loamshift.store.toml_out import as_json
from loamshift.web.cases import Tree, with_fields
from loamshift.web.fields.files import LARGEST_BYTES, case_of_field, check_file, map_of
from loamshift.web.forms import Form, Names, text, upload
from loamshift.web.notices import person_of
from loamshift.web.problems import whole_fault

PATHS: Final = {
    "name": "name",
    "plant": "aim.plant",
    "target_ph": "aim.target_ph",
    "place": "place.name",
}
"""The key of a case file that each field is."""
_MOST_MONEY: Final = 1e9
_LONGEST_NAME: Final = 200
_LONGEST_FIELD: Final = 160
_SAMPLES: Final = ".csv,.tsv,.txt,.xlsx,.xls,.ods,.gpkg,.geojson,.json"


class FieldForm(Form):
    """A field to be mapped."""

    samples = upload("fields-page-samples", accept=_SAMPLES, hint="fields-page-samples-hint")
    boundary = upload(
        "fields-page-boundary", accept=".gpkg,.geojson,.json", hint="fields-page-boundary-hint"
    )
    name = text("page-name", most=_LONGEST_FIELD)
    plant = text("fields-page-plant", list="plants")
    target_ph = text("fields-page-target", inputmode="decimal", size=5)
    place = text("page-place", list="places")
    method = forms.ChoiceField(
        label="fields-page-method",
        help_text="fields-page-method-hint",
        required=False,
        choices=[("", "page-choose"), *((str(one), str(one)) for one in PhMethod)],
    )
    crs = text("fields-page-crs", hint="fields-page-crs-hint", most=200)
    case = upload("fields-page-case", accept=".toml", hint="fields-page-case-hint")
    sample_price = text("fields-page-sample-price", inputmode="decimal", size=8)
    loss_per_ha = text(
        "fields-page-loss", hint="fields-page-loss-hint", inputmode="decimal", size=8
    )
    client = forms.ModelChoiceField(
        Client.objects.none(),
        label="page-client",
        required=False,
        empty_label="fields-page-no-client",
        widget=Names,
    )

    def __init__(
        self, request: HttpRequest, *, office: Office, known: Mapping[str, object] | None = None
    ) -> None:
        values = {"most": LARGEST_BYTES // 1_000_000}
        super().__init__(request, values=values, initial=dict(known or {}))
        self.office = office
        for name in ("boundary", "case"):
            self.fields[name].required = False
        choice: Any = self.fields["client"]
        choice.queryset = kept(Client, office)

    def made(self, *, today: date) -> FieldFiles | None:
        """The files with their map worked out, not kept yet; None where something is wrong.

        Parameters
        ----------
        today
            The local day, for what a case file dates.
        """
        said = self.cleaned_data
        files = FieldFiles(office=self.office, user=person_of(self.request), client=said["client"])
        for which in ("samples", "boundary"):
            if said[which] is not None and not self._take(files, which, said[which]):
                return None
        tree, prices = self._tree(said), self._prices(said)
        if tree is None or self.errors:
            return None
        files.name = str(tree.get("name") or Path(files.samples_name).stem)[:_LONGEST_FIELD]
        files.told = {"case": tree, "method": said["method"], "crs": said["crs"].strip(), **prices}
        try:
            case_of_field(files.told, office=self.office, today=today)
        except CaseError as error:
            back = {path: name for name, path in PATHS.items() if said[name].strip()}
            self.refuse(replace(one, path=back.get(one.path, "case")) for one in error.faults)
            return None
        try:
            map_of(files, today=today)
        except InputError as error:
            blamed = "boundary" if files.boundary_name and files.boundary_name in str(error) else ""
            self.refuse([whole_fault(error, path=blamed or "samples")])
            return None
        return files

    def _take(self, files: FieldFiles, which: str, sent: UploadedFile[bytes]) -> bool:
        data, name = sent.read(LARGEST_BYTES + 1), (sent.name or "")[-_LONGEST_NAME:]
        try:
            check_file(data, name)
        except InputError as error:
            self.refuse([whole_fault(error, path=which)])
            return False
        setattr(files, which, data)
        setattr(files, f"{which}_name", name)
        return True

    def _tree(self, said: Mapping[str, Any]) -> Tree | None:
        """The case file of the field, with what was typed in place of what it says."""
        tree: Tree = {}
        if said["case"] is not None:
            try:
                tree = as_json(tomllib.loads(said["case"].read(LARGEST_BYTES).decode("utf-8")))
            except (ValueError, RecursionError) as error:
                wrong = message("form-text-unreadable", why=given(error))
                self.refuse([whole_fault(WordedError(wrong), path="case")])
                return None
        typed = [(path, said[name]) for name, path in PATHS.items() if said[name].strip()]
        tree = with_fields(tree, [("bed.kind", "field"), *typed])
        aim = tree.get("aim") or {}
        if not (aim.get("plant") or aim.get("target_ph")):
            self.refuse([fault("plant", message("fields-page-no-aim"))])
            return None
        return tree

    def _prices(self, said: Mapping[str, Any]) -> dict[str, float]:
        """What a sample and a hectare outside the range cost, where somebody said so."""
        found = {}
        for name in ("sample_price", "loss_per_ha"):
            typed = said[name].strip()
            price = figure(typed) if typed else None
            if typed and (price is None or not 0.0 <= price < _MOST_MONEY):
                self.refuse([fault(name, message("fields-page-price-wrong"), given=typed)])
            elif price is not None:
                found[name] = price
        return found
