"""``loamshift schema``: the form of a case file or of an answer, for editors and programs."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

import typer

from loamshift.cli.help_text import told
from loamshift.cli.options import WordsOption


class Form(StrEnum):
    """What has a schema."""

    CASE = "case"
    ANSWER = "answer"


def command(
    form: Annotated[
        Form,
        typer.Argument(
            metavar="case|answer", help=told("cli-help-schema-form"), show_default=False
        ),
    ],
    words: WordsOption = None,
) -> None:
    """Print a JSON Schema on stdout.

    \b
    Example:
      loamshift schema case > case.schema.json
    """
    import json

    from loamshift.case.answer_schema import answer_schema
    from loamshift.case.case_schema import case_schema
    from loamshift.cli.show import say, words_for

    reader = words_for(None, words)
    schema = case_schema(reader) if form is Form.CASE else answer_schema(reader)
    say(json.dumps(schema, indent=2, ensure_ascii=False))
