"""The column compiled by a process beside the workbench, so that no page waits for it."""

from __future__ import annotations

import atexit
import os
import subprocess
import sys
from collections.abc import Callable
from typing import Final

from loamshift.cli.kernel_cache import keep_kernels
from loamshift.cli.kernel_ready import is_whole, ready_kernels
from loamshift.domain.message import message

_POLITE: Final = 10
"""How far the process stands back behind the pages [steps of the system]."""


def compile_beside() -> Callable[[], bool]:
    """Begin to compile what has not been compiled, say so, and go on.

    Returns
    -------
    callable
        Whether a forecast can be had without compiling first, as far as it ever will. Where
        nothing can be kept, no other process can help, and it says yes from the start.
    """
    from loamshift.cli.show import tell

    chosen = keep_kernels()
    if chosen.path is None or is_whole(chosen.path):
        if chosen.said is not None and chosen.path is None:
            tell(chosen.said)
        return lambda: True
    tell(message("cli-compiling-beside"))
    process = subprocess.Popen(
        [sys.executable, "-m", "loamshift.cli.kernel_beside"],
        stdin=subprocess.DEVNULL,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        start_new_session=True,  # an interrupt is for the workbench, which then ends this too
    )
    atexit.register(process.kill)
    return lambda: process.poll() is not None


if __name__ == "__main__":
    if hasattr(os, "nice"):
        os.nice(_POLITE)
    ready_kernels()
