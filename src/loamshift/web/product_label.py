"""The figures of a bag's label as the form of a product asks for them."""

from __future__ import annotations

import re
from collections.abc import Mapping

from django.utils.translation import gettext

Group = tuple[str, Mapping[str, str]]


def label_groups() -> tuple[Group, ...]:
    """Every figure of a label by its key, under the heading it has on a bag."""
    return (
        (
            gettext("Nitrogen (N)"),
            {
                "n_total_pct": gettext("total"),
                "n_ammonium_pct": gettext("ammoniacal"),
                "n_nitrate_pct": gettext("nitrate, nitric"),
                "n_urea_pct": gettext("urea, ureic"),
                "n_slow_pct": gettext("slow or organic"),
            },
        ),
        (
            gettext("Sulphur, iron and aluminium"),
            {
                "s_element_pct": gettext("S, elemental"),
                "s_sulfate_pct": gettext("S as sulphate"),
                "so3_pct": "SO3",
                "fe_sulfate_pct": gettext("Fe as sulphate"),
                "al_sulfate_pct": gettext("Al as sulphate"),
            },
        ),
        (
            gettext("Lime: neutralising value (NV)"),
            {
                "nv_as_caco3_pct": gettext("NV as CaCO3 (CCE)"),
                "nv_as_cao_pct": gettext("NV as CaO (UK bags)"),
                "filler_pct": gettext("inert filler"),
                "fineness": gettext("what passes which sieve"),
            },
        ),
        (
            gettext("Phosphate, potassium, calcium and magnesium"),
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


def in_form_words(text: str) -> str:
    """A message about a label with the names of the form's fields for the keys of the file."""
    named = {key: name for _, rows in label_groups() for key, name in rows.items()}
    return re.sub(r"[a-z][a-z0-9_]*_pct", lambda key: f"“{named.get(key[0], key[0])}”", text)
