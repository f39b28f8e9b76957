"""``loamshift card``: the one sheet that hangs in the shed."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from loamshift.cli.card_forms import (
    CardHtmlOption,
    CardMarkdownOption,
    CardOpenOption,
    CardPaperOption,
    CardPdfOption,
    check_open,
    write_card,
)
from loamshift.cli.help_text import told
from loamshift.cli.options import JsonOption, TodayOption, UnitsOption, WordsOption, path_given
from loamshift.domain.message import message
from loamshift.domain.worded_error import WordedError, given

if TYPE_CHECKING:
    from loamshift.domain.answer import Answer
    from loamshift.domain.card import Card
    from loamshift.domain.case import Case
    from loamshift.report.words import Words


def command(
    case_file: Annotated[
        Path,
        typer.Argument(
            parser=path_given,
            metavar="CASE.toml",
            help=told("cli-help-card-the-case-toml"),
            show_default=False,
        ),
    ],
    rescue: Annotated[
        bool,
        typer.Option("--rescue", help=told("cli-help-card-rescue")),
    ] = False,
    markdown: CardMarkdownOption = None,
    html: CardHtmlOption = None,
    pdf: CardPdfOption = None,
    paper: CardPaperOption = None,
    open_it: CardOpenOption = False,
    members: Annotated[
        int, typer.Option("--members", min=3, max=20000, help=told("cli-help-advise-members"))
    ] = 250,
    seed: Annotated[int, typer.Option("--seed", min=0, help=told("cli-help-advise-seed"))] = 1,
    years: Annotated[
        int, typer.Option("--years", min=0, max=50, help=told("cli-help-advise-years"))
    ] = 3,
    as_json: JsonOption = False,
    units: UnitsOption = None,
    words: WordsOption = None,
    today: TodayOption = None,
) -> None:
    """Put a bed's advice on one sheet: what to do and when, with lines to write readings on.

    It holds what is done, not why; the letter of advise explains. It always fits on one sheet.

    \b
    Examples:
      loamshift card bed.toml --pdf bed.pdf
      loamshift card overdone.toml --rescue --html rescue.html
    """
    from loamshift.cli.answering import Wish, answer_for, case_in
    from loamshift.cli.show import read_date, show, words_for
    from loamshift.report.card.plain import card_letter

    check_open(open_it, html=html, pdf=pdf)
    day = read_date(today, option="--today") if today is not None else None
    if case_file.suffix.casefold() == ".json" and day is None:
        from loamshift.case.answer_file import read_answer_file

        kept = read_answer_file(case_file)
        answer, case = kept.answer, kept.case()
    else:
        case = case_in(case_file, day=day)
        answer = answer_for(case, Wish(members=members, seed=seed, years=years))
    reader = words_for(units, words, fallback=case.units.value)
    card = _card(answer, case, rescue=rescue, words=reader)
    written = write_card(
        card,
        words=reader,
        markdown=markdown,
        html=html,
        pdf=pdf,
        paper=paper,
        open_it=open_it,
        never=(case_file,),
    )
    if as_json:
        from loamshift.cli.result_json import print_json

        print_json(card, reader)
    elif not written:
        show(card_letter(card))


def _card(answer: Answer, case: Case, *, rescue: bool, words: Words) -> Card:
    if not rescue:
        from loamshift.report.card.bed import bed_card

        return bed_card(answer, case, words=words)
    from loamshift.report.card.rescue import rescue_sheet
    from loamshift.services.rescue.ask import whom_to_ask

    card = rescue_sheet(answer, case, ask=whom_to_ask(answer, case), words=words)
    if card is None:
        raise WordedError(message("cli-no-rescue", name=given(answer.name)))
    return card
