from __future__ import annotations

import tomllib
from random import Random
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from loamshift.store.models import Bed
from loamshift.store.toml_out import as_json, is_tables, toml_text, without_nulls
from loamshift.store.toml_update import with_values
from store.stores import trees

OWN = """\
# Mrs Ruiz, by the gate
case = 1
name = "North # border"   # as she calls it

# asked by letter
[place]
name = "Minneapolis"

[soil]   # from the lab
ph = 6.8        # sheet 12
sampled = 2026-03-01
texture = "loam"

# before the rain
[[reading]]
date = 2026-03-01
ph = 6.5 # wet day
# after it
[[reading]]
date = 2026-04-01
ph = 6.4 # dry day

[aim]
plant = [
  "highbush blueberry", # she wants it
  "lawn",
]
"""


def read(text: str) -> Any:
    return as_json(tomllib.loads(text))


def test_a_text_that_says_the_same_stays_to_the_letter() -> None:
    assert with_values(OWN, read(OWN)) == OWN
    assert with_values(OWN.replace("\n", "\r\n"), read(OWN)) == OWN.replace("\n", "\r\n")


def test_remarks_stay_where_values_change_are_added_or_go() -> None:
    tree = read(OWN)
    tree["soil"] = {"ph": 7.1, "sampled": "2026-03-09", "fizz": "none"}
    tree["aim"] = {"plant": "lawn"}
    tree["water"] = {"weekly": "25 mm"}
    made = with_values(OWN, tree)
    assert read(made) == tree
    assert "ph = 7.1  # sheet 12\nsampled = 2026-03-09\nfizz" in made
    remarks = [line.partition("#")[2].strip() for line in OWN.replace("North #", "").splitlines()]
    assert sum(map(bool, remarks)) == 10
    assert [remark for remark in remarks if remark not in made] == []


def test_an_entry_goes_with_its_own_remarks_and_others_keep_theirs() -> None:
    tree = read(OWN)
    new = {"date": "2026-02-01", "ph": 6.6}
    tree["reading"] = [new, tree["reading"][1], {"date": "2026-05-01", "ph": 6.1}]
    made = with_values(OWN, tree)
    assert read(made) == tree
    assert "ph = 6.4 # dry day" in made and "wet day" not in made
    assert made.index('"2026-02-01"') < made.index("# after it") < made.index('"2026-05-01"')


@pytest.mark.parametrize("own", ["soil.ph = 6.8 # dotted\n", "a = # broken\n[", "# a remark alone"])
def test_remarks_stand_above_where_the_layout_cannot_be_followed(own: str) -> None:
    tree = {"case": 1, "soil": {"ph": 7.0, "texture": "loam"}, "b": {"c": [{"d": 1}]}}
    made = with_values(own, tree)
    assert read(made) == tree
    assert own.partition("#")[2].split("\n")[0].strip() in made


@given(trees, trees)
def test_it_always_reads_as_the_tree(before: dict[str, Any], after: dict[str, Any]) -> None:
    one, other = (without_nulls(tree)[0] for tree in (before, after))
    own = "# remark\n\n" + toml_text(one)
    made = with_values(own, other)
    assert read(made) == other
    assert "# remark" in made


@given(trees, trees, st.randoms(use_true_random=False))
def test_remarks_stay_on_all_that_is_not_deleted(
    before: dict[str, Any], other: dict[str, Any], random: Random
) -> None:
    one = without_nulls(before)[0]
    after = edited(one, list(without_nulls(other)[0].items()), random)
    own, owners = with_remarks(toml_text(one))
    made = with_values(own, after)
    assert read(made) == after
    kept = [remark for remark, place in owners.items() if stays(one, after, place)]
    assert [remark for remark in kept if remark not in made] == []


def edited(tree: Any, spare: list[tuple[str, Any]], random: Random) -> dict[str, Any]:
    """A tree with some values deleted, some replaced and some added, at any depth."""
    after = {}
    for key, value in tree.items():
        done = random.choice(["kept", "kept", "edited", "replaced", "deleted"])
        if done == "edited" and isinstance(value, dict):
            after[key] = edited(value, spare, random)
        elif done == "replaced" and spare:
            after[key] = random.choice(spare)[1]
        elif done != "deleted":
            after[key] = value
    return after | dict(spare[: random.randint(0, 1)])


def with_remarks(text: str) -> tuple[str, dict[str, tuple[str, ...]]]:
    """A text with a remark above and on each of its lines, and where what they speak of stands."""
    lines: list[str] = []
    owners: dict[str, tuple[str, ...]] = {}
    table: tuple[str, ...] = ()
    for number, line in enumerate(text.removesuffix("\n").split("\n")):
        if not line:
            lines.append(line)
            continue
        node = tomllib.loads(line)
        place = () if line[0] == "[" else table
        while isinstance(node, dict) and node:
            ((name, node),) = node.items()
            place = (*place, name)
            if line[0] != "[":
                break
        table = place if line[0] == "[" else table
        lines += [f"# above {number}.", f"{line}  # beside {number}."]
        owners |= {lines[-2]: place, f"# beside {number}.": place}
    return "\n".join(lines) + "\n", owners


def stays(before: Any, after: Any, place: tuple[str, ...]) -> bool:
    """True where a value of the same kind stands; of lists of tables, only where all do."""
    for key in place:
        before, after = before[key], after.get(key)
        if kind(before) != kind(after):
            return False
        if kind(before) == "tables":
            return bool(before == after)
    return True


def kind(value: Any) -> str:
    if isinstance(value, dict):
        return "table"
    return "tables" if is_tables(value) else "absent" if value is None else "simple"


def test_a_bed_keeps_its_text_and_its_case_alike() -> None:
    bed = Bed(case_text=OWN)
    assert bed.case_json == read(OWN) and bed.own_text == OWN
    bed.take_case({**bed.case_json, "name": "South"})
    assert bed.case_json == read(bed.own_text) and bed.own_text.startswith("# Mrs Ruiz")
    plain = Bed(case_text=toml_text({"case": 1, "name": "A"}))
    assert plain.own_text == "" and plain.case_text == 'case = 1\nname = "A"\n'
