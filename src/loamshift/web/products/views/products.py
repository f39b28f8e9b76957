"""Products: their prices and strengths, and what they would do for the selected bed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any, Final, TypeVar
from uuid import UUID

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from loamshift.domain.answer import Answer
from loamshift.domain.case import Case, OnHand
from loamshift.domain.message import Given, message, percent
from loamshift.errors import InputError
from loamshift.report.messages import say
from loamshift.report.messages.refusal import refusal
from loamshift.report.shelf import bags_said, brings_said, price_said, scale_said, shelf_letter
from loamshift.report.words import Words
from loamshift.services.shelf import compare_bags, shelf_for_bed, shelf_order, shelf_prices
from loamshift.store.changes import Writer
from loamshift.store.models import Bed, Kept, Office, Product
from loamshift.store.models.base import folded
from loamshift.store.scope import found, kept
from loamshift.tables.materials import load_materials
from loamshift.web.acts import delete_kept, do_act
from loamshift.web.cases import case_of
from loamshift.web.compiled import COMPILED
from loamshift.web.forecasts import FORECASTS
from loamshift.web.letters.letter_plain import letter_plain
from loamshift.web.letters.letter_style import letter_style_name
from loamshift.web.middleware import kept_or_404, office_of
from loamshift.web.online_weather import case_with_weather
from loamshift.web.products.entries import ASKED, entry_of, said_of, usable
from loamshift.web.products.forms import PriceListForm, ProductForm
from loamshift.web.products.price_list import (
    LARGEST_BYTES,
    PriceList,
    price_list_csv,
    read_price_list,
)
from loamshift.web.products.product_label import strength_said
from loamshift.web.wording import words_of

FEW: Final = 8
"""So many products are seen at a glance and need no search."""


@dataclass(frozen=True, slots=True)
class Line:
    """A product as the list shows it."""

    product: Product
    material: str
    strength: str
    brings: str
    price: str
    usable: bool


@dataclass(frozen=True, slots=True)
class Bags:
    """Two products chosen to be compared, and what is said of them; nothing until both are."""

    one: Product | None
    other: Product | None
    said: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ForBed:
    """The bed in hand with what the shelf does for it, or why nothing can be said."""

    bed: Bed
    sections: str
    problem: str
    has_own: bool


@require_safe
def shelf(request: HttpRequest) -> HttpResponse:
    """Every product; ``?bed=`` ranks those in stock for one bed, ``?find=`` searches."""
    office = office_of(request)
    sought = request.GET.get("find", "").strip()[:200]
    products = list(found(kept(Product, office), sought))
    beds = kept(Bed, office).select_related("garden__client")
    chosen = _bed_in(request, office)
    every = kept(Product, office)
    count = every.count()
    context = {
        "comparable": every if count > 1 else (),
        "lines": _lines(products, office),
        "any": count > 0,
        "searchable": bool(sought) or count > FEW,
        "scale": scale_said(words=words_of(office)),
        "find": sought,
        "beds": beds,
        "for_bed": None if chosen is None else _for_bed(chosen, office),
        "bags": _bags(request, office),
        "style": letter_style_name(),
    }
    return render(request, "products/products.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
def product_new(request: HttpRequest) -> HttpResponse:
    """Ask for a product, and keep it."""
    return _form(request, Product())


@require_http_methods(["GET", "HEAD", "POST"])
def product_edit(request: HttpRequest, pk: UUID) -> HttpResponse:
    """Show a product in its form, and keep it changed."""
    return _form(request, kept_or_404(request, Product, pk))


@require_POST
def product_away(request: HttpRequest, pk: UUID) -> HttpResponse:
    """Put a product away; the next page takes it back."""
    product = kept_or_404(request, Product, pk)
    delete_kept(request, product, message("products-deleted", product=Given(product.name)))
    return redirect("shelf")


@require_safe
def prices_out(request: HttpRequest) -> HttpResponse:
    """The price list as a file."""
    products = kept(Product, office_of(request))
    response = HttpResponse(price_list_csv(products), content_type="text/csv; charset=utf-8")
    response["Content-Disposition"] = 'attachment; filename="products.csv"'
    return response


@require_http_methods(["GET", "HEAD", "POST"])
def prices_in(request: HttpRequest) -> HttpResponse:
    """Take in a price list, whole or not at all; what has a known name is changed."""
    listed, form = PriceList(), PriceListForm(request)
    if form.is_valid():
        office = office_of(request)
        data = form.cleaned_data["list"].read(LARGEST_BYTES + 1)
        listed = read_price_list(data, currency=office.currency)
        if not listed.faults and _keep(request, office, listed):
            return redirect("shelf")
    context = {"listed": listed, "form": form, "columns": ASKED}
    status = 422 if listed.faults else form.status
    return render(request, "products/prices.html", context, status=status)


def _keep(request: HttpRequest, office: Office, listed: PriceList) -> bool:
    """Keep a price list as one act; false where somebody was quicker, which is told."""
    names = {folded(product.name): product for product in kept(Product, office)}

    def keep(writer: Writer) -> None:
        for values in listed.products:
            product = names.get(folded(str(values["name"])))
            if product is None:
                writer.add(Product(**values))
                continue
            for name, value in values.items():
                setattr(product, name, value)
            writer.change(product, seen_version=product.version)

    return do_act(request, message("prices-imported", n=len(listed.products)), keep)


def _lines(products: Sequence[Product], office: Office) -> list[Line]:
    words = words_of(office)
    good: dict[Any, OnHand] = {product.pk: item for product, item in usable(products)}
    prices = dict(zip(good, shelf_prices(good.values()), strict=True))
    return [
        Line(
            product,
            _called(product, words),
            _strength(product, good.get(product.pk), words),
            brings_said(prices[product.pk], words=words) if product.pk in prices else "",
            price_said(prices[product.pk], words=words) if product.pk in prices else "",
            product.pk in good,
        )
        for product in products
    ]


def _called(product: Product, words: Words) -> str:
    """What a product is: a shipped material, or known by its label alone."""
    material = load_materials().get(product.material)
    if material is not None:
        return words.material_name(material)
    return say(message("products-by-label"), words) if product.label else product.material


def _strength(product: Product, item: OnHand | None, words: Words) -> str:
    if item is not None and item.material.label is not None:
        return strength_said(item.material.label, words)
    return "" if product.purity_pct is None else words.measure(percent(product.purity_pct))


def _bags(request: HttpRequest, office: Office) -> Bags:
    chosen = [_kept_at(request, Product, office, key) for key in ("one", "other")]
    one, other = chosen
    if one is None or other is None or one == other:
        return Bags(one, other, ())
    good = usable((one, other))
    if len(good) < 2:
        return Bags(one, other, (say(message("products-compare-unusable"), words_of(office)),))
    compared = compare_bags(good[0][1], good[1][1])
    said = bags_said(compared, (one.name, other.name), words=words_of(office))
    return Bags(one, other, said)


def _bed_in(request: HttpRequest, office: Office) -> Bed | None:
    return _kept_at(request, Bed, office, "bed")


AnyKept = TypeVar("AnyKept", bound=Kept)


def _kept_at(
    request: HttpRequest, model: type[AnyKept], office: Office, key: str
) -> AnyKept | None:
    """The thing whose id stands in the address under a key, or None."""
    try:
        pk = UUID(request.GET.get(key, ""))
    except ValueError:
        return None
    return kept(model, office).filter(pk=pk).first()


def _for_bed(bed: Bed, office: Office) -> ForBed:
    words = words_of(office)
    in_stock = kept(Product, office).filter(in_stock=True)
    good = usable(in_stock)
    own = bed.case_json
    has_own = bool(own.get("on_hand"))
    today = date.today()  # noqa: DTZ011 - the local day

    def case_with(products: Sequence[Product]) -> Case:
        entries = [entry_of(said_of(product)) for product in products]
        case = case_of({**own, "on_hand": entries}, today=today)
        return case_with_weather(case, wanted=office.online_weather)

    try:
        products = [product for product, _ in good]
        products = [products[place] for place in shelf_order(case_with(products))]
        case = case_with(products)
        names = [product.name for product in products]
        letter = shelf_letter(shelf_for_bed(case, _answer(case)), names, case, words=words)
    except InputError as fault:
        return ForBed(bed, "", refusal(fault, words), has_own)
    return ForBed(bed, letter_plain(letter, words=words), "", has_own)


def _answer(case: Case) -> Answer | None:
    """The answer of the bed's letter; None while too many wait for theirs."""
    if FORECASTS.is_full or not COMPILED.is_ready:
        return None
    return FORECASTS.of(case).answer


def _form(request: HttpRequest, product: Product) -> HttpResponse:
    form = ProductForm(request, product)
    if form.keep():
        return redirect("shelf")
    materials = load_materials().items()
    context = {
        "form": form,
        "product": None if form.is_new else product,
        "materials": [(key, form.reader.material_name(material)) for key, material in materials],
    }
    return render(request, "products/product.html", context, status=form.status)
