"""Run the tests of what changed, the nearest first, for as long as one likes to wait.

    python tools/changed.py                what differs from the last commit
    python tools/changed.py --since main   what differs from where this branch left main
    python tools/changed.py --list         name the files of tests and run none

First the tests that changed, then those that stand where the changed file stands, then those that
name it. Where nothing changed, the tests of ``core`` and ``domain``. After 35 seconds of tests no
other begins, and the closing line says how many were left. Browser tests are never among them.
"""

from __future__ import annotations

import argparse
import re
import subprocess
import sys
import time
from pathlib import Path
from typing import Final

import pytest

ROOT: Final = Path(__file__).resolve().parent.parent
SOURCE: Final = "src/loamshift/"
LONG: Final = ("tests/browser/", "tests/laws/", "tests/hardening/", "tests/published/")
"""Tests that take minutes: run them by the step of their name."""
CORE: Final = ("tests/core", "tests/domain")
PATIENCE_S: Final = 35.0


class UntilLate:
    """Begins no test once the time is up."""

    def __init__(self) -> None:
        self.left = 0
        self._late_s = 0.0

    def pytest_collection_finish(self, session: pytest.Session) -> None:
        """Count what there is to do, and begin to wait."""
        self.left = len(session.items)
        self._late_s = time.monotonic() + PATIENCE_S

    def pytest_runtest_logfinish(self, nodeid: str) -> None:
        """One fewer."""
        self.left -= 1

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtest_protocol(self, item: pytest.Item) -> None:
        """Stop before the next test."""
        if time.monotonic() > self._late_s:
            item.session.shouldstop = f"{self.left} tests left for tools/check"


def main(words: list[str]) -> int:
    """Run them; 0 when none that ran failed."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--since", default="HEAD", metavar="COMMIT")
    parser.add_argument("--list", action="store_true")
    asked = parser.parse_args(words)
    files = tests_of(changed_since(asked.since)) or list(CORE)
    if asked.list:
        print("\n".join(files))
        return 0
    until = UntilLate()
    code = pytest.main(["-rfEs", "-x", *files], plugins=[until])
    stopped = code == pytest.ExitCode.INTERRUPTED and until.left > 0
    return 0 if stopped or code == pytest.ExitCode.NO_TESTS_COLLECTED else int(code)


def changed_since(commit: str) -> list[str]:
    """Python files that differ, those that git does not know yet included."""
    base = _git("merge-base", commit, "HEAD")[0] if commit != "HEAD" else "HEAD"
    differ = _git("diff", "--name-only", "--diff-filter=d", base)
    return sorted({*differ, *_git("ls-files", "--others", "--exclude-standard")})


def tests_of(changed: list[str]) -> list[str]:
    """Files of tests for changed files, the nearest first."""
    every = {
        path.relative_to(ROOT).as_posix(): path.read_text(encoding="utf-8")
        for path in sorted((ROOT / "tests").rglob("test_*.py"))
    }
    sources = [path for path in changed if path.startswith(SOURCE)]
    helpers = [path for path in changed if path.startswith("tests/") and path not in every]
    themselves = [path for path in changed if path in every]
    beside = [path for source in sources for path in every if _mirrors(path, source)]
    naming = [
        path
        for source in [*sources, *helpers]
        for path, text in every.items()
        if _named_in(text, source)
    ]
    found = dict.fromkeys([*themselves, *beside, *naming])
    return [path for path in found if not path.startswith(LONG)]


def _mirrors(test: str, source: str) -> bool:
    folder, _, name = source.removeprefix(SOURCE).rpartition("/")
    stem = name.partition(".")[0]
    return bool(re.fullmatch(rf"tests/(?:{re.escape(folder)}/)?test_{re.escape(stem)}\.py", test))


def _named_in(text: str, source: str) -> bool:
    """Whether a test imports a module, whole or by what is in it."""
    if not source.endswith(".py"):
        return False
    path = source.removeprefix("src/").removeprefix("tests/").removesuffix(".py")
    package, _, name = path.replace("/", ".").rpartition(".")
    whole = rf"^(?:from|import) {re.escape(package)}\.{re.escape(name)}\b"
    part = rf"^from {re.escape(package)} import [^\n]*\b{re.escape(name)}\b"
    return bool(re.search(f"{whole}|{part}" if package else rf"^import {name}\b", text, re.M))


def _git(*words: str) -> list[str]:
    done = subprocess.run(
        ["git", *words], cwd=ROOT, capture_output=True, text=True, encoding="utf-8", check=True
    )
    return done.stdout.splitlines()


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
