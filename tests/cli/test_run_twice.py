"""A program may run several command lines: none leaves anything behind for the next."""

from __future__ import annotations

import locale
import os
import signal
import sys
import warnings
from pathlib import Path

import pytest

from loamshift.cli.error_json import AS_JSON

EXAMPLE = str(Path(__file__).parents[2] / "examples" / "bean-rows.toml")


def state() -> tuple[object, ...]:
    """What a command could change for those after it, besides what it imports."""
    environment = {k: v for k, v in os.environ.items() if k != "PYTEST_CURRENT_TEST"}
    return (
        environment,
        Path.cwd(),
        sys.stdout,
        sys.stderr,
        list(sys.argv),
        signal.getsignal(signal.SIGINT),
        signal.getsignal(signal.SIGTERM),
        locale.setlocale(locale.LC_ALL),
        list(warnings.filters),
        AS_JSON.get(),
    )


@pytest.mark.parametrize(
    "arguments",
    [
        ("advise", EXAMPLE, "--years", "0"),
        ("advise", EXAMPLE, "--years", "1", "--members", "20", "--json"),
        ("advise", EXAMPLE, EXAMPLE, "--years", "0", "--csv"),
        ("advise", "none.toml", "--json"),
        ("plants", "--nope", "--json"),
        ("plants", "oak", "--units", "us"),
        ("claim", "gypsum", "50 g/m2", "--ph", "7", "--target-ph", "6", "--years", "0"),
        ("why", "buffer", "--words", "us"),
        (),
    ],
    ids=lambda arguments: " ".join(arguments)[-40:] or "nothing",
)
def test_a_second_run_is_like_the_first(command, arguments: tuple[str, ...]) -> None:
    before = state()
    first = command(*arguments)
    assert state() == before
    command("sample", "--json", "--units", "us")
    command("plants", "zzzqqq", "--json")
    assert command(*arguments) == first
    assert state() == before


def test_a_closed_pipe_leaves_stdout_for_the_next(capfd: pytest.CaptureFixture[str]) -> None:
    from loamshift.cli.streams import drop_output

    drop_output()
    os.write(1, b"after\n")
    assert capfd.readouterr().out == "after\n"
