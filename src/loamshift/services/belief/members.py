"""The members of the column, and what the width of a forecast can come from."""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

from loamshift.core.background import load_at_scale
from loamshift.core.column_layout import MEMBER_FIELDS, MemberParameters
from loamshift.tables.model import ledger_parameters

FloatArray = NDArray[np.float64]


class Cause(StrEnum):
    """What the width of a forecast can come from; the messages ``cause-…`` say each."""

    SULFUR = "sulfur"
    NITROGEN = "nitrogen"
    LIME = "lime"
    CARBONATE = "free-lime"
    LEACHING = "leaching"
    SALTS = "salts"
    BUFFERING = "buffering"
    FIRST_READING = "first-reading"
    NEXT_READING = "next-reading"
    SOIL_MASS = "soil-mass"
    WETNESS = "wetness"
    ALKALINITY = "alkalinity"
    HUMUS = "humus"


@dataclass(frozen=True, slots=True)
class Members:
    """The members drawn: for the column, and by name for the question where width comes from.

    ``draws`` holds one column for each of ``causes``, shape (n_members, n_drawn); ``reading_z`` is
    the error of one further reading in standard deviations, shape (n_members,).
    """

    parameters: MemberParameters
    causes: tuple[Cause, ...]
    draws: FloatArray
    reading_z: FloatArray

    def rows(self, index: NDArray[np.int64]) -> Members:
        """Some of the members, in this order, with repeats.

        Parameters
        ----------
        index
            Which, shape (n,) [index].
        """
        return Members(
            parameters_of(self.parameters, index),
            self.causes,
            self.draws[index],
            self.reading_z[index],
        )


def at_scale(parameters: MemberParameters, log10_k: FloatArray) -> MemberParameters:
    """The members at other values of the buffer scale, their loads going with it.

    Parameters
    ----------
    log10_k
        The scale each is to have, shape (n_members,) [log10].
    """
    load = load_at_scale(
        parameters.background_mmolc_m2_year,
        log10_k=log10_k,
        log10_k_usual=parameters.log10_k,
        params=ledger_parameters(),
    )
    return replace(parameters, log10_k=log10_k, background_mmolc_m2_year=load)


def parameters_of(parameters: MemberParameters, index: NDArray[np.int64]) -> MemberParameters:
    """The parameters of some of the members.

    Parameters
    ----------
    index
        Which of them, in this order, with repeats, shape (n,) [index].
    """
    return MemberParameters(**{name: getattr(parameters, name)[index] for name in MEMBER_FIELDS})
