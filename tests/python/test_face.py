"""What ``import loamshift`` offers: the names, how little it loads, and what is said of each."""

from __future__ import annotations

import ast
import inspect
import subprocess
import sys
from pathlib import Path
from rlcompleter import Completer

import pytest

import loamshift
from contracts.numpydoc import faults
from python import users_program

HEAVY = ("numpy", "scipy", "numba", "pydantic", "babel", "rich", "typer", "narwhals")
PROMISED = {
    *("Case", "advise", "buffer_curve", "claim", "dose", "dose_table", "forecast"),
    *("new_case", "read_case"),
}


def asked(program: str) -> str:
    """What a fresh process prints."""
    done = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
    return done.stdout.strip()


def test_the_face_names_what_it_promises_and_every_name_is_there() -> None:
    assert set(loamshift.__all__) >= PROMISED
    assert all(getattr(loamshift, name) is not None for name in loamshift.__all__)
    assert list(loamshift.__all__) == sorted(loamshift.__all__)


def test_the_names_that_a_type_checker_sees_are_those_that_are_there() -> None:
    tree = ast.parse(Path(loamshift.__file__).read_text(encoding="utf-8"))
    checked = next(node for node in tree.body if isinstance(node, ast.If))
    seen = {alias.name for node in checked.body if isinstance(node, ast.ImportFrom)
            for alias in node.names}  # fmt: skip
    assert seen == set(loamshift.__all__)


def test_a_name_that_is_not_there_is_told() -> None:
    with pytest.raises(AttributeError, match="no attribute 'dosis'"):
        _ = loamshift.dosis  # type: ignore[attr-defined]


def test_completion_offers_the_names_and_no_others() -> None:
    completer = Completer({"loamshift": loamshift})
    offered = {completer.complete("loamshift.", i) for i in range(60)} - {None}
    names = {str(one).removeprefix("loamshift.").rstrip("()") for one in offered}
    assert names == {*loamshift.__all__, "__version__"} or names == set(loamshift.__all__)
    assert dir(loamshift) == sorted([*loamshift.__all__, "__version__"])


def test_importing_it_loads_nothing_heavy() -> None:
    program = f"import sys, loamshift; print([m for m in {HEAVY!r} if m in sys.modules])"
    assert asked(program) == "[]"
    assert asked(program.replace("loamshift;", "loamshift; loamshift.new_case;")) != "[]"


def test_only_a_forecast_loads_the_compiler() -> None:
    program = (
        "import sys, loamshift;"
        "loamshift.advise({'soil': {'ph': 6.9}, 'aim': {'target_ph': 5.8}}, years=0);"
        "loamshift.claim, loamshift.dose_table, loamshift.buffer_curve, loamshift.forecast;"
        "print('numba' in sys.modules, 'django' in sys.modules, 'typst' in sys.modules)"
    )
    assert asked(program) == "False False False"


def functions() -> list[tuple[str, object]]:
    found: list[tuple[str, object]] = []
    for name in loamshift.__all__:
        thing = getattr(loamshift, name)
        if inspect.isfunction(thing):
            found.append((name, thing))
        elif inspect.isclass(thing) and thing.__module__.startswith("loamshift.python"):
            found += [
                (f"{name}.{method}", member)
                for method, member in vars(thing).items()
                if inspect.isfunction(member) and not method.startswith("_")
            ]
    return found


@pytest.mark.parametrize(("name", "function"), functions(), ids=lambda one: str(one)[:30])
def test_every_function_says_what_it_takes_and_gives_with_units(
    name: str, function: object
) -> None:
    assert callable(function)
    arguments = [one for one in inspect.signature(function).parameters if one != "self"]
    said = inspect.getdoc(function) or ""
    if "." in name and len(said.splitlines()) == 1:  # a method in one line, its unit in the line
        assert "[" in said, name
        return
    assert faults(name, said, arguments, returns=True) == []


def test_a_users_program_runs(tmp_path: Path) -> None:
    decision, sulfur, comment = users_program.program(tmp_path)
    assert decision in {"leave", "go", "effort", "elsewhere", "measure-first", "stop"}
    assert sulfur is None or sulfur > 0.0
    assert comment
    assert (tmp_path / "letter.md").read_text(encoding="utf-8").startswith("# North border")
    assert (tmp_path / "dose.svg").read_text(encoding="utf-8").startswith("<svg")
