"""Columns as a data frame of the user's own library; none is needed until one is asked for."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from importlib.util import find_spec
from typing import Any, Literal

from loamshift.domain.message import message
from loamshift.domain.worded_error import WordedError
from loamshift.report.missing_extra import need_module

Library = Literal["pandas", "polars"]
LIBRARIES: tuple[Library, ...] = ("pandas", "polars")


def frame_of(columns: Mapping[str, Sequence[Any]], library: Library | None) -> Any:
    """Columns as a data frame.

    Parameters
    ----------
    columns
        Values by the name of their column, each of one length [any].
    library
        Whose frame it is to be; None for pandas where it is installed, else Polars [text].

    Returns
    -------
    DataFrame
        The frame [object].

    Raises
    ------
    InputError
        Where that library, or either, is not installed.
    """
    import narwhals.stable.v2 as nw

    chosen = library or next((name for name in LIBRARIES if find_spec(name) is not None), None)
    if chosen is None:
        raise WordedError(message("python-no-frame-library"))
    if find_spec(chosen) is None:
        raise need_module(chosen)
    made = nw.from_dict({name: list(values) for name, values in columns.items()}, backend=chosen)
    return made.to_native()
