"""Write ``docs/trust.md``: every check against the world outside, by what it is held against.

    python tools/trust.py            write the page
    python tools/trust.py --check    exit 1 if the page is not what the checks give today

Each module of ``tests/published/checks`` has ``checks() -> list[Check]``; the test run holds the
same ones, and this page with them. What is known not to hold stands in
``tests/published/cases/expected_outcomes.csv`` and heads the page.
"""

from __future__ import annotations

import argparse
import importlib
import sys
from collections.abc import Iterable, Iterator
from itertools import zip_longest
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
PAGE = ROOT / "docs" / "trust.md"
INTRODUCTION = Path(__file__).resolve().parent / "trust_introduction.md"
CHECKS = ROOT / "tests" / "published" / "checks"

sys.path.insert(0, str(ROOT / "tests"))

from loamshift.cli.kernel_cache import keep_kernels  # noqa: E402
from published import course_sets, courses_abstracts, without_study  # noqa: E402  (found by the line above)
from published.check import Check, Kind, Outcome  # noqa: E402
from published.expected import expected, outcome_expected  # noqa: E402

PROVES = {
    Kind.SOIL: "the most: somebody measured it, and we forecast or computed it",
    Kind.ADVICE: "that we ask for about what institutions ask for, not that either is right",
    Kind.SOLVER: "that the equations of water, air and lime are solved rightly",
    Kind.STOICHIOMETRY: "that the sums are right",
    Kind.ARITHMETIC: "that units and conventions are those of the trade; no soil is in it",
    Kind.PRACTICE: "that nothing silly happens; growers could be wrong",
    Kind.POPULAR: "nothing: shown because users meet such figures",
    Kind.CAUGHT: "that we do not repeat a printed slip",
}
"""What a row of each kind proves, in the order of the page."""
ABSTRACTS = (
    "Something that the forecast needs is missing from each of these abstracts and had to be "
    "assumed, so they prove little and are counted nowhere above. They are the only look at pH "
    "after sulfur. A row is *met* where our range of 90 in 100 reaches what was seen."
)
QUANTITIES = {
    "ph": "pH",
    "ph_change": "change of pH",
    "ph_change_year": "change of pH a year",
    "oxidised_pct": "% of sulfur oxidised",
}
FORECAST_HEAD = (
    "set",
    "readings",
    "bias",
    "RMSE",
    "in 90 % band",
    "in 50 % band",
    "width of 90 %",
    "CRPS",
    "of staying",
)


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
    rows = list(checks)
    parts = [
        INTRODUCTION.read_text(encoding="utf-8").rstrip(),
        "## The count",
        count(rows),
        *_section(rows, Outcome.NO, "## Promises that do not hold"),
        *_section(rows, Outcome.DIFFERS, "## Where our figure is not the printed one"),
        "## Forecasts against field trials",
        (ROOT / "tools" / "trust_forecasts.md").read_text(encoding="utf-8").rstrip(),
        forecasts(),
        "### Without the numbers that a trial gave",
        without_study.WORDS,
        without_table(),
        "### Studies known from their abstract",
        ABSTRACTS,
        abstracts(),
    ]
    for kind in PROVES:
        parts += [f"## {kind[:1].upper()}{kind[1:]}", f"A row of this kind proves {PROVES[kind]}."]
        topics: dict[str, list[Check]] = {}
        for check in rows:
            if check.kind is kind:
                topics.setdefault(check.topic, []).append(check)
        for topic in sorted(topics, key=str.casefold):
            parts += [f"### {topic[:1].upper()}{topic[1:]}", table(topics[topic])]
    return "\n\n".join(parts) + "\n"


def count(rows: Iterable[Check]) -> str:
    """How many rows of each kind came to what."""
    found = list(rows)
    lines = [("kind of row", "rows", *Outcome, "what it proves"), ("---",) * 6]
    for kind, proves in PROVES.items():
        some = [check.outcome for check in found if check.kind is kind]
        lines.append(
            (str(kind), str(len(some)), *(str(some.count(one)) for one in Outcome), proves)
        )
    return "\n".join(row_text(line) for line in lines)


def _section(rows: Iterable[Check], outcome: Outcome, head: str) -> Iterator[str]:
    """The rows that came to something, with the reason that is listed for them."""
    some = [check for check in rows if check.outcome is outcome and check.kind is not Kind.CAUGHT]
    if not some:
        return
    lines = [("row", "figure", "promised", "reason"), ("---",) * 4]
    for check in some:
        surprise = "" if outcome_expected(check) is outcome else "**not expected.** "
        reason = expected().get(check.claim, (outcome, check.note))[1]
        lines.append((check.claim, check.figure, check.limit, surprise + reason))
    yield head
    yield "\n".join(row_text(line) for line in lines)


def forecasts() -> str:
    """Every set of readings, now and before the last work on the physics."""
    was = course_sets.before()
    lines = [FORECAST_HEAD, ("---",) * len(FORECAST_HEAD)]
    for key, now in course_sets.table():
        before = was.get(key)
        n = int(now["n"])
        lines.append((f"**{key}**", str(n), *forecast_cells(now)))
        if before is not None:
            lines.append(("before", "", *forecast_cells(before)))
    return "\n".join(row_text(line) for line in lines)


def forecast_cells(found: dict[str, float]) -> tuple[str, ...]:
    """The figures of a set as the table prints them, from the bias on."""
    return (
        f"{found['bias']:+.2f}",
        f"{found['rmse']:.2f}",
        f"{found['held_90']:.0%}",
        f"{found['held_50']:.0%}",
        f"{found['width']:.2f}",
        f"{found['crps']:.2f}",
        f"{found['crps_share']:.2f}",
    )


def without_table() -> str:
    """Each trial scored with the numbers it gave replaced by what other sources say."""
    lines = [FORECAST_HEAD, ("---",) * len(FORECAST_HEAD)]
    for key, found in without_study.table():
        lines.append((key, str(int(found["n"])), *forecast_cells(found)))
    return "\n".join(row_text(line) for line in lines)


def abstracts() -> str:
    """Every study known from its abstract with its forecast: met or not, and what was assumed."""
    lines = [("study", "quantity", "seen", "forecast", "met", "assumed"), ("---",) * 6]
    for one in courses_abstracts.listing():
        low, middle, high = one.band
        seen_low, seen_high = one.observed
        lines.append(
            (
                f"{one.study} {one.what}",
                QUANTITIES[one.quantity],
                f"{seen_low:g} to {seen_high:g}",
                f"{middle:.2f} ({low:.2f} to {high:.2f})",
                "yes" if one.hit else f"**no**: {one.reason or 'not known why'}",
                one.assumed,
            )
        )
    return "\n".join(row_text(line) for line in lines)


def table(rows: Iterable[Check]) -> str:
    """One topic as a table; a column that no row fills is left out."""
    cells = [
        {
            "claim": check.claim,
            "source": check.source,
            "n": str(check.n),
            "figure": check.figure,
            "promised": check.limit,
            "outcome": outcome_text(check.outcome),
            "in view": check.in_view,
            "note": check.note,
        }
        for check in rows
    ]
    head = [name for name in cells[0] if any(row[name] for row in cells)]
    lines = [row_text(head), row_text("---" for _ in head)]
    return "\n".join([*lines, *(row_text(row[name] for name in head) for row in cells)])


def outcome_text(outcome: Outcome) -> str:
    """The word in the table, heavy where it is not "yes"."""
    return str(outcome) if outcome is Outcome.YES else f"**{outcome}**"


def row_text(cells: Iterable[str]) -> str:
    """One line of a table, with what would break the line made harmless."""
    return "| " + " | ".join(" ".join(c.split()).replace("|", "\\|") for c in cells) + " |"


def main() -> int:
    """Write the page, or compare it; 1 when the page is not current."""
    parser = argparse.ArgumentParser(description="Write docs/trust.md from the checks.")
    parser.add_argument("--check", action="store_true", help="compare only, write nothing")
    compare = parser.parse_args().check
    if compare:
        difference = stale(gathered())
        print(difference or "current")
        return 1 if difference else 0
    PAGE.parent.mkdir(exist_ok=True)
    PAGE.write_text(page(gathered()), encoding="utf-8", newline="\n")
    return 0


def stale(checks: Iterable[Check]) -> str:
    """The first line of the page that is not what the checks give; empty where all are."""
    text = page(checks)
    current = PAGE.read_text(encoding="utf-8") if PAGE.exists() else ""
    if current == text:
        return ""
    lines = zip_longest(current.splitlines(True), text.splitlines(True), fillvalue="no line\n")
    number, (old, new) = next(row for row in enumerate(lines, start=1) if row[1][0] != row[1][1])
    return (
        f"docs/trust.md, line {number}\n  stands: {old}  now:    {new}"
        "run tools/trust.py and read the difference"
    )


if __name__ == "__main__":
    sys.exit(main())
