"""Run every building script, named one by one so that a script gone missing is noticed."""

from __future__ import annotations

import runpy
from pathlib import Path

import common

SCRIPTS = (
    "build_parameters",
    "build_materials",
    "build_soils",
    "build_measures",
    "build_laboratory",
    "build_plants",
    "build_places",
    "build_towns",
    "build_air",
    "build_rules",
    "build_entry",
    "build_intake",
)


def build_all(folder: Path) -> None:
    """Build every table and the list of references into ``folder``."""
    unlisted = {path.stem for path in common.HERE.glob("build_*.py")} - set(SCRIPTS)
    if unlisted:
        raise SystemExit(f"scripts not listed in build.py: {', '.join(sorted(unlisted))}")
    shipped = common.DATA
    common.DATA = folder
    try:
        for name in SCRIPTS:
            runpy.run_path(str(common.HERE / f"{name}.py"), run_name="__main__")
    finally:
        common.DATA = shipped


if __name__ == "__main__":
    build_all(common.DATA)
