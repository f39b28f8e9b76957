"""Every address is tried by a stranger, by another office and by a reader; new ones too."""

from __future__ import annotations

import json
import re
from typing import Any

import pytest
from django.test import Client as Browser

from loamshift.store.models import ApiKey, Bed, Change, Office, User
from loamshift.web.middleware import ONLY_TO_CHANGE
from store.stores import everything
from web.worlds import CASE, MARK, World, routes, world

pytestmark = pytest.mark.django_db

FOR_ALL = {"account/sign-in", "health"}
OWN = ("account/",)
"""What a person does to his own account, also as a reader."""
FORM = re.compile(r"(<form\b[^>]*method=.?post[^>]*>)(.*?)</form>", re.DOTALL | re.IGNORECASE)
METHODS = ("get", "post", "put", "patch", "delete")


@pytest.fixture(autouse=True)
def office_mode(settings: Any) -> None:
    settings.OFFICE_MODE = True


@pytest.fixture
def north() -> World:
    return world("north")


@pytest.fixture
def south() -> World:
    return world("south")


def ask(browser: Browser, method: str, address: str) -> Any:
    if method == "get":
        return browser.get(address)
    if address.startswith("/api/"):
        body: Any = {"case_toml": CASE, "name": "n", "version": 1, "entry": {"ph": 6}}
        return browser.generic(method, address, json.dumps(body), content_type="application/json")
    if method == "post":
        return browser.post(address, {"version": 1, "name": "n", "case": CASE})
    return browser.generic(method, address, "{}", content_type="application/json")


def text_of(answer: Any) -> str:
    data = b"".join(answer.streaming_content) if answer.streaming else answer.content
    return data.decode("utf-8", "replace")


def kept_of(*worlds: World) -> list[Any]:
    """All that is kept of some offices, with the people and how much was ever changed."""
    return [
        [everything(Office.objects.get(pk=one.office.pk)) for one in worlds],
        list(User.objects.order_by("pk").values("pk", "password", "role", "is_active")),
        list(ApiKey.objects.order_by("pk").values("pk", "user")),
        Change.objects.count(),
    ]


def test_every_route_has_a_sample_and_the_table_can_miss_one(north: World) -> None:
    every = routes()
    assert len(every) > 60
    assert not [route.address(north.at) for route in every if "<" in route.address(north.at)]
    from web.worlds import Route

    for pattern in ("unheard/<uuid:pk>", "plan/<slug:unheard>"):
        with pytest.raises(LookupError, match="unheard"):
            Route(pattern, "unheard").address(north.at)


def test_a_stranger_gets_nothing_but_the_way_in(north: World) -> None:
    before = kept_of(north)
    wrong = []
    for route in routes():
        address = route.address(north.at)
        for method in METHODS:
            answer = ask(Browser(), method, address)
            if MARK in text_of(answer):
                wrong.append(f"{method} {address} shows content")
            if route.pattern in FOR_ALL:
                continue
            sent_away = answer.status_code == 302 and answer.headers["Location"].startswith(
                "/account/sign-in"
            )
            asked = answer.status_code == 401 and 'name="carried"' in answer.content.decode()
            refused = answer.status_code == 401 if address.startswith("/api/") else sent_away
            refused = refused or (method == "post" and asked)
            if not refused:
                wrong.append(f"{method} {address}: {answer.status_code}")
    assert not wrong, "\n".join(wrong)
    assert kept_of(north) == before


def test_a_key_that_is_none_opens_nothing(north: World) -> None:
    digest = ApiKey.objects.get(pk=north.at["key"]).digest
    for told in ("", "Bearer", "Bearer loam_x", f"Bearer {digest}", f"bearer loam_{'x' * 5000}"):
        answer = Browser(headers={"Authorization": told}).get("/api/v1/beds")
        assert (answer.status_code, answer.json()["faults"]) == (401, [])


def test_another_office_finds_nothing_and_changes_nothing(north: World, south: World) -> None:
    before = kept_of(north)
    browser = north.signed_in(south.adviser)
    wrong = []
    for route in routes():
        if not route.kinds:
            continue
        address = route.address(north.at)
        for method in METHODS:
            answer = ask(browser, method, address)
            allowed = (404, 405, 422) if route.is_api and method != "get" else (404, 405)
            told = answer.status_code == 302 and route.pattern.startswith(("changes/", "account/"))
            if answer.status_code not in allowed and not told:
                wrong.append(f"{method} {address}: {answer.status_code}")
            if MARK in text_of(answer):
                wrong.append(f"{method} {address} shows content")
    assert not wrong, "\n".join(wrong)
    after = kept_of(north)
    assert after == before


def test_lists_show_the_own_office_alone(north: World) -> None:
    empty = Office.objects.create(name="Empty")
    nobody = User.objects.create_user("nobody", office=empty, role="adviser")
    browser = north.signed_in(nobody)
    shown = [
        route.pattern
        for route in routes()
        if not route.kinds and MARK in text_of(browser.get(route.address(north.at)))
    ]
    assert not shown


def test_a_reader_sees_everything_and_changes_nothing(north: World) -> None:
    before = kept_of(north)
    browser = north.signed_in(north.reader)
    wrong = []
    for route in routes():
        address = route.address(north.at)
        page = browser.get(address)
        shut = page.status_code == 403 and route.name in ONLY_TO_CHANGE
        if page.status_code >= 500 or (page.status_code in (401, 403) and not shut):
            wrong.append(f"get {address}: {page.status_code}")
        for head, inside in FORM.findall(text_of(page)):
            own = 'action="/account/' in head or route.pattern.startswith(OWN)
            if "<button" in inside and not own:
                wrong.append(f"get {address}: {head} has a button")
        if route.pattern.startswith(OWN):
            continue
        for method in METHODS[1:]:
            status = ask(browser, method, address).status_code
            if status not in (403, 405):
                wrong.append(f"{method} {address}: {status}")
    assert not wrong, "\n".join(wrong)
    assert kept_of(north) == before


def test_forms_without_their_mark_are_refused(north: World) -> None:
    before = kept_of(north)
    browser = north.signed_in(north.adviser, enforce_csrf_checks=True)
    wrong = []
    for route in routes():
        address = route.address(north.at)
        for method in METHODS[1:]:
            status = ask(browser, method, address).status_code
            if status not in (403, 405):
                wrong.append(f"{method} {address}: {status}")
    assert not wrong, "\n".join(wrong)
    assert kept_of(north) == before
    assert "reload the page" in text_of(browser.post("/changes/"))


def test_names_are_no_markup_and_no_page_breaks_the_policy(north: World) -> None:
    browser = north.signed_in(north.adviser)
    wrong, pages = [], 0
    for route in routes():
        address = route.address(north.at)
        page = browser.get(address)
        policy = page.headers["Content-Security-Policy"]
        if "default-src 'self'" not in policy or "unsafe" in policy:
            wrong.append(f"{address}: {policy}")
        if not page.headers["Content-Type"].startswith("text/html"):
            continue
        if "attachment" in page.headers.get("Content-Disposition", ""):
            continue
        pages += MARK in text_of(page)
        for bad in (
            r"<script>alert",
            r"<script(?![^>]* src=)(?![^>]*json)",
            r"<style\b",
            r"<[^>]* style=",
            r"<[a-z][^>]* on[a-z]+=",
            r"(?:src=|<link[^>]* href=)[\"']?https?:",
        ):
            found = re.search(bad, text_of(page))
            if found is not None:
                wrong.append(f"{address}: {text_of(page)[found.start() :][:90]!r}")
    assert not wrong, "\n".join(wrong)
    assert pages > 10


def test_methods_that_nothing_answers_are_worded(north: World) -> None:
    browser = north.signed_in(north.adviser)
    page = browser.get("/account/sign-out")
    assert (page.status_code, page.headers["Allow"]) == (405, "POST")
    assert "answers a button" in text_of(page)
    called = browser.patch("/api/v1/beds")
    assert (called.status_code, set(called.headers["Allow"].split(", "))) == (405, {"GET", "POST"})
    assert called.json()["faults"] == []


def test_large_and_strange_bodies_are_refused(north: World) -> None:
    browser = north.signed_in(north.adviser)
    large = "x" * 2_600_000
    form = "application/x-www-form-urlencoded"
    page = browser.generic("post", "/shelf/new", f"name={large}", content_type=form)
    assert page.status_code == 413 and "Too large" in text_of(page)
    called = browser.post("/api/v1/beds", large, content_type="application/json")
    assert called.status_code == 413 and "2.5 MB" in called.json()["detail"]
    for kind, status in (("text/plain", 415), ("multipart/form-data; boundary=a", 415)):
        assert browser.post("/api/v1/advise", "{}", content_type=kind).status_code == status
    bad = browser.post("/api/v1/beds", "{", content_type="application/json")
    assert (bad.status_code, bad.json()["faults"]) == (400, [])
    deep = '{"case":' + '{"a":' * 5000 + "1" + "}" * 5001
    assert browser.post("/api/v1/beds", deep, content_type="application/json").status_code in (
        400,
        422,
    )
    assert browser.post("/api/v1/advise", deep, content_type="application/json").status_code == 422
    assert not Bed.objects.exclude(pk=north.at["bed"]).exists()


def test_a_sign_that_no_database_holds_is_refused(north: World) -> None:
    browser = north.signed_in(north.adviser)
    for address in ("/beds/?search=%00", "/api/v1/beds?search=a%00b", "/why/a%00b"):
        assert browser.get(address).status_code == 400
    assert Browser().post("/account/sign-in", {"name": "a\x00", "password": "b"}).status_code == 422


def test_too_many_fields_are_told_as_too_large(north: World) -> None:
    browser = north.signed_in(north.adviser)
    many = {f"f{number}": "1" for number in range(1600)}
    assert browser.post("/shelf/new", many).status_code == 413


def test_a_name_that_points_here_is_not_ours(north: World) -> None:
    browser = north.signed_in(north.adviser, headers={"Host": "elsewhere.test"})
    answer = browser.get("/")
    assert answer.status_code == 400 and MARK not in text_of(answer)
    assert browser.get("/api/v1/beds").json()["faults"] == []


class TestOneAdviser:
    """Without sign-in: this machine's own programs and pages alone."""

    @pytest.fixture(autouse=True)
    def alone(self, settings: Any) -> None:
        settings.OFFICE_MODE = False

    @pytest.mark.parametrize("peer", ["192.0.2.7", "2001:db8::7", "", "nonsense"])
    def test_other_machines_are_refused(self, peer: str) -> None:
        browser = Browser(REMOTE_ADDR=peer)
        for address in ("/", "/beds/", "/health", "/api/v1/beds"):
            assert browser.get(address).status_code == 403

    @pytest.mark.parametrize("peer", ["127.0.0.1", "127.8.8.8", "::1"])
    def test_this_machine_is_let_in(self, peer: str) -> None:
        assert Browser(REMOTE_ADDR=peer).get("/health").status_code == 200

    def test_what_a_proxy_would_say_is_not_believed(self) -> None:
        told = {"X-Forwarded-For": "127.0.0.1", "X-Forwarded-Host": "localhost"}
        assert Browser(REMOTE_ADDR="192.0.2.7", headers=told).get("/").status_code == 403

    @pytest.mark.parametrize(
        "told",
        [
            {"Origin": "https://elsewhere.test"},
            {"Origin": "null"},
            {"Sec-Fetch-Site": "cross-site"},
            {"Sec-Fetch-Site": "same-site"},
        ],
    )
    def test_pages_of_others_may_not_write(self, told: dict[str, str]) -> None:
        browser = Browser(headers=told)
        answer = browser.post("/api/v1/clients", {"name": "A"}, content_type="application/json")
        assert answer.status_code == 403

    def test_programs_and_own_pages_may(self) -> None:
        for told in ({}, {"Origin": "http://testserver", "Sec-Fetch-Site": "same-origin"}):
            browser = Browser(headers=told)
            answer = browser.post("/api/v1/clients", {"name": "A"}, content_type="application/json")
            assert answer.status_code == 201

    def test_there_is_nobody_to_sign_in(self) -> None:
        for address in ("/account/", "/account/sign-in"):
            assert Browser().get(address).status_code == 404
