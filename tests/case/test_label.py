"""The label of a bag in a case file: read, refused with every fault, and written again."""

from __future__ import annotations

import datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from loamshift.case.build_label import product_from_label
from loamshift.case.label import label_text, read_label
from loamshift.case.label_keys import LABEL_KEYS
from loamshift.case.mend import Mend
from loamshift.case.read import parse_case
from loamshift.case.write_case import case_to_toml
from loamshift.domain.case import Case
from loamshift.domain.label import Label, Passing
from loamshift.errors import CaseError, Fault
from wording import read

TODAY = datetime.date(2026, 4, 12)
CASE = """
case = 1
[bed]
area = "20 m2"
[soil]
ph = 7.0
texture = "loam"
"""
FEED = "{ n_ammonium_pct = 8, n_urea_pct = 4, p2o5_pct = 4, k2o_pct = 6, so3_pct = 22 }"
EVERYWHERE = f"""
[feed]
material = "Heath Feed"
label = {FEED}
rate = "30 g/m2"
[[on_hand]]
material = "Valley Sulphur"
label = {{ s_element_pct = 30, filler_pct = 70 }}
[[on_hand]]
material = "sulphur chips"
label = {{ s_element_pct = 85 }}
[[applied]]
material = "Valley Sulphur"
label = "s_element = 30 %, filler = 70"
date = 2026-03-01
rate = "20 g/m2"
[[claim]]
material = "Chalk Mix"
label = {{ nv_as_cao_pct = 50, fineness = "40 % through 150 um, 95 % through 5 mm" }}
rate = "200 g/m2"
"""


def case(more: str) -> Case:
    return parse_case(CASE + more, today=TODAY)


def faults(more: str) -> dict[str, Fault]:
    with pytest.raises(CaseError) as caught:
        case(more)
    return {fault.path: fault for fault in caught.value.faults}


def on_hand(label: str, name: str = "Green Bag", more: str = "") -> str:
    return f'[[on_hand]]\nmaterial = "{name}"\nlabel = {label}\n{more}'


def test_a_label_is_read_in_all_four_tables() -> None:
    read = case(EVERYWHERE)
    assert read.feed is not None and read.feed.material is not None
    assert read.feed.material.n_as_nh4_frac == pytest.approx(0.08)
    own, chips = (item.material for item in read.on_hand)
    assert (own.key, own.elemental_s_frac) == ("Valley Sulphur", 0.3)
    assert chips.key == "elemental sulfur, prills (85 % S)" and chips.intact_diameter_um
    assert read.applied[0].material == own
    assert read.claims[0].material.sizes[0].mass_frac == 0.4
    assert set(read.own_materials) == {own.key, chips.key, "Heath Feed", "Chalk Mix"}


def test_it_is_written_as_it_was_read() -> None:
    read = case(EVERYWHERE)
    again = parse_case(case_to_toml(read), today=TODAY)
    assert again == read
    assert 'material = "Valley Sulphur"' in case_to_toml(read)


def test_a_table_and_a_text_say_the_same() -> None:
    text = "Nitrogen = 0, n-ammonium: 21; S_sulphate_pct = 24 %"
    with pytest.raises(Mend, match="form of the nitrogen"):
        read_label(text)
    said = read_label(text.removeprefix("Nitrogen = 0, "))
    assert said == read_label({"n_ammonium_pct": 21, "s_sulfate_pct": "24"})
    assert read_label("n_urea = 46,5").n_urea_pct == 46.5


def test_every_fault_of_a_label_has_its_path() -> None:
    found = faults(
        on_hand("{ n_total_pct = 20, so3_pct = 225, p = 90, s = 3, n_uria_pct = 2 }")
        + on_hand("{ n_urea_pct = 60 }", "Blue Bag")
    )
    assert {path.removeprefix("on_hand[1].label.") for path in found} == {
        *("so3_pct", "p", "s", "n_uria_pct"),
        "on_hand[2].label",
    }
    assert "s_element_pct = 90" in found["on_hand[1].label.so3_pct"].mend
    assert "n_urea_pct" in found["on_hand[1].label.n_uria_pct"].mend
    assert "at least 129%" in found["on_hand[2].label"].problem


@pytest.mark.parametrize(
    ("label", "key", "says"),
    [
        ("{ n_total_pct = 12 }", ".n_total_pct", "ammonium (ammoniacal)"),
        ("{ n_total_pct = 12, n_urea_pct = 4 }", ".n_total_pct", "n_slow_pct"),
        ("{ n_total_pct = 12, n_urea_pct = 20 }", ".n_total_pct", "miscopied"),
        ("{ n_pct = 12 }", ".n_pct", "n_nitrate_pct"),
        ("{ nv = 54 }", ".nv", "nv_as_cao_pct"),
        ("{ ca_pct = 38 }", ".ca_pct", "neutralising value"),
        ("{ p2o5_pct = 46, p_pct = 40 }", ".p2o5_pct", "Keep one"),
        ("{ s_element_pct = 50, n_nitrate_pct = 10 }", ".s_element_pct", "No maker"),
        ('{ n_urea_pct = 46, fineness = "60 % through 100 mesh" }', ".fineness", "size of grain"),
        ('{ nv_as_caco3_pct = 90, fineness = "fine" }', ".fineness", "through 150 um"),
        (
            '{ nv_as_caco3_pct = 90, fineness = "60 % through 90 mesh" }',
            ".fineness",
            "These are known",
        ),
        ("{ k2o_pct = 0 }", "", "Copy what the bag prints"),
        ("{}", "", "label = {"),
        ("5", "", "label = {"),
        ("{ k2o_pct = -3 }", ".k2o_pct", "from 0 to 100"),
    ],
)
def test_what_cannot_be_placed_says_what_to_look_for(label: str, key: str, says: str) -> None:
    found = faults(on_hand(label))
    assert set(found) == {f"on_hand[1].label{key}"}
    fault = found[f"on_hand[1].label{key}"]
    assert says in f"{fault.problem} {fault.mend}"


@pytest.mark.parametrize(
    ("kind", "label", "says"),
    [
        ("flowers of sulphur", "{ s_sulfate_pct = 20 }", "s_element_pct"),
        ("garden lime", "{ s_element_pct = 20 }", "nv_as_cao_pct"),
        ("copperas", "{ s_sulfate_pct = 11 }", "fe_sulfate_pct"),
        ("sulphate of ammonia", "{ s_sulfate_pct = 24 }", "ammoniacal"),
        ("battery acid", "{ s_sulfate_pct = 11 }", "purity_pct"),
    ],
)
def test_a_kind_whose_figure_is_missing_is_told_which(kind: str, label: str, says: str) -> None:
    (fault,) = faults(on_hand(label, kind)).values()
    assert says in fault.mend


def test_a_name_stands_for_one_label() -> None:
    assert (
        "its own name"
        in faults(on_hand("{ s_element_pct = 30 }") + on_hand("{ s_element_pct = 90 }"))[
            "on_hand[2].material"
        ].mend
    )
    two = case(
        on_hand("{ s_element_pct = 85, filler_pct = 15 }", "sulphur chips")
        + on_hand("{ s_element_pct = 85 }", "sulphur chips")
    )
    assert [item.material.key for item in two.on_hand] == [
        "elemental sulfur, prills (85 % S)",
        "elemental sulfur, prills (85 % S, no. 2)",
    ]


def test_an_own_name_needs_a_label_and_a_label_no_purity() -> None:
    assert "on_hand[1].material" in faults('[[on_hand]]\nmaterial = "Green Bag"')
    found = faults(on_hand("{ s_element_pct = 30 }", more="purity_pct = 30"))
    assert set(found) == {"on_hand[1].purity_pct"}
    assert (
        "star"
        in faults(on_hand("{ s_element_pct = 30 }", "**Bold**"))["on_hand[1].material"].problem
    )


def test_a_grain_that_no_bag_tells_is_noted() -> None:
    assert any("counts as powder" in read(note) for note in case(EVERYWHERE).notes)
    assert not case(on_hand("{ s_element_pct = 85 }", "sulphur chips")).notes


def test_a_product_outside_a_case() -> None:
    assert product_from_label("Bag", "s_element = 30").elemental_s_frac == 0.3
    with pytest.raises(CaseError, match="n_total_pct"):
        product_from_label("Bag", "n_total = 30")
    with pytest.raises(CaseError, match="ammoniacal"):
        product_from_label("urea", "k2o = 30")


FIGURES = st.dictionaries(
    st.sampled_from([row.key for row in LABEL_KEYS]),
    st.integers(0, 30).map(float),
    min_size=1,
    max_size=5,
)


@given(FIGURES, st.booleans())
def test_whatever_is_read_reads_back(figures: dict[str, float], sieved: bool) -> None:
    fineness = (Passing(150.0, 40.0), Passing(5000.0, 95.0)) if sieved else ()
    label = Label(**figures, fineness=fineness)
    try:
        read = read_label(label_text(label))
    except Mend:
        return
    assert read == label
