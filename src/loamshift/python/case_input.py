"""A case as Python gives it: a file, a dictionary with the keys of one, or keywords."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from os import PathLike, fspath
from pathlib import Path
from typing import Any, TypeAlias

from loamshift.case.read import case_from_tree
from loamshift.case.read import read_case as read_case_file
from loamshift.domain.case import Case
from loamshift.domain.message import Given, message
from loamshift.domain.worded_error import WordedError
from loamshift.python.reader import worded_errors

CaseLike: TypeAlias = "Case | str | PathLike[str] | Mapping[str, Any]"
"""A case, the path of a case file, or a dictionary with its keys."""
SOURCE = "what you gave"


def read_case(path: str | PathLike[str], *, today: date | None = None) -> Case:
    """The case in a file.

    Parameters
    ----------
    path
        The case file [path].
    today
        The date the advice is for where the file names none; None for the clock's [date].

    Returns
    -------
    Case
        The case as said, in our own units, nothing filled in [object].

    Raises
    ------
    CaseError
        Where the file cannot be used; it carries every fault found.

    Examples
    --------
    >>> read_case("nothing.toml")
    Traceback (most recent call last):
    ...
    loamshift.errors.CaseError: ...
    """
    with worded_errors():
        return read_case_file(Path(fspath(path)), today=today or _today())


def new_case(
    keys: Mapping[str, Any] | None = None, /, *, today: date | None = None, **more: Any
) -> Case:
    """A case from the keys of a case file.

    Parameters
    ----------
    keys
        A dictionary nested as the file is, such as ``{"soil": {"ph": 7.2}}`` [any].
    today
        The date the advice is for; None for the clock's [date].
    **more
        The same as keywords: ``soil={"ph": 7.2}, aim={"plant": "cabbage"}``. Quantities are texts
        with a unit, as in the file; numbers of NumPy and pandas are read too [any].

    Returns
    -------
    Case
        The case as said, in our own units, nothing filled in [object].

    Raises
    ------
    CaseError
        Where a key or value cannot be used; it carries every fault found.

    References
    ----------
    ``docs/case.md`` lists every key.

    Examples
    --------
    >>> from datetime import date
    >>> case = new_case(soil={"ph": 7.2, "texture": "loam"}, today=date(2026, 4, 12))
    >>> case.soil.ph.ph, case.soil.texture.key
    (7.2, 'loam')
    """
    tree = {"case": 1, **_plain({**(keys or {}), **more})}
    if today is not None:
        tree["today"] = today
    with worded_errors():
        return case_from_tree(tree, source=SOURCE, today=_today(), folder=Path())


def as_case(given: CaseLike) -> Case:
    """Whatever stands for a case, as a case.

    Parameters
    ----------
    given
        A case, the path of a case file, or a dictionary with its keys [object].

    Returns
    -------
    Case
        The case [object].

    Raises
    ------
    CaseError
        Where the file or the keys cannot be used.
    InputError
        Where it is none of these.
    """
    other: object = given  # a caller without a type checker may give anything
    if isinstance(other, Case):
        return other
    if isinstance(other, Mapping):
        return new_case(other)
    if isinstance(other, (str, PathLike)):
        return read_case(other)
    with worded_errors():
        raise WordedError(message("python-not-a-case", given=Given(repr(other)[:60])))


def _today() -> date:
    return date.today()  # noqa: DTZ011 - a garden's day is the local day


def _plain(value: Any) -> Any:
    """Dictionaries and lists as a file has them; numbers of other libraries as Python's own."""
    if isinstance(value, Mapping):
        return {str(key): _plain(part) for key, part in value.items() if part is not None}
    if isinstance(value, PathLike):
        return fspath(value)
    if isinstance(value, Sequence) and not isinstance(value, str):
        return [_plain(part) for part in value]
    if isinstance(value, (str, bool, int, float, date)):
        return value
    if hasattr(value, "tolist"):
        return _plain(value.tolist())
    return value
