from __future__ import annotations

import pickle
import threading
import time
from datetime import date
from multiprocessing.reduction import ForkingPickler

import pytest

from loamshift.web.cases import case_of
from loamshift.web.forecasts import Forecasts, work_out
from loamshift.web.once import GoneError, Once
from loamshift.web.turns import Turns

CASE = case_of(
    {
        "soil": {"ph": "6.8", "ph_method": "water 1:1", "texture": "loam", "fizz": "none"},
        "aim": {"plant": "highbush blueberry"},
        "place": {"name": "Minneapolis"},
    },
    today=date(2026, 4, 12),
)


def test_a_case_and_its_forecast_go_from_process_to_process() -> None:
    assert pickle.loads(ForkingPickler.dumps(CASE)) == CASE
    found = work_out(CASE)
    assert found.what_if is not None
    assert pickle.loads(ForkingPickler.dumps(found)) == found


def test_a_process_of_its_own_says_the_same() -> None:
    forecasts = Forecasts()
    forecasts.start(1)
    try:
        assert forecasts.of(CASE) == work_out(CASE)
    finally:
        forecasts.stop()


def test_turns_are_taken_in_order_and_no_more_than_so_many_at_once() -> None:
    turns, order, most = Turns(2), [], [0]
    held = threading.Lock()

    def work(number: int) -> None:
        with turns.turn():
            with held:
                order.append(number)
                most[0] = max(most[0], len(order) - len(done))
            time.sleep(0.05)
            with held:
                done.append(number)

    done: list[int] = []
    people = [threading.Thread(target=work, args=(number,)) for number in range(6)]
    for number, person in enumerate(people):
        person.start()
        while number not in order and turns.waiting < number - 1:
            time.sleep(0.001)
    for person in people:
        person.join()
    assert order == sorted(order)
    assert most[0] == 2 and turns.waiting == 0


def test_who_has_gone_leaves_the_line_and_the_next_moves_up() -> None:
    turns = Turns(1)
    with turns.turn():
        with pytest.raises(GoneError), turns.turn(lambda: True):
            pytest.fail("nobody is there to take it")
        assert turns.waiting == 0
    with turns.turn(lambda: True):
        pass  # a free turn is taken without a look


def test_two_who_ask_for_one_thing_have_it_made_once() -> None:
    once: Once[int] = Once(2)
    made: list[int] = []

    def make() -> int:
        time.sleep(0.05)
        made.append(1)
        return 7

    found: list[int] = []
    people = [threading.Thread(target=lambda: found.append(once.get("a", make))) for _ in range(4)]
    for person in people:
        person.start()
    for person in people:
        person.join()
    assert (found, made) == ([7] * 4, [1])


def test_a_failure_is_told_and_not_kept_and_the_oldest_goes_first() -> None:
    once: Once[int] = Once(2)
    with pytest.raises(ZeroDivisionError):
        once.get("a", lambda: 1 // 0)
    assert once.found("a") is None
    for number, key in enumerate("abc"):
        assert once.get(key, lambda number=number: number) == number  # type: ignore[misc]
    assert (once.found("a"), once.found("b"), once.found("c")) == (None, 1, 2)


def test_who_waits_for_one_that_has_gone_has_it_made_for_himself() -> None:
    once: Once[int] = Once(2)
    begun, leave = threading.Event(), threading.Event()

    def go() -> int:
        begun.set()
        leave.wait(5.0)
        raise GoneError

    def first() -> None:
        with pytest.raises(GoneError):
            once.get("a", go)

    one = threading.Thread(target=first)
    one.start()
    begun.wait(5.0)
    found: list[int] = []
    other = threading.Thread(target=lambda: found.append(once.get("a", lambda: 3)))
    other.start()
    leave.set()
    one.join()
    other.join()
    assert found == [3]
