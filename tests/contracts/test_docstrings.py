"""Public functions of core say all they take and give; elsewhere every number has its unit."""

from __future__ import annotations

import ast
import re

import pytest

from contracts.house import ROOT, Function, Module, of_layers, public_functions
from contracts.numpydoc import UNIT, entries, faults, sections

NUMBER = re.compile(r"\b(float|ArrayLike|NDArray)\b")
EMPTY = re.compile(r"(?<![\w.])\[(objects?|texts?|truth|enumerations?|messages?|any)\]")


def named(pair: object) -> str:
    return f"{pair.place}" if isinstance(pair, Module) else getattr(pair, "name", "")


def arguments(node: Function) -> list[str]:
    """Names of all arguments."""
    spec = node.args
    names = [a.arg for a in (*spec.posonlyargs, *spec.args, *spec.kwonlyargs)]
    names += [extra.arg for extra in (spec.vararg, spec.kwarg) if extra]
    return names


def is_number(annotation: ast.expr | None) -> bool:
    """True for an annotation whose numbers the type leaves without a unit."""
    if annotation is None:
        return False
    return bool(NUMBER.search(ast.unparse(annotation).replace("NDArray[np.bool_]", "")))


def number_faults(node: Function) -> list[str]:
    """What a docstring outside core leaves out, or says that the types say already."""
    docstring = ast.get_docstring(node)
    if not docstring:
        return [f"{node.name} has no docstring"]
    parts = sections(docstring)
    described = {n: e for e in entries(parts.get("Parameters", [])) for n in e.names}
    spec = node.args
    found = [
        f"{node.name}: argument {one.arg} has no [unit]"
        for one in (*spec.posonlyargs, *spec.args, *spec.kwonlyargs)
        if is_number(one.annotation) and not (one.arg in described and described[one.arg].has_unit)
    ]
    found += [
        f"{node.name}: describes {stranger}, which is no argument"
        for stranger in sorted(described.keys() - set(arguments(node)))
    ]
    if (
        is_number(node.returns)
        and not UNIT.search(docstring.split("Parameters")[0])
        and not (UNIT.search("\n".join(parts.get("Returns", parts.get("Yields", [])))))
    ):
        found.append(f"{node.name}: what it returns has no [unit]")
    found += [f"{node.name}: [{word}] is no unit" for word in EMPTY.findall(docstring)]
    return found


def gives_something(node: Function) -> bool:
    """True unless the function is declared to return nothing."""
    return not (isinstance(node.returns, ast.Constant) and node.returns.value is None)


def rules_of_one_signature(module: Module) -> set[str]:
    """Functions named in a tuple of ``Rule``, whose alias says what each takes and gives."""
    found: set[str] = set()
    for node in module.tree.body:
        if isinstance(node, ast.AnnAssign) and "Rule," in ast.unparse(node.annotation):
            found |= {name.id for name in ast.walk(node) if isinstance(name, ast.Name)}
    return found


EVERY = [
    (module, node)
    for module in of_layers("core", "domain", "services")
    for node in public_functions(module)
    if node.name not in rules_of_one_signature(module)
]
OUTSIDE = [(module, node) for module, node in EVERY if module.layer != "core"]
RULES = [
    (module, node)
    for module in of_layers("services")
    for node in public_functions(module)
    if node.name in rules_of_one_signature(module)
]
CORE = [(m, node) for m, node in EVERY if m.layer == "core" and gives_something(node)]


@pytest.mark.parametrize(
    ("module", "node"), [pair for pair in EVERY if pair[0].layer == "core"], ids=named
)
def test_arguments_and_result_have_units(module: Module, node: Function) -> None:
    found = faults(
        node.name, ast.get_docstring(node), arguments(node), returns=gives_something(node)
    )
    assert not found, "\n".join(f"{module.place}:{node.lineno} {line}" for line in found)


@pytest.mark.parametrize(("module", "node"), OUTSIDE, ids=named)
def test_numbers_have_units_and_nothing_is_said_twice(module: Module, node: Function) -> None:
    found = number_faults(node)
    assert not found, "\n".join(f"{module.place}:{node.lineno} {line}" for line in found)


@pytest.mark.parametrize(("module", "node"), CORE, ids=named)
def test_core_names_its_ground_and_shows_an_example(module: Module, node: Function) -> None:
    docstring = ast.get_docstring(node) or ""
    missing = []
    if not sections(docstring).keys() & {"Notes", "References"}:
        missing.append("Notes or References")
    if ">>> " not in docstring:
        missing.append("a runnable example")
    assert not missing, f"{module.place}:{node.lineno} {node.name} lacks {', '.join(missing)}"


@pytest.mark.parametrize(("module", "node"), RULES, ids=named)
def test_a_rule_of_a_table_says_in_a_line_what_it_is_for(module: Module, node: Function) -> None:
    docstring = ast.get_docstring(node) or ""
    assert docstring.endswith("."), f"{module.place}:{node.lineno} {node.name}"
    assert len(arguments(node)) == 1 and node.returns is not None


def test_only_rules_of_a_table_are_let_off() -> None:
    text = "def a(x): ...\ndef b(x): ...\nRULES: Final[tuple[Rule, ...]] = (a,)"
    module = Module(ROOT / "src" / "loamshift" / "services" / "x.py", text, ast.parse(text))
    assert rules_of_one_signature(module) >= {"a"}
    assert "b" not in rules_of_one_signature(module)


GOOD = """One line.

Parameters
----------
ph_water
    Reading, 3 to 10 [pH].
low, high : float
    Bounds [mmolc/kg].

Returns
-------
float
    Acid [mmolc/kg].
"""


def test_the_reader_accepts_a_good_docstring() -> None:
    assert faults("f", GOOD, ["ph_water", "low", "high"], returns=True) == []
    assert [entry.names for entry in entries(sections(GOOD)["Parameters"])] == [
        ("ph_water",),
        ("low", "high"),
    ]


@pytest.mark.parametrize(
    ("text", "complaint"),
    [
        ("def f(ph: float) -> None: ...", "no docstring"),
        ("def f(ph: float) -> None:\n    'One line.'", "ph has no [unit]"),
        ("def f(bed: Case) -> float:\n    'One line.'", "returns has no [unit]"),
        ("def f(bed: Case) -> str:\n    'The name [text].'", "[text] is no unit"),
    ],
)
def test_the_reader_of_numbers_bites(text: str, complaint: str) -> None:
    (node,) = ast.parse(text).body
    assert isinstance(node, ast.FunctionDef)
    assert any(complaint in line for line in number_faults(node))


@pytest.mark.parametrize(
    ("docstring", "complaint"),
    [
        (None, "no docstring"),
        ("One line.", "no Parameters"),
        (GOOD.replace("[pH]", ""), "ph_water has no [unit]"),
        (
            GOOD.replace("ph_water\n", "ph_water : Sequence[float]\n").replace("[pH]", ""),
            "no [unit]",
        ),
        (GOOD.replace("low, high", "low"), "high is not described"),
        (GOOD.replace("low, high", "low, high, best"), "describes best"),
        (GOOD.split("Returns")[0], "no Returns"),
        (GOOD.replace("Acid [mmolc/kg]", "Acid"), "Returns has no [unit]"),
    ],
)
def test_the_reader_bites(docstring: str | None, complaint: str) -> None:
    found = faults("f", docstring, ["ph_water", "low", "high"], returns=True)
    assert any(complaint in line for line in found), found
