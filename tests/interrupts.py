"""Processes that hear an interrupt, wherever the tests were started.

A plain shell starts what it puts in the background with interrupts ignored, and every process
below inherits that. A command honours it, as other programs do; a test that sends an interrupt
first sets what it needs.
"""

from __future__ import annotations

import signal


def heard() -> None:
    """Hear interrupts in the process about to start, as from a terminal (``preexec_fn``)."""
    signal.signal(signal.SIGINT, signal.SIG_DFL)
    signal.pthread_sigmask(signal.SIG_UNBLOCK, {signal.SIGINT})
