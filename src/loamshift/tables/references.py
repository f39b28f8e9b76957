"""The list of sources that every shipped figure points to."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from functools import cache

from loamshift.domain.evidence import Reference
from loamshift.errors import TableError
from loamshift.tables.rows import data_folder


@cache
def load_references() -> Mapping[str, Reference]:
    """Every reference by key."""
    text = (data_folder() / "references.toml").read_text(encoding="utf-8")
    return {
        key: Reference(key, entry["citation"], entry.get("url", ""), entry["grade"])
        for key, entry in tomllib.loads(text).items()
    }


def citation(key: str) -> str:
    """The citation of a key.

    Raises
    ------
    TableError
        Where a table points to a source that is not listed.
    """
    try:
        return load_references()[key].citation
    except KeyError as error:
        raise TableError(f"source key {key} is not in references.toml") from error
