"""Cases and answers on disk that several tests of the door use."""

from __future__ import annotations

import contextlib
import io
import json
import tempfile
from functools import cache
from pathlib import Path
from typing import Any

from loamshift.cli.run import run

CASE = """\
case = 1
name = "North border"
today = 2026-04-12
[place]
name = "Minneapolis"
[bed]
area = "20 m2"
depth = "15 cm"
[soil]
ph = {ph}
ph_method = "water 1:1"
texture = "loam"
organic_matter_pct = 3
fizz = "none"
fizz_acid = "HCl"
[aim]
plant = "highbush blueberry"
"""


def write_case(path: Path, *, ph: float = 7.2) -> Path:
    """A case file [path] with this pH [pH]."""
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(CASE.format(ph=ph), encoding="utf-8")
    return path


@cache
def answer_text() -> str:
    """The answer to that case as ``advise --json`` prints it, from few members."""
    printed = io.StringIO()
    with tempfile.TemporaryDirectory() as folder, contextlib.redirect_stdout(printed):
        case = write_case(Path(folder) / "bed.toml")
        assert run(["advise", str(case), "--json", "--members", "20"]) == 0
    return printed.getvalue()


def changed(source: Path, target: Path, **values: Any) -> Path:
    """A copy of an answer's file with some values replaced; ``a__b`` is key b below key a."""
    plain = json.loads(source.read_text(encoding="utf-8"))
    for path, value in values.items():
        node = plain
        *parents, last = path.split("__")
        for part in parents:
            node = node[part]
        node[last] = value
    target.write_text(json.dumps(plain, ensure_ascii=False), encoding="utf-8")
    return target
