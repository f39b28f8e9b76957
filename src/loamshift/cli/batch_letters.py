"""One case of many: its letter answered and written, and what is told of it afterwards."""

from __future__ import annotations

import os
import traceback
from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import Enum
from pathlib import Path
from typing import TYPE_CHECKING, Final

from loamshift.cli.answering import Answered, Wish, answered
from loamshift.cli.batch_lines import Listing, case_line
from loamshift.cli.error_json import error_plain, fault_of_text, plain
from loamshift.cli.files import NoRoomError, check_folder, write_whole
from loamshift.cli.letter_forms import CHARTS, Form, Paper, chart_content, letter_content
from loamshift.cli.run import ANSWERED, OUR_FAULT, TO_MEND, TRACEBACK_SWITCH
from loamshift.domain.message import message
from loamshift.domain.worded_error import WordedError, given
from loamshift.errors import CaseError, InputError

if TYPE_CHECKING:
    from loamshift.report.summary import CaseRow
    from loamshift.report.words import Words

_CHART_ENDINGS: Final = tuple(f".{form.value}" for form in CHARTS)


class End(Enum):
    """What ends a whole batch, whatever cases are left."""

    STOPPED = "stopped"
    NO_ROOM = "no room"


@dataclass(frozen=True, slots=True, kw_only=True)
class Errand:
    """One case file, what it is called in lists, and where its letters go."""

    case: Path
    stem: Path
    """Path of its letters without their ending [path]."""
    name: str = ""

    def file(self, form: Form) -> Path:
        """Where the letter in this form goes."""
        return self.stem.parent / f"{self.stem.name}.{form.value}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """What is the same for every case of a batch."""

    wish: Wish
    forms: tuple[Form, ...]
    paper: Paper | None
    listing: Listing = Listing.TABLE
    never: frozenset[Path] = frozenset()
    """Files that are read, which no letter may replace [paths]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What became of one case: small, as it may come from another process."""

    row: CaseRow
    code: int = ANSWERED
    files: tuple[Path, ...] = ()
    """Files of a letter that is written in every form [paths]."""
    told: str = ""
    """What is said below the table, where something has to be mended [text]."""
    end: End | None = None
    line: str = ""
    """What a program is told of it; empty where a person reads a table."""


def write_letters(errand: Errand, order: Order) -> Outcome:
    """Answer one case and write its letter in every form."""
    from loamshift.cli.show import worded, words_for
    from loamshift.report.messages.refusal import refusal
    from loamshift.report.summary import CaseRow, answered_row

    written: list[Path] = []
    try:
        if order.forms:
            check_folder(errand.stem.parent)
        done = answered(errand.case, order.wish)
        row = answered_row(errand.name, done.answer, words=done.frozen.words)
        for path, content in _made(errand, done, order).items():
            write_whole(path, content, replace=True)
            written.append(path)
    except KeyboardInterrupt:
        stopped = message("cli-row-stopped", written=given(named(written)))
        row = CaseRow(name=errand.name, fault=worded(stopped) if written else "")
        return Outcome(row=row, end=End.STOPPED)
    except NoRoomError as error:
        fault = message("cli-row-no-room")
        if written:
            fault = message("cli-row-no-room-after", written=given(named(written)))
        row = CaseRow(name=errand.name, fault=worded(fault))
        told = refusal(error, words_for(order.wish.units, order.wish.words))
        line = _fault_line(errand, order, error, TO_MEND, kind="no-room")
        return Outcome(row=row, code=TO_MEND, told=told, end=End.NO_ROOM, line=line)
    except InputError as error:
        asked = getattr(error, "units", "") or "metric"
        reader = words_for(order.wish.units, order.wish.words, fallback=asked)
        row = CaseRow(name=errand.name, fault=_in_short(error, reader))
        told = _with_source(refusal(error, reader), errand.name)
        line = _fault_line(errand, order, error, TO_MEND, kind="input", reader=reader)
        return Outcome(row=row, code=TO_MEND, told=told, line=line)
    except Exception as error:
        ours = message("cli-row-our-fault", error=given(type(error).__name__))
        row = CaseRow(name=errand.name, fault=worded(ours))
        return Outcome(row=row, code=OUR_FAULT, told=_our_fault(error, errand.name))
    line = case_line(order.listing, errand.case, code=ANSWERED, done=done, files=written)
    letter = named(written) if order.forms else ""
    return Outcome(row=row.with_letter(letter), files=tuple(written), line=line)


def _fault_line(
    errand: Errand,
    order: Order,
    error: InputError,
    code: int,
    *,
    kind: str,
    reader: Words | None = None,
) -> str:
    if order.listing is Listing.TABLE:
        return ""
    from loamshift.cli.show import words_for

    words = reader or words_for(order.wish.units, order.wish.words)
    told = error_plain(error, words, kind=kind, code=code)
    return case_line(order.listing, errand.case, code=code, error=told)


def with_line(outcome: Outcome, errand: Errand, listing: Listing) -> Outcome:
    """The same with a line for a program, where what went wrong left none."""
    if outcome.line or listing is Listing.TABLE:
        return outcome
    source = str(errand.case)
    faults = [fault_of_text(outcome.told)]
    told = plain("program", code=outcome.code, source=source, faults=faults)
    return replace(outcome, line=case_line(listing, errand.case, code=outcome.code, error=told))


def died(errand: Errand, exit_code: int | None) -> Outcome:
    """What is told of a case whose process ended while it was answered.

    Parameters
    ----------
    exit_code
        Of the process; negative for a signal of the system, as for want of memory.
    """
    from loamshift.cli.show import worded
    from loamshift.report.summary import CaseRow

    is_signal = exit_code is not None and exit_code < 0
    how = message("cli-process-signal", n=-(exit_code or 0)) if is_signal else given(exit_code)
    ended = message("cli-process-ended", name=given(errand.name), how=how)
    return Outcome(
        row=CaseRow(name=errand.name, fault=worded(message("cli-row-process"))),
        code=OUR_FAULT,
        told=worded(ended),
    )


def _made(errand: Errand, done: Answered, order: Order) -> dict[Path, str | bytes]:
    """Every form of a letter, made before the first is written: a fault in one leaves none."""
    made: dict[Path, str | bytes] = {}
    for form in order.forms:
        if form is Form.JSON:
            made[errand.file(form)] = done.json() + "\n"
        elif form in CHARTS:
            for name, data in chart_content(done.shown, form).items():
                made[errand.stem.parent / f"{errand.stem.name}-{name}"] = data
        else:
            made[errand.file(form)] = letter_content(form, done.shown, paper=order.paper)
    for path in made:
        if path.absolute() in order.never:
            raise WordedError(message("cli-is-read-out", path=given(path)))
    return made


def named(written: Sequence[Path]) -> str:
    """``bed.html, .pdf, 5 charts``: the first file in full, then endings, charts counted."""
    from loamshift.cli.show import worded

    charts = [path for path in written if path.suffix in _CHART_ENDINGS]
    letters = [path for path in written if path not in charts]
    said = [printable(path.name) if path is letters[0] else path.suffix for path in letters]
    if charts:
        said.append(worded(message("cli-charts", n=len(charts))))
    return ", ".join(said) or worded(message("cli-no-chart-in-it"))


def printable(text: str) -> str:
    """A text that a terminal shows as it stands: control codes become ``?``."""
    return "".join(char if char.isprintable() else "?" for char in text)


def _in_short(error: InputError, words: Words) -> str:
    from loamshift.cli.show import worded
    from loamshift.report.messages.refusal import problem_text, refusal

    if not isinstance(error, CaseError) or not error.faults:
        return printable(refusal(error, words))
    fault = error.faults[0]
    line = message(
        "cli-row-problem",
        path=given(fault.path),
        text=given(problem_text(fault, words)),
        n=len(error.faults) - 1,
    )
    return worded(line, words)


def _with_source(text: str, name: str) -> str:
    from loamshift.cli.show import worded

    if name in text.splitlines()[0]:
        return text
    return worded(message("cli-in-case", name=given(name), text=given(text)))


def _our_fault(error: Exception, name: str) -> str:
    if os.environ.get(TRACEBACK_SWITCH) == "1":
        return "".join(traceback.format_exception(error))
    from loamshift.cli.show import worded

    ours = {"name": given(name), "error": given(type(error).__name__), "text": given(error)}
    return worded(message("cli-case-our-fault", **ours))
