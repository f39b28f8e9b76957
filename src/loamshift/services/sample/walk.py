"""How to take a soil sample from this bed: how many cores, where, how deep and when."""

from __future__ import annotations

import math

from loamshift.domain.case import BedKind
from loamshift.domain.sampling import SamplePlan
from loamshift.errors import OutOfRangeError
from loamshift.tables.parameters import parameter_values

_SMALLEST_ERROR_PH = 0.05
_LARGEST_ERROR_PH = 1.0
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
    kind
        What kind of planting place it is [enumeration].
    area_m2
        Its area, above 0, or None where unknown [m2].
    uneven
        True where look, history or growth differ from place to place [truth].
    woody
        True for established trees, shrubs and fruit bushes [truth].
    treated_depth_cm
        Depth that material will be mixed into, or None for the usual depth of the kind [cm].
    pots
        Containers alike, at least 1 [pots].
    wanted_error_ph
        Half-width of the 95 % range wanted, 0.05 to 1, or None for the usual 0.2 [pH].

    Returns
    -------
    SamplePlan
        Cores, depth, error left and the steps in words [object].

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
    why = [
        f"Single cores from {'uneven' if uneven else 'even-looking'} ground differ by about "
        f"{sd_ph:.2f} pH (standard deviation); {cores} of them mixed leave ±{left_ph:.2f} pH.",
        "The laboratory's own error and the scatter from year to year, about 0.15 pH, come on "
        "top and no number of cores removes them.",
    ]
    if wanted > cores:
        why.append(
            f"±{error_ph:.2f} pH would take {wanted} cores; rather divide the ground into parts "
            "that look alike and send one mixed sample of each."
        )
    elif wanted < cores:
        why.append(
            f"±{error_ph:.2f} pH would need only {wanted}, but the sources read ask for no fewer "
            f"than {int(p['fewest_cores'])}."
        )
    return SamplePlan(
        cores=cores,
        depth_cm=depth_cm,
        error_ph=left_ph,
        core_sd_ph=sd_ph,
        wanted_error_ph=error_ph,
        volume_l=p["sample_volume_l"],
        samples=samples,
        where=_where(kind, cores=cores, pots=pots, uneven=uneven, samples=samples),
        deeper_cm=p["depth_woody_cm"] if woody and p["depth_woody_cm"] > depth_cm else None,
        how=_how(kind, deeper=woody and p["depth_woody_cm"] > depth_cm),
        when=_when(int(p["wait_after_material_weeks"])),
        why=tuple(why),
        tools=_tools(kind),
        ask=_ask(kind),
        source_keys=(
            "umn-soil-sampling",
            "rhs-five-samples",
            "clemson-soil-sampling",
            "ncsu-sampling-12595",
            "schmidinger-2025",
            "common-practice",
        ),
    )


def _check(*, area_m2: float | None, depth_cm: float | None, pots: int, error_ph: float) -> None:
    if area_m2 is not None and not (0.0 < area_m2 < 1e9):
        raise OutOfRangeError(f"area {area_m2} m2: give the area of the bed, above 0")
    if depth_cm is not None and not (1.0 <= depth_cm <= 100.0):
        raise OutOfRangeError(f"depth {depth_cm} cm: a sample is taken from 1 to 100 cm deep")
    if pots < 1:
        raise OutOfRangeError(f"{pots} pots: give at least 1")
    if not (_SMALLEST_ERROR_PH <= error_ph <= _LARGEST_ERROR_PH):
        raise OutOfRangeError(
            f"error {error_ph} pH: ask for {_SMALLEST_ERROR_PH} to {_LARGEST_ERROR_PH}; "
            "0.2 is usual, and the year-to-year scatter alone is about 0.15"
        )


def _usual_depth_cm(kind: BedKind, p: dict[str, float]) -> float:
    return p["depth_lawn_cm"] if kind is BedKind.LAWN else p["depth_bed_cm"]


def _samples(area_m2: float | None) -> int:
    return 1 if area_m2 is None else max(1, math.ceil(area_m2 / _AREA_OF_ONE_SAMPLE_M2))


def _where(kind: BedKind, *, cores: int, pots: int, uneven: bool, samples: int) -> tuple[str, ...]:
    if kind is BedKind.CONTAINER:
        if pots >= cores:
            spots = f"One core from each of {cores} pots picked without choosing."
        else:
            each = math.ceil(cores / pots)
            number = "the pot" if pots == 1 else f"each of the {pots} pots"
            spots = f"{each} cores from {number}, half way between stem and rim."
        return (
            spots,
            "Push through the whole depth of mix; the top crust alone holds the salts and the "
            "lime of the water.",
        )
    lines = [
        f"{cores} spots scattered over the whole bed: walk a zigzag from corner to corner and "
        "stop at even paces, wherever that falls.",
        "Keep away from walls, paths and foundations (mortar and concrete are lime), bonfire and "
        "heap sites, drip lines, and the edges of the bed.",
    ]
    if kind is BedKind.LAWN:
        lines.append("Leave out bare patches and places where dogs or fertiliser bags stood.")
    if kind is BedKind.FIELD:
        lines.append("Leave out gateways, headlands, old hedge lines and manure heaps.")
    if uneven:
        lines.append(
            "Where two parts differ in colour, history or growth, sample them apart: one mean of "
            "two unlike parts is right for neither."
        )
    if samples > 1:
        lines.append(f"At this size send {samples} mixed samples, each of its own quarter.")
    return tuple(lines)


def _how(kind: BedKind, *, deeper: bool) -> tuple[str, ...]:
    lines = []
    if kind is not BedKind.CONTAINER:
        lines.append("Scrape off mulch, litter and living grass first.")
        lines.append(
            "Take every core from the surface to {depth}, as thick below as above: a "
            "spade's straight slice or a soil corer. Half the depth is not half the truth: "
            "material lies near the top, and pH changes with depth."
        )
    if deeper:
        lines.append(
            "For established trees and shrubs take a second, separate sample from {depth} to "
            "{deeper}: it shows whether the roots go down into lime."
        )
    lines.extend(
        (
            "Crumble the cores in a clean plastic bucket (not galvanised, no bag that held "
            "fertiliser or lime), take out stones and roots, and mix until it looks the same all "
            "through.",
            "Send about {volume} of the mix; if it must wait, dry it in the air on clean paper: "
            "no oven, no sun, no radiator.",
            "Write on the bag the bed, the depth and the date.",
        )
    )
    return tuple(lines)


def _tools(kind: BedKind) -> tuple[str, ...]:
    corer = "a spade or a soil corer, marked at {depth}"
    if kind is BedKind.CONTAINER:
        corer = "a soil corer or an apple corer, long enough for the pot"
    return (
        corer,
        "a clean plastic bucket",
        "clean paper to dry the soil on",
        "a bag, and a pen that does not run",
    )


def _ask(kind: BedKind) -> tuple[str, ...]:
    lines = [
        "pH, with the method printed: water or CaCl2, and the ratio",
        "free carbonate (lime)",
    ]
    if kind is BedKind.CONTAINER:
        return (*lines, "salt (EC), with the extract printed")
    return (*lines, "texture, or clay in per cent", "organic matter")


def _when(wait_weeks: int) -> tuple[str, ...]:
    return (
        "When the soil is moist but not wet; never within a day or two of heavy rain or watering.",
        f"At least {wait_weeks} weeks after lime, sulfur or feed: before that a core can meet "
        "grains still reacting.",
        "To follow a bed over the years, at the same season each time, to the same depth, by "
        "the same method: in dry late summer salts hold the pH down a little.",
    )
