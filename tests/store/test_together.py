"""Two people at once, on a real database with two connections."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

START = """
import json, sys, threading
from pathlib import Path
from loamshift.web.serve import set_up
folder = set_up(folder=Path(sys.argv[1]))
from django.db import connection
from loamshift.errors import InputError
from loamshift.store.changes import Overtaken, Writer, take_back
from loamshift.store.models import Bed, Client, Garden, Office
from loamshift.web.prepare import prepare
prepare(folder, samples=False)
office = Office.objects.create()
client = Client(name="A client")
Writer(office, what="Added").add(client)

def garden_with_bed():
    garden = Garden(client=client, name="A garden")
    Writer(office, what="Added").add(garden)
    bed = Bed(garden=garden, name="A bed", case_text="case = 1\\n")
    Writer(office, what="Added").add(bed)
    return garden, bed

def together(*acts):
    ends, gate = [], threading.Barrier(len(acts))
    def one(act):
        gate.wait()
        try:
            act()
            ends.append("done")
        except InputError as fault:
            ends.append(type(fault).__name__)
        except Exception as fault:
            ends.append(repr(fault))
        finally:
            connection.close()
    threads = [threading.Thread(target=one, args=(act,)) for act in acts]
    [thread.start() for thread in threads]
    [thread.join() for thread in threads]
    return sorted(ends)

def renamed(bed, name):
    mine = Bed.objects.get(pk=bed.pk)
    mine.name = name
    return lambda: Writer(office, what=name).change(mine, seen_version=1)
"""


def told(url: str, folder: Path, text: str) -> Any:
    done = subprocess.run(
        [sys.executable, "-c", START + text, str(folder)],
        env={**os.environ, "LOAMSHIFT_DATABASE": url},
        capture_output=True,
        text=True,
        check=False,
        timeout=120,
    )
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)


def test_of_two_people_on_one_bed_one_is_told_each_time(tmp_path: Path, url: str) -> None:
    ends = told(
        url,
        tmp_path,
        """
ends = []
for _ in range(15):
    _, bed = garden_with_bed()
    ends.append(together(renamed(bed, "One"), renamed(bed, "Two"), renamed(bed, "Three")))
    assert Bed.objects.get(pk=bed.pk).version == 2
print(json.dumps(ends))
""",
    )
    assert ends == [["Overtaken", "Overtaken", "done"]] * 15


def test_no_bed_is_left_in_a_garden_that_somebody_deletes(tmp_path: Path, url: str) -> None:
    ends, left = told(
        url,
        tmp_path,
        """
ends = []
for number in range(15):
    garden, bed = garden_with_bed()
    other, _ = garden_with_bed()
    stray = Bed(garden=garden, name="Stray", case_text="case = 1\\n")
    moved = Bed.objects.get(garden=other)
    moved.garden = garden
    ends.append(together(
        lambda: Writer(office, what="Deleted").put_away(garden),
        lambda: Writer(office, what="Added").add(stray),
        lambda: Writer(office, what="Moved").change(moved, seen_version=1),
        renamed(bed, "One"),
    ))
live = Bed.objects.filter(deleted_at=None, garden__deleted_at__isnull=False)
print(json.dumps([ends, live.count()]))
""",
    )
    assert left == 0
    assert all(end in ("done", "WordedError", "Overtaken") for group in ends for end in group), ends
    assert all("done" in group for group in ends)


def test_taking_back_and_deleting_at_once_end_in_one_order_or_the_other(
    tmp_path: Path, url: str
) -> None:
    ends, left = told(
        url,
        tmp_path,
        """
ends = []
for number in range(15):
    garden, bed = garden_with_bed()
    writer = Writer(office, what="Deleted bed")
    writer.put_away(bed)
    ends.append(together(
        lambda: take_back(office, writer.act),
        lambda: take_back(office, writer.act),
        lambda: Writer(office, what="Deleted garden").put_away(garden),
    ))
live = Bed.objects.filter(deleted_at=None, garden__deleted_at__isnull=False)
print(json.dumps([ends, live.count()]))
""",
    )
    assert left == 0
    assert all(end in ("done", "WordedError") for group in ends for end in group), ends
    assert all(group.count("WordedError") >= 1 for group in ends)
