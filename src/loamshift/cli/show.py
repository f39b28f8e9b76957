"""Printing: the words of this reader, a letter on stdout, and a date from an option."""

from __future__ import annotations

import os
import sys
from datetime import date
from typing import TYPE_CHECKING

import typer

from loamshift.cli.error_json import AS_JSON, one_line
from loamshift.cli.help_text import WORDS_SWITCH
from loamshift.domain.message import Given, message
from loamshift.domain.worded_error import WordedError

if TYPE_CHECKING:
    from loamshift.cli.options import UnitsChoice, WordsChoice
    from loamshift.domain.letter import Letter
    from loamshift.domain.message import Worded
    from loamshift.report.words import Words


def words_for(
    units: UnitsChoice | None,
    words: WordsChoice | None,
    *,
    fallback: str = "metric",
    spelling: str = "",
) -> Words:
    """The words a reader asked for; spelling follows the units unless it is named.

    Parameters
    ----------
    units, words
        What stood on the command line, or None.
    fallback
        Units where the command line names none.
    spelling
        That of the command line; otherwise the one in ``LOAMSHIFT_WORDS`` counts.

    Raises
    ------
    WordedError
        Where ``LOAMSHIFT_WORDS`` names no language there is.
    """
    from loamshift.report.words import Words

    units_word = units.value if units is not None else fallback
    chosen = words.value if words is not None else spelling or os.environ.get(WORDS_SWITCH, "")
    try:
        return Words(spelling=chosen or ("us" if units_word == "us" else "uk"), units=units_word)
    except ValueError:
        wrong = message("cli-words-unknown", given=Given(chosen), variable=Given(WORDS_SWITCH))
        raise WordedError(wrong) from None


def show(letter: Letter) -> None:
    """Print a letter on stdout: with bold on a terminal, bare text in a pipe or by NO_COLOR."""
    if sys.stdout.isatty() and not os.environ.get("NO_COLOR"):
        from rich.console import Console

        from loamshift.report.terminal import print_letter

        print_letter(letter, Console())
    else:
        from loamshift.report.terminal import letter_text

        sys.stdout.write(letter_text(letter))


def say(line: str) -> None:
    """Print one line of a result on stdout."""
    sys.stdout.write(line.rstrip("\n") + "\n")


def warn(message: str) -> None:
    """Say something on stderr that is no result; as JSON where that is asked for."""
    text = message.rstrip("\n")
    if AS_JSON.get():
        text = one_line({"note": text.strip()}) if text.strip() else ""
        sys.stderr.write(f"{text}\n" if text else "")
        return
    sys.stderr.write(f"{text}\n")


def worded(said: Worded, words: Words | None = None) -> str:
    """A message in the words of a reader; British English where None is named."""
    from loamshift.report.messages import say as say_message
    from loamshift.report.words import Words

    return say_message(said, words or Words())


def tell(said: Worded, words: Words | None = None) -> None:
    """Say a message on stderr that is no result."""
    warn(worded(said, words))


def misuse(said: Worded, option: str) -> typer.BadParameter:
    """The error of an option that was used in a wrong way, by its message."""
    return typer.BadParameter(worded(said), param_hint=option)


def read_date(text: str, *, option: str) -> date:
    """A date written as 2026-04-12.

    Raises
    ------
    WordedError
        Where it is no date of the calendar.
    """
    try:
        return date.fromisoformat(text.strip())
    except ValueError as error:
        from loamshift.case.dates import date_from_typed

        meant = date_from_typed(text)
        example = Given("2026-04-12" if meant is None else meant.isoformat())
        raise WordedError(
            message("cli-not-a-date", option=Given(option), given=Given(text), example=example)
        ) from error


def clock_today() -> date:
    """Today by the machine's clock: only a door may ask it."""
    return date.today()  # noqa: DTZ011 - a garden's day is the local day
