"""Invented beds for tests, built in one line each."""

from __future__ import annotations

from datetime import date

from loamshift.case.read import parse_case
from loamshift.domain.case import Case

TODAY = date(2026, 4, 12)

BASE = """
case = 1
name = "Test bed"
today = 2026-04-12
[place]
name = "Minneapolis"
[bed]
{bed}
[soil]
{soil}
[aim]
{aim}
{more}
"""


def bed(
    soil: str = 'ph = 7.0\nph_method = "water 1:1"\ntexture = "loam"\norganic_matter_pct = 3',
    *,
    bed: str = 'area = "20 m2"\nplanted = false',
    aim: str = 'plant = "highbush blueberry"',
    more: str = "",
) -> Case:
    """A case from the parts of a case file that matter to the test."""
    return parse_case(BASE.format(bed=bed, soil=soil, aim=aim, more=more))
