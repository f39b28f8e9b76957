"""The figures of a bag's label as the form of a product asks for them."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Final

from loamshift.domain.label import Label
from loamshift.domain.message import Given, Message, message, percent
from loamshift.domain.worded_error import fault
from loamshift.errors import Fault
from loamshift.report.messages import say
from loamshift.report.messages.refusal import fault_text
from loamshift.report.words import Words
from loamshift.services.materials.labelled import label_shares
from loamshift.web.forms import worded_text

LABEL_GROUPS: Final[tuple[tuple[Message, Mapping[str, str]], ...]] = (
    (
        message("products-label-nitrogen"),
        {
            "n_total_pct": "products-label-n-total",
            "n_ammonium_pct": "products-label-n-ammonium",
            "n_nitrate_pct": "products-label-n-nitrate",
            "n_urea_pct": "products-label-n-urea",
            "n_slow_pct": "products-label-n-slow",
        },
    ),
    (
        message("products-label-sulfur"),
        {
            "s_element_pct": "products-label-s-element",
            "s_sulfate_pct": "products-label-s-sulfate",
            "so3_pct": "SO3",
            "fe_sulfate_pct": "products-label-fe-sulfate",
            "al_sulfate_pct": "products-label-al-sulfate",
        },
    ),
    (
        message("products-label-lime"),
        {
            "nv_as_caco3_pct": "products-label-nv-caco3",
            "nv_as_cao_pct": "products-label-nv-cao",
            "filler_pct": "products-label-filler",
            "fineness": "products-label-fineness",
        },
    ),
    (
        message("products-label-minerals"),
        {
            "p2o5_pct": "P2O5",
            "p_pct": "P",
            "k2o_pct": "K2O",
            "k_pct": "K",
            "cao_pct": "CaO",
            "ca_pct": "Ca",
            "mgo_pct": "MgO",
            "mg_pct": "Mg",
        },
    ),
)
"""Every figure of a label by its key, under the heading it has on a bag; each is called by a
message, or by the sign of the element, the same in every language.
"""
_STRENGTHS: Final[Mapping[str, str]] = {
    "s_element": "products-strength-sulfur",
    "n_ammonium": "products-strength-ammonium",
    "n_urea": "products-strength-urea",
    "n_nitrate": "products-strength-nitrate",
    "n_slow": "products-strength-slow",
    "fe_sulfate": "products-strength-iron",
    "al_sulfate": "products-strength-aluminium",
    "nv_as_caco3": "products-strength-lime",
}
"""What acts on the pH in a label, by the message that says how much."""
_KEY: Final = re.compile(r"[a-z][a-z0-9_]*_pct")
_TABLE: Final = re.compile(r"\{ (.*?) \}")


def in_form_words(found: Fault, words: Words) -> Fault:
    """A fault of a product with the names of the form's fields for the keys of the file."""
    text = _TABLE.sub(r"\1", fault_text(found, words))
    named = {key: name for _, rows in LABEL_GROUPS for key, name in rows.items()}
    named["purity_pct"] = "products-purity"
    text = _KEY.sub(
        lambda key: f"“{worded_text(named[key[0]], words)}”" if key[0] in named else key[0], text
    )
    return fault(found.path, message("verbatim", text=Given(text)), given=found.given)


def strength_said(label: Label, words: Words) -> str:
    """What acts on the pH in a product, as its label has it.

    Returns
    -------
    str
        Such as ``24% ammonium N, 6% S``; empty where nothing acts.
    """
    shares = label_shares(label)
    acting = [
        say(message(key, share=percent(100.0 * shares[name])), words)
        for name, key in _STRENGTHS.items()
        if shares.get(name)
    ]
    return ", ".join(acting)
