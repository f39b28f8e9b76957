"""Hard water settled: what its alkalinity does in a year, and the acid that takes it out."""

from __future__ import annotations

from loamshift import units
from loamshift.core.equilibrium import CarbonateParameters
from loamshift.core.irrigation import (
    ionic_strength_from_alkalinity,
    ionic_strength_from_ec,
    water_acid_mmolc_l,
)
from loamshift.core.water_acids import (
    AcidProduct,
    IrrigationParameters,
    acid_products,
    product_per_100_l,
    protons_released,
)
from loamshift.domain.answer import Band, Caution
from loamshift.domain.message import (
    Measure,
    Message,
    Prose,
    Quantity,
    message,
    number,
    ph,
    prose,
)
from loamshift.domain.message import alkalinity as alkalinity_said
from loamshift.domain.water import AcidDose, WaterTreatment
from loamshift.errors import InputError, OutOfRangeError
from loamshift.tables.parameters import load_parameters, parameter_values
from loamshift.tables.rules import load_cautions

_PRODUCTS = (
    "sulfuric acid 35 %",
    "sulfuric acid 93 %",
    "sulfuric acid 98 %",
    "phosphoric acid 75 %",
    "phosphoric acid 85 %",
    "nitric acid 67 %",
    "citric acid",
)
_MG_PER_MMOLC = units.CACO3_G_MOL / 2.0
_LOWEST_PH = 4.5
_PHOSPHORUS_G_MOL = 30.974

_HARDNESS_IS_NOT_ALKALINITY = (
    "hardness counts calcium and magnesium; alkalinity counts the bicarbonate that neutralises "
    "acid. Hard water can have little alkalinity, and water from a softener can have a lot. Ask "
    "the supplier or a laboratory for alkalinity or bicarbonate, or use an aquarium KH test: "
    "1 degree KH is 18 mg/L CaCO3"
)


def treat_water(
    *,
    alkalinity_mg_l_as_caco3: float | None,
    hardness_mg_l_as_caco3: float | None = None,
    ph_start: float | None = None,
    target_ph: float | None = None,
    target_alkalinity_mg_l_as_caco3: float | None = None,
    water_mm_year: float | None = None,
    temp_c: float | None = None,
    ec_ds_m: float | None = None,
) -> WaterTreatment:
    """What this water brings in a year, and the acid per 100 L for a target.

    Answers how much of each common acid to add; whether acid is the right way at all, against
    rain water or another feed, is left to the adviser.

    Parameters
    ----------
    alkalinity_mg_l_as_caco3
        Alkalinity of the water, 0 to 1000 [mg/L as CaCO3].
    hardness_mg_l_as_caco3
        Total hardness, if that was printed; never taken for alkalinity [mg/L as CaCO3].
    ph_start
        pH of the water as it comes, 5.5 to 10, or None where nobody read it [pH].
    target_ph
        pH wanted in the line, 4.5 to the start; give this or an alkalinity, not both [pH].
    target_alkalinity_mg_l_as_caco3
        Alkalinity to leave, 10 or more; 40 where neither target is given [mg/L as CaCO3].
    water_mm_year
        Depth of this water given in a year, or None [mm/yr].
    temp_c
        Temperature of the water, 0 to 40, or None for 15 [degC].
    ec_ds_m
        Conductivity of the water, or None to estimate its salts from the alkalinity [dS/m].

    Raises
    ------
    InputError
        Where hardness was given in place of alkalinity, or two targets at once.
    OutOfRangeError
        Where a figure is impossible.

    Notes
    -----
    To an alkalinity: acid = alkalinity taken out, exact. To a pH: closed line, see
    ``core.irrigation.water_acid_mmolc_l``; an unread start pH is carried through as the range
    7.0 to 8.3. Lime per year [g/m2] = alkalinity x mm / 1000.

    References
    ----------
    stumm-morgan-1996, umass-alkalinity-acids, mullin-1964
    """
    alkalinity = _alkalinity(alkalinity=alkalinity_mg_l_as_caco3, hardness=hardness_mg_l_as_caco3)
    if target_ph is not None and target_alkalinity_mg_l_as_caco3 is not None:
        raise InputError("give a target pH or a target alkalinity, not both: one fixes the other")
    if water_mm_year is not None and not 0.0 <= water_mm_year <= 20_000.0:
        raise OutOfRangeError(
            f"{water_mm_year:g} mm of water a year: give 0 to 20,000; 500 mm is a dry summer's "
            "watering"
        )
    advice = load_parameters()["water_advice"]
    assumed = advice["assumed_ph_start"]
    temp = advice["assumed_temp"].value if temp_c is None else temp_c
    starts = (
        (assumed.low or assumed.value, assumed.value, assumed.high or assumed.value)
        if ph_start is None
        else (ph_start, ph_start, ph_start)
    )
    line = _Line(alkalinity_mmolc_l=alkalinity / _MG_PER_MMOLC, temp_c=temp, ec_ds_m=ec_ds_m)
    if target_ph is not None:
        acids = [line.acid_to_ph(ph_start=start, ph_target=target_ph) for start in starts]
        target = message("water-target-ph", ph=ph(target_ph))
        after: Band | None = Band(lo90=target_ph, mid=target_ph, hi90=target_ph)
    else:
        left = target_alkalinity_mg_l_as_caco3
        if left is None:
            left = min(advice["usual_target_alkalinity"].value, alkalinity)
        least = advice["least_target_alkalinity"].value
        if not (least <= left <= alkalinity or left == alkalinity):
            raise OutOfRangeError(
                f"target alkalinity {left:g} mg/L CaCO3: give {least:g} up to the water's own "
                f"{alkalinity:g}; below {least:g} nothing buffers a dosing error"
            )
        acids = [(alkalinity - left) / _MG_PER_MMOLC] * 3
        target = message("water-target-left", left=alkalinity_said(left))
        after = None
        if acids[1] > 0.0:
            after = _band(
                [line.ph_after(ph_start=start, acid_mmolc_l=acids[1]) for start in starts]
            )
    acid = _band(acids)
    ph_for_products = after.mid if after is not None else starts[1]
    treated = acid.mid > 0.0
    lime = None if water_mm_year is None else alkalinity * water_mm_year / 1000.0
    left_band = Band(
        lo90=max(0.0, alkalinity - acid.hi90 * _MG_PER_MMOLC),
        mid=max(0.0, alkalinity - acid.mid * _MG_PER_MMOLC),
        hi90=alkalinity - acid.lo90 * _MG_PER_MMOLC,
    )
    return WaterTreatment(
        alkalinity_mg_l_as_caco3=alkalinity,
        alkalinity_left_mg_l_as_caco3=left_band,
        target=target,
        aims_at_ph=target_ph is not None,
        ph_start=starts[1],
        ph_start_assumed=ph_start is None,
        ph_after=after,
        acid_mmolc_l=acid,
        products=_doses(acid, ph_for_products) if treated else (),
        water_mm_year=water_mm_year,
        lime_g_m2_year=lime,
        lime_left_g_m2_year=None
        if water_mm_year is None
        else left_band.mid * water_mm_year / 1000.0,
        sulfur_as_s_g_m2_year=None
        if lime is None
        else units.sulfur_as_s_g_m2_from_acid_mmolc_m2(lime / units.CACO3_G_PER_MMOLC),
        comments=_comments(alkalinity=alkalinity, hardness=hardness_mg_l_as_caco3, treated=treated),
        cautions=_cautions() if treated else (),
        source_keys=("stumm-morgan-1996", "umass-alkalinity-acids", "mullin-1964"),
    )


class _Line:
    """A closed water line of one alkalinity: acid for a pH, and pH after an acid."""

    def __init__(self, *, alkalinity_mmolc_l: float, temp_c: float, ec_ds_m: float | None) -> None:
        irrigation = IrrigationParameters(**parameter_values("irrigation"))
        self._carbonate = CarbonateParameters(**parameter_values("carbonate"))
        self._alkalinity_mmolc_l = alkalinity_mmolc_l
        self._temp_c = temp_c
        self._ionic_strength = (
            ionic_strength_from_alkalinity(alkalinity_mmolc_l, irrigation)
            if ec_ds_m is None
            else ionic_strength_from_ec(ec_ds_m, irrigation)
        )

    def acid_to_ph(self, *, ph_start: float, ph_target: float) -> float:
        return water_acid_mmolc_l(
            alkalinity_mmolc_l=self._alkalinity_mmolc_l,
            ph_start=ph_start,
            ph_target=ph_target,
            temp_c=self._temp_c,
            ionic_strength=self._ionic_strength,
            params=self._carbonate,
        )

    def ph_after(self, *, ph_start: float, acid_mmolc_l: float) -> float:
        """Bisection: the acid rises steadily as the target pH falls."""
        low, high = _LOWEST_PH, ph_start
        if self.acid_to_ph(ph_start=ph_start, ph_target=low) <= acid_mmolc_l:
            return low
        for _ in range(40):
            middle = 0.5 * (low + high)
            if self.acid_to_ph(ph_start=ph_start, ph_target=middle) > acid_mmolc_l:
                low = middle
            else:
                high = middle
        return 0.5 * (low + high)


def _alkalinity(*, alkalinity: float | None, hardness: float | None) -> float:
    if alkalinity is None:
        if hardness is not None:
            raise InputError(
                f"hardness {hardness:.0f} mg/L CaCO3 given where alkalinity is needed: "
                f"{_HARDNESS_IS_NOT_ALKALINITY}"
            )
        raise InputError(
            'give the alkalinity of the water, such as "180 mg/L CaCO3" or "220 mg/L HCO3"'
        )
    if not 0.0 <= alkalinity <= 1000.0:
        raise OutOfRangeError(
            f"alkalinity {alkalinity:g} mg/L CaCO3: waters run from 0 to about 500, and 1000 is "
            "the limit here; check the unit (mg/L as CaCO3, not hardness)"
        )
    return alkalinity


def _band(values: list[float]) -> Band:
    ordered = sorted(values)
    return Band(lo90=ordered[0], mid=ordered[1], hi90=ordered[2])


def _doses(acid: Band, ph_after: float) -> tuple[AcidDose, ...]:
    products = acid_products(IrrigationParameters(**parameter_values("irrigation")))
    doses = []
    for name in _PRODUCTS:
        product = products[name]
        protons = protons_released(product, ph_after)
        low, mid, high = (
            product_per_100_l(acid_mmolc_l=value, product=product, protons=protons)
            for value in (acid.lo90, acid.mid, acid.hi90)
        )
        adds, adds_mg_l = _nutrient(product, acid_mmolc_l=acid.mid, protons=protons)
        doses.append(
            AcidDose(
                product=name,
                unit=product.unit,
                amount=Band(lo90=low, mid=mid, hi90=high),
                adds=adds,
                adds_mg_l=adds_mg_l,
                remark=_remark(name, protons=protons, amount=mid),
            )
        )
    return tuple(doses)


def _nutrient(
    product: AcidProduct, *, acid_mmolc_l: float, protons: float
) -> tuple[str | None, float | None]:
    mmol_l = acid_mmolc_l / protons
    if product.name.startswith("sulfuric"):
        return "S", mmol_l * units.SULFUR_G_MOL
    if product.name.startswith("phosphoric"):
        return "P", mmol_l * _PHOSPHORUS_G_MOL
    if product.name.startswith("nitric"):
        return "N", mmol_l * units.NITROGEN_G_MOL
    return None, None


def _remark(name: str, *, protons: float, amount: float) -> Prose:
    given = message("water-remark-protons", protons=number(protons))
    if name.startswith("citric"):
        return prose(given, message("water-remark-citric"))
    if name.startswith("phosphoric"):
        most = load_parameters()["water_advice"]["phosphoric_75_most_ml_100l"].value
        if name.endswith("75 %") and amount > most:
            return prose(_too_much_phosphorus(most))
        return prose(given, message("water-remark-phosphorus"))
    if name.startswith("nitric"):
        return prose(message("water-remark-nitrogen"))
    return prose(message("water-remark-battery") if "35" in name else None)


def _too_much_phosphorus(most_ml_100l: float) -> Message:
    per_100_gal_l = most_ml_100l / 1000.0 * units.US_GALLON_L
    return message(
        "water-remark-phosphorus-most",
        most=number(most_ml_100l),
        most_us=Measure(Quantity.VOLUME, per_100_gal_l),
    )


def _comments(*, alkalinity: float, hardness: float | None, treated: bool) -> tuple[Message, ...]:
    advised = load_parameters()["water_advice"]["acid_often_advised_above"].value
    has = Measure(Quantity.ALKALINITY, alkalinity, against=advised)
    limit = Measure(Quantity.ALKALINITY, advised, against=alkalinity)
    lines = [
        message("water-below-advice", alkalinity=has, limit=limit)
        if alkalinity < advised
        else message("water-above-advice", alkalinity=has, limit=limit)
    ]
    if hardness is not None:
        lines.append(message("water-hardness-left-out"))
    if treated:
        lines += [
            message("water-only-stops"),
            message("water-open-tank"),
            message("water-rainwater"),
        ]
    return tuple(lines)


def _cautions() -> tuple[Caution, ...]:
    rule = load_cautions()["acid-handling"]
    return (
        Caution(
            code=rule.code,
            text=rule.text,
            source_key=rule.source_key,
            short=rule.short,
            handling=True,
        ),
    )
