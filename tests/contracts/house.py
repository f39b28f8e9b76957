"""What the contract tests read: the source files of the package, parsed once."""

from __future__ import annotations

import ast
from dataclasses import dataclass
from functools import cache
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
PACKAGE = ROOT / "src" / "loamshift"


@dataclass(frozen=True)
class Module:
    """One file of the package: its layer, its text and its tree."""

    path: Path
    text: str
    tree: ast.Module

    @property
    def place(self) -> str:
        return self.path.relative_to(PACKAGE).as_posix()

    @property
    def layer(self) -> str:
        return self.place.split("/")[0].removesuffix(".py")


@cache
def modules() -> tuple[Module, ...]:
    """Every Python file of the package, in the order of its path."""
    found = []
    for path in sorted(PACKAGE.rglob("*.py")):
        text = path.read_text(encoding="utf-8")
        found.append(Module(path, text, ast.parse(text)))
    return tuple(found)


def of_layers(*layers: str) -> list[Module]:
    """The modules of some layers."""
    return [module for module in modules() if module.layer in layers]


def dotted(node: ast.expr) -> str:
    """``a.b.c`` of a name or attribute chain; what is no name is left out."""
    if isinstance(node, ast.Name):
        return node.id
    if isinstance(node, ast.Attribute):
        return f"{dotted(node.value)}.{node.attr}".lstrip(".")
    return ""


Function = ast.FunctionDef | ast.AsyncFunctionDef


def public_functions(module: Module) -> list[Function]:
    """Functions at the top of a module whose name does not begin with an underscore."""
    return [
        node
        for node in module.tree.body
        if isinstance(node, Function) and not node.name.startswith("_")
    ]
