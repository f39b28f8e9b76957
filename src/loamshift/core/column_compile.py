"""The one way functions of the column are compiled: strict arithmetic, no lock held.

No fast arithmetic, no automatic parallel loops: the same bits on any number of threads. The
machine code is kept in a folder only where a door has named one before this module is loaded;
the library's own folder beside the sources would miss edits in called modules.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, Final, TypeVar, cast

import numba

Function = TypeVar("Function", bound=Callable[..., Any])

IS_KEPT: Final = bool(vars(numba.config).get("CACHE_DIR"))
"""True where machine code outlives this process."""

_WITHOUT_ROOM: Final[dict[str, Any]] = {"_nrt": False}
"""No arrays are made inside; the types of the library leave this option out."""
_JIT: Final = numba.njit(nogil=True, cache=IS_KEPT, **_WITHOUT_ROOM)
_JIT_WITH_ROOM: Final = numba.njit(nogil=True, cache=IS_KEPT)


def compiled(function: Function) -> Function:
    """A function as strict machine code that runs without the interpreter's lock.

    Parameters
    ----------
    function
        Written in the part of the language that the compiler knows [function].

    Returns
    -------
    function
        Called as before, compiled at its first call [function].

    Notes
    -----
    IEEE arithmetic in the order written; a division by zero raises as it does in plain code.
    Nothing is allocated inside, so no array is counted in and out of each call: that counting,
    which all threads must agree on, took two thirds of the time.

    References
    ----------
    own-judgement

    Examples
    --------
    >>> from loamshift.core.column_sulfur import whole_left
    >>> callable(whole_left.py_func)
    True
    """
    return cast(Function, _JIT(function))


def compiled_with_room(function: Function) -> Function:
    """The same for the outermost function, which makes the arrays that the others work in.

    Parameters
    ----------
    function
        Written in the part of the language that the compiler knows [function].

    Returns
    -------
    function
        Called as before, compiled at its first call [function].

    Notes
    -----
    For a function called once in a run: each array passed on is counted in and out.

    References
    ----------
    own-judgement

    Examples
    --------
    >>> from loamshift.core.column_kernel import run_members
    >>> callable(run_members.py_func)
    True
    """
    return cast(Function, _JIT_WITH_ROOM(function))
