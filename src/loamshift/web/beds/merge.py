"""Two people on one thing: what each changed is put together, and what both changed is asked."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from loamshift.store.changes import snapshot
from loamshift.store.models import Change, Kept
from loamshift.web.beds.case_form import value_text
from loamshift.web.cases import Tree


@dataclass(kw_only=True)
class Merged:
    """A case file put together, and what both changed: path, theirs, mine (mine stands)."""

    tree: Tree
    asked: list[tuple[str, Any, Any]] = field(default_factory=list)


def merge(*, base: Tree, theirs: Tree, mine: Tree) -> Merged:
    """Put two case files together that both came from a third.

    Parameters
    ----------
    base
        What both began with [object].
    theirs
        What was saved in the meantime [object].
    mine
        What is to be saved now [object].

    Returns
    -------
    Merged
        Every change of either; where both changed one field differently, mine, and a question.
    """
    merged = Merged(tree={})
    merged.tree = _tables(base, theirs, mine, "", merged)
    return merged


def merge_fields(current: Kept, version: int, mine: Mapping[str, Any]) -> Merged | None:
    """Put what was typed into a short form together with what was saved in the meantime.

    Parameters
    ----------
    current
        What is there now [object].
    version
        The version that the form began with [number].
    mine
        What was typed, by the names of the fields [object].

    Returns
    -------
    Merged or None
        None where what both began with is not known, or the thing was deleted.
    """
    was = before(current, version)
    if was is None or current.deleted_at is not None:
        return None
    now = snapshot(current)
    return merge(
        base={key: was.get(key) for key in mine},
        theirs={key: now[key] for key in mine},
        mine=dict(mine),
    )


def as_kept(kept: Any, typed: Any) -> Any:
    """What was typed, with the kept value wherever both read alike: a number stays a number."""
    if isinstance(kept, Mapping) and isinstance(typed, Mapping):
        return {key: as_kept(kept.get(key), value) for key, value in typed.items()}
    if isinstance(kept, list) and isinstance(typed, list) and len(kept) <= len(typed):
        return [*map(as_kept, kept, typed), *typed[len(kept) :]]
    return kept if _same(kept, typed) else typed


def before(thing: Kept, version: int) -> dict[str, Any] | None:
    """What a thing held at an earlier version, by the names of fields; None where unknown."""
    steps = thing.version - version
    if steps < 1:
        return None
    changes = list(
        Change.objects.filter(office=thing.office, thing=thing.pk).order_by("-id")[:steps]
    )
    if len(changes) < steps or any(one.before is None for one in changes):
        return None
    was = snapshot(thing)
    for one in changes:
        was |= one.before or {}
    return was


def _tables(
    base: Mapping[str, Any],
    theirs: Mapping[str, Any],
    mine: Mapping[str, Any],
    at: str,
    merged: Merged,
) -> Tree:
    made: Tree = {}
    for key in dict.fromkeys([*theirs, *mine]):
        path = f"{at}.{key}" if at else key
        value = _one(base.get(key), theirs.get(key), mine.get(key), path, merged)
        if value is not None:
            made[key] = value
    return made


def _one(base: Any, theirs: Any, mine: Any, path: str, merged: Merged) -> Any:
    if all(one is None or isinstance(one, Mapping) for one in (base, theirs, mine)):
        return _tables(base or {}, theirs or {}, mine or {}, path, merged) or None
    if _same(mine, base) or _same(mine, theirs):
        return theirs
    if _same(theirs, base):
        return mine
    entries = _entries(base, theirs, mine)
    if entries is not None:
        return entries
    merged.asked.append((path, theirs, mine))
    return mine


def _entries(base: Any, theirs: Any, mine: Any) -> list[Any] | None:
    """A list to which both added entries; None where one of them changed what was there."""
    base = [] if base is None else base
    if not all(isinstance(one, list) for one in (base, theirs, mine)):
        return None
    count = len(base)
    if not (_same(theirs[:count], base) and _same(mine[:count], base)):
        return None
    new = [one for one in mine[count:] if not any(_same(one, there) for there in theirs[count:])]
    return [*theirs, *new]


def _same(left: Any, right: Any) -> bool:
    """Whether two values read alike in a form, whatever their types."""
    if isinstance(left, Mapping) and isinstance(right, Mapping):
        return left.keys() == right.keys() and all(_same(left[key], right[key]) for key in left)
    if isinstance(left, list) and isinstance(right, list):
        return len(left) == len(right) and all(map(_same, left, right))
    if isinstance(left, (Mapping, list)) or isinstance(right, (Mapping, list)):
        return False
    return left is right or value_text(left) == value_text(right)
