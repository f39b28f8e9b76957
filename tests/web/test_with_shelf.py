from __future__ import annotations

import tomllib
from datetime import date

import pytest

from loamshift.domain.case import Case
from loamshift.store.changes import Writer
from loamshift.store.models import Office, Product
from loamshift.web.answers import answered_at_once
from loamshift.web.beds.samples import SAMPLES
from loamshift.web.cases import Tree, case_of
from loamshift.web.products.with_shelf import (
    MOST,
    Entry,
    case_with_shelf,
    in_stock,
    shelf_entries,
    with_currency,
    with_shelf,
)

pytestmark = pytest.mark.django_db

TODAY = date(2026, 4, 12)
BERRIES = SAMPLES[0].case_text
OWN = BERRIES + '\n[[on_hand]]\nmaterial = "elemental sulfur, prills"\n'


@pytest.fixture
def office() -> Office:
    return Office.objects.create(name="Ours")


def put(office: Office, name: str, material: str, **more: object) -> Product:
    product = Product(name=name, material=material, **more)
    Writer(office, what=f"Added {name}").add(product)
    return product


def entries(office: Office) -> tuple[Entry, ...]:
    return shelf_entries(in_stock(office))


def grown(office: Office, text: str = BERRIES) -> Tree:
    return with_shelf(tomllib.loads(text), entries(office))


def case(office: Office) -> Case:
    return case_with_shelf(tomllib.loads(BERRIES), entries(office), today=TODAY)


def test_an_empty_shelf_leaves_the_text_as_it_is(office: Office) -> None:
    assert grown(office) == tomllib.loads(BERRIES)


def test_a_case_with_products_of_its_own_keeps_them(office: Office) -> None:
    put(office, "Powder", "elemental sulfur, powder")
    assert grown(office, OWN) == tomllib.loads(OWN)


def test_the_shelf_is_on_hand_and_nothing_else_changes(office: Office) -> None:
    put(office, "A", "elemental sulfur, powder", purity_pct=99.5, pack="1 kg", price=6.25)
    put(office, "B", "ground limestone, calcitic", in_stock=False)
    tree, found = grown(office), case(office)
    (item,) = found.on_hand
    assert (item.material.key, item.purity_pct, item.pack_g, item.price) == (
        "elemental sulfur, powder", 99.5, 1000.0, 6.25,
    )  # fmt: skip
    del tree["on_hand"]
    before = tomllib.loads(BERRIES)
    assert tree.keys() == before.keys()
    assert case_of(tomllib.loads(BERRIES), today=TODAY).soil == found.soil


def test_the_plan_uses_what_serves_the_bed_not_what_comes_first_by_name(office: Office) -> None:
    put(
        office, "A slow grade", "elemental sulfur, prills",
        purity_pct=90.0, pack="25 kg", price=30.0, currency="GBP",
    )  # fmt: skip
    put(
        office, "Z quick grade", "elemental sulfur, powder",
        pack="1 kg", price=6.0, currency="GBP",
    )  # fmt: skip
    found = answered_at_once(tomllib.loads(BERRIES), office=office, today=TODAY)
    assert [item.material.key for item in found.case.on_hand] == [
        "elemental sulfur, powder", "elemental sulfur, prills",
    ]  # fmt: skip
    assert found.answer.applications[0].material == "elemental sulfur, powder"
    assert found.answer.options[0].cost is not None


def test_a_product_that_no_case_takes_is_passed_over(office: Office) -> None:
    put(office, "Broken", "moon dust")
    put(office, "Odd pack", "urea", pack="three bags")
    assert grown(office) == tomllib.loads(BERRIES)
    put(office, "Powder", "elemental sulfur, powder")
    assert len(case(office).on_hand) == 1


def test_the_faults_of_a_bed_are_left_to_its_own_page(office: Office) -> None:
    put(office, "Powder", "elemental sulfur, powder")
    broken = 'case = 1\n[soil]\nph = "lemon"\n'
    assert "on_hand" in grown(office, broken)


def test_another_offices_shelf_is_not_ours(office: Office) -> None:
    put(Office.objects.create(name="Other"), "Powder", "elemental sulfur, powder")
    assert in_stock(office) == []


def test_no_more_than_a_case_can_carry(office: Office) -> None:
    for number in range(MOST + 3):
        put(office, f"P{number:03}", "urea", pack="1 kg")
    assert len(in_stock(office)) == MOST
    assert len(case(office).on_hand) == MOST


TESTED = BERRIES + '\n[[test_price]]\ntest = "buffer-ph"\nprice = 12.5\n'
PRICED = OWN + 'pack = "25 kg"\nprice = 32\n'


@pytest.mark.parametrize("text", [TESTED, PRICED], ids=["test", "product"])
def test_prices_without_a_currency_are_in_that_of_the_office(office: Office, text: str) -> None:
    office.currency = "GBP"
    found = answered_at_once(tomllib.loads(text), office=office, today=TODAY)
    assert found.case.currency == "GBP"
    assert {one.currency for one in found.case.on_hand} <= {"GBP"}
    office.currency = "EUR"
    found = answered_at_once(tomllib.loads(text), office=office, today=TODAY)
    assert found.case.currency == "EUR"


@pytest.mark.parametrize(
    "text",
    [BERRIES, OWN, 'currency = "USD"\n' + TESTED, PRICED + 'currency = "USD"\n'],
    ids=["nothing", "no price", "own currency", "own currency of a product"],
)
def test_a_case_without_such_a_price_keeps_its_text(text: str) -> None:
    tree = tomllib.loads(text)
    assert with_currency(tree, "GBP") is tree
