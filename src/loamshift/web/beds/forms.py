"""The short forms on a bed's own page: a new test, and something put on."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from datetime import date
from typing import Any, ClassVar, Final

from django import forms
from django.http import HttpRequest

from loamshift.case.label import label_text
from loamshift.case.questions import questions_by_path
from loamshift.case.reads import Holds
from loamshift.domain.case import Case
from loamshift.domain.message import Message, Product, message, rate
from loamshift.domain.ph import PhMethod
from loamshift.errors import Fault
from loamshift.report.words import Words
from loamshift.store.models import Bed
from loamshift.web.beds.case_form import asked_path, example_typed, path_label
from loamshift.web.beds.next_thing import Part
from loamshift.web.cases import Tree
from loamshift.web.forms import Form, text


class QuickForm(Form):
    """One entry more in a list of a bed; what is wrong is told as the case file tells it."""

    table: ClassVar[str]
    part: ClassVar[str]
    """What its place on the page is called by."""
    called: ClassVar[str]
    address: ClassVar[str]
    done: ClassVar[str]

    def __init__(
        self,
        request: HttpRequest,
        bed: Bed,
        *,
        typed: bool,
        known: Mapping[str, object] | None = None,
    ) -> None:
        self.elsewhere: list[tuple[str, Fault]] = []
        today = date.today().isoformat()  # noqa: DTZ011 - the local day
        initial = {"date": today, "ph_method": method_of(bed.case_json), **(known or {})}
        super().__init__(request, typed=typed, at=f"{self.part}-%s", initial=initial)
        for name, field in self.fields.items():
            question = questions_by_path()[f"{self.table}.{name}"]
            if question.reads.holds is Holds.QUANTITY:
                example = example_typed(question, self.reader.units)
                field.widget.attrs["placeholder"] = example

    @property
    def title(self) -> Message:
        """What its place on the page is called."""
        return message(self.called)

    @property
    def said(self) -> Message | None:
        """What is said above its fields."""
        return None

    def tell(self, faults: Iterable[Fault], *, number: int) -> None:
        """Tell faults beside the fields to blame, the others with what their place is called.

        Parameters
        ----------
        number
            Which entry of its list the form asks for, the first being 0.
        """
        for one in faults:
            path = asked_path(one.path)
            at, _, name = path.rpartition(".")
            if at == f"{self.table}.{number}" and name in self.fields:
                self.refuse([replace(one, path=name)])
            else:
                is_whole = path in ("", f"{self.table}.{number}")
                self.elsewhere.append(("" if is_whole else path_label(one.path, self.reader), one))


class TestForm(QuickForm):
    """A new test."""

    table, part, called, address = "reading", "reading", "beds-add-test", "bed-test"
    done = "beds-test-added"

    date = text("beds-test-date", type="date", required=True)
    ph = text("beds-test-ph", inputmode="decimal", size=5, required=True)
    ph_method = forms.ChoiceField(
        label="beds-test-method",
        required=False,
        choices=[("", "page-choose"), *((str(one), str(one)) for one in PhMethod)],
    )
    depth = text("beds-test-depth", size=8)


class AppliedForm(QuickForm):
    """Something put on."""

    table, part, called, address = "applied", "applied", "beds-log-application", "bed-applied"
    done = "beds-application-logged"

    date = text("beds-applied-on", type="date", required=True)
    material = text("beds-applied-material", list="materials", required=True)
    amount = text("beds-applied-amount", size=9)
    rate = text("beds-applied-rate", size=11)
    incorporated = text("beds-applied-depth", size=8)
    label = forms.CharField(required=False, widget=forms.HiddenInput)


class PlannedForm(AppliedForm):
    """A part of the plan that is due, as the plan has it, to be logged as it was done."""

    part, called = "planned", "beds-log-planned"

    def __init__(
        self, request: HttpRequest, bed: Bed, due: Part, *, case: Case, words: Words
    ) -> None:
        self.due = due
        held = (product.material for product in case.on_hand)
        bag = next((material for material in held if material.key == due.material), None)
        label = None if bag is None else bag.label
        known: dict[str, object] = {
            "date": min(due.on, case.today).isoformat(),
            "material": due.material if bag is None or label is None else bag.written,
            "label": "" if label is None else label_text(label),
            "rate": _typed(words.rate(due.rate_g_m2)),
            "incorporated": _typed(words.depth(due.incorporate_cm)) if due.incorporate_cm else "",
        }
        super().__init__(request, bed, typed=False, known=known)

    @property
    def title(self) -> Message:
        """The part, by its rate and material."""
        return message(
            self.called, rate=rate(self.due.rate_g_m2), product=Product(self.due.material)
        )

    @property
    def said(self) -> Message:
        """When it was planned for."""
        return message("beds-planned-for", day=self.due.on)


def _typed(figure: str) -> str:
    """A figure with its unit as a person types it, with plain spaces."""
    return " ".join(figure.split())


QUICK: Final[dict[str, type[QuickForm]]] = {"reading": TestForm, "applied": AppliedForm}
"""Lists that the bed's own page adds one entry to, with the form that asks for it."""


def method_of(tree: Tree) -> str:
    """How the pH of a bed was measured last; the next test is most likely done alike."""
    told: list[Any] = [tree.get("soil"), *(tree.get("reading") or ())]
    methods = [str(one.get("ph_method", "")) for one in told if isinstance(one, dict)]
    return next((method for method in reversed(methods) if method), "")
