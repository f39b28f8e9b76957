"""What must agree between the figures of a bag's label, and what an analysis cannot leave open."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from typing import Final

from loamshift.case.mend import Mend, plain_figure
from loamshift.core.bag_label import least_weight_frac, unplaced_molc_kg
from loamshift.domain.label import Label
from loamshift.domain.material import Material, MaterialGroup
from loamshift.domain.message import Given, Product, message, percent
from loamshift.services.materials.labelled import label_ions, label_shares

_FORMS: Final = ("n_nitrate_pct", "n_ammonium_pct", "n_urea_pct", "n_slow_pct")
_ROUNDED_PCT: Final = 1.0
"""Figures of a bag are rounded and guaranteed from below: so much over 100 is no error."""
_N_ROUNDED_PCT: Final = 0.3
_UNPLACED_MOLC_KG: Final = 2.0
"""About 4 % of calcium: less of it is not worth a question."""
_OXIDIZER_PCT: Final = 5.0
_TWICE: Final = (
    ("so3_pct", "s_sulfate_pct"),
    ("p2o5_pct", "p_pct"),
    ("k2o_pct", "k_pct"),
    ("cao_pct", "ca_pct"),
    ("mgo_pct", "mg_pct"),
    ("nv_as_cao_pct", "nv_as_caco3_pct"),
)
_SAME: Final = 0.06
"""Two figures for one thing may differ by this much through rounding [0-1]."""

Found = Iterator[tuple[str, Mend]]


def label_faults(label: Label, *, wrong: Collection[str] = ()) -> Found:
    """What is wrong with an analysis as a whole.

    Parameters
    ----------
    label
        The analysis, each figure possible by itself.

    Yields
    ------
    tuple of str and Mend
        Key, empty where it is the whole label, and what to do.
    """
    said = label.said
    if wrong:
        yield from _given_twice(label)
        if not any(key.startswith("n_") or key == "n" for key in wrong):
            yield from _nitrogen(label)
        return
    if not any(said.values()) and "nv_as_caco3_pct" not in said:
        yield "", Mend(message("case-label-empty"), message("case-label-copy"))
        return
    yield from _given_twice(label)
    yield from _nitrogen(label)
    if label.fineness and not (said.get("s_element_pct") or label_shares(label).get("nv_as_caco3")):
        yield (
            "fineness",
            Mend(message("case-fineness-alone"), message("case-fineness-of-what")),
        )
    if min(said.get("s_element_pct", 0.0), said.get("n_nitrate_pct", 0.0)) >= _OXIDIZER_PCT:
        yield (
            "s_element_pct",
            Mend(message("case-label-would-burn"), message("case-label-sulfate-beside-nitrate")),
        )
    weight = least_weight_frac(label_shares(label))
    if 100.0 * weight > 100.0 + _ROUNDED_PCT:
        yield (
            "",
            Mend(
                message("case-label-over-100", weight=percent(100.0 * weight)),
                message("case-label-compounds"),
            ),
        )
    elif unplaced_molc_kg(label_ions(label)) > _UNPLACED_MOLC_KG and not _has_value(label):
        yield next(key for key in ("cao_pct", "ca_pct", "mgo_pct", "mg_pct") if key in said), _EARTH


def kind_faults(label: Label, kind: Material) -> Found:
    """What a label leaves open that decides how this kind of product acts.

    Yields
    ------
    tuple of str and Mend
        Key, empty where it is the whole label, and what to do.
    """
    said, shares = label.said, label_shares(label)
    if kind.group is MaterialGroup.ACID:
        yield (
            "",
            Mend(
                message("case-label-free-acid"),
                message("case-label-purity", product=Product(kind.key)),
            ),
        )
    elif kind.group is MaterialGroup.SULFUR and not said.get("s_element_pct"):
        yield (
            "",
            Mend(
                message("case-label-sulfur-strength"),
                message("case-label-add", line=Given("s_element_pct = 90")),
            ),
        )
    elif kind.group is MaterialGroup.ACID_SALT and not (
        said.get("fe_sulfate_pct") or said.get("al_sulfate_pct")
    ):
        key = "al_sulfate_pct" if "aluminium" in kind.cautions else "fe_sulfate_pct"
        yield (
            "",
            Mend(message("case-label-metal"), message("case-label-give", name=Given(key))),
        )
    elif kind.group is MaterialGroup.LIME and not shares.get("nv_as_caco3"):
        yield "", Mend(message("case-label-lime-value"), message("case-label-value"))
    elif kind.group is MaterialGroup.NITROGEN and not any(said.get(form) for form in _FORMS):
        yield "", Mend(message("case-label-forms"), message("case-label-look-below"))


_EARTH: Final = Mend(message("case-label-earth"), message("case-label-earth-value"))


def _has_value(label: Label) -> bool:
    return label.nv_as_caco3_pct is not None or label.nv_as_cao_pct is not None


def _given_twice(label: Label) -> Found:
    for oxide, element in _TWICE:
        if getattr(label, oxide) is None or getattr(label, element) is None:
            continue
        alone = Label(**{oxide: getattr(label, oxide)})
        ((_, by_oxide),) = (
            (key, 100.0 * value)
            for key, value in label_shares(alone).items()
            if f"{key}_pct" != oxide
        )
        given = getattr(label, element)
        if abs(by_oxide - given) > _SAME * max(by_oxide, given):
            yield (
                oxide,
                Mend(
                    message(
                        "case-label-two-figures",
                        name=Given(element),
                        meant=Given(plain_figure(by_oxide)),
                        given=Given(plain_figure(given)),
                    ),
                    message("case-keep-one"),
                ),
            )


def _nitrogen(label: Label) -> Found:
    total = label.n_total_pct
    if total is None:
        return
    forms = sum(label.said.get(form, 0.0) for form in _FORMS)
    if forms == 0.0 and total > 0.0:
        yield (
            "n_total_pct",
            Mend(
                message("case-label-form-open", what="nitrogen"), message("case-label-look-below")
            ),
        )
    elif forms > total + _N_ROUNDED_PCT:
        yield (
            "n_total_pct",
            Mend(
                message("case-label-forms-over-total", sum=percent(forms)),
                message("case-label-miscopied"),
            ),
        )
    elif forms < total - _N_ROUNDED_PCT:
        yield (
            "n_total_pct",
            Mend(
                message("case-label-nitrogen-left", rest=percent(total - forms)),
                message("case-label-look-below"),
                message("case-label-slow"),
            ),
        )
