"""Errors for programs: the same keys whatever went wrong, one line of JSON each."""

from __future__ import annotations

import json
import re
from contextvars import ContextVar
from typing import TYPE_CHECKING, Any, Final

from loamshift.domain.message import Given, Message, Prose
from loamshift.errors import CaseError, Fault

if TYPE_CHECKING:
    from loamshift.report.words import Words

SWITCH: Final = "--json"
FAULT_KEYS: Final = ("path", "line", "given", "problem", "mend")
AS_JSON: ContextVar[bool] = ContextVar("as_json", default=False)
"""Whether what is said on stderr is said as JSON, for the command line that is run."""
_SENTENCE: Final = re.compile(r"(?<=[.?!]) (?=[A-Z“])")


def asks_for_json(arguments: list[str]) -> bool:
    """Whether a command line has ``--json`` among its options."""
    options = arguments[: arguments.index("--")] if "--" in arguments else arguments
    return SWITCH in options


def error_plain(error: Exception, words: Words, *, kind: str, code: int) -> dict[str, Any]:
    """An error in plain data."""
    from loamshift.report.messages.refusal import mend_text, problem_text

    def fault_plain(fault: Fault) -> dict[str, Any]:
        is_line = fault.names_a_line
        return {
            "path": "" if is_line or fault.path == "file" else fault.path,
            "line": int(fault.path.removeprefix("line ")) if is_line else fault.line,
            "given": fault.given,
            "problem": problem_text(fault, words),
            "mend": mend_text(fault, words),
        }

    faults = [fault_plain(fault) for fault in getattr(error, "faults", ())]
    if not isinstance(error, CaseError) and not faults:
        faults = [_only_fault(error, words)]
    source = getattr(error, "source", None) or _value(error, "path")
    return plain(kind, code=code, source=source, faults=faults)


def plain(
    kind: str, *, code: int, source: str | None = None, faults: list[dict[str, Any]] | None = None
) -> dict[str, Any]:
    """The keys of every error; ``source`` is the file that was read or to be written."""
    return {"error": kind, "exit_code": code, "source": source or None, "faults": faults or []}


def fault_of_text(text: str, *, path: str = "", given: str = "") -> dict[str, Any]:
    """A fault by what is said of it: the first sentence is the problem, the others its mend."""
    problem, _, mend = _SENTENCE.sub("\0", text.strip(), count=1).partition("\0")
    return {"path": path, "line": None, "given": given, "problem": problem, "mend": mend}


def one_line(data: object) -> str:
    """Plain data as JSON on one line, without its line end."""
    return json.dumps(data, ensure_ascii=False, allow_nan=False)


def _only_fault(error: Exception, words: Words) -> dict[str, Any]:
    from loamshift.report.messages.refusal import refusal

    given = getattr(error, "text", None) or _value(error, "given") or ""
    return fault_of_text(
        refusal(error, words), path=_value(error, "option") or "", given=str(given)
    )


def _value(error: Exception, name: str) -> str | None:
    """A value of the first message of an error, where a person gave it."""
    said = getattr(error, "said", None)
    first = said.sentences[0] if isinstance(said, Prose) and said.sentences else said
    value = first.values.get(name) if isinstance(first, Message) else None
    return value.text if isinstance(value, Given) else None
