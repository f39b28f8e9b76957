"""Advice on soil pH: whether to change it, with what, how much, when, and how it will hold.

A case in, an answer out::

    import loamshift

    case = loamshift.new_case(
        soil={"ph": 7.2, "texture": "loam", "organic_matter_pct": 3},
        aim={"plant": "highbush blueberry"},
    )
    advice = loamshift.advise(case)

What is named in ``__all__`` is loaded when it is first used; ``docs/python.md`` shows each.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from loamshift.domain.case import Case
    from loamshift.python.advice import Advice, advise, dose
    from loamshift.python.buffer_curve import BufferCurve, buffer_curve
    from loamshift.python.case_input import new_case, read_case
    from loamshift.python.claim import SettledClaim, claim
    from loamshift.python.dose_table import dose_table
    from loamshift.python.forecast import PhCourse, forecast
    from loamshift.python.picture import Picture

__version__ = "0.1.0"

__all__ = [
    "Advice",
    "BufferCurve",
    "Case",
    "PhCourse",
    "Picture",
    "SettledClaim",
    "advise",
    "buffer_curve",
    "claim",
    "dose",
    "dose_table",
    "forecast",
    "new_case",
    "read_case",
]

_PLACES = {
    "Advice": "python.advice",
    "BufferCurve": "python.buffer_curve",
    "Case": "domain.case",
    "PhCourse": "python.forecast",
    "Picture": "python.picture",
    "SettledClaim": "python.claim",
    "advise": "python.advice",
    "buffer_curve": "python.buffer_curve",
    "claim": "python.claim",
    "dose": "python.advice",
    "dose_table": "python.dose_table",
    "forecast": "python.forecast",
    "new_case": "python.case_input",
    "read_case": "python.case_input",
}
"""Module of each name, below this package."""


def __getattr__(name: str) -> object:
    """A public name, its module imported at the first use."""
    if name not in _PLACES:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    from importlib import import_module

    found: object = getattr(import_module(f"{__name__}.{_PLACES[name]}"), name)
    globals()[name] = found
    return found


def __dir__() -> list[str]:
    """The public names, and no others: what a person may type."""
    return sorted([*__all__, "__version__"])
