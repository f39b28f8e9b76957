"""The pH range wanted: that of the plants, what they share, or one of the user's own."""

from __future__ import annotations

from collections.abc import Iterable

from loamshift.domain.bed_context import Target
from loamshift.domain.case import BedKind, Case
from loamshift.domain.ph import PhReading
from loamshift.domain.plant import Plant
from loamshift.services.context.readings import ph_belief
from loamshift.tables.model import verdict_values
from loamshift.tables.parameters import parameter_values


def target_of(case: Case) -> Target | None:
    """The range wanted, from plants or a target pH.

    Returns
    -------
    Target or None
        None where nobody said what the soil is for.
    """
    limits = verdict_values()
    plants = case.aim.plants
    aim = case.aim.target_ph
    if aim is not None and case.aim.target_method is not None:
        aim = ph_belief(PhReading(ph=aim, method=case.aim.target_method)).ph_water
    if not plants and aim is None:
        return None
    half, margin = limits["target_half_width_ph"], limits["overdose_margin_ph"]
    if not plants:
        assert aim is not None
        return Target(
            ph_low=aim - half,
            ph_high=aim + half,
            ph_aim=aim,
            names=(),
            weak=False,
            calcifuge=aim < 5.6,
            tolerated_low=None,
            tolerated_high=None,
            basis="the target pH given",
            harmful_low=aim - half - margin,
            harmful_high=aim + half + margin,
            lowest=aim - half,
            highest=aim + half,
        )
    low = max(plant.ph_low for plant in plants)
    high = min(plant.ph_high for plant in plants)
    shared = len(plants) < 2 or high - low >= parameter_values("plan")["least_common_range_ph"]
    if low > high:
        low, high = high, low
    middle = 0.5 * (low + high)
    own_range = aim is not None and not low <= aim <= high
    if aim is not None and own_range:
        low, high = aim - half, aim + half
    harmful_low, harmful_high = _harmful(case, low=low, high=high, margin=margin)
    return Target(
        ph_low=low,
        ph_high=high,
        ph_aim=middle if aim is None else aim,
        names=() if own_range else tuple(plant.name for plant in plants),
        weak=aim is None and all(plant.is_weak for plant in plants),
        calcifuge=any(plant.calcifuge for plant in plants),
        tolerated_low=_highest(plant.tolerated_low for plant in plants),
        tolerated_high=_lowest(plant.tolerated_high for plant in plants),
        basis="the target pH given, outside the printed range"
        if own_range
        else _range_basis(plants),
        harmful_low=harmful_low,
        harmful_high=harmful_high,
        lowest=min(plant.lowest for plant in plants),
        highest=max(plant.highest for plant in plants),
        is_shared=shared or aim is not None,
        source_keys=tuple(
            dict.fromkeys(source.source_key for plant in plants for source in plant.sources)
        ),
    )


def _harmful(case: Case, *, low: float, high: float, margin: float) -> tuple[float, float]:
    """PH below and above which one of the plants is injured, outside the range wanted."""
    in_pot = case.bed.kind is BedKind.CONTAINER
    lows = [
        plant.container_harmful_low if in_pot else plant.harmful_low for plant in case.aim.plants
    ]
    highs = [
        plant.container_harmful_high if in_pot else plant.harmful_high for plant in case.aim.plants
    ]
    printed_low, printed_high = _highest(lows), _lowest(highs)
    return (
        low - margin if printed_low is None or printed_low >= low else printed_low,
        high + margin if printed_high is None or printed_high <= high else printed_high,
    )


def _range_basis(plants: tuple[Plant, ...]) -> str:
    if len(plants) == 1:
        count = plants[0].n_sources
        return f"{count} independent source{'s' if count != 1 else ''}"
    return "the range all of them share"


def plants_share_a_range(case: Case) -> bool:
    """True where the ranges of all wanted plants overlap by more than a point."""
    plants = case.aim.plants
    if len(plants) < 2:
        return True
    width = min(plant.ph_high for plant in plants) - max(plant.ph_low for plant in plants)
    return width >= parameter_values("plan")["least_common_range_ph"]


def _highest(values: Iterable[float | None]) -> float | None:
    known = [value for value in values if value is not None]
    return max(known) if known else None


def _lowest(values: Iterable[float | None]) -> float | None:
    known = [value for value in values if value is not None]
    return min(known) if known else None
