"""What the shell offers after Tab is found again as it stands."""

from __future__ import annotations

import re

import pytest

from cli.conftest import Command
from loamshift.cli import completion
from loamshift.domain.names import NameFault
from loamshift.services.why import explain
from loamshift.tables.materials import find_material
from loamshift.tables.places import find_place
from loamshift.tables.plants import find_plant


def tab(line: str, command: Command, monkeypatch: pytest.MonkeyPatch) -> set[str]:
    """What bash is given for a line that ends where Tab is pressed."""
    monkeypatch.setenv("_LOAMSHIFT_COMPLETE", "complete_bash")
    monkeypatch.setenv("COMP_WORDS", line)
    monkeypatch.setenv("COMP_CWORD", str(line.count(" ")))
    done = command()
    assert done.code == 0, done.err
    return set(done.out.split("\n")) - {""}


@pytest.mark.parametrize(
    ("line", "offer"),
    [
        ("loamshift plants high", "highbush-blueberry"),
        ("loamshift new --plant high", "highbush-blueberry"),
        ("loamshift materials elem", "elemental-sulfur,powder"),
        ("loamshift claim coff", "coffee-grounds,spent"),
        ("loamshift convert --material flow", "flowers-of-sulphur"),
        ("loamshift places Minn", "Minneapolis"),
        ("loamshift new --texture san", "sandy-loam"),
        ("loamshift advise bed.toml --table ", "blueberry-bulletins"),
        ("loamshift why dose.", "dose.acid_mmolc_kg"),
    ],
)
def test_tab_offers_what_the_place_takes(
    command: Command, monkeypatch: pytest.MonkeyPatch, line: str, offer: str
) -> None:
    assert offer in tab(line, command, monkeypatch)


@pytest.mark.parametrize(
    ("offers", "find"),
    [
        (completion.plants, find_plant),
        (completion.materials, find_material),
        (completion.places, find_place),
        (completion.why_keys, explain),
    ],
)
def test_every_offer_is_found_and_safe_in_a_shell(offers, find) -> None:
    words = offers("")
    assert len(words) > 40
    for word in words:
        assert re.fullmatch(r"[\w.,%-]+", word)
        try:
            find(word)
        except NameFault as fault:
            assert fault.ambiguous, word
