from __future__ import annotations

import pytest

from loamshift.core.buffer_acidity import buffer_ph_without_acidity
from loamshift.core.lime_requirement import FORMS, lime_requirement_caco3_g_m2_from_buffer_ph
from loamshift.domain.names import match_name
from loamshift.domain.rules import BufferPhMethod
from loamshift.errors import TableError
from loamshift.tables.laboratory import (
    NO_EQUATION,
    buffer_families,
    buffer_ph_method_for_target,
    load_buffer_ph_methods,
    load_sieve_openings_um,
)
from loamshift.units import g_m2_from_lb_acre

METHODS = load_buffer_ph_methods()


@pytest.mark.parametrize("method", list(METHODS.values()), ids=lambda method: method.key)
def test_every_method_has_an_equation_or_says_that_it_has_none(method: BufferPhMethod) -> None:
    assert method.form in (*FORMS, NO_EQUATION)
    assert (method.form == NO_EQUATION) == (not method.coefficients)
    assert 0.1 <= method.log10_sd <= 0.2
    assert method.note


@pytest.mark.parametrize(
    "method",
    [method for method in METHODS.values() if method.form != NO_EQUATION],
    ids=lambda method: method.key,
)
def test_every_equation_can_be_used_with_the_coefficients_as_listed(method: BufferPhMethod) -> None:
    rates = [
        lime_requirement_caco3_g_m2_from_buffer_ph(
            method.form,
            method.coefficients,
            buffer_ph=buffer_ph,
            ph_water=5.0,
            target_ph=method.target_ph or 6.5,
            depth_cm=15.0,
            method_depth_cm=method.depth_cm,
            method_target_ph=method.target_ph,
            exchangeable_acidity_cmolc_kg=(7.0 - buffer_ph) * 12.0,
        )
        for buffer_ph in (6.4, 6.0)
    ]
    # A soil at pH 5 with such a buffer pH is limed with some hundreds of grams a square metre.
    assert 50.0 < rates[0] < rates[1] < 2500.0


def test_printed_example_of_woodruff() -> None:
    method = METHODS["woodruff"]
    rate = lime_requirement_caco3_g_m2_from_buffer_ph(
        method.form,
        method.coefficients,
        buffer_ph=6.9,
        ph_water=6.0,
        target_ph=7.0,
        depth_cm=method.depth_cm,
        method_depth_cm=method.depth_cm,
        method_target_ph=method.target_ph,
    )
    assert rate == pytest.approx(g_m2_from_lb_acre(1000.0))


@pytest.mark.parametrize(
    ("word", "key"),
    [
        *(("SMP", "smp"), ("LTI", "smp"), ("Sikora", "sikora"), ("Moore-Sikora", "moore-sikora")),
        *(("Adams-Evans", "adams-evans"), ("modified Mehlich", "modified mehlich")),
        *(("Mehlich", "mehlich"), ("Woodruff", "woodruff")),
    ],
)
def test_names_of_methods(word: str, key: str) -> None:
    names = {k: m.synonyms for k, m in METHODS.items()}
    assert match_name(word, names, kind="buffer-pH method") == key


def test_every_buffer_named_in_practice_has_an_equation() -> None:
    for key in ("adams-evans", "moore-sikora", "modified mehlich", "smp", "sikora", "mehlich"):
        assert METHODS[key].form != NO_EQUATION
    # Moore-Sikora uses the equations of Adams and Evans, modified Mehlich the line of Mehlich's.
    assert METHODS["moore-sikora"].coefficients == METHODS["adams-evans"].coefficients
    assert METHODS["modified mehlich"].coefficients == METHODS["mehlich"].coefficients


def test_each_kind_of_buffer_is_there_once() -> None:
    families = [method.family for method in buffer_families()]
    assert sorted(families) == ["adams-evans", "mehlich", "smp", "woodruff"]


@pytest.mark.parametrize("method", list(METHODS.values()), ids=lambda method: method.key)
def test_a_reading_makes_sense_only_below_the_buffer_itself(method: BufferPhMethod) -> None:
    assert method.sense_low_ph < method.sense_high_ph
    assert method.field_allowance >= 1.0
    by_volume_or_mass = method.form in ("mehlich-nc", "adams-evans", "penn-state-acidity")
    assert (method.slice_kg_m2 is None) == by_volume_or_mass
    if method.form not in ("penn-state-acidity", NO_EQUATION):
        reference = buffer_ph_without_acidity(method.form, method.coefficients)
        assert method.sense_low_ph < reference <= method.sense_high_ph


@pytest.mark.parametrize(
    ("key", "target", "found"),
    [
        *(("smp", 6.9, "smp, to ph 6.8"), ("smp", 6.4, "smp"), ("smp", 5.5, "smp, to ph 6.0")),
        *(
            ("mehlich", 6.0, "mehlich"),
            ("penn state acidity", 7.0, "penn state acidity, to ph 7.0"),
        ),
    ],
)
def test_nearest_target(key: str, target: float, found: str) -> None:
    assert buffer_ph_method_for_target(key, target_ph=target).key == found


def test_nearest_target_of_nothing() -> None:
    with pytest.raises(TableError):
        buffer_ph_method_for_target("no such method", target_ph=6.5)


def test_sieves_get_finer_with_their_number() -> None:
    openings = load_sieve_openings_um()
    assert list(openings) == sorted(openings)
    assert list(openings.values()) == sorted(openings.values(), reverse=True)
    assert openings[100] == 150.0
