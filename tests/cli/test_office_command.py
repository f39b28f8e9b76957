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
from collections.abc import Iterator
from pathlib import Path

import pytest

PASSWORD = "long meadow 7 walks"


def loamshift(data: Path, *arguments: str, said: str = "") -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "loamshift.cli", *arguments, "--data", str(data)],
        input=said,
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
    )


def add(data: Path, name: str, *more: str, said: str = PASSWORD) -> tuple[int, str]:
    ran = loamshift(data, "office-user", "add", name, *more, said=said + "\n")
    return ran.returncode, ran.stdout + ran.stderr


@pytest.fixture(scope="module")
def data(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("office")
    assert add(folder, "robin", "--office", "North", "--role", "adviser") == (
        0,
        "robin can sign in to “North” as adviser.\n",
    )
    return folder


def test_people_are_added_and_listed(data: Path) -> None:
    assert add(data, "rita")[1] == "rita can sign in to “North” as reader.\n"
    assert "disabled" not in loamshift(data, "office-user", "list").stdout
    disabled = loamshift(data, "office-user", "disable", "rita").stdout
    assert disabled == "rita can no longer sign in.\n"
    listed = loamshift(data, "office-user", "list").stdout
    assert "rita: reader of “North”, never signed in, disabled" in listed
    assert PASSWORD not in listed
    loamshift(data, "office-user", "enable", "rita")
    assert loamshift(data, "office-user", "set-role", "rita", "adviser").returncode == 0
    assert (
        "rita: adviser of “North”, never signed in\n"
        in loamshift(data, "office-user", "list").stdout
    )


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
    data: Path, name: str, more: tuple[str, ...], password: str, said: str
) -> None:
    code, told = add(data, name, *more, said=password)
    assert (code, said in told) == (1, True), told


def test_nobody_by_that_name(data: Path) -> None:
    ran = loamshift(data, "office-user", "set-password", "nobody")
    assert (ran.returncode, "no user “nobody”" in ran.stderr) == (1, True)


@pytest.mark.parametrize(
    ("options", "said"),
    [
        (["--hosts", "soil.example"], "--behind-proxy"),
        (["--hosts", "localhost", "--host", "0.0.0.0"], "--behind-proxy"),
        (["--hosts", "https://soil.example", "--behind-proxy"], "not a host name"),
        (["--hosts", "*", "--behind-proxy"], "not a host name"),
        (["--hosts", "soil.example:8000", "--behind-proxy"], "not a host name"),
        (["--hosts", ",", "--behind-proxy"], "names no host"),
        (["--hosts", "localhost", "--database", "mysql://a/b"], "PostgreSQL"),
    ],
)
def test_it_refuses_to_serve_what_would_be_unsafe(
    tmp_path: Path, options: list[str], said: str
) -> None:
    ran = loamshift(tmp_path, "office", *options)
    assert (ran.returncode, said in ran.stderr) == (1, True), ran.stderr


def test_the_workbench_of_one_adviser_has_no_way_to_listen_elsewhere(tmp_path: Path) -> None:
    ran = loamshift(tmp_path, "open", "--host", "0.0.0.0")
    assert ran.returncode == 2 and "--host" in ran.stderr


@pytest.fixture(scope="module")
def served(data: Path) -> Iterator[int]:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    options = ["--hosts", "localhost", "--port", str(port), "--data", str(data)]
    with (data / "log.txt").open("w") as log:
        process = subprocess.Popen(
            [sys.executable, "-m", "loamshift.cli", "office", *options],
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
