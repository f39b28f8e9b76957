"""From what the schema refuses to faults with a path, and the rest of the file kept checkable."""

from __future__ import annotations

import copy
import difflib
from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import cache
from typing import TYPE_CHECKING, Any, Final

from loamshift.case.case_key import row_of
from loamshift.case.mend import ListMend, Mend, fault_of, quoted, shown
from loamshift.case.questions import questions_by_path
from loamshift.case.reads import SKIP
from loamshift.case.schema import CaseFile, item_table, tables
from loamshift.case.schema_base import Table
from loamshift.domain.message import Given, Listed, Message, message
from loamshift.errors import Fault

if TYPE_CHECKING:
    from pydantic_core import ErrorDetails

Loc = tuple[str | int, ...]
MOST_FAULTS = 100
MOST_ENTRIES = 500

_TABLES_ALSO: Final = {"location": "place"}
"""What people call a table, and its name here; what they call a key stands in its row."""


def path_text(loc: Sequence[str | int]) -> str:
    """A place in the file as people count: ``applied[2].amount`` is in the second entry."""
    text = ""
    for part in loc:
        if isinstance(part, int):
            text += f"[{part + 1}]"
        else:
            text += f".{shown(part)}" if text else shown(part)
    return text or "file"


def faults_from(errors: Sequence[ErrorDetails]) -> list[Fault]:
    """One fault for each thing the schema refused, in the order of the schema."""
    found: list[Fault] = []
    for error in errors:
        reason = (error.get("ctx") or {}).get("error")
        if isinstance(reason, ListMend):
            found += [
                fault_of(
                    path_text(error["loc"] if place == "" else (*error["loc"], place)),
                    part,
                    mend.wrong,
                    *(
                        _with_example(mend.right, error["loc"])
                        if isinstance(place, int)
                        else mend.right
                    ),
                )
                for place, part, mend in reason.parts
            ]
        else:
            found.append(_fault(error))
    return found


def _fault(error: ErrorDetails) -> Fault:
    loc = error["loc"]
    path, given = path_text(loc), error.get("input")
    kind = error["type"]
    reason = (error.get("ctx") or {}).get("error")
    if isinstance(reason, Mend):
        return fault_of(path, given, reason.wrong, *_with_example(reason.right, loc))
    if kind == "missing":
        return fault_of(path, None, message("case-missing"), *_with_example((), loc))
    if kind == "extra_forbidden":
        return unknown_key_fault(loc, given)
    if kind == "list_type":
        return _not_a_list(loc, given)
    if kind in ("model_type", "model_attributes_type", "dict_type"):
        name = path_text([p for p in loc if not isinstance(p, int)])
        is_entry = bool(loc) and isinstance(loc[-1], int)
        header = Given(f"[[{name}]]" if is_entry else f"[{name}]")
        wrong = message("case-not-a-table", given=quoted(given))
        return fault_of(path, given, wrong, message("case-write-table", header=header))
    wrong = message("case-not-understood", given=quoted(given))
    return fault_of(path, given, wrong, *_with_example((), loc))


def _with_example(right: tuple[Message, ...], loc: Loc) -> tuple[Message, ...]:
    """What works instead; where nobody gave an example, that of the key's documentation."""
    if any(_SHOWS & set(one.values) for one in right):
        return right
    while loc and isinstance(loc[-1], int):
        loc = loc[:-1]
    table = _table_at(loc[:-1]) if loc else None
    field = table.model_fields.get(str(loc[-1])) if table else None
    row = row_of(field) if field else None
    if row is None:
        return right
    key, example = Given(f"{loc[-1]} = "), Given(row.example)
    return (*right, message("case-example", key=key, example=example, more=None))


_SHOWS: Final = {"example", "line", "words", "names"}
"""Values of a message that show what can be typed."""


def _not_a_list(loc: Loc, given: object) -> Fault:
    name = path_text(loc)
    key = "case-double-brackets" if isinstance(given, dict) else "case-entry-under-header"
    header = Given(f"[[{name}]]")
    return fault_of(name, given, message("case-not-entries"), message(key, header=header))


def unknown_key_fault(loc: Loc, given: object) -> Fault:
    """The fault for a key that its table does not have, with the nearest right one.

    Parameters
    ----------
    given
        What stood there, or None.
    """
    table, key = _table_at(loc[:-1]), str(loc[-1])
    keys = list(table.model_fields) if table else []
    wanted = key.strip().casefold().replace("-", "_").replace(" ", "_")
    here = path_text([p for p in loc[:-1] if not isinstance(p, int)])
    header = None if here == "file" else Given(f"[{here}]")
    wrong = message("case-unknown-key", name=quoted(key), header=header)
    path = path_text(loc)
    elsewhere = [
        f"{name}.{wanted}" if name else wanted
        for name, other in tables().items()
        if wanted in other.model_fields
    ]
    near = difflib.get_close_matches(wanted, keys, n=1, cutoff=0.75)
    if wanted in keys or near:
        named = near[0] if wanted not in keys else wanted
        return fault_of(path, given, wrong, message("case-did-you-mean-key", name=Given(named)))
    if wanted in _called_here():
        known = Given(_called_here()[wanted])
        return fault_of(path, given, wrong, message("case-key-is-called", name=known))
    if elsewhere:
        places = Listed(tuple(Given(place) for place in elsewhere[:4]), either=True)
        return fault_of(path, given, wrong, message("case-key-elsewhere", places=places))
    far = difflib.get_close_matches(wanted, keys, n=3, cutoff=0.5)
    names = Listed(tuple(Given(f"“{name}”") for name in far), either=True)
    listed = message("case-keys-here", header=header, keys=Given(", ".join(keys)))
    if not far:
        return fault_of(path, given, wrong, listed)
    return fault_of(path, given, wrong, message("case-nearest-keys", keys=names), listed)


@cache
def _called_here() -> Mapping[str, str]:
    """What people call a key or a table elsewhere, and where it is here."""
    rows = {path: question.row for path, question in questions_by_path().items()}
    return {**_TABLES_ALSO, **{name: path for path, row in rows.items() for name in row.also}}


def _table_at(loc: Loc) -> type[Table] | None:
    table: type[Table] | None = CaseFile
    for part in loc:
        if isinstance(part, int) or table is None:
            continue
        field = table.model_fields.get(part)
        table = item_table(field.annotation)[0] if field else None
    return table


def without_faulty(tree: Mapping[str, Any], locs: Sequence[Loc]) -> dict[str, Any]:
    """The file with every faulty value marked, so that the rest can be checked as well.

    Returns
    -------
    dict
        A copy: unknown keys are gone, faulty values are ``SKIP``, tables that are none are empty.
    """
    mended: dict[str, Any] = copy.deepcopy(dict(tree))
    for loc in locs:
        node: Any = mended
        try:
            for part in loc[:-1]:
                node = node[part]
        except (KeyError, IndexError, TypeError):
            continue
        table = _table_at(loc[:-1])
        key = loc[-1]
        if isinstance(key, int):
            if isinstance(node, list) and key < len(node):
                node[key] = _all_skipped(_table_at(loc))
        elif isinstance(node, dict):
            field = table.model_fields.get(key) if table else None
            nested, many = item_table(field.annotation) if field else (None, False)
            if field is None or nested is not None:
                node.pop(key, None)
            else:
                node[key] = SKIP
            if nested is not None and many:
                node[key] = []
    return mended


def _all_skipped(table: type[Table] | None) -> dict[str, Any]:
    if table is None:
        return {}
    return {key: SKIP for key, field in table.model_fields.items() if field.is_required()}


def first_faults(faults: Sequence[Fault], *, untold: int = 0) -> list[Fault]:
    """Faults without repeats, at most a hundred and a line that says how many more there are.

    Parameters
    ----------
    untold
        How many more were found [count].
    """
    unique = list(dict.fromkeys(faults))
    more = untold + max(len(unique) - MOST_FAULTS, 0)
    if more == 0:
        return unique
    rest = fault_of("file", None, message("case-and-more", count=more), message("case-these-first"))
    return [*unique[:MOST_FAULTS], rest]


def longer_lists(tree: Mapping[str, Any]) -> tuple[list[Fault], dict[str, Any]]:
    """A fault for every list of entries that no case can have, and the file with it cut short."""
    faults: list[Fault] = []
    cut = dict(tree)
    for key, value in tree.items():
        if isinstance(value, list) and len(value) > MOST_ENTRIES:
            faults.append(
                fault_of(
                    path_text((key,)),
                    None,
                    message("case-many-entries", count=len(value)),
                    message("case-split-file", most=MOST_ENTRIES),
                )
            )
            cut[key] = value[:MOST_ENTRIES]
        elif isinstance(value, dict):
            nested, cut[key] = longer_lists(value)
            faults += [replace(fault, path=f"{shown(key)}.{fault.path}") for fault in nested]
    return faults, cut
