"""Words that head the columns of laboratory reports, in the languages of the trade."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from loamshift.tables.rows import read_rows, words


@dataclass(frozen=True, slots=True)
class HeaderWord:
    """What a column is by its words, and what they say of how it was measured."""

    key: str
    method: str


@cache
def load_header_words() -> Mapping[str, tuple[HeaderWord, ...]]:
    """What each wording may head; more than one where laboratories disagree.

    Returns
    -------
    mapping
        Words without accents, signs and case.

    Examples
    --------
    >>> load_header_words()["ph kcl"]
    (HeaderWord(key='ph', method='KCl'),)
    """
    found: dict[str, dict[HeaderWord, None]] = {}
    for row in read_rows("header_words"):
        for one in words(row, "words"):
            found.setdefault(one, {})[HeaderWord(row["key"], row["method"])] = None
    return {one: tuple(meant) for one, meant in found.items()}
