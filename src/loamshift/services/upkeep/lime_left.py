"""Free lime that a soil too acid to be held by it still has today."""

from __future__ import annotations

from loamshift.domain.bed_context import BedContext
from loamshift.services.context.build_context import require_soil
from loamshift.services.context.readings import season_readings
from loamshift.services.materials.free_lime import dissolved_in_a_year_frac

_YEAR_D = 365.25


def lime_left_frac(context: BedContext) -> float:
    """Share of the free lime believed that has not dissolved since the first reading weighed.

    Answers what of it the coming year can still dissolve: possible beds hold it from their first
    reading on, so a reading of some years ago tells of lime that has gone since.

    Returns
    -------
    float
        1 where lime holds the soil, or was found today [0-1].

    References
    ----------
    huang-2007, missouri-lime-2013, own-judgement
    """
    seasons = season_readings(context.case)
    since = (context.case.today - seasons[0].day).days if seasons else 0
    gone = dissolved_in_a_year_frac(ph_water=require_soil(context).ph.ph_water)
    return float((1.0 - gone) ** (max(since, 0) / _YEAR_D))
