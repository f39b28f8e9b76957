from __future__ import annotations

import io
import json
import logging
import os
import re
import subprocess
import sys
from datetime import timedelta
from html import unescape
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest
from django.conf import settings
from django.core import signing
from django.db import InterfaceError, OperationalError
from django.db.backends.utils import CursorWrapper
from django.test import Client as Browser
from django.utils import timezone

from loamshift.store.models import ApiKey, Client, FailedSignIn, Office, User
from loamshift.web.limits import FREE_TRIES
from loamshift.web.logs import JsonLines

pytestmark = pytest.mark.django_db
PASSWORD = "long meadow 7 walks"
NEW = "other meadow 8 paths"


@pytest.fixture(autouse=True)
def office_mode(settings: Any) -> None:
    settings.OFFICE_MODE = True
    settings.PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]


@pytest.fixture
def robin() -> User:
    office = Office.objects.create(name="North office")
    return User.objects.create_user("robin", password=PASSWORD, office=office, role="adviser")


def sign_in(browser: Browser, name: str = "robin", password: str = PASSWORD, **more: str) -> Any:
    return browser.post("/account/sign-in", {"name": name, "password": password, **more})


def test_signing_in_and_out(robin: User) -> None:
    browser = Browser()
    assert browser.get("/shelf/").headers["Location"] == "/account/sign-in?next=%2Fshelf%2F"
    before = browser.session.session_key
    answer = sign_in(browser, next="/shelf/")
    assert (answer.status_code, answer.headers["Location"]) == (302, "/shelf/")
    assert browser.session.session_key != before
    assert browser.get("/shelf/").status_code == 200
    assert "robin" in browser.get("/account/").content.decode()
    assert browser.get("/account/sign-in").headers["Location"] == "/"
    out = browser.post("/account/sign-out")
    assert out.headers["Clear-Site-Data"] == '"storage"', "drafts stay on no shared computer"
    assert browser.get("/shelf/").status_code == 302


@pytest.mark.parametrize(
    "target",
    [
        "https://elsewhere.test/",
        "//elsewhere.test/",
        "/\\elsewhere.test",
        "javascript:alert(1)",
        "elsewhere",
        "",
        " /shelf/",
        "http:///elsewhere.test",
    ],
)
def test_one_goes_on_to_own_pages_alone(robin: User, target: str) -> None:
    assert sign_in(Browser(), next=target).headers["Location"] == "/"


def test_nobody_learns_whether_a_name_exists(robin: User) -> None:
    User.objects.create_user("gone", password=PASSWORD, office=robin.office, is_active=False)
    User.objects.create_user("adrift", password=PASSWORD)
    pages = set()
    for name, password in (
        ("robin", "wrong"),
        ("nobody", "wrong"),
        ("gone", PASSWORD),
        ("adrift", PASSWORD),
    ):
        answer = sign_in(Browser(), name, password)
        assert answer.status_code == 422
        page = answer.content.decode().replace(name, "NAME")
        pages.add(re.sub(r'value="[\w-]{40,}"', "", page))
    assert len(pages) == 1


def test_waits_grow_with_wrong_tries_and_end_with_time(
    robin: User, monkeypatch: pytest.MonkeyPatch
) -> None:
    now = timezone.now()
    monkeypatch.setattr("loamshift.web.limits.timezone", SimpleNamespace(now=lambda: now))
    for _ in range(FREE_TRIES["name"]):
        assert sign_in(Browser(), password="wrong").status_code == 422
    first = sign_in(Browser())
    assert (first.status_code, first.headers["Retry-After"]) == (429, "2")
    assert "Wait 2 seconds" in first.content.decode()
    assert FailedSignIn.objects.filter(times=FREE_TRIES["name"]).count() == 2
    waits = []
    for times in (6, 9, 40):
        FailedSignIn.objects.update(times=times)
        waits.append(int(sign_in(Browser()).headers["Retry-After"]))
    assert waits == [4, 32, 900]
    FailedSignIn.objects.update(last_at=now - timedelta(seconds=901))
    assert sign_in(Browser()).status_code == 302


def test_a_wait_for_one_name_is_none_for_another_at_another_address(robin: User) -> None:
    User.objects.create_user("rita", password=PASSWORD, office=robin.office)
    for _ in range(FREE_TRIES["name"]):
        sign_in(Browser(REMOTE_ADDR="192.0.2.1"), password="wrong")
    assert sign_in(Browser(REMOTE_ADDR="192.0.2.2")).status_code == 429
    assert sign_in(Browser(REMOTE_ADDR="192.0.2.2"), "rita").status_code == 302


def test_an_address_that_tries_many_names_waits(robin: User) -> None:
    for number in range(FREE_TRIES["address"]):
        sign_in(Browser(REMOTE_ADDR="192.0.2.1"), f"name-{number}", "wrong")
    assert sign_in(Browser(REMOTE_ADDR="192.0.2.1")).status_code == 429
    assert sign_in(Browser(REMOTE_ADDR="192.0.2.2")).status_code == 302


def test_a_stranger_who_guesses_does_not_lock_out_who_signed_in_here_before(robin: User) -> None:
    known = Browser()
    assert sign_in(known).status_code == 302
    known.post("/account/sign-out")
    for number in range(FREE_TRIES["address"] + 5):
        stranger = sign_in(Browser(), password=f"wrong {number}")
    assert stranger.status_code == 429
    assert sign_in(Browser()).status_code == 429
    assert sign_in(known).status_code == 302
    assert known.get("/account/").status_code == 200


def test_a_known_browser_has_a_count_of_its_own(robin: User) -> None:
    known = Browser()
    sign_in(known)
    known.post("/account/sign-out")
    for _ in range(FREE_TRIES["device"]):
        assert sign_in(known, password="wrong").status_code == 422
    assert sign_in(known).status_code == 429
    assert sign_in(Browser()).status_code == 302


@pytest.mark.parametrize("how", ["of another person", "changed", "of an earlier secret", "none"])
def test_a_cookie_that_is_not_of_this_person_helps_nobody(
    robin: User, settings: Any, how: str
) -> None:
    User.objects.create_user("rita", password=PASSWORD, office=robin.office)
    browser = Browser()
    sign_in(browser, "rita" if how == "of another person" else "robin")
    browser.post("/account/sign-out")
    if how == "changed":
        browser.cookies["loamshift-device"] = browser.cookies["loamshift-device"].value[:-1] + "!"
    elif how == "of an earlier secret":
        settings.SECRET_KEY = "another secret, which the server did not have when it was made"
    elif how == "none":
        del browser.cookies["loamshift-device"]
    for _ in range(FREE_TRIES["name"]):
        sign_in(Browser(), password="wrong")
    assert sign_in(browser).status_code == 429


def test_the_cookie_of_a_browser_names_nobody_and_no_script_reads_it(robin: User) -> None:
    browser = Browser()
    sign_in(browser)
    cookie = browser.cookies["loamshift-device"]
    assert cookie["httponly"] and cookie["samesite"] == "Lax" and cookie["max-age"] > 1e7
    assert "robin" not in cookie.value and PASSWORD not in cookie.value


@pytest.mark.parametrize(("behind_proxy", "status"), [(True, 302), (False, 429)])
def test_a_proxy_is_believed_only_where_there_is_one(
    robin: User, settings: Any, behind_proxy: bool, status: int
) -> None:
    settings.BEHIND_PROXY = behind_proxy
    for number in range(FREE_TRIES["address"]):
        told = {"X-Forwarded-For": f"203.0.113.9, 198.51.100.{number}"}
        sign_in(Browser(headers=told), f"name-{number}", "wrong")
    told = {"X-Forwarded-For": "198.51.100.1, 203.0.113.9"}
    assert sign_in(Browser(headers=told)).status_code == status


def test_success_forgets_the_name_but_not_the_address(robin: User) -> None:
    for _ in range(3):
        sign_in(Browser(), password="wrong")
    sign_in(Browser())
    assert [row.times for row in FailedSignIn.objects.all()] == [3]
    assert "robin" not in str(list(FailedSignIn.objects.values()))


TOKEN = re.compile(r'name="csrfmiddlewaretoken" value="([^"]+)"')
HIDDEN = re.compile(r'<input type="hidden" name="([^"]+)" value="([^"]*)">')


def expired_on(page: str) -> tuple[Browser, str]:
    """A browser that had opened a page when its session ended, and the mark of its form."""
    browser = Browser(enforce_csrf_checks=True)
    start = TOKEN.findall(browser.get("/account/sign-in").content.decode())[0]
    sign_in(browser, csrfmiddlewaretoken=start)
    mark = TOKEN.findall(browser.get(page).content.decode())[0]
    browser.cookies.pop("sessionid", None)
    browser.cookies.pop(settings.SESSION_COOKIE_NAME)
    return browser, mark


def test_a_form_sent_after_the_session_ended_comes_through_sign_in(robin: User) -> None:
    browser, mark = expired_on("/clients/new")
    typed = {"name": 'Ann & "Co" <b>', "contact": "here", "note": "a\r\nb"}
    asked = browser.post("/clients/new", {**typed, "csrfmiddlewaretoken": mark})
    page = asked.content.decode()
    assert asked.status_code == 401 and "What you typed is kept" in page
    assert not Client.objects.exists()
    told = dict(HIDDEN.findall(page))
    wrong = sign_in(browser, password="wrong", **told)
    assert wrong.status_code == 422
    ready = sign_in(browser, **dict(HIDDEN.findall(wrong.content.decode())))
    page = ready.content.decode()
    assert ready.status_code == 200 and 'action="/clients/new"' in page
    fields = {unescape(name): unescape(value) for name, value in HIDDEN.findall(page)}
    assert {name: fields[name] for name in typed} == typed
    form = page[page.index('action="/clients/new"') :]
    fields["csrfmiddlewaretoken"] = TOKEN.findall(form)[0]
    assert browser.post("/clients/new", fields).status_code == 302
    assert Client.objects.get().name == typed["name"]


def test_a_form_of_another_site_is_carried_nowhere(robin: User) -> None:
    browser = Browser(enforce_csrf_checks=True)
    for more in ({}, {"csrfmiddlewaretoken": "x" * 64}):
        answer = browser.post("/clients/new", {"name": "Planted", **more})
        assert answer.status_code == 302 and "/account/sign-in" in answer.headers["Location"]
    forged = signing.dumps(["/clients/new", [["name", "Planted"]]], salt="another")
    start = TOKEN.findall(browser.get("/account/sign-in").content.decode())[0]
    answer = sign_in(browser, csrfmiddlewaretoken=start, carried=forged)
    assert (answer.status_code, answer.headers["Location"]) == (302, "/")


def test_passwords_are_not_carried(robin: User) -> None:
    browser, mark = expired_on("/account/")
    typed = {"old_password": PASSWORD, "csrfmiddlewaretoken": mark}
    answer = browser.post("/account/password", typed)
    assert answer.status_code == 302 and PASSWORD not in answer.content.decode()


def test_the_password_is_changed_by_who_knows_it(robin: User) -> None:
    browser, other = Browser(), Browser()
    sign_in(browser)
    sign_in(other)
    for old, new, again, said in (
        ("wrong", NEW, NEW, "current password is wrong"),
        (PASSWORD, NEW, "else", "do not match"),
        (PASSWORD, "12345678", "12345678", "too common"),
    ):
        typed = {"old_password": old, "new_password1": new, "new_password2": again}
        page = browser.post("/account/password", typed)
        text = page.content.decode()
        assert page.status_code == 422 and said in text
        assert text.count("aria-invalid") == 1 and 'class="fault"' in text
        assert f'value="{old}"' not in text
    typed = {"old_password": PASSWORD, "new_password1": NEW, "new_password2": NEW}
    done = browser.post("/account/password", typed)
    assert done.status_code == 302 and browser.get("/account/").status_code == 200
    assert other.get("/account/").status_code == 302
    assert sign_in(Browser(), password=NEW).status_code == 302


def test_a_key_is_shown_once_and_ended_by_its_person(robin: User) -> None:
    browser = Browser()
    sign_in(browser)
    page = browser.post("/account/keys", {"name": "<b>import</b>"}).content.decode()
    (key,) = re.findall(r"<code>(loam_[\w-]+)</code>", page)
    assert "<b>import" not in page
    assert key not in browser.get("/account/").content.decode()
    assert (
        Browser(headers={"Authorization": f"Bearer {key}"}).get("/api/v1/beds").status_code == 200
    )
    number = ApiKey.objects.get().pk
    rita = User.objects.create_user("rita", password=PASSWORD, office=robin.office, role="adviser")
    other = Browser()
    other.force_login(rita)
    other.post(f"/account/keys/{number}/end")
    assert ApiKey.objects.exists()
    browser.post(f"/account/keys/{number}/end")
    assert (
        Browser(headers={"Authorization": f"Bearer {key}"}).get("/api/v1/beds").status_code == 401
    )
    assert browser.post("/account/keys", {"name": " "}).status_code == 422


def test_an_adviser_sees_the_people_of_the_own_office_alone(robin: User) -> None:
    User.objects.create_user("rita", office=robin.office)
    User.objects.create_user("stranger", office=Office.objects.create(name="South"))
    browser = Browser()
    sign_in(browser)
    page = browser.get("/account/").content.decode()
    assert "rita" in page and "stranger" not in page
    reader = Browser()
    reader.force_login(User.objects.get(username="rita"))
    assert "robin" not in reader.get("/account/").content.decode()


def test_health_tells_what_a_monitor_needs_and_no_more(
    robin: User, monkeypatch: pytest.MonkeyPatch
) -> None:
    from loamshift.web import health

    told = Browser().get("/health")
    assert (told.status_code, told.json()["migrations"]) == (200, "current")
    monkeypatch.setattr(health, "_state", lambda: (False, False))
    told = Browser().get("/health")
    assert told.status_code == 503
    assert told.json() == {
        "well": False,
        "database": "not reachable",
        "migrations": "unknown",
    }


@pytest.mark.parametrize("peer", ["127.0.0.1", "::1"])
@pytest.mark.parametrize("office", [True, False])
def test_a_monitor_on_this_machine_need_not_know_the_name(
    robin: User, settings: Any, peer: str, office: bool
) -> None:
    settings.OFFICE_MODE = office
    settings.ALLOWED_HOSTS = ["soil.example"]
    for host in ("", "elsewhere.test", "127.0.0.1:8461"):
        around = {"REMOTE_ADDR": peer, "HTTP_HOST": host, "SERVER_NAME": "waitress.invalid"}
        told = Browser().get("/health", **around)
        assert (told.status_code, told.json()["well"]) == (200, True)
        assert Browser().get("/account/sign-in", **around).status_code == 400
    far = {"REMOTE_ADDR": "192.0.2.7", "HTTP_HOST": "elsewhere.test"}
    assert Browser().get("/health", **far).status_code == (400 if office else 403)


@pytest.mark.parametrize("error", [OperationalError, InterfaceError])
def test_a_lost_database_is_a_plain_page_that_says_so(
    robin: User, monkeypatch: pytest.MonkeyPatch, error: type[Exception]
) -> None:
    browser = Browser(raise_request_exception=False)
    sign_in(browser)

    def lost(*_: object, **__: object) -> None:
        raise error("server closed the connection of robin at 192.0.2.7")

    monkeypatch.setattr(CursorWrapper, "execute", lost)
    for address in ("/", "/beds/", "/account/"):
        page = browser.get(address)
        assert (page.status_code, page.headers["Retry-After"]) == (503, "10")
        assert "The database does not answer" in page.content.decode()
        assert "192.0.2.7" not in page.content.decode()
    called = browser.get("/api/v1/beds")
    assert (called.status_code, called.headers["Retry-After"]) == (503, "10")
    assert "does not answer" in called.json()["detail"]
    assert browser.get("/health").status_code == 503


def test_migrations_that_wait_make_it_unwell(robin: User) -> None:
    from django.db.migrations.recorder import MigrationRecorder

    MigrationRecorder.Migration.objects.filter(app="store").delete()
    assert Browser().get("/health").json()["migrations"] == "not current"


@pytest.fixture
def log() -> Any:
    stream = io.StringIO()
    handler = logging.StreamHandler(stream)
    handler.setFormatter(JsonLines())
    loggers = [logging.getLogger(name) for name in ("loamshift.requests", "django.request")]
    before = [one.level for one in loggers]
    for one in loggers:
        one.addHandler(handler)
        one.setLevel(logging.INFO)
    yield lambda: [json.loads(line) for line in stream.getvalue().splitlines()]
    for one, level in zip(loggers, before, strict=True):
        one.removeHandler(handler)
        one.setLevel(level)


def test_a_request_is_one_line_without_anything_personal(robin: User, log: Any) -> None:
    browser = Browser()
    sign_in(browser, next="/shelf/")
    answer = browser.get("/shelf/?search=Zinnia")
    browser.get("/clients/0b51a4d5-6a5a-4a2b-8bd1-0d1d3f1f0f0f/zinnia")
    lines = [line for line in log() if line["what"] == "loamshift.requests"]
    assert [line["status"] for line in lines] == [302, 200, 404]
    assert [line["route"] for line in lines] == ["/account/sign-in", "/shelf/", "none"]
    assert lines[1]["user"] == robin.pk and lines[1]["ms"] > 0
    assert lines[1]["request"] == answer.headers["X-Request-Id"]
    for word in ("robin", "Zinnia", "zinnia", "127.0.0.1", PASSWORD, "0b51a4d5"):
        assert word not in json.dumps(log())


def test_a_failure_is_logged_by_its_place_and_told_with_its_number(
    robin: User, log: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fails(*_: object, **__: object) -> None:
        raise RuntimeError("Zinnia of robin")

    monkeypatch.setattr("loamshift.web.account.views.account._page", fails)
    monkeypatch.setattr("loamshift.web.api.clients.page_of", fails)
    browser = Browser(raise_request_exception=False)
    sign_in(browser)
    page = browser.get("/account/")
    assert page.status_code == 500
    assert "our fault" in page.content.decode()
    assert page.headers["X-Request-Id"] in page.content.decode()
    called = browser.get("/api/v1/clients")
    assert (called.status_code, called.json()["faults"]) == (500, [])
    faults = [line for line in log() if "error" in line]
    assert faults[0]["request"] == page.headers["X-Request-Id"]
    assert faults[0]["error"] == "RuntimeError" and "test_account.py" in faults[0]["at"][-1]
    assert "Zinnia" not in json.dumps(log())


OFFICE = {
    "LOAMSHIFT_OFFICE": "1",
    "LOAMSHIFT_HOSTS": "soil.example",
    "LOAMSHIFT_PROXY": "1",
    "LOAMSHIFT_SECRET": "0123456789abcdefghijABCDEFGHIJ+-_0123456789abcdefghijABCDEFGHIJ",
    "DJANGO_SETTINGS_MODULE": "loamshift.web.settings",
}
SHOW = """
import json
from django.conf import settings as s
names = [n for n in dir(s) if n.startswith(("SESSION_", "CSRF_", "SECURE_", "ALLOWED", "USE_X"))]
print(json.dumps({n: getattr(s, n) for n in names}, default=str))
"""


def told_by(tmp_path: Path, *arguments: str, **more: str) -> subprocess.CompletedProcess[str]:
    around = {**os.environ, "LOAMSHIFT_DATA": str(tmp_path), **OFFICE, **more}
    around.pop("DJANGO_ALLOW_ASYNC_UNSAFE", None)  # set for browser tests of the same run
    return subprocess.run(
        [sys.executable, *arguments], env=around, capture_output=True, text=True, check=False
    )


@pytest.mark.drawn
def test_the_deployment_check_is_clean(tmp_path: Path) -> None:
    ran = told_by(tmp_path, "-m", "django", "check", "--deploy", "--fail-level", "DEBUG")
    assert ran.returncode == 0, ran.stderr
    assert "no issues (1 silenced)" in ran.stdout  # HSTS, which is off unless it is asked for
    day = told_by(
        tmp_path, "-m", "django", "check", "--deploy", "--fail-level", "DEBUG", LOAMSHIFT_HSTS="1"
    )
    assert day.returncode == 0 and "no issues (2 silenced)" in day.stdout


@pytest.mark.drawn
@pytest.mark.parametrize(("days", "seconds"), [("", 0), ("30", 30 * 86_400)])
def test_https_alone_is_promised_only_when_asked_for(
    tmp_path: Path, days: str, seconds: int
) -> None:
    told = json.loads(told_by(tmp_path, "-c", SHOW, LOAMSHIFT_HSTS=days).stdout)
    assert told["SECURE_HSTS_SECONDS"] == seconds
    assert told["SECURE_HSTS_PRELOAD"] is False and told["SECURE_HSTS_INCLUDE_SUBDOMAINS"] is False


@pytest.mark.drawn
def test_days_that_are_none_are_told(tmp_path: Path) -> None:
    ran = told_by(tmp_path, "-c", SHOW, LOAMSHIFT_HSTS="a year")
    assert ran.returncode == 1 and "setup-hsts-days" in ran.stderr


@pytest.mark.drawn
def test_cookies_of_an_office_are_sealed(tmp_path: Path) -> None:
    told = json.loads(told_by(tmp_path, "-c", SHOW).stdout)
    for kind in ("SESSION", "CSRF"):
        assert told[f"{kind}_COOKIE_SECURE"] is True
        assert told[f"{kind}_COOKIE_HTTPONLY"] is True
        assert told[f"{kind}_COOKIE_SAMESITE"] == "Lax"
        assert told[f"{kind}_COOKIE_NAME"].startswith("__Host-")
        assert told[f"{kind}_COOKIE_PATH"] == "/" and told[f"{kind}_COOKIE_DOMAIN"] is None
    assert told["ALLOWED_HOSTS"] == ["soil.example"]
    assert told["USE_X_FORWARDED_HOST"] is False


@pytest.mark.drawn
def test_one_adviser_is_reached_by_loopback_names_whatever_the_surroundings_say(
    tmp_path: Path,
) -> None:
    told = json.loads(told_by(tmp_path, "-c", SHOW, LOAMSHIFT_OFFICE="").stdout)
    assert told["ALLOWED_HOSTS"] == ["127.0.0.1", "localhost", "[::1]"]
    assert told["SECURE_PROXY_SSL_HEADER"] is None
