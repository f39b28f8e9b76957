"""The random cases draw every key of the case file that can matter."""

from __future__ import annotations

import tomllib
from typing import Any, Final

from laws.random_cases import case_text
from loamshift.case.schema import CaseFile, item_table
from loamshift.case.schema_base import Table

NOT_DRAWN: Final = frozenset({"place.daily_file", "place.soil_temp_file"})
"""A file beside the case: the tests of the reader have one."""
TRIED: Final = 1500


def keys_of(model: type[Table], path: str = "") -> set[str]:
    """Every key of the schema by its path."""
    found = set()
    for name, field in model.model_fields.items():
        inner, _ = item_table(field.annotation)
        if inner is not None and name != "label":
            found |= keys_of(inner, f"{path}{name}.")
        else:
            found.add(path + name)
    return found


def drawn_keys(tree: dict[str, Any], path: str = "") -> set[str]:
    """Every key of a case by its path."""
    found = set()
    for name, value in tree.items():
        entries = value if isinstance(value, list) else [value]
        tables = [entry for entry in entries if isinstance(entry, dict)]
        if tables and name != "label":
            for entry in tables:
                found |= drawn_keys(entry, f"{path}{name}.")
        else:
            found.add(path + name)
    return found


def test_every_key_that_can_matter_is_drawn() -> None:
    drawn: set[str] = set()
    for seed in range(TRIED):
        drawn |= drawn_keys(tomllib.loads(case_text(seed)))
    assert keys_of(CaseFile) - drawn == NOT_DRAWN
