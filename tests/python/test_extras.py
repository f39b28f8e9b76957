"""Without an extra everything else works, and what needs it names the line that installs it."""

from __future__ import annotations

import os
import subprocess
import sys
import tomllib
from pathlib import Path
from typing import Final

from loamshift.report.missing_extra import EXTRA_OF, missing_extra

ROOT = Path(__file__).parents[2]
BED = str(ROOT / "examples" / "bean-rows.toml")
HIDE = "import sys\nfor name in {hidden!r}: sys.modules[name] = None\n"
EXTRAS = (
    "typst",
    "django",
    "ninja",
    "waitress",
    "whitenoise",
    "psycopg",
    "pandas",
    "polars",
    "dask",
    "distributed",
    "pyarrow",
)


def ran(program: str, hidden: tuple[str, ...] = EXTRAS) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-c", HIDE.format(hidden=hidden) + program],
        capture_output=True,
        text=True,
        env={**os.environ, "NO_COLOR": "1"},
        check=False,
    )


def test_the_command_writes_text_and_json_without_any_extra() -> None:
    forms = [(), ("--json",), ("--units", "us", "--short")]
    asked = [["advise", BED, "--years", "0", *form] for form in forms]
    done = ran(
        f"from loamshift.cli.run import run\nfor words in {asked!r}:\n"
        "    code = run(words)\n    print('ended', code)\n"
    )
    shown = done.stdout.split("ended 0\n")
    assert [len(text) > 500 for text in shown] == [True, True, True, False], done.stderr


NEEDING: Final = {
    ("advise", BED, "--years", "0", "--pdf", "letter.pdf"): "letters",
    ("advise", BED, "--years", "0", "--chart", "chart.png"): "letters",
    ("card", BED, "--years", "0", "--pdf", "card.pdf"): "letters",
    ("open", "--no-browser"): "web",
}


def test_what_needs_an_extra_says_how_to_install_it(tmp_path: Path) -> None:
    done = ran(
        f"import os\nos.chdir({str(tmp_path)!r})\nfrom loamshift.cli.run import run\n"
        f"for words in {list(NEEDING)!r}:\n"
        "    code = run(list(words))\n    print('ended', code, file=sys.stderr)\n"
    )
    *said, rest = done.stderr.split("ended 1\n")
    assert rest == "", done.stderr
    for text, extra in zip(said, NEEDING.values(), strict=True):
        assert f'pip install "loamshift[{extra}]"' in text
    assert list(tmp_path.iterdir()) == []


NEEDING_IN_PYTHON: Final = {
    "a.pdf()": "letters",
    "a.plot().png()": "letters",
    "a.to_frame('ledger')": "lab",
    "a.to_frame('ledger', library='polars')": "polars",
}


def test_python_works_without_any_extra_and_says_what_needs_one() -> None:
    works = (
        "a.plot(); a._repr_html_(); a.html()\n"
        "print(loamshift.dose_table({'ph': [7.0], 'target_ph': [6.5]})['direction'], end='#\\n')\n"
    )
    tried = "".join(
        f"try: {program}\nexcept loamshift.errors.InputError as error: print(str(error) + '#')\n"
        for program in NEEDING_IN_PYTHON
    )
    done = ran(f"import loamshift\na = loamshift.advise({BED!r}, years=0)\n{works}{tried}")
    worked, *said, _ = done.stdout.split("#\n")
    assert worked == "['acidify']", done.stderr
    for text, extra in zip(said, NEEDING_IN_PYTHON.values(), strict=True):
        assert f'pip install "loamshift[{extra}]"' in text, done.stderr


def test_every_extra_that_is_named_exists_and_brings_its_module() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    extras = project["optional-dependencies"]
    assert set(EXTRA_OF.values()) <= set(extras)
    for module, extra in EXTRA_OF.items():
        wanted = {"ninja": "django-ninja", "sklearn": "scikit-learn"}.get(
            module, module.replace("_", "-")
        )
        assert any(line.startswith(wanted) for line in extras[extra]), module


def test_another_error_is_none_of_an_extra() -> None:
    assert missing_extra(ModuleNotFoundError("no", name="nothing_of_ours")) is None
    assert missing_extra(ValueError("no")) is None
