"""A card: one sheet for the shed, the class or the tank, with room to write on it.

What letters are made of serves here too; a card adds boxes to tick, lines to fill in by hand,
and a plan of where to walk.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from loamshift.domain.letter import Figure, Items, Note, Paragraph, Table
from loamshift.domain.sampling import SampleWalk


class CardKind(StrEnum):
    """What a card is for."""

    BED = "bed"
    RESCUE = "rescue"
    CLAIM = "claim"
    SAMPLE = "sample"
    WATER = "water"
    TRIAL = "trial"
    FIELD = "field"


@dataclass(frozen=True, slots=True)
class Chores:
    """A table of things to do, each row with a box to tick before it."""

    table: Table


@dataclass(frozen=True, slots=True)
class Choices:
    """Words, each with a box to tick before it."""

    texts: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Blanks:
    """What is filled in by hand: each label with what is known already, or with nothing."""

    lines: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Log:
    """An empty table to keep by hand: column titles, and the fewest and most rows [count]."""

    columns: tuple[str, ...]
    fewest: int = 3
    most: int = 12


@dataclass(frozen=True, slots=True)
class WalkPlan:
    """Where to take cores, as a plan; ``sentence`` says the same to whoever cannot see it."""

    walk: SampleWalk
    along: str
    """Length of the bed as written beside it; empty where it is not known."""
    across: str
    sentence: str


CardBlock = Paragraph | Table | Items | Note | Figure | Chores | Choices | Blanks | Log | WalkPlan


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """Some blocks under a heading.

    ``brief`` is what stands there instead where room is short, empty for the same; ``spare``
    says how soon the part is left out then: 0 never, 1 first.
    """

    heading: str | None
    blocks: tuple[CardBlock, ...]
    brief: tuple[CardBlock, ...] = ()
    spare: int = 0
    care: bool = False
    """True for what can hurt somebody."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Card:
    """A whole card: title, the line below it, what matters most, and rows of parts.

    Parts of one row stand side by side on paper. ``elsewhere`` says where the rest stands,
    should the sheet not hold it all.
    """

    kind: CardKind
    title: str
    subtitle: str
    lead: str
    rows: tuple[tuple[Part, ...], ...]
    closing: str
    elsewhere: str
    day: date | None = None
