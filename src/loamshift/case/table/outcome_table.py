"""Outcomes of many rows as the columns of a table, and the sentence that says why."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

from loamshift.domain.answer import Reason
from loamshift.domain.message import Value, message, ph
from loamshift.report.messages import say
from loamshift.report.words import Words
from loamshift.services.many.outcome import Outcome

if TYPE_CHECKING:
    import pyarrow as pa

JOINED: Final = "; "
"""Between the codes in one cell."""
FORECAST_COLUMNS: Final = ("forecast_on", "share_in_range", "ph_lo90", "ph_mid", "ph_hi90")
"""Columns that only an ensemble fills."""
PLANNED_COLUMNS: Final = ("planned_ends", "planned_limit_times", "planned_cautions")
"""Columns of a plan that the rows bring; they follow those of a forecast."""
_PLACES: Final = 3
"""Decimals of a figure in the table: more than any soil deserves."""
_TEXT: Final = ("key", "verdict", "reason", "why", "direction", "material", "cautions", "questions")
_PLANNED_TEXT: Final = ("planned_ends", "planned_cautions")
_DAY: Final = ("first_on", "not_before", "next_test", "forecast_on")
_COUNT: Final = ("row", "parts")
OUTCOME_COLUMNS: Final = (
    "row",
    "key",
    "verdict",
    "why",
    "material",
    "need_lo90_g_m2",
    "need_mid_g_m2",
    "need_hi90_g_m2",
    "plan_g_m2",
    "parts",
    "first_g_m2",
    "first_on",
    "not_before",
    "next_test",
    "cautions",
    "questions",
    "ph_now",
    "ph_low",
    "ph_high",
    "ph_aim",
    "direction",
    "reason",
)
"""Columns of every result in their order; those of a forecast follow."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Result:
    """Rows with their answers.

    ``carried`` cells of the columns that go into the result as they are, by heading.
    """

    rows: Sequence[int]
    outcomes: Sequence[Outcome]
    carried: Mapping[str, Sequence[str | None]]


def schema_of(carried: Sequence[str], *, forecast: bool, planned: bool = False) -> pa.Schema:
    """Names and types of the columns of a result."""
    import pyarrow as pa

    names = [*OUTCOME_COLUMNS, *(FORECAST_COLUMNS if forecast else ())]
    names += PLANNED_COLUMNS if planned else ()
    kinds: dict[str, Any] = {
        **dict.fromkeys((*_TEXT, *_PLANNED_TEXT), pa.string()),
        **dict.fromkeys(_DAY, pa.date32()),
        **dict.fromkeys(_COUNT, pa.int64()),
    }
    own = [pa.field(name, kinds.get(name, pa.float64())) for name in names]
    kept = [pa.field(carried_name(heading), pa.string()) for heading in carried]
    return pa.schema([*own[:2], *kept, *own[2:]])


def carried_name(heading: str) -> str:
    """The heading of a column that is carried along; one that we use ourselves is marked."""
    ours = heading in (*OUTCOME_COLUMNS, *FORECAST_COLUMNS, *PLANNED_COLUMNS)
    return f"{heading} (given)" if ours else heading


def table_of(result: Result, *, forecast: bool, planned: bool = False, words: Words) -> pa.Table:
    """A result as a table with one row for each answer."""
    import pyarrow as pa

    schema = schema_of(tuple(result.carried), forecast=forecast, planned=planned)
    whys = reasons_said(result.outcomes, words)
    columns: dict[str, list[Any]] = {"row": list(result.rows), "why": whys}
    for heading, cells in result.carried.items():
        columns[carried_name(heading)] = list(cells)
    for field in schema:
        if field.name not in columns:
            columns[field.name] = [_plain(getattr(one, field.name)) for one in result.outcomes]
    arrays = [pa.array(columns[field.name], field.type) for field in schema]
    return pa.Table.from_arrays(arrays, schema=schema)


def reasons_said(outcomes: Sequence[Outcome], words: Words) -> list[str]:
    """Why each row comes to what it does, in a sentence; the same words are made once."""
    made: dict[tuple[object, ...], str] = {}
    said = []
    for one in outcomes:
        like = (one.reason, _tenth(one.ph_now), _tenth(one.ph_low), _tenth(one.ph_high))
        if like not in made:
            made[like] = say(_why(*like), words)
        said.append(made[like])
    return said


def _why(reason: Reason | None, now: float | None, low: float | None, high: float | None) -> Any:
    range_: Value = None if low is None or high is None else ph(low, high=high)
    shown = message("many-range", count=0 if range_ is None else 1, range=range_)
    values: dict[str, Value] = {"ph": None if now is None else ph(now), "range": shown}
    return message(f"many-why-{'unknown' if reason is None else reason.value}", **values)


def _tenth(value: float | None) -> float | None:
    """A pH as it is printed, so that rows that read alike are worded once."""
    return None if value is None else round(value, 1)


def _plain(value: Any) -> Any:
    if isinstance(value, tuple):
        return JOINED.join(value)
    if isinstance(value, float):
        return round(value, _PLACES)
    return getattr(value, "value", value)
