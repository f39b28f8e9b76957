"""Cases at the API: JSON in the shape of a case file, or the text of one."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Any, Final

from django.http import HttpRequest

from loamshift.case.plain import load_json
from loamshift.case.read import case_from_tree, parse_case
from loamshift.domain.case import Case
from loamshift.domain.message import message
from loamshift.domain.worded_error import fault
from loamshift.errors import CaseError
from loamshift.store.models import Bed
from loamshift.web.api.faults import Refused
from loamshift.web.api.shapes import CaseIn, brief
from loamshift.web.cases import text_of_bed

DEEPEST: Final = 6
TOML: Final = ("application/toml", "text/toml", "text/x-toml")
JSON: Final = "application/json"
SOURCE: Final = "the case"


def case_in_body(request: HttpRequest, *, today: date | None) -> Case:
    """The case that stands in a body, as JSON or as TOML by its content type.

    Raises
    ------
    Refused
        Where the body is of another kind.
    CaseError
        With every fault and its path.
    """
    day = today or clock_today()
    text = _text(request)
    if request.content_type in TOML:
        return parse_case(text, source=SOURCE, today=day)
    if request.content_type == JSON:
        return case_from_tree(table(load_json(text, source=SOURCE)), source=SOURCE, today=day)
    raise Refused(415, message("api-content-type"))


def clock_today() -> date:
    """Today by the machine's clock."""
    return date.today()  # noqa: DTZ011 - a garden's day is the local day


def _text(request: HttpRequest) -> str:
    try:
        return request.body.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise Refused(400, message("api-not-text")) from None


def table(tree: Any) -> dict[str, Any]:
    """A tree from JSON that may be a case: a table, and no deeper than a case file is.

    Raises
    ------
    CaseError
        Where it is neither.
    """
    if not isinstance(tree, dict):
        wrong = fault("case", message("api-table-needed"), message("api-send-keys"))
        raise CaseError([wrong], source=SOURCE)
    if _is_deep(tree, DEEPEST):
        wrong = fault("case", message("api-too-deep"), message("api-table-depth"))
        raise CaseError([wrong], source=SOURCE)
    return {"case": 1, **tree}


def _is_deep(tree: Any, most: int) -> bool:
    level = [tree]
    for _ in range(most):
        level = [
            part
            for node in level
            for part in (node.values() if isinstance(node, dict) else node)
            if isinstance(part, (dict, list))
        ]
    return bool(level)


def case_given(given: CaseIn) -> Mapping[str, Any] | str:
    """The case that a body gives: its keys, or the text of a case file.

    Raises
    ------
    CaseError
        Where there is none, or two, or keys that no case file has.
    """
    if (given.case is None) == (given.case_toml is None):
        wrong = fault("case", message("api-case-once"), message("api-leave-one-out"))
        raise CaseError([wrong], source=SOURCE)
    if given.case_toml is not None:
        return given.case_toml
    return table(given.case)


def with_entry(bed: Bed, name: str, entry: Mapping[str, Any]) -> Mapping[str, Any]:
    """The case of a bed with one more entry in one of its lists."""
    found = bed.case_json.get(name)
    entries = found if isinstance(found, list) else []
    return table({**bed.case_json, name: [*entries, dict(entry)]})


def whole_bed(bed: Bed) -> dict[str, Any]:
    """A bed with its case in both forms."""
    return {**brief(bed), "case": bed.case_json, "case_toml": text_of_bed(bed)}
