"""Acid of fertilisers and sulfates against printed equivalents, in the conventions they use."""

from __future__ import annotations

from loamshift.case.label import read_label
from loamshift.core.acidity import (
    NITROGEN_MOL_KG,
    UptakeConvention,
    acid_parts_molc_kg,
    equivalent_acidity_kg_caco3_per_100_kg,
    lasting_acid_molc_kg,
    product_kg_per_kg_sulfur,
)
from loamshift.core.formula import acid_mol_per_mol, acid_molc_kg
from loamshift.services.materials.labelled import labelled_material
from loamshift.tables.parameters import parameter_values
from published.check import Check, Kind
from published.checks.carbonate import rows

STOICHIOMETRY = "stoichiometry, standard atomic weights"
FORMS = {
    "urea": {"n_as_urea_frac": 1.0},
    "ammonium": {"n_as_nh4_frac": 1.0},
    "nitrate": {"n_as_no3_frac": 1.0},
    "ammonium nitrate": {"n_as_nh4_frac": 0.5, "n_as_no3_frac": 0.5},
}
NEUTRAL_LABELS = {
    "magnesium sulfate": "mgo = 16, so3 = 32.5",
    "gypsum": "cao = 32, so3 = 46",
    "potassium sulfate": "k2o = 50, so3 = 45",
    "potassium magnesium sulfate": "k2o = 30, mgo = 10, so3 = 42",
}
NEUTRAL = ("CaSO4.2H2O", "MgSO4.7H2O", "K2SO4")


def checks() -> list[Check]:
    return [
        *_product_checks(),
        *_labels(),
        _per_nitrogen("half", "half of the nitrogen taken up"),
        _per_nitrogen("all", "all of the nitrogen taken up"),
        _sulfur(),
        *_sulfates(),
        _trade_range(),
        _neutral_salts(),
        _forms(),
    ]


def _ours(row: dict[str, str]) -> float:
    shares = {
        "n_as_nh4_frac": "n_as_nh4_pct",
        "n_as_urea_frac": "n_as_urea_pct",
        "n_as_no3_frac": "n_as_no3_pct",
        "elemental_s_frac": "elemental_s_pct",
        "caco3_eq_frac": "caco3_eq_pct",
    }
    return equivalent_acidity_kg_caco3_per_100_kg(
        **{name: float(row[column]) / 100.0 for name, column in shares.items()},
        convention=UptakeConvention.HALF,
    )


def _product_checks() -> list[Check]:
    cases = rows("equivalent_acidity")
    misfit = {
        row["material"]: (_ours(row) - float(row["printed_kg_caco3_per_100_kg"]))
        / float(row["tolerance"])
        for row in cases
    }
    agreeing = [row["material"] for row in cases if row["agrees"] == "yes"]
    differing = [row for row in cases if row["agrees"] == "no"]
    worst = max(agreeing, key=lambda material: abs(misfit[material]))
    return [
        Check(
            topic="equivalents",
            kind=Kind.ARITHMETIC,
            claim="equivalent acidity of fertilisers, half of the nitrogen taken up",
            source=cases[0]["source"],
            n=len(agreeing),
            figure=f"largest misfit {abs(misfit[worst]):.2f} of its tolerance ({worst})",
            limit="each row within its own tolerance: last digit and nominal nitrogen grade",
            passed=all(abs(misfit[material]) <= 1.0 for material in agreeing),
            note="Ammonium sulfate is printed as 110, the figure of a 20.5 % grade; sulfur-coated "
            "urea agrees only at the upper end of the contents printed.",
        ),
        Check(
            topic="equivalents",
            kind=Kind.CAUGHT,
            claim="printed equivalents that do not follow from the formula and grade printed",
            source=cases[0]["source"],
            n=len(differing),
            figure="; ".join(
                f"{row['material']} {float(row['printed_kg_caco3_per_100_kg']):g} against "
                f"{_ours(row):.0f}"
                for row in differing
            ),
            limit="each differs by more than its tolerance",
            passed=all(abs(misfit[row["material"]]) > 1.0 for row in differing),
            note=". ".join(f"{row['material'].capitalize()}: {row['note']}" for row in differing),
        ),
    ]


def _by_label(row: dict[str, str]) -> float:
    """The same product known by its label alone."""
    figures = {
        "n_ammonium": row["n_as_nh4_pct"],
        "n_urea": row["n_as_urea_pct"],
        "n_nitrate": row["n_as_no3_pct"],
        "s_element": row["elemental_s_pct"],
    }
    line = ", ".join(f"{key} = {value}" for key, value in figures.items() if float(value))
    return label_acidity(f"{line}, nv_as_caco3 = {row['caco3_eq_pct']}")


def label_acidity(line: str) -> float:
    """Equivalent acidity of a label, half of the nitrogen taken up [kg CaCO3/100 kg]."""
    material = labelled_material(read_label(line), key="bag", written="bag")
    return equivalent_acidity_kg_caco3_per_100_kg(
        elemental_s_frac=material.elemental_s_frac,
        fast_acid_molc_kg=material.fast_acid_molc_kg,
        n_as_nh4_frac=material.n_as_nh4_frac,
        n_as_urea_frac=material.n_as_urea_frac,
        n_as_no3_frac=material.n_as_no3_frac,
        n_organic_frac=material.n_organic_frac,
        caco3_eq_frac=material.caco3_eq_frac,
        convention=UptakeConvention.HALF,
    )


def _labels() -> list[Check]:
    cases = [
        row
        for row in rows("equivalent_acidity")
        if row["agrees"] == "yes" and row["material"] != "anhydrous ammonia"  # a gas has no bag
    ]
    misfit = {
        row["material"]: abs(_by_label(row) - float(row["printed_kg_caco3_per_100_kg"]))
        / float(row["tolerance"])
        for row in cases
    }
    worst = max(misfit, key=lambda material: misfit[material])
    phosphate = label_acidity("n_ammonium = 11, p2o5 = 52")
    neutral = {name: label_acidity(line) for name, line in NEUTRAL_LABELS.items()}
    return [
        Check(
            topic="equivalents",
            kind=Kind.ARITHMETIC,
            claim="the same fertilisers known by the analysis on the bag",
            source=cases[0]["source"],
            n=len(cases),
            figure=f"largest misfit {misfit[worst]:.2f} of its tolerance ({worst})",
            limit="each row within its own tolerance",
            passed=all(value <= 1.0 for value in misfit.values()),
        ),
        Check(
            topic="equivalents",
            kind=Kind.ARITHMETIC,
            claim="monoammonium phosphate by its label, kg CaCO3 per 100 kg",
            source="a consultant's case study, New Zealand: 580 kg of lime per tonne",
            n=1,
            figure=f"{phosphate:.1f}",
            limit="58, within 3.2",
            passed=abs(phosphate - 58.0) <= 3.2,
            note="11 % nitrogen and 52 % P2O5, half of the nitrogen taken up. The tolerance is "
            "that of the other grades: last printed digit and half a point of nitrogen.",
        ),
        Check(
            topic="equivalents",
            kind=Kind.STOICHIOMETRY,
            claim="sulfate in the name of a neutral salt brings no acid by its label",
            source="a supplier's table of equivalent acidity",
            n=len(neutral),
            figure=", ".join(f"{name} {value:g}" for name, value in neutral.items()),
            limit="exactly 0",
            passed=all(value == 0.0 for value in neutral.values()),
        ),
    ]


def _per_nitrogen(convention: str, words: str) -> Check:
    cases = [row for row in rows("equivalent_acidity_per_n") if row["convention"] == convention]
    parts = []
    passed = True
    for row in cases:
        ours = equivalent_acidity_kg_caco3_per_100_kg(
            **FORMS[row["form"]], convention=UptakeConvention[convention.upper()]
        )
        printed = float(row["printed_kg_caco3_per_kg_n"])
        passed = passed and abs(ours / 100.0 - printed) <= float(row["tolerance"])
        parts.append(f"{row['material']} {ours / 100.0:.2f} ({printed:g} printed)")
    return Check(
        topic="equivalents",
        kind=Kind.ARITHMETIC,
        claim=f"kg CaCO3 per kg of nitrogen, {words}",
        source=cases[0]["source"],
        n=len(cases),
        figure="; ".join(parts),
        limit="half the last printed digit; zeros exact",
        passed=passed,
        note="Negative limes.",
    )


def _sulfur() -> Check:
    ours = equivalent_acidity_kg_caco3_per_100_kg(elemental_s_frac=1.0) / 100.0
    return Check(
        topic="equivalents",
        kind=Kind.STOICHIOMETRY,
        claim="kg CaCO3 per kg of sulfur",
        source=STOICHIOMETRY,
        n=1,
        figure=f"{ours:.3f}",
        limit="3.12",
        passed=round(ours, 2) == 3.12,
        note="A supplier's table prints 2.18: an outlier, not used.",
    )


def _sulfates() -> list[Check]:
    return [
        Check(
            topic="equivalents",
            kind=Kind.STOICHIOMETRY,
            claim=f"kg of {words} for the acid of 1 kg of sulfur",
            source=STOICHIOMETRY,
            n=1,
            figure=f"{product_kg_per_kg_sulfur(acid_molc_kg(formula)):.2f}",
            limit=f"{limit:g}",
            passed=round(product_kg_per_kg_sulfur(acid_molc_kg(formula)), 1) == limit,
        )
        for words, formula, limit in (
            ("aluminium sulfate, 18-hydrate,", "Al2(SO4)3.18H2O", 6.9),
            ("iron sulfate, heptahydrate,", "FeSO4.7H2O", 8.7),
        )
    ]


def _trade_range() -> Check:
    table = parameter_values("acidity")
    low, high = table["trade_sulfate_per_sulfur_low"], table["trade_sulfate_per_sulfur_high"]
    aluminium, iron = (
        product_kg_per_kg_sulfur(acid_molc_kg(formula))
        for formula in ("Al2(SO4)3.18H2O", "FeSO4.7H2O")
    )
    return Check(
        topic="equivalents",
        kind=Kind.PRACTICE,
        claim="the trade's 5 to 8 kg of aluminium or iron sulfate for 1 kg of sulfur",
        source="common practice, no source",
        n=2,
        figure=f"{low:g} to {high:g} against {aluminium:.1f} and {iron:.1f}",
        limit="aluminium sulfate inside the range",
        passed=low <= aluminium <= high,
        differs=not low <= iron <= high,
        note=f"Iron sulfate needs {iron:.1f}, {'more' if iron > high else 'no more'} than the "
        "range gives.",
    )


def _neutral_salts() -> Check:
    acids = [acid_mol_per_mol(formula) for formula in NEUTRAL]
    return Check(
        topic="equivalents",
        kind=Kind.STOICHIOMETRY,
        claim="gypsum, Epsom salt and sulfate of potash bring no acid",
        source=STOICHIOMETRY,
        n=len(acids),
        figure=", ".join(f"{acid:g}" for acid in acids) + " molc/mol",
        limit="exactly 0",
        passed=all(acid == 0.0 for acid in acids),
        note="By charge balance of the formula.",
    )


def _forms() -> Check:
    acid = {
        form: lasting_acid_molc_kg(acid_parts_molc_kg(**shares, n_uptake_frac=0.5))
        / NITROGEN_MOL_KG
        for form, shares in FORMS.items()
    }
    return Check(
        topic="equivalents",
        kind=Kind.PRACTICE,
        claim="ammonium and urea acidify, nitrate does not",
        source="common practice, no source",
        n=3,
        figure=", ".join(f"{form} {value:+.1f}" for form, value in acid.items()) + " mol per mol N",
        limit="ammonium above urea above 0, nitrate not above 0",
        passed=acid["ammonium"] > acid["urea"] > 0.0 >= acid["nitrate"],
        note="Half of the nitrogen taken up as nitrate.",
    )
