"""The figures of a bag's label as the form of a product asks for them."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from typing import Final

from loamshift.domain.message import Given, Message, Prose, Value, message
from loamshift.domain.worded_error import WordedFault
from loamshift.errors import Fault
from loamshift.report.messages import say
from loamshift.report.words import Words

Name = Message | str
"""What a figure is called: a message, or the sign of the element, the same in every language."""
LABEL_GROUPS: Final[tuple[tuple[Message, Mapping[str, Name]], ...]] = (
    (
        message("products-label-nitrogen"),
        {
            "n_total_pct": message("products-label-n-total"),
            "n_ammonium_pct": message("products-label-n-ammonium"),
            "n_nitrate_pct": message("products-label-n-nitrate"),
            "n_urea_pct": message("products-label-n-urea"),
            "n_slow_pct": message("products-label-n-slow"),
        },
    ),
    (
        message("products-label-sulfur"),
        {
            "s_element_pct": message("products-label-s-element"),
            "s_sulfate_pct": message("products-label-s-sulfate"),
            "so3_pct": "SO3",
            "fe_sulfate_pct": message("products-label-fe-sulfate"),
            "al_sulfate_pct": message("products-label-al-sulfate"),
        },
    ),
    (
        message("products-label-lime"),
        {
            "nv_as_caco3_pct": message("products-label-nv-caco3"),
            "nv_as_cao_pct": message("products-label-nv-cao"),
            "filler_pct": message("products-label-filler"),
            "fineness": message("products-label-fineness"),
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
"""Every figure of a label by its key, under the heading it has on a bag."""
_KEY: Final = re.compile(r"[a-z][a-z0-9_]*_pct")


def in_form_words(found: Fault) -> Fault:
    """A fault of a label with the names of the form's fields for the keys of the file.

    Parameters
    ----------
    found
        The fault, as the case file has it [object].

    Returns
    -------
    Fault
        The same for a page [object].
    """
    if isinstance(found, WordedFault) and found.said:
        sentences = tuple(_renamed(one) for one in found.said.sentences)
        return replace(found, said=Prose(sentences))
    return replace(found, problem=_in_form(found.problem), mend=_in_form(found.mend))


def _renamed(said: Message) -> Message:
    values: dict[str, Value] = {
        name: Given(_in_form(value.text))
        if isinstance(value, Given)
        else _renamed(value)
        if isinstance(value, Message)
        else value
        for name, value in said.values.items()
    }
    return message(said.key, **values)


def _in_form(text: str) -> str:
    named = {key: say(name, Words()) for _, rows in LABEL_GROUPS for key, name in rows.items()}
    return _KEY.sub(lambda key: f"“{named.get(key[0], key[0])}”", text)
