"""Backups, migrations and the commands, each in a process of its own with a real database."""

from __future__ import annotations

import json
import os
import sqlite3
import subprocess
import sys
import zipfile
from contextlib import closing
from pathlib import Path
from shutil import copytree
from typing import Any

import pytest

from loamshift.store import migrations

URL = os.environ.get("LOAMSHIFT_DATABASE", "")
SQLITE_ONLY = pytest.mark.skipif(bool(URL), reason="a copy of the file is made of SQLite only")

START = """
import sys, json
from pathlib import Path
from loamshift.web.serve import set_up
folder = set_up(folder=Path(sys.argv[1]))
from django.conf import settings
from django.db import connection
from loamshift.errors import InputError
from loamshift.web.prepare import prepare
def ready(samples=True):
    try:
        return prepare(folder, samples=samples)
    except InputError as fault:
        return str(fault)
"""
KNOWN = sorted(path.stem for path in Path(str(migrations.__file__)).parent.glob("0*.py"))
LATER = f"""
from django.db import migrations, models
class Migration(migrations.Migration):
    dependencies = [("store", "{KNOWN[-1]}")]
    operations = [migrations.AddField("bed", "later", models.IntegerField(default=7))]
"""


def ran(url: str, *words: str, code: int = 0) -> str:
    environment = {**os.environ, "LOAMSHIFT_DATABASE": url}
    done = subprocess.run(
        [sys.executable, *words],
        env=environment,
        capture_output=True,
        text=True,
        check=False,
        timeout=120,
    )
    assert done.returncode == code, done.stderr
    return done.stdout + done.stderr


def loamshift(url: str, *words: str, code: int = 0) -> str:
    return ran(url, "-m", "loamshift", *words, code=code)


def script(url: str, folder: Path, text: str) -> Any:
    return json.loads(ran(url, "-c", START + text, str(folder)))


def names(url: str, folder: Path) -> list[str]:
    """Every bed of a store that is there already, by name."""
    asked = "select name from store_bed"
    if url:
        import psycopg

        with psycopg.connect(url) as server:
            return sorted(name for (name,) in server.execute(asked))
    with closing(sqlite3.connect(folder / "loamshift.sqlite3")) as database:
        return sorted(name for (name,) in database.execute(asked))


@pytest.fixture(scope="module")
def samples(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A new store in a file, with the beds that come with it."""
    folder = tmp_path_factory.mktemp("samples") / "data"
    script("", folder, "print(json.dumps(ready()))")
    return folder


def test_beds_kept_as_text_become_json_and_their_changes_come_back(
    tmp_path: Path, url: str
) -> None:
    """From the store of 0.1.0: a backup first, then no text and no remark is lost."""
    text = '# hers\ncase = 1\nname = "A"\n[soil]\nph = 6.8 # lab\nsampled = 2026-03-01\n'
    told = script(
        url,
        tmp_path / "data",
        f"""
from django.db.migrations.executor import MigrationExecutor
from loamshift.store.models import Bed
from loamshift.store.changes import take_back
executor = MigrationExecutor(connection)
executor.migrate([("store", "0005_forecasts_issued")])
old = executor.loader.project_state([("store", "0005_forecasts_issued")]).apps
office = old.get_model("store", "Office").objects.create()
new, broken = {text!r}, "case = ["
bed = old.get_model("store", "Bed").objects.create(office=office, name="A", case_text=new)
old.get_model("store", "Bed").objects.create(office=office, name="B", case_text=broken)
before = {{"case_text": new.replace("6.8", "7.2"), "ph": 7.2}}
change = old.get_model("store", "Change").objects.create(
    office=office, what="x", kind="bed", thing=bed.pk,
    before=before, after={{"case_text": new, "ph": None}})
said = ready()
first, second = Bed.objects.order_by("name")
kept = [first.case_json, first.case_text == new, second.case_json, second.case_text == broken]
take_back(first.office, change.act)
first.refresh_from_db()
back = [first.case_json["soil"], first.case_text == before["case_text"], first.ph]
print(json.dumps([said, kept, back]))
""",
    )
    said, kept, back = told
    assert said[0].startswith("A backup was made first: ")
    soil = {"ph": 6.8, "sampled": "2026-03-01"}
    assert kept == [{"case": 1, "name": "A", "soil": soil}, True, {}, True]
    assert back == [soil | {"ph": 7.2}, True, 7.2]


def test_a_backup_is_kept_before_a_later_migration_and_an_older_program_says_so(
    tmp_path: Path, url: str
) -> None:
    later = tmp_path / "later"
    later.mkdir()
    (later / "__init__.py").write_text("", encoding="utf-8")
    for name in KNOWN:
        (later / f"{name}.py").write_text(
            "from importlib import import_module\n"
            f"Migration = import_module('loamshift.store.migrations.{name}').Migration\n",
            encoding="utf-8",
        )
    (later / "0099_later.py").write_text(LATER, encoding="utf-8")
    folder = tmp_path / "data"
    told = script(
        url,
        folder,
        f"""
sys.path.insert(0, {str(tmp_path)!r})
first, again = ready(), ready()
settings.MIGRATION_MODULES = {{"store": "later"}}
newer = ready()
del settings.MIGRATION_MODULES
settings.MIGRATION_MODULES = {{}}
older = ready()
with connection.cursor() as cursor:
    cursor.execute("select later from store_bed")
    rows = cursor.fetchall()
print(json.dumps([first, again, newer, older, rows]))
""",
    )
    first, again, newer, older, rows = told
    assert (first, again) == ([], [])
    assert newer[0].startswith("A backup was made first: ")
    assert "setup-later-version" in older
    assert "store.0099_later" in older
    assert rows == [[7], [7]]
    (kept,) = (folder / "backups").iterdir()
    assert "before-migration" in kept.name
    if not url:
        with closing(sqlite3.connect(kept)) as copy:
            assert copy.execute("pragma integrity_check").fetchone() == ("ok",)
            assert copy.execute("select count(*) from store_bed").fetchone() == (2,)
            with pytest.raises(sqlite3.OperationalError):
                copy.execute("select later from store_bed")
    else:
        with zipfile.ZipFile(kept) as tables:
            beds = tables.read("store_bed.csv").decode()
        assert "Berry border" in beds
        assert "later" not in beds.splitlines()[0].split(",")


def test_a_zip_goes_out_of_one_store_and_into_a_new_one(tmp_path: Path, url: str) -> None:
    folder, zipped = tmp_path / "data", tmp_path / "beds.zip"
    script(url, folder, "print(json.dumps(ready()))")
    assert "is backed up to" in loamshift(url, "backup", "--data", str(folder), str(zipped))
    said = loamshift(url, "backup", "--data", str(folder), str(zipped), code=1)
    assert "already exists" in said
    other = tmp_path / "other"
    if not url:
        said = loamshift("", "restore", "--data", str(other), str(zipped))
        assert "4 things were restored" in said
        assert names("", other) == ["Berry border", "Kitchen plot"]
    said = loamshift(url, "restore", "--data", str(folder), str(zipped), code=1)
    assert "Use --replace" in said
    said = loamshift(url, "restore", "--data", str(folder), "--add", str(zipped))
    assert "0 things were added. 4 were there already" in said
    said = loamshift(url, "restore", "--data", str(folder), "--replace", str(zipped))
    assert "What was there before is backed up in" in said
    assert names(url, folder) == ["Berry border", "Kitchen plot"]


@SQLITE_ONLY
def test_a_copy_of_the_database_goes_back_and_what_stood_there_is_kept(
    tmp_path: Path, samples: Path
) -> None:
    folder, copy = tmp_path / "data", tmp_path / "all.sqlite3"
    copytree(samples, folder)
    loamshift("", "backup", "--data", str(folder), str(copy))
    script(
        "",
        folder,
        "from loamshift.store.models import Bed\n"
        "Bed.objects.update(name='Changed')\nprint(json.dumps(0))",
    )
    assert "Use --replace" in loamshift("", "restore", "--data", str(folder), str(copy), code=1)
    assert names("", folder) == ["Changed", "Changed"]
    loamshift("", "restore", "--data", str(folder), str(copy), "--replace")
    assert names("", folder) == ["Berry border", "Kitchen plot"]
    (kept,) = (folder / "backups").iterdir()
    with closing(sqlite3.connect(kept)) as before:
        assert set(before.execute("select name from store_bed")) == {("Changed",)}


@SQLITE_ONLY
def test_no_backup_and_a_later_backup_are_refused(tmp_path: Path, samples: Path) -> None:
    folder, copy = tmp_path / "data", tmp_path / "all.sqlite3"
    copytree(samples, folder)
    loamshift("", "backup", "--data", str(folder), str(copy))
    broken = tmp_path / "broken.sqlite3"
    broken.write_bytes(b"not a database at all" * 100)
    words = ("restore", "--data", str(folder), "--replace")
    assert "is not a backup of loamshift" in loamshift("", *words, str(broken), code=1)
    with closing(sqlite3.connect(copy)) as database:
        database.execute(
            "insert into django_migrations (app, name, applied) values ('store', '0099_x', '2030')"
        )
        database.commit()
    said = loamshift("", *words, str(copy), code=1)
    assert "later version of loamshift (store.0099_x)" in said
    assert names("", folder) == ["Berry border", "Kitchen plot"]
    assert "There is no folder" in loamshift(
        "", "backup", "--data", str(tmp_path / "none"), str(tmp_path / "x.zip"), code=1
    )


def test_a_server_that_does_not_answer_yet_is_waited_for(tmp_path: Path) -> None:
    told = script(
        "postgresql://soil:x@127.0.0.1:1/soil",
        tmp_path / "data",
        """
from loamshift.web import prepare as ready_made
ready_made.BETWEEN_S, ready_made.WAITED_S = 0.01, 0.5
said, tries, real = [], [], connection.ensure_connection
def tried():
    tries.append(1)
    real()
connection.ensure_connection = tried
try:
    ready_made.prepare(folder, samples=False, waits=lambda what: said.append(what.key))
except InputError as fault:
    said.append(str(fault)[:23])
print(json.dumps([said, len(tries)]))
""",
    )
    assert told[0] == ["setup-database-waits", "setup-database-unusable"]
    assert told[1] > 3


@SQLITE_ONLY
def test_a_file_that_is_no_database_is_told(tmp_path: Path) -> None:
    folder = tmp_path / "data"
    folder.mkdir()
    (folder / "loamshift.sqlite3").write_bytes(b"no database" * 1000)
    told = script("", folder, "print(json.dumps(ready()))")
    assert "setup-database-unusable" in told
    assert "backups: " in told


@SQLITE_ONLY
def test_what_is_removed_for_good_is_nowhere_in_the_files(tmp_path: Path) -> None:
    folder = tmp_path / "data"
    script(
        "",
        folder,
        """
ready(samples=False)
from loamshift.store.changes import Writer
from loamshift.store.erase import erase_client
from loamshift.store.models import Bed, Client, Garden, Office
office = Office.objects.create()
client = Client(name="Unmistakable Person")
writer = Writer(office, what="Added Unmistakable Person")
writer.add(client)
garden = Garden(client=client, name="Unmistakable Place")
writer.add(garden)
writer.add(Bed(garden=garden, name="b", case_text="case = 1\\nname = 'Unmistakable Bed'\\n"))
held = [f.name for f in folder.iterdir() if b"Unmistakable" in f.read_bytes()]
gone = erase_client(office, client)
left = [f.name for f in folder.iterdir() if b"Unmistakable" in f.read_bytes()]
assert held and gone == 3 and not left, (held, gone, left)
print(json.dumps(0))
""",
    )


def test_samples_come_once(tmp_path: Path, url: str) -> None:
    folder = tmp_path / "data"
    told = script(
        url,
        folder,
        """
ready()
from loamshift.store.models import Bed, Client
Client.objects.all().delete()
ready()
print(json.dumps(Bed.objects.count()))
""",
    )
    assert told == 0


@pytest.mark.skipif(not URL, reason="SQLite is copied as a file; this is how PostgreSQL is kept")
def test_the_tables_of_a_server_go_back_as_they_were(tmp_path: Path, url: str) -> None:
    folder = tmp_path / "data"
    case_text = 'case = 1\nname = "a, \\"b\\"\\n"\n'
    (kept,) = script(
        url,
        folder,
        f"""
ready()
from loamshift.web.data.backups import back_up
from loamshift.store.models import Bed, Client
Bed.objects.update(plants="", own_text={case_text!r})
kept = back_up(folder, why="by-hand")
Client.objects.all().delete()
print(json.dumps([str(kept)]))
""",
    )
    assert names(url, folder) == []
    words = ("restore", "--data", str(folder))
    assert "Use --replace" in loamshift(url, *words, kept, code=1)
    assert "is restored from" in loamshift(url, *words, kept, "--replace")
    assert names(url, folder) == ["Berry border", "Kitchen plot"]
    found = script(
        url,
        folder,
        """
from loamshift.store.models import Bed, Change, Client, Office
from loamshift.store.changes import Writer
Writer(Office.objects.get(), what="x").add(Client(name="New"))
print(json.dumps([Bed.objects.first().own_text, Change.objects.count()]))
""",
    )
    assert found == [case_text, 5]
    broken = tmp_path / "broken.tables.zip"
    broken.write_bytes(Path(kept).read_bytes()[:-900])
    said = loamshift(url, *words, "--replace", str(broken), code=1)
    assert "Nothing was changed" in said
    cut = tmp_path / "cut.tables.zip"
    with zipfile.ZipFile(kept) as source, zipfile.ZipFile(cut, "w") as target:
        for name in source.namelist():
            rows = source.read(name)
            is_changes = name == "store_change.csv"
            target.writestr(name, rows[: rows.index(b"\n") + 1] if is_changes else rows)
    said = loamshift(url, *words, "--replace", str(cut), code=1)
    assert "it is damaged. Nothing was changed" in said
    other = tmp_path / "other.tables.zip"
    with zipfile.ZipFile(kept) as source, zipfile.ZipFile(other, "w") as target:
        for name in source.namelist():
            target.writestr(name, source.read(name).replace(b"0001_initial", b"0099_later"))
    said = loamshift(url, *words, "--replace", str(other), code=1)
    assert "by another version of loamshift" in said
    assert names(url, folder) == ["Berry border", "Kitchen plot"]
