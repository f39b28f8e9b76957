"""``loamshift reprint``: a letter again, as it was said."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from loamshift.cli.help_text import told
from loamshift.cli.letter_forms import (
    ChartOption,
    HtmlOption,
    MarkdownOption,
    OpenOption,
    PaperOption,
    PdfOption,
    contents,
    write_all,
)
from loamshift.cli.options import JsonOption, ShortOption, UnitsOption, WordsOption, path_given
from loamshift.domain.message import message
from loamshift.domain.worded_error import WordedError, given

if TYPE_CHECKING:
    from loamshift.report.words import Words


def command(
    answer_file: Annotated[
        Path,
        typer.Argument(
            parser=path_given,
            metavar="ANSWER.json",
            help=told("cli-help-reprint-the-answer-json"),
            show_default=False,
        ),
    ],
    markdown: MarkdownOption = None,
    html: HtmlOption = None,
    pdf: PdfOption = None,
    chart: ChartOption = None,
    paper: PaperOption = None,
    open_it: OpenOption = False,
    short: ShortOption = False,
    as_json: JsonOption = False,
    units: UnitsOption = None,
    words: WordsOption = None,
) -> None:
    """Print a letter again from its answer: the very same, whatever tables say by now.

    Nothing is worked out and nothing worded anew, so units and spelling stay what they were.

    \b
    Example:
      loamshift advise bed.toml --json > bed.json
      loamshift reprint bed.json --pdf letter.pdf
    """
    from loamshift.case.answer_file import read_answer_file
    from loamshift.cli.show import misuse, say, show

    if open_it and html is None and pdf is None:
        raise misuse(message("cli-open-what"), "--open")
    kept = read_answer_file(answer_file)
    if kept.letter is None:
        raise WordedError(message("cli-no-letter-kept", path=given(answer_file)))
    from loamshift.cli.answering import front_alone
    from loamshift.report.drawable import drawable

    frozen = front_alone(kept.letter) if short else kept.letter
    _check_reader(kept.letter.words, answer_file, units=units, words=words)
    frozen = replace(frozen, letter=drawable(frozen.letter, frozen.words))
    files = contents(frozen, markdown=markdown, html=html, pdf=pdf, chart=chart, paper=paper)
    write_all(files, never=(answer_file,))
    if as_json:
        say(answer_file.read_text(encoding="utf-8"))
    elif not files:
        show(frozen.letter)
    shown = html or pdf
    if open_it and shown is not None:
        from loamshift.cli.viewer import show_or_say

        show_or_say(shown)


def _check_reader(
    kept: Words, answer_file: Path, *, units: UnitsOption, words: WordsOption
) -> None:
    """A kept letter cannot be said in other units or spelling; say what can be done."""
    asked = []
    if units is not None and units.value != kept.units:
        asked.append(f"--units {units.value}")
    if words is not None and words.value != kept.spelling:
        asked.append(f"--words {words.value}")
    if not asked:
        return
    raise WordedError(
        message(
            "cli-reprint-same",
            path=given(answer_file),
            units=f"{kept.units}-units",
            spelling=kept.spelling,
            asked=given(" ".join(asked)),
        )
    )
