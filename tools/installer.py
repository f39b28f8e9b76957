"""Packages of a lock put into an environment: by uv, in a quarter of the time, else by pip.

uv comes from the lock like everything else, and looks where pip is told to look.
"""

from __future__ import annotations

import ast
import re
import subprocess
from collections.abc import Callable
from pathlib import Path
from typing import Final

Done = subprocess.CompletedProcess[str]
Run = Callable[[list[str], dict[str, str]], tuple[Done, float | None]]

PIP: Final = ("-m", "pip", "--disable-pip-version-check")
SECTIONS: Final = ("global", "install", ":env:")
"""Where pip reads its options from, the one that counts most last."""
ANY_INDEX: Final = ("--index-strategy", "unsafe-best-match")
"""Take a file from whichever index has it, as pip does: the lock's digests say that it is ours."""


def install(
    python: Path, lists: list[list[str]], *, lock: Path, run: Run, environment: dict[str, str]
) -> Done:
    """Install each list of words as pip takes them; what the last command said, or the first bad.

    Where uv cannot be had, or cannot do it, pip does all of it.
    """
    pip = [str(python), *PIP]
    fast, variables = _uv(python, pip, lock=lock, run=run, environment=environment)
    for words in lists:
        attempts = [([*fast, *words], {**environment, **variables})] if fast else []
        attempts.append(([*pip, "install", "--quiet", "--no-compile", *words], environment))
        for command, with_variables in attempts:
            done, _ = run(command, with_variables)
            if not done.returncode:
                break
        if done.returncode:
            break
    return done


def _uv(
    python: Path, pip: list[str], *, lock: Path, run: Run, environment: dict[str, str]
) -> tuple[list[str], dict[str, str]]:
    """The command that installs by uv, put beside ``python`` first, and variables for it.

    An empty command where uv cannot be had.
    """
    wanted = python.parent.parent / "uv.txt"
    wanted.write_text(lines_of("uv", lock.read_text(encoding="utf-8")), encoding="utf-8")
    words = ["install", "--quiet", "--no-deps", "--require-hashes", "-r", str(wanted)]
    told, _ = run([*pip, "config", "list"], environment)
    if told.returncode or run([*pip, *words], environment)[0].returncode:
        return [], {}
    options = options_of_pip(told.stdout)
    sources = [("--default-index", options.get("index-url", ""))]
    sources += [("--index", url) for url in options.get("extra-index-url", "").split()]
    sources += [("--find-links", place) for place in options.get("find-links", "").split()]
    uv = [str(python), "-m", "uv", "pip", "install", "--quiet", "--python", str(python), *ANY_INDEX]
    uv += ["--no-index"] if options.get("no-index", "").lower() in ("1", "true", "yes") else []
    uv += [word for name, value in sources if value for word in (name, value)]
    return uv, {"SSL_CERT_FILE": options["cert"]} if "cert" in options else {}


def lines_of(package: str, lock: str) -> str:
    """The lines of a lock about one package: its version and its digests."""
    found = re.search(rf"^{re.escape(package)}==.*?(?=^\S|\Z)", lock, re.M | re.S)
    return found[0] if found else f"{package}\n"


def options_of_pip(told: str) -> dict[str, str]:
    """Options by name, of what ``pip config list`` prints."""
    options: dict[str, tuple[int, str]] = {}
    for section, name, value in re.findall(r"^(\S+?)\.([\w-]+)=('.*'|\".*\")$", told, re.M):
        weight = SECTIONS.index(section) if section in SECTIONS else -1
        if weight >= options.get(name, (0, ""))[0]:
            options[name] = (weight, str(ast.literal_eval(value)))
    return {name: value for name, (_, value) in options.items()}
