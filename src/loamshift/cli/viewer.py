"""Showing a written file in whatever this machine opens such files with."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import threading
from pathlib import Path

from loamshift.domain.message import message
from loamshift.domain.worded_error import given


def opener() -> tuple[str, ...]:
    """The program that opens any file by its kind; empty where none is known."""
    if sys.platform == "darwin":
        return ("open",)
    found = shutil.which("xdg-open")
    return (found,) if found else ()


def show_file(path: Path) -> bool:
    """Open a file or folder in its usual viewer, without waiting for it.

    Returns
    -------
    bool
        False where this machine has no viewer that could be started.
    """
    whole = path.resolve()
    try:
        if sys.platform == "win32":
            os.startfile(whole)
            return True
        program = opener()
        if program:
            viewer = subprocess.Popen(
                [*program, str(whole)],
                stdin=subprocess.DEVNULL,
                stdout=subprocess.DEVNULL,
                stderr=subprocess.DEVNULL,
                start_new_session=True,
            )
            threading.Thread(target=viewer.wait, daemon=True).start()
            return True
        import webbrowser

        return webbrowser.open(whole.as_uri())
    except (OSError, ValueError):
        return False


def show_or_say(path: Path) -> None:
    """Show a file, or say on stderr that it has to be opened by hand."""
    if not show_file(path):
        from loamshift.cli.show import tell

        tell(message("cli-no-viewer", path=given(path)))
