"""What an irrigation water does to a soil, and what acid does to the water."""

from __future__ import annotations

import re
from dataclasses import dataclass

from loamshift.domain.answer import Band, Caution
from loamshift.domain.message import Measure, Message, Prose, Quantity, message


@dataclass(frozen=True, slots=True, kw_only=True)
class AcidDose:
    """One acid product for 100 litres of water, and the nutrient it leaves there.

    ``amount`` per 100 L in ``unit`` (mL, or g where the product is dry);
    ``adds_mg_l`` of ``adds`` (``S``, ``P``, ``N``) in the treated water [mg/L], None for citric.
    """

    product: str
    unit: str
    amount: Band
    adds: str | None
    adds_mg_l: float | None
    remark: Prose

    @property
    def called(self) -> Message:
        """What the product is called in a sentence."""
        return message(f"water-acid-{re.sub(r'[^a-z0-9]+', '-', self.product).strip('-')}")

    @property
    def said(self) -> Message:
        """Its amount, to be measured out."""
        if self.unit == "g":
            exact, size = Quantity.GRAMS, Quantity.AMOUNT
        else:
            exact, size = Quantity.ML, Quantity.VOLUME
        return message("water-dose", amount=_measure(self, size), exact=_measure(self, exact))


@dataclass(frozen=True, slots=True, kw_only=True)
class WaterTreatment:
    """One water: the lime it brings, the acid that takes it out, and what is left.

    Alkalinities [mg/L as CaCO3]; ``acid_mmolc_l`` to add [mmolc/L]; ``ph_after`` in a closed
    line [pH]; ``lime_*`` as CaCO3 [g/m2/yr]; ``sulfur_as_s_g_m2_year`` that would balance the
    untreated water [g/m2/yr]. ``None`` where the yearly depth is not known, or the water needs
    no acid.
    """

    alkalinity_mg_l_as_caco3: float
    alkalinity_left_mg_l_as_caco3: Band
    target: Message
    """What was aimed at."""
    aims_at_ph: bool
    ph_start: float
    ph_start_assumed: bool
    ph_after: Band | None
    acid_mmolc_l: Band
    products: tuple[AcidDose, ...]
    water_mm_year: float | None
    lime_g_m2_year: float | None
    lime_left_g_m2_year: float | None
    sulfur_as_s_g_m2_year: float | None
    comments: tuple[Message, ...]
    cautions: tuple[Caution, ...]
    source_keys: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class TankFill:
    """Acid for one tank of a water.

    ``doses`` hold amounts per tank, not per 100 L: all of them, or the one acid that was chosen;
    ``stock_per_l`` is what a litre of stock holds of the chosen acid for an injector that gives
    one part of stock to ``injector_parts`` parts of water [mL/L or g/L], None where none was
    chosen. ``steps`` in the order they are done; ``never`` what must not be done.
    """

    tank_l: float
    doses: tuple[AcidDose, ...]
    chosen: AcidDose | None
    injector_parts: float
    stock_per_l: Band | None
    steps: tuple[Message, ...]
    check: tuple[Message, ...]
    never: tuple[Message, ...]


def _measure(dose: AcidDose, kind: Quantity) -> Measure:
    """The amount of a dose in a unit of that kind, as a range."""
    factor = 0.001 if kind is Quantity.VOLUME else 1.0  # mL to L
    return Measure(kind, dose.amount.lo90 * factor, dose.amount.hi90 * factor)
