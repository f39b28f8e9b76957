"""What a check against the world outside looks like; tests hold it and docs/trust.md prints it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Kind(StrEnum):
    """What stands on the other side of a row; the page counts each kind apart."""

    SOIL = "measured in soil"
    """Somebody measured it in a soil, in a field or a laboratory."""
    SOLVER = "independent solver"
    """A program written by others solved the same equations."""
    STOICHIOMETRY = "stoichiometry"
    """Atomic weights, charge balance or conservation; no soil and no model of one."""
    ARITHMETIC = "printed arithmetic"
    """A sum that a source prints, worked again by our conversions and conventions."""
    ADVICE = "published advice"
    """An amount that a table or page advises; nobody need have measured it."""
    POPULAR = "popular page"
    """The same on a page of low grade: shown, and no proof of anything."""
    PRACTICE = "common practice"
    """A habit of the trade, without a source."""
    CAUGHT = "source caught in an error"
    """The printed figure is wrong or does not follow from its own inputs."""


class Outcome(StrEnum):
    """What a row came to."""

    YES = "yes"
    """The promise holds."""
    NO = "no"
    """The promise does not hold."""
    DIFFERS = "differs"
    """Our figure differs from the printed one; the row says why, or that it is not known."""


NOT_IN_VIEW = "nothing"
"""No number of the model was chosen with this in sight."""


@dataclass(frozen=True, kw_only=True)
class Check:
    """One figure of ours against a limit that stands in the project's promises.

    ``source`` names the published work, or says "common practice, no source"; ``n`` counts the
    cases behind ``figure``; ``passed`` is the test; ``differs`` marks a row where our figure is
    not the printed one, even if the row itself is as we say; ``in_view`` says what was looked at
    when a number of the model was chosen; ``note`` says what to keep in mind.
    """

    topic: str
    kind: Kind
    claim: str
    source: str
    n: int
    figure: str
    limit: str
    passed: bool
    differs: bool = False
    in_view: str = ""
    note: str = ""

    @property
    def outcome(self) -> Outcome:
        """The word on the page: never "yes" where our figure is not the printed one."""
        if not self.passed:
            return Outcome.NO
        return Outcome.DIFFERS if self.differs or self.kind is Kind.CAUGHT else Outcome.YES
