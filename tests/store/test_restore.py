from __future__ import annotations

import io
import re
import shutil
import subprocess
import zipfile
from collections.abc import Callable
from pathlib import Path

import pytest

from loamshift.report.messages.refusal import refusal
from loamshift.report.words import Words
from loamshift.store.archive import ArchiveFault, Limits
from loamshift.store.changes import Writer
from loamshift.store.digests import DIGESTS, digest_of, digests_text, read_digests
from loamshift.store.export import client_zip, store_zip
from loamshift.store.models import Garden, Office
from loamshift.store.put_in import add_missing, replace_all
from loamshift.store.restore import read_zip
from store.stores import NOW, everything, small

pytestmark = pytest.mark.django_db

Files = dict[str, bytes]


@pytest.fixture
def office() -> Office:
    return Office.objects.create(name="Ours")


@pytest.fixture
def files(office: Office) -> Files:
    small(office)
    return unpacked(store_zip(office, now=NOW))


def unpacked(data: bytes) -> Files:
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        return {name: archive.read(name) for name in archive.namelist()}


def packed(files: Files, method: int = zipfile.ZIP_DEFLATED) -> bytes:
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w", method) as archive:
        for name, data in files.items():
            archive.writestr(name, data)
    return file.getvalue()


def refused(data: bytes, *, limits: Limits | None = None) -> str:
    with pytest.raises(ArchiveFault) as caught:
        read_zip(data, limits=limits)
    said = refusal(caught.value, Words())
    assert said.startswith("Nothing was restored")
    return said


def first(files: Files, start: str) -> str:
    return next(name for name in files if name.startswith(start))


def replaced(name: str, pattern: bytes, by: bytes) -> Callable[[Files], None]:
    def change(files: Files) -> None:
        found = first(files, name)
        files[found], count = re.subn(pattern, by, files[found], count=1)
        assert count == 1

    return change


def without(name: str) -> Callable[[Files], None]:
    return lambda files: files.pop(first(files, name)) and None


def with_file(name: str, data: bytes) -> Callable[[Files], None]:
    return lambda files: files.update({name: data})


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (replaced("loamshift.toml", b"format = 1", b"format = 9"), "later version of loamshift"),
        (replaced("loamshift.toml", b"format = 1", b"format = 'x'"), "does not say what the zip"),
        (replaced("loamshift.toml", b"made_at = .*", b""), "made_at is missing"),
        (replaced("loamshift.toml", b"format", b"form at"), "toml: This is not valid TOML"),
        (replaced("loamshift.toml", b'"metric"', b'"furlongs"'), "Write one of these: metric, us"),
        (replaced("loamshift.toml", b'"metric"', b"true"), "loamshift.toml office.units"),
        (without("loamshift.toml"), "does not contain loamshift.toml"),
        (without("clients.csv"), "clients.csv: This file is missing"),
        (without("beds/"), ".toml”: This file is missing"),
        (without("letters/"), ".json”: This file is missing"),
        (without("gardens/"), "The zip contains no garden with this id"),
        (with_file("notes.doc", b"x"), "notes.doc: This file does not belong"),
        (with_file("beds/x.toml", b"x"), "beds/x.toml: This file does not belong"),
        (replaced("beds/", b"case = 1", b"case = "), "This is not valid TOML"),
        (replaced("beds/", b"case = 1", b"a = '\xff'"), "is not UTF-8 text"),
        (replaced("letters/", b"{", b"{{"), "This is not valid JSON"),
        (replaced("gardens/", b"name = ", b"name "), "This is not valid TOML"),
        (replaced("gardens/", b"version = 1", b"version = 0"), "must be a whole number from 1"),
        (replaced("gardens/", b"version = 1", b"version = 'x'"), "not the kind of value"),
        (replaced("gardens/", b"version = 1", b""), "keys are missing"),
        (replaced("gardens/", b"version = 1", b"version = 1\nodd = 2"), "odd"),
        (replaced("gardens/", b"version", b"nothing_at = [['x', 'y']]\nversion"), "a value"),
        (replaced("gardens/", b"width_m = 20.0", b"width_m = nan"), "cannot be stored"),
        (replaced("gardens/", b"width_m = 20.0", b"w = 2026-04-12"), "cannot be stored"),
        (replaced("gardens/", rb"areas = \[\]", b"areas = " + b"[" * 30 + b"]" * 30), "deeply"),
        (replaced("gardens/", rb"areas = \[\]", b"a = " + b"[" * 5000 + b"]" * 5000), "not valid"),
        (replaced("clients.csv", b"name", b"nom"), "row 1: These are not the columns"),
        (replaced("clients.csv", b",1,", b",one,"), "version, “one”: This cell cannot"),
        (replaced("clients.csv", rb"\n[0-9a-f]{8}", b"\nzzzzzzzz"), "Write an id of 32 hexa"),
        (replaced("clients.csv", b"'=A client", b""), "clients.csv row 2: name: Nothing"),
        (replaced("clients.csv", b"A client", b"A" * 161), "Use no more than 160 characters"),
        (replaced("clients.csv", b"A client", b"A\x00"), "a character that cannot be stored"),
        (replaced("clients.csv", b"'=A client", b'"A" client'), "clients.csv row 2: This row"),
        (replaced("clients.csv", rb"\r\n$", b",more\r\n"), "cells. It needs"),
        (replaced("clients.csv", rb"\+00:00", b""), "a date and time with its zone"),
        (replaced("beds.csv", rb",6\.8,", b",nan,"), "row 2: ph, “nan”: This is not a number"),
        (replaced("beds.csv", rb",6\.8,", b",6,8,"), "beds.csv row 2: This row has"),
        (replaced("beds.csv", b",no", b",perhaps"), "beds.csv row 2: is_sample"),
        (replaced("letters.csv", b",2026-04-12,", b",12.4.2026,"), "a date such as 2026-04-12"),
        (
            replaced("gardens/", b"version", b"deleted_at = 2026-04-12T00:00:00Z\nversion"),
            "beds.csv row 2: deleted_at: Its garden was deleted",
        ),
    ],
)  # fmt: skip
def test_whatever_is_wrong_is_told_with_its_place(
    files: Files, change: Callable[[Files], None], said: str
) -> None:
    read_zip(packed(files))
    change(files)
    assert said in refused(packed(files))


def test_every_fault_is_told_at_once(files: Files) -> None:
    replaced("beds.csv", rb",6\.8,", b",x,")(files)
    replaced("clients.csv", b"A client", b"A" * 161)(files)
    said = refused(packed(files))
    assert "beds.csv" in said
    assert "clients.csv" in said


def test_the_same_row_twice_is_refused(files: Files) -> None:
    head, row, *_ = files["products.csv"].split(b"\r\n")
    files["products.csv"] = b"\r\n".join([head, row, row, b""])
    assert "This id appears twice" in refused(packed(files))


def test_what_a_file_manager_adds_and_a_folder_round_it_are_no_fault(files: Files) -> None:
    wrapped = {f"backup/{name}": data for name, data in files.items()}
    wrapped |= {"__MACOSX/backup/._beds.csv": b"x", "backup/.DS_Store": b"x"}
    assert len(read_zip(packed(wrapped)).things) == 5


def test_a_table_saved_by_a_spreadsheet_without_its_mark_is_read(files: Files) -> None:
    files["clients.csv"] = (
        files["clients.csv"].removeprefix(b"\xef\xbb\xbf").replace(b"\r\n", b"\n")
    )
    del files[DIGESTS]
    assert len(read_zip(packed(files)).things) == 5


@pytest.mark.parametrize("data", [b"", b"PK", b"not a zip", b"\x00" * 1000, b"case = 1\n"])
def test_what_is_no_zip_is_refused(data: bytes) -> None:
    assert "not a zip file, or it is damaged" in refused(data)


def test_a_zip_cut_short_or_damaged_is_refused(files: Files) -> None:
    whole = packed(files, zipfile.ZIP_STORED)
    assert "not a zip file, or it is damaged" in refused(whole[: len(whole) // 2])
    assert "This file is damaged" in refused(whole.replace(b"case = 1", b"case = 2"))


@pytest.mark.parametrize(
    "name", ["../outside.toml", "beds/../../x", "/etc/x", "\\x", "C:/x", "beds\\..\\..\\x"]
)
def test_paths_that_lead_elsewhere_are_refused(files: Files, name: str) -> None:
    files[name] = b"x"
    assert "The path of this file leads out of the zip" in refused(packed(files))


def test_a_bomb_is_not_unpacked(files: Files) -> None:
    bomb = files | {"beds/bomb.toml": b"\x00" * 70_000_000}
    said = refused(packed(bomb))
    assert "would unpack to 70 MB" in said
    many = files | {f"beds/{number}.toml": b"\x00" * 9_000_000 for number in range(30)}
    assert "would unpack to more than 256 MB" in refused(packed(many))


def test_a_bomb_that_lies_about_its_size_is_damaged(files: Files) -> None:
    data = packed(files | {"beds/bomb.toml": b"\x00" * 5_000_000})
    size = (5_000_000).to_bytes(4, "little")
    assert data.count(size) == 2
    assert "damaged" in refused(data.replace(size, (100).to_bytes(4, "little")))


def test_too_many_files_and_too_large_a_zip_are_refused(files: Files) -> None:
    data = packed(files)
    assert "more than 3 files" in refused(data, limits=Limits(files=3))
    assert "Restore it on the computer that runs the workbench" in refused(
        data + b"\x00" * 33_000_000
    )


def test_a_file_twice_in_the_zip_is_refused(files: Files) -> None:
    file = io.BytesIO(packed(files))
    with zipfile.ZipFile(file, "a") as archive, pytest.warns(UserWarning, match="Duplicate"):
        archive.writestr("beds.csv", b"x")
    assert "This file is in the zip twice" in refused(file.getvalue())


def test_an_encrypted_zip_is_refused(files: Files) -> None:
    data = bytearray(packed(files))
    for sign, at in ((b"PK\x03\x04", 6), (b"PK\x01\x02", 8)):
        for found in re.finditer(re.escape(sign), bytes(data)):
            data[found.start() + at] |= 1
    assert "without a password" in refused(bytes(data))


def test_ids_of_another_office_are_refused_and_nothing_is_changed(office: Office) -> None:
    client, *_ = small(office)
    data = client_zip(client, now=NOW)
    other = Office.objects.create(name="Other")
    mine = small(other)
    before = everything(other)
    for put in (
        lambda: add_missing(read_zip(data), other, what="x"),
        lambda: replace_all(read_zip(data), other),
    ):
        with pytest.raises(ArchiveFault, match="store-id-elsewhere"):
            put()
    assert everything(other) == before
    assert len(mine) == 5


def test_adding_below_something_deleted_here_adds_nothing(office: Office, files: Files) -> None:
    from loamshift.errors import InputError
    from loamshift.store.models import Bed, SentLetter

    garden = Garden.objects.get()
    Writer(office, what="Deleted").put_away(garden)
    SentLetter.objects.all().delete()
    Bed.objects.all().delete()
    before = everything(office)
    with pytest.raises(InputError, match="store-parent-deleted"):
        add_missing(read_zip(packed(files)), office, what="Brought in")
    assert everything(office) == before


def test_replacing_brings_the_settings_and_forgets_the_changes(office: Office) -> None:
    office.units, office.letterhead = "us", "Our office"
    office.save()
    small(office)
    data = store_zip(office, now=NOW)
    before = everything(office)
    small(office)
    office.units = "metric"
    office.save()
    replace_all(read_zip(data), office)
    office.refresh_from_db()
    assert everything(office) == before
    assert not office.changes.exists()


def test_every_file_has_its_digest_in_the_form_of_the_usual_tool(
    files: Files, tmp_path: Path
) -> None:
    for name, data in files.items():
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).write_bytes(data)
    listed = {line.split("  ")[1] for line in files[DIGESTS].decode().splitlines()}
    assert listed == set(files) - {DIGESTS}
    tool = shutil.which("sha256sum")
    if tool is not None:
        ran = subprocess.run(
            [tool, "--check", "--strict", DIGESTS], cwd=tmp_path, capture_output=True, check=False
        )
        assert ran.returncode == 0, ran.stderr


@pytest.mark.parametrize("start", ["beds/", "gardens/", "letters/", "clients.csv", "products.csv"])
@pytest.mark.parametrize("left", [0.0, 0.2, 0.4, 0.6, 0.8, 0.99])
def test_a_file_that_was_cut_is_refused_wherever_it_was_cut(
    files: Files, start: str, left: float
) -> None:
    name = first(files, start)
    files[name] = files[name][: int(left * len(files[name]))]
    assert refused(packed(files))


def test_a_bed_cut_at_the_end_of_a_line_is_refused_by_its_digest(files: Files) -> None:
    name = first(files, "beds/")
    lines = [*files[name].splitlines(keepends=True), b"[soil]\n", b"ph = 6.4\n", b"# end\n"]
    digests = read_digests(files[DIGESTS])
    digests[name] = digest_of(b"".join(lines))
    files[DIGESTS] = digests_text(digests).encode()
    assert read_zip(packed({**files, name: b"".join(lines)})).count("bed") == 1
    for many in range(1, len(lines)):
        cut = {**files, name: b"".join(lines[:many])}
        assert "has changed since the zip was made" in refused(packed(cut))
        del cut[DIGESTS]
        read_zip(packed(cut))  # what the digests are for: as TOML it is sound


def test_a_file_that_was_edited_on_purpose_is_taken_without_its_line(files: Files) -> None:
    name = first(files, "beds/")
    files[name] += b"# a remark\n"
    assert "take its line out of SHA256SUMS.txt" in refused(packed(files))
    kept = [line for line in files[DIGESTS].splitlines() if name.encode() not in line]
    files[DIGESTS] = b"\n".join(kept)
    assert read_zip(packed(files)).count("bed") == 1


def test_a_list_of_digests_that_is_none_is_told(files: Files) -> None:
    files[DIGESTS] = b"\xff nothing"
    assert DIGESTS in refused(packed(files))
