"""Odd cases that an adviser meets, as case files; our own scenarios."""

from __future__ import annotations

from functools import lru_cache

from loamshift.case.read import parse_case
from loamshift.domain.answer import Answer
from loamshift.services.advise import LookAhead, advise

HEAD = 'case = 1\nname = "Odd case"\ntoday = 2026-04-12\n[place]\nname = "Manchester"\n'
WATER = 'ph_method = "water 1:2.5"\n'
LIME_FREE = "carbonate_pct = 0\n"
PEAT_POTS = 'kind = "container"\narea = "0.1 m2"\ncount = 6\nplanted = true'


def text(*, bed: str = 'area = "8 m2"', soil: str = "", aim: str = "", more: str = "") -> str:
    """A case file from the lines of its sections."""
    return f"{HEAD}[bed]\n{bed}\n[soil]\n{soil}\n[aim]\n{aim}\n{more}\n"


def read(ph: float, *, texture: str = "loam", lime: str = LIME_FREE) -> str:
    """A careful reading of a mineral soil."""
    return f'ph = {ph}\n{WATER}texture = "{texture}"\n{lime}'


def put_on(day: str, material: str, rate: str, *, depth: str = "") -> str:
    """Something that was applied."""
    dug = f'incorporated = "{depth}"\n' if depth else ""
    return f'[[applied]]\ndate = {day}\nmaterial = "{material}"\nrate = "{rate}"\n{dug}'


def read_again(day: str, ph: float) -> str:
    """A later test."""
    return f"[[reading]]\ndate = {day}\nph = {ph}\n{WATER}"


@lru_cache(maxsize=128)
def answered(case_text: str, *, forecast: bool = True, refit: bool = True) -> Answer:
    """The answer to a case file, kept for the next test that asks."""
    how = LookAhead(refit=refit) if forecast else None
    return advise(parse_case(case_text), look_ahead=how)
