"""The machine code of the forecast, kept between processes as the command line keeps it."""

from __future__ import annotations

import logging
import os
import sys
import warnings
from functools import cache

from loamshift.cli.kernel_cache import VARIABLE, keep_kernels
from loamshift.errors import LoamshiftWarning
from loamshift.report.messages import say
from loamshift.report.words import Words

_COLUMN = "loamshift.core.column_kernel"
"""The first module whose machine code is looked for in the folder."""


@cache
def ready_for_forecast() -> None:
    """Choose the folder of the machine code before the column is loaded, once in a process.

    A first run compiles for some seconds, which the log of ``loamshift`` says; a folder that
    cannot be written is a warning, since every process would compile anew.
    """
    if _COLUMN in sys.modules:
        return
    others = sys.modules.pop("numba", None)  # loaded by somebody else, before a folder was named
    try:
        kept = keep_kernels()
    finally:
        if others is not None:
            sys.modules["numba"] = others
    if others is not None and VARIABLE in os.environ:
        others.config.reload_config()
    if kept.said is None:
        return
    text = say(kept.said, Words())
    if kept.path is None:
        warnings.warn(text, LoamshiftWarning, stacklevel=3)
    else:
        logging.getLogger("loamshift").info(text)
