"""``loamshift advise``: case files in, letters out."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from loamshift.cli import completion
from loamshift.cli.help_text import told
from loamshift.cli.letter_forms import (
    ChartOption,
    Form,
    HtmlOption,
    MarkdownOption,
    OpenOption,
    Paper,
    PaperOption,
    PdfOption,
    contents,
    write_all,
)
from loamshift.cli.options import (
    ShortOption,
    TodayOption,
    UnitsOption,
    WordsOption,
    path_given,
)
from loamshift.domain.message import Given, Listed, message

if TYPE_CHECKING:
    from loamshift.cli.batch_lines import Listing


def command(
    cases: Annotated[
        list[Path],
        typer.Argument(
            metavar="CASE.toml",
            help=told("cli-help-advise-the-case-toml"),
            show_default=False,
            parser=path_given,
        ),
    ],
    as_json: Annotated[bool, typer.Option("--json", help=told("cli-help-advise-json"))] = False,
    as_csv: Annotated[bool, typer.Option("--csv", help=told("cli-help-advise-csv"))] = False,
    short: ShortOption = False,
    markdown: MarkdownOption = None,
    html: HtmlOption = None,
    pdf: PdfOption = None,
    chart: ChartOption = None,
    forms: Annotated[
        list[str] | None,
        typer.Option(
            "--as",
            metavar="FORM",
            help=told("cli-help-advise-as"),
            show_default=False,
        ),
    ] = None,
    out: Annotated[
        Path | None,
        typer.Option(
            "--out",
            metavar="FOLDER",
            help=told("cli-help-advise-out"),
            show_default=False,
        ),
    ] = None,
    jobs: Annotated[
        int | None,
        typer.Option(
            "--jobs",
            min=1,
            metavar="N",
            help=told("cli-help-advise-jobs"),
            show_default=False,
        ),
    ] = None,
    paper: PaperOption = None,
    open_it: OpenOption = False,
    table: Annotated[
        str | None,
        typer.Option(
            "--table",
            metavar="SOURCE",
            help=told("cli-help-advise-table"),
            show_default=False,
            autocompletion=completion.tables,
        ),
    ] = None,
    members: Annotated[
        int, typer.Option("--members", min=3, max=20000, help=told("cli-help-advise-members"))
    ] = 250,
    seed: Annotated[int, typer.Option("--seed", min=0, help=told("cli-help-advise-seed"))] = 1,
    years: Annotated[
        int, typer.Option("--years", min=0, max=50, help=told("cli-help-advise-years"))
    ] = 3,
    no_refit: Annotated[
        bool,
        typer.Option(
            "--no-refit",
            help=told("cli-help-advise-no-refit"),
        ),
    ] = False,
    online: Annotated[bool, typer.Option("--online", help=told("cli-help-advise-online"))] = False,
    units: UnitsOption = None,
    words: WordsOption = None,
    today: TodayOption = None,
) -> None:
    """Answer cases: verdict first, then dose, dated parts, cost and cautions.

    Reads a case file and prints a letter. The verdict may be “don't”: that is an answer too.
    With several files or a folder, writes a letter for each and prints a summary.

    \b
    Examples:
      loamshift advise bed.toml --units us --pdf letter.pdf
      loamshift advise beds/ --as html,pdf --out letters/
    """
    from loamshift.cli.answering import Wish, answered
    from loamshift.cli.batch_lines import Listing
    from loamshift.cli.show import misuse, read_date, say, show

    wish = Wish(
        table=table,
        members=members,
        seed=seed,
        years=years,
        refit=not no_refit,
        online=online,
        day=read_date(today, option="--today") if today is not None else None,
        units=units,
        words=words,
        short=short,
    )
    if as_csv and as_json:
        raise misuse(message("cli-json-or-csv"), "--csv")
    if len(cases) > 1 or forms or out is not None or as_csv or cases[0].is_dir():
        named = {"--md": markdown, "--html": html, "--pdf": pdf, "--chart": chart}
        _refuse_named(named)
        _many(
            cases,
            wish,
            forms=read_forms(forms, as_json=as_json)
            if forms or out is not None or not (as_json or as_csv)
            else [],
            listing=Listing.CSV if as_csv else Listing.JSON if as_json else Listing.TABLE,
            out=out,
            paper=paper,
            jobs=jobs,
            show=open_it,
        )
        return
    if open_it and html is None and pdf is None:
        raise misuse(message("cli-open-what"), "--open")
    done = answered(cases[0], wish)
    files = contents(done.shown, markdown=markdown, html=html, pdf=pdf, chart=chart, paper=paper)
    printed = done.json() if as_json else None
    write_all(files, never=(cases[0],))
    if printed is not None:
        say(printed)
    elif not files:
        show(done.shown.letter)
    shown = html or pdf
    if open_it and shown is not None:
        from loamshift.cli.viewer import show_or_say

        show_or_say(shown)


def _refuse_named(named: dict[str, Path | None]) -> None:
    from loamshift.cli.show import misuse

    for option, path in named.items():
        if path is not None:
            ending = Given("svg" if option == "--chart" else option[2:])
            raise misuse(message("cli-one-file", ending=ending), option)


def read_forms(given: list[str] | None, *, as_json: bool) -> list[Form]:
    """Forms of letters as they stood behind ``--as``; a page where none was named."""
    words = [word.strip().casefold() for text in given or [] for word in text.split(",")]
    if as_json:
        words.append(Form.JSON.value)
    right = [form.value for form in Form]
    for word in words:
        if word not in right:
            from loamshift.cli.show import misuse

            forms = Listed(tuple(map(Given, right)), either=True)
            raise misuse(message("cli-no-such-form", given=Given(word), forms=forms), "--as")
    return [Form(word) for word in dict.fromkeys(words)] or [Form.HTML]


def _many(
    given: list[Path],
    wish: object,
    *,
    forms: list[Form],
    listing: Listing,
    out: Path | None,
    paper: Paper | None,
    jobs: int | None,
    show: bool,
) -> None:
    from loamshift.cli.answering import Wish
    from loamshift.cli.batch import advise_many, case_files

    assert isinstance(wish, Wish)
    code, files = advise_many(
        case_files(given),
        wish,
        forms=forms,
        out=out,
        paper=paper,
        jobs=jobs,
        listing=listing,
    )
    shown = [path for path in files if path.suffix in (".html", ".pdf")]
    if show and shown:
        from loamshift.cli.viewer import show_or_say

        show_or_say(shown[0] if len(shown) == 1 else out or shown[0].parent)
    if code:
        sys.exit(code)  # an interrupt has been told, which the library's own exit would not say
