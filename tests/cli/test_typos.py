"""Sixty misspelt names, invented before the order of the offers was: the right one comes first."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from loamshift.domain.names import NameFault
from loamshift.services.search import search_keys
from loamshift.tables.materials import load_materials
from loamshift.tables.places import load_places
from loamshift.tables.plants import plant_spellings

TYPOS = Path(__file__).parent / "data" / "typos.csv"
FIRST = 0.9
"""Share of names whose right one is to come first, written before it was measured [1]."""


@pytest.fixture(scope="module")
def offers() -> list[tuple[str, str, tuple[str, ...]]]:
    """What was typed, what was meant, and what is offered."""
    names = {
        "plant": plant_spellings(),
        "material": {
            key: (one.name_uk, one.name_us, *one.synonyms) for key, one in load_materials().items()
        },
        "place": {key: (place.country,) for key, place in load_places().items()},
    }
    found = []
    with TYPOS.open(encoding="utf-8", newline="") as file:
        for row in csv.DictReader(file):
            assert any(row["right"].casefold() in key.casefold() for key in names[row["kind"]])
            try:
                offered = search_keys(row["typed"], names[row["kind"]], kind=row["kind"])
            except NameFault as fault:
                offered = fault.candidates
            found.append((row["typed"], row["right"], offered))
    return found


def test_the_right_name_comes_first(offers) -> None:
    wrong = [
        (typed, offered)
        for typed, right, offered in offers
        if not offered or right.casefold() not in offered[0].casefold()
    ]
    assert len(offers) == 60
    assert 1.0 - len(wrong) / len(offers) >= FIRST, wrong


def test_sulphur_comes_first_however_it_is_spelt(command) -> None:
    for typed in ("sulpher", "sulfer", "sulphar"):
        said = command("materials", typed).err
        assert "Did you mean “Sulphur powder" in said, said


def test_what_is_like_nothing_offers_nothing(command) -> None:
    assert "Did you mean" not in command("plants", "zzzqqq").err
