"""What is asked of a product: what it is, the figures of its label, its pack and price."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from django import forms
from django.forms import BoundField

from loamshift.domain.message import Given, Message, message
from loamshift.report.messages import say
from loamshift.store.models import Product
from loamshift.web.forms import Form, text, upload
from loamshift.web.kept_form import KeptForm
from loamshift.web.middleware import office_of
from loamshift.web.products.entries import ASKED, LABEL_FIELDS, ReadProduct, read_product, said_of
from loamshift.web.products.product_label import LABEL_GROUPS, in_form_words


class ProductForm(KeptForm[Product]):
    """A product; each figure of its label has a field named ``label.KEY``."""

    columns = ASKED

    name = text("page-name", hint="products-name-hint")
    material = text("products-material", hint="products-material-hint", list="materials")
    purity_pct = text("products-purity", hint="products-purity-hint", inputmode="decimal")
    label = forms.CharField(required=False, widget=forms.HiddenInput)
    pack = text("products-pack", hint="products-pack-hint")
    price = text("products-pack-price", inputmode="decimal")
    currency = text("products-currency", hint="settings-currency-hint")
    in_stock = forms.BooleanField(label="products-use", required=False)
    note = text("page-note", rows=3)

    read: ReadProduct

    def shown(self, thing: Product) -> dict[str, Any]:
        """A product as its form shows it."""
        return {**said_of(thing), "in_stock": thing.in_stock}

    def saved(self, column: str, thing: Product) -> dict[str, str]:
        """What stands in a column; of a label each figure."""
        there = said_of(thing)
        names = [name for name in self.fields if name.partition(".")[0] == column]
        return {name: there.get(name, "") for name in names}

    def clean(self) -> dict[str, Any]:
        """Read what was typed as the case file would read it."""
        typed = {**self.cleaned_data, "label": ""}
        typed["in_stock"] = "yes" if typed.get("in_stock") else ""
        self.read = read_product(typed, currency=office_of(self.request).currency)
        self.refuse(in_form_words(one, self.reader) for one in self.read.faults)
        return self.cleaned_data

    def fill(self) -> None:
        """Put what was read into the product."""
        for name, value in self.read.values.items():
            setattr(self.thing, name, value)

    def what(self) -> Message:
        """A product added or changed."""
        done = "products-added" if self.is_new else "products-changed"
        return message(done, product=Given(self.thing.name))

    def label_groups(self) -> Iterator[tuple[str, list[BoundField]]]:
        """The figures of the label under the headings they have on a bag."""
        for title, rows in LABEL_GROUPS:
            yield say(title, self.reader), [self[f"label.{key}"] for key in rows]

    def label_is_open(self) -> bool:
        """True where something stands in the label, or is wrong there."""
        names = {"label", *(f"label.{key}" for key in LABEL_FIELDS)}
        return any(self[name].value() for name in names) or bool(names & {*self.errors, *self.now})


ProductForm.base_fields |= {
    f"label.{key}": text(label, hint="products-fineness-hint")
    if key == "fineness"
    else text(label, inputmode="decimal")
    for _, rows in LABEL_GROUPS
    for key, label in rows.items()
}


class PriceListForm(Form):
    """A price list as a file."""

    list = upload("prices-choose", accept=".csv,text/csv")
