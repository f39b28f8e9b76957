"""A writer that is killed again and again: run as a script by ``test_kill``.

``python killed.py FOLDER TIMES SEED`` forks a writer, reads what it acknowledges, kills it with
SIGKILL at a random moment, and looks whether anything acknowledged is missing; it prints one
line of JSON.
"""

from __future__ import annotations

import json
import os
import random
import signal
import sqlite3
import sys
import time
from contextlib import closing
from pathlib import Path

from loamshift.web.serve import set_up

LONGEST_S = 0.06


def main(folder: Path, times: int, seed: int) -> None:
    set_up(folder=folder)
    from django.db import connection

    from loamshift.store.models import Bed, Change
    from loamshift.web.prepare import prepare

    prepare(folder, samples=True)
    chance = random.Random(seed)
    acknowledged: dict[str, int] = {}
    broken: list[str] = []
    acks = during = 0
    for _ in range(times):
        connection.close()
        lines, partial = killed_after(chance.uniform(0, LONGEST_S))
        during += partial
        for line in lines:
            key, version = line.split()
            acknowledged[key] = int(version)
            acks += 1
        kept = {str(key): version for key, version in Bed.objects.values_list("pk", "version")}
        for key, version in acknowledged.items():
            if kept.get(key, 0) < version:
                broken.append(f"{key} acknowledged as {version}, kept as {kept.get(key)}")
        noted: dict[str, int] = {}
        for thing in Change.objects.filter(kind="bed").values_list("thing", flat=True):
            noted[str(thing)] = noted.get(str(thing), 0) + 1
        if noted != kept:
            broken.append("a bed and the list of its changes disagree")
        if connection.vendor == "sqlite":
            with closing(sqlite3.connect(str(connection.settings_dict["NAME"]))) as database:
                whole = database.execute("pragma integrity_check").fetchall()
            if whole != [("ok",)]:
                broken.append(str(whole[:3]))
    told = {
        "kills": times,
        "acknowledged": acks,
        "beds": len(acknowledged),
        "killed_inside_an_act": during,
        "broken": broken[:5],
    }
    sys.stdout.write(json.dumps(told) + "\n")


def killed_after(seconds: float) -> tuple[list[str], bool]:
    """What a writer acknowledged before it was killed, and whether it was busy when it died."""
    read, write = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(read)
        try:
            write_for_ever(write)
        finally:
            os._exit(1)
    os.close(write)
    early = b""
    while early.count(b"\n") < 2:  # begun, and the first acknowledgement: it is at work now
        data = os.read(read, 4096)
        assert data, "the writer ended by itself"
        early += data
    time.sleep(seconds)
    os.kill(child, signal.SIGKILL)
    _, status = os.waitpid(child, 0)
    with os.fdopen(read, "rb") as pipe:
        said = (early + pipe.read()).decode()
    assert os.WIFSIGNALED(status), "the writer ended by itself"
    lines = [line for line in said.splitlines() if line]
    return [line for line in lines if line != "begun"], lines[-1] == "begun"


def write_for_ever(pipe: int) -> None:
    """Add and change beds; acknowledge each only when the store has taken it."""
    from loamshift.store.changes import Writer
    from loamshift.store.models import Bed, Garden

    garden = Garden.objects.get()
    while True:
        bed = Bed(garden=garden, name="New", case_text="case = 1\n" + "# filler\n" * 300)
        os.write(pipe, b"begun\n")
        Writer(garden.office, what="Added New").add(bed)
        os.write(pipe, f"{bed.pk} {bed.version}\n".encode())
        for number in range(3):
            bed.case_text += f"# {number}\n"
            os.write(pipe, b"begun\n")
            Writer(garden.office, what="Changed New").change(bed, seen_version=bed.version)
            os.write(pipe, f"{bed.pk} {bed.version}\n".encode())


if __name__ == "__main__":
    main(Path(sys.argv[1]), int(sys.argv[2]), int(sys.argv[3]))
