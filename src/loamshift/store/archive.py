"""Opening a zip that somebody gives us: nothing is unpacked before its size is known to be fair."""

from __future__ import annotations

import io
import zipfile
import zlib
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from loamshift.errors import Fault, InputError
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


class ArchiveFault(InputError):
    """A zip cannot be read; carries every fault with the file and the row it stands in."""

    def __init__(self, faults: Sequence[Fault]) -> None:
        self.faults = tuple(faults[:MOST_FAULTS])
        more = len(faults) - len(self.faults)
        lines = [f"  {fault}" for fault in self.faults]
        if more:
            lines.append(f"  and {more} more")
        super().__init__("\n".join(["Nothing was brought in, because:", *lines]))


def refuse(file: str, problem: str, mend: str, *, given: str = "") -> ArchiveFault:
    """One fault that ends the reading."""
    return ArchiveFault([Fault(file, given, problem, mend)])


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
            "the zip",
            f"it has {len(data) / _MB:.0f} MB, more than {limits.packed / _MB:.0f} MB",
            "Bring it in with loamshift restore, which takes larger ones.",
        )
    if data.count(_ENTRY) > limits.files:
        raise _too_much(f"it holds more than {limits.files} files")
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
    except (zipfile.BadZipFile, UnicodeDecodeError, EOFError, ValueError, OSError) as fault:
        raise refuse(
            "the zip", "it is no zip, or a damaged one", "Use a zip that loamshift made."
        ) from fault


def _fair(entries: Sequence[zipfile.ZipInfo], limits: Limits) -> None:
    if sum(entry.file_size for entry in entries) > limits.unpacked:
        raise _too_much(f"it would unpack to more than {limits.unpacked / _MB:.0f} MB")
    for entry in entries:
        if entry.file_size > limits.one_file:
            raise _too_much(
                f"{shown(entry.filename)} would unpack to {entry.file_size / _MB:.0f} MB"
            )


def _names(entries: Sequence[zipfile.ZipInfo], head: str) -> list[str]:
    """Names below the top folder; empty for what a file manager has put in."""
    for entry in entries:
        _safe(entry.orig_filename)
    tops = [e.filename.removesuffix(head) for e in entries if _last(e.filename) == head]
    if not tops:
        raise refuse("the zip", f"it holds no {head}", "Use a zip that loamshift made, whole.")
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
            raise refuse(shown(name), "it is in the zip twice", "Use a zip that loamshift made.")
        seen.add(name)
        names.append(name)
    return names


def _safe(name: str) -> None:
    parts = name.replace("\\", "/").split("/")
    if name.startswith(("/", "\\")) or ".." in parts or ":" in parts[0] or "\x00" in name:
        raise refuse(shown(name), "its path leads out of the zip", "Use a zip that loamshift made.")


def _last(name: str) -> str:
    return name.rsplit("/", 1)[-1]


def _read(archive: zipfile.ZipFile, entry: zipfile.ZipInfo, name: str) -> bytes:
    try:
        with archive.open(entry) as file:
            return file.read(entry.file_size + 1)
    except (NotImplementedError, RuntimeError) as fault:
        raise refuse(
            shown(name), f"it cannot be unpacked ({fault})", "Zip it again without a password."
        ) from fault
    except (zipfile.BadZipFile, zlib.error, EOFError) as fault:
        raise refuse(
            shown(name), "it is damaged", "Fetch the zip again, or use another one."
        ) from fault


def _too_much(problem: str) -> ArchiveFault:
    return refuse("the zip", problem, "It is not unpacked. Use a zip that loamshift made.")
