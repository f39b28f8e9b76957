"""Writing a file whole or not at all."""

from __future__ import annotations

import os
import secrets
import tempfile
from pathlib import Path
from typing import Final

from loamshift.cli.streams import NO_ROOM
from loamshift.domain.message import Message, message
from loamshift.domain.worded_error import WordedError, given

_STREAMS: Final = (Path("/dev"), Path("/proc"))
"""Where a name stands for a device or an open stream, which must never be replaced."""


class NoRoomError(WordedError):
    """A disk or a quota is full: whatever is written next fails too."""


def write_whole(path: Path, content: str | bytes, *, replace: bool) -> None:
    """Write a file so that a stop half way leaves the old file or none.

    Parameters
    ----------
    replace
        True where a file that is there may be replaced.

    Raises
    ------
    WordedError
        Where the file is there and may not be replaced, or the folder cannot be written;
        a ``NoRoomError`` where the disk is full.
    """
    data = content.encode("utf-8") if isinstance(content, str) else content
    token, temporary = secrets.token_hex(8), None
    goal = path
    try:
        if not replace and path.exists():
            raise _already_there(path)
        if path.is_dir():
            raise WordedError(message("cli-is-folder", path=given(path)))
        if _is_written_into(path):
            with path.open("wb") as file:
                file.write(data)
            return
        goal = path.resolve() if replace else path  # a link stays; what it names is replaced
        handle, name = tempfile.mkstemp(
            dir=goal.parent, prefix=f".{goal.name[:40]}.", suffix=f".{token}.part"
        )
        temporary = Path(name)
        with os.fdopen(handle, "wb") as file:
            file.write(data)
        temporary.chmod(0o666 & ~_umask())
        if replace:
            temporary.replace(goal)
        else:
            _move_without_replacing(temporary, goal)
        temporary = None
    except (OSError, ValueError) as error:
        raise _refused("cli-cannot-write", path, error) from error
    except KeyboardInterrupt:
        _sweep(goal.parent, token)
        raise
    finally:
        if temporary is not None:
            temporary.unlink(missing_ok=True)


def _sweep(folder: Path, token: str) -> None:
    """Take away the file of an interrupt that came after it was made and before it was known."""
    for left in folder.glob(f".*.{token}.part"):
        left.unlink(missing_ok=True)


def _is_written_into(path: Path) -> bool:
    """Whether a path is no file of its own: a device, a pipe, a stream of this process."""
    whole = path.absolute()
    return any(whole.is_relative_to(home) for home in _STREAMS) or (
        path.exists() and not path.is_file()
    )


def _refused(key: str, path: Path, error: OSError | ValueError) -> WordedError:
    if key == "cli-cannot-write" and not path.parent.exists():
        return WordedError(message("cli-no-folder", path=given(path.parent)))
    reason = getattr(error, "strerror", None) or error
    full = isinstance(error, OSError) and error.errno in NO_ROOM
    said = Message(key, {"path": given(path), "why": given(reason)})
    return (NoRoomError if full else WordedError)(said)


def _already_there(path: Path) -> WordedError:
    return WordedError(message("cli-exists-force", path=given(path)))


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask


def _move_without_replacing(temporary: Path, path: Path) -> None:
    try:
        path.hardlink_to(temporary)
    except FileExistsError as error:
        raise _already_there(path) from error
    except (OSError, NotImplementedError):
        temporary.replace(path)
        return
    temporary.unlink(missing_ok=True)


def check_folder(folder: Path) -> None:
    """See that files can be written into a folder, before any work is done for them.

    Raises
    ------
    WordedError
        Where it is none, or nothing can be written there.
    """
    try:
        with tempfile.TemporaryFile(dir=folder):
            pass
    except FileNotFoundError:
        raise WordedError(message("cli-no-folder", path=given(folder))) from None
    except (OSError, ValueError) as error:
        raise _refused("cli-cannot-write-into", folder, error) from error


def make_folder(folder: Path) -> None:
    """Make a folder, where it is not there yet, and see that it can be written into.

    Raises
    ------
    WordedError
        Where it cannot be made, is a file, or cannot be written into.
    """
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except FileExistsError:
        raise WordedError(message("cli-is-file", path=given(folder))) from None
    except (OSError, ValueError) as error:
        raise _refused("cli-cannot-make", folder, error) from error
    check_folder(folder)
