from __future__ import annotations

import pytest

from loamshift.case.question_text import read_question, sender_of
from loamshift.domain.question import Danger


def facts(words: str) -> dict[str, str]:
    return {fact.path: fact.value for fact in read_question(words).facts}


def test_a_plain_question_is_understood() -> None:
    read = facts(
        "My soil near Leeds is pH 7,2 by probe; can I grow blueberries? Bed is 3 m by 4 m, clay."
    )
    assert read == {
        "soil.ph": "7.2",
        "soil.ph_method": "probe",
        "soil.texture": "clay",
        "aim.plant": "highbush blueberry",
        "place.name": "Leeds",
        "bed.area": "3 m x 4 m",
    }


def test_each_fact_keeps_the_words_it_was_read_from() -> None:
    words = "It is 200 square feet near Minneapolis, with a pH of 5.8."
    for fact in read_question(words).facts:
        assert fact.words in words


@pytest.mark.parametrize(
    ("words", "ph"),
    [
        ("the pH is 6.4", "6.4"),
        ("pH6.4 last year", "6.4"),
        ("the lab says 6.4 (pH CaCl2)", "6.4"),
        ("tap water pH 7.8, but the soil pH is 6.1", "6.1"),
        ("the target pH is 5.5; soil has pH 6.8", "6.8"),
        ("they like a pH of 5. What can I do?", None),
        ("somewhere between pH 5 and 6", None),
        ("pH 5-6", None),
        ("pH 72", None),
        ("I bought a pH meter for 20 pounds", None),
    ],
)
def test_only_the_ph_of_the_soil_is_read(words: str, ph: str | None) -> None:
    assert facts(words).get("soil.ph") == ph


@pytest.mark.parametrize(
    ("words", "method"),
    [
        ("pH 6.1 in 0.01 M CaCl2", "CaCl2"),
        ("pH 6.1 (1:5)", "water 1:5"),
        ("pH 6.1 with a test kit", "strip"),
        ("pH 6.1 with one of those probes", None),
        ("pH 6.1 from the lab", None),
    ],
)
def test_a_method_is_read_where_it_is_named(words: str, method: str | None) -> None:
    assert facts(words).get("soil.ph_method") == method


def test_people_months_and_products_are_no_plants_or_places() -> None:
    read = facts("In March I, Holly, spread lime and wood ash. Regards, Iris")
    assert "aim.plant" not in read
    assert "place.name" not in read


def test_a_name_of_two_plants_is_left_to_be_asked() -> None:
    assert "aim.plant" not in facts("My hydrangeas are pale.")


def test_a_word_for_the_bed_is_no_second_plant() -> None:
    def plants(words: str) -> list[str]:
        return [one.value for one in read_question(words).facts if one.path == "aim.plant"]

    assert plants("The camellias in our 12 m2 border look ill.") == ["camellia"]
    assert plants("Our flower border looks ill.") == ["mixed border"]
    assert plants("The lawn beside the camellias is mossy.") == ["lawn", "camellia"]


def test_alkalinity_is_read_and_hardness_is_not_taken_for_it() -> None:
    assert facts("alkalinity of 250 mg/l HCO3")["water.alkalinity"] == "250 mg/L HCO3"
    assert "water.alkalinity" not in facts("hardness 300 mg/l, very hard water")


def test_the_head_of_an_e_mail_says_who_and_nothing_else() -> None:
    words = "From: Rose Leek <rose@example.org>\nTo: us\nSent: 3 May\n\nMy pH is 6.2."
    assert sender_of(words) == "Rose Leek <rose@example.org>"
    assert facts(words) == {"soil.ph": "6.2"}
    assert sender_of("My pH is 6.2") == ""


@pytest.mark.parametrize(
    ("words", "dangers"),
    [
        ("Our dog licked some of the lime I spread.", {Danger.HURT, Danger.NEAR}),
        ("I got quicklime in my eyes, they are burning", {Danger.HURT, Danger.CAUSTIC}),
        ("The sun burnt my roses.", set()),
        ("Can I use battery acid?", {Danger.CAUSTIC}),
        ("I put a whole bag of sulphur on by mistake", {Danger.STOP}),
        ("Is sulphur safe where the children play?", {Danger.NEAR}),
        ("Blueberries are pale.", set()),
    ],
)
def test_danger_is_seen_in_the_words(words: str, dangers: set[Danger]) -> None:
    assert set(read_question(words).dangers) == dangers


@pytest.mark.parametrize("words", ["", " ", "x" * 50_000, "pH " * 5_000, "1 x " * 5_000, "\x00"])
def test_nothing_breaks_it(words: str) -> None:
    assert read_question(words).facts == ()
