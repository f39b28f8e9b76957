"""Many cases in one run: which files they are, what their letters are called, and the run."""

from __future__ import annotations

import sys
import traceback
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from loamshift.cli.answering import Answered, Wish, answered
from loamshift.cli.files import check_folder, make_folder, write_whole
from loamshift.cli.letter_forms import CHARTS, Form, Paper, chart_content, letter_content
from loamshift.cli.run import ANSWERED, INTERRUPTED, OUR_FAULT, TO_MEND, TRACEBACK_SWITCH
from loamshift.errors import CaseError, InputError

ENDING: Final = ".toml"
_CHART_ENDINGS: Final = tuple(f".{form.value}" for form in CHARTS)
_BESIDE: Final = "Each letter is beside its case."


@dataclass(frozen=True, slots=True, kw_only=True)
class Errand:
    """One case file and the file names of its letters, without their ending."""

    case: Path
    stem: Path

    def file(self, form: Form) -> Path:
        """Where the letter in this form goes [path]."""
        return self.stem.parent / f"{self.stem.name}.{form.value}"


def case_files(given: Sequence[Path]) -> list[Path]:
    """The case files meant: files as given, folders by the case files in them.

    Parameters
    ----------
    given
        Files and folders of the command line [paths].

    Returns
    -------
    list of Path
        Each file once, those of a folder in the order of their names [paths].

    Raises
    ------
    InputError
        Where a folder cannot be read or holds no case file.
    """
    found: dict[Path, Path] = {}
    for path in given:
        for file in _cases_of(path) if path.is_dir() else [path]:
            found.setdefault(file.absolute(), file)
    return list(found.values())


def _cases_of(folder: Path) -> list[Path]:
    try:
        files = [path for path in folder.iterdir() if path.suffix.casefold() == ENDING]
    except OSError as error:
        raise InputError(f"{folder} cannot be read: {error.strerror or error}") from error
    cases = [path for path in files if not path.name.startswith(".") and path.is_file()]
    if not cases:
        raise InputError(f"{folder} holds no case file; their names end in {ENDING}")
    return sorted(cases, key=lambda path: (path.name.casefold(), path.name))


def errands(cases: Sequence[Path], out: Path | None) -> list[Errand]:
    """A name for the letters of every case; no two cases share one.

    Parameters
    ----------
    cases
        The case files [paths].
    out
        Folder for all letters; None puts each beside its case [path].

    Returns
    -------
    list of Errand
        In the order of the cases. Cases of one name get their folder's name in front, and a
        number where that does not tell them apart [objects].
    """
    stems = [(out if out is not None else case.parent) / case.stem for case in cases]
    twice = Counter(map(_folded, stems))
    named: list[Errand] = []
    taken: set[str] = {_folded(stem) for stem in stems if twice[_folded(stem)] == 1}
    for case, stem in zip(cases, stems, strict=True):
        if twice[_folded(stem)] > 1:
            stem = _free(stem, case, taken)
            taken.add(_folded(stem))
        named.append(Errand(case=case, stem=stem))
    return named


def _free(stem: Path, case: Path, taken: set[str]) -> Path:
    folder = case.absolute().parent.name
    name = f"{folder}-{stem.name}" if folder else stem.name
    trial, number = stem.parent / name, 1
    while _folded(trial) in taken:
        number += 1
        trial = stem.parent / f"{name}-{number}"
    return trial


def _folded(path: Path) -> str:
    """Two paths that fold alike may be one file on some machines."""
    return str(path.absolute()).casefold()


def advise_many(
    cases: Sequence[Path],
    wish: Wish,
    *,
    forms: Sequence[Form],
    out: Path | None,
    paper: Paper | None,
) -> tuple[int, list[Path]]:
    """Answer every case, write its letters, and print a summary.

    Parameters
    ----------
    cases
        The case files [paths].
    wish
        How to answer them [object].
    forms
        In which forms to write each letter [enumeration].
    out
        Folder for all letters; None puts each beside its case [path].
    paper
        Of a PDF; None follows the reader's units [enumeration].

    Returns
    -------
    tuple
        Exit code [code], and the files written [paths].
    """
    from loamshift.cli.show import show, warn
    from loamshift.report.summary import CaseRow, summary_letter

    if out is not None:
        make_folder(out)
    todo = errands(cases, out)
    read = {case.absolute() for case in cases}
    rows: list[CaseRow] = []
    told: list[str] = []
    files: list[Path] = []
    code = ANSWERED
    in_one = len({case.parent for case in cases}) == 1
    with progress(len(todo)) as step:
        for errand in todo:
            name = printable(errand.case.name if in_one else str(errand.case))
            step(name)
            written: list[Path] = []
            try:
                check_folder(errand.stem.parent)
                done = answered(errand.case, wish)
                for path, content in _made(errand, done, forms, paper, never=read).items():
                    write_whole(path, content, replace=True)
                    written.append(path)
            except KeyboardInterrupt:
                code = INTERRUPTED
                if written:
                    rows.append(CaseRow(name=name, fault=f"stopped after {_named(written)}"))
                break
            except InputError as error:
                code = max(code, TO_MEND)
                told.append(_with_source(str(error), name))
                rows.append(CaseRow(name=name, fault=_in_short(error)))
            except Exception as error:
                code = OUR_FAULT
                told.append(_our_fault(error, name))
                rows.append(CaseRow(name=name, fault=f"our fault: {type(error).__name__}"))
            else:
                files += written
                rows.append(
                    CaseRow(
                        name=name,
                        answer=done.answer,
                        words=done.frozen.words,
                        written=_named(written),
                    )
                )
    where = f"The letters are in {printable(str(out))}." if out is not None else _BESIDE
    show(summary_letter(rows, unreached=len(todo) - len(rows), where=where if files else ""))
    sys.stdout.flush()
    for text in told:
        warn(f"\n{text}")
    if code == INTERRUPTED:
        warn("\nStopped. The letters named above are written, each whole; nothing else was.")
    return code, files


def _made(
    errand: Errand,
    done: Answered,
    forms: Sequence[Form],
    paper: Paper | None,
    *,
    never: set[Path],
) -> dict[Path, str | bytes]:
    """Every form of a letter, made before the first is written: a fault in one leaves none."""
    made: dict[Path, str | bytes] = {}
    for form in forms:
        if form is Form.JSON:
            made[errand.file(form)] = done.json() + "\n"
        elif form in CHARTS:
            for name, data in chart_content(done.frozen, form).items():
                made[errand.stem.parent / f"{errand.stem.name}-{name}"] = data
        else:
            made[errand.file(form)] = letter_content(form, done.frozen, paper=paper)
    for path in made:
        if path.absolute() in never:
            raise InputError(f"{path} is a file that is read; give another folder with --out")
    return made


def _named(written: Sequence[Path]) -> str:
    """``bed.html, .pdf, 5 charts``: the first file in full, then endings, charts counted."""
    charts = [path for path in written if path.suffix in _CHART_ENDINGS]
    letters = [path for path in written if path not in charts]
    said = [printable(path.name) if path is letters[0] else path.suffix for path in letters]
    if charts:
        said.append(f"{len(charts)} chart{'s' if len(charts) != 1 else ''}")
    return ", ".join(said) or "no chart in it"


def _in_short(error: InputError) -> str:
    if not isinstance(error, CaseError) or not error.faults:
        return printable(str(error))
    rest = len(error.faults) - 1
    more = f" (and {rest} more)" if rest else ""
    fault = error.faults[0]
    return f"{fault.path}: {fault.problem}{more}"


def _with_source(text: str, name: str) -> str:
    return text if text.startswith(name) else f"{name}: {text}"


def _our_fault(error: Exception, name: str) -> str:
    import os

    if os.environ.get(TRACEBACK_SWITCH) == "1":
        return "".join(traceback.format_exception(error))
    return (
        f"{name}: this is our fault, not yours: {type(error).__name__}: {error}. Please report it "
        "with the case file."
    )


def printable(text: str) -> str:
    """A text [text] that a terminal shows as it stands: control codes become ``?`` [text]."""
    return "".join(char if char.isprintable() else "?" for char in text)


@contextmanager
def progress(total: int) -> Iterator[Callable[[str], None]]:
    """A bar on stderr while a terminal watches; else nothing.

    Parameters
    ----------
    total
        Cases to answer [count].

    Yields
    ------
    callable
        Call it with the name of each case before it is answered [text].
    """
    if not sys.stderr.isatty():
        yield lambda name: None
        return
    from rich.console import Console
    from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn

    bar = Progress(
        TextColumn("Answering"),
        BarColumn(bar_width=24),
        MofNCompleteColumn(),
        TextColumn("{task.fields[case]}", markup=False),
        console=Console(stderr=True),
        transient=True,
    )
    with bar:
        task = bar.add_task("", total=total, case="")
        begun = 0

        def step(name: str) -> None:
            nonlocal begun
            bar.update(task, completed=begun, case=name)
            begun += 1

        yield step
