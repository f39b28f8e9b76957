"""What is asked to design a trial: the question, what is compared, how many, when, which soil."""

from __future__ import annotations

import secrets
from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import Any, Final

from django import forms
from django.http import HttpRequest

from loamshift.case.questions import questions_by_path
from loamshift.domain.message import Given, message
from loamshift.domain.ph import PhMethod
from loamshift.domain.trial import Design
from loamshift.errors import CaseError, Fault
from loamshift.report.messages import say
from loamshift.store.models import Bed, Client, Trial
from loamshift.store.scope import kept
from loamshift.tables.soils import load_textures
from loamshift.web.beds.case_form import asked_as
from loamshift.web.forms import Form, Names, text, upload
from loamshift.web.middleware import office_of
from loamshift.web.problems import without_keys

MOST_TREATMENTS: Final = 20
FIRST_ROWS: Final = 3
BED, CLIENT = "bed:", "client:"
CASE_KEYS: Final[Mapping[str, str]] = {
    "depth": "bed.depth",
    "ph": "soil.ph",
    "soil_method": "soil.ph_method",
    "texture": "soil.texture",
    "om": "soil.organic_matter_pct",
    "fizz": "soil.fizz",
    "place": "place.name",
}
"""Fields that ask for a key of a case file, and are called as the form of a bed calls it."""
FIELDS: Final[Mapping[str, str]] = {
    **{path: name for name, path in CASE_KEYS.items()},
    "bed.area": "area",
    "factors": "factor_1",
}
"""Fields by the key of the trial file that they fill, where the two are called otherwise."""
_METHODS: Final = [(one.value, one.value) for one in PhMethod if not one.is_rough]


def choice(label: str, choices: Iterable[tuple[str, str]], *, hint: str = "") -> forms.ChoiceField:
    """A field for one of a few words; what it says of itself may be left out."""
    return forms.ChoiceField(label=label, help_text=hint, choices=list(choices), required=False)


class TreatmentForm(Form):
    """One treatment: its name and what goes on."""

    name = text("trial-form-treatment")
    material = text("trial-form-material", list="materials")
    rate = text("trial-form-rate", size=12)
    level_1 = text("trial-form-level-1")
    level_2 = text("trial-form-level-2")

    @property
    def is_empty(self) -> bool:
        """True where nothing was typed in this row."""
        return not any(str(self[name].value() or "").strip() for name in self.fields)


class TrialForm(Form):
    """A trial; everything is judged by the reader of the trial file."""

    name = text("page-name", missing="page-enter-name", most=80)
    overtaken = False
    question = text("trial-form-question", hint="trial-form-question-hint", rows=2)
    belongs = forms.ChoiceField(
        label="trial-form-belongs",
        widget=Names,
        error_messages=dict.fromkeys(("required", "invalid_choice"), "trial-form-belongs-missing"),
    )
    design = choice(
        "trial-form-design",
        [(one.value, f"trial-design-{one.name.lower().replace('_', '-')}") for one in Design],
    )
    kind = choice(
        "trial-form-kind",
        [("container", "trial-form-kind-pots"), ("ground", "trial-form-kind-plots")],
    )
    replicates = text(
        "trial-form-replicates", hint="trial-form-replicates-hint", inputmode="numeric"
    )
    area = text("trial-form-area", hint="trial-form-area-hint")
    depth = text("")
    start = text("trial-form-start", type="date")
    days = text("trial-form-days", hint="trial-form-days-hint")
    ph_method = choice("trial-form-method", _METHODS)
    matters = text("trial-form-matters", hint="trial-form-matters-hint", inputmode="decimal")
    slurry = text("trial-form-slurry", hint="trial-form-slurry-hint", rows=2)
    sd = text("trial-form-sd", inputmode="decimal")
    control = text("trial-form-control", hint="trial-form-control-hint")
    factor_1 = text("trial-form-factor-1")
    factor_2 = text("trial-form-factor-2")
    dose_material = text("trial-form-dose-material", list="materials")
    dose_count = text("trial-form-dose-count", inputmode="numeric")
    dose_to_ph = text("trial-form-dose-to-ph", inputmode="decimal")
    in_blocks = forms.BooleanField(label="trial-form-in-blocks", required=False)
    by_lot = forms.BooleanField(label="trial-form-by-lot", required=False)
    blind = forms.BooleanField(label="trial-form-blind", required=False)
    seed = text("trial-form-seed", inputmode="numeric")
    soil = choice(
        "trial-form-soil",
        [("bed", "trial-form-soil-bed"), ("own", "trial-form-soil-own")],
        hint="trial-form-soil-hint",
    )
    ph = text("", inputmode="decimal")
    soil_method = choice("", [])
    texture = choice("", [])
    om = text("", inputmode="decimal")
    fizz = choice("", [])
    place = text("", list="places")

    def __init__(self, request: HttpRequest, **more: Any) -> None:
        super().__init__(request, **more)
        office, words = office_of(request), self.reader
        belongs: Any = self.fields["belongs"]
        beds = kept(Bed, office).select_related("garden__client").order_by("sought", "id")
        belongs.choices = [("", say(message("page-choose"), words))]
        belongs.choices += [(f"{BED}{bed.pk}", _bed_label(bed)) for bed in beds]
        belongs.choices += [
            (
                f"{CLIENT}{client.pk}",
                say(message("trial-form-client", name=Given(client.name)), words),
            )
            for client in kept(Client, office).order_by("sought", "id")
        ]
        nothing = [("", say(message("page-choose"), words))]
        asked = questions_by_path()
        for name, path in CASE_KEYS.items():
            field: Any = self.fields[name]
            field.label = asked_as(path, words)
            words_of = asked[path].choices or (tuple(load_textures()) if name == "texture" else ())
            if words_of:
                field.choices = nothing + [(word, word) for word in words_of]
        count = _count(request.POST.get("rows", "")) if self.is_bound else 0
        told = self.initial.get("treatments", [])
        number = max(count, len(told), FIRST_ROWS)
        self.rows = [self._row(place) for place in range(min(number, MOST_TREATMENTS))]

    def _row(self, place: int) -> TreatmentForm:
        told = self.initial.get("treatments", [])
        return TreatmentForm(
            self.request,
            typed=self.is_bound,
            prefix=f"treatment-{place}",
            initial=told[place] if place < len(told) else None,
        )

    def add_rows(self) -> None:
        """Two more rows to fill."""
        for place in range(len(self.rows), min(len(self.rows) + 2, MOST_TREATMENTS)):
            self.rows.append(self._row(place))

    def filled(self) -> list[TreatmentForm]:
        """The rows in which something stands."""
        return [row for row in self.rows if not row.is_empty]

    def tell(self, error: CaseError) -> None:
        """Tell every fault beside the field or the row that it is about."""
        rows = self.filled()
        own: list[Fault] = []
        for one in map(without_keys, error.faults):
            if not one.path.startswith("treatment["):
                key = one.path.partition("[")[0]
                own.append(_renamed(one, FIELDS.get(key, key.rpartition(".")[2])))
                continue
            number, _, key = one.path.removeprefix("treatment[").partition("]")
            place = int(number) - 1
            field = {"levels": "level_1", "amount": "rate"}.get(key.strip("."), key.strip("."))
            if place >= len(rows):
                own.append(_renamed(one, ""))
                continue
            if field not in rows[place].fields:
                field = "name"
            rows[place].refuse([_renamed(one, field)])
        self.refuse(own)

    @property
    def is_wrong(self) -> bool:
        """True where the form or one of its rows has a fault."""
        return bool(self.errors) or any(row.errors for row in self.rows)


class UploadForm(Form):
    """A record sheet that came back."""

    overtaken = False
    sheet = upload("trial-form-sheet", accept=".csv,.xlsx,.ods", hint="trial-form-sheet-hint")


def new_seed() -> str:
    """A seed for a new trial."""
    return str(1 + secrets.randbelow(9999))


def belongs_to(trial: Trial) -> str:
    """What a trial belongs to, as the form says it."""
    if trial.bed_id is not None:
        return f"{BED}{trial.bed_id}"
    return "" if trial.client_id is None else f"{CLIENT}{trial.client_id}"


def _bed_label(bed: Bed) -> str:
    return bed.name if bed.garden is None else f"{bed.name} ({bed.garden.client.name})"


def _renamed(one: Fault, path: str) -> Fault:
    return replace(one, path=path)


def _count(typed: str) -> int:
    return min(int(typed), MOST_TREATMENTS) if typed.isdecimal() and len(typed) < 4 else 0


class DayForm(Form):
    """The readings of one day, one field for each pot, plot, strip or bed.

    Parameters
    ----------
    labels
        Labels of the places.
    """

    overtaken = False
    on = text("trial-form-read-on", type="date")
    method = choice("trial-form-method", _METHODS)

    def __init__(self, request: HttpRequest, labels: Iterable[str], **more: Any) -> None:
        super().__init__(request, **more)
        for label in labels:
            self.fields[f"ph-{label}"] = text("", size=7, inputmode="text")
            self.fields[f"note-{label}"] = text("", most=300, dir="auto")


class JarsForm(Form):
    """A series of jars: what it should pass, and what stands on the shelf."""

    to_ph = text("jars-form-to-ph", missing="page-fill-in", inputmode="decimal")
    count = text("jars-form-count", inputmode="numeric")
    soil_g = text("jars-form-soil", inputmode="decimal")
    acid_mol_l = text("jars-form-acid", hint="jars-form-acid-hint", inputmode="decimal")
