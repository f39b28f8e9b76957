"""Which of pot and ground is better, in a few sentences."""

from __future__ import annotations

from collections.abc import Sequence

from loamshift.domain.answer import Decision, Reason
from loamshift.domain.message import Message, Prose, in_100, message, prose
from loamshift.domain.pot import PlantingPlace, PlantingWay
from loamshift.services.verdict.judgement import Judgement
from loamshift.tables.parameters import parameter_values


def which_is_better(judged: Judgement, ways: Sequence[PlantingWay]) -> Prose:
    """Whether either cannot work, and which keeps more plants in the range.

    Parameters
    ----------
    ways
        The ways compared, the ground first.
    """
    ground = ways[0]
    pots = {one.place: one for one in ways[1:]}
    tap = pots[PlantingPlace.POT]
    rain = pots.get(PlantingPlace.POT_WITH_RAINWATER)
    best = tap if rain is None else rain
    near = "yes" if judged.decision is Decision.LEAVE else "no"
    told = [] if ground.works else [_of_ground(judged)]
    if not best.works:
        key = "pot-ground-alone" if ground.works else "pot-neither"
        shares = {"pot": in_100(best.share), "ground": in_100(ground.share)}
        return prose(*told, message(key, near=near, **shares))
    water = "any" if rain is None else "better" if tap.works else "rain"
    shares = {"pot": in_100(best.share), "tap": in_100(tap.share), "ground": in_100(ground.share)}
    if not ground.works:
        return prose(*told, message("pot-alone", water=water, **shares))
    margin = parameter_values("pot")["clearly_better_frac"]
    gap = best.share - ground.share
    which = "pot" if gap >= margin else "ground" if gap <= -margin else "alike"
    return prose(message("pot-both", which=which, water=water, near=near, **shares))


def _of_ground(judged: Judgement) -> Message:
    causes = {Reason.FREE_LIME: "lime", Reason.WATER: "water"}
    cause = causes.get(judged.reason, "limits")
    return message("pot-no-ground", cause=cause)
