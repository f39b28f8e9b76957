from __future__ import annotations

from loamshift.case.read import parse_case
from loamshift.domain.question import Danger, Triage
from loamshift.services.triage.triage import triage

HEAD = "case = 1\ntoday = 2026-04-12\n"
OVERDONE = """[bed]
area = "10 m2"
depth = "15 cm"
[soil]
ph = 5.0
ph_method = "water 1:1"
texture = "sand"
organic_matter_pct = 2
[aim]
plant = "highbush blueberry"
[[applied]]
date = 2026-04-01
material = "elemental sulfur, powder"
rate = "1000 g/m2"
"""


def test_what_is_missing_comes_from_the_answer() -> None:
    found = triage(parse_case(HEAD), ())
    assert [row.field for row in found.missing][:2] == ["soil.ph", "aim.plant"]
    assert found.dangers == ()


def test_a_stop_is_a_danger_whatever_the_words() -> None:
    assert Danger.STOP in triage(parse_case(HEAD + OVERDONE), ()).dangers


def test_danger_goes_before_what_is_missing() -> None:
    empty = triage(parse_case(HEAD), ())
    near = triage(parse_case(HEAD), (Danger.NEAR,))
    both = triage(parse_case(HEAD), (Danger.NEAR, Danger.HURT))
    fuller = triage(parse_case(f'{HEAD}[soil]\nph = 6.5\nph_method = "water 1:1"\n'), ())
    ordered: list[Triage] = sorted([fuller, empty, near, both], key=lambda one: one.rank)
    assert ordered[:2] == [both, near]
    assert ordered[2].rank[1] <= ordered[3].rank[1]
