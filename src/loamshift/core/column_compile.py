"""The one way functions of the column are compiled: strict arithmetic, no lock held.

No fast arithmetic, no automatic parallel loops: the same bits on any number of threads. The
machine code is kept in a folder only where a door has named one before this module is loaded;
the library's own folder beside the sources would miss edits in called modules.
"""

from __future__ import annotations

from collections.abc import Callable
from types import FunctionType
from typing import Any, Final, TypeVar, cast

import numba

Function = TypeVar("Function", bound=Callable[..., Any])

IS_KEPT: Final = bool(vars(numba.config).get("CACHE_DIR"))
"""True where machine code outlives this process."""

_STRICT: Final[dict[str, Any]] = {
    "nogil": True,
    "error_model": "numpy",
    "no_cfunc_wrapper": True,
    "_nrt": False,
}
_JIT: Final = numba.njit(**_STRICT)
_JIT_KEPT: Final = numba.njit(**_STRICT, cache=IS_KEPT)
_JIT_INLINED: Final = numba.njit(**_STRICT, forceinline=True)
_JIT_WOVEN: Final = numba.njit(**_STRICT, inline="always")


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
    IEEE arithmetic in the order written; a division by zero gives no number and does not stop,
    which ``column.run_column`` looks for once at the end.
    Nothing is allocated inside, so no array is counted in and out of each call: that counting,
    which all threads must agree on, took two thirds of the time.

    References
    ----------
    own-judgement

    Examples
    --------
    >>> doubled = compiled(lambda x: 2.0 * x)
    >>> doubled(1.5)
    3.0
    """
    return cast(Function, _JIT(function))


def outermost(function: Function) -> Function:
    """The same for a function that Python calls: its machine code is kept, with what it calls.

    Parameters
    ----------
    function
        Written in the part of the language that the compiler knows [function].

    Returns
    -------
    function
        Called as before, compiled at its first call or taken from the folder [function].

    Notes
    -----
    What it calls is not kept a second time by itself.

    References
    ----------
    own-judgement

    Examples
    --------
    >>> from loamshift.core.column_nitrogen import let_go
    >>> outermost(let_go.py_func)(8.0, 0.25)
    2.0
    """
    return cast(Function, _JIT_KEPT(function))


def inlined(function: Function) -> Function:
    """The same for a small formula, put into each function that calls it.

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
    A loop over members that calls nothing is one the compiler can run several members at a time.

    References
    ----------
    own-judgement

    Examples
    --------
    >>> from loamshift.core.column_nitrogen import let_go
    >>> inlined(let_go.py_func)(8.0, 0.25)
    2.0
    """
    return cast(Function, _JIT_INLINED(function))


def woven(function: Function) -> Function:
    """The same for what is called in one place: its lines become lines of the caller.

    Parameters
    ----------
    function
        Written in the part of the language that the compiler knows [function].

    Returns
    -------
    function
        Called as before; compiled alone only where it is called from outside [function].

    Notes
    -----
    Half the time of compiling goes into functions compiled on their own and then put in.

    References
    ----------
    own-judgement

    Examples
    --------
    >>> from loamshift.core.column_nitrogen import let_go
    >>> woven(let_go.py_func)(8.0, 0.25)
    2.0
    """
    return cast(Function, _JIT_WOVEN(function))


def with_compiled(function: Function, **called: Callable[..., Any]) -> Function:
    """A function whose calls of others go to their machine code, itself not compiled yet.

    Parameters
    ----------
    function
        Written for numbers and arrays alike [function].
    called
        What it calls, by the name it calls it by [functions].

    Returns
    -------
    function
        The same lines; what it was made from goes on calling what it called [function].

    Notes
    -----
    So that one text serves NumPy and the compiler.

    References
    ----------
    own-judgement

    Examples
    --------
    >>> def half(x: float) -> float:
    ...     return x / two()
    >>> with_compiled(half, two=lambda: 2.0)(3.0)
    1.5
    """
    made = FunctionType(
        function.__code__,
        {**function.__globals__, **called},
        function.__name__,
        function.__defaults__,
    )
    return cast(Function, made)
