"""What a fizz test, or the pH where nobody tried, says of the free lime in a soil."""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass

from loamshift.domain.evidence import Evidence
from loamshift.domain.soil import CarbonateBelief, Fizz, FizzAcid
from loamshift.errors import OutOfRangeError, TableError


@dataclass(frozen=True, slots=True, kw_only=True)
class CarbonateRule:
    """One row: a finding, the acid it was made with, and the belief it leads to.

    ``fizz`` None stands for a test nobody made; ``acid`` None with ``any_acid`` false stands for
    an acid nobody named. Holds from ``ph_low`` up to, not including, ``ph_high``, its figures in
    full from ``full_from_ph`` [pH in water]; ``zero_weight`` [0-1]; ``low_pct`` to ``high_pct``
    [% CaCO3].
    """

    fizz: Fizz | None
    acid: FizzAcid | None
    any_acid: bool
    ph_low: float
    ph_high: float
    full_from_ph: float
    zero_weight: float
    low_pct: float
    high_pct: float
    basis: str
    source_key: str
    evidence: Evidence
    note: str


def carbonate_rule(
    fizz: Fizz | None, acid: FizzAcid | None, *, ph_water: float, rules: Sequence[CarbonateRule]
) -> CarbonateRule:
    """The one rule that fits a finding.

    Parameters
    ----------
    fizz
        What the drop of acid showed; None where nobody tried.
    acid
        The acid; None where nobody said.
    ph_water
        pH in water of the soil, 2 to 11 [pH].

    Raises
    ------
    OutOfRangeError
        Where the pH is no soil pH.
    TableError
        Where the table does not hold just one such row.

    Notes
    -----
    An acid nobody named has rows of its own, wide enough for both.

    References
    ----------
    own-judgement
    """
    if not 2.0 <= ph_water <= 11.0:
        raise OutOfRangeError(f"ph_water = {ph_water:g} must lie between 2 and 11")
    fitting = [
        rule
        for rule in rules
        if rule.fizz is fizz
        and (rule.any_acid or rule.acid is acid)
        and rule.ph_low <= ph_water < rule.ph_high
    ]
    if len(fitting) != 1:
        raise TableError(f"{len(fitting)} fizz rules for {fizz}, {acid}, pH {ph_water:g}; want one")
    return fitting[0]


def carbonate_belief_between(
    fizz: Fizz | None, acid: FizzAcid | None, *, ph_water: float, rules: Sequence[CarbonateRule]
) -> CarbonateBelief:
    """The belief of a finding, passing from one row to the next without a step.

    Parameters
    ----------
    fizz
        What the drop of acid showed; None where nobody tried.
    acid
        The acid; None where nobody said.
    ph_water
        pH in water of the soil, 2 to 11 [pH].

    Returns
    -------
    CarbonateBelief
        In the words of the row that fits; weight at zero [0-1], range of the rest [% CaCO3].

    Raises
    ------
    OutOfRangeError
        Where the pH is no soil pH.
    TableError
        Where the table does not hold just one such row.

    Notes
    -----
    Straight in the weight and in the logarithm of the bounds, from the end of the lowest row to
    where the next is in full, and so on. Two readings that nobody could tell apart then lead to
    two needs that nobody could tell apart.

    References
    ----------
    own-judgement
    """
    fitting = carbonate_rule(fizz, acid, ph_water=ph_water, rules=rules)
    rows = sorted(
        (rule for rule in rules if rule.fizz is fizz and (rule.any_acid or rule.acid is acid)),
        key=lambda rule: rule.ph_low,
    )
    places = [rows[0].ph_high, *(rule.full_from_ph for rule in rows[1:])]
    if ph_water <= places[0]:
        return carbonate_belief_from_rule(rows[0])
    if ph_water >= places[-1]:
        return carbonate_belief_from_rule(rows[-1])
    upper = bisect_right(places, ph_water)
    lower, higher = rows[upper - 1], rows[upper]
    share = (ph_water - places[upper - 1]) / (places[upper] - places[upper - 1])

    def between(low: float, high: float) -> float:
        return low + share * (high - low)

    return CarbonateBelief(
        between(lower.zero_weight, higher.zero_weight),
        math.exp(between(math.log(lower.low_pct), math.log(higher.low_pct))),
        math.exp(between(math.log(lower.high_pct), math.log(higher.high_pct))),
        fitting.basis,
        measured=False,
    )


def carbonate_belief_from_rule(rule: CarbonateRule) -> CarbonateBelief:
    """The belief of a rule.

    Returns
    -------
    CarbonateBelief
        Weight at zero [0-1], and a log-uniform range for the rest [% CaCO3].

    Notes
    -----
    A log-uniform range needs a lower bound above zero.

    References
    ----------
    own-judgement
    """
    if rule.zero_weight >= 1.0:
        return CarbonateBelief(1.0, 0.0, 0.0, rule.basis, measured=False)
    return CarbonateBelief(
        rule.zero_weight, rule.low_pct, rule.high_pct, rule.basis, measured=False
    )
