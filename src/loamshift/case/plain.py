"""JSON of unknown origin taken in: size, depth, numbers and letters checked before any use."""

from __future__ import annotations

import json
import math
import unicodedata
from typing import Any

from loamshift.case.mend import fault_of, quoted, shown
from loamshift.domain.message import Message, message
from loamshift.errors import CaseError, Fault

LARGEST_CHARS = 20_000_000
MOST_FAULTS = 100
DEEPEST = 40


class TooManyFaultsError(Exception):
    """So many faults that reading on would help nobody."""


class Tried(list[Fault]):
    """Faults of a shape that was only tried, which nobody reads."""


_TRIED = Fault("", "", "", "")


def load_json(text: str, *, source: str) -> Any:
    """The value in a JSON text, which may come from anybody.

    Returns
    -------
    Any
        Lists, tables, texts, finite numbers, truths and None.

    Raises
    ------
    CaseError
        Where it is too large, no JSON, nested too deeply, or holds a number that is none.
    """
    if len(text) > LARGEST_CHARS:
        raise _file_error(message("answer-too-large"), source)
    try:
        tree = json.loads(
            text, parse_constant=_no_constant, parse_float=_finite, object_pairs_hook=_table
        )
    except RecursionError:
        raise _file_error(message("answer-too-deep"), source) from None
    except ValueError as error:
        raise _file_error(message("answer-not-json", why=quoted(error)), source) from None
    if _depth_exceeds(tree, DEEPEST):
        raise _file_error(message("answer-too-deep"), source)
    return tree


def _file_error(wrong: Message, source: str) -> CaseError:
    fault = fault_of("file", None, wrong, message("answer-name-one"))
    return CaseError([fault], source=source)


def _no_constant(name: str) -> float:
    raise ValueError(f"{name} is not allowed")


def _finite(text: str) -> float:
    value = float(text)
    if not math.isfinite(value):
        raise ValueError(f"{text[:30]} is too large for a number")
    return value


def _table(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    table = dict(pairs)
    if len(table) != len(pairs):
        seen: set[str] = set()
        for name, _ in pairs:
            if name in seen:
                raise ValueError(f"the key {shown(name)} stands twice in one table")
            seen.add(name)
    return table


def _depth_exceeds(tree: Any, most: int) -> bool:
    level = [tree]
    for _ in range(most):
        inner: list[Any] = []
        for node in level:
            if isinstance(node, dict):
                inner += [part for part in node.values() if isinstance(part, (dict, list))]
            elif isinstance(node, list):
                inner += [part for part in node if isinstance(part, (dict, list))]
        if not inner:
            return False
        level = inner
    return True


def is_clean(text: str) -> bool:
    """Whether a text can be printed as it stands: no control codes but line ends, no half letters.

    Returns
    -------
    bool
        False where a terminal or a file would be harmed by it.
    """
    return text.isprintable() or all(
        char in "\n\t" or unicodedata.category(char) not in ("Cc", "Cs") for char in text
    )


def tell(faults: list[Fault], path: str, value: object, wrong: Message) -> None:
    """Add one fault to those found so far.

    Parameters
    ----------
    faults
        Those found so far; it grows by one.
    value
        What stood there, or None to leave it out.

    Raises
    ------
    TooManyFaultsError
        Where there are a hundred already.
    """
    if len(faults) >= MOST_FAULTS:
        raise TooManyFaultsError
    if isinstance(faults, Tried):
        faults.append(_TRIED)
    else:
        right = message("answer-correct-or-name-one")
        faults.append(fault_of(path or "answer", value, wrong, right))
