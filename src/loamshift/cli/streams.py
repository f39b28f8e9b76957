"""The two streams of a command: any letter, whole results, and a disk that fills up."""

from __future__ import annotations

import contextlib
import errno
import io
import os
import sys
from typing import Final

NO_NAME: Final = frozenset({errno.ENAMETOOLONG, errno.ELOOP})
"""What a name that can be no file is called."""
NO_ROOM: Final = frozenset({errno.ENOSPC, errno.EFBIG, getattr(errno, "EDQUOT", errno.ENOSPC)})
"""What a full disk, a used-up quota and a limit on file sizes are called."""


def prepare_streams() -> None:
    """Make results whole and readable, whatever the locale.

    A file or another program gets UTF-8, as JSON must be, unless ``PYTHONIOENCODING`` asks for
    something else. A console that cannot show ``²`` or ``°`` shows a question mark instead of
    failing. Output that was asked to be unbuffered is buffered all the same: without a buffer
    Python drops the rest of a result when a disk fills up, and says nothing.
    """
    stdout = sys.stdout
    is_own = stdout is not None and stdout is sys.__stdout__
    if is_own and isinstance(getattr(stdout, "buffer", None), io.RawIOBase):
        sys.stdout = io.TextIOWrapper(
            io.BufferedWriter(stdout.buffer),
            encoding=stdout.encoding,
            line_buffering=stdout.isatty(),
        )
    for stream in (sys.stdout, sys.stderr):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is None:
            continue
        if stream.isatty() or os.environ.get("PYTHONIOENCODING"):
            reconfigure(errors="replace")
        else:
            reconfigure(encoding="utf-8", errors="replace")


def drop_output() -> None:
    """Let what waits to be printed go, so that the closing interpreter does not complain either."""
    with contextlib.suppress(OSError, ValueError):
        number = sys.stdout.fileno()
        before, devnull = os.dup(number), os.open(os.devnull, os.O_WRONLY)
        try:
            os.dup2(devnull, number)
            sys.stdout.flush()
        finally:
            os.dup2(before, number)
            os.close(devnull)
            os.close(before)
