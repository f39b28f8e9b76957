"""Runs the examples in the documentation, so that what a page shows is what is printed today.

Three kinds of fenced block run, page by page, in a copy of ``examples/`` that lives as long as
the page is read:

- ``console``: each line ``$ loamshift ...`` is run (``$ cd`` and other commands are not), and the
  lines under it are what it prints, errors included;
- ``python``: blocks with ``>>>``, as the doctest module reads them;
- ``toml`` or ``text`` after ``<!-- file: NAME -->``: written to that file first.

A mark on the line before a ``console`` block says more:

- ``<!-- show: How much -> What to do; Checks -->`` keeps, of what is printed, the lines from one
  that begins so up to one that begins so; without an arrow, up to the next empty line, and with
  ``x3`` at its end up to the third. ``paragraph 2`` begins at the second block of lines, whatever
  it says. ``show: nothing`` keeps none of it. Several parts are parted by ``; `` and shown with
  ``[…]`` between.
- ``<!-- exit: 1 -->`` says that the last command ends with that code; without it, with 0.
"""

from __future__ import annotations

import contextlib
import doctest
import io
import os
import re
import shlex
import shutil
import tempfile
import textwrap
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
DOCS = ROOT / "docs"
EXAMPLES = ROOT / "examples"
WIDTH = 88
CUT = "[…]"
BLOCK = re.compile(
    r"(?P<marks>(?:^ *<!-- (?:show|exit|file): .*? -->\n)*)"
    r"^(?P<indent> *)```(?P<kind>console|python|toml|text)\n(?P<body>.*?)^ *```$",
    re.MULTILINE | re.DOTALL,
)
MARK = re.compile(r"<!-- (show|exit|file): (.*?) -->")
RUNS = "$ loamshift "
PRINTS_ONLY = re.compile(r"advise [\w-]+\.toml(?: --(?:years|words|units) \w+)*")
"""A command that leaves no file behind, so that its output stands until one is written."""


class ExampleError(Exception):
    """An example that cannot be run as it stands."""


@dataclass(frozen=True, slots=True)
class Ran:
    """A page with its examples as they print today, and how many of them ran."""

    text: str
    commands: int
    python: int


def pages() -> list[Path]:
    """Pages with examples to run; those written from the code are left out."""
    written = {"case.md", "cli.md", "trust.md", "answer-keys.md", "sources.md"}
    return sorted(path for path in DOCS.rglob("*.md") if path.name not in written)


def refreshed(text: str, where: str = "page") -> Ran:
    """A page whose examples show what they print today.

    Parameters
    ----------
    text
        The page [Markdown].
    where
        What to call it in a message [text].

    Returns
    -------
    Ran
        The page made anew, and the number of examples run [object].
    """
    counts = {"console": 0, "python": 0}
    names: dict[str, object] = {}
    printed: dict[str, str] = {}

    def fresh(found: re.Match[str]) -> str:
        marks = dict(MARK.findall(found["marks"]))
        line = text[: found.start()].count("\n") + 1
        try:
            body = textwrap.dedent(found["body"])
            if found["kind"] in ("toml", "text") and "file" in marks:
                Path(marks["file"]).write_text(body, encoding="utf-8")
                printed.clear()
            elif found["kind"] == "console":
                body, ran = _console(body, marks, printed)
                counts["console"] += ran
            elif found["kind"] == "python" and ">>>" in body:
                body, ran = _python(body, names)
                counts["python"] += ran
        except ExampleError as error:
            raise ExampleError(f"{where}, line {line}: {error}") from error
        block = f"```{found['kind']}\n{body}```"
        return found["marks"] + textwrap.indent(block, found["indent"])

    with _workplace():
        made = BLOCK.sub(fresh, text)
    return Ran(made, counts["console"], counts["python"])


@contextlib.contextmanager
def _workplace() -> Iterator[None]:
    """A fresh copy of the examples as working folder, and a plain terminal of one width."""
    kept = {name: os.environ.get(name) for name in ("COLUMNS", "NO_COLOR", "TERMINAL_WIDTH")}
    with tempfile.TemporaryDirectory() as folder:
        for path in (*EXAMPLES.glob("*.toml"), *EXAMPLES.glob("*.csv")):
            shutil.copy(path, folder)
        shutil.copytree(EXAMPLES / "field", Path(folder) / "field")
        os.environ.update(COLUMNS=str(WIDTH), TERMINAL_WIDTH=str(WIDTH), NO_COLOR="1")
        try:
            with contextlib.chdir(folder):
                yield
        finally:
            for name, value in kept.items():
                if value is None:
                    os.environ.pop(name, None)
                else:
                    os.environ[name] = value


def _console(body: str, marks: dict[str, str], before: dict[str, str]) -> tuple[str, int]:
    """One block; a letter that the page has printed ``before`` is not worked out again."""
    shown = []
    commands = _commands(body)
    for command in commands:
        code, printed = (0, before[command]) if command in before else _run(command)
        if PRINTS_ONLY.fullmatch(command) and code == 0:
            before[command] = printed
        else:
            before.clear()
        wanted = int(marks.get("exit", "0")) if command is commands[-1] else 0
        if code != wanted:
            told = f"{command.strip()} ends with {code} instead of {wanted}"
            raise ExampleError(f"{told}: {printed.strip()[-400:]}")
        shown.append(f"{RUNS}{command}\n{_kept(printed, marks.get('show', 'all'))}")
    return ("".join(shown) if commands else body), len(commands)


def _commands(body: str) -> list[str]:
    """The command lines of a block, a backslash at the end of a line going on in the next."""
    found: list[str] = []
    goes_on = False
    for line in body.splitlines():
        if goes_on:
            found[-1] += "\n" + line
            goes_on = line.endswith("\\")
        elif line.startswith(RUNS):
            found.append(line.removeprefix(RUNS))
            goes_on = line.endswith("\\")
    return found


def _run(command: str) -> tuple[int, str]:
    from loamshift.cli.run import run

    words = shlex.split(command.replace("\\\n", " "))
    output, said = io.StringIO(), io.StringIO()
    target: Path | None = None
    if ">" in words:
        words, target = words[: words.index(">")], Path(words[words.index(">") + 1])
    with contextlib.redirect_stderr(said), contextlib.redirect_stdout(output):
        code = run(words)
    printed = output.getvalue() + _wrapped(said.getvalue())
    if target is not None:
        target.write_text(printed, encoding="utf-8")
        printed = ""
    return code, "".join(f"{line.rstrip()}\n" for line in printed.strip("\n").splitlines())


def _wrapped(said: str) -> str:
    """What went to stderr, broken as a terminal of this width breaks it."""
    lines = (textwrap.fill(line, WIDTH, subsequent_indent="  ") for line in said.splitlines())
    return "".join(f"{line}\n" for line in lines)


def _kept(printed: str, show: str) -> str:
    if show == "all":
        return printed
    if show == "nothing":
        return ""
    lines = printed.splitlines()
    parts = [_part(lines, wanted.strip()) for wanted in show.split("; ")]
    return f"{CUT}\n".join("".join(f"{line}\n" for line in part) for part in parts)


def _part(lines: list[str], wanted: str) -> list[str]:
    begin, arrow, end = (text.strip() for text in wanted.partition("->"))
    counted = re.fullmatch(r"(.*) x(\d+)", begin)
    begin, times = (counted[1], int(counted[2])) if counted else (begin, 1)
    bare = [line.lstrip("│ ") for line in lines]
    start = _start(bare, begin)
    ends = [
        i
        for i in range(start + 1, len(bare))
        if (bare[i].startswith(end) if arrow else not bare[i])
    ]
    if arrow and not ends:
        raise ExampleError(f"nothing printed after “{begin}” begins with “{end}”")
    kept = lines[start : ends[times - 1] if len(ends) >= times else len(lines)]
    while kept and not kept[-1].strip():
        kept.pop()
    return kept


def _start(bare: list[str], begin: str) -> int:
    if placed := re.fullmatch(r"paragraph (\d+)", begin):
        found = [i for i, line in enumerate(bare) if line and (i == 0 or not bare[i - 1])]
        found = found[int(placed[1]) - 1 :]
    else:
        found = [i for i, line in enumerate(bare) if line.startswith(begin)]
    if not found:
        raise ExampleError(f"nothing printed begins with “{begin}”")
    return found[0]


def _python(body: str, names: dict[str, object]) -> tuple[str, int]:
    """One block run in the names of its page, each result as the prompt would show it."""
    made: list[str] = []
    ran = 0
    for part in doctest.DocTestParser().parse(body):
        if isinstance(part, str):
            made.append(part)
            continue
        lines = part.source.rstrip("\n").splitlines()
        prompts = [">>> ", *["... "] * (len(lines) - 1)]
        made += [f"{mark}{line}".rstrip() + "\n" for mark, line in zip(prompts, lines, strict=True)]
        output = io.StringIO()
        with contextlib.redirect_stdout(output):
            try:
                exec(compile(part.source, "<example>", "single"), names)
            except Exception as error:
                if part.exc_msg is None:
                    raise ExampleError(f"{part.source.strip()} fails: {error!r}") from error
                kind = type(error)
                output.write(
                    f"Traceback (most recent call last):\n    ...\n"
                    f"{kind.__module__}.{kind.__qualname__}: {error}\n"
                )
        made.append(output.getvalue())
        ran += 1
    return "".join(made), ran
