"""Two answers held against each other: every difference is told, and none is made up."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

from case.test_answer import made_answer
from loamshift.domain import answer as parts
from loamshift.domain.answer import Answer, Band, Decision
from loamshift.domain.changes import Maker
from loamshift.services.changes import changes


def forecast(today: date, shift: float = 0.0) -> parts.Forecast:
    """A forecast of a year, weekly, from pH 7 downwards."""
    course = tuple(7.0 - 0.01 * week - shift for week in range(53))
    return parts.Forecast(
        dates=tuple(today + timedelta(weeks=week) for week in range(53)),
        ph=parts.ForecastPh(q05=course, q25=course, q50=course, q75=course, q95=course),
        do_nothing=parts.DoNothing(q50=course),
    )


def told(old: dict[str, Any], new: dict[str, Any]) -> list[tuple[str, object, object]]:
    found = changes(made_answer(), made_answer(), old_case=old, new_case=new).inputs
    assert found is not None
    return [(change.path, change.old, change.new) for change in found]


def test_an_answer_against_itself_differs_in_nothing() -> None:
    case = {"case": 1, "soil": {"ph": 7.2}, "noticed": ["x"]}
    found = changes(made_answer(), made_answer(), old_case=case, new_case=case)
    assert found.is_same and not found.moved
    assert found.inputs == () and found.makers == ()


@pytest.mark.parametrize(
    ("old", "new", "expected"),
    [
        ({"soil": {"ph": 7.2}}, {"soil": {"ph": 6.4}}, [("soil.ph", 7.2, 6.4)]),
        ({"soil": {"ph": 7.2}}, {"soil": {}}, [("soil.ph", 7.2, None)]),
        ({}, {"soil": {"fizz": "none"}}, [("soil.fizz", None, "none")]),
        ({"bed": {"area": "20 m2"}}, {"bed": {"area": "20.0 m2"}}, []),
        ({"bed": {"area": "20 m2"}}, {"bed": {"area": "20 cm"}},
         [("bed.area", "20 m2", "20 cm")]),
        ({"aim": {"plant": ["a"]}}, {"aim": {"plant": ["a", "b"]}}, [("aim.plant", "a", "a, b")]),
        ({"noticed": ["a"], "climate": "x", "case": 1}, {"case": 2}, []),
        ({"applied": [{"rate": 1}, {"rate": 2}]}, {"applied": [{"rate": 2}, {"rate": 1}]}, []),
        ({"applied": [{"m": "a", "rate": 1}]}, {"applied": [{"m": "a", "rate": 2}]},
         [("applied[1].rate", 1, 2)]),
        ({"applied": [{"m": "a"}]}, {"applied": [{"m": "a"}, {"m": "b", "rate": "1 g"}]},
         [("applied[2]", None, "b, 1 g")]),
        ({"applied": [{"m": "a"}, {"m": "b"}]}, {"applied": [{"m": "b"}]},
         [("applied", "a", None)]),
        ({"claim": [{"m": "a"}]}, {}, [("claim", "a", None)]),
    ],
)  # fmt: skip
def test_what_was_told_differently(old, new, expected) -> None:  # type: ignore[no-untyped-def]
    assert told(old, new) == expected


def test_a_case_that_was_not_kept_is_not_guessed() -> None:
    assert changes(made_answer(), made_answer(), old_case={}).inputs is None
    assert changes(made_answer(), made_answer(), new_case={}).inputs is None


def test_cases_made_by_hand_stay_small() -> None:
    deep: Any = 1
    for _ in range(30):
        deep = {"x": deep}
    assert len(told({"a": deep}, {"a": 1})) == 1
    assert len(told({str(n): n for n in range(5000)}, {})) == 500
    assert len(told({"a": [{"n": n} for n in range(5000)]}, {})) == 1
    ((path, old, _),) = told({"k" * 9000: "\x1b" + "v" * 9000}, {})
    assert len(path) <= 120 and isinstance(old, str) and len(old) <= 120 and "\x1b" not in old


@pytest.mark.parametrize(("key", "value"), [("tables", "x"), ("model", "m"), ("seed", 3)])
def test_what_works_it_out(key: str, value: object) -> None:
    old = made_answer()
    new = replace(old, made_by=replace(old.made_by, **{key: value}))
    found = changes(old, new)
    assert [(change.what, change.new) for change in found.makers] == [(Maker(key), value)]
    assert not found.is_same and not found.moved


def altered(**values: Any) -> Answer:
    return replace(made_answer(), **values)


@pytest.mark.parametrize(
    "new",
    [
        altered(verdict=replace(made_answer().verdict, decision=Decision.LEAVE)),
        altered(dose=replace(made_answer().dose, sulfur_as_s_g_m2=Band(lo90=1, mid=2, hi90=3))),
        altered(applications=()),
        altered(too_early_before=None),
        altered(retest=()),
        altered(upkeep=None),
        altered(ledger=None),
        altered(cautions=()),
        altered(findings=()),
        altered(options=()),
        altered(rescue=None),
        altered(claims=()),
        altered(missing=()),
    ],
)
def test_whatever_followed_is_noticed(new: Answer) -> None:
    assert changes(made_answer(), new).moved
    assert changes(new, made_answer()).moved


def test_cautions_are_gained_and_lost_by_their_code() -> None:
    dust = parts.Caution(code="sulfur-dust", text="t", source_key=None)
    found = changes(made_answer(), altered(cautions=(dust,)))
    assert [caution.code for caution in found.cautions_gained] == ["sulfur-dust"]
    assert [caution.code for caution in found.cautions_lost] == ["salt"]


def test_forecasts_are_held_against_each_other_on_the_same_days() -> None:
    first, later = date(2026, 4, 12), date(2026, 5, 1)
    old = altered(today=first, forecast=forecast(first))
    new = altered(today=later, forecast=forecast(later, shift=0.5))
    rows = changes(old, new).forecast
    assert [row.day for row in rows] == [later + timedelta(weeks=13), later + timedelta(weeks=26)]
    for row in rows:
        weeks = (row.day - first).days / 7
        assert row.old.mid == pytest.approx(7.0 - 0.01 * weeks, abs=0.006)
        assert row.new.mid == pytest.approx(6.5 - 0.01 * (row.day - later).days / 7)


def test_without_a_day_that_both_reach_there_is_no_comparison() -> None:
    first = date(2026, 4, 12)
    old = altered(today=first, forecast=forecast(first))
    assert changes(old, altered(forecast=None)).forecast == ()
    years_later = date(2030, 1, 1)
    late = altered(today=years_later, forecast=forecast(years_later))
    assert changes(old, late).forecast == ()
    assert changes(late, old).forecast == ()
