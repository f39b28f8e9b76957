"""Writing a file whole or not at all."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

from loamshift.errors import InputError


def write_whole(path: Path, text: str, *, replace: bool) -> None:
    """Write a text so that a stop half way leaves the old file or none.

    Parameters
    ----------
    path
        Where to [path].
    text
        The whole content [text].
    replace
        True where a file that is there may be replaced [truth].

    Raises
    ------
    InputError
        Where the file is there and may not be replaced, or the folder cannot be written.
    """
    if not replace and path.exists():
        raise InputError(f"{path} is already there; add --force to replace it, or choose a name")
    if path.is_dir():
        raise InputError(f"{path} is a folder; give the name of a file in it")
    temporary = None
    try:
        handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.", suffix=".part")
        temporary = Path(name)
        with os.fdopen(handle, "w", encoding="utf-8", newline="\n") as file:
            file.write(text)
        temporary.chmod(0o666 & ~_umask())
        if replace:
            temporary.replace(path)
        else:
            _move_without_replacing(temporary, path)
        temporary = None
    except OSError as error:
        raise InputError(f"{path} cannot be written: {error.strerror or error}") from error
    finally:
        if temporary is not None:
            temporary.unlink(missing_ok=True)


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask


def _move_without_replacing(temporary: Path, path: Path) -> None:
    try:
        path.hardlink_to(temporary)
    except FileExistsError as error:
        raise InputError(
            f"{path} is already there; add --force to replace it, or choose a name"
        ) from error
    except (OSError, NotImplementedError):
        temporary.replace(path)
        return
    temporary.unlink(missing_ok=True)
