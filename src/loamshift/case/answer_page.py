"""The reference of the answer's keys: meaning, equation, figures and source of each."""

from __future__ import annotations

import sys
from collections.abc import Mapping
from pathlib import Path
from typing import Final

from loamshift.case.answer import ANSWER_VERSION, answer_keys, type_hints
from loamshift.case.answer_keys import AnswerKey
from loamshift.case.answer_schema import answer_parts, key_of
from loamshift.domain.answer import Answer
from loamshift.domain.explanation import ExplainedFigure, Explanation
from loamshift.report.messages import say, say_each
from loamshift.report.words import Words
from loamshift.services.explanation_entry import title_of
from loamshift.services.explanations import ANSWER_KEYS as EXPLAINED
from loamshift.services.why import explain

_WORDS: Final = Words()
_HEAD: Final = f"""# Answer keys

<!-- Written by `python -m loamshift.case.answer_page docs/answer-keys.md`; do not edit here. -->

What `loamshift advise CASE.toml --json` prints, key by key, and what stands behind each number:
the equation, the figures that weigh most in it, and who says so. `loamshift why KEY` prints the
same at a terminal. Types and enumerations are listed with [the case file](case.md). Version
{ANSWER_VERSION} of the answer: all keys are always there, null or `[]` where there is nothing to
say, and their meaning stays fixed within a version.
"""


def answer_page() -> str:
    """The whole reference as Markdown."""
    parts = [_HEAD]
    for key in answer_keys(Answer):
        row = key_of(Answer, key)
        part = _part_of(key)
        below = answer_keys(part) if part is not None else ()
        stems = [key, *(f"{key}.{name}" for name in below)]
        parts.append(f"## `{key}`\n\n{row.text}{_unit(row)}\n")
        if key in EXPLAINED:
            parts.append(_explained(key, head=""))
        if part is not None:
            parts.append(_table({name: key_of(part, name) for name in below}))
        for stem in stems[1:]:
            if stem in EXPLAINED:
                parts.append(
                    _explained(stem, head=f"### `{stem}`: {_small(say(title_of(stem), _WORDS))}")
                )
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


def _unit(row: AnswerKey) -> str:
    return f" Unit: {row.unit}." if row.unit else ""


def _table(rows: Mapping[str, AnswerKey]) -> str:
    head = "| key | unit | meaning |\n|---|---|---|\n"
    body = "".join(f"| `{name}` | {row.unit} | {row.text} |\n" for name, row in rows.items())
    return head + body


def _small(title: str) -> str:
    return title[:1].lower() + title[1:]


def _explained(stem: str, *, head: str) -> str:
    explanation = explain(stem)
    lines = [head, ""] if head else []
    for text in explanation.text:
        lines += [say(text, _WORDS), ""]
    if explanation.equations:
        lines += ["```text", *say_each(explanation.equations, _WORDS), "```", ""]
    if explanation.figures:
        lines += _figures(explanation)
    return "\n".join(lines)


def _figures(explanation: Explanation) -> list[str]:
    head = ["| figure | value | likely | unit | evidence | source |", "|---|---|---|---|---|---|"]
    return [*head, *map(_figure, explanation.figures), ""]


def _figure(figure: ExplainedFigure) -> str:
    likely = ""
    if figure.low is not None and figure.high is not None:
        likely = f"{figure.low:g} to {figure.high:g}"
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
