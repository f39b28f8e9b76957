from __future__ import annotations

import json
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from django.test import Client as Browser
from typer.testing import CliRunner

from loamshift.cli.app import app
from loamshift.store.models import ApiKey, Bed, Office, User
from loamshift.tables.materials import load_materials
from loamshift.web.account.keys import new_key
from loamshift.web.api.views import description
from loamshift.web.beds.samples import SAMPLES
from loamshift.web.cases import text_of_bed

pytestmark = pytest.mark.django_db
DAY = "2026-04-12"
CASE = {"name": "North", "soil": {"ph": 7.2, "texture": "loam"}, "aim": {"plant": "cabbage"}}


@pytest.fixture
def office() -> Office:
    return Office.objects.create(name="Ours")


def call(client: Browser, method: str, path: str, body: Any = None) -> Any:
    data = "" if body is None else json.dumps(body)
    return client.generic(method, f"/api/v1/{path}", data, content_type="application/json")


def added(client: Browser, case: Any = CASE) -> dict[str, Any]:
    answer = call(client, "post", "beds", {"case": case})
    assert answer.status_code == 201, answer.content
    return answer.json()


@pytest.mark.drawn
@pytest.mark.parametrize(
    "query",
    ["members=60&seed=7&years=2", "members=60&refit=false", "forecast=false", "units=us"],
)
def test_advise_says_what_the_command_line_says(
    client: Browser, office: Office, tmp_path: Path, query: str
) -> None:
    path = tmp_path / "bed.toml"
    path.write_text(SAMPLES[0].case_text, encoding="utf-8")
    options = {
        "forecast=false": ["--years", "0"],
        "members=60&refit=false": ["--members", "60", "--no-refit"],
        "units=us": ["--units", "us"],
    }.get(query, ["--members", "60", "--seed", "7", "--years", "2"])
    ran = CliRunner().invoke(app, ["advise", str(path), "--json", "--today", DAY, *options])
    told = client.post(
        f"/api/v1/advise?today={DAY}&{query}", SAMPLES[0].case_text, content_type="application/toml"
    )
    assert told.status_code == 200
    assert told.json() == json.loads(ran.stdout)
    assert told.json()["letter"]["sections"] and told.json()["case"]["soil"]["ph"] == 6.8


def test_json_and_toml_are_the_same_case(client: Browser, office: Office) -> None:
    kinds = (
        ("application/json", json.dumps({"soil": {"ph": 6.1, "sampled": "2026-03-01"}})),
        ("application/toml", "case = 1\n[soil]\nph = 6.1\nsampled = 2026-03-01\n"),
    )
    said = [
        client.post(f"/api/v1/advise?today={DAY}&forecast=0", text, content_type=kind).json()
        for kind, text in kinds
    ]
    assert said[0] == said[1]


def test_faults_come_all_at_once_with_their_paths(client: Browser, office: Office) -> None:
    case = {"soil": {"ph": 72, "texture": "moon"}, "aim": {"plant": "no such plant"}, "sol": 1}
    answer = call(client, "post", "advise", case)
    assert answer.status_code == 422
    told = answer.json()
    assert {"soil.ph", "soil.texture", "aim.plant", "sol"} <= {f["path"] for f in told["faults"]}
    assert all(set(fault) == {"path", "given", "problem", "mend"} for fault in told["faults"])
    assert "decimal point" in json.dumps(told)


@pytest.mark.parametrize(
    "query", ["members=2001", "members=2", "years=11", "years=0", "seed=-1", "today=yesterday"]
)
def test_options_have_bounds(client: Browser, office: Office, query: str) -> None:
    answer = call(client, "post", f"advise?{query}", CASE)
    assert answer.status_code == 422
    assert [fault["path"] for fault in answer.json()["faults"]] == [query.split("=")[0]]


def test_a_bed_is_added_found_changed_and_taken_back(client: Browser, office: Office) -> None:
    bed = added(client)
    assert (bed["name"], bed["ph"], bed["version"]) == ("North", 7.2, 1) and bed["decision"]
    assert call(client, "get", "beds?search=nor+CABB").json()["count"] == 1
    assert call(client, "get", "beds?search=south").json()["items"] == []
    reading = {"version": 1, "entry": {"date": "2026-03-02", "ph": 6.9}}
    read = call(client, "post", f"beds/{bed['id']}/readings", reading).json()
    assert read["case"]["reading"] == [{"date": "2026-03-02", "ph": 6.9}]
    put_on = {"version": 2, "entry": {"date": "2026-03-03", "material": "gypsum", "rate": 50}}
    assert call(client, "post", f"beds/{bed['id']}/applied", put_on).json()["version"] == 3
    text = client.get(f"/api/v1/beds/{bed['id']}/case.toml").content.decode()
    assert "[[applied]]" in text and text == text_of_bed(Bed.objects.get())
    gone = call(client, "delete", f"beds/{bed['id']}?version=3").json()
    assert call(client, "get", f"beds/{bed['id']}").status_code == 404
    assert call(client, "post", f"acts/{gone['act']}/take-back").status_code == 200
    assert call(client, "get", f"beds/{bed['id']}").json()["case"]["applied"]
    again = call(client, "post", f"acts/{gone['act']}/take-back")
    assert (again.status_code, again.json()["faults"]) == (409, [])


def test_the_later_of_two_is_told_what_stands_there(client: Browser, office: Office) -> None:
    bed = added(client)
    first = call(client, "put", f"beds/{bed['id']}", {"version": 1, "case": {**CASE, "name": "A"}})
    assert (first.status_code, first.json()["version"]) == (200, 2)
    later = call(client, "put", f"beds/{bed['id']}", {"version": 1, "case": {**CASE, "name": "B"}})
    assert later.status_code == 409
    assert later.json()["current"]["name"] == "A" and later.json()["current"]["version"] == 2
    assert Bed.objects.get().name == "A"
    assert call(client, "delete", f"beds/{bed['id']}?version=1").status_code == 409


def test_a_put_that_changes_nothing_has_no_act(client: Browser, office: Office) -> None:
    bed = added(client)
    same = {"version": 1, "case_toml": bed["case_toml"]}
    told = call(client, "put", f"beds/{bed['id']}", same).json()
    assert (told["version"], told["act"]) == (1, None)


@pytest.mark.parametrize(
    ("body", "path"),
    [
        ({}, "case"),
        ({"case": CASE, "case_toml": "case = 1"}, "case"),
        ({"case_toml": "case = "}, "line 1"),
        ({"case": {"soil": {"ph": 99}}}, "soil.ph"),
        ({"case": CASE, "garden": "0b51a4d5-6a5a-4a2b-8bd1-0d1d3f1f0f0f"}, "garden"),
        ({"case": CASE, "unheard": 1}, "unheard"),
        ({"case": CASE, "garden": "north"}, "garden"),
        ({"case": {"a": {"b": {"c": {"d": {"e": {"f": {"g": 1}}}}}}}}, "case"),
        ({"case": {"name": "\ud800", "soil": {"ph": 6}}}, "name"),
    ],
)
def test_a_bed_that_cannot_be_kept(client: Browser, office: Office, body: Any, path: str) -> None:
    answer = call(client, "post", "beds", body)
    assert answer.status_code == 422, answer.content
    assert path in [fault["path"].split("[")[0] for fault in answer.json()["faults"]]
    assert not Bed.objects.exists()


def test_a_letter_is_sent_once_and_stays(client: Browser, office: Office) -> None:
    bed = added(client)
    sent = call(client, "post", "letters", {"bed": bed["id"], "note": "by post"}).json()
    first = call(client, "get", f"letters/{sent['id']}").json()
    assert first["letter"]["sections"] and first["verdict"]["decision"] == sent["decision"]
    call(client, "put", f"beds/{bed['id']}", {"version": 1, "case": {"soil": {"ph": 5}}})
    assert call(client, "get", f"letters/{sent['id']}").json() == first
    assert call(client, "get", f"letters?bed={bed['id']}").json()["count"] == 1
    none = call(client, "post", "letters", {"bed": sent["id"]})
    assert (none.status_code, none.json()["faults"][0]["path"]) == (422, "bed")


def test_claims_are_settled(client: Browser, office: Office) -> None:
    body = {
        "case": {"soil": {"ph": 7.2, "texture": "loam"}},
        "claims": [
            {"material": "coffee grounds", "rate": "2 kg/m2"},
            {"material": "gypsum", "rate": 100},
        ],
        "forecast": False,
    }
    told = call(client, "post", "claims", body).json()["claims"]
    assert [one["material"] for one in told] == ["coffee grounds, spent", "gypsum"]
    assert told[1]["acid_brought_mmolc_m2"] == 0.0 and told[0]["comment"]
    wrong = call(
        client, "post", "claims", {**body, "claims": [{"material": "moon dust", "rate": 1}]}
    )
    assert [f["path"] for f in wrong.json()["faults"]] == ["claim[1].material"]
    blind = call(client, "post", "claims", {**body, "case": {}})
    assert (blind.status_code, "pH" in blind.json()["detail"]) == (422, True)


def test_clients_gardens_and_products(client: Browser, office: Office) -> None:
    owner = call(client, "post", "clients", {"name": "A client"}).json()
    garden = call(client, "post", "gardens", {"client": owner["id"], "name": "Back"}).json()
    bed = call(client, "post", "beds", {"case": CASE, "garden": garden["id"]}).json()
    assert bed["garden"] == garden["id"]
    assert call(client, "get", "beds?search=client").json()["count"] == 1
    renamed = {"version": 1, "client": owner["id"], "name": "Front"}
    assert call(client, "put", f"gardens/{garden['id']}", renamed).json()["plan"] == garden["plan"]
    bag = {"name": "Bag", "material": "flowers of sulphur", "pack": "25 kg", "price": 30.0}
    kept = call(client, "post", "products", bag).json()
    assert kept["material"] == "elemental sulfur, powder"
    bad = call(client, "put", f"products/{kept['id']}", {**bag, "version": 1, "pack": "a sack"})
    assert [fault["path"] for fault in bad.json()["faults"]] == ["pack"]
    assert call(client, "delete", f"clients/{owner['id']}").status_code == 200
    assert call(client, "get", "beds").json()["count"] == 0


def test_facts_are_found_by_any_name(client: Browser, office: Office) -> None:
    told = call(client, "get", "materials?search=flowers of sulphur").json()
    assert "elemental sulfur, powder" in [one["key"] for one in told["items"]]
    assert all(f["source_key"] for one in told["items"] for f in one["figures"])
    assert call(client, "get", "plants?search=blueberry").json()["count"] >= 1
    assert len(call(client, "get", "places?search=Minneapolis").json()["items"][0]["rain_mm"]) == 12
    assert call(client, "get", "plants?search=zzzz").json()["items"] == []
    part = call(client, "get", "materials?offset=2&limit=3").json()
    assert (len(part["items"]), part["count"]) == (3, len(load_materials()))


def test_the_description_is_whole_and_every_reference_leads_somewhere() -> None:
    text = json.dumps(description())
    parts = description()["components"]["schemas"]
    named = {one.split('"')[0] for one in text.split("#/components/schemas/")[1:]}
    assert named <= set(parts)
    assert parts["AnswerOut"]["properties"]["verdict"]
    assert parts["CaseFile"]["properties"]["soil"]["properties"]["other_ph"]["type"] == "array"
    assert "$defs" not in text


def test_the_page_lists_every_address_and_loads_nothing_of_others(
    client: Browser, office: Office
) -> None:
    page = client.get("/api/").content.decode()
    assert all(place in page for place in description()["paths"])
    assert "https://" not in page.replace("http://testserver", "")
    assert client.get("/api/v1/openapi.json").json()["openapi"] == "3.1.0"


@pytest.fixture
def people(office: Office, settings: Any) -> dict[str, str]:
    settings.OFFICE_MODE = True
    keys = {}
    for role in ("adviser", "reader"):
        user = User.objects.create_user(role, office=office, role=role)
        keys[role] = f"Bearer {new_key(user, name='a program')}"
    return keys


def test_a_key_does_what_its_person_may(people: dict[str, str]) -> None:
    adviser = Browser(enforce_csrf_checks=True, headers={"Authorization": people["adviser"]})
    assert call(adviser, "post", "clients", {"name": "A"}).status_code == 201
    reader = Browser(headers={"Authorization": people["reader"]})
    assert call(reader, "get", "clients").json()["count"] == 1
    assert call(reader, "post", "clients", {"name": "B"}).status_code == 403
    assert reader.get("/beds/").status_code == 302
    User.objects.update(is_active=False)
    assert call(adviser, "get", "clients").status_code == 401


def test_only_the_fingerprint_of_a_key_is_kept(people: dict[str, str]) -> None:
    key = people["adviser"].removeprefix("Bearer ")
    assert len(key) > 40
    for row in ApiKey.objects.values():
        assert key not in str(row)


def test_of_an_office_each_person_has_a_pace(
    people: dict[str, str], monkeypatch: pytest.MonkeyPatch
) -> None:
    from loamshift.web.api import door
    from loamshift.web.limits import Pace

    monkeypatch.setattr(door, "_pace", Pace(per_minute=1))
    adviser = Browser(headers={"Authorization": people["adviser"]})
    body = {"case": CASE, "claims": [{"material": "gypsum", "rate": 10}]}
    assert call(adviser, "post", "claims", body).status_code == 200
    second = call(adviser, "post", "claims", body)
    assert second.status_code == 429 and 0 < int(second.headers["Retry-After"]) <= 60
    assert call(adviser, "post", "claims", {**body, "forecast": False}).status_code == 200


def test_a_day_given_twice_is_the_cases_own(client: Browser, office: Office) -> None:
    told = call(client, "post", "advise?forecast=0&today=2027-01-01", {**CASE, "today": DAY})
    assert date.fromisoformat(told.json()["today"]) == date(2026, 4, 12)
