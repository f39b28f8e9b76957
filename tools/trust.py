"""Write ``docs/trust.md``: every check against the world outside, held or not.

    python tools/trust.py            write the page
    python tools/trust.py --check    exit 1 if the page is not what the checks give today

The checks are those of ``tests/published/checks``; the test run holds the same ones.
"""

from __future__ import annotations

import argparse
import importlib
import sys
from collections.abc import Iterable
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
PAGE = ROOT / "docs" / "trust.md"
INTRODUCTION = Path(__file__).resolve().parent / "trust_introduction.md"
CHECKS = ROOT / "tests" / "published" / "checks"
HEAD = ("claim", "source", "n", "figure", "promised", "held", "note")

sys.path.insert(0, str(ROOT / "tests"))

from loamshift.cli.kernel_cache import keep_kernels  # noqa: E402
from published.check import Check  # noqa: E402  (found by the line above)


def gathered() -> list[Check]:
    """All checks, module by module in the order of their names."""
    keep_kernels()
    names = sorted(path.stem for path in CHECKS.glob("*.py") if path.stem != "__init__")
    found: list[Check] = []
    for name in names:
        found.extend(importlib.import_module(f"published.checks.{name}").checks())
    return found


def page(checks: Iterable[Check]) -> str:
    """The whole page as text."""
    topics: dict[str, list[Check]] = {}
    for check in checks:
        topics.setdefault(check.topic, []).append(check)
    total = sum(len(rows) for rows in topics.values())
    held = sum(check.passed for rows in topics.values() for check in rows)
    parts = [
        INTRODUCTION.read_text(encoding="utf-8").rstrip(),
        "## The count",
        f"{held} of {total} checks hold. Those that do not are marked **no** below and listed "
        "first in their topic.",
    ]
    for topic in sorted(topics):
        rows = sorted(topics[topic], key=lambda check: check.passed)
        parts += [f"## {topic[:1].upper()}{topic[1:]}", table(rows)]
    return "\n\n".join(parts) + "\n"


def table(rows: Iterable[Check]) -> str:
    """One topic as a table."""
    lines = [row_text(HEAD), row_text("---" for _ in HEAD)]
    lines += [
        row_text(
            (
                check.claim,
                check.source,
                str(check.n),
                check.figure,
                check.limit,
                "yes" if check.passed else "**no**",
                check.note,
            )
        )
        for check in rows
    ]
    return "\n".join(lines)


def row_text(cells: Iterable[str]) -> str:
    """One line of a table, with what would break the line made harmless."""
    return "| " + " | ".join(" ".join(c.split()).replace("|", "\\|") for c in cells) + " |"


def main() -> int:
    """Write the page, or compare it; 1 when the page is not current."""
    parser = argparse.ArgumentParser(description="Write docs/trust.md from the checks.")
    parser.add_argument("--check", action="store_true", help="compare only, write nothing")
    compare = parser.parse_args().check
    text = page(gathered())
    if not compare:
        PAGE.parent.mkdir(exist_ok=True)
        PAGE.write_text(text, encoding="utf-8", newline="\n")
        return 0
    current = PAGE.read_text(encoding="utf-8") if PAGE.exists() else ""
    if current == text:
        return 0
    for number, (old, new) in enumerate(
        zip(current.splitlines(), text.splitlines(), strict=False), start=1
    ):
        if old != new:
            print(f"docs/trust.md, line {number}\n  stands: {old}\n  now:    {new}")
            break
    print("docs/trust.md is not what the checks give today; run tools/trust.py and read it")
    return 1


if __name__ == "__main__":
    sys.exit(main())
