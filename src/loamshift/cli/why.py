"""``loamshift why``: show where a number comes from, in general or with the sum of one bed."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from loamshift.cli import completion
from loamshift.cli.help_text import told
from loamshift.cli.options import JsonOption, UnitsOption, WordsOption
from loamshift.domain.message import message
from loamshift.domain.worded_error import WordedError, given

if TYPE_CHECKING:
    from loamshift.domain.answer import Answer
    from loamshift.domain.case import Case
    from loamshift.domain.explanation import Explanation
    from loamshift.domain.own_sum import OwnSum
    from loamshift.report.words import Words


def command(
    key: Annotated[
        str | None,
        typer.Argument(
            metavar="KEY",
            help=told("cli-help-why-the-key"),
            show_default=False,
            autocompletion=completion.why_keys,
        ),
    ] = None,
    case_file: Annotated[
        Path | None,
        typer.Option(
            "--case",
            metavar="CASE.toml",
            help=told("cli-help-why-case"),
            show_default=False,
        ),
    ] = None,
    as_json: JsonOption = False,
    units: UnitsOption = None,
    words: WordsOption = None,
) -> None:
    """Show where a number comes from: its equation, inputs and source.

    With --case it shows the sum with the figures of that bed: what came from the case, what from
    a table, what was assumed, how sure the number is and what would make it surer.

    \b
    Examples:
      loamshift why dose.acid_mmolc_kg
      loamshift why dose.sulfur_as_s_g_m2 --case bed.toml
      loamshift why --case bed.toml
      loamshift why "elemental sulfur, powder.bulk_density_kg_m3"
    """
    from loamshift.cli.show import show, words_for
    from loamshift.report.explanation import explanation_letter, keys_letter
    from loamshift.services.why import explain, explained_keys

    if case_file is not None:
        _of_bed(case_file, key, units, words, as_json=as_json)
        return
    reader = words_for(units, words)
    if as_json:
        _print(
            reader,
            keys=explained_keys() if key is None else None,
            explanation=None if key is None else explain(key),
        )
    elif key is None:
        show(keys_letter(explained_keys(), words=reader))
    else:
        show(explanation_letter(explain(key), words=reader))


def _of_bed(
    path: Path, key: str | None, units: UnitsOption, words: WordsOption, *, as_json: bool
) -> None:
    from loamshift.cli.show import show, words_for
    from loamshift.report.explanation import explanation_letter, own_keys_letter, sum_letter
    from loamshift.services.own_sum.sums import NoSum, own_keys, own_sum
    from loamshift.services.why import UnknownKey, explain

    case, answer = _asked(path)
    reader = words_for(units, words, fallback=case.units.value)
    if key is None:
        own = own_keys(answer)
        if as_json:
            _print(reader, keys={"answer": tuple(own)})
        else:
            show(own_keys_letter(own, name=case.name, words=reader))
        return
    try:
        total = own_sum(case, answer, key)
    except NoSum as fault:
        try:
            found = explain(key)
        except UnknownKey:
            raise fault from None
        if found.kind == "answer":
            raise fault from None
        if as_json:
            _print(reader, explanation=found)
        else:
            show(explanation_letter(found, words=reader))
        return
    try:
        general = explain(total.key)
    except UnknownKey:
        general = None
    if as_json:
        _print(reader, explanation=general, total=total)
    else:
        show(sum_letter(total, general, name=case.name, words=reader))


def _print(
    reader: Words,
    *,
    keys: object = None,
    explanation: Explanation | None = None,
    total: OwnSum | None = None,
) -> None:
    """What can be asked for, or what was: in general, and with the figures of the bed."""
    from loamshift.cli.result_json import print_json

    print_json({"keys": keys, "explanation": explanation, "sum": total}, reader)


def _asked(path: Path) -> tuple[Case, Answer]:
    """The case in a file and its answer: the one the file keeps, or one worked out now."""
    from loamshift.cli.answering import Wish, answer_for, case_in

    if path.is_dir():
        raise WordedError(message("cli-why-folder", path=given(path)))
    if path.suffix.casefold() == ".json":
        from loamshift.case.answer_file import read_answer_file

        kept = read_answer_file(path)
        return kept.case(), kept.answer
    case = case_in(path, day=None)
    return case, answer_for(case, Wish())
