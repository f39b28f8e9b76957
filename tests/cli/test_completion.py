"""What the shell offers after Tab is found again as it stands."""

from __future__ import annotations

import os
import re
import subprocess
import sys

import pytest

from loamshift.cli import completion
from loamshift.domain.names import NameFault
from loamshift.services.why import explain
from loamshift.tables.materials import find_material
from loamshift.tables.places import find_place
from loamshift.tables.plants import find_plant


def tab(line: str) -> set[str]:
    """What bash is given for a line that ends where Tab is pressed."""
    words = line.split(" ")
    done = subprocess.run(
        [sys.executable, "-m", "loamshift"],
        env={
            **os.environ,
            "_LOAMSHIFT_COMPLETE": "complete_bash",
            "COMP_WORDS": line,
            "COMP_CWORD": str(len(words) - 1),
        },
        capture_output=True,
        text=True,
        timeout=60,
        check=True,
    )
    return set(done.stdout.split("\n")) - {""}


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
def test_tab_offers_what_the_place_takes(line: str, offer: str) -> None:
    assert offer in tab(line)


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
