"""What moved the scale of a soil's curve, what was doubted and what was left out, in sentences."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Final

from loamshift.domain.soil import ScaleMeasurement, UnusedFact, UnusedReason
from loamshift.services.context.laboratory_scale import ALUMINIUM_PATH, BUFFER_PATH, LIME_PATH

FACTS: Final[Mapping[str, str]] = {
    BUFFER_PATH: "buffer pH",
    "soil.buffer_ph_method": "buffer",
    LIME_PATH: "laboratory's lime figure",
    ALUMINIUM_PATH: "exchangeable aluminium",
    "soil.cec_cmolc_kg": "cation exchange capacity",
    "soil.base_saturation_pct": "base saturation",
    "titration": "jar titration",
}
"""What the facts are called after “the”."""


def unused_sentence(fact: UnusedFact) -> str:
    """Why a fact told nothing about how strongly the soil resists.

    Parameters
    ----------
    fact
        The fact and its reason [object].

    Returns
    -------
    str
        Sentences, with the figures that decided [text].
    """
    return _SENTENCES[fact.reason](fact)


def doubt_sentence(measured: ScaleMeasurement) -> str:
    """That a measurement lies far from what texture and organic matter say.

    Parameters
    ----------
    measured
        A doubtful measurement [object].

    Returns
    -------
    str
        Sentences [text].
    """
    times = 10.0**measured.log10_k_mean
    compared = f"{times:.1f} times" if times >= 1.0 else f"{100.0 * times:.0f} % of"
    return (
        f"Taken at its word, the {_called(measured.path)} says that this soil resists {compared} "
        "what its texture and organic matter suggest. That is hard to believe, so it counts for "
        "less than usual; check the figure, its unit and its method."
    )


def _called(path: str) -> str:
    return FACTS[path]


def _named(fact: UnusedFact) -> str:
    name = _called(fact.path)
    return f"{name} ({fact.method})" if fact.method else name


def _limit(fact: UnusedFact) -> str:
    return "" if fact.limit is None else f"{fact.limit:.1f}"


def _no_equation(fact: UnusedFact) -> str:
    return (
        f"The {_named(fact)} is not used: no source for the equation of this method was found. "
        "The laboratory's own lime figure can be used instead."
    )


def _not_acid(fact: UnusedFact) -> str:
    return (
        f"The {_named(fact)} is not used: it speaks of the way up to pH {_limit(fact)}, and the "
        "soil is there already."
    )


def _no_acidity(fact: UnusedFact) -> str:
    return (
        f"The {_named(fact)} of {fact.value:g} is not used: the equation of this method finds no "
        "acidity at that reading. It fits a soil that needs little lime, such as a poor sand."
    )


def _above_sense(fact: UnusedFact) -> str:
    return (
        f"The {_named(fact)} of {fact.value:g} is not used: this buffer reads {_limit(fact)} "
        "without any soil, and no acid soil can raise it. Check the figure and the name of the "
        "buffer."
    )


def _below_sense(fact: UnusedFact) -> str:
    return (
        f"The {_named(fact)} of {fact.value:g} is not used: this buffer hardly falls below "
        f"{_limit(fact)} in any soil. Check the figure and the name of the buffer."
    )


def _like_soil_ph(fact: UnusedFact) -> str:
    return (
        f"The {_named(fact)} of {fact.value:g} is not used: it is no higher than the soil's own "
        f"pH of {_limit(fact)}, which a buffer cannot read. It may be the soil pH itself."
    )


def _no_reading(fact: UnusedFact) -> str:
    return f"The {_named(fact)} is named, but its pH is not given."


def _same_report(fact: UnusedFact) -> str:
    return (
        f"The {_named(fact)} is not counted a second time: it stands in the same report as the "
        "figure that is used, and one is worked out from the other."
    )


def _nothing_found(fact: UnusedFact) -> str:
    return f"The {_named(fact)} is nothing, and so says little about how strongly the soil resists."


def _organic_medium(fact: UnusedFact) -> str:
    return (
        f"The {_named(fact)} is not used: it is made for mineral soil, and a peat or bark mix "
        "behaves differently. A jar titration of the mix itself can be used."
    )


def _needs_companion(fact: UnusedFact) -> str:
    return (
        f"The {_named(fact)} is not used: exchange capacity and base saturation help only "
        "together, beside a measured clay and organic matter content."
    )


_SENTENCES: Final[Mapping[UnusedReason, Callable[[UnusedFact], str]]] = {
    UnusedReason.NO_EQUATION: _no_equation,
    UnusedReason.NOT_ACID: _not_acid,
    UnusedReason.NO_ACIDITY: _no_acidity,
    UnusedReason.ABOVE_SENSE: _above_sense,
    UnusedReason.BELOW_SENSE: _below_sense,
    UnusedReason.LIKE_SOIL_PH: _like_soil_ph,
    UnusedReason.NO_READING: _no_reading,
    UnusedReason.SAME_REPORT: _same_report,
    UnusedReason.NOTHING_FOUND: _nothing_found,
    UnusedReason.ORGANIC_MEDIUM: _organic_medium,
    UnusedReason.NEEDS_COMPANION: _needs_companion,
}
