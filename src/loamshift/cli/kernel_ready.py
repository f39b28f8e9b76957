"""The column compiled before it is needed: by one run where several begin, and with a count."""

from __future__ import annotations

import contextlib
import datetime
import importlib
import sys
import threading
import time
from collections.abc import Iterator
from pathlib import Path
from typing import IO, Final

from loamshift.cli.kernel_cache import keep_kernels
from loamshift.domain.message import Message, message

KEPT_FUNCTIONS: Final = 4
"""Functions of the column whose machine code is kept; those of ``core.many_loops`` come by use."""
_LOCK: Final = "compiling.lock"
_LOOK_S: Final = 0.2
_LINEAR_ALGEBRA: Final = "scipy.linalg.cython_blas"
_SMALLEST: Final = """
case = 1
[bed]
area = "20 m2"
[soil]
ph = 7.0
texture = "loam"
[aim]
target_ph = 6.0
"""


def ready_kernels() -> None:
    """Choose where the machine code is kept and fill the folder, telling of it while it lasts.

    A run that finds another compiling waits and takes what that one leaves. Where nothing can be
    kept the column is compiled in memory, when it is first called.
    """
    from loamshift.cli.show import tell

    chosen = keep_kernels()
    if chosen.path is None:
        if chosen.said is not None:
            tell(chosen.said)
        return
    _load_compiler()
    if is_whole(chosen.path):
        return
    with _alone(chosen.path):
        if not is_whole(chosen.path):
            with _counted(message("cli-compiling")):
                compile_all()


def _load_compiler() -> None:
    """Load the compiler's library without SciPy's linear algebra, which the column never calls.

    The library looks for it on the way, to multiply matrices with; that alone took a tenth of an
    answer. A module that stands as None in ``sys.modules`` is one that Python does not find. Only
    where nothing else runs that could ask for it meanwhile.
    """
    if threading.active_count() > 1 or _LINEAR_ALGEBRA in sys.modules:
        return
    sys.modules[_LINEAR_ALGEBRA] = None  # type: ignore[assignment]
    try:
        importlib.import_module("numba.np.arraymath")
    finally:
        del sys.modules[_LINEAR_ALGEBRA]


def is_whole(folder: Path) -> bool:
    """Whether the machine code of every function that is kept lies in a folder."""
    return len(list(folder.rglob("column*.nbi"))) >= KEPT_FUNCTIONS


def compile_all() -> None:
    """Compile the column by answering the smallest of cases with it."""
    from loamshift.case.read import parse_case
    from loamshift.services.advise import LookAhead, advise

    case = parse_case(_SMALLEST, today=datetime.date(2026, 4, 12))
    advise(case, look_ahead=LookAhead(members=25, seed=1, years=1, refit=True))


@contextlib.contextmanager
def _alone(folder: Path) -> Iterator[None]:
    """Hold the lock of a folder; it ends with the process, so that none is left behind."""
    try:
        file = (folder / _LOCK).open("w")
    except OSError:
        yield
        return
    with file:
        if not _taken(file):
            with _counted(message("cli-compiled-elsewhere")):
                while not _taken(file):
                    time.sleep(_LOOK_S)
        yield


def _taken(file: IO[str]) -> bool:
    """Whether the lock is ours now, or is none that this system has."""
    try:
        import fcntl
    except ImportError:
        return True
    try:
        fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except BlockingIOError:
        return False
    except OSError:
        return True
    return True


@contextlib.contextmanager
def _counted(said: Message) -> Iterator[None]:
    """Tell what is waited for; on a terminal with the seconds it has taken so far."""
    from loamshift.cli.error_json import AS_JSON
    from loamshift.cli.show import tell, worded

    if AS_JSON.get() or not sys.stderr.isatty():
        tell(said)
        sys.stderr.flush()
        yield
        return
    text, begun_s, ended = worded(said), time.monotonic(), threading.Event()

    def count() -> None:
        while not ended.is_set():
            seconds = worded(message("cli-seconds", n=int(time.monotonic() - begun_s)))
            sys.stderr.write(f"\r{text} {seconds}")
            sys.stderr.flush()
            ended.wait(1.0)

    counter = threading.Thread(target=count, daemon=True)
    counter.start()
    try:
        yield
    finally:
        ended.set()
        counter.join()
        sys.stderr.write("\n")
        sys.stderr.flush()
