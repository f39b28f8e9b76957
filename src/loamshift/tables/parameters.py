"""The named coefficients of the model, each a row with its spread and source."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType

from loamshift.domain.evidence import Parameter
from loamshift.errors import TableError
from loamshift.tables.rows import evidence, number, number_or_none, read_rows


@cache
def load_parameters() -> Mapping[str, Mapping[str, Parameter]]:
    """All parameters, by topic and then by name."""
    topics: dict[str, dict[str, Parameter]] = {}
    for row in read_rows("parameters"):
        topic = topics.setdefault(row["topic"], {})
        if row["name"] in topic:
            raise TableError(f"parameter {row['topic']}.{row['name']} stands twice")
        topic[row["name"]] = Parameter(
            topic=row["topic"],
            name=row["name"],
            value=number(row, "value"),
            unit=row["unit"],
            low=number_or_none(row, "low"),
            high=number_or_none(row, "high"),
            sd=number_or_none(row, "sd"),
            source_key=row["source_key"],
            where=row["where"],
            evidence=evidence(row),
            note=row["note"],
        )
    return topics


@cache
def parameter_values(topic: str) -> Mapping[str, float]:
    """Name to value of one topic, not to be changed [unit of each row]."""
    try:
        rows = load_parameters()[topic]
    except KeyError as error:
        raise TableError(f"no parameters for topic {topic}") from error
    return MappingProxyType({name: row.value for name, row in rows.items()})
