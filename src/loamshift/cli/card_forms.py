"""The forms a card is written in, and the files it becomes."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, TypeAlias

import typer

from loamshift.cli.help_text import told
from loamshift.cli.letter_forms import Paper, paper_size, write_all
from loamshift.domain.message import message
from loamshift.domain.worded_error import WordedError, given

if TYPE_CHECKING:
    from loamshift.domain.card import Card
    from loamshift.report.words import Words

CardMarkdownOption: TypeAlias = Annotated[
    Path | None,
    typer.Option("--md", metavar="FILE", help=told("cli-help-card-forms-md"), show_default=False),
]
CardHtmlOption: TypeAlias = Annotated[
    Path | None,
    typer.Option(
        "--html",
        metavar="FILE",
        help=told("cli-help-card-forms-html"),
        show_default=False,
    ),
]
CardPdfOption: TypeAlias = Annotated[
    Path | None,
    typer.Option(
        "--pdf",
        metavar="FILE",
        help=told("cli-help-card-forms-pdf"),
        show_default=False,
    ),
]
CardPaperOption: TypeAlias = Annotated[
    Paper | None,
    typer.Option("--paper", help=told("cli-help-card-forms-paper"), show_default=False),
]
CardOpenOption: TypeAlias = Annotated[
    bool, typer.Option("--open", help=told("cli-help-letter-forms-open"))
]


def check_open(open_it: bool, *, html: Path | None, pdf: Path | None) -> None:
    """Refuse ``--open`` where nothing is written that could be shown."""
    if open_it and html is None and pdf is None:
        from loamshift.cli.show import misuse

        raise misuse(message("cli-open-what"), "--open")


def write_card(
    card: Card,
    *,
    words: Words,
    markdown: Path | None,
    html: Path | None,
    pdf: Path | None,
    paper: Paper | None,
    open_it: bool,
    never: tuple[Path, ...] = (),
) -> bool:
    """Write a card in every form that was asked for.

    Parameters
    ----------
    markdown, html, pdf
        Files named on the command line, or None.
    paper
        Of PDF and page; None follows the reader's units.
    open_it
        True where what was written is to be shown.

    Raises
    ------
    WordedError
        Where two of them name one file, or one cannot be written.
    """
    named = [path for path in (markdown, html, pdf) if path is not None]
    if len({path.absolute() for path in named}) < len(named):
        twice = next(path for path in named if named.count(path) > 1 or path != named[0])
        raise WordedError(message("cli-named-twice", path=given(twice)))
    files: dict[Path, str | bytes] = {}
    if markdown is not None:
        from loamshift.report.card.plain import card_letter
        from loamshift.report.markdown import letter_markdown

        files[markdown] = letter_markdown(card_letter(card))
    if html is not None or pdf is not None:
        from loamshift.report.card.html import card_html
        from loamshift.report.card.pdf import card_pdf

        size = paper_size(paper, words)
        if html is not None:
            files[html] = card_html(card, paper=size, words=words)
        if pdf is not None:
            files[pdf] = card_pdf(card, paper=size, words=words)
    write_all(files, never=never, what="card")
    shown = html or pdf
    if open_it and shown is not None:
        from loamshift.cli.viewer import show_or_say

        show_or_say(shown)
    return bool(files)
