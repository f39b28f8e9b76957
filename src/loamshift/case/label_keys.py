"""The figures a bag's label may have, and what bags call them."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Final

from loamshift.domain.message import Message, choice, message


@dataclass(frozen=True, slots=True)
class LabelKey:
    """A figure of a label: its key, and the largest value that a product can have [%]."""

    key: str
    most_pct: float = field(kw_only=True)

    @property
    def meaning(self) -> Message:
        """What it is."""
        return label_meaning(self.key)

    @property
    def on_bags(self) -> Message:
        """What a bag calls it."""
        return label_on_bags(self.key)


def label_meaning(key: str) -> Message:
    """What a figure of a label, or its fineness, is."""
    return message(f"label-means-{choice(key)}")


def label_on_bags(key: str) -> Message:
    """What bags call a figure of a label, or its fineness."""
    return message(f"label-on-bags-{choice(key)}")


LABEL_KEYS: Final = (
    LabelKey("n_total_pct", most_pct=100.0),
    LabelKey("n_nitrate_pct", most_pct=100.0),
    LabelKey("n_ammonium_pct", most_pct=100.0),
    LabelKey("n_urea_pct", most_pct=100.0),
    LabelKey("n_slow_pct", most_pct=100.0),
    LabelKey("p2o5_pct", most_pct=100.0),
    LabelKey("p_pct", most_pct=45.0),
    LabelKey("k2o_pct", most_pct=100.0),
    LabelKey("k_pct", most_pct=85.0),
    LabelKey("cao_pct", most_pct=100.0),
    LabelKey("ca_pct", most_pct=75.0),
    LabelKey("mgo_pct", most_pct=100.0),
    LabelKey("mg_pct", most_pct=62.0),
    LabelKey("s_element_pct", most_pct=100.0),
    LabelKey("s_sulfate_pct", most_pct=34.0),
    LabelKey("so3_pct", most_pct=82.0),
    LabelKey("fe_sulfate_pct", most_pct=37.0),
    LabelKey("al_sulfate_pct", most_pct=16.0),
    LabelKey("nv_as_caco3_pct", most_pct=250.0),
    LabelKey("nv_as_cao_pct", most_pct=140.0),
    LabelKey("filler_pct", most_pct=100.0),
)
"""Every figure a label may have, in the order of a bag."""
FINENESS: Final = "fineness"
FINENESS_EXAMPLE: Final = '"40 % through 150 um, 95 % through 5 mm"'
