from __future__ import annotations

import csv
import io

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client as Browser
from hypothesis import given
from hypothesis import strategies as st

from loamshift.store.changes import Writer, take_back
from loamshift.store.models import Change, Office, Product
from loamshift.store.scope import kept
from loamshift.web.products.price_list import (
    LARGEST_BYTES,
    MOST_ROWS,
    PriceList,
    price_list_csv,
    read_price_list,
)

GOOD = (
    "name,material,purity_pct,pack,price,currency,in_stock,note\r\n"
    "Chips,sulphur chips,90,25 kg,31.50,GBP,yes,slow\r\n"
    "Lime,garden lime,52,20 kg,5.40,,no,\r\n"
)


@pytest.fixture
def office(db: None) -> Office:
    return Office.objects.create(name="Ours", currency="EUR")


def sent(browser: Browser, data: bytes | str, name: str = "list.csv") -> tuple[int, str]:
    raw = data.encode() if isinstance(data, str) else data
    answer = browser.post("/shelf/prices", {"list": SimpleUploadedFile(name, raw)})
    return answer.status_code, answer.content.decode()


def test_a_list_is_taken_in_as_one_act_that_comes_back(client: Browser, office: Office) -> None:
    Writer(office, what="Added it").add(Product(name="chips", material="urea", price=1.0))
    assert sent(client, GOOD)[0] == 302
    chips, lime = kept(Product, office)
    assert (chips.name, chips.material, chips.price, chips.version) == (
        "Chips", "elemental sulfur, prills", 31.5, 2,
    )  # fmt: skip
    assert (lime.currency, lime.in_stock) == ("EUR", False)
    act = Change.objects.filter(office=office).latest("id").act
    take_back(office, act)
    (again,) = kept(Product, office)
    assert (again.name, again.material) == ("chips", "urea")


@pytest.mark.parametrize("separator", [";", "\t"])
def test_semicolons_tabs_and_a_mark_at_the_start_are_read(separator: str) -> None:
    found = read_price_list(b"\xef\xbb\xbf" + GOOD.replace(",", separator).encode())
    assert [one["name"] for one in found.products] == ["Chips", "Lime"]


def test_every_fault_is_told_by_its_row_and_nothing_is_taken_in(
    client: Browser, office: Office
) -> None:
    status, page = sent(
        client,
        "name,material,pack,price\n"
        "A,sulphur chips,25 kg,3\n"
        ",moon dust,25 bags,x\n"
        "a,garden lime,20 kg,4\n"
        "B,urea,1 kg,2,more\n",
    )
    assert status == 422
    assert not kept(Product, office).exists()
    found = read_price_list(
        b"name,material,pack,price\nA,sulphur chips,25 kg,3\n,moon dust,25 bags,x\n"
        b"a,garden lime,20 kg,4\nB,urea,1 kg,2,more\n"
    )
    assert [(one.row, one.fault.path) for one in found.faults] == [
        (3, "name"), (3, "material"), (3, "pack"), (3, "price"), (4, "name"), (5, ""),
    ]  # fmt: skip
    assert "25 bags" in page and "Row 2 has the same name" in page


@pytest.mark.parametrize(
    ("data", "said"),
    [
        (b"", "prices-empty"),
        (b"PK\x03\x04rest", "prices-not-csv"),
        (b"%PDF-1.7", "prices-not-csv"),
        (b"name,material\nx\x00,y", "prices-not-csv"),
        ("name,material\nzurück,urea".encode("latin-1"), "prices-not-utf-8"),
        (b"x" * (LARGEST_BYTES + 1), "prices-large"),
        (b'name,material\n"open,urea', "prices-quote-open"),
        (b"name\nA", "prices-column-missing"),
        (b"name,material,colour\nA,urea,red", "prices-column-unknown"),
        (b"name,material,name\nA,urea,B", "prices-column-twice"),
        (b"name,material\n", "prices-no-rows"),
        (b"name,material\n" + b"A,urea\n" * (MOST_ROWS + 1), "prices-many-rows"),
    ],
)
def test_what_is_no_price_list_is_told(data: bytes, said: str) -> None:
    found = read_price_list(data)
    assert found.products == ()
    assert any(said in one.fault.problem for one in found.faults)


def test_no_file_at_all_is_told(client: Browser, office: Office) -> None:
    answer = client.post("/shelf/prices", {})
    assert answer.status_code == 422


def test_a_formula_stays_a_text_out_and_in(client: Browser, office: Office) -> None:
    formula = '=HYPERLINK("http://elsewhere.test")'
    Writer(office, what="Added it").add(Product(name=formula, material="urea", note="@SUM(A1)"))
    answer = client.get("/shelf/prices.csv")
    assert "attachment" in answer.headers["Content-Disposition"]
    _head, row = csv.reader(io.StringIO(answer.content.decode()))
    assert row[0] == "'" + formula and row[-1] == "'@SUM(A1)"
    (read,) = read_price_list(answer.content).products
    assert (read["name"], read["note"]) == (formula, "@SUM(A1)")
    page = client.get("/shelf/").content.decode()
    assert "HYPERLINK(&quot;" in page


def test_what_went_out_comes_back_the_same(client: Browser, office: Office) -> None:
    assert sent(client, GOOD)[0] == 302
    before = client.get("/shelf/prices.csv").content
    assert sent(client, before)[0] == 302
    assert client.get("/shelf/prices.csv").content == before


@given(
    st.lists(
        st.tuples(
            st.text(max_size=20),
            st.text(max_size=20),
            st.sampled_from(["", "25 kg", "50 lb", "1e9 t", "-1 kg", "nan"]),
            st.sampled_from(["", "3", "3,50", "1e400", "-2", "nan", "١"]),
        ),
        max_size=4,
    )
)
def test_whatever_stands_in_the_cells_it_is_read_or_told(
    rows: list[tuple[str, str, str, str]],
) -> None:
    out = io.StringIO(newline="")
    writer = csv.writer(out)
    writer.writerow(["name", "material", "pack", "price"])
    writer.writerows(rows)
    found = read_price_list(out.getvalue().encode("utf-8", "replace"))
    assert isinstance(found, PriceList)
    assert not (found.products and found.faults)


def test_the_file_of_an_empty_shelf_names_the_columns() -> None:
    assert price_list_csv([]).startswith("name,material,purity_pct,pack,price,currency")
