"""Where the machine code of the column is kept between runs, chosen before it is loaded.

The folder is named by a hash of every source of ``core`` and of the versions that compile it, so
that an edit anywhere in ``core`` never meets old machine code.
"""

from __future__ import annotations

import hashlib
import os
import sys
import tempfile
from dataclasses import dataclass
from importlib import metadata
from pathlib import Path
from typing import Final

VARIABLE: Final = "NUMBA_CACHE_DIR"
COMPILERS: Final = ("numba", "llvmlite", "numpy")
CORE: Final = Path(__file__).resolve().parents[1] / "core"


@dataclass(frozen=True, slots=True)
class KernelFolder:
    """The folder, whether it held machine code already, and what to tell the user, if anything."""

    path: Path | None
    is_filled: bool
    message: str


def user_cache() -> Path:
    """The user's own folder for things that can be made again."""
    if os.environ.get("XDG_CACHE_HOME"):
        return Path(os.environ["XDG_CACHE_HOME"])
    if sys.platform == "win32" and os.environ.get("LOCALAPPDATA"):
        return Path(os.environ["LOCALAPPDATA"])
    if sys.platform == "darwin":
        return Path.home() / "Library" / "Caches"
    return Path.home() / ".cache"


def kernel_key(core: Path = CORE) -> str:
    """Hash of all sources of ``core`` and of the versions that turn them into machine code."""
    digest = hashlib.sha256()
    for source in sorted(core.rglob("*.py")):
        text = source.read_bytes()
        digest.update(f"{source.relative_to(core).as_posix()} {len(text)}\n".encode())
        digest.update(text)
    for name in COMPILERS:
        digest.update(f"{name} {metadata.version(name)}\n".encode())
    digest.update(f"{sys.implementation.cache_tag} {sys.version}".encode())
    return digest.hexdigest()


def keep_kernels() -> KernelFolder:
    """Choose the folder; call this before anything imports the column.

    A folder that the user has named is left as it is. Where none can be written, the column is
    compiled in memory at every start, and the message says so.
    """
    if "numba" in sys.modules:
        return KernelFolder(None, False, "")  # too late to choose: loaded within this process
    named = os.environ.get(VARIABLE)
    try:
        folder = Path(named) if named else user_cache() / "loamshift" / kernel_key()[:32]
        folder.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryFile(dir=folder):
            pass
    except (OSError, RuntimeError) as fault:
        os.environ.pop(VARIABLE, None)
        return KernelFolder(
            None,
            False,
            f"No folder for the compiled forecast could be written ({fault}); it is compiled in "
            "memory at each start, which takes some seconds. Set XDG_CACHE_HOME to a folder of "
            "yours to avoid it.",
        )
    os.environ[VARIABLE] = str(folder)
    if any(folder.rglob("*.nbc")):
        return KernelFolder(folder, True, "")
    return KernelFolder(
        folder, False, "Compiling the forecast; this happens once and takes some seconds."
    )
