"""The page that maps a field: uploaded, shown, taken along, deleted; and what it refuses."""

from __future__ import annotations

import io
import json
import re
import sqlite3
import zipfile
from pathlib import Path
from tempfile import gettempdir
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client as Browser

from loamshift.store.models import Bed, Client, FieldFiles, Office
from loamshift.web.fields import files as field_files
from loamshift.web.fields.files import LARGEST_BYTES, check_file
from web.worlds import world

pytest.importorskip("geopandas")
pytest.importorskip("rasterio")
EXAMPLE = Path(__file__).parents[2] / "examples" / "field"
OUTLINE = (EXAMPLE / "boundary.geojson").read_bytes()
FEW = "\n".join((EXAMPLE / "samples.csv").read_text(encoding="utf-8").splitlines()[:10])
"""Too few for a pattern: the field gets one rate, and the test does not fit any."""


@pytest.fixture
def office(db: None) -> Office:
    return Office.objects.create(name="Ours")


def send(client: Browser, text: str = FEW, **more: Any) -> Any:
    sent = {
        "samples": SimpleUploadedFile("s.csv", text.encode()),
        "plant": "broad bean",
        "method": "water 1:2.5",
        "crs": "EPSG:4326",
        **more,
    }
    return client.post("/fields/", {key: value for key, value in sent.items() if value is not None})


def test_a_field_is_mapped_shown_taken_along_and_deleted(client: Browser, office: Office) -> None:
    answer = send(
        client,
        boundary=SimpleUploadedFile("field.geojson", OUTLINE),
        plant=None,
        target_ph="7",
        sample_price="20",
    )
    assert answer.status_code == 302, re.findall(r'class="fault">[^<]*', answer.content.decode())
    files = FieldFiles.objects.get()
    assert answer.headers["Location"] == f"/fields/{files.pk}" and files.name == "s"
    page = client.get(f"/fields/{files.pk}").content.decode()
    assert "The field gets one rate" in page and "11.1 ha" in page
    assert "ground limestone" in page, page[page.index("<article") :][:900]
    assert "What one dose by the mean would do" in page
    assert not re.search(r"\s--[a-z]", page), "no option of a command"
    gpkg = client.get(f"/fields/{files.pk}/files/rates.gpkg")
    assert gpkg.content.startswith(b"SQLite format 3")
    assert 'filename="s-rates-' in gpkg.headers["Content-Disposition"]
    assert client.get(f"/fields/{files.pk}/files/rates.tif").content[:4] in (b"II*\0", b"MM\0*")
    packed = client.get(f"/fields/{files.pk}/files/rates-shapefile.zip").content
    assert "rates.shp" in zipfile.ZipFile(io.BytesIO(packed)).namelist()
    assert client.get(f"/fields/{files.pk}/files/other.exe").status_code == 404
    shown = client.get("/fields/").content.decode()
    assert f"/fields/{files.pk}" in shown
    client.post(f"/fields/{files.pk}/delete")
    assert not FieldFiles.objects.exists()
    assert client.get(f"/fields/{files.pk}").status_code == 404


def test_a_bed_or_a_client_fills_in_what_it_knows(client: Browser, office: Office) -> None:
    one = Client.objects.create(office=office, name="Ann")
    tree = {"aim": {"plant": "cabbage"}, "place": {"name": "Hull"}, "soil": {"ph_method": "CaCl2"}}
    bed = Bed.objects.create(office=office, name="Acre", case_json=tree)
    page = client.get(f"/fields/?bed={bed.pk}").content.decode()
    assert all(f'value="{known}"' in page for known in ("Acre", "cabbage", "Hull"))
    assert '<option value="CaCl2" selected>' in page
    page = client.get(f"/fields/?client={one.pk}").content.decode()
    assert f'<option value="{one.pk}" selected' in page
    assert client.get("/fields/?bed=nonsense").status_code == 200


def geopackage(mark: bytes) -> bytes:
    made = sqlite3.connect(":memory:")
    made.execute("CREATE TABLE a (b)")
    data = bytearray(made.serialize())
    data[68:72] = mark
    return bytes(data)


def linked(crs: object) -> bytes:
    """GeoJSON that is sound but for the coordinate system of one of its shapes."""
    tree = json.loads(OUTLINE)
    tree["features"][0]["geometry"]["crs"] = crs
    return json.dumps(tree).encode()


def test_a_boundary_whose_system_goes_by_its_code_is_taken() -> None:
    check_file(OUTLINE, "a.geojson")
    check_file(linked({"type": "name", "properties": {"name": "EPSG:4326"}}), "a.geojson")
    name = "urn:ogc:def:crs:OGC:1.3:CRS84"
    check_file(linked({"type": "name", "properties": {"name": name}}), "a.json")


LINK = "http://x.example/crs"
VRT = b'<OGRVRTDataSource><OGRVRTLayer name="a"><SrcDataSource>/etc/passwd</SrcDataSource>'


@pytest.mark.parametrize(
    ("field", "name", "data", "said"),
    [
        ("samples", "a.shp", b"x", "not a kind of file that this page takes"),
        ("samples", "a.vrt", VRT, "not a kind of file that this page takes"),
        ("samples", "a.kml", b"<kml/>", "not a kind of file that this page takes"),
        ("samples", "a.zip", b"PK", "not a kind of file that this page takes"),
        ("samples", "a", b"x", "not a kind of file that this page takes"),
        ("boundary", "a.geojson", VRT, "does not hold what its ending says"),
        ("boundary", "a.geojson", b"[" * 60_000, "does not hold what its ending says"),
        ("boundary", "a.json", json.dumps({"type": "Topology"}).encode(), "does not hold what"),
        (
            "boundary",
            "a.json",
            linked({"type": "link", "properties": {"href": LINK}}),
            "hold",
        ),
        (
            "boundary",
            "a.json",
            linked({"type": "name", "properties": {"name": LINK}}),
            "hold",
        ),
        ("boundary", "a.json", linked(LINK), "does not hold what its ending says"),
        ("boundary", "a.gpkg", geopackage(b"\0\0\0\0"), "does not hold what its ending says"),
        ("boundary", "a.gpkg", VRT, "does not hold what its ending says"),
        ("boundary", "a.gpkg", geopackage(b"GPKG"), "a.gpkg"),
        ("samples", "a.csv", b"x" * (LARGEST_BYTES + 1), "5 MB"),
        ("samples", "a.csv", b"pH\n6\n", "a.csv has no columns for coordinates"),
        ("samples", "a.csv", b"longitude,latitude\n-3,53\n", "Call the right one “pH”"),
        ("samples", "a.xlsx", b"PK\3\4 no workbook", "a.xlsx"),
        ("samples", "../../a.csv", b"", "a.csv"),
        ("case", "a.toml", b"case = [", "cannot be read"),
        ("case", "a.toml", b'[aim]\nplant = "moon dust"\n', "moon dust"),
    ],
)
def test_what_is_no_map_is_refused_beside_its_field(
    client: Browser, office: Office, field: str, name: str, data: bytes, said: str
) -> None:
    plant = None if field == "case" and b"moon" in data else "broad bean"
    answer = send(client, **{"plant": plant, field: SimpleUploadedFile(name, data)})
    page = answer.content.decode()
    assert answer.status_code == 422 and not FieldFiles.objects.exists()
    beside = page[page.index(f'id="p-{field}-said"') :].split("</div>")[0]
    assert said in beside and f"{gettempdir()}/" not in page and "Traceback" not in page
    assert "broad bean" in page or plant is None, "what was typed is there still"


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ({"plant": ""}, "Say what you want to grow, or which pH you want"),
        ({"plant": "moon dust"}, "moon dust"),
        ({"target_ph": "17"}, "17"),
        ({"method": ""}, "Choose the method below"),
        ({"crs": ""}, "write EPSG:4326 as the coordinate system"),
        ({"crs": "moon"}, "is not a coordinate system"),
        ({"sample_price": "much"}, "an amount of money of 0 or more"),
        ({"loss_per_ha": "-3"}, "an amount of money of 0 or more"),
    ],
)
def test_what_is_typed_wrong_is_told_in_words_of_the_page(
    client: Browser, office: Office, typed: dict[str, str], said: str
) -> None:
    samples = FEW.replace("longitude,latitude", "x,y") if "crs" in typed else FEW
    answer = send(client, samples, **typed)
    page = answer.content.decode()
    assert answer.status_code == 422 and said in page and not FieldFiles.objects.exists()
    assert not re.search(r"\s--[a-z]", page), "no option of a command"


def test_without_the_part_for_maps_a_page_says_so(
    client: Browser, office: Office, monkeypatch: pytest.MonkeyPatch
) -> None:
    def missing(files: object) -> None:
        raise ModuleNotFoundError("No module named 'shapely'", name="shapely")

    monkeypatch.setattr(field_files, "read_field", missing)
    answer = send(client)
    assert answer.status_code == 422 and "loamshift[map]" in answer.content.decode()


def test_maps_stay_in_their_office_and_leave_with_their_client(db: None) -> None:
    ours, theirs = world("ours"), world("theirs")
    browser = ours.signed_in(ours.adviser)
    for address in ("", "/files/rates.gpkg"):
        assert browser.get(f"/fields/{theirs.at['field']}{address}").status_code == 404
    assert browser.post(f"/fields/{theirs.at['field']}/delete").status_code == 404
    assert FieldFiles.objects.count() == 2
    Client.objects.filter(pk=theirs.at["client"]).delete()
    assert FieldFiles.objects.get().pk == ours.at["field"]
