"""Any case that can be read is answered and printed, and the answer keeps its own rules."""

from __future__ import annotations

import json
import random
import re

from hypothesis import given
from hypothesis import strategies as st

from loamshift.case.answer import answer_to_json
from loamshift.case.read import parse_case
from loamshift.domain.answer import Answer, Decision, Direction
from loamshift.domain.case import Case
from loamshift.errors import CaseError
from loamshift.report.letter import letter_from_answer
from loamshift.report.terminal import letter_text
from loamshift.report.words import Words
from loamshift.services.advise import advise
from loamshift.tables.materials import load_materials
from loamshift.tables.places import load_places
from loamshift.tables.plants import load_plants
from loamshift.tables.soils import load_textures
from tries import tries

METHODS = ("water 1:1", "water 1:5", "paste", "CaCl2", "KCl", "probe", "strip", "unknown")
NEVER_PRINTED = re.compile(r"None|\bnan\b|\binf\b|Infinity|e\+|e-0")


def case_text(seed: int) -> str:
    """A case file with any of the usual keys, drawn by the seed."""
    draw = random.Random(seed)
    lines = ["case = 1", f"today = 2026-{draw.randint(1, 12):02d}-{draw.randint(1, 28):02d}"]

    def maybe(share: float, line: str) -> None:
        if draw.random() < share:
            lines.append(line)

    def named(names: list[str]) -> str:
        return json.dumps(draw.choice(names), ensure_ascii=False)

    if draw.random() < 0.8:
        lines += ["[place]", f"name = {named(list(load_places()))}"]
    kind = draw.choice(["ground", "raised", "container", "lawn", "field"])
    lines += ["[bed]", f'kind = "{kind}"']
    maybe(0.8, f"area = {draw.choice([0.5, 5, 20, 300])}")
    maybe(0.5, f"depth = {draw.choice([5, 15, 30])}")
    maybe(0.5, f"planted = {draw.choice(['true', 'false'])}")
    maybe(0.3, f'drainage = "{draw.choice(["free", "slow", "waterlogged"])}"')
    lines.append("[soil]")
    maybe(0.95, f"ph = {draw.uniform(3.2, 9.2):.1f}")
    maybe(0.9, f'ph_method = "{draw.choice(METHODS)}"')
    maybe(0.15, f'medium = "{draw.choice(["peat mix", "bark mix"])}"')
    maybe(0.8, f"texture = {named(list(load_textures()))}")
    maybe(0.7, f"organic_matter_pct = {draw.uniform(0.3, 15):.1f}")
    maybe(0.4, f'fizz = "{draw.choice(["none", "slight", "strong", "extreme"])}"')
    maybe(0.15, f"carbonate_pct = {draw.choice([0, 0.2, 1, 30])}")
    lines.append("[aim]")
    maybe(0.85, f"plant = {named(list(load_plants()))}")
    maybe(0.25, f"target_ph = {draw.uniform(4.2, 7.5):.1f}")
    if draw.random() < 0.5:
        lines += ["[water]", f"alkalinity = {draw.choice([20, 100, 400])}", 'weekly = "20 mm"']
    for _ in range(draw.choice([0, 0, 1, 2])):
        lines += ["[[applied]]", f"date = 2025-{draw.randint(1, 12):02d}-10"]
        lines += [f"material = {named(list(load_materials()))}", "rate = 200"]
    if draw.random() < 0.4:
        lines += ["[[claim]]", f"material = {named(list(load_materials()))}", "rate = 500"]
    return "\n".join(lines)


@given(st.integers(0, 10**9))
@tries(40)
def test_any_readable_case_is_answered(seed: int) -> None:
    try:
        case = parse_case(case_text(seed))
    except CaseError as fault:
        assert fault.faults
        return
    answer = advise(case)
    json.loads(answer_to_json(answer))
    _keeps_its_rules(answer)
    _prints(answer, case)


def _keeps_its_rules(answer: Answer) -> None:
    no_dose = answer.verdict.decision in (Decision.STOP, Decision.LEAVE)
    if no_dose:
        assert answer.dose.direction is Direction.NONE
    if no_dose or answer.verdict.decision is Decision.ELSEWHERE:
        assert answer.applications == ()
    if answer.dose.acid_mmolc_kg is not None:
        band = answer.dose.acid_mmolc_kg
        assert band.lo90 <= band.mid <= band.hi90
    dates = [part.date for part in answer.applications]
    assert dates == sorted(dates) and all(day >= answer.today for day in dates)
    assert answer.verdict.because and answer.verdict.would_change_if


def _prints(answer: Answer, case: Case) -> None:
    for words in (Words("uk", "metric"), Words("us", "us")):
        text = letter_text(letter_from_answer(answer, case, words=words), width=88)
        assert not NEVER_PRINTED.findall(text)


def test_what_is_never_printed_is_found_and_words_that_begin_like_it_are_not() -> None:
    for text in ("None", "to nan g/m2", "about inf g", "1e+05", "1e-07"):
        assert NEVER_PRINTED.search(text)
    assert not NEVER_PRINTED.search("a liming information site, a nanny")
