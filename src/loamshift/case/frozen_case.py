"""A case as plain data inside an answer, and back: the keys of the case file in our own units."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from enum import StrEnum
from typing import Any, Final

from loamshift.case.build_place import ONLINE_SOURCE_KEY, OWN_SOURCE_KEY
from loamshift.case.mend import fault_of
from loamshift.case.plain import TooManyFaultsError, is_clean, tell
from loamshift.case.read import case_from_tree
from loamshift.case.said import SAID, in_words, with_messages
from loamshift.case.schema import CASE_VERSION
from loamshift.case.write_case import case_answers
from loamshift.domain.case import Case
from loamshift.domain.message import message
from loamshift.errors import CaseError, Fault
from loamshift.report.words import Words

PATH: Final = "case"
NOTICED: Final = "noticed"
"""What the reader of the case file remarked on; it follows from words that are not kept."""
CLIMATE: Final = "climate"
"""Where figures of one's own climate came from, such as a daily file that is not kept."""
_CLIMATE_AT: Final = f"/{CLIMATE}"
_DEEPEST: Final = 6
_NAME_ONE: Final = message("answer-name-one")


def case_to_plain(case: Case) -> dict[str, Any]:
    """A case as plain lists, texts and numbers, every digit kept.

    Returns
    -------
    dict
        The keys of the case file that have a value; ``noticed`` lists what its reader remarked
        on, ``climate`` says where climate figures of one's own came from.

    Raises
    ------
    CaseError
        Where the case holds what no file can, such as a reading without its date.
    """
    plain: dict[str, Any] = {"case": CASE_VERSION, **_said(case_answers(case))}
    said: dict[str, Any] = {}
    if case.notes:
        plain[NOTICED] = list(in_words(case.notes, Words(), said))
    if case.place is not None and case.place.source_key in (OWN_SOURCE_KEY, ONLINE_SOURCE_KEY):
        plain[CLIMATE] = in_words(case.place.basis, Words(), said, _CLIMATE_AT)
    if said:
        plain[SAID] = said
    return plain


def _said(tree: Mapping[str, Any]) -> dict[str, Any]:
    """What has a value, as JSON knows it."""
    said = {key: _plain(value) for key, value in tree.items()}
    return {key: value for key, value in said.items() if value not in (None, {}, [])}


def _plain(value: Any) -> Any:
    if isinstance(value, Mapping):
        return _said(value)
    if isinstance(value, (list, tuple)):
        return [_plain(part) for part in value]
    if isinstance(value, StrEnum):
        return value.value
    if isinstance(value, date):
        return value.isoformat()
    return value


def case_from_plain(plain: Any, *, source: str) -> Case:
    """The case that an answer keeps, read with the tables of today.

    Raises
    ------
    CaseError
        Where it is no case any more, with every fault and its path.
    """
    if not isinstance(plain, Mapping):
        wrong = message("answer-kind-needed", kind="table")
        raise CaseError([fault_of(PATH, None, wrong, _NAME_ONE)], source=source)
    tree = dict(plain)
    faults: list[Fault] = []
    try:
        noticed = _texts(tree.pop(NOTICED, []), f"{PATH}.{NOTICED}", faults)
        said = tree.pop(SAID, {})
        noticed = with_messages(noticed, said, faults)
        texts = _texts([tree.pop(CLIMATE, "")], f"{PATH}.{CLIMATE}", faults)
        one = said.get(_CLIMATE_AT) if isinstance(said, Mapping) else None
        (climate,) = with_messages(texts, {} if one is None else {"/0": one}, faults)
    except TooManyFaultsError:
        noticed, climate = (), ""
    if _is_deep(tree, _DEEPEST):
        faults.append(fault_of(PATH, None, message("answer-too-deep"), _NAME_ONE))
    if faults:
        raise CaseError(faults, source=source)
    try:
        case = case_from_tree(tree, source=source)
    except CaseError as error:
        placed = [replace(fault, path=f"{PATH}.{fault.path}") for fault in error.faults]
        raise CaseError(placed, source=source) from None
    place = case.place
    if place is not None and climate and place.source_key == OWN_SOURCE_KEY:
        place = replace(place, basis=climate)
    return replace(case, notes=noticed, place=place)


def _texts(value: Any, path: str, faults: list[Fault]) -> tuple[str, ...]:
    if not isinstance(value, list):
        tell(faults, path, value, message("answer-kind-needed", kind="list"))
        return ()
    for number, part in enumerate(value, start=1):
        if not isinstance(part, str) or not is_clean(part):
            tell(faults, f"{path}[{number}]", part, message("answer-kind-needed", kind="text"))
    return tuple(part if isinstance(part, str) else "" for part in value)


def _is_deep(tree: Any, most: int) -> bool:
    if not isinstance(tree, (dict, list)):
        return False
    parts = tree.values() if isinstance(tree, dict) else tree
    return most == 0 or any(_is_deep(part, most - 1) for part in parts)
