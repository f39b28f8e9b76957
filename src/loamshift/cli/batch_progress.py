"""How far a batch is: a bar on a terminal, a line now and then in a log."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Final

from loamshift.cli.error_json import AS_JSON
from loamshift.cli.show import warn, worded
from loamshift.domain.message import message

EVERY: Final = 25
"""A log gets a line after so many cases [count]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reached:
    """How far a batch is."""

    done: int
    """Cases that are through [count]."""
    written: int
    """Of these, cases whose letters are written [count]."""
    name: str
    """The case begun or finished last [text]."""


@contextmanager
def progress(total: int) -> Iterator[Callable[[Reached], None]]:
    """A bar on stderr while a terminal watches; else a line after every 25 cases.

    Parameters
    ----------
    total
        Cases to answer [count].
    """
    if AS_JSON.get() or not sys.stderr.isatty():
        yield _lines(total)
        return
    from rich.console import Console
    from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn

    bar = Progress(
        TextColumn(worded(message("cli-batch-answering"))),
        BarColumn(bar_width=24),
        MofNCompleteColumn(),
        TextColumn("{task.fields[case]}", markup=False),
        console=Console(stderr=True),
        transient=True,
    )
    with bar:
        task = bar.add_task("", total=total, case="")
        yield lambda reached: bar.update(task, completed=reached.done, case=reached.name)


def _lines(total: int) -> Callable[[Reached], None]:
    said = 0

    def tell(reached: Reached) -> None:
        nonlocal said
        if reached.done < said + EVERY or reached.done == total:
            return
        said = reached.done
        faulty = reached.done - reached.written
        line = message("cli-batch-line", written=reached.written, total=total, faulty=faulty)
        warn(worded(line))
        sys.stderr.flush()

    return tell
