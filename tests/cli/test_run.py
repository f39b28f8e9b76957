from __future__ import annotations

import io
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

import loamshift
from loamshift.cli.help_text import told
from loamshift.cli.page import page
from loamshift.cli.run import run
from loamshift.errors import InputError, TableError
from loamshift.report.messages.book import book_of

COMMANDS = (
    *("reprint", "compare-letters", "score"),
    *("advise", "new", "check", "schema", "claim", "water", "convert", "sample"),
    *("plants", "materials", "places", "why"),
)
ROOT = Path(__file__).resolve().parents[2]


def fresh(*arguments: str, **environment: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "loamshift", *arguments],
        capture_output=True,
        text=True,
        encoding="utf-8",
        env={**os.environ, "PYTHONIOENCODING": "utf-8", **environment},
        timeout=60,
        check=False,
    )


def test_the_version(command) -> None:
    assert command("--version").out == f"loamshift {loamshift.__version__}\n"


def test_nothing_at_all_prints_the_help(command) -> None:
    result = command()
    assert "Commands:" in result.out + result.err
    assert all(name in result.out + result.err for name in COMMANDS)


@pytest.mark.parametrize("name", COMMANDS)
def test_every_help_teaches_with_an_example(command, name: str) -> None:
    result = command(name, "--help")
    assert result.code == 0
    assert "Example" in result.out and f"loamshift {name} " in result.out


@pytest.mark.parametrize(("other", "name"), [("explain", "why"), ("handout", "card")])
def test_another_name_leads_to_a_command_and_is_not_listed(command, other: str, name: str) -> None:
    asked, meant = command(other, "--help").out, command(name, "--help").out
    assert asked.replace(f"loamshift {other} [", f"loamshift {name} [") == meant
    assert f"\n  {other} " not in command("--help").out


def test_every_help_text_is_asked_for_and_the_same_as_any_message() -> None:
    """Help texts are read without the message library, which must read the same."""
    book = book_of("en-GB")
    asked = {
        key
        for path in (ROOT / "src" / "loamshift" / "cli").glob("*.py")
        for key in re.findall(r'told\("(cli-help-[a-z0-9-]+)"', path.read_text("utf-8"))
    }
    assert len(asked) > 100
    for key in asked:
        spelt = (text.replace("sulph", "sulf") for text in (told(key), book.word(key, {})))
        assert len(set(spelt)) == 1, key


@pytest.mark.parametrize(
    "arguments", [("advice",), ("advise",), ("plants", "--nope"), ("sample", "--pots", "many")]
)
def test_wrong_usage_is_2(command, arguments: tuple[str, ...]) -> None:
    result = command(*arguments)
    assert result.code == 2 and result.out == ""


def test_a_misspelt_command_names_the_nearest(command) -> None:
    assert "advise" in command("advice").err


def failing(monkeypatch: pytest.MonkeyPatch, error: BaseException) -> None:
    def fail(*_: object, **__: object) -> None:
        raise error

    monkeypatch.setattr("loamshift.tables.plants.load_plants", fail)


def test_what_the_user_can_mend_is_1(command, monkeypatch) -> None:
    failing(monkeypatch, InputError("give it again"))
    result = command("plants")
    assert (result.code, result.out, result.err) == (1, "", "give it again\n")


@pytest.mark.parametrize("error", [TableError("broken row"), ZeroDivisionError("oh")])
def test_our_fault_is_3_and_says_so_without_a_traceback(command, monkeypatch, error) -> None:
    failing(monkeypatch, error)
    result = command("plants")
    assert result.code == 3 and result.out == ""
    assert "our fault" in result.err and "Traceback" not in result.err


def test_a_traceback_comes_when_asked_for(command, monkeypatch) -> None:
    failing(monkeypatch, ZeroDivisionError("oh"))
    monkeypatch.setenv("LOAMSHIFT_TRACEBACK", "1")
    assert "Traceback" in command("plants").err


def test_an_interrupt_is_130_and_quiet(command, monkeypatch) -> None:
    failing(monkeypatch, KeyboardInterrupt())
    result = command("plants")
    assert result.code == 130 and "Traceback" not in result.err


def test_an_interrupt_inside_a_command_is_said_once(command, monkeypatch) -> None:
    """The library of the command line catches it first and leaves by exit code alone."""

    def stop(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("loamshift.cli.show.words_for", stop)
    result = command("sample")
    assert (result.code, result.out) == (130, "")
    assert result.err.startswith("Stopped") and result.err.count("\n") == 1


def test_a_closed_pipe_is_quiet() -> None:
    process = subprocess.Popen(
        [sys.executable, "-m", "loamshift", "why"],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    )
    assert process.stdout is not None and process.stderr is not None
    process.stdout.close()
    errors = process.stderr.read()
    process.stderr.close()
    process.wait(timeout=60)
    assert errors == b""


def test_a_console_without_our_letters_gets_question_marks_not_a_fault() -> None:
    result = subprocess.run(
        [sys.executable, "-m", "loamshift", "convert", "10 C", "F"],
        capture_output=True,
        env={**os.environ, "PYTHONIOENCODING": "ascii"},
        timeout=60,
        check=False,
    )
    assert result.returncode == 0 and result.stdout == b"10 C = 50 ?F\n"


def test_a_pipe_gets_no_colour_whatever_the_environment_says() -> None:
    assert "\x1b" not in fresh("sample", TERM="xterm-256color", COLORTERM="truecolor").stdout


class Screen(io.StringIO):
    """A terminal that keeps what it shows."""

    def isatty(self) -> bool:
        return True


@pytest.mark.parametrize(("no_color", "bold"), [("", True), ("1", False)])
def test_a_terminal_gets_bold_unless_no_color_is_set(monkeypatch, no_color, bold) -> None:
    screen = Screen()
    monkeypatch.setattr("sys.stdout", screen)
    monkeypatch.setenv("TERM", "xterm")
    monkeypatch.setenv("NO_COLOR", no_color)
    assert run(["sample"]) == 0
    assert ("\x1b[1m" in screen.getvalue()) is bold
    assert "Taking the sample" in screen.getvalue()


def test_help_loads_nothing_heavy() -> None:
    """What makes a start slow must not be loaded to print a help text."""
    code = (
        "import sys; from loamshift.cli.run import run; run(['--help']); "
        "heavy = {'numpy', 'scipy', 'pydantic', 'rich', 'pandas'} & set(sys.modules); "
        "print(sorted(heavy), file=sys.stderr)"
    )
    result = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, timeout=60, check=False
    )
    assert result.stderr.strip() == "[]"


def test_the_page_of_the_command_line_is_current() -> None:
    """Mend with: python -m loamshift.cli.page docs/cli.md."""
    assert (ROOT / "docs" / "cli.md").read_text(encoding="utf-8") == page()


def test_shell_completion_is_offered() -> None:
    # The shell is found among the parents of the process; a second command keeps it there.
    typed = f'"{sys.executable}" -m loamshift --show-completion; true'
    result = subprocess.run(["bash", "-c", typed], capture_output=True, text=True, check=False)
    assert "_loamshift_completion" in result.stdout, result.stderr
    completed = fresh(
        _LOAMSHIFT_COMPLETE="complete_bash", COMP_WORDS="loamshift pl", COMP_CWORD="1"
    )
    assert {"plants", "places"} <= set(completed.stdout.split())


def test_run_returns_a_code_and_never_leaves_by_exception() -> None:
    assert run(["--no-such-option"]) == 2


@pytest.mark.parametrize(
    ("units", "option", "day"),
    [
        ("us", (), "May 5, 2099"),
        ("metric", (), "5 May 2099"),
        ("metric", ("--units", "us"), "May 5, 2099"),
        ("us", ("--units=metric",), "5 May 2099"),
    ],
)
def test_an_error_follows_the_units_of_the_command_or_the_file(
    command, tmp_path: Path, units: str, option: tuple[str, ...], day: str
) -> None:
    file = tmp_path / "bed.toml"
    file.write_text(f'case = 1\nunits = "{units}"\n[soil]\nph = 7\nsampled = 2099-05-05\n')
    result = command("advise", str(file), *option)
    assert result.code == 1 and day in result.err


@pytest.mark.parametrize("name", ["check", "card", "reprint", "compare-letters"])
@pytest.mark.parametrize("typed", ["", "  "])
def test_an_empty_name_is_no_folder(command, name: str, typed: str) -> None:
    result = command(name, typed)
    assert result.code == 2 and result.out == ""
    assert "the name is empty: write a file" in " ".join(result.err.split())
