"""What must agree between the figures of a bag's label, and what an analysis cannot leave open."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from typing import Final

from loamshift.case.mend import Mend, plain_figure
from loamshift.core.bag_label import least_weight_frac, unplaced_molc_kg
from loamshift.domain.label import Label
from loamshift.domain.material import Material, MaterialGroup
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
        The analysis, each figure possible by itself [object].
    wrong
        Keys that were given and could not be read: what rests on all figures is not checked then.

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
        yield "", Mend("a label without a figure", "Copy what the bag prints under its name.")
        return
    yield from _given_twice(label)
    yield from _nitrogen(label)
    if label.fineness and not (said.get("s_element_pct") or label_shares(label).get("nv_as_caco3")):
        yield (
            "fineness",
            Mend(
                "a fineness without sulfur or lime",
                "Only grains of sulfur and lime matter; give s_element_pct or the neutralising "
                "value as well, or leave it out.",
            ),
        )
    if min(said.get("s_element_pct", 0.0), said.get("n_nitrate_pct", 0.0)) >= _OXIDIZER_PCT:
        yield (
            "s_element_pct",
            Mend(
                "elemental sulfur and nitrate in one bag would burn",
                "No maker mixes them: sulfur beside nitrate is s_sulfate_pct.",
            ),
        )
    weight = least_weight_frac(label_shares(label))
    if 100.0 * weight > 100.0 + _ROUNDED_PCT:
        yield (
            "",
            Mend(
                f"these figures need at least {plain_figure(100.0 * weight)} % of the bag",
                "Each stands for a compound (21 % of ammonium nitrogen and 24 % of sulfate sulfur "
                "are 99 % ammonium sulfate); check which was miscopied.",
            ),
        )
    elif unplaced_molc_kg(label_ions(label)) > _UNPLACED_MOLC_KG and not _has_value(label):
        yield next(key for key in ("cao_pct", "ca_pct", "mgo_pct", "mg_pct") if key in said), _earth


def kind_faults(label: Label, kind: Material) -> Found:
    """What a label leaves open that decides how this kind of product acts.

    Parameters
    ----------
    label
        The analysis [object].
    kind
        The shipped material it is said to be [object].

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
                "a label has no figure for a free acid",
                f"Leave the label out and give purity_pct for the {kind.key}.",
            ),
        )
    elif kind.group is MaterialGroup.SULFUR and not said.get("s_element_pct"):
        yield "", Mend("sulfur without its strength", "Give s_element_pct, such as 90.")
    elif kind.group is MaterialGroup.ACID_SALT and not (
        said.get("fe_sulfate_pct") or said.get("al_sulfate_pct")
    ):
        key = "al_sulfate_pct" if "aluminium" in kind.cautions else "fe_sulfate_pct"
        yield (
            "",
            Mend(
                "its metal makes the acid, and is not given", f"Give {key}, as the bag prints it."
            ),
        )
    elif kind.group is MaterialGroup.LIME and not shares.get("nv_as_caco3"):
        yield "", Mend("lime without its neutralising value", _VALUE)
    elif kind.group is MaterialGroup.NITROGEN and not any(said.get(form) for form in _FORMS):
        yield "", Mend("a feed without the forms of its nitrogen", _LOOK_BELOW)


_LOOK_BELOW: Final = (
    "Look below total nitrogen for ammonium (ammoniacal), nitrate (nitric), urea (ureic) and slow; "
    "ask the maker where the bag has no such lines."
)
_VALUE: Final = "Give nv_as_cao_pct (bags of the UK and Ireland) or nv_as_caco3_pct (all others)."
_earth: Final = Mend(
    "calcium or magnesium, and not whether it is lime",
    "Give the neutralising value. Where the bag has none: nv_as_caco3_pct = 0 for gypsum, chloride "
    "and other salts, nv_as_cao_pct = the CaO for limestone in a feed.",
)


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
                    f"it means {element} = {plain_figure(by_oxide)}, and {plain_figure(given)} is "
                    "given",
                    "Keep one of the two.",
                ),
            )


def _nitrogen(label: Label) -> Found:
    total = label.n_total_pct
    if total is None:
        return
    forms = sum(label.said.get(form, 0.0) for form in _FORMS)
    if forms == 0.0 and total > 0.0:
        yield "n_total_pct", Mend("the form of the nitrogen is not said", _LOOK_BELOW)
    elif forms > total + _N_ROUNDED_PCT:
        yield (
            "n_total_pct",
            Mend(
                f"the forms add up to {plain_figure(forms)} %, more than the total",
                "Check which was miscopied.",
            ),
        )
    elif forms < total - _N_ROUNDED_PCT:
        yield (
            "n_total_pct",
            Mend(
                f"{plain_figure(total - forms)} % of nitrogen has no form",
                f"{_LOOK_BELOW} Other nitrogen that does not dissolve is n_slow_pct.",
            ),
        )
