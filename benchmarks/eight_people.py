"""Eight people change facts of their beds at once: how long each waits, first and in full.

``python benchmarks/eight_people.py [SECONDS]`` opens a workbench on a folder of its own and, once
a first page has loaded everything, lets eight people work: each changes a fact, waits for the
whole answer, reads for two seconds, and changes the next. It prints the waits; nothing fails for
being slow.
"""

from __future__ import annotations

import http.client
import itertools
import os
import platform
import random
import re
import statistics
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from html import unescape
from typing import Final
from urllib.parse import urlencode

PEOPLE: Final = 8
WORKED_S: Final = 40.0
READS_S: Final = 2.0
LONGEST_S: Final = 120.0
OPENED: Final = re.compile(r"open at http://([\d.]+):(\d+)/")
COMING: Final = re.compile(r'hx-get="([^"]+)" hx-trigger="load(?: delay:(\d+)s)?"')
WARM: Final = {"soil.ph": "6.5", "soil.texture": "loam", "aim.plant": "camellia"}
PIECES: Final = {"HX-Request": "true", "Accept-Encoding": "identity"}
PLANTS: Final = (
    "highbush blueberry",
    "camellia",
    "cabbage",
    "potato",
    "lawn",
    "hydrangea (blue flowers)",
)
TEXTURES: Final = ("sand", "sandy loam", "loam", "clay loam")


@dataclass
class Waits:
    """Waits of everybody [s], and what went wrong."""

    first_s: list[float] = field(default_factory=list)
    whole_s: list[float] = field(default_factory=list)
    wrong: list[str] = field(default_factory=list)


@contextmanager
def opened_workbench() -> Iterator[tuple[str, int]]:
    """Host and port of a workbench opened as typed."""
    command = [sys.executable, "-m", "loamshift", "open", "--no-browser", "--port", "0"]
    with (
        tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as folder,
        subprocess.Popen(
            [*command, "--data", folder],
            stdin=subprocess.DEVNULL,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.PIPE,
            text=True,
            encoding="utf-8",
            env={**os.environ, "NO_COLOR": "1"},
        ) as process,
    ):
        assert process.stderr is not None
        try:
            for line in process.stderr:
                if found := OPENED.search(line):
                    yield found[1], int(found[2])
                    return
            raise RuntimeError("the workbench did not open")
        finally:
            process.terminate()


def eight_people(where: tuple[str, int], *, worked_s: float = WORKED_S) -> Waits:
    """Let eight people change facts for so long [s], each a bed that nobody asked about before."""
    waits = Waits()
    until = time.perf_counter() + worked_s
    askers = [
        threading.Thread(target=_work, args=(where, place, until, waits)) for place in range(PEOPLE)
    ]
    for asker in askers:
        asker.start()
    for asker in askers:
        asker.join()
    return waits


def _work(where: tuple[str, int], place: int, until: float, waits: Waits) -> None:
    chance = random.Random(place)
    connection = http.client.HTTPConnection(*where, timeout=LONGEST_S)
    fields = {
        "soil.ph": "6.8",
        "soil.ph_method": "water 1:1",
        "soil.texture": TEXTURES[place % len(TEXTURES)],
        "aim.plant": PLANTS[place % len(PLANTS)],
        "place.name": "Minneapolis",
    }
    for turn in itertools.count():
        if time.perf_counter() > until:
            break
        fields["bed.area"] = f"{10 + place}.{turn + 1} m2"
        fields["soil.ph"] = f"{chance.uniform(5.0, 7.4):.2f}"
        began = time.perf_counter()
        try:
            page = _get(connection, f"/plan?{urlencode(fields)}")
            waits.first_s.append(time.perf_counter() - began)
            while coming := COMING.search(page):
                time.sleep(float(coming[2] or 0.0))
                page = _get(connection, unescape(coming[1]))
            waits.whole_s.append(time.perf_counter() - began)
        except (OSError, http.client.HTTPException, RuntimeError) as fault:
            waits.wrong.append(repr(fault))
            connection.close()
        time.sleep(READS_S * chance.uniform(0.5, 1.5))
    connection.close()


def _get(connection: http.client.HTTPConnection, address: str) -> str:
    connection.request("GET", address, headers=PIECES)
    answer = connection.getresponse()
    body = answer.read().decode()
    if answer.status != 200:
        raise RuntimeError(f"{answer.status} for {address}")
    return body


def _line(name: str, waits_s: list[float]) -> str:
    p95 = statistics.quantiles(waits_s, n=20)[-1]
    return f"{name}: {len(waits_s)}, median {statistics.median(waits_s):.2f} s, p95 {p95:.2f} s"


if __name__ == "__main__":
    with opened_workbench() as found:
        _get(http.client.HTTPConnection(*found, timeout=LONGEST_S), f"/plan?{urlencode(WARM)}")
        told = eight_people(found, worked_s=float(sys.argv[1]) if len(sys.argv) > 1 else WORKED_S)
    load = os.getloadavg()[0] if hasattr(os, "getloadavg") else float("nan")
    print(f"{platform.processor() or platform.machine()}, {os.cpu_count()} cores, load {load:.1f}")
    print(_line("first answer", told.first_s))
    print(_line("whole answer", told.whole_s))
    print(f"gone wrong: {len(told.wrong)} {told.wrong[:3]}")
