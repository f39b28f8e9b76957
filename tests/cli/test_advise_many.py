"""Many cases in one run: a letter each, a summary, and faults that stop nobody else."""

from __future__ import annotations

import contextlib
import json
import os
import re
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

import interrupts
from cli.kept import write_case
from loamshift.cli.batch import case_files, errands, workers_for
from loamshift.cli.batch_letters import printable
from loamshift.cli.batch_progress import EVERY, Reached, progress
from loamshift.cli.letter_forms import Form
from loamshift.errors import InputError

EXAMPLES = Path(__file__).parents[2] / "examples"
QUICK = ("--years", "0")


@pytest.fixture
def beds(tmp_path: Path) -> Path:
    """A folder with two cases and one that cannot be read."""
    folder = tmp_path / "beds"
    write_case(folder / "one.toml")
    write_case(folder / "two.toml", ph=5.0)
    (folder / "broken.toml").write_text('case = 1\n[soil]\nph = 72\ntexture = "loan"\n', "utf-8")
    return folder


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def test_every_example_at_once_in_order(command, tmp_path: Path) -> None:
    out = tmp_path / "letters"
    result = command("advise", str(EXAMPLES), "--as", "md,json", "--out", str(out), *QUICK)
    assert result.code == 0, result.err
    stems = [path.stem for path in sorted(EXAMPLES.glob("*.toml"))]
    assert names(out) == sorted(f"{stem}.{end}" for stem in stems for end in ("md", "json"))
    shown = result.out.replace("\n", " ")
    places = [shown.index(f"{stem}.") for stem in stems]
    assert places == sorted(places) and f"{len(stems)} of {len(stems)} answered." in shown


def test_each_letter_is_the_one_the_case_gets_alone(command, beds: Path, tmp_path: Path) -> None:
    command("advise", str(beds), "--as", "md", "--as", "json", "--out", str(tmp_path / "o"), *QUICK)
    alone = tmp_path / "alone.md"
    single = command("advise", str(beds / "one.toml"), "--md", str(alone), "--json", *QUICK)
    assert (tmp_path / "o" / "one.md").read_bytes() == alone.read_bytes()
    assert (tmp_path / "o" / "one.json").read_text("utf-8") == single.out


def test_a_broken_case_stops_nobody_else(command, beds: Path) -> None:
    result = command("advise", str(beds), "--as", "md", *QUICK)
    assert result.code == 1
    assert names(beds) == ["broken.toml", "one.md", "one.toml", "two.md", "two.toml"]
    assert "2 of 3 answered, 1 with a problem." in result.out
    assert "soil.ph" in result.out
    assert all(path in result.err for path in ("broken.toml", "[soil] ph", "[soil] texture"))


def test_the_summary_says_decision_and_amount(command, beds: Path) -> None:
    out = " ".join(command("advise", str(beds), "--as", "md", *QUICK).out.split())
    assert re.search(r"one\.toml (with effort|test first) (if so, )?[\d.]+ kg sulphur", out)
    assert "two.toml leave alone" in out


def test_html_is_written_where_no_form_is_named(command, beds: Path) -> None:
    command("advise", str(beds / "one.toml"), str(beds / "two.toml"), *QUICK)
    assert (beds / "one.html").read_text("utf-8").startswith("<!doctype html>")
    assert (beds / "two.html").exists() and not (beds / "one.md").exists()


def test_json_is_a_form_like_the_others(command, beds: Path) -> None:
    result = command("advise", str(beds / "one.toml"), "--out", str(beds / "o"), "--json", *QUICK)
    assert result.code == 0 and names(beds / "o") == ["one.json"]
    assert json.loads((beds / "o" / "one.json").read_text("utf-8"))["letter"]["title"]


def test_charts_are_a_form_too(command, beds: Path) -> None:
    one = str(beds / "one.toml")
    result = command("advise", one, "--as", "svg,md", "--out", str(beds / "o"), "--members", "20")
    assert result.code == 0 and re.search(r"one\.md, \d charts", result.out)
    charts = [name for name in names(beds / "o") if name.endswith(".svg")]
    assert "one-course.svg" in charts and len(charts) > 1


@pytest.mark.parametrize(
    "options",
    [("--md", "x.md"), ("--html", "x"), ("--pdf", "x"), ("--chart", "x"), ("--as", "doc")],
)
def test_options_for_one_letter_are_wrong_usage_for_many(
    command, beds: Path, options: tuple[str, str]
) -> None:
    result = command("advise", str(beds), *options)
    assert result.code == 2 and options[0] in result.err
    assert names(beds) == ["broken.toml", "one.toml", "two.toml"]


def test_a_folder_without_cases_and_one_that_cannot_be_written_say_so(
    command, beds: Path, tmp_path: Path
) -> None:
    (tmp_path / "empty").mkdir()
    assert "contains no case file" in command("advise", str(tmp_path / "empty")).err
    (tmp_path / "file").write_text("x", "utf-8")
    for out in (tmp_path / "file", tmp_path / "file" / "below"):
        result = command("advise", str(beds), "--out", str(out), *QUICK)
        assert result.code == 1 and result.out == "" and str(out) in result.err


def test_a_write_that_fails_leaves_nothing_half_written(command, beds: Path, monkeypatch) -> None:
    real = os.fdopen

    def full(handle: int, *arguments: str) -> object:
        file = real(handle, *arguments)
        if len(names(beds)) > 4:  # the first letter is there, the second is being written
            file.close()
            raise OSError(28, "No space left on device")
        return file

    monkeypatch.setattr("loamshift.cli.files.os.fdopen", full)
    result = command("advise", str(beds), "--as", "md", *QUICK)
    assert result.code == 1 and "No space left" in result.err
    assert "The letters of 1 of 3 cases are complete" in result.err
    assert "and 2 are not written" in result.err and "run the same command again" in result.err
    assert names(beds) == ["broken.toml", "one.md", "one.toml", "two.toml"]


def test_a_fault_of_ours_in_one_case_is_3_and_stops_nobody_else(
    command, beds: Path, monkeypatch
) -> None:
    from loamshift.services import advise

    real = advise.advise

    def sometimes(case, **rest):  # type: ignore[no-untyped-def]
        if case.soil.ph.ph == 5.0:
            raise ZeroDivisionError("oh")
        return real(case, **rest)

    monkeypatch.setattr(advise, "advise", sometimes)
    result = command("advise", str(beds), "--as", "md", *QUICK)
    assert result.code == 3 and "our fault" in result.err and "Traceback" not in result.err
    assert (beds / "one.md").exists() and not (beds / "two.md").exists()


def test_a_case_is_never_replaced_by_its_letter(command, beds: Path) -> None:
    command("advise", str(beds / "one.toml"), "--as", "json", *QUICK)
    before = (beds / "one.json").read_bytes()
    result = command("advise", str(beds / "one.json"), "--as", "json", *QUICK)
    assert result.code == 1 and "a file that is read" in result.err
    assert (beds / "one.json").read_bytes() == before


def test_one_name_in_two_folders_gives_two_letters(tmp_path: Path) -> None:
    cases = [
        write_case(tmp_path / "a" / "bed.toml"),
        write_case(tmp_path / "b" / "bed.toml"),
        write_case(tmp_path / "b" / "BED.toml"),
        write_case(tmp_path / "b" / "other.toml"),
        write_case(tmp_path / "c" / "a-bed.toml"),
    ]
    todo = errands(cases, tmp_path)
    assert [one.file(Form.MD).name for one in todo] == [
        "a-bed-2.md", "b-bed.md", "b-BED-2.md", "other.md", "a-bed.md",
    ]  # fmt: skip
    beside = errands(cases, None)
    assert beside[0].file(Form.PDF) == tmp_path / "a" / "bed.pdf"
    assert len({str(one.stem).casefold() for one in beside}) == len(cases)


def test_every_case_is_taken_once_in_the_order_of_names(tmp_path: Path) -> None:
    for name in ("b.toml", "A.toml", "c.TOML", ".hidden.toml", "notes.txt"):
        write_case(tmp_path / name)
    (tmp_path / "folder.toml").mkdir()
    found = case_files([tmp_path / "c.TOML", tmp_path, tmp_path / "b.toml"])
    assert [path.name for path in found] == ["c.TOML", "A.toml", "b.toml"]
    with pytest.raises(InputError, match="cli-no-case-files"):
        case_files([tmp_path / "folder.toml"])


@pytest.mark.parametrize(
    "name",
    ["-dash.toml", "[bold]x[green].toml", "a b é ².toml", "two.dots.toml", "tab\tbell\a.toml"],
)
def test_odd_names_do_no_harm(command, tmp_path: Path, name: str) -> None:
    case = write_case(tmp_path / name)
    result = command("advise", str(tmp_path), "--as", "md", *QUICK)
    assert result.code == 0, result.err
    assert case.with_suffix(".md").exists()
    assert "\a" not in result.out and printable(case.name).split()[0] in result.out


def test_no_bar_without_a_terminal(command, beds: Path) -> None:
    result = command("advise", str(beds / "one.toml"), "--as", "md", *QUICK)
    assert result.err == ""


def test_a_log_gets_a_line_now_and_then(capsys) -> None:
    with progress(2 * EVERY + 5) as tell:
        for done in range(2 * EVERY + 6):
            for _ in range(2):
                tell(Reached(done=done, written=done - done // EVERY, name="[/wrong] markup"))
    shown = capsys.readouterr()
    assert shown.out == "" and shown.err.splitlines() == [
        "24 of 55 letters written, 1 with a problem",
        "48 of 55 letters written, 2 with problems",
    ]


def test_many_cases_are_told_of_in_a_log(command, tmp_path: Path) -> None:
    for number in range(EVERY + 3):
        write_case(tmp_path / f"bed-{number:02}.toml")
    result = command("advise", str(tmp_path), "--as", "md", "--jobs", "1", *QUICK)
    assert result.err == f"{EVERY} of {EVERY + 3} letters written\n"


def test_processes_are_started_where_they_are_worth_it() -> None:
    assert workers_for(500, [], jobs=4) == 1, "the first case is answered here"
    assert workers_for(500, [2.0], jobs=4) == 4
    assert workers_for(3, [2.0], jobs=8) == 3
    assert workers_for(500, [2.0], jobs=1) == workers_for(1, [2.0], jobs=4) == 1
    assert workers_for(500, [2.0], jobs=None) == 1, "one case does not tell what a start costs"


def test_by_itself_it_weighs_what_is_saved_against_the_start(monkeypatch) -> None:
    monkeypatch.setattr("loamshift.cli.batch.cores", lambda: 4)
    assert workers_for(498, [2.0, 0.5], jobs=None) == 4
    assert workers_for(3, [2.0, 2.0], jobs=None) == 3
    assert workers_for(4, [2.5, 0.5], jobs=None) == 1
    assert workers_for(400, [30.0, 0.5], jobs=None) == 4
    monkeypatch.setattr("loamshift.cli.batch.cores", lambda: 1)
    assert workers_for(498, [2.0, 0.5], jobs=None) == 1


def test_a_bar_while_a_terminal_watches(monkeypatch, capsys) -> None:
    monkeypatch.setattr("sys.stderr.isatty", lambda: True)
    monkeypatch.setenv("TERM", "xterm")
    with progress(2) as tell:
        tell(Reached(done=0, written=0, name="[/wrong] markup"))
        tell(Reached(done=1, written=1, name="b"))
    shown = capsys.readouterr()
    assert shown.out == "" and "Answering" in shown.err


def running_in(group: int) -> list[str]:
    """Processes of a group that have not ended, where the system shows them."""
    found = []
    for stat in Path("/proc").glob("[0-9]*/stat"):
        with contextlib.suppress(OSError):
            name, rest = stat.read_text("utf-8").rsplit(")", 1)
            state, _, its_group = rest.split()[:3]
            if int(its_group) == group and state != "Z":
                found.append(name)
    return found


@pytest.mark.skipif(sys.platform == "win32", reason="signals to a process are of POSIX")
@pytest.mark.parametrize("jobs", ["1", "2"])
def test_stopped_in_the_middle_what_is_written_is_whole(tmp_path: Path, jobs: str) -> None:
    """A terminal sends the interrupt to every process of the command."""
    for number in range(400):
        write_case(tmp_path / "beds" / f"bed-{number:03}.toml")
    process = subprocess.Popen(
        [sys.executable, "-m", "loamshift", "advise", "beds", "--as", "md", "--out", "out",
         "--jobs", jobs, *QUICK],
        cwd=tmp_path, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, encoding="utf-8",
        env={**os.environ, "PYTHONIOENCODING": "utf-8"}, start_new_session=True,
        preexec_fn=interrupts.heard,
    )  # fmt: skip
    for _ in range(600):
        if (tmp_path / "out").is_dir() and len(list((tmp_path / "out").glob("*.md"))) > 6:
            break
        time.sleep(0.05)
    os.killpg(process.pid, signal.SIGINT)
    out, err = process.communicate(timeout=60)
    assert process.returncode == 130, err
    written = sorted((tmp_path / "out").iterdir())
    assert 2 < len(written) < 400
    assert all(path.suffix == ".md" for path in written)
    whole = written[0].read_bytes()
    assert all(path.read_bytes() == whole for path in written)
    assert f"{len(written)} of 400 answered, {400 - len(written)} not begun." in out
    assert "Stopped" in err and "Traceback" not in err
    for _ in range(200):
        if not running_in(process.pid):
            break
        time.sleep(0.05)
    assert running_in(process.pid) == []


def test_in_processes_the_letters_are_the_same_in_the_same_order(
    command, monkeypatch, tmp_path: Path
) -> None:
    """Some examples, with their forecasts: byte for byte what one process writes."""
    cases = [str(path) for path in sorted(EXAMPLES.glob("*.toml"))[::5]]
    asked = ("--as", "md,json,html,pdf", "--members", "20", "--years", "1")
    monkeypatch.chdir(tmp_path)
    here = command("advise", *cases, *asked, "--jobs", "1", "--out", "1")
    beside = subprocess.run(
        [sys.executable, "-m", "loamshift", "advise", *cases, *asked, "--jobs", "2", "--out", "2"],
        cwd=tmp_path, capture_output=True, text=True, encoding="utf-8", check=True,
    )  # fmt: skip
    assert here.code == 0 and here.err == beside.stderr == ""
    assert here.out.replace("letters are in 1", "letters are in 2") == beside.stdout
    files = [sorted((tmp_path / jobs).iterdir()) for jobs in ("1", "2")]
    assert len(files[0]) == 4 * len(cases)
    assert [path.name for path in files[0]] == [path.name for path in files[1]]
    for one, other in zip(*files, strict=True):
        assert one.read_bytes() == other.read_bytes(), one.name
