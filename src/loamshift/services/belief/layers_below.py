"""What is believed of the layers below the sample: their pH, and the free lime in them."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from loamshift.domain.bed_context import BedContext
from loamshift.domain.case import LayerEntry
from loamshift.domain.ph import PhReading
from loamshift.services.belief.member_parameters import carbonate_quantile_pct
from loamshift.services.context.readings import ph_belief
from loamshift.tables.soils import carbonate_belief


@dataclass(frozen=True, slots=True, kw_only=True)
class LayerBelow:
    """A layer as the column starts it: ``top_cm`` to ``bottom_cm`` [cm], ``ph_water`` [pH],
    ``carbonate_pct`` the best estimate of its free lime [% CaCO3].
    """

    top_cm: float
    bottom_cm: float
    ph_water: float
    carbonate_pct: float


def layers_below(context: BedContext) -> tuple[LayerBelow, ...]:
    """The layers that the case tells of, the uppermost first; none below a pot.

    Notes
    -----
    A layer has one best estimate of its free lime, the middle of what its fizz and its pH allow,
    where the sample has a spread: nobody doses a subsoil.

    References
    ----------
    own-judgement
    """
    if context.in_pot:
        return ()
    return tuple(_believed(layer) for layer in context.case.soil.layers)


def _believed(layer: LayerEntry) -> LayerBelow:
    ph_water = ph_belief(PhReading(ph=layer.ph, method=layer.method)).ph_water
    lime = layer.carbonate_pct
    if lime is None:
        belief = carbonate_belief(layer.fizz, layer.fizz_acid, ph_water)
        lime = float(carbonate_quantile_pct(belief, np.zeros(1))[0])
    return LayerBelow(
        top_cm=layer.top_cm, bottom_cm=layer.bottom_cm, ph_water=ph_water, carbonate_pct=lime
    )
