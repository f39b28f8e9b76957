"""The forms a letter is written in, and the files it becomes."""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Final, TypeAlias

import typer

from loamshift.cli.help_text import told
from loamshift.domain.message import message
from loamshift.domain.worded_error import WordedError, given

if TYPE_CHECKING:
    from loamshift.case.frozen import FrozenLetter
    from loamshift.domain.letter import Letter
    from loamshift.report.pdf import PaperSize
    from loamshift.report.words import Words


class Paper(StrEnum):
    """Paper of a PDF."""

    A4 = "a4"
    LETTER = "letter"


class Form(StrEnum):
    """What a letter can be written as; the value is the ending of the file's name."""

    MD = "md"
    HTML = "html"
    PDF = "pdf"
    JSON = "json"
    SVG = "svg"
    PNG = "png"


CHARTS: Final = (Form.SVG, Form.PNG)

MarkdownOption: TypeAlias = Annotated[
    Path | None,
    typer.Option("--md", metavar="FILE", help=told("cli-help-letter-forms-md"), show_default=False),
]
HtmlOption: TypeAlias = Annotated[
    Path | None,
    typer.Option(
        "--html",
        metavar="FILE",
        help=told("cli-help-letter-forms-html"),
        show_default=False,
    ),
]
PdfOption: TypeAlias = Annotated[
    Path | None,
    typer.Option(
        "--pdf", metavar="FILE", help=told("cli-help-letter-forms-pdf"), show_default=False
    ),
]
PaperOption: TypeAlias = Annotated[
    Paper | None,
    typer.Option(
        "--paper",
        help=told("cli-help-letter-forms-paper"),
        show_default=False,
    ),
]
ChartOption: TypeAlias = Annotated[
    Path | None,
    typer.Option(
        "--chart",
        metavar="FILE|FOLDER",
        help=told("cli-help-letter-forms-chart"),
        show_default=False,
    ),
]
OpenOption: TypeAlias = Annotated[
    bool, typer.Option("--open", help=told("cli-help-letter-forms-open"))
]


def letter_content(form: Form, frozen: FrozenLetter, *, paper: Paper | None) -> str | bytes:
    """A letter in one of the forms that are one file and need only the letter.

    Parameters
    ----------
    paper
        Of a PDF; None follows the reader's units.
    """
    return form_of_letter(form, frozen.letter, words=frozen.words, paper=paper)


def form_of_letter(form: Form, letter: Letter, *, words: Words, paper: Paper | None) -> str | bytes:
    """The same of a letter that is not kept.

    Parameters
    ----------
    paper
        Of a PDF; None follows the reader's units.
    """
    if form is Form.MD:
        from loamshift.report.markdown import letter_markdown

        return letter_markdown(letter)
    if form is Form.HTML:
        from loamshift.report.html import letter_html

        return letter_html(letter, words=words)
    if form is Form.PDF:
        from loamshift.report.pdf import letter_pdf

        return letter_pdf(letter, paper=paper_size(paper, words), words=words)
    raise ValueError(f"{form} is not made from the letter alone")


def paper_size(paper: Paper | None, words: Words) -> PaperSize:
    """The sheet that was chosen; without a choice it follows the reader's units."""
    from loamshift.report.pdf import PaperSize

    chosen = paper or (Paper.LETTER if words.units == "us" else Paper.A4)
    return PaperSize.LETTER if chosen is Paper.LETTER else PaperSize.A4


def chart_content(frozen: FrozenLetter, *forms: Form) -> dict[str, bytes]:
    """Every chart of a letter by the name of its file.

    Returns
    -------
    dict
        Bytes by file name, in the order of the letter; empty where the letter has no chart.
    """
    from loamshift.report.chart_files import chart_files, letter_figures

    figures = letter_figures(frozen.letter)
    found: dict[str, bytes] = {}
    for form in forms:
        found |= chart_files(figures, ending=form.value)
    return found


def contents(
    frozen: FrozenLetter,
    *,
    markdown: Path | None,
    html: Path | None,
    pdf: Path | None,
    chart: Path | None,
    paper: Paper | None,
) -> dict[Path, str | bytes]:
    """Every file that options ask for, made in full before the first is written.

    Parameters
    ----------
    markdown, html, pdf
        Files named on the command line, or None.
    chart
        File of one chart, or folder for all; None for none.
    paper
        Of a PDF; None follows the reader's units.

    Raises
    ------
    WordedError
        Where two of them name one file, or the letter has no chart.
    """
    found: dict[Path, str | bytes] = {}
    for form, path in ((Form.MD, markdown), (Form.HTML, html), (Form.PDF, pdf)):
        if path is not None:
            _add(found, path, letter_content(form, frozen, paper=paper))
    if chart is not None:
        for path, data in _charts(frozen, chart).items():
            _add(found, path, data)
    return found


def _add(found: dict[Path, str | bytes], path: Path, content: str | bytes) -> None:
    if any(path.absolute() == other.absolute() for other in found):
        raise WordedError(message("cli-named-twice", path=given(path)))
    found[path] = content


def _charts(frozen: FrozenLetter, chart: Path) -> Mapping[Path, bytes]:
    ending = chart.suffix.casefold().removeprefix(".")
    if chart.is_dir() or not ending:
        found = chart_content(frozen, *CHARTS)
        if found:
            return {chart / name: data for name, data in found.items()}
    elif ending not in CHARTS:
        raise WordedError(message("cli-chart-ending", path=given(chart)))
    else:
        one = _main_chart(frozen, ending)
        if one is not None:
            return {chart: one}
    raise WordedError(message("cli-no-chart", path=given(chart)))


def _main_chart(frozen: FrozenLetter, ending: str) -> bytes | None:
    """The course of the pH where the letter shows it, else its first chart."""
    from loamshift.domain.letter import FigureKind
    from loamshift.report.chart_files import chart_file, letter_figures

    figures = letter_figures(frozen.letter)
    courses = [figure for figure in figures if figure.kind is FigureKind.COURSE]
    chosen = (*courses, *figures)
    return chart_file(chosen[0], ending=ending) if chosen else None


def write_all(
    files: Mapping[Path, str | bytes], *, never: tuple[Path, ...] = (), what: str = "letter"
) -> None:
    """Write files, each whole or not at all, and say so.

    Parameters
    ----------
    files
        What to write, by file.

    Raises
    ------
    WordedError
        Where one would replace what was read, or cannot be written.
    """
    from loamshift.cli.files import make_folder, write_whole
    from loamshift.cli.show import tell

    kept = {_real(path) for path in never}
    for path in files:
        if _real(path) in kept:
            raise WordedError(message("cli-is-read", path=given(path)))
    for folder in dict.fromkeys(path.parent for path in files):
        if not folder.exists() and len([path for path in files if path.parent == folder]) > 1:
            make_folder(folder)
    for path, content in files.items():
        write_whole(path, content, replace=True)
        kind = what if what == "picture" or _is_letter(path) else "file"
        tell(message("cli-written", what=kind, path=given(path)))


def _is_letter(path: Path) -> bool:
    return path.suffix.casefold() not in (".svg", ".png", ".json")


def _real(path: Path) -> Path:
    try:
        return path.resolve()
    except (OSError, RuntimeError, ValueError):
        return path.absolute()
