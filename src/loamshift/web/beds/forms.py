"""The short forms on a bed's own page: a new test, and something put on."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from datetime import date
from typing import Any, ClassVar, Final

from django import forms
from django.http import HttpRequest

from loamshift.case.questions import questions_by_path
from loamshift.case.reads import Holds
from loamshift.domain.ph import PhMethod
from loamshift.errors import Fault
from loamshift.store.models import Bed
from loamshift.web.beds.case_form import asked_path, example_typed, path_label
from loamshift.web.cases import Tree
from loamshift.web.forms import Form, text


class QuickForm(Form):
    """One entry more in a list of a bed; what is wrong is told as the case file tells it."""

    table: ClassVar[str]
    called: ClassVar[str]
    address: ClassVar[str]
    done: ClassVar[str]

    def __init__(self, request: HttpRequest, bed: Bed, *, typed: bool) -> None:
        self.elsewhere: list[tuple[str, Fault]] = []
        today = date.today().isoformat()  # noqa: DTZ011 - the local day
        known = {"date": today, "ph_method": method_of(bed.case_json)}
        super().__init__(request, typed=typed, at=f"{self.table}-%s", initial=known)
        for name, field in self.fields.items():
            question = questions_by_path()[f"{self.table}.{name}"]
            if question.reads.holds is Holds.QUANTITY:
                example = example_typed(question, self.reader.units)
                field.widget.attrs["placeholder"] = example

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

    table, called, address = "reading", "beds-add-test", "bed-test"
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

    table, called, address = "applied", "beds-log-application", "bed-applied"
    done = "beds-application-logged"

    date = text("beds-applied-on", type="date", required=True)
    material = text("beds-applied-material", list="materials", required=True)
    amount = text("beds-applied-amount", size=9)
    rate = text("beds-applied-rate", size=11)
    incorporated = text("beds-applied-depth", size=8)


QUICK: Final[dict[str, type[QuickForm]]] = {"reading": TestForm, "applied": AppliedForm}
"""Lists that the bed's own page adds one entry to, with the form that asks for it."""


def method_of(tree: Tree) -> str:
    """How the pH of a bed was measured last; the next test is most likely done alike."""
    told: list[Any] = [tree.get("soil"), *(tree.get("reading") or ())]
    methods = [str(one.get("ph_method", "")) for one in told if isinstance(one, dict)]
    return next((method for method in reversed(methods) if method), "")
