"""Cases as the pages see them: a tree of fields, the case it makes, and its text to take along."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from copy import deepcopy
from datetime import date
from typing import Any

from loamshift.case.read import case_from_tree, parse_case
from loamshift.case.write import case_toml
from loamshift.domain.case import Case
from loamshift.store.models import Bed
from loamshift.store.toml_update import with_values

Tree = dict[str, Any]
"""A case file as nested tables: ``{"soil": {"ph": 7.2}, "claim": [{"material": ...}]}``."""


def text_of(tree: Mapping[str, Any]) -> str:
    """A case file from its tables."""
    return case_toml({"case": 1, **tree}, examples=False)


def text_of_bed(bed: Bed, tree: Mapping[str, Any] | None = None) -> str:
    """The case file of a bed, or of a tree in its place: as somebody wrote it, with their remarks,
    or else with what each key means.
    """
    if not bed.own_text:
        return text_of(bed.case_json if tree is None else tree)
    return bed.own_text if tree is None else with_values(bed.own_text, {"case": 1, **tree})


def case_of(tree: Mapping[str, Any], *, today: date) -> Case:
    """The case of a tree as of today, whatever day it was first written for.

    Raises
    ------
    CaseError
        With every fault and its path, where the tree cannot be used.
    """
    return case_from_tree({"case": 1, **tree}, source="this bed", today=today)


def case_of_text(text: str, *, today: date) -> Case:
    """The case of a file as of today.

    Raises
    ------
    CaseError
        With every fault and its path, where the text cannot be used.
    """
    return parse_case(text, source="this bed", today=today)


def key_of(tree: Mapping[str, Any]) -> str:
    """A text that two trees share where they say the same, whatever the order of their keys."""
    return json.dumps(tree, sort_keys=True, ensure_ascii=False, default=str)


def with_fields(tree: Mapping[str, Any], fields: Iterable[tuple[str, str]]) -> Tree:
    """A tree with some fields put in, by their paths as a form or an address gives them.

    ``soil.ph = 7.3`` sets a key, ``claim.0.material`` one of the first entry of a list; an
    empty value takes the key away; a path given twice makes a list. Values stay the texts the
    user wrote, for the case reader to read.
    """
    grown = deepcopy(dict(tree))
    gathered: dict[str, list[str]] = {}
    for path, value in fields:
        gathered.setdefault(path, []).append(value.strip())
    for path, values in gathered.items():
        kept = [value for value in values if value]
        _put(grown, path.split("."), kept if len(kept) > 1 else (kept[0] if kept else None))
    pruned: Tree = _pruned(grown)
    return pruned


def _put(node: Any, keys: list[str], value: object) -> None:
    key, rest = keys[0], keys[1:]
    if isinstance(node, list):
        index = int(key) if key.isdecimal() else len(node)
        while len(node) <= min(index, 200):
            node.append({})
        if index < len(node) and rest and isinstance(node[index], dict):
            _put(node[index], rest, value)
        return
    if not rest:
        if value is None:
            node.pop(key, None)
        else:
            node[key] = value
        return
    child = node.get(key)
    if not isinstance(child, (dict, list)):
        child = [] if rest[0].isdecimal() else {}
        node[key] = child
    _put(child, rest, value)


def _pruned(node: Any) -> Any:
    """Without tables and list entries in which nothing stands."""
    if isinstance(node, dict):
        return {k: v for k, v in ((k, _pruned(v)) for k, v in node.items()) if v not in ({}, [])}
    if isinstance(node, list):
        return [v for v in (_pruned(item) for item in node) if v != {}]
    return node
