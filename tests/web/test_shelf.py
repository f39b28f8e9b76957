from __future__ import annotations

import html
import re
from typing import Any
from uuid import UUID

import pytest
from django.contrib.messages import get_messages
from django.test import Client as Browser

from loamshift.store.changes import Writer
from loamshift.store.models import Bed, Office, Product
from loamshift.store.scope import kept
from loamshift.web.beds.samples import SAMPLES

pytestmark = pytest.mark.django_db

CHIPS = {
    "name": "Chips",
    "material": "Sulphur chips",
    "purity_pct": "90 %",
    "pack": "25 kg",
    "price": "31,50",
    "currency": "gbp",
    "in_stock": "yes",
    "note": "slow",
}


@pytest.fixture
def office() -> Office:
    return Office.objects.create(pk=UUID(int=1), name="Ours", currency="EUR")


@pytest.fixture
def bed(office: Office) -> Bed:
    made = Bed(name="Berry border", case_text=SAMPLES[0].case_text, is_sample=True)
    Writer(office, what="Added it").add(made)
    return made


@pytest.fixture
def chips(client: Browser, office: Office) -> Product:
    client.post("/shelf/new", CHIPS)
    return kept(Product, office).get()


def page(browser: Browser, address: str = "/shelf/") -> str:
    return browser.get(address).content.decode()


def test_the_empty_shelf_says_what_it_is_for(client: Browser, office: Office) -> None:
    assert "No products yet" in page(client)
    assert "No bag tells you that." in page(client)


def test_a_product_is_kept_as_the_case_file_reads_it(client: Browser, chips: Product) -> None:
    assert (chips.material, chips.purity_pct, chips.price, chips.currency, chips.in_stock) == (
        "elemental sulfur, prills", 90.0, 31.5, "GBP", True,
    )  # fmt: skip
    shown = html.unescape(page(client))
    assert "Chips added to products." in shown and "Undo" in shown
    assert "per kg of sulphur's worth" in shown and "31.50 GBP" in shown


def test_a_price_without_a_currency_has_the_offices(client: Browser, office: Office) -> None:
    client.post("/shelf/new", {**CHIPS, "currency": ""})
    assert kept(Product, office).get().currency == "EUR"


def test_faults_stand_by_their_fields_and_nothing_typed_is_lost(
    client: Browser, office: Office
) -> None:
    answer = client.post(
        "/shelf/new",
        {**CHIPS, "name": "", "material": "<b>moon</b> dust", "pack": "25 bags", "price": "x"},
    )
    shown = answer.content.decode()
    assert answer.status_code == 422
    assert shown.count('aria-invalid="true"') == 4
    assert 'value="25 bags"' in shown and 'value="&lt;b&gt;moon&lt;/b&gt; dust"' in shown
    assert "<b>moon" not in shown and "`" not in shown
    assert "Write the number alone, such as 12.50" in shown
    assert not kept(Product, office).exists()


@pytest.mark.parametrize(
    ("purity", "said"),
    [
        ("0", "0% is not a strength."),
        ("140", "“140” must be from 0"),
        ("much", "“much” must start with a number."),
    ],
)
def test_a_strength_that_is_none_is_told(
    client: Browser, office: Office, purity: str, said: str
) -> None:
    answer = client.post("/shelf/new", {**CHIPS, "purity_pct": purity})
    assert answer.status_code == 422 and said in answer.content.decode()
    assert not kept(Product, office).exists()


def test_a_product_is_changed_from_its_form(
    client: Browser, office: Office, chips: Product
) -> None:
    shown = page(client, f"/shelf/{chips.pk}")
    assert 'value="31.5"' in shown and "checked" in shown
    client.post(f"/shelf/{chips.pk}", {**CHIPS, "price": "33", "in_stock": "", "version": "1"})
    changed = kept(Product, office).get()
    assert (changed.price, changed.in_stock, changed.version) == (33.0, False, 2)


def test_who_comes_second_sees_both_and_loses_nothing(
    client: Browser, office: Office, chips: Product
) -> None:
    client.post(f"/shelf/{chips.pk}", {**CHIPS, "price": "33", "version": "1"})
    answer = client.post(f"/shelf/{chips.pk}", {**CHIPS, "price": "29", "version": "1"})
    shown = answer.content.decode()
    assert answer.status_code == 409
    assert kept(Product, office).get().price == 33.0
    assert 'value="29"' in shown and "Saved value: 33" in " ".join(shown.split())
    (version,) = re.findall(r'name="version" value="(\d+)"', shown)
    client.post(f"/shelf/{chips.pk}", {**CHIPS, "price": "29", "version": version})
    assert kept(Product, office).get().price == 29.0


def test_of_two_who_change_different_fields_of_a_product_neither_is_asked(
    client: Browser, office: Office, chips: Product
) -> None:
    client.post(f"/shelf/{chips.pk}", {**CHIPS, "price": "33", "version": "1"})
    typed = {**CHIPS, "note": "From the yard", "in_stock": "", "version": "1"}
    answer = client.post(f"/shelf/{chips.pk}", typed, follow=True)
    assert "both changes were saved" in answer.content.decode()
    now = kept(Product, office).get()
    assert (now.price, now.note, now.in_stock) == (33.0, "From the yard", False)
    asked = client.post(
        f"/shelf/{chips.pk}", {**CHIPS, "note": "Mine", "price": "5", "version": "2"}
    )
    shown = " ".join(asked.content.decode().split())
    assert asked.status_code == 409 and shown.count("Saved value:") == 1
    assert 'value="5"' in shown and "Saved value: From the yard" in shown


def test_put_away_and_taken_back(client: Browser, office: Office, chips: Product) -> None:
    answer = client.post(f"/shelf/{chips.pk}/put-away")
    assert not kept(Product, office).exists()
    act = [m.extra_tags for m in get_messages(answer.wsgi_request)][-1]
    client.post(f"/changes/{act}/take-back")
    assert kept(Product, office).get().pk == chips.pk


def test_products_are_ranked_for_the_bed_in_hand(
    client: Browser, office: Office, bed: Bed, chips: Product
) -> None:
    powder = {**CHIPS, "name": "Powder", "material": "flowers of sulphur", "purity_pct": ""}
    client.post("/shelf/new", {**powder, "pack": "1 kg", "price": "6"})
    client.post("/shelf/new", {**CHIPS, "name": "Lime", "material": "garden lime"})
    shown = page(client, f"/shelf/?bed={bed.pk}")
    ranked = shown.split('id="for-bed"')[1]
    assert ranked.index("Powder") < ranked.index("Chips") < ranked.index("not among your products")
    assert "Lime does not lower the pH and is left out." in ranked
    assert "Published tables" in ranked and "Precautions" in ranked
    assert "per kg of sulphur's worth of acid" in html.unescape(ranked)
    assert "(example)" in shown


def test_a_bed_with_products_of_its_own_says_so(
    client: Browser, office: Office, bed: Bed, chips: Product
) -> None:
    said = "names its own products, and its letter uses those"
    assert said not in page(client, f"/shelf/?bed={bed.pk}")
    bed.case_text += '\n[[on_hand]]\nmaterial = "urea"\n'
    Writer(office, what="Changed it").change(bed, seen_version=bed.version)
    assert said in page(client, f"/shelf/?bed={bed.pk}")


def test_a_bed_that_cannot_be_read_is_told(client: Browser, office: Office) -> None:
    broken = Bed(name="Broken", case_text='case = 1\n[soil]\nph = "lemon"\n')
    Writer(office, what="Added it").add(broken)
    answer = client.get(f"/shelf/?bed={broken.pk}")
    assert answer.status_code == 200
    assert "soil.ph" in answer.content.decode()


@pytest.mark.parametrize("bed", ["", "x", "00000000-0000-0000-0000-000000000000"])
def test_no_bed_is_no_fault(client: Browser, office: Office, chips: Product, bed: str) -> None:
    answer = client.get("/shelf/", {"bed": bed})
    assert answer.status_code == 200


def test_a_product_that_no_case_takes_says_so(client: Browser, office: Office) -> None:
    Writer(office, what="Added it").add(Product(name="Odd", material="moon dust"))
    assert "figures cannot be used" in page(client)


def test_search(client: Browser, office: Office, chips: Product) -> None:
    assert "Chips</bdi>" in page(client, "/shelf/?find=SLOW")
    assert "No results for “moon”" in page(client, "/shelf/?find=moon")


def test_another_offices_product_is_not_there(client: Browser, office: Office) -> None:
    other = Office.objects.create(name="Other")
    theirs = Product(name="Theirs", material="urea")
    Writer(other, what="Added it").add(theirs)
    assert "Theirs" not in page(client)
    for ask in (client.get, client.post):
        assert ask(f"/shelf/{theirs.pk}").status_code == 404
    assert client.post(f"/shelf/{theirs.pk}/put-away").status_code == 404
    assert kept(Product, other).exists()


@pytest.mark.parametrize("method", ["get", "put", "delete"])
def test_looking_puts_nothing_away(client: Browser, chips: Product, method: str) -> None:
    ask: Any = getattr(client, method)
    assert ask(f"/shelf/{chips.pk}/put-away").status_code == 405


def test_us_words(client: Browser, office: Office, chips: Product) -> None:
    office.words, office.units = "us", "us"
    office.save()
    shown = page(client)
    assert "ulphur" not in shown.replace("Sulphur chips", "")
    shown = html.unescape(shown)
    assert "pound of pure lime's worth" in shown and "GBP per lb of sulfur's worth" in shown
    assert "per kg" not in shown and "100 lb" in shown


WEAK = {
    "name": "Weak bag",
    "label.s_element_pct": "30",
    "label.filler_pct": "70 %",
    "pack": "10 kg",
    "price": "12",
    "currency": "GBP",
    "in_stock": "yes",
}


def test_a_product_is_known_by_its_label(client: Browser, office: Office) -> None:
    client.post("/shelf/new", WEAK)
    weak = kept(Product, office).get()
    assert (weak.material, weak.label) == ("Weak bag", "s_element_pct = 30, filler_pct = 70")
    shown = html.unescape(page(client))
    assert "30 kg of sulphur's worth of acid per 100 kg" in shown and ">30% S<" in shown
    assert "4.00 GBP per kg of sulphur's worth of acid" in shown
    form = page(client, f"/shelf/{weak.pk}")
    assert '<details class="label" open>' in form
    assert re.search(r'name="label.s_element_pct" value="30"[^>]* id="p-label.s_element_pct"', form)
    client.post(f"/shelf/{weak.pk}", {**WEAK, "label.s_element_pct": "25", "version": "1"})
    assert kept(Product, office).get().label == "s_element_pct = 25, filler_pct = 70"
    assert 'details class="label" open' not in page(client, "/shelf/new")


def test_faults_of_a_label_stand_by_their_figures(client: Browser, office: Office) -> None:
    wrong = {**WEAK, "label.s_element_pct": "", "label.so3_pct": "225", "label.n_total_pct": "9"}
    answer = client.post("/shelf/new", wrong)
    shown = answer.content.decode()
    assert answer.status_code == 422 and shown.count('aria-invalid="true"') == 2
    assert "“S, elemental”" in shown and "_pct" not in re.sub("<[^>]*>", " ", shown)
    full = client.post("/shelf/new", {**WEAK, "label.n_urea_pct": "46"}).content.decode()
    assert "need at least" in full and 'id="p-label-said"' in full
    assert not kept(Product, office).exists()
    office.words, office.units = "us", "us"
    office.save()
    twice = {**WEAK, "label.so3_pct": "9", "label.s_sulfate_pct": "5"}
    assert "“S as sulfate” = 3.6" in client.post("/shelf/new", twice).content.decode()
    both = client.post("/shelf/new", {**WEAK, "purity_pct": "30"}).content.decode()
    assert "leave “Strength on the label (%)” out" in both


def test_what_is_no_material_is_told_in_the_words_of_the_form(
    client: Browser, office: Office
) -> None:
    told = client.post("/shelf/new", {**CHIPS, "material": "moon dust"}).content.decode()
    assert "Choose one from the list that opens in the field." in told
    assert "loamshift materials" not in told
    near = client.post("/shelf/new", {**CHIPS, "material": "flowers of sulfr"}).content.decode()
    assert "Did you mean" in near


def test_the_strength_of_a_label_is_what_acts_in_it(client: Browser, office: Office) -> None:
    feed = {**WEAK, "label.s_element_pct": "", "label.filler_pct": ""}
    feed |= {"label.n_ammonium_pct": "21", "label.s_sulfate_pct": "24"}
    client.post("/shelf/new", feed)
    assert ">21% ammonium N<" in page(client)


def test_a_weak_and_a_strong_bag_are_compared(client: Browser, office: Office) -> None:
    client.post("/shelf/new", WEAK)
    assert "Compare two products" not in page(client)
    strong = {**CHIPS, "name": "Strong bag", "purity_pct": "99", "pack": "5 kg", "price": "21"}
    client.post("/shelf/new", strong)
    one, other = (kept(Product, office).get(name=f"{name} bag").pk for name in ("Weak", "Strong"))
    shown = html.unescape(page(client, f"/shelf/?one={one}&other={other}"))
    assert "Weak bag is cheaper: 4.00 GBP per kg of sulphur's worth of acid" in shown
    assert "1 kg of Strong bag does the work of 3.3 kg of Weak bag." in shown
    assert "Choose two different products." in page(client, f"/shelf/?one={one}&other={one}")
    assert "is cheaper" not in page(client, "/shelf/?one=x&other=y")
