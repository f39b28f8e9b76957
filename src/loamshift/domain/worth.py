"""What a further test of a bed is worth, and which comes first."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from loamshift.domain.message import Worded


class FurtherTest(StrEnum):
    """Tests that can be made of a bed beside those of its plan."""

    FIZZ = "fizz"
    CARBONATE = "carbonate"
    LABORATORY_PH = "laboratory-ph"
    CORE = "core"
    BUFFER_PH = "buffer-ph"
    JARS = "jars"
    TEXTURE = "texture"
    ORGANIC_MATTER = "organic-matter"
    WATER = "water"
    WATER_AMOUNT = "water-amount"
    LATER_READING = "later-reading"


@dataclass(frozen=True, slots=True, kw_only=True)
class WorthOfTest:
    """What one test is worth.

    ``field`` of the case file that its result fills; ``on`` the day of a later reading, None for
    a test made now; ``planned`` true for a reading that the plan counts on already. ``gain`` share
    of the possible beds that come to lie in the range because the plan is chosen after it;
    ``changes`` the chance that something else goes on first, or nothing [0-1]. ``cost`` with
    postage, in ``currency``, None for a price of the reader's own; ``days`` to the result [d];
    ``gain_per_cost`` [1/currency]. ``how`` to make it.
    """

    test: FurtherTest
    field: str
    gain: float
    changes: float
    cost: float
    currency: str | None
    days: int
    gain_per_cost: float
    how: Worded
    on: date | None = None
    planned: bool = False
    source_key: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Worth:
    """What further tests are worth, that with most gain per cost first.

    ``best`` the one to make first, None where none is worth its cost; ``words`` say it. ``now``
    share of the possible beds in range by the plan as it is, ``most`` what knowing everything
    would add [0-1], both None where nothing is planned.
    """

    best: FurtherTest | None
    words: Worded
    now: float | None = None
    most: float | None = None
    tests: tuple[WorthOfTest, ...] = ()
