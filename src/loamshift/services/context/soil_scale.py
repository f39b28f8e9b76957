"""How strongly a soil resists: what texture and humus say, and every measurement beside them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import Final

from loamshift.core.buffer import acid_between_mmolc_kg, log10_k_from_titration
from loamshift.core.buffer_prior import scale_log10_sd
from loamshift.core.buffer_scale import Possible, log10_k_after
from loamshift.core.topsoil import organic_log10_k
from loamshift.domain.case import Case, SoilEntry
from loamshift.domain.ph import PhBelief
from loamshift.domain.soil import (
    KBelief,
    MediumClass,
    ScaleMeasurement,
    UnusedFact,
    UnusedReason,
)
from loamshift.errors import FitError, InputError
from loamshift.services.context.laboratory_scale import (
    ALUMINIUM_PATH,
    BUFFER_PATH,
    LIME_PATH,
    CurveSoil,
    aluminium_possibility,
    buffer_possibilities,
    lime_possibilities,
)
from loamshift.tables.laboratory import load_buffer_ph_methods
from loamshift.tables.model import buffer_parameters, buffer_scale_spread, verdict_values
from loamshift.tables.soils import soil_values, topsoil_parameters

VOLCANIC: Final = "volcanic"
TITRATION_PATH: Final = "titration"


@dataclass(slots=True)
class _Found:
    """What the facts gave, as it is collected."""

    exact: list[tuple[float, float]] = field(default_factory=list)
    rough: list[list[Possible]] = field(default_factory=list)
    measured: list[ScaleMeasurement] = field(default_factory=list)
    phrases: list[str] = field(default_factory=list)
    unused: list[UnusedFact] = field(default_factory=list)


def scale_of_mineral_soil(
    case: Case, *, ph: PhBelief, soil: CurveSoil, texture_assumed: bool
) -> KBelief:
    """Scale of the buffer curve of a mineral soil.

    Parameters
    ----------
    texture_assumed
        True where nobody named a texture.

    Notes
    -----
    A titration of the soil's own jars has a normal error. Buffer pH, a laboratory's lime figure
    and aluminium are calibrations of other people's soils: their errors have long tails. Figures
    that a laboratory works out from one another count once.
    """
    mean, sd, basis = _prior(case.soil, soil=soil, texture_assumed=texture_assumed)
    found = _Found()
    _add_titration(case, soil, found)
    _add_report(case.soil, ph=ph, soil=soil, found=found)
    _add_aluminium(case.soil, ph=ph, soil=soil, found=found)
    _name_exchange(case.soil, found)
    return _belief(found, mean=mean, sd=sd, basis=basis)


def scale_of_organic_medium(case: Case, media: MediumClass) -> KBelief:
    """Scale of the buffer curve of a potting mix.

    Returns
    -------
    KBelief
        The scale; only a titration of the mix itself moves it.
    """
    soil = CurveSoil(
        clay_pct=0.0,
        organic_carbon_pct=media.organic_carbon_pct,
        bulk_density_g_cm3=media.bulk_density_g_cm3,
        organic_only=True,
    )
    found = _Found()
    _add_titration(case, soil, found)
    for path, value in (
        (BUFFER_PATH, case.soil.buffer_ph),
        (LIME_PATH, case.soil.lab_lime_requirement_g_m2),
        (ALUMINIUM_PATH, case.soil.exchangeable_al_cmolc_kg),
    ):
        if value is not None:
            found.unused.append(
                UnusedFact(path=path, reason=UnusedReason.ORGANIC_MEDIUM, value=value)
            )
    return _belief(found, mean=media.log10_k_mean, sd=media.log10_k_sd, basis=media.medium.value)


def _prior(entry: SoilEntry, *, soil: CurveSoil, texture_assumed: bool) -> tuple[float, float, str]:
    acid = acid_between_mmolc_kg(
        *slope_window_ph(),
        clay_pct=soil.clay_pct,
        organic_carbon_pct=soil.organic_carbon_pct,
        params=buffer_parameters(),
    )
    return prior_scale(
        entry,
        organic_carbon_pct=soil.organic_carbon_pct,
        window_acid_mmolc_kg=acid,
        texture_assumed=texture_assumed,
    )


def slope_window_ph() -> tuple[float, float]:
    """The window that the mean slope of a curve is taken over.

    Returns
    -------
    tuple of float
        Its upper and its lower end [pH in water].
    """
    params = buffer_parameters()
    return params.slope_window_high_ph, params.slope_window_low_ph


def prior_scale(
    entry: SoilEntry,
    *,
    organic_carbon_pct: float,
    window_acid_mmolc_kg: float,
    texture_assumed: bool,
) -> tuple[float, float, str]:
    """What texture and humus say of the scale of a mineral soil before anything is measured.

    Parameters
    ----------
    organic_carbon_pct
        Organic carbon as filled in [%].
    window_acid_mmolc_kg
        Acid of the average curve over the window of ``slope_window_ph`` [mmolc/kg].
    texture_assumed
        True where nobody named a texture.

    Returns
    -------
    tuple
        Mean and standard deviation of log10 k [log10], and what they rest on.
    """
    params = buffer_parameters()
    measured_carbon = entry.organic_carbon_pct is not None or entry.organic_matter_pct is not None
    mean = 0.0
    if entry.clay_type == VOLCANIC:
        mean, sd = params.log10_k_shift_volcanic, params.log10_k_sd_volcanic
        basis = "volcanic clay, outside most measured curves"
    elif texture_assumed:
        sd, basis = verdict_values()["log10_k_sd_texture_unknown"], "loam assumed"
    else:
        clay_measured = entry.clay_pct is not None
        high, low = slope_window_ph()
        sd = scale_log10_sd(
            slope_mmolc_kg_ph=window_acid_mmolc_kg / (high - low),
            carbon_known=measured_carbon,
            clay_measured=clay_measured,
            spread=buffer_scale_spread(),
        )
        basis = f"{'clay' if clay_measured else 'texture class'}, organic matter " + (
            "as given" if measured_carbon else "as usual"
        )
    shift, more = organic_log10_k(
        organic_carbon_pct=organic_carbon_pct, params=topsoil_parameters()
    )
    return mean + shift, math.hypot(sd, more), basis


def _belief(found: _Found, *, mean: float, sd: float, basis: str) -> KBelief:
    values = soil_values()
    after = log10_k_after(
        mean=mean,
        sd=sd,
        exact=found.exact,
        rough=found.rough,
        freedom=values["measurement_freedom"],
    )
    measured = tuple(
        replace(
            one,
            doubted=abs(one.log10_k_mean - mean)
            > values["doubt_sd"] * math.hypot(one.log10_k_sd, sd),
        )
        for one in found.measured
    )
    return KBelief(
        after.mean,
        after.sd,
        basis,
        tuple(found.phrases),
        measured=measured,
        unused=tuple(found.unused),
        prior_mean=mean,
        prior_sd=sd,
    )


def _add_titration(case: Case, soil: CurveSoil, found: _Found) -> None:
    if not case.titration:
        return
    try:
        k = log10_k_from_titration(
            [point.acid_mmolc_kg for point in case.titration],
            [point.ph for point in case.titration],
            clay_pct=soil.clay_pct,
            organic_carbon_pct=soil.organic_carbon_pct,
            params=buffer_parameters(),
            organic_only=soil.organic_only,
        )
    except FitError as error:
        raise InputError(f"titration: {error}") from error
    found.exact.append((k.mean, k.sd))
    found.phrases.append(f"jar titration of {len(case.titration)} points")
    found.measured.append(
        ScaleMeasurement(path=TITRATION_PATH, log10_k_mean=k.mean, log10_k_sd=k.sd)
    )


def _add_report(entry: SoilEntry, *, ph: PhBelief, soil: CurveSoil, found: _Found) -> None:
    """A buffer pH and the lime figure of one report: the surer of the two counts."""
    buffer, why_not = buffer_possibilities(entry, ph=ph, soil=soil)
    lime, no_lime = lime_possibilities(entry, ph=ph, soil=soil)
    named = entry.buffer_ph_method is not None and len(buffer) == 1
    if buffer and (named or not lime):
        chosen, path, method = buffer, BUFFER_PATH, _method_called(entry)
        phrase = f"buffer pH, {method}" if method else "buffer pH of an unnamed buffer"
        left = [(LIME_PATH, entry.lab_lime_requirement_g_m2)] if lime else []
        unused = [no_lime] if no_lime is not None else []
    elif lime:
        chosen, path, method = lime, LIME_PATH, ""
        phrase = "lime figure of the laboratory"
        left = [(BUFFER_PATH, entry.buffer_ph)] if buffer else []
        unused = [why_not] if why_not is not None else []
    else:
        found.unused.extend(fact for fact in (why_not, no_lime) if fact is not None)
        return
    found.rough.append(chosen)
    found.phrases.append(phrase)
    found.measured.append(_likeliest(chosen, path=path, method=method))
    found.unused.extend(unused)
    found.unused.extend(
        UnusedFact(path=other, reason=UnusedReason.SAME_REPORT, value=value)
        for other, value in left
    )


def _likeliest(chosen: Sequence[Possible], *, path: str, method: str) -> ScaleMeasurement:
    """The meaning with most density; among equals the nearest to the usual soil."""
    best = max(chosen, key=lambda one: (one.weight / one.sd, -abs(one.mean)))
    return ScaleMeasurement(
        path=path,
        log10_k_mean=best.mean,
        log10_k_sd=best.sd,
        method=method,
        several=len(chosen) > 1,
    )


def _method_called(entry: SoilEntry) -> str:
    """The name of the buffer as printed, or nothing where nobody named it."""
    if entry.buffer_ph_method is None:
        return ""
    return load_buffer_ph_methods()[entry.buffer_ph_method].synonyms[0]


def _add_aluminium(entry: SoilEntry, *, ph: PhBelief, soil: CurveSoil, found: _Found) -> None:
    possible, why_not = aluminium_possibility(entry, ph=ph, soil=soil)
    if why_not is not None:
        found.unused.append(why_not)
    if possible:
        found.rough.append(possible)
        found.phrases.append("exchangeable aluminium")
        found.measured.append(_likeliest(possible, path=ALUMINIUM_PATH, method=""))


def _name_exchange(entry: SoilEntry, found: _Found) -> None:
    """Exchange capacity and base saturation: no data say what they add to clay and humus."""
    for path, value in (
        ("soil.cec_cmolc_kg", entry.cec_cmolc_kg),
        ("soil.base_saturation_pct", entry.base_saturation_pct),
    ):
        if value is not None:
            found.unused.append(
                UnusedFact(path=path, reason=UnusedReason.NOTHING_MORE, value=value)
            )
