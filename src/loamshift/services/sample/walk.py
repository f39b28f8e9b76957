"""How to take a soil sample from this bed: how many cores, where, how deep and when."""

from __future__ import annotations

import math
from collections.abc import Mapping

from loamshift.domain.case import BedKind
from loamshift.domain.sampling import CoresLine, SamplePlan
from loamshift.errors import OutOfRangeError
from loamshift.services.sample.steps import (
    how_to_take,
    what_to_ask,
    what_to_take,
    when_to_sample,
    where_to_walk,
    why_so_many,
)
from loamshift.tables.parameters import parameter_values

_SMALLEST_ERROR_PH = 0.05
_LARGEST_ERROR_PH = 1.0
_CORES_TOLD = (1, 2, 3, 5, 8, 12)
_AREA_OF_ONE_SAMPLE_M2 = 4 * 10_000.0
"""One mixed sample for at most 10 acres, rounded to 4 ha (Clemson University)."""


def cores_needed(*, core_sd_ph: float, wanted_error_ph: float, z: float) -> int:
    """How many cores bring the mean within the wanted error.

    Parameters
    ----------
    core_sd_ph
        Standard deviation between single cores of the bed, above 0 [pH].
    wanted_error_ph
        Half-width of the range that the mean should keep, above 0 [pH].
    z
        Standard normal quantile of that range, 1.96 for 95 % [-].

    Returns
    -------
    int
        Cores, at least 1 [cores].

    Notes
    -----
    n = (z sd / error)^2, rounded up: the standard error of a mean of independent cores.
    Cores a few paces apart are not quite independent, and mixing is not perfect, so the
    figure is a lower bound.

    Examples
    --------
    >>> cores_needed(core_sd_ph=0.24, wanted_error_ph=0.2, z=1.96)
    6
    """
    return max(1, math.ceil((z * core_sd_ph / wanted_error_ph) ** 2 - 1e-9))


def sample_plan(
    *,
    kind: BedKind = BedKind.GROUND,
    area_m2: float | None = None,
    uneven: bool = False,
    woody: bool = False,
    treated_depth_cm: float | None = None,
    pots: int = 1,
    wanted_error_ph: float | None = None,
) -> SamplePlan:
    """How to sample a bed, lawn, field or set of pots.

    Answers what to do with spade and bucket, and what to have tested.

    Parameters
    ----------
    area_m2
        Its area, above 0, or None where unknown [m2].
    uneven
        True where look, history or growth differ from place to place.
    woody
        True for established trees, shrubs and fruit bushes.
    treated_depth_cm
        Depth that material will be mixed into, or None for the usual depth of the kind [cm].
    pots
        Containers alike, at least 1 [pots].
    wanted_error_ph
        Half-width of the 95 % range wanted, 0.05 to 1, or None for the usual 0.2 [pH].

    Raises
    ------
    OutOfRangeError
        Where an area, depth, number of pots or error makes no sense.

    References
    ----------
    umn-soil-sampling, clemson-soil-sampling, ncsu-sampling-12595, schmidinger-2025
    """
    p = parameter_values("sampling")
    error_ph = p["wanted_error"] if wanted_error_ph is None else wanted_error_ph
    _check(area_m2=area_m2, depth_cm=treated_depth_cm, pots=pots, error_ph=error_ph)
    sd_ph = p["core_sd_uneven"] if uneven else p["core_sd_even"]
    wanted = cores_needed(core_sd_ph=sd_ph, wanted_error_ph=error_ph, z=p["z_95"])
    cores = min(max(wanted, int(p["fewest_cores"])), int(p["most_cores"]))
    depth_cm = treated_depth_cm or _usual_depth_cm(kind, p)
    left_ph = p["z_95"] * sd_ph / math.sqrt(cores)
    samples = _samples(area_m2)
    deeper_cm = p["depth_woody_cm"] if woody and p["depth_woody_cm"] > depth_cm else None
    return SamplePlan(
        cores=cores,
        depth_cm=depth_cm,
        error_ph=left_ph,
        core_sd_ph=sd_ph,
        wanted_error_ph=error_ph,
        volume_l=p["sample_volume_l"],
        samples=samples,
        where=where_to_walk(kind, cores=cores, pots=pots, uneven=uneven, samples=samples),
        deeper_cm=deeper_cm,
        how=how_to_take(
            kind, depth_cm=depth_cm, deeper_cm=deeper_cm, volume_l=p["sample_volume_l"]
        ),
        when=when_to_sample(p["wait_after_material_weeks"]),
        why=why_so_many(
            uneven=uneven,
            sd_ph=sd_ph,
            left_ph=left_ph,
            error_ph=error_ph,
            cores=cores,
            wanted=wanted,
            fewest=int(p["fewest_cores"]),
        ),
        by_cores=_by_cores(cores, z_sd_ph=p["z_95"] * sd_ph, most=int(p["most_cores"])),
        tools=what_to_take(kind, depth_cm=depth_cm),
        ask=what_to_ask(kind),
        source_keys=(
            "umn-soil-sampling",
            "rhs-five-samples",
            "clemson-soil-sampling",
            "ncsu-sampling-12595",
            "schmidinger-2025",
            "common-practice",
        ),
    )


def _by_cores(cores: int, *, z_sd_ph: float, most: int) -> tuple[CoresLine, ...]:
    """What fewer and more cores than those of the plan would be worth."""
    return tuple(
        CoresLine(
            cores=count,
            error_ph=z_sd_ph / math.sqrt(count),
            one_more_saves_ph=z_sd_ph / math.sqrt(count) - z_sd_ph / math.sqrt(count + 1),
        )
        for count in sorted({*_CORES_TOLD, cores, most})
        if count <= most
    )


def _check(*, area_m2: float | None, depth_cm: float | None, pots: int, error_ph: float) -> None:
    if area_m2 is not None and not (0.0 < area_m2 < 1e9):
        raise OutOfRangeError(f"area: {area_m2} m2 must be greater than zero. For example: 20 m2")
    if depth_cm is not None and not (1.0 <= depth_cm <= 100.0):
        raise OutOfRangeError(
            f"depth: {depth_cm} cm is outside the range 1 to 100 cm. For example: 15 cm"
        )
    if pots < 1:
        raise OutOfRangeError(f"pots: {pots} must be 1 or more. For example: 1")
    if not (_SMALLEST_ERROR_PH <= error_ph <= _LARGEST_ERROR_PH):
        raise OutOfRangeError(
            f"error: {error_ph} pH is outside the range {_SMALLEST_ERROR_PH} to "
            f"{_LARGEST_ERROR_PH}. For example: 0.2"
        )


def _usual_depth_cm(kind: BedKind, p: Mapping[str, float]) -> float:
    return p["depth_lawn_cm"] if kind is BedKind.LAWN else p["depth_bed_cm"]


def _samples(area_m2: float | None) -> int:
    return 1 if area_m2 is None else max(1, math.ceil(area_m2 / _AREA_OF_ONE_SAMPLE_M2))
