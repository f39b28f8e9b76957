"""Files that nobody should send: each is told on the page, nothing is kept, nothing fails."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Iterator
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client as Browser
from hypothesis import given
from hypothesis import strategies as st

from loamshift.store.models import Bed, Change, Office, Product
from tries import tries
from web.worlds import World, world

pytestmark = pytest.mark.django_db

LARGEST_PAGE = 300_000
HEAD = b"name,material,purity_pct,pack,price,currency,in_stock,note\r\n"
BOMB = b"\x00" * 200_000_000


def zipped(**files: bytes) -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED, compresslevel=9) as archive:
        for name, data in files.items():
            archive.writestr(name.replace("__", "/").replace("_xml", ".xml"), data)
    return out.getvalue()


ENTITIES = (
    b'<?xml version="1.0"?><!DOCTYPE a [<!ENTITY x SYSTEM "file:///etc/passwd">'
    b'<!ENTITY b "&x;&x;">]><a>&x;&b;</a>'
)
NASTY: dict[str, bytes] = {
    "nothing": b"",
    "only a mark": b"\xef\xbb\xbf",
    "a NUL": HEAD + b"Lime\x00,garden lime,52,20 kg,5.40,EUR,no,\r\n",
    "UTF-16": (HEAD + b"Lime,garden lime,,,,,,").decode().encode("utf-16"),
    "UTF-16 without a mark": HEAD.decode().encode("utf-16-le"),
    "Latin-1": HEAD + "Kälk,garden lime,52,20 kg,5.40,EUR,no,\r\n".encode("latin-1"),
    "half a character": HEAD + b"K\xc3",
    "a lone surrogate": HEAD + b"K\xed\xa0\x80,garden lime,,,,,,\r\n",
    "spreadsheet with entities": zipped(xl__workbook_xml=ENTITIES),
    "spreadsheet that swells": zipped(xl__sheet1_xml=BOMB),
    "entities": ENTITIES,
    "100 000 columns": b",".join(b"c%d" % number for number in range(100_000)) + b"\n",
    "100 000 equal columns": b",".join([b"name"] * 100_000) + b"\n",
    "100 000 empty columns": b"," * 100_000 + b"\n1\n",
    "a cell of a megabyte": HEAD + b"x" * 900_000 + b",garden lime,,,,,,\r\n",
    "a row of 100 000 cells": HEAD + b"," * 100_000 + b"x\r\n",
    "many faulty rows": HEAD + b"a,moon,999,x,y,z,q,w\r\n" * 20_000,
    "an open quotation": HEAD + b'"' + b"a\n" * 100_000,
    "old line ends": HEAD.replace(b"\r\n", b"\r") + b"Lime,garden lime,,,,,,\r",
    "huge numbers": HEAD + b"A,garden lime," + b"9" * 5000 + b",1e400 kg,1e400,EUR,yes,\r\n",
    "numbers that are none": HEAD + b"A,garden lime,nan,inf kg,-inf,EUR,yes,\r\n",
    "other digits": HEAD + "A,garden lime,٣,٣ kg,٣,EUR,yes,\r\n".encode(),
    "signs that turn text": HEAD + "\u202eA\u2066,garden lime,,,,,,\r\n".encode(),
}
CASES: dict[str, bytes] = {
    "deep lists": b"a = " + b"[" * 100_000,
    "deep keys": b"a" + b".a" * 100_000 + b" = 1",
    "deep tables": b"[" + b"a." * 50_000 + b"a]\n",
    "a long number": b"case = 1\n[soil]\nph = " + b"9" * 100_000,
    "a long float": b"case = 1\n[soil]\nph = 1e" + b"9" * 100_000,
    "many keys": b"".join(b"k%d = 1\n" % number for number in range(60_000)),
    "many readings": b"case = 1\n" + b"[[reading]]\nph = 6\n" * 40_000,
    "a long name": b'case = 1\nname = "' + b"x" * 900_000 + b'"\n[soil]\nph = 6.4\n',
    "a surrogate escaped": b'case = 1\nname = "\\ud800"\n',
    "a path": b'case = 1\n[place]\ndaily_file = "/etc/passwd"\n[soil]\nph = 6\n',
}


@pytest.fixture
def here() -> World:
    return world("north")


def sent(browser: Browser, address: str, field: str, data: bytes, **more: str) -> Any:
    return browser.post(address, {field: SimpleUploadedFile("a.csv", data), **more})


def kept() -> tuple[int, int, int]:
    return Bed.objects.count(), Product.objects.count(), Change.objects.count()


@pytest.mark.parametrize("name", NASTY)
def test_a_price_list_that_is_none_is_told(client: Browser, here: World, name: str) -> None:
    before = kept()
    answer = sent(client, "/shelf/prices", "list", NASTY[name])
    assert answer.status_code in (302, 422)
    assert len(answer.content) < LARGEST_PAGE
    assert b"root:" not in answer.content
    if answer.status_code == 422:
        assert kept() == before
        assert b'role="alert"' in answer.content


@pytest.mark.parametrize("name", [*NASTY, *CASES])
def test_a_case_file_that_is_none_is_told(client: Browser, here: World, name: str) -> None:
    before = kept()
    data = {**NASTY, **CASES}[name]
    answer = sent(client, f"/gardens/{here.at['garden']}/cases", "files", data)
    assert answer.status_code == 422
    assert len(answer.content) < LARGEST_PAGE + 7 * len(data)
    assert b"root:" not in answer.content
    assert kept() == before


@pytest.mark.parametrize("name", NASTY)
def test_a_backup_that_is_none_is_told(client: Browser, here: World, name: str) -> None:
    before = kept()
    for how in ("add", "replace"):
        answer = sent(client, "/settings/data/bring-in", "zip", NASTY[name], how=how, sure="yes")
        assert answer.status_code == 422
    assert kept() == before


def test_a_nul_that_a_case_file_spells_out_is_kept_in_no_name(client: Browser, here: World) -> None:
    text = 'case = 1\nname = "a\\u0000b"\n[soil]\nph = 6.4\n[aim]\nplant = "cabbage"\n'
    address = f"/gardens/{here.at['garden']}/cases"
    assert sent(client, address, "files", text.encode()).status_code == 302
    assert Bed.objects.exclude(pk=here.at["bed"]).get().name == "a b"


@pytest.mark.parametrize("start", ["=", "+", "-", "@"])
def test_formulas_stay_texts_on_the_way_in_and_out(
    client: Browser, here: World, start: str
) -> None:
    Product.objects.all().delete()
    cell = f"{start}HYPERLINK(1)"
    rows = HEAD + f"{cell},gypsum,,,,,,\r\n".encode()
    assert sent(client, "/shelf/prices", "list", rows).status_code == 302
    assert Product.objects.get().name == cell
    assert f"\n'{cell}," in client.get("/shelf/prices.csv").content.decode()


cells = st.text(st.characters(codec="utf-8"), max_size=12) | st.sampled_from(
    ["gypsum", "25 kg", "9.5", "=1+1", "'", '"', "yes", "EUR", "1e400", "-0", "\x00", "\u202e", ""]
)


def lines() -> st.SearchStrategy[bytes]:
    rows = st.lists(st.lists(cells, max_size=10).map(",".join), max_size=5).map("\n".join)
    return st.one_of(st.binary(max_size=200), rows.map(lambda t: HEAD + t.encode()))


@tries(40)
@given(data=lines())
def test_whatever_is_sent_as_a_list_is_answered(db: None, client: Browser, data: bytes) -> None:
    before = kept()
    answer = sent(client, "/shelf/prices", "list", data)
    assert answer.status_code in (302, 422)
    if answer.status_code == 422:
        assert kept() == before


@pytest.fixture(autouse=True)
def alone(here: World) -> Iterator[None]:
    """One adviser with one office, whose garden the address names."""
    yield
    assert Office.objects.count() == 1
