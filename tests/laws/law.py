"""What a law is, and the register of them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

from loamshift.domain.answer import Answer
from loamshift.domain.bed_context import BedContext
from loamshift.domain.case import Case
from loamshift.domain.material import Material
from loamshift.services.context.build_context import build_context
from loamshift.services.materials.named import material_named

Check = Callable[[Case, Answer], list[str]]
"""What is wrong with an answer to a case; nothing where the law holds."""


@dataclass(frozen=True, slots=True)
class Law:
    """A law with its id and its one sentence."""

    key: str
    sentence: str
    check: Check


LAWS: Final[dict[str, Law]] = {}
"""Every law of one letter, by id."""


def law(key: str) -> Callable[[Check], Check]:
    """Enter a law in the register; its sentence is the first line of its docstring."""

    def enter(check: Check) -> Check:
        assert key not in LAWS, f"two laws are called {key}"
        sentence = (check.__doc__ or "").strip().splitlines()[0]
        LAWS[key] = Law(key, sentence, check)
        return check

    return enter


@dataclass(slots=True)
class _Kept:
    case: Case | None = None
    context: BedContext | None = None


_KEPT: Final = _Kept()


def bed_of(case: Case) -> BedContext:
    """The bed as understood; that of the last case is kept, for every law asks for it."""
    if _KEPT.case is not case or _KEPT.context is None:
        _KEPT.case, _KEPT.context = case, build_context(case)
    return _KEPT.context


def reads_now(case: Case, answer: Answer) -> float | None:
    """What the bed is taken to read today: by its forecast, its key, or the last reading [pH]."""
    if answer.verdict.ph_now is not None and answer.forecast is None:
        return answer.verdict.ph_now
    if answer.forecast is not None:
        return answer.forecast.do_nothing.q50[0]
    soil = bed_of(case).soil
    return None if soil is None else soil.ph.ph_water


def material_of(case: Case, key: str) -> Material:
    """The material that an answer names, shipped or known by its label."""
    return material_named(key, own=case.own_materials)
