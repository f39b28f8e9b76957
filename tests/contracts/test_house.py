"""The house rules that an import contract cannot see."""

from __future__ import annotations

import ast
import re
import subprocess
from collections.abc import Iterator
from pathlib import Path

import pytest

from contracts.house import ROOT, Function, Module, dotted, modules, of_layers

MOST_LINES = 500
CLOCKS = ("now", "utcnow", "today")
CLOCK_MODULE_CALLS = ("time.time", "time.monotonic", "time.localtime", "time.gmtime")
FILE_CALLS = ("open", "io.open", "input")
FILE_METHODS = ("read_text", "read_bytes", "write_text", "write_bytes", "open")
CHANCE = re.compile(r"^(random|secrets|uuid|np\.random|numpy\.random)(\.|$)")
SCALARS = ("float", "PhWater", "PhCaCl2", "PhKCl", "PhProbe")
ARRAYS = re.compile(r"Array|Sequence|Vector|Mapping")
COMPILED = ("compiled", "inlined", "outermost", "woven")
MACHINE_PATH = re.compile(r"(?<![\w.])/(?:work|root|tmp|home/\w+|Users/\w+)/")


def by_place(module: Module) -> str:
    return module.place


def calls(module: Module) -> Iterator[tuple[int, str]]:
    """Line and dotted name of every call."""
    for node in ast.walk(module.tree):
        if isinstance(node, ast.Call) and dotted(node.func):
            yield node.lineno, dotted(node.func)


def faults_of_purity(module: Module) -> list[str]:
    """Files, chance, clock and print in a module that may have none."""
    found = []
    for line, name in calls(module):
        last = name.rsplit(".", 1)[-1]
        if name in FILE_CALLS or last in FILE_METHODS:
            found.append(f"{module.place}:{line} touches a file: {name}")
        if name == "print":
            found.append(f"{module.place}:{line} prints")
        if CHANCE.match(name):
            found.append(f"{module.place}:{line} has chance of its own: {name}; take rng")
        if (last in CLOCKS and "." in name) or name in CLOCK_MODULE_CALLS:
            found.append(f"{module.place}:{line} looks at the clock: {name}")
    return found


def faults_of_clock(module: Module) -> list[str]:
    """Looks at the clock, where only the door may."""
    return [
        f"{module.place}:{line} looks at the clock: {name}"
        for line, name in calls(module)
        if (name.rsplit(".", 1)[-1] in CLOCKS and "." in name) or name in CLOCK_MODULE_CALLS
    ]


def callable_by_others(node: ast.AST) -> Iterator[Function]:
    """Functions and methods; not a function inside a function, which a solver calls by place."""
    for child in ast.iter_child_nodes(node):
        if isinstance(child, Function):
            yield child
        elif not isinstance(child, ast.Lambda):
            yield from callable_by_others(child)


def faults_of_signature(module: Module) -> list[str]:
    """Functions where two plain numbers could be swapped without mypy noticing.

    The compiler of the column knows no keyword-only numbers: there the calls are looked at.
    """
    found = []
    for node in callable_by_others(module.tree):
        if is_compiled(node):
            continue
        positional = [*node.args.posonlyargs, *node.args.args]
        if positional and positional[0].arg in ("self", "cls"):
            positional = positional[1:]
        shapes = [ast.unparse(a.annotation) if a.annotation else "" for a in positional]
        if shapes and ARRAYS.search(shapes[0]):
            shapes = shapes[1:]
        plain = [text for text in shapes if is_scalar(text)]
        if len(plain) > 1:
            found.append(f"{module.place}:{node.lineno} {node.name}: make the numbers keyword-only")
    return found


def is_compiled(node: ast.AST) -> bool:
    """True for a function that is machine code."""
    marks = node.decorator_list if isinstance(node, ast.FunctionDef) else []
    return any(isinstance(mark, ast.Name) and mark.id in COMPILED for mark in marks)


def places_of_numbers(modules_read: list[Module]) -> dict[str, list[int]]:
    """Where each compiled function of two numbers or more takes them, by its name."""
    found = {}
    for module in modules_read:
        for node in callable_by_others(module.tree):
            if is_compiled(node):
                shapes = [ast.unparse(a.annotation) if a.annotation else "" for a in node.args.args]
                numbers = [i for i, text in enumerate(shapes) if is_scalar(text)]
                if len(numbers) > 1:
                    found[node.name] = numbers
    return found


def faults_of_compiled_calls(module: Module, numbers: dict[str, list[int]]) -> list[str]:
    """Calls of compiled functions that pass one of several numbers by its place."""
    found = []
    for node in ast.walk(module.tree):
        if isinstance(node, ast.Call) and dotted(node.func) in numbers:
            name = dotted(node.func)
            if any(i < len(node.args) for i in numbers[name]):
                found.append(f"{module.place}:{node.lineno} {name}: name each number")
    return found


def is_scalar(annotation: str) -> bool:
    """True for ``float``, a pH type, or a union that holds one of them."""
    return any(part.strip() in SCALARS for part in annotation.split("|"))


def faults_of_import(module: Module) -> list[str]:
    """Libraries that slow every start: ``scipy.optimize`` only inside, ``scipy.stats`` never.

    The analysis of trials is a command of its own, which may take ``scipy.stats`` inside.
    """
    of_trials = module.path.parent.parts[-2:] == ("core", "analysis")
    found = []
    top = {id(node) for node in module.tree.body}
    for node in ast.walk(module.tree):
        if isinstance(node, ast.Import):
            names = [alias.name for alias in node.names]
        elif isinstance(node, ast.ImportFrom) and node.module:
            names = [node.module, *(f"{node.module}.{alias.name}" for alias in node.names)]
        else:
            continue
        if any(name.startswith("scipy.stats") for name in names) and not of_trials:
            found.append(f"{module.place}:{node.lineno} imports scipy.stats")
        if id(node) in top and any(name.startswith("scipy") for name in names):
            found.append(f"{module.place}:{node.lineno} imports scipy at the top")
    return found


def parsed(text: str) -> Module:
    """A module that stands nowhere, to show that a rule bites."""
    return Module(ROOT / "src" / "loamshift" / "core" / "example.py", text, ast.parse(text))


@pytest.mark.parametrize("module", of_layers("core", "domain", "units", "errors"), ids=by_place)
def test_core_and_domain_are_pure(module: Module) -> None:
    found = faults_of_purity(module)
    assert not found, "\n".join(found)


CLOCKED = ("python", "cli", "web", "store")
"""Doors ask for the day it is; the store notes the moment of each change."""


@pytest.mark.parametrize(
    "module", [module for module in modules() if module.layer not in CLOCKED], ids=by_place
)
def test_only_the_door_knows_the_date(module: Module) -> None:
    found = faults_of_clock(module)
    assert not found, "\n".join(found)


@pytest.mark.parametrize("module", of_layers("core", "domain", "services", "units"), ids=by_place)
def test_numbers_cannot_be_swapped(module: Module) -> None:
    found = faults_of_signature(module)
    assert not found, "\n".join(found)


def test_numbers_given_to_compiled_functions_are_named() -> None:
    read = of_layers("core")
    numbers = places_of_numbers(read)
    assert len(numbers) > 5
    found = [fault for module in read for fault in faults_of_compiled_calls(module, numbers)]
    assert not found, "\n".join(found)


def test_a_number_given_by_its_place_is_found() -> None:
    text = "@compiled\ndef f(x: FloatArray, a: float, b: float): ...\n"
    numbers = places_of_numbers([parsed(text)])
    assert numbers == {"f": [1, 2]}
    assert faults_of_compiled_calls(parsed("f(x, 1.0, b=2.0)"), numbers) != []
    assert faults_of_compiled_calls(parsed("f(x, a=1.0, b=2.0)"), numbers) == []


@pytest.mark.parametrize("module", modules(), ids=by_place)
def test_slow_libraries_are_imported_where_used(module: Module) -> None:
    found = faults_of_import(module)
    assert not found, "\n".join(found)


@pytest.mark.parametrize("module", modules(), ids=by_place)
def test_module_says_what_it_is_and_stays_small(module: Module) -> None:
    assert ast.get_docstring(module.tree), f"{module.place} has no docstring"
    lines = module.text.count("\n")
    assert lines < MOST_LINES, f"{module.place} has {lines} lines: what is its second topic?"
    assert "utils" not in module.path.stem


@pytest.mark.parametrize(
    ("text", "rule"),
    [
        ("def f():\n    return open('a')", faults_of_purity),
        ("def f(p):\n    return p.read_text()", faults_of_purity),
        ("print(1)", faults_of_purity),
        ("import numpy as np\nx = np.random.default_rng()", faults_of_purity),
        ("from datetime import date\nx = date.today()", faults_of_purity),
        ("from datetime import date\nx = date.today()", faults_of_clock),
        ("import datetime\nx = datetime.datetime.now()", faults_of_clock),
        ("import time\nx = time.time()", faults_of_clock),
        ("def f(a: float, b: float): ...", faults_of_signature),
        ("def f(a: float, b: PhWater | None = None): ...", faults_of_signature),
        ("def f(x: FloatArray, a: float, b: float): ...", faults_of_signature),
        ("class C:\n    def f(self, a: float, b: float): ...", faults_of_signature),
        ("from scipy import stats", faults_of_import),
        ("def f():\n    import scipy.stats", faults_of_import),
        ("from scipy.optimize import brentq", faults_of_import),
    ],
)
def test_each_rule_bites(text: str, rule) -> None:  # type: ignore[no-untyped-def]
    assert rule(parsed(text)) != []


@pytest.mark.parametrize(
    "text",
    [
        "def f(a: float, *, b: float): ...",
        "def f(x: FloatArray, a: float, *, b: float): ...",
        "class C:\n    def f(self, a: float): ...",
        "def f():\n    def g(h: float, k: float): ...",
    ],
)
def test_keyword_only_numbers_are_allowed(text: str) -> None:
    assert faults_of_signature(parsed(text)) == []


def tracked_texts() -> list[Path]:
    """Text files that git knows or would add; without git, those of the folders we ship."""
    try:
        listed = subprocess.run(
            ["git", "ls-files", "--cached", "--others", "--exclude-standard"],
            cwd=ROOT,
            stdin=subprocess.DEVNULL,
            capture_output=True,
            text=True,
            check=True,
        ).stdout.splitlines()
        paths = [ROOT / name for name in listed]
    except (OSError, subprocess.CalledProcessError):
        folders = ("src", "docs", "examples", "tools", "benchmarks", "tests")
        paths = [p for name in folders for p in (ROOT / name).rglob("*") if p.is_file()]
        paths += [p for p in ROOT.iterdir() if p.suffix in (".md", ".toml", ".lock")]
    return sorted(p for p in paths if p.is_file() and "__pycache__" not in p.parts)


def test_no_path_of_one_machine_stands_in_any_file() -> None:
    assert MACHINE_PATH.search(" /" + "tmp/x") and not MACHINE_PATH.search("https://a.b/work/x")
    paths = tracked_texts()
    assert len(paths) > 20
    found = []
    for path in paths:
        text = path.read_text(encoding="utf-8", errors="ignore")
        found += [f"{path.relative_to(ROOT)}: {m.group()}" for m in MACHINE_PATH.finditer(text)]
    assert not found, "\n".join(found)


def test_no_lock_names_a_registry_and_every_pin_has_a_hash() -> None:
    for name in ("requirements.lock", "requirements-dev.lock"):
        text = (ROOT / name).read_text(encoding="utf-8")
        assert "://" not in text, name
        assert "index-url" not in text, name
        pins = re.findall(r"^[a-z0-9._-]+==\S+ \\\n    --hash=sha256:", text, re.MULTILINE)
        assert len(pins) == len(re.findall(r"^[a-z0-9]\S*==", text, re.MULTILINE)) > 10


def test_the_dev_lock_holds_the_run_time_lock() -> None:
    def pins(name: str) -> set[str]:
        text = (ROOT / name).read_text(encoding="utf-8")
        return set(re.findall(r"^[a-z0-9]\S*==\S+", text, re.MULTILINE))

    assert pins("requirements.lock") < pins("requirements-dev.lock")
