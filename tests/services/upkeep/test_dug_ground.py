"""Ground that was dug for plants to come, of whose past nobody said anything."""

from __future__ import annotations

import pytest

from loamshift.case.read import parse_case
from loamshift.domain.answer import Answer
from loamshift.services.advise import LookAhead, advise
from loamshift.services.context.build_context import build_context
from loamshift.services.upkeep.humus import turf_would_move_ph


def dug(bed: str = "", *, ph: float = 5.2, texture: str = "sand", matter: float = 9.0) -> str:
    return f"""case = 1
today = 2026-04-12
[place]
name = "Manchester"
[bed]
area = "20 m2"
{bed}
[soil]
ph = {ph}
ph_method = "water 1:2.5"
texture = "{texture}"
organic_matter_pct = {matter}
carbonate_pct = 0
[aim]
plant = "rhododendron"
"""


def asked(answer: Answer) -> bool:
    return any(row.field == "bed.before" for row in answer.missing)


EMPTY = "planted = false\n"


def test_its_past_is_asked_for_where_turf_would_show() -> None:
    case = parse_case(dug(EMPTY))
    assert turf_would_move_ph(build_context(case)) > 0.2 and asked(advise(case))


@pytest.mark.parametrize(
    "text",
    [
        dug(EMPTY, texture="clay", matter=2.0),
        dug(EMPTY, ph=7.4),
        dug("planted = true\n"),
        dug(),
        dug(EMPTY + 'before = "arable"\n'),
        dug(EMPTY + 'kind = "raised"\n'),
    ],
)
def test_it_is_not_asked_for_where_it_would_not_or_was_told(text: str) -> None:
    assert not asked(advise(parse_case(text)))


def test_it_is_drawn_over_all_histories() -> None:
    """Lower than arable ground, higher than turf, and less sure than arable ground."""
    ends, widths = {}, {}
    for before in ("", 'before = "arable"\n', 'before = "turf"\n'):
        ahead = advise(parse_case(dug(EMPTY + before)), look_ahead=LookAhead(members=100)).forecast
        assert ahead is not None
        ends[before] = ahead.do_nothing.q50[-1]
        widths[before] = ahead.ph.q75[-1] - ahead.ph.q25[-1]
    untold, arable, turf = ends.values()
    assert turf < untold < arable
    assert widths[""] > widths['before = "arable"\n']
