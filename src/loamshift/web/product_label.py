"""The figures of a bag's label as the form of a product asks for them."""

from __future__ import annotations

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
                "n_ammonium_pct": gettext("ammonium (ammoniacal)"),
                "n_nitrate_pct": gettext("nitrate (nitric)"),
                "n_urea_pct": gettext("urea (ureic)"),
                "n_slow_pct": gettext("slow or organic"),
            },
        ),
        (
            gettext("Sulphur, iron and aluminium"),
            {
                "s_element_pct": gettext("S, elemental or free"),
                "s_sulfate_pct": gettext("S, sulphate or combined"),
                "so3_pct": gettext("sulphate as SO3"),
                "fe_sulfate_pct": gettext("iron (Fe) as sulphate"),
                "al_sulfate_pct": gettext("aluminium (Al) as sulphate"),
            },
        ),
        (
            gettext("Lime"),
            {
                "nv_as_caco3_pct": gettext("neutralising value, as CaCO3 (CCE)"),
                "nv_as_cao_pct": gettext("neutralising value, as CaO (UK bags)"),
                "fineness": gettext("what passes which sieve"),
                "filler_pct": gettext("inert filler"),
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
