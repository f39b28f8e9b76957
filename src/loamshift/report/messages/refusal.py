"""Errors in the words of one reader: what is wrong, where, and what works instead."""

from __future__ import annotations

import re
from typing import Final

from loamshift.domain.message import Given, Message, Prose, message
from loamshift.domain.worded_error import WordedFault
from loamshift.errors import CaseError, Fault
from loamshift.report.messages.say import say
from loamshift.report.words import Words

_PATH: Final = re.compile(
    r"(?P<table>[A-Za-z_]+(?:\.[A-Za-z_]+)*?)(?:\[(?P<entry>\d+)\])?(?:\.(?P<key>[^.\[\]]+(?:\[\d+\])?))?"
)


def refusal(error: Exception, words: Words) -> str:
    """An error as this reader has it, its faults each on a line of their own.

    Parameters
    ----------
    error
        One that carries messages; any other says what it says by itself.
    """
    if isinstance(error, CaseError):
        return _case_refusal(error, words)
    said = getattr(error, "said", None)
    if said is None:
        return str(error)
    lines = [say(said, words)]
    lines += [f"  {fault_line(one, words)}" for one in getattr(error, "faults", ())]
    return "\n".join(lines)


def _case_refusal(error: CaseError, words: Words) -> str:
    """What is wrong with a case file: how many things, then each with its line and key."""
    source = Given(error.source)
    head = message("case-head", count=len(error.faults), source=source)
    file = Given(re.split(r"[/\\]", error.source)[-1])
    lines = [say(head, words)]
    for fault in error.faults:
        line = message(
            "store-fault-line",
            path=_place(fault, file),
            text=Given(_whole_text(fault, words)),
            given=Given(fault.given),
            quoted="no" if _is_told(fault) else "yes",
        )
        lines.append(f"  {say(line, words)}")
    return "\n".join(lines)


def _place(fault: Fault, file: Given) -> Message | Given:
    """The file, the line and the key of a fault, as far as they are known."""
    if fault.names_a_line:
        return message("case-place-line", file=file, line=int(fault.path.removeprefix("line ")))
    if fault.path == "file":
        return file
    if fault.line is None:
        return Given(fault.path)
    return message("case-place", file=file, line=fault.line, at=key_in_table(fault.path))


def key_in_table(path: str) -> Message | Given:
    """A key with the table it is in, as the case file writes them: ``[bed] area``."""
    found = _PATH.fullmatch(path)
    if found is None:
        return Given(path)
    table, entry, key = found["table"], found["entry"], found["key"]
    if entry is None:
        return Given(f"[{table}] {key}") if key else Given(table)
    at = {"table": Given(table), "entry": Given(entry)}
    if key:
        return message("case-at-key-of-entry", **at, key=Given(key))
    return message("case-at-entry", **at)


def _is_told(fault: Fault) -> bool:
    """Whether the sentences say already what stood there."""
    if isinstance(fault, WordedFault) and any("given" in m.values for m in fault.said.sentences):
        return True
    return fault.given in ("", fault.path) or fault.names_a_line or "“" in fault.problem


def _whole_text(fault: Fault, words: Words) -> str:
    """What is wrong and what is right, with the key before what can be typed."""
    if isinstance(fault, WordedFault):
        return say(fault.said, words)
    return fault_text(fault, words)


def _for_a_field(said: Message) -> Message:
    """An example as it is typed into a field: without its key and its quotation marks."""
    if "example" not in said.values:
        return said
    bare = {
        name: Given(value.text.replace('"', "")) if isinstance(value, Given) else value
        for name, value in said.values.items()
    }
    return message(said.key, **{**bare, "key": Given("")})


def fault_text(fault: Fault, words: Words) -> str:
    """What is wrong and what is right, as it stands beside its field: whole sentences."""
    if isinstance(fault, WordedFault):
        return say(Prose(tuple(map(_for_a_field, fault.said.sentences))), words)
    problem = fault.problem[:1].upper() + fault.problem[1:].rstrip(".")
    return f"{problem}. {fault.mend}".strip()


def problem_text(fault: Fault, words: Words) -> str:
    """What is wrong, alone."""
    if isinstance(fault, WordedFault):
        return say(Prose(fault.said.sentences[:1]), words)
    return fault.problem


def mend_text(fault: Fault, words: Words) -> str:
    """What is right, alone."""
    if isinstance(fault, WordedFault):
        return say(Prose(fault.said.sentences[1:]), words)
    return fault.mend


def fault_line(fault: Fault, words: Words) -> str:
    """A fault with its place, and what stood there, in front."""
    text = _whole_text(fault, words)
    if not fault.path:
        return text
    line = message(
        "store-fault-line",
        path=Given(fault.path),
        text=Given(text),
        given=Given(fault.given),
        quoted="no" if _is_told(fault) else "yes",
    )
    return say(line, words)
