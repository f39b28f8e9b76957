"""Lime: strength by formula, fineness rules, and correcting a rate for the product."""

from __future__ import annotations

from loamshift.core.lime import (
    LimeParameters,
    caco3_eq_frac_from_formula,
    fineness_frac,
)
from loamshift.tables.parameters import parameter_values
from published.check import Check, Kind
from published.checks.carbonate import rows

P = LimeParameters(**parameter_values("lime"))


def checks() -> list[Check]:
    return [
        *_strength(),
        *(_fineness(rule) for rule in ("Nebraska", "New York", "Minnesota")),
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
            kind=Kind.STOICHIOMETRY,
            claim="neutralising value of pure materials by formula",
            source=right[0][0]["source"],
            n=len(right),
            figure=f"largest gap {worst:+.1f} points ({worst_row['material']})",
            limit="0.5 points; magnesium oxide, printed to the nearest 5, 2.5",
            passed=all(abs(gap) <= float(row["tolerance"]) for row, gap in right),
        ),
        Check(
            topic="lime",
            kind=Kind.CAUGHT,
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
        kind=Kind.ARITHMETIC,
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
