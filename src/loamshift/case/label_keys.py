"""The figures a bag's label may have, and what bags call them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelKey:
    """A figure of a label: its key, its largest value [%], and what a bag calls it."""

    key: str
    most_pct: float
    meaning: str
    on_bags: str


LABEL_KEYS: Final = (
    LabelKey(
        key="n_total_pct",
        most_pct=100.0,
        meaning="Nitrogen in all; only a check on the forms, which decide.",
        on_bags="total nitrogen (N)",
    ),
    LabelKey(
        key="n_nitrate_pct",
        most_pct=100.0,
        meaning="Nitrogen as nitrate.",
        on_bags="nitric nitrogen; nitrate nitrogen",
    ),
    LabelKey(
        key="n_ammonium_pct",
        most_pct=100.0,
        meaning="Nitrogen as ammonium.",
        on_bags="ammoniacal nitrogen",
    ),
    LabelKey(
        key="n_urea_pct",
        most_pct=100.0,
        meaning="Nitrogen as urea, coated urea included.",
        on_bags="ureic nitrogen; urea nitrogen",
    ),
    LabelKey(
        key="n_slow_pct",
        most_pct=100.0,
        meaning="Nitrogen that is set free slowly: organic, urea aldehyde, water insoluble.",
        on_bags="organic nitrogen; water insoluble nitrogen; urea formaldehyde",
    ),
    LabelKey(
        key="p2o5_pct",
        most_pct=100.0,
        meaning="Phosphate as P2O5.",
        on_bags="phosphorus pentoxide; available phosphate",
    ),
    LabelKey(
        key="p_pct",
        most_pct=45.0,
        meaning="Phosphate as the element.",
        on_bags="phosphorus (P)",
    ),
    LabelKey(
        key="k2o_pct",
        most_pct=100.0,
        meaning="Potassium as K2O.",
        on_bags="potassium oxide; soluble potash",
    ),
    LabelKey(
        key="k_pct",
        most_pct=85.0,
        meaning="Potassium as the element.",
        on_bags="potassium (K)",
    ),
    LabelKey(
        key="cao_pct",
        most_pct=100.0,
        meaning="Calcium as CaO; lime only if there is a neutralising value.",
        on_bags="calcium oxide (CaO)",
    ),
    LabelKey(
        key="ca_pct",
        most_pct=75.0,
        meaning="Calcium as the element.",
        on_bags="calcium (Ca)",
    ),
    LabelKey(
        key="mgo_pct",
        most_pct=100.0,
        meaning="Magnesium as MgO; lime only if there is a neutralising value.",
        on_bags="magnesium oxide (MgO)",
    ),
    LabelKey(
        key="mg_pct",
        most_pct=62.0,
        meaning="Magnesium as the element.",
        on_bags="magnesium (Mg)",
    ),
    LabelKey(
        key="s_element_pct",
        most_pct=100.0,
        meaning="Sulfur as such, which turns to acid.",
        on_bags="elemental sulfur; free sulfur (S)",
    ),
    LabelKey(
        key="s_sulfate_pct",
        most_pct=34.0,
        meaning="Sulfur as sulfate, which brings no acid of its own.",
        on_bags="combined sulfur (S); sulfate sulfur",
    ),
    LabelKey(
        key="so3_pct",
        most_pct=82.0,
        meaning="Sulfate as SO3.",
        on_bags="sulfur trioxide (SO3)",
    ),
    LabelKey(
        key="fe_sulfate_pct",
        most_pct=37.0,
        meaning="Iron that is iron sulfate, which turns to acid; a chelate does not count.",
        on_bags="iron (Fe)",
    ),
    LabelKey(
        key="al_sulfate_pct",
        most_pct=16.0,
        meaning="Aluminium that is aluminium sulfate, which turns to acid.",
        on_bags="aluminium (Al)",
    ),
    LabelKey(
        key="nv_as_caco3_pct",
        most_pct=250.0,
        meaning="Neutralising value, pure calcium carbonate being 100.",
        on_bags="calcium carbonate equivalent (CCE); neutralizing value",
    ),
    LabelKey(
        key="nv_as_cao_pct",
        most_pct=140.0,
        meaning="Neutralising value as CaO, pure calcium carbonate being 56.",
        on_bags="neutralising value (NV) on bags of the UK and Ireland",
    ),
    LabelKey(
        key="filler_pct",
        most_pct=100.0,
        meaning="Clay, sand or coating that does nothing.",
        on_bags="inert filler; bentonite",
    ),
)
"""Every figure a label may have, in the order of a bag."""
FINENESS: Final = "fineness"
FINENESS_MEANING: Final = "What passes which sieve, of lime or sulfur."
FINENESS_EXAMPLE: Final = '"40 % through 150 um, 95 % through 5 mm"'
