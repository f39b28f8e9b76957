"""The README stays short, names every command, and begins a letter as it is printed."""

from __future__ import annotations

import re
from pathlib import Path

import readme
from loamshift.cli.app import app

ROOT = Path(__file__).parents[2]
README = ROOT / "README.md"
LONGEST_LINES = 120
COMMANDS = {str(command.name) for command in app.registered_commands if not command.hidden}


def named(text: str) -> set[str]:
    """The commands that a text names in its code, with or without ``loamshift`` before them."""
    spans = re.findall(r"`(?:loamshift )?([a-z][a-z-]*)[^`]*`", text)
    return set(spans) & COMMANDS


def test_it_is_short() -> None:
    assert len(README.read_text(encoding="utf-8").splitlines()) < LONGEST_LINES


def test_every_command_is_in_its_table() -> None:
    table = README.read_text(encoding="utf-8").partition("## Commands")[2].partition("\n## ")[0]
    assert COMMANDS - named(table) == set()


def test_a_command_that_is_left_out_would_be_found() -> None:
    assert named("| x | `loamshift advise bed.toml`, `places Oslo` |") == {"advise", "places"}


def test_every_page_it_links_to_exists() -> None:
    links = re.findall(r"\]\(([^)#]+)\)", README.read_text(encoding="utf-8"))
    assert links and not [link for link in links if not (ROOT / link).exists()]


def test_a_letter_is_cut_after_its_verdict() -> None:
    shown = readme.letter_of("examples/bean-rows.toml")
    assert shown.startswith("Bean rows\n") and shown.endswith(f"\n\n{readme.CUT}")
    assert len(shown.split("\n\n")) == readme.SHOWN_BLOCKS + 1
    block = "<!-- letter: examples/bean-rows.toml -->\n```text\nold\n```\n<!-- end of letter -->"
    assert shown in readme.current(block) and "old" not in readme.current(block)
