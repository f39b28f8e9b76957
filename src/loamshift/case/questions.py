"""Every key of the case file as a question: for forms that ask all of them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Final

from loamshift.case.reads import Reads
from loamshift.case.schema import item_table, tables
from loamshift.case.schema_base import Table


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """One key: what it takes, what may be chosen, what it means, and an example as typed.

    ``label`` is the key in words, its unit last: ``organic_matter_pct`` is ``Organic matter, %``.
    """

    key: str
    label: str
    takes: str
    choices: tuple[str, ...]
    meaning: str
    example: str
    is_required: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class QuestionTable:
    """One table of the case file; ``is_list`` where any number of entries may stand."""

    name: str
    meaning: str
    is_list: bool
    questions: tuple[Question, ...]

    @property
    def label(self) -> str:
        """Its name in words; empty for the top of the file."""
        return _TABLE_LABELS.get(self.name, key_label(self.name))


_TABLE_LABELS: Final[Mapping[str, str]] = {
    "": "",
    "place.soil_temp": "Soil thermometer",
    "soil.other_ph": "Other pH of the same sample",
    "on_hand": "At hand",
    "applied": "Put on",
    "reading": "Tests",
    "claim": "Claims",
}
_LABELS: Final[Mapping[str, str]] = {
    "ph": "pH",
    "ph_method": "Method",
    "ph_sd": "Standard deviation, pH",
    "target_ph": "Target pH",
    "target_method": "Method of the target",
    "cec_cmolc_kg": "Cation exchange capacity, cmolc/kg",
    "ec_ds_m": "Conductivity, dS/m",
    "ec_method": "Extract of the conductivity",
    "exchangeable_al_cmolc_kg": "Exchangeable aluminium, cmolc/kg",
    "mg_saturation_pct": "Magnesium saturation, %",
    "buffer_ph": "Buffer pH",
    "buffer_ph_method": "Buffer",
    "n_g_m2_year": "Nitrogen, g/m2 a year",
    "c": "Temperature",
    "air_temp_c": "Air temperature of each month",
    "rain_mm": "Rain of each month, mm",
    "lab_lime_requirement": "Lime the laboratory asks for",
    "fizz_acid": "Acid of the fizz test",
    "incorporated": "Worked in",
    "daily_file": "Station file",
    "times": "Times a year",
    "months": "Months of watering",
    "weekly": "Water a week",
    "growing": "Growing there",
    "plants": "Plants in the bed",
    "count": "Alike beds or pots",
    "by": "Wanted by",
    "today": "Day of the advice",
}
_UNITS: Final = (
    ("_cmolc_kg", ", cmolc/kg"),
    ("_mmolc_kg", ", mmolc/kg"),
    ("_g_cm3", ", g/cm3"),
    ("_pct", ", %"),
)


def key_label(key: str) -> str:
    """A key of the case file in words.

    >>> key_label("organic_matter_pct")
    'Organic matter, %'

    Parameters
    ----------
    key
        The key [text].

    Returns
    -------
    str
        Words with the unit last [text].
    """
    if key in _LABELS:
        return _LABELS[key]
    for tail, unit in _UNITS:
        if key.endswith(tail):
            return key_label(key.removesuffix(tail)) + unit
    words = key.replace("_", " ")
    return words[:1].upper() + words[1:]


@cache
def case_questions() -> tuple[QuestionTable, ...]:
    """All tables of the case file with their keys, in the order of the file.

    Returns
    -------
    tuple of QuestionTable
        The top of the file has the name ``""`` [objects].
    """
    lists = _list_names()
    return tuple(
        QuestionTable(
            name=name,
            meaning=(table.__doc__ or "").splitlines()[0],
            is_list=name in lists,
            questions=tuple(_questions(table)),
        )
        for name, table in tables().items()
    )


def _list_names() -> frozenset[str]:
    found = []
    for name, table in tables().items():
        prefix = f"{name}." if name else ""
        for key, field in table.model_fields.items():
            nested, is_list = item_table(field.annotation)
            if nested is not None and is_list:
                found.append(f"{prefix}{key}")
    return frozenset(found)


def _questions(table: type[Table]) -> list[Question]:
    found = []
    for key, field in table.model_fields.items():
        if item_table(field.annotation)[0] is not None:
            continue
        reads = next(part for part in field.metadata if isinstance(part, Reads))
        example = str(field.examples[0]).strip('"') if field.examples else ""
        found.append(
            Question(
                key=key,
                label=key_label(key),
                takes=reads.kind,
                choices=reads.choices,
                meaning=field.description or "",
                example=example,
                is_required=field.is_required(),
            )
        )
    return found
