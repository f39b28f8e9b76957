"""Opening a zip that somebody gives us: nothing is unpacked before its size is known to be fair."""

from __future__ import annotations

import io
import zipfile
import zlib
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from loamshift.domain.message import Message, message
from loamshift.domain.worded_error import WordedError, fault, given
from loamshift.errors import Fault
from loamshift.store.limits import shown

MOST_FAULTS: Final = 40
_ENTRY: Final = b"PK\x01\x02"
_BY_OTHERS: Final = ("__MACOSX/", ".DS_Store", "Thumbs.db", "desktop.ini")
_MB: Final = 1_000_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """How much a zip may hold: bytes as it comes, bytes unpacked, files, bytes of one file."""

    packed: int = 32 * _MB
    unpacked: int = 256 * _MB
    files: int = 50_000
    one_file: int = 64 * _MB


class ArchiveFault(WordedError):
    """A zip cannot be read; carries every fault with the file and the row it is in."""

    def __init__(self, faults: Sequence[Fault]) -> None:
        shown_faults = faults[:MOST_FAULTS]
        self.more = len(faults) - len(shown_faults)
        super().__init__(message("store-nothing-restored", more=self.more), shown_faults)


def refuse(
    file: str, wrong: Message, right: Message | None = None, *, entry: str = ""
) -> ArchiveFault:
    """One fault that ends the reading; the whole zip is to blame where no file is."""
    return ArchiveFault([fault(file, wrong, right or message("store-use-own-zip"), given=entry)])


def files_in(data: bytes, *, head: str, limits: Limits) -> dict[str, bytes]:
    """The files of a zip by their names, below the folder that holds ``head``.

    Raises
    ------
    ArchiveFault
        Where it is no zip, holds more than the limits, a path that leads elsewhere, a file
        twice, or one that is encrypted, packed in an unknown way or damaged.
    """
    if len(data) > limits.packed:
        raise refuse(
            "",
            message("store-zip-large", mb=round(len(data) / _MB), most=round(limits.packed / _MB)),
            message("store-restore-by-command"),
        )
    if data.count(_ENTRY) > limits.files:
        raise _too_much(message("store-zip-many-files", most=limits.files))
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            entries = [entry for entry in archive.infolist() if not entry.is_dir()]
            _fair(entries, limits)
            names = _names(entries, head)
            return {
                name: _read(archive, entry, name)
                for entry, name in zip(entries, names, strict=True)
                if name
            }
    except (zipfile.BadZipFile, UnicodeDecodeError, EOFError, ValueError, OSError) as error:
        raise refuse("", message("store-zip-damaged")) from error


def _fair(entries: Sequence[zipfile.ZipInfo], limits: Limits) -> None:
    if sum(entry.file_size for entry in entries) > limits.unpacked:
        raise _too_much(message("store-zip-unpacks", most=round(limits.unpacked / _MB)))
    for entry in entries:
        if entry.file_size > limits.one_file:
            raise _too_much(
                message(
                    "store-zip-file-unpacks",
                    file=given(shown(entry.filename)),
                    mb=round(entry.file_size / _MB),
                )
            )


def _names(entries: Sequence[zipfile.ZipInfo], head: str) -> list[str]:
    """Names below the top folder; empty for what a file manager has put in."""
    for entry in entries:
        _safe(entry.orig_filename)
    tops = [e.filename.removesuffix(head) for e in entries if _last(e.filename) == head]
    if not tops:
        raise refuse("", message("store-zip-no-head", file=given(head)))
    top = min(tops, key=len)
    names: list[str] = []
    seen: set[str] = set()
    for entry in entries:
        name = entry.filename
        if any(part in name for part in _BY_OTHERS):
            names.append("")
            continue
        name = name.removeprefix(top) if name.startswith(top) else name
        if name in seen:
            raise refuse(shown(name), message("store-file-twice"))
        seen.add(name)
        names.append(name)
    return names


def _safe(name: str) -> None:
    parts = name.replace("\\", "/").split("/")
    if name.startswith(("/", "\\")) or ".." in parts or ":" in parts[0] or "\x00" in name:
        raise refuse(shown(name), message("store-file-outside"))


def _last(name: str) -> str:
    return name.rsplit("/", 1)[-1]


def _read(archive: zipfile.ZipFile, entry: zipfile.ZipInfo, name: str) -> bytes:
    try:
        with archive.open(entry) as file:
            return file.read(entry.file_size + 1)
    except (NotImplementedError, RuntimeError) as error:
        raise refuse(
            shown(name),
            message("store-file-locked", why=given(error)),
            message("store-zip-without-password"),
        ) from error
    except (zipfile.BadZipFile, zlib.error, EOFError) as error:
        raise refuse(
            shown(name), message("store-file-damaged"), message("store-use-other-zip")
        ) from error


def _too_much(wrong: Message) -> ArchiveFault:
    return refuse("", wrong, message("store-not-unpacked"))
