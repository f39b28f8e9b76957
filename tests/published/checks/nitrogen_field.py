"""Acid of nitrogen beside handbooks, pots and fields: what agrees, and what differs and why."""

from __future__ import annotations

from math import log
from statistics import mean

from loamshift.core.acidity import NITROGEN_MOL_KG
from loamshift.core.ledger import feed_acid_mmolc_m2
from loamshift.tables.model import ledger_parameters
from published.check import Check, Kind
from published.checks.carbonate import rows

TOPIC = "acid of nitrogen"
HANDBOOK = "Alabama A&M and Auburn Universities, Nutrient content of fertilizer materials ANR-174"
POTS = "abstract: three soils, wheat and maize in a greenhouse, scilit ab19c5c7"
SOLONETZ = "abstract: solonetz, 112 kg N/ha a year for ten years, J. Environ. Sci. Health B"
GRASS = "abstract: grass in Iceland, 43 years"
FORMS = {
    "ammonium sulfate": (1.0, 0.0, 0.0),
    "urea": (0.0, 1.0, 0.0),
    "ammonium nitrate": (0.5, 0.0, 0.5),
    "sodium nitrate": (0.0, 0.0, 1.0),
}
PRINTED_KG_CACO3_PER_KG_N = {
    "ammonium sulfate": 5.24,
    "urea": 1.80,
    "ammonium nitrate": 1.79,
    "sodium nitrate": -1.81,
}
KG_CACO3_PER_MOL = 0.050045
PLOUGHED_KG_M2 = 299.0
"""23 cm at 1.3 g/cm3."""
CALCIUM_MG_PER_MMOLC = 20.04
N_G_MOL = 14.007
ROUNDING = 1e-9


def acid_mol_mol(form: str, *, land_use: str = "low crop", in_pot: bool = False) -> float:
    """Acid of a mole of nitrogen, as the yearly ledger counts it."""
    ammonium, urea, nitrate = (N_G_MOL * share for share in FORMS[form])
    return (
        feed_acid_mmolc_m2(
            n_as_nh4_g_m2=ammonium,
            n_as_urea_g_m2=urea,
            n_as_no3_g_m2=nitrate,
            params=ledger_parameters(),
            in_pot=in_pot,
            land_use=land_use,
        )
        / 1000.0
    )


def checks() -> list[Check]:
    """All of them."""
    return [_handbook_ratio(), _handbook_size(), _woburn(), _pots(), _solonetz(), _grass()]


def _handbook() -> dict[str, float]:
    return {
        form: kg / KG_CACO3_PER_MOL / NITROGEN_MOL_KG
        for form, kg in PRINTED_KG_CACO3_PER_KG_N.items()
    }


def _handbook_ratio() -> Check:
    printed = _handbook()
    ours = {form: acid_mol_mol(form) for form in FORMS}
    gaps = {
        form: ours[form] / ours["ammonium sulfate"] - printed[form] / printed["ammonium sulfate"]
        for form in FORMS
    }
    return Check(
        topic=TOPIC,
        kind=Kind.ARITHMETIC,
        claim="acid per nitrogen of four fertilisers against ammonium sulfate, field crops",
        source=HANDBOOK,
        n=len(FORMS) - 1,
        figure="; ".join(
            f"{form} {ours[form] / ours['ammonium sulfate']:+.2f} against "
            f"{printed[form] / printed['ammonium sulfate']:+.2f}"
            for form in FORMS
            if form != "ammonium sulfate"
        ),
        limit="within 0.05",
        passed=max(abs(gap) for gap in gaps.values()) <= 0.05,
        in_view="these rows, for the share of nitrate that brings no base back",
    )


def _handbook_size() -> Check:
    printed = _handbook()
    ours = {form: acid_mol_mol(form) for form in FORMS}
    return Check(
        topic=TOPIC,
        kind=Kind.ARITHMETIC,
        claim="mol of acid per mol of nitrogen that counts in the topsoil of a field",
        source=HANDBOOK,
        n=len(FORMS),
        figure="; ".join(
            f"{form} {ours[form]:+.2f} against {printed[form]:+.2f}" for form in FORMS
        ),
        limit="half of the print, within 0.05",
        passed=all(abs(ours[form] - 0.5 * printed[form]) <= 0.05 for form in FORMS),
        differs=True,
        in_view="Woburn, for the half",
        note="A handbook counts all acid made with half of the nitrogen taken up. A test sees the "
        "topsoil of a cropped field, where the calcium of fifty years shows 0.45 of it.",
    )


def _woburn() -> Check:
    cases = rows("nitrogen_woburn_calcium")
    gaps = [
        (float(row["calcium_nitrate_mg_kg"]) - float(row["calcium_ammonium_mg_kg"]))
        / CALCIUM_MG_PER_MMOLC
        * PLOUGHED_KG_M2
        / (float(row["n_given_kg_ha"]) * 100.0 / N_G_MOL)
        for row in cases
    ]
    ours = acid_mol_mol("ammonium sulfate") - acid_mol_mol("sodium nitrate")
    return Check(
        topic=TOPIC,
        kind=Kind.SOIL,
        claim="what ammonium sulfate and sodium nitrate differ by, molc of calcium per mol of "
        "nitrogen, top 23 cm",
        source=cases[0]["source"],
        n=len(gaps),
        figure=f"ours {ours:.2f}, measured {mean(gaps):.2f} ({min(gaps):.2f} to {max(gaps):.2f})",
        limit="ours above the mean, for calcium is not all of the base, and inside the range",
        passed=mean(gaps) <= ours <= max(gaps),
        in_view="these readings: our share was read from them, so this is no test",
        note="2 by charge, whatever crop and rain do with the nitrogen.",
    )


def _pots() -> Check:
    sulfate = acid_mol_mol("ammonium sulfate", in_pot=True)
    to_nitrate = sulfate / acid_mol_mol("ammonium nitrate", in_pot=True)
    to_urea = sulfate / acid_mol_mol("urea", in_pot=True)
    return Check(
        topic=TOPIC,
        kind=Kind.SOIL,
        claim="ammonium sulfate against ammonium nitrate and urea in cropped pots, by lime need",
        source=POTS,
        n=2,
        figure=f"{to_nitrate:.2f} against 1.6 to 2.3; {to_urea:.2f} against 1.4 to 1.9",
        limit="the first inside its range, the second within a fifth of its upper end",
        passed=1.6 <= to_nitrate <= 2.3 and 1.4 <= to_urea <= 1.2 * 1.9,
        differs=True,
        in_view="the first range",
        note="By charge urea and ammonium nitrate are alike. That urea was more acid there is not "
        "explained.",
    )


def _solonetz() -> Check:
    sulfate = acid_mol_mol("ammonium sulfate")
    to_nitrate, to_urea = (sulfate / acid_mol_mol(form) for form in ("ammonium nitrate", "urea"))
    return Check(
        topic=TOPIC,
        kind=Kind.SOIL,
        claim="exchange acidity made by ammonium sulfate against ammonium nitrate and urea",
        source=SOLONETZ,
        n=2,
        figure=f"{to_nitrate:.1f} against 2; {to_urea:.1f} against 4",
        limit="each within a factor of 1.5",
        passed=_within(to_nitrate, 2.0) and _within(to_urea, 4.0),
        differs=True,
        in_view="seen before the share was chosen; the handbook's was taken",
        note="Ours lies between the two prints, which by charge should be one.",
    )


def _within(ours: float, printed: float) -> bool:
    """Within a factor of 1.5, the end of it included."""
    return abs(log(ours / printed)) <= log(1.5) + ROUNDING


def _grass() -> Check:
    ours = {
        form: acid_mol_mol(form, land_use="lawn")
        for form in ("ammonium sulfate", "ammonium nitrate", "sodium nitrate")
    }
    return Check(
        topic=TOPIC,
        kind=Kind.SOIL,
        claim="on grass ammonium nitrate hardly moves the pH, ammonium sulfate lowers it, nitrate "
        "raises it",
        source=GRASS,
        n=3,
        figure=", ".join(f"{form} {acid:+.2f}" for form, acid in ours.items())
        + " mol per mol of nitrogen",
        limit="signs as found, ammonium nitrate below a third of ammonium sulfate",
        passed=0.0 <= ours["ammonium nitrate"] < ours["ammonium sulfate"] / 3.0
        and ours["sodium nitrate"] < 0.0,
        in_view="seen before the share was chosen; leaching from turf gave it",
        note="6.4 to 3.8 under ammonium sulfate, to 6.9 under calcium nitrate, top 5 cm.",
    )
