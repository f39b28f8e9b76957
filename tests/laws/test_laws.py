"""The laws hold for every example and for random cases, the same ones each time."""

from __future__ import annotations

import random
from collections import defaultdict
from collections.abc import Iterable, Iterator
from functools import cache
from pathlib import Path
from typing import Final

import pytest

from laws.corpus import ALL, CHOSEN
from laws.laws import LAWS, violations
from laws.pair_laws import PAIR_LAWS, Letter
from laws.random_cases import case_text, draft
from loamshift.case.answer import answer_to_json
from loamshift.case.read import parse_case, read_case
from loamshift.domain.answer import Verdict
from loamshift.services.advise import LookAhead, advise
from tries import is_random

EXAMPLES: Final = sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))
STATIC: Final = ALL if is_random() else CHOSEN
FOUND: Final[tuple[int, ...]] = (
    591, 869, 1318, 1538, 1544, 1783, 1956, 2809, 2904, 3728, 3998, 4561, 4702, 6112, 7038, 7647,
)  # fmt: skip
"""Seeds of cases that once broke a law, as ``tools/check random`` finds them."""
FOUND_AHEAD: Final[tuple[int, ...]] = (591, 1956, 7038, 1_000_133, 1_000_174)
"""The same of cases with a forecast."""
FOUND_PAIRS: Final[dict[str, tuple[int, ...]]] = {
    "P01": (2_000_261,),
    "P07": (2_000_271, 2_000_302),
}
"""The same of neighbours, by the law they broke."""
FULL: Final = range(1000, 1040 if is_random() else 1016)
PAIRS: Final = 10 if is_random() else 4
"""Neighbours tried for each law of two letters [count]."""
AHEAD: Final = LookAhead(members=100)
"""As the column is asked by hand, with fewer members for the time it takes."""

Broken = dict[str, list[str]]


VERDICTS: Final[list[Verdict]] = []
"""Verdicts of the random cases without a forecast, as they were asked for the laws."""


def _held(cases: Iterable[tuple[str, str]], look_ahead: LookAhead | None) -> Broken:
    """What is wrong with the letters of some cases, by law."""
    found: Broken = defaultdict(list)
    for name, text in cases:
        case = parse_case(text)
        answer = advise(case, look_ahead=look_ahead)
        assert answer_to_json(answer)
        if look_ahead is None:
            VERDICTS.append(answer.verdict)
        for key, sentences in violations(case, answer).items():
            found[key] += [f"{name}: {sentence}" for sentence in sentences]
    return found


@cache
def static() -> Broken:
    return _held(((f"seed {seed}", case_text(seed)) for seed in (*STATIC, *FOUND)), None)


@cache
def full() -> Broken:
    return _held(((f"seed {seed}", case_text(seed)) for seed in (*FULL, *FOUND_AHEAD)), AHEAD)


@cache
def examples() -> Broken:
    found: Broken = defaultdict(list)
    for path in EXAMPLES:
        case = read_case(path)
        for ahead in (None, AHEAD):
            for key, sentences in violations(case, advise(case, look_ahead=ahead)).items():
                found[key] += [f"{path.name}: {sentence}" for sentence in sentences]
    return found


@pytest.mark.parametrize("key", sorted(LAWS))
def test_a_law_holds_for_random_cases_without_a_forecast(key: str) -> None:
    assert not static().get(key), LAWS[key].sentence


@pytest.mark.parametrize("key", sorted(LAWS))
def test_a_law_holds_for_random_cases_with_one(key: str) -> None:
    assert not full().get(key), LAWS[key].sentence


@pytest.mark.parametrize("key", sorted(LAWS))
def test_a_law_holds_for_every_example(key: str) -> None:
    assert not examples().get(key), LAWS[key].sentence


@cache
def letter(text: str) -> Letter:
    """The letter of a case; laws of two letters share many a first one."""
    case = parse_case(text)
    return Letter(case, advise(case))


def _neighbours(key: str) -> Iterator[tuple[int, Letter, Letter]]:
    found = FOUND_PAIRS.get(key, ())
    tried = -len(found)
    for seed in (*found, *range(2000, 4000)):
        near = draft(seed)
        far = PAIR_LAWS[key].change(near, random.Random(seed))
        if far is None:
            continue
        yield seed, letter(near.text()), letter(far.text())
        tried += 1
        if tried == PAIRS:
            return


@pytest.mark.parametrize("key", sorted(PAIR_LAWS))
def test_a_law_holds_for_neighbours(key: str) -> None:
    broken = [
        f"seed {seed}: {sentence}"
        for seed, near, far in _neighbours(key)
        for sentence in PAIR_LAWS[key].check(near, far)
    ]
    assert not broken, PAIR_LAWS[key].sentence


def test_the_same_seed_writes_the_same_case() -> None:
    assert case_text(7) == case_text(7)
    assert len({case_text(seed) for seed in STATIC}) == len(STATIC)


def test_random_cases_meet_every_decision_and_most_reasons() -> None:
    """A law that is never asked proves nothing."""
    static()
    assert {verdict.decision.value for verdict in VERDICTS} == {
        "stop",
        "leave",
        "measure-first",
        "elsewhere",
        "effort",
        "go",
    }
    assert len({verdict.reason for verdict in VERDICTS}) >= 18
