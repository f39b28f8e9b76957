"""Help in the reader's words: chosen on the command line, in the environment, or by the units."""

from __future__ import annotations

import re

import pytest
import typer

from loamshift.cli.app import app
from loamshift.cli.help_text import help_spelling, say_help_in
from loamshift.report.words import Words
from marked import marked_reader


def test_help_is_spelt_as_a_person_chose(command, monkeypatch: pytest.MonkeyPatch) -> None:
    british = command("materials", "--help").out
    assert "elemental sulphur" in british and "per cent" in british
    for arguments in (["--words", "us"], ["--words=us"], ["--units", "us"]):
        american = command("materials", "--help", *arguments).out
        assert "elemental sulfur" in american and "percent" in american
        assert "per cent" not in american
    monkeypatch.setenv("LOAMSHIFT_WORDS", "us")
    assert "elemental sulfur" in command("materials", "-h").out
    on_line = command("materials", "--help", "--words", "uk").out
    assert on_line == british, "the command line counts for more"


def test_what_is_printed_follows_the_same_choice(command, monkeypatch: pytest.MonkeyPatch) -> None:
    assert "aluminium" in command("materials", "aluminium sulfate").out.lower()
    monkeypatch.setenv("LOAMSHIFT_WORDS", "us")
    assert "aluminum" in command("materials", "aluminium sulfate").out.lower()


def test_the_comments_of_a_new_file_follow_too(command, monkeypatch: pytest.MonkeyPatch) -> None:
    """Keys and examples are typed alike everywhere; what is said of them is not."""
    asked = ("new", "--ph", "7.2")
    assert "by laboratory" in command(*asked).out
    assert "from a lab" in command(*asked, "--units", "us").out
    monkeypatch.setenv("LOAMSHIFT_WORDS", "us")
    assert "from a lab" in command(*asked).out


def test_an_unknown_spelling_is_named(command, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("LOAMSHIFT_WORDS", "klingon")
    for arguments in (("plants", "blueberry"), ("plants", "--help")):
        result = command(*arguments)
        assert result.code == 1
        assert "“klingon” is no spelling" in result.err and "LOAMSHIFT_WORDS" in result.err


@pytest.mark.parametrize(
    ("arguments", "spelling"),
    [
        ([], "uk"),
        (["advise", "--help"], "uk"),
        (["advise", "--units", "us", "-h"], "us"),
        (["advise", "--units", "us", "--words", "uk", "-h"], "uk"),
    ],
)
def test_the_choice(arguments: list[str], spelling: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("LOAMSHIFT_WORDS", raising=False)
    assert help_spelling(arguments) == spelling


def test_no_word_of_the_help_is_left_in_code(monkeypatch: pytest.MonkeyPatch) -> None:
    """What stays is typed: command lines; and what the library of the command line says itself."""
    marked: Words = marked_reader(monkeypatch)
    group = typer.main.get_command(app)
    say_help_in(group, marked)
    texts = dict(_helps(group, "loamshift"))
    assert len(texts) > 100
    for where, text in texts.items():
        spoken = "\n".join(line for line in text.split("\n") if not _is_typed(line))
        left = re.sub(r"⟦[^⟦⟧]*⟧", " ", spoken)
        assert not re.findall(r"[^\W\d_]{3,}", left), where


def _is_typed(line: str) -> bool:
    """An example, or the line it goes on in."""
    return line.startswith("  ")


def _helps(command, name: str):
    if command.help:
        yield name, command.help
    if getattr(command, "short_help", None):
        yield f"{name} in the list", command.short_help
    for param in command.params:
        if getattr(param, "help", None) and "completion" not in param.name:
            yield f"{name} {param.name}", param.help
    for below_name, below in getattr(command, "commands", {}).items():
        yield from _helps(below, f"{name} {below_name}")
