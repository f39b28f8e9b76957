"""The reference of the answer's keys: meaning, equation, figures and source of each."""

from __future__ import annotations

import sys
from collections.abc import Mapping
from pathlib import Path

from loamshift.case.answer import ANSWER_VERSION, answer_keys, type_hints
from loamshift.case.answer_keys import AnswerKey
from loamshift.case.answer_schema import answer_parts, key_of
from loamshift.domain.answer import Answer
from loamshift.domain.explanation import ExplainedFigure, Explanation
from loamshift.domain.message import Given, Message, message
from loamshift.report.messages import say, say_each
from loamshift.report.words import Words
from loamshift.services.explanation_entry import title_of
from loamshift.services.explanations import ANSWER_KEYS as EXPLAINED
from loamshift.services.why import explain


def answer_page(words: Words | None = None) -> str:
    """The whole reference as Markdown.

    Parameters
    ----------
    words
        Language and spelling; British where nobody says.

    Returns
    -------
    str
        Markdown.
    """
    reader = words or Words()
    version = {"answer-version": Given(str(ANSWER_VERSION))}
    parts = [say(Message("reference-answer-keys-head", version), reader) + "\n"]
    for key in answer_keys(Answer):
        row = key_of(Answer, key)
        part = _part_of(key)
        below = answer_keys(part) if part is not None else ()
        stems = [key, *(f"{key}.{name}" for name in below)]
        parts.append(f"## `{key}`\n\n{say(row.meaning, reader)}{_unit(row, reader)}\n")
        if key in EXPLAINED:
            parts.append(_explained(key, reader, head=""))
        if part is not None:
            parts.append(_table({name: key_of(part, name) for name in below}, reader))
        for stem in stems[1:]:
            if stem in EXPLAINED:
                title = _small(say(title_of(stem), reader))
                parts.append(_explained(stem, reader, head=f"### `{stem}`: {title}"))
    return "\n".join(parts)


def _part_of(key: str) -> type | None:
    """The kind of object that stands under a key of the answer, or in its list."""
    words = str(type_hints(Answer)[key])
    found = [kind for kind in answer_parts() if _hold(words, kind.__name__)]
    return found[0] if found else None


def _hold(words: str, name: str) -> bool:
    """True where a type hint as text names this class and not a longer one."""
    return (
        name
        in words.replace("[", " ")
        .replace("]", " ")
        .replace("'", " ")
        .replace(".", " ")
        .replace(",", " ")
        .replace(">", " ")
        .split()
    )


def _unit(row: AnswerKey, words: Words) -> str:
    if row.unit is None:
        return ""
    return " " + say(message("reference-unit", unit=row.unit), words)


def _table(rows: Mapping[str, AnswerKey], words: Words) -> str:
    head = say(message("reference-part-columns"), words)
    body = "".join(
        f"| `{name}` | {say(row.unit, words) if row.unit else ''} | {say(row.meaning, words)} |\n"
        for name, row in rows.items()
    )
    return f"{head}\n|---|---|---|\n{body}"


def _small(title: str) -> str:
    return title[:1].lower() + title[1:]


def _explained(stem: str, words: Words, *, head: str) -> str:
    explanation = explain(stem)
    lines = [head, ""] if head else []
    for text in explanation.text:
        lines += [say(text, words), ""]
    if explanation.equations:
        lines += ["```text", *say_each(explanation.equations, words), "```", ""]
    if explanation.figures:
        lines += _figures(explanation, words)
    return "\n".join(lines)


def _figures(explanation: Explanation, words: Words) -> list[str]:
    head = [say(message("reference-figure-columns"), words), "|---|---|---|---|---|---|"]
    return [*head, *(_figure(figure, words) for figure in explanation.figures), ""]


def _figure(figure: ExplainedFigure, words: Words) -> str:
    likely = ""
    if figure.low is not None and figure.high is not None:
        low, high = Given(f"{figure.low:g}"), Given(f"{figure.high:g}")
        likely = say(message("reference-range", low=low, high=high), words)
    cells = (
        f"`{figure.name}`",
        f"{figure.value:g}",
        likely,
        figure.unit,
        figure.evidence.value,
        f"{{src}}`{figure.source_key}`",
    )
    return "| " + " | ".join(cells) + " |"


def main(arguments: list[str]) -> int:
    """Write the reference to the path given; 0 when done, 2 for wrong usage."""
    if len(arguments) != 1:
        sys.stderr.write("usage: python -m loamshift.case.answer_page docs/answer-keys.md\n")
        return 2
    Path(arguments[0]).write_text(answer_page(), encoding="utf-8")
    return 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
