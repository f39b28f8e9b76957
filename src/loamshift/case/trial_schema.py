"""The trial file: what it holds beside the tables of a case file, version 1."""

from __future__ import annotations

import datetime
from typing import Annotated, Final

from pydantic import Field

from loamshift.case.amounts import Amount, read_amount, read_rate
from loamshift.case.case_key import Key
from loamshift.case.label import EXAMPLE, LABEL
from loamshift.case.mend import ListMend, Mend, for_example, quoted
from loamshift.case.reads import DATE, FLAG, Holds, Reads, choice, list_of, number, text, whole
from loamshift.case.schema_base import (
    MATERIAL,
    PH_METHOD,
    LabelledTable,
    OwnName,
    Table,
    quantity,
)
from loamshift.domain.label import Label
from loamshift.domain.material import Material
from loamshift.domain.message import message
from loamshift.domain.ph import PhMethod
from loamshift.domain.trial import Design

TRIAL_VERSION: Final = 1
DAYS: Final = (0, 1, 3, 9, 30, 90)
"""Days on which pots are read where nobody says: each about three times the last."""
DAYS_BEFORE_AFTER: Final = (-60, -30, 0, 30, 90, 180, 365)
"""Days on which beds are read before and after, where nobody says; day 0 is still before."""
_MOST_DAYS: Final = 40
_LAST_DAY: Final = 1100


def _read_version(value: object) -> int:
    if isinstance(value, bool) or value != TRIAL_VERSION:
        raise Mend(message("trial-version", given=quoted(value)), for_example(str(TRIAL_VERSION)))
    return TRIAL_VERSION


_VERSION = Reads(
    parse=_read_version,
    takes=message("takes-version", version=TRIAL_VERSION),
    holds=Holds.NUMBER,
)
_DESIGN = choice(
    Design,
    what="design of a trial",
    aliases={
        "random": "randomised",
        "randomized": "randomised",
        "completely randomised": "randomised",
        "completely randomized": "randomised",
        "randomised blocks": "blocks",
        "randomized blocks": "blocks",
        "randomised complete blocks": "blocks",
        "pairs": "paired",
        "factorial": "two-factor",
        "two factor": "two-factor",
        "doses": "dose series",
        "dose-response": "dose series",
        "strip trial": "strips",
        "zones": "side by side",
        "beds": "side by side",
        "baci": "before and after",
        "before-after-control-impact": "before and after",
    },
)
_AMOUNT = quantity(read_amount, "amount", "g", bare="g-on-bed")
_RATE = quantity(read_rate, "rate", "g/m2")
_NAMES = list_of(text(longest=40), longest=2, single=False)
_DAYS = list_of(whole(low=-_LAST_DAY, high=_LAST_DAY), longest=_MOST_DAYS, single=False)
_PH = number(low=2.0, high=11.0, unit="pH")
_READINGS = list_of(_PH, longest=50, single=False)
_MOST_SOILS: Final = 50


def _read_slurries(value: object) -> tuple[tuple[float, ...], ...]:
    """Repeated readings of several soils; of one soil they may stand without further brackets."""
    soils = value if isinstance(value, list) and isinstance(value[:1], list) else [value]
    if not (soils and isinstance(soils[0], list)):
        soils = [soils]
    found = []
    for soil in soils[:_MOST_SOILS]:
        try:
            read = _READINGS.parse(soil)
        except ListMend as wrong:
            raise Mend(wrong.wrong, for_example("[7.1, 7.2, 7.1]")) from wrong
        assert isinstance(read, tuple)
        found.append(read)
    return tuple(found)


_SLURRIES = Reads(
    parse=_read_slurries, takes=message("takes-list", item=_PH.takes), holds=Holds.NUMBER
)


class AddEntry(LabelledTable):
    """A further material of a treatment."""

    material: Annotated[Material | OwnName | None, Key(MATERIAL, example='"peat"')]
    label: Annotated[Label | None, Key(LABEL, example=EXAMPLE)] = None
    amount: Annotated[Amount | None, Key(_AMOUNT, example='"60 g"')] = None
    rate: Annotated[Amount | None, Key(_RATE, example='"3 kg/m2"')] = None


class TreatmentEntry(LabelledTable):
    """One treatment: its name, and what goes on; without a material it is the untreated control."""

    name: Annotated[str | None, Key(text(longest=40), example='"peat"')]
    material: Annotated[Material | OwnName | None, Key(MATERIAL, example='"peat"')] = None
    label: Annotated[Label | None, Key(LABEL, example=EXAMPLE)] = None
    amount: Annotated[Amount | None, Key(_AMOUNT, example='"60 g"')] = None
    rate: Annotated[Amount | None, Key(_RATE, example='"3 kg/m2"')] = None
    also: list[AddEntry] = Field(default_factory=list)
    levels: Annotated[tuple[str, ...] | None, Key(_NAMES, example='["with peat", "fine"]')] = None


class TrialFile(Table):
    """The top of a trial file, without the tables that a case file has too."""

    trial: Annotated[int | None, Key(_VERSION, example="1")]
    name: Annotated[str | None, Key(text(longest=80), example='"Peat in limy soil"')]
    question: Annotated[
        str | None, Key(text(), example='"Does peat lower the pH of our soil for long?"')
    ]
    start: Annotated[datetime.date | None, Key(DATE, example="2026-04-20")]
    case_file: Annotated[str | None, Key(text(), example='"north-border.toml"')] = None
    design: Annotated[Design | None, Key(_DESIGN, example='"randomised"')] = Design.RANDOMISED
    in_blocks: Annotated[bool | None, Key(FLAG, example="true")] = False
    replicates: Annotated[int | None, Key(whole(low=1, high=50), example="5")] = 5
    control: Annotated[str | None, Key(text(longest=40), example='"nothing"')] = None
    factors: Annotated[tuple[str, ...] | None, Key(_NAMES, example='["peat", "sulfur"]')] = None
    days: Annotated[tuple[int, ...] | None, Key(_DAYS, example="[0, 1, 3, 9, 30, 90]")] = DAYS
    ph_method: Annotated[PhMethod | None, Key(PH_METHOD, example='"water 1:2.5"')] = (
        PhMethod.WATER_1_2_5
    )
    matters: Annotated[float | None, Key(number(low=0.02, high=3.0, unit="pH"), example="0.2")] = (
        None
    )
    sd: Annotated[float | None, Key(number(low=0.005, high=2.0, unit="pH"), example="0.1")] = None
    slurry: Annotated[
        tuple[tuple[float, ...], ...] | None,
        Key(_SLURRIES, example="[[7.1, 7.2, 7.1], [6.8, 6.9, 6.8]]"),
    ] = None
    of_bed: Annotated[bool | None, Key(FLAG, example="true")] = False
    by_lot: Annotated[bool | None, Key(FLAG, example="false")] = True
    seed: Annotated[int | None, Key(whole(low=0, high=2**31 - 1), example="7")] = 1
    blind: Annotated[bool | None, Key(FLAG, example="true")] = False
    per_row: Annotated[int | None, Key(whole(low=1, high=50), example="5")] = None
    treatment: list[TreatmentEntry] = Field(default_factory=list)
