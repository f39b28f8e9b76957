"""``loamshift next``: which test of a bed to make next, and what each would be worth."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from loamshift.cli.help_text import told
from loamshift.cli.options import JsonOption, TodayOption, UnitsOption, WordsOption
from loamshift.domain.message import message
from loamshift.domain.worded_error import WordedError, given

if TYPE_CHECKING:
    from loamshift.services.worth.pricing import Prices


def command(
    case_file: Annotated[
        Path, typer.Argument(metavar="FILE", help=told("cli-help-next-file"), show_default=False)
    ],
    price: Annotated[
        list[str] | None,
        typer.Option(
            "--price", metavar="NAME=PRICE", help=told("cli-help-next-price"), show_default=False
        ),
    ] = None,
    members: Annotated[
        int, typer.Option("--members", min=25, max=20_000, help=told("cli-help-next-members"))
    ] = 250,
    seed: Annotated[int, typer.Option("--seed", min=0, help=told("cli-help-next-seed"))] = 1,
    on: Annotated[
        str | None,
        typer.Option("--on", metavar="DATE", help=told("cli-help-next-on"), show_default=False),
    ] = None,
    as_json: JsonOption = False,
    units: UnitsOption = None,
    words: WordsOption = None,
    today: TodayOption = None,
) -> None:
    """Say which test of a bed to make next, and what each would be worth.

    Each test is tried on the simulated beds behind the advice: how many more would come into the
    range, how likely the result changes the first application, and its price.

    \b
    Examples:
      loamshift next bed.toml
      loamshift next bed.toml --price buffer-ph=12 --price fizz=0
      loamshift next bed.toml --on 2027-06-01
      loamshift next bed.toml --json
    """
    from loamshift.cli.answering import case_in
    from loamshift.cli.kernel_ready import ready_kernels
    from loamshift.cli.show import read_date, say, show, worded, words_for
    from loamshift.services.advise import LookAhead, advise

    prices = prices_from(price or [])
    day = None if today is None else read_date(today, option="--today")
    case = case_in(case_file, day=day)
    reader = words_for(units, words, fallback=case.units.value)
    ready_kernels()
    if on is not None:
        from loamshift.services.worth.on_day import worth_on_day

        asked = worth_on_day(case, read_date(on, option="--on"), members=members, seed=seed)
        if as_json:
            from loamshift.cli.result_json import print_json

            print_json(asked, reader.on(case.bed.kind.value))
            return
        say(worded(asked.words, reader.on(case.bed.kind.value)))
        return
    answer = advise(case, look_ahead=LookAhead(members=members, seed=seed), prices=prices)
    if as_json:
        from loamshift.cli.result_json import print_json

        print_json(answer.worth, reader.on(case.bed.kind.value))
        return
    from loamshift.report.next_test import next_test_letter

    show(next_test_letter(answer, case, words=reader))


def prices_from(texts: list[str]) -> Prices:
    """The reader's own prices, as ``name=price``, in the currency of the case.

    Raises
    ------
    WordedError
        For a name that is no test, or a price that is no number of 0 or more.
    """
    from loamshift.domain.worth import FurtherTest

    found: dict[FurtherTest, float] = {}
    names = {test.value: test for test in FurtherTest}
    for text in texts:
        name, _, figure = text.partition("=")
        test = names.get(name.strip().casefold())
        if test is None:
            listed = given(", ".join(names))
            raise WordedError(message("worth-price-name", text=given(text), names=listed))
        try:
            cost = float(figure)
        except ValueError:
            cost = -1.0
        if not 0.0 <= cost < 1e7:
            raise WordedError(message("worth-price-figure", text=given(text), name=given(name)))
        found[test] = cost
    return found
