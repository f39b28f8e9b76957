"""How the figures of a column were measured, as its heading or a legend says."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Final

from loamshift.case.intake.asked import answer_key, told_of
from loamshift.case.intake.keys import HAVE_METHOD
from loamshift.case.intake.proposal import Aspect, Finding
from loamshift.case.intake.table import Table
from loamshift.case.intake.understood import Understood
from loamshift.domain.decision import Severity
from loamshift.domain.message import Given, Message, Prose, message
from loamshift.domain.ph import PhMethod
from loamshift.tables.header_words import HeaderWord
from loamshift.tables.laboratory import load_buffer_ph_methods

SOLUTIONS: Final = {"cacl2": "CaCl2", "kcl": "KCl", "h2o": "water", "water": "water"}
"""Words of a heading that name what the soil was mixed with."""
_PH_METHODS: Final = tuple(one.value for one in PhMethod)
_EC_METHODS: Final = ("paste", "1:1", "1:2", "1:5")
_RATIOS: Final = ("1:1", "1:2", "1:2.5", "1:5")


def with_method(table: Table, one: Understood, told: Mapping[str, str]) -> Understood:
    """The column with its method, and a question where the method is not whole."""
    if one.key not in HAVE_METHOD:
        return one
    heading = one.column.heading
    answered = told_of(told, one.meaning.heading, Aspect.METHOD)
    reasons = list(one.meaning.reason.sentences)
    if answered is not None:
        reasons.append(message("intake-why-told"))
        meaning = replace(one.meaning, method=answered, reason=Prose(tuple(reasons)))
        return replace(one, meaning=meaning)
    word = next((w for w in heading.meanings if w.key == one.key), HeaderWord(one.key, ""))
    methods = {word.method} if word.method else set()
    methods |= {SOLUTIONS[left] for left in heading.left if left in SOLUTIONS}
    methods |= {told_by} if (told_by := table.legend.get(heading.text, "")) else set()
    plain = {m.split(" ")[0] for m in methods}
    if len(plain) > 1:
        meaning = replace(one.meaning, sure=False)
        finding = _ask_method(one, "intake-methods-contradict", sorted(methods))
        return replace(one, meaning=meaning, findings=(*one.findings, finding))
    method = max(methods, key=len) if methods else ""
    findings = list(one.findings)
    if one.key == "ph":
        method, asked = _whole_method(one, method, heading.ratio, by_row=_has_methods(table))
        findings.extend(asked)
    elif one.key == "ec":
        method = method or (heading.ratio if heading.ratio in _EC_METHODS else "")
        if not method and len(one.read.figures):
            findings.append(_ask_method(one, "intake-ec-ratio", _EC_METHODS))
    elif not method and len(one.read.figures):
        names = tuple(load_buffer_ph_methods())
        findings.append(_ask_method(one, "intake-buffer-method", names))
    if method and method != "unknown":
        reasons.append(message("intake-why-method", method=Given(method)))
    meaning = replace(one.meaning, method=method, reason=Prose(tuple(reasons)))
    return replace(one, meaning=meaning, findings=tuple(findings))


def _has_methods(table: Table) -> bool:
    """Whether a column says for each row how it was measured."""
    return any(w.key == "method" for c in table.columns for w in c.heading.meanings)


def _whole_method(
    one: Understood, method: str, ratio: str, *, by_row: bool
) -> tuple[str, list[Finding]]:
    """The method of a soil pH as the case file has it, and what is asked where it is not whole."""
    if method == "water" and ratio in _RATIOS:
        return f"water {ratio}", []
    if method in ("CaCl2", "KCl", "paste", "probe") or method.startswith("water 1"):
        return method, []
    if not len(one.read.figures) or by_row:
        return "unknown", []
    if method == "water":
        return "unknown", [_ask_method(one, "intake-ph-ratio", _PH_METHODS[:5])]
    return "unknown", [_ask_method(one, "intake-ph-method", _PH_METHODS)]


def _ask_method(one: Understood, said: str, choices: Sequence[str]) -> Finding:
    return Finding(
        code=said.removeprefix("intake-"),
        severity=Severity.CAUTION,
        said=Message(said, {"heading": Given(one.meaning.heading)}),
        question=message("intake-ask-method", heading=Given(one.meaning.heading)),
        key=answer_key(one.meaning.heading, Aspect.METHOD),
        choices=tuple(choices),
        places=(one.meaning.place,),
    )
