from __future__ import annotations

import json
import os
import re
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

PASSWORD = "long meadow 7 walks"
MANY = """
import contextlib, io, json, sys
from loamshift.cli.run import run
for line in sys.stdin.buffer:
    words, said = json.loads(line)
    told, sys.stdin = io.StringIO(), io.StringIO(said)
    with contextlib.redirect_stdout(told), contextlib.redirect_stderr(told):
        code = run(words)
    print(json.dumps([code, told.getvalue()]), flush=True)
"""
Users = Callable[..., tuple[int, str]]


def loamshift(data: Path, *arguments: str, said: str = "") -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "loamshift", *arguments, "--data", str(data)],
        input=said,
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
    )


@pytest.fixture(scope="module")
def data(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("office")
    words = ("office-user", "add", "robin", "--office", "North", "--role", "adviser")
    added = loamshift(folder, *words, said=f"{PASSWORD}\n")
    assert (added.returncode, added.stdout) == (0, "robin can sign in to “North” as adviser.\n")
    return folder


@pytest.fixture(scope="module")
def users(data: Path) -> Iterator[Users]:
    """``loamshift office-user``, many times in one process: Django takes long to load."""
    with subprocess.Popen(
        [sys.executable, "-c", MANY],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
        encoding="utf-8",
    ) as process:
        assert process.stdin is not None and process.stdout is not None

        def ask(*arguments: str, said: str = "") -> tuple[int, str]:
            words = ["office-user", *arguments, "--data", str(data)]
            process.stdin.write(f"{json.dumps([words, said])}\n")
            process.stdin.flush()
            code, told = json.loads(process.stdout.readline())
            return code, told

        yield ask


def test_people_are_added_and_listed(users: Users) -> None:
    added = users("add", "rita", said=f"{PASSWORD}\n")
    assert added == (0, "rita can sign in to “North” as reader.\n")
    assert "disabled" not in users("list")[1]
    assert users("disable", "rita") == (0, "rita can no longer sign in.\n")
    listed = users("list")[1]
    assert "rita: reader of “North”, never signed in, disabled" in listed
    assert PASSWORD not in listed
    users("enable", "rita")
    assert users("set-role", "rita", "adviser")[0] == 0
    assert "rita: adviser of “North”, never signed in\n" in users("list")[1]


@pytest.mark.parametrize(
    ("name", "more", "password", "said"),
    [
        ("robin", (), PASSWORD, "already exists"),
        ("a b", (), PASSWORD, "cannot be added"),
        ("sam", ("--office", "Nroth"), PASSWORD, "is not one of “North”"),
        ("sam", ("--office", "North", "--new-office"), PASSWORD, "already"),
        ("sam", (), "12345678", "too common"),
        ("sam", (), "", "too short"),
    ],
)
def test_what_cannot_be_added_is_told(
    users: Users, name: str, more: tuple[str, ...], password: str, said: str
) -> None:
    code, told = users("add", name, *more, said=f"{password}\n")
    assert (code, said in told) == (1, True), told


def test_nobody_by_that_name(users: Users) -> None:
    code, told = users("set-password", "nobody")
    assert (code, "no user “nobody”" in told) == (1, True)


@pytest.mark.parametrize(
    ("options", "said"),
    [
        (["--hosts", "soil.example"], "--behind-proxy"),
        (["--hosts", "localhost", "--host", "0.0.0.0"], "--behind-proxy"),
        (["--hosts", "https://soil.example", "--behind-proxy"], "not a host name"),
        (["--hosts", "*", "--behind-proxy"], "not a host name"),
        (["--hosts", "soil.example:8000", "--behind-proxy"], "not a host name"),
        (["--hosts", ",", "--behind-proxy"], "names no host"),
    ],
)
def test_it_refuses_to_serve_what_would_be_unsafe(command, options: list[str], said: str) -> None:
    ran = command("office", *options)
    assert (ran.code, said in ran.err) == (1, True), ran.err


def test_it_refuses_a_database_of_another_kind(tmp_path: Path) -> None:
    ran = loamshift(tmp_path, "office", "--hosts", "localhost", "--database", "mysql://a/b")
    assert (ran.returncode, "PostgreSQL" in ran.stderr) == (1, True), ran.stderr


def test_the_workbench_of_one_adviser_has_no_way_to_listen_elsewhere(command) -> None:
    ran = command("open", "--host", "0.0.0.0")
    assert ran.code == 2 and "--host" in ran.err


@pytest.fixture(scope="module")
def served(data: Path) -> Iterator[int]:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    options = ["--hosts", "localhost", "--port", str(port), "--data", str(data)]
    with (data / "log.txt").open("w") as log:
        process = subprocess.Popen(
            [sys.executable, "-m", "loamshift", "office", *options],
            stderr=log,
            env={**os.environ, "PYTHONUNBUFFERED": "1"},
        )
        try:
            for _ in range(300):
                if "is listening on" in (data / "log.txt").read_text():
                    break
                time.sleep(0.2)
            yield port
        finally:
            process.terminate()
            process.wait(30)


def got(port: int, path: str, **headers: str) -> tuple[int, str]:
    named = {name.replace("_", "-"): value for name, value in headers.items()}
    request = urllib.request.Request(f"http://localhost:{port}{path}", headers=named)
    try:
        with urllib.request.urlopen(request, timeout=60) as answer:
            return answer.status, answer.read().decode()
    except urllib.error.HTTPError as error:
        return error.code, error.read().decode()


def test_it_serves_whom_it_knows(served: int, data: Path) -> None:
    assert json.loads(got(served, "/health")[1])["well"] is True
    assert "Sign in" in got(served, "/beds/")[1]
    assert got(served, "/api/v1/beds")[0] == 401
    assert got(served, "/beds/", Host="elsewhere.test")[0] == 400
    key = loamshift(data, "office-user", "key", "robin", "--for", "import").stdout.strip()
    assert re.fullmatch(r"loam_[\w-]{43}", key)
    assert got(served, "/api/v1/beds", Authorization=f"Bearer {key}")[0] == 200
    lines = [
        json.loads(line)
        for line in (data / "log.txt").read_text().splitlines()
        if line.startswith("{")
    ]
    assert {line["route"] for line in lines} >= {"/api/v1/beds"}
    assert {line["status"] for line in lines} >= {200, 302, 400, 401}
    assert key not in (data / "log.txt").read_text()
