"""What somebody at the workbench waits for: the plan page drawn, asked for by eight, dragged."""

from __future__ import annotations

import http.client
import os
import re
import statistics
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from itertools import count
from typing import Any, Final
from urllib.parse import urlencode

import pytest
from benchmarks.figures import Figures, best_s
from django.test import Client
from pytest_benchmark.fixture import BenchmarkFixture

from browser.conftest import browser, new_page

__all__ = ["browser", "new_page"]

WALK_IN: Final = {
    "soil.ph": "7.3",
    "soil.ph_method": "water 1:1",
    "soil.texture": "loam",
    "aim.plant": "highbush blueberry",
    "place.name": "Minneapolis",
    "bed.area": "20 m2",
}
PLAN: Final = f"/plan?{urlencode(WALK_IN)}"
CONNECTIONS: Final = 8
LOADED_S: Final = 10.0
OPENED: Final = re.compile(r"open at http://([\d.]+):(\d+)/")
DRAWN_MS, FOLLOWS_MS = 60.0, 100.0
LARGEST_BYTES, MOST_REQUESTS = 60_000, 12
DRAGS: Final = 20


@pytest.fixture(scope="module")
def workbench(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[str, int]]:
    """Host and port of a workbench opened as typed, on a folder of its own."""
    folder = tmp_path_factory.mktemp("workbench")
    command = [sys.executable, "-m", "loamshift", "open", "--no-browser", "--port", "0"]
    with subprocess.Popen(
        [*command, "--data", str(folder)],
        stdin=subprocess.DEVNULL,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.PIPE,
        text=True,
        encoding="utf-8",
        cwd=folder,
        env={**os.environ, "NO_COLOR": "1"},
    ) as process:
        assert process.stderr is not None
        try:
            for line in process.stderr:
                found = OPENED.search(line)
                if found:
                    yield found[1], int(found[2])
                    break
            else:
                pytest.fail("the workbench did not open")
        finally:
            process.terminate()


def asked_by_many(where: tuple[str, int], address: str) -> tuple[list[float], list[str], float]:
    """Waits of eight who ask again and again [s], what went wrong, and the time it took [s]."""
    waits: list[float] = []
    wrong: list[str] = []
    until = time.perf_counter() + LOADED_S

    def ask() -> None:
        connection = http.client.HTTPConnection(*where, timeout=30.0)
        while time.perf_counter() < until:
            began = time.perf_counter()
            try:
                connection.request("GET", address, headers={"Accept-Encoding": "gzip"})
                answer = connection.getresponse()
                body = answer.read()
            except (OSError, http.client.HTTPException) as fault:
                wrong.append(repr(fault))
                connection.close()
                continue
            waits.append(time.perf_counter() - began)
            if answer.status != 200 or not body:
                wrong.append(f"{answer.status}, {len(body)} bytes")
        connection.close()

    askers = [threading.Thread(target=ask) for _ in range(CONNECTIONS)]
    began = time.perf_counter()
    for asker in askers:
        asker.start()
    for asker in askers:
        asker.join()
    return waits, wrong, time.perf_counter() - began


def test_eight_ask_for_the_plan_page(
    benchmark: BenchmarkFixture, figures: Figures, workbench: tuple[str, int]
) -> None:
    """Eight connections on loopback for ten seconds, and nothing goes wrong."""
    connection = http.client.HTTPConnection(*workbench, timeout=120.0)
    connection.request("GET", PLAN)
    assert b"Highbush blueberry" in connection.getresponse().read()
    connection.close()
    told: list[tuple[list[float], list[str], float]] = []
    best_s(benchmark, lambda: told.append(asked_by_many(workbench, PLAN)), rounds=1, warm=False)
    waits, wrong, took_s = told[0]
    assert not wrong, wrong[:5]
    p95_s = statistics.quantiles(waits, n=20)[-1]
    figures.add(benchmark, f"plan page, {CONNECTIONS} connections", len(waits) / took_s, "1/s")
    figures.add(benchmark, "the same: 19 in 20 wait at most", 1e3 * p95_s, "ms")
    figures.add(benchmark, "the same: gone wrong", len(wrong), "", budget=0.5)


@pytest.mark.django_db
def test_the_plan_page_is_drawn(benchmark: BenchmarkFixture, figures: Figures) -> None:
    """In this process: an answer that is known already, and one that is worked out first."""
    client = Client()

    def draw(**more: str) -> None:
        answer = client.get("/plan", {**WALK_IN, **more}, REMOTE_ADDR="127.0.0.1")
        assert answer.status_code == 200
        assert b"What brings the acid" in answer.content

    known_s = best_s(benchmark, draw, rounds=15)
    figures.add(benchmark, "plan page drawn, answer known", 1e3 * known_s, "ms", budget=DRAWN_MS)


@pytest.mark.django_db
def test_a_new_answer_is_worked_out(benchmark: BenchmarkFixture, figures: Figures) -> None:
    """In this process, a case that nobody asked before: 400 runs over three years and the page."""
    client = Client()
    depths = count(150)

    def draw() -> None:
        said = {**WALK_IN, "soil.ph": f"7.{next(depths)}"}
        answer = client.get("/plan", said, REMOTE_ADDR="127.0.0.1")
        assert answer.status_code == 200

    new_s = best_s(benchmark, draw, rounds=7)
    figures.add(
        benchmark, "plan page drawn, answer worked out with its forecast", 1e3 * new_s, "ms"
    )


def test_the_page_in_a_browser(
    benchmark: BenchmarkFixture, figures: Figures, workbench: tuple[str, int], new_page: Any
) -> None:
    """Bytes, requests, and how soon the course follows a finger."""
    page = new_page()
    page.set_default_timeout(60_000)
    asked: list[str] = []
    page.on("request", lambda one: asked.append(one.url))
    page.goto(f"http://{workbench[0]}:{workbench[1]}{PLAN}")
    page.wait_for_selector("#sliders:not([hidden])")
    page.wait_for_load_state("networkidle")
    entry = "performance.getEntriesByType('navigation')[0]"
    sent, whole = (page.evaluate(f"{entry}.{kind}BodySize") for kind in ("encoded", "decoded"))
    scripts = page.evaluate(
        "performance.getEntriesByType('resource').filter((one) => !one.name.includes('charts-'))"
        ".reduce((sum, one) => sum + one.encodedBodySize, 0)"
    )
    box = page.locator("#slide-first").bounding_box()
    middle = box["y"] + box["height"] / 2

    def drag() -> None:
        page.mouse.move(box["x"] + box["width"] * 0.45, middle)
        page.mouse.down()
        for move in range(DRAGS):
            page.mouse.move(box["x"] + box["width"] * (0.43 - 0.02 * move), middle)
            page.wait_for_timeout(40)
        page.mouse.up()

    best_s(benchmark, drag, rounds=1, warm=False)
    took = page.evaluate("performance.getEntriesByName('follow').map((one) => one.duration)")
    assert len(took) >= DRAGS // 2
    figures.add(benchmark, "plan page, as sent", sent, "bytes", budget=LARGEST_BYTES)
    figures.add(benchmark, "plan page, unpacked", whole, "bytes", budget=LARGEST_BYTES)
    figures.add(benchmark, "styles, scripts and type beside it, without charts", scripts, "bytes")
    figures.add(benchmark, "requests of the plan page", len(asked), "", budget=MOST_REQUESTS)
    follows_ms = statistics.median(took)
    name = f"course follows a finger, median of {len(took)}"
    figures.add(benchmark, name, follows_ms, "ms", budget=FOLLOWS_MS)
    figures.add(benchmark, "course follows a finger, slowest", max(took), "ms")
