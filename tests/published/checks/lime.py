"""Lime: strength by formula, fineness rules, and correcting a rate for the product."""

from __future__ import annotations

from loamshift.core.lime import (
    LimeParameters,
    caco3_eq_frac_from_formula,
    effective_neutralising_frac,
    fineness_frac,
    product_g_m2_from_caco3_g_m2,
)
from loamshift.tables.parameters import parameter_values
from loamshift.units import g_m2_from_lb_100ft2, lb_100ft2_from_g_m2
from published.check import Check
from published.checks.carbonate import rows

P = LimeParameters(**parameter_values("lime"))


def checks() -> list[Check]:
    return [
        *_strength(),
        *(_fineness(rule) for rule in ("Nebraska", "New York", "Minnesota")),
        _worked_product(),
        _label_rule(),
    ]


def _strength() -> list[Check]:
    cases = rows("lime_strength")
    gaps = [
        100.0 * caco3_eq_frac_from_formula(row["formula"]) - float(row["printed_pct"])
        for row in cases
    ]
    right = [(row, gap) for row, gap in zip(cases, gaps, strict=True) if row["agrees"] == "yes"]
    wrong = [(row, gap) for row, gap in zip(cases, gaps, strict=True) if row["agrees"] == "no"]
    worst_row, worst = max(right, key=lambda item: abs(item[1]))
    dolomite = 100.0 * caco3_eq_frac_from_formula("CaMg(CO3)2")
    return [
        Check(
            topic="lime",
            claim="neutralising value of pure materials by formula",
            source=right[0][0]["source"],
            n=len(right),
            figure=f"largest gap {worst:+.1f} points ({worst_row['material']})",
            limit="0.5 points; magnesium oxide, printed to the nearest 5, 2.5",
            passed=all(abs(gap) <= float(row["tolerance"]) for row, gap in right),
        ),
        Check(
            topic="lime",
            claim="magnesium carbonate printed as 108.5 is caught",
            source=wrong[0][0]["source"],
            n=len(wrong),
            figure=f"{wrong[0][1]:+.1f} points off; dolomite is {dolomite:.1f}",
            limit="off by more than 5 points, and dolomite within 0.1",
            passed=all(abs(gap) > 5.0 for _, gap in wrong) and abs(dolomite - 108.5) <= 0.1,
            note="A misprint: the figure is that of dolomite.",
        ),
    ]


def _fineness(rule: str) -> Check:
    cases = [row for row in rows("lime_fineness") if row["rule"] == rule]
    factors = [getattr(P, row["parameter"]) for row in cases]
    pure = [
        fineness_frac([1.0 if i == j else 0.0 for j in range(len(cases))], factors)
        for i in range(len(cases))
    ]
    printed = [float(row["printed_effective_pct"]) / 100.0 for row in cases]
    shares = [float(row["worked_share_pct"]) / 100.0 for row in cases]
    mixed = fineness_frac(shares, factors)
    by_hand = sum(share * factor for share, factor in zip(shares, printed, strict=True))
    return Check(
        topic="lime",
        claim=f"fineness rule of {rule}",
        source=cases[0]["source"],
        n=len(cases),
        figure=f"each class as printed; a product of {_percents(shares)} % rates {mixed:.3f}",
        limit="exact",
        passed=pure == printed and abs(mixed - by_hand) < 1e-12,
        note="Shares of the product are ours, coarse first."
        + (
            " Only the finest class was read; 20 and 60 % for the coarser ones are recalled."
            if rule == "Minnesota"
            else ""
        ),
    )


def _percents(shares: list[float]) -> str:
    return ", ".join(f"{100.0 * share:g}" for share in shares)


def _worked_product() -> Check:
    """A lime of 90 % strength, Nebraska sieves 5, 35 and 60 %: 0.90 x 0.745 = 0.6705 by hand."""
    ours = effective_neutralising_frac(
        caco3_eq_frac=0.90,
        mass_fracs=[0.05, 0.35, 0.60],
        effectiveness_fracs=[
            P.fineness_nebraska_over_8_mesh,
            P.fineness_nebraska_8_50_mesh,
            P.fineness_nebraska_under_50_mesh,
        ],
    )
    return Check(
        topic="lime",
        claim="strength times fineness for a worked product",
        source="University of Nebraska, Soils part 4: quality of agricultural limestone",
        n=1,
        figure=f"{ours:.4f}",
        limit="0.6705 by hand",
        passed=abs(ours - 0.6705) < 1e-9,
        note="The product is ours, the factors are theirs.",
    )


def _label_rule() -> Check:
    rate = product_g_m2_from_caco3_g_m2(g_m2_from_lb_100ft2(5.0), effective_frac=0.70)
    pounds = lb_100ft2_from_g_m2(rate)
    return Check(
        topic="lime",
        claim="5 lb of lime on 100 sq ft, label at 70 % strength",
        source="Penn State soil laboratory, notes to home-garden reports",
        n=1,
        figure=f"{pounds:.2f} lb",
        limit="7 as printed",
        passed=round(pounds) == 7,
    )
