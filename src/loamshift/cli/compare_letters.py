"""``loamshift compare-letters``: what changed between two answers, and why."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from loamshift.cli.help_text import told
from loamshift.cli.options import JsonOption, TodayOption, UnitsOption, WordsOption, path_given
from loamshift.domain.message import message
from loamshift.errors import CaseError

if TYPE_CHECKING:
    from datetime import date

    from loamshift.case.answer_file import AnswerFile
    from loamshift.cli.answering import Wish
    from loamshift.domain.answer import Answer
    from loamshift.domain.case import Case


def command(
    old: Annotated[
        Path,
        typer.Argument(
            parser=path_given,
            metavar="OLD.json",
            help=told("cli-help-compare-letters-the-old-json"),
            show_default=False,
        ),
    ],
    new: Annotated[
        Path | None,
        typer.Argument(
            parser=path_given,
            metavar="[NEW]",
            help=told("cli-help-compare-letters-the-new"),
            show_default=False,
        ),
    ] = None,
    as_json: JsonOption = False,
    units: UnitsOption = None,
    words: WordsOption = None,
    today: TodayOption = None,
) -> None:
    """Say what changed between two answers: what was told, tables, model, and what followed.

    A case answered now is forecast with the seed, members, years and use of readings of the
    older answer, so that chance is no reason.

    \b
    Examples:
      loamshift compare-letters spring.json autumn.json
      loamshift compare-letters spring.json bed.toml
      loamshift compare-letters spring.json
    """
    from loamshift.case.answer_file import read_answer_file
    from loamshift.cli.show import read_date, say, show, words_for
    from loamshift.services.changes import changes

    day = read_date(today, option="--today") if today is not None else None
    before = read_answer_file(old)
    after = _newer(before, new, day)
    found = changes(
        before.answer,
        after.answer,
        old_case=_table(before.kept_case),
        new_case=after.kept_case,
        between=_between(before, after),
    )
    if as_json:
        import json

        from loamshift.case.codec import Codec
        from loamshift.case.said import in_words

        plain = Codec().encode(in_words(found, words_for(units, words), {}), "changes")
        say(json.dumps(plain, indent=2, ensure_ascii=False, allow_nan=False))
        return
    from loamshift.report.changes import changes_letter

    show(changes_letter(found, words=words_for(units, words, fallback=after.units)))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Newer:
    """The newer side: its answer, its case as plain data, and the units of its reader."""

    answer: Answer
    kept_case: dict[str, Any] | None
    units: str
    now: bool


def _newer(before: AnswerFile, new: Path | None, day: date | None) -> _Newer:
    if new is not None and new.suffix.casefold() == ".json":
        from loamshift.case.answer_file import read_answer_file

        after = read_answer_file(new)
        if day is not None:
            from loamshift.cli.show import misuse

            raise misuse(message("cli-today-for-now"), "--today")
        units = after.letter.words.units if after.letter is not None else "metric"
        return _Newer(
            answer=after.answer, kept_case=_table(after.kept_case), units=units, now=False
        )
    from loamshift.case.frozen_case import case_to_plain
    from loamshift.cli.answering import case_in, dated

    if new is not None:
        case = case_in(new, day=day)
    else:
        case = before.case() if day is None else dated(before.case(), day)
    return _Newer(
        answer=_answered(case, before.answer),
        kept_case=case_to_plain(case),
        units=case.units.value,
        now=True,
    )


def _answered(case: Case, like: Answer) -> Answer:
    """A case answered now with the settings of another answer, its numbers as a file has them."""
    from loamshift.case.answer import answer_from_json, answer_to_json
    from loamshift.cli.answering import answer_for

    return answer_from_json(answer_to_json(answer_for(case, _wish(like))))


def _wish(like: Answer) -> Wish:
    from loamshift.cli.answering import Wish

    made = like.made_by
    return Wish(
        members=made.members or 250,
        seed=made.seed if made.seed is not None else 1,
        years=made.years or 0,
        refit=like.refit is None or like.refit.used,
    )


def _between(before: AnswerFile, after: _Newer) -> Answer | None:
    """The older case answered now, where both case and program changed, to tell them apart."""
    made, remade = before.answer.made_by, after.answer.made_by
    same = (made.tables, made.model, made.version) == (remade.tables, remade.model, remade.version)
    if not after.now or same or before.kept_case in (None, after.kept_case):
        return None
    try:
        return _answered(before.case(), before.answer)
    except CaseError:
        return None


def _table(kept: Any) -> dict[str, Any] | None:
    return kept if isinstance(kept, dict) else None
