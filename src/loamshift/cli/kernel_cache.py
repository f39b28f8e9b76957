"""Where the machine code of the column is kept between runs, chosen before it is loaded.

The folder is named by a hash of every source of ``core``, of its place and time, and of the
versions that compile it, so that an edit anywhere in ``core`` never meets old machine code. The
compiler's library takes none made for a file of another place or time: it has a folder of its own.
"""

from __future__ import annotations

import atexit
import contextlib
import hashlib
import os
import re
import shutil
import sys
import tempfile
import time
from dataclasses import dataclass
from importlib import metadata
from pathlib import Path
from typing import Final

from loamshift.domain.message import Message, message
from loamshift.domain.worded_error import given

VARIABLE: Final = "NUMBA_CACHE_DIR"
COMPILERS: Final = ("numba", "llvmlite", "numpy")
CORE: Final = Path(__file__).resolve().parents[1] / "core"
ROOM_BYTES: Final = 8_000_000
"""More than the machine code of the column takes."""
KEPT_D: Final = 30.0
"""A folder used within so many days is kept, if it is among the newest [d]."""
NEWEST: Final = 5
LEFT_ALONE_D: Final = 1.0
"""A folder used within so many days may be in use now [d]."""
_OURS: Final = re.compile(r"[0-9a-f]{32}(?:\.old.*)?")
_DAY_S: Final = 86_400.0


@dataclass(frozen=True, slots=True)
class KernelFolder:
    """The folder, whether it held machine code already, and what to tell the user, if anything."""

    path: Path | None
    is_filled: bool
    said: Message | None


def user_cache() -> Path:
    """The user's own folder for things that can be made again."""
    named = Path(os.environ.get("XDG_CACHE_HOME", ""))
    if named.is_absolute():
        return named
    if sys.platform == "win32" and os.environ.get("LOCALAPPDATA"):
        return Path(os.environ["LOCALAPPDATA"])
    if sys.platform == "darwin":
        return Path.home() / "Library" / "Caches"
    return Path.home() / ".cache"


def kernel_key(core: Path = CORE) -> str:
    """Hash of all sources of ``core`` and of the versions that turn them into machine code."""
    digest = hashlib.sha256()
    for source in sorted(core.resolve().rglob("*.py")):
        text, time_ns = source.read_bytes(), source.stat().st_mtime_ns
        digest.update(f"{source} {time_ns} {len(text)}\n".encode())
        digest.update(text)
    for name in COMPILERS:
        digest.update(f"{name} {metadata.version(name)}\n".encode())
    digest.update(f"{sys.implementation.cache_tag} {sys.version}".encode())
    return digest.hexdigest()


def keep_kernels() -> KernelFolder:
    """Choose the folder; call this before anything imports the column.

    A folder that the user has named is left as it is. One that is filled and may only be read is
    used from a copy. Where none can be written, the column is
    compiled in memory at every start, and the message says so.
    """
    if "numba" in sys.modules:
        return KernelFolder(None, False, None)  # too late to choose: loaded within this process
    named = os.environ.get(VARIABLE)
    try:
        folder = Path(named) if named else user_cache() / "loamshift" / kernel_key()[:32]
        folder.mkdir(parents=True, exist_ok=True)
        is_filled = any(folder.rglob("*.nbc"))
        try:
            _try_to_write(folder, 0 if is_filled else ROOM_BYTES)
        except OSError:
            if not is_filled:
                raise
            folder, named = _copy(folder), str(folder)
    except (OSError, RuntimeError) as fault:
        os.environ.pop(VARIABLE, None)
        return KernelFolder(
            None,
            False,
            message("cli-not-compiled", why=given(fault)),
        )
    os.environ[VARIABLE] = str(folder)
    if not named:
        _mark_used(folder)
        if not is_filled:
            remove_unused(folder.parent, keep=folder, now_s=time.time())
    if is_filled:
        return KernelFolder(folder, True, None)
    return KernelFolder(folder, False, message("cli-compiling"))


def _copy(filled: Path) -> Path:
    """A copy of a folder that may only be read, for as long as this process lasts.

    The compiler's library takes no folder that it cannot write to.
    """
    copied = Path(tempfile.mkdtemp(prefix="loamshift-"))
    atexit.register(shutil.rmtree, copied, ignore_errors=True)
    shutil.copytree(filled, copied, dirs_exist_ok=True, copy_function=shutil.copyfile)
    copied.chmod(0o700)
    return copied


def remove_unused(home: Path, *, keep: Path, now_s: float) -> None:
    """Remove the folders of other versions that nobody uses any more.

    The newest few are kept for a month after their last use, the others for a day. What another
    run removes at the same moment, or may not be removed, is passed over.

    Parameters
    ----------
    now_s
        The time [s since 1970].
    """
    used: list[tuple[float, Path]] = []
    with contextlib.suppress(OSError):
        for folder in home.iterdir():
            if folder != keep and _OURS.fullmatch(folder.name):
                with contextlib.suppress(OSError):
                    used.append((folder.stat().st_mtime, folder))
    for place, (last_s, folder) in enumerate(sorted(used, reverse=True), start=1):
        kept_d = KEPT_D if place < NEWEST else LEFT_ALONE_D
        if now_s - last_s > kept_d * _DAY_S:
            _remove(folder)


def _remove(folder: Path) -> None:
    """Take it away under another name first, so that no run meets half of it."""
    gone = folder.with_name(f"{folder.name[:32]}.old{os.getpid()}")
    with contextlib.suppress(OSError):
        folder.rename(gone)
        shutil.rmtree(gone, ignore_errors=True)


def _mark_used(folder: Path) -> None:
    with contextlib.suppress(OSError):
        os.utime(folder)


def _try_to_write(folder: Path, size_bytes: int) -> None:
    """Fail as the machine code would fail where there is no leave or no room to write it."""
    with tempfile.TemporaryFile(dir=folder) as file:
        file.write(bytes(size_bytes))
