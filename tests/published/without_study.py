"""Each trial scored again with the numbers it gave taken away.

The rows of ``cases/without_study.csv`` stand in for those whose source is the trial, or that were
set after it had been scored, with what the sources left over say.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace

from loamshift.domain.evidence import Parameter
from loamshift.tables.parameters import load_parameters
from published import course_sets, courses
from published.courses import rows

MEMBERS = 200
WORDS = (
    "Some numbers of the model come from the very trials it is scored on. Here each trial is "
    "scored with those numbers replaced by what the sources left over say. Not replaced, because "
    "no other source was found: the aluminium and exchange rows of the buffer curve and the "
    "scatter between two readings (all from S01). Weathering and the carbon dioxide of draining "
    "water were set after all three trials had been scored, and stay too."
)


@contextmanager
def rows_replaced(study: str) -> Iterator[None]:
    """The parameter table as it would be without a study, for as long as the block lasts."""
    table = load_parameters()
    kept: list[tuple[dict[str, Parameter], str, Parameter]] = []
    try:
        for row in rows("without_study.csv"):
            if row["study"] != study:
                continue
            topic = table[row["topic"]]
            assert isinstance(topic, dict)
            old = topic[row["name"]]
            kept.append((topic, row["name"], old))
            topic[row["name"]] = replace(
                old,
                value=float(row["value"]),
                low=float(row["low"]),
                high=float(row["high"]),
                sd=float(row["sd"]) if row["sd"] else None,
            )
        yield
    finally:
        for topic, name, old in kept:
            topic[name] = old


def table() -> Iterator[tuple[str, dict[str, float]]]:
    """Sets of the three trials, each without what its own trial gave."""
    for study in ("S01", "S02", "S03"):
        with rows_replaced(study):
            whole = courses.score(course_sets.courses_of(study), members=MEMBERS)
        for one in course_sets.SETS:
            if one.study == study:
                yield one.key, course_sets.figures(whole.only(one.keep(whole)))
