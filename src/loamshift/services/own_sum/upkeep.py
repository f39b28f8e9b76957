"""The sums of keeping the pH: drift, feed, sulfur or lime a year, and how fast water undoes it."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace

from loamshift.core.buffer import acid_between_mmolc_kg
from loamshift.domain.answer import FeedLine
from loamshift.domain.message import Prose, message, ph, prose, rate
from loamshift.domain.own_sum import NOTHING, Origin, OwnSum, SumInput, SumStep, SumUnit
from loamshift.services.context.build_context import curve_of, require_soil
from loamshift.services.materials.acid import acid_brought_mmolc_m2
from loamshift.services.own_sum import inputs as of
from loamshift.services.own_sum.ledger_lines import buffering_step, held_at_ph, ledger_steps
from loamshift.services.own_sum.opened import OpenedBed, scale_of
from loamshift.services.own_sum.yearly import narrowing_line, sum_of_lines, widest_line
from loamshift.tables.materials import load_materials
from loamshift.tables.rules import cap_for

_PASSING = ("tail", "free-lime")
"""Lines that come once, and are left out of what holds a pH."""


def drift_sum(bed: OpenedBed, key: str) -> OwnSum:
    """How the pH drifts in a year left to itself."""
    upkeep = bed.answer.upkeep
    assert upkeep is not None
    lines = _lasting(bed, feed=False)
    total = sum_of_lines(lines)
    mass, per_ph = of.mass_step(bed), buffering_step(bed, held_at_ph(bed))
    plain = SumStep(
        says=message("why-step-drift"),
        symbol="Δ",
        value=-total.value / per_ph.value,
        unit=SumUnit.PH,
        formula="{Δ} = −{net} / {Y}",
        inputs=(
            of.before(total, message("why-in-net")),
            of.before(per_ph, message("why-in-per-ph")),
        ),
        result=ph(-total.value / per_ph.value),
    )
    steps = [step for each in lines.values() for step in each]
    steps += [total, mass, per_ph, plain]
    aside = NOTHING
    if not math.isclose(plain.value, upkeep.drift_ph_year, abs_tol=1e-6):
        aside = prose(message("why-aside-drift", plain=ph(plain.value)))
        steps.append(
            SumStep(
                says=message("why-step-drift-counted", beds=bed.members),
                symbol="Δ′",
                value=upkeep.drift_ph_year,
                unit=SumUnit.PH,
                inputs=(of.counted("N", message("why-in-beds"), float(bed.members), SumUnit.BEDS),),
                result=ph(upkeep.drift_ph_year),
            )
        )
    return _sum(bed, key, "drift", steps, upkeep.drift_ph_year, lines, aside)


def net_sum(bed: OpenedBed, key: str) -> OwnSum:
    """What is left of the ledger with the feed that is advised."""
    upkeep = bed.answer.upkeep
    assert upkeep is not None
    lines, steps = _with_feed(bed)
    value = upkeep.net_with_feed_mmolc_m2_year
    return _sum(bed, key, "net-with-feed", steps, value, lines)


def closing_sum(bed: OpenedBed, key: str, *, sulfur: bool) -> OwnSum:
    """The sulfur or the lime a year that closes the ledger.

    Parameters
    ----------
    sulfur
        True for sulfur, false for lime.
    """
    upkeep = bed.answer.upkeep
    assert upkeep is not None
    lines, steps = _with_feed(bed)
    net, gram = steps[-1], of.gram(acidify=sulfur)
    cap = of.limit(
        "l",
        cap_for(
            applies_to="sulfur" if sulfur else "limestone",
            situation=bed.context.cap_situation,
            per="year",
        ),
    )
    value = upkeep.sulfur_as_s_g_m2_year if sulfur else upkeep.lime_as_caco3_g_m2_year
    wanted = -net.value if sulfur else net.value
    way = "acidify" if sulfur else "lime"
    if value > 0.0:
        step = SumStep(
            says=message("why-step-closing", way=way),
            symbol="P",
            value=min(wanted * gram.value, cap.value),
            unit=SumUnit.G_M2,
            formula="{P} = min(−{net} × {g}, {l})" if sulfur else "{P} = min({net} × {g}, {l})",
            inputs=(of.before(net, message("why-in-net")), gram, cap),
            result=rate(value),
        )
    else:
        step = SumStep(
            says=message("why-step-nothing", way=way),
            symbol="P",
            value=0.0,
            unit=SumUnit.G_M2,
            inputs=(of.before(net, message("why-in-net")),),
        )
    return _sum(bed, key, f"closing-{way}", [*steps, step], value, lines)


def feed_sum(bed: OpenedBed, key: str, line: FeedLine, *, acid: bool) -> OwnSum:
    """One feed that is advised: how much of the product, or what acid it brings.

    Parameters
    ----------
    acid
        True for its acid, false for the weight of product.
    """
    material = load_materials()[line.material]
    nitrogen = of.counted("n", message("why-in-nitrogen-chosen"), line.n_g_m2_year, SumUnit.G_M2)
    share = of.fixed("f", message("why-in-nitrogen-share"), material.n_frac, SumUnit.NONE)
    product = SumStep(
        says=message("why-step-feed-product"),
        symbol="B",
        value=line.n_g_m2_year / material.n_frac,
        unit=SumUnit.G_M2,
        formula="{B} = {n} / {f}",
        inputs=(nitrogen, share),
        result=rate(line.n_g_m2_year / material.n_frac),
    )
    steps = [product]
    if acid:
        per_g = acid_brought_mmolc_m2(
            material, rate_g_m2=1.0, in_pot=bed.context.in_pot, land_use=bed.context.nitrogen_use
        )
        each = of.fixed("a", message("why-in-acid-per-gram"), per_g, SumUnit.MMOLC_G)
        steps.append(
            SumStep(
                says=message("why-step-feed-acid"),
                symbol="Z",
                value=product.value * per_g,
                unit=SumUnit.MMOLC_M2,
                formula="{Z} = {B} × {a}",
                inputs=(of.before(product, message("why-in-rate")), each),
            )
        )
    return OwnSum(
        key=key,
        title=message("why-sum-feed", acid="yes" if acid else "no"),
        steps=tuple(steps),
        answer_value=line.acid_mmolc_m2_year if acid else line.rate_g_m2_year,
        sure=prose(message("why-sure-feed")),
        source_keys=tuple(
            figure.source_key for name, figure in material.figures.items() if name.startswith("n_")
        ),
    )


def undone_sum(bed: OpenedBed, key: str) -> OwnSum:
    """Years in which the water takes back what the curve takes."""
    upkeep = bed.answer.upkeep
    assert upkeep is not None and upkeep.years_water_undoes_dose is not None
    context, aim = bed.context, bed.aim_ph
    assert aim is not None
    start = of.ph_now(bed)
    curve: float = acid_between_mmolc_kg(
        require_soil(context).ph.ph_water, aim, k=scale_of(bed), **curve_of(context)
    )
    read = SumStep(
        says=message("why-step-curve-own"),
        symbol="q",
        value=curve,
        unit=SumUnit.MMOLC_KG,
        inputs=(start, of.aim_ph(bed), of.clay(bed), of.carbon(bed), of.scale(bed)),
    )
    mass = of.mass_step(bed)
    water = ledger_steps(bed)["water"]
    years = SumStep(
        says=message("why-step-undone"),
        symbol="Y",
        value=curve * mass.value / -water[-1].value,
        unit=SumUnit.YEARS,
        formula="{Y} = {q} × {m} / −{W}",
        inputs=(
            of.before(read, message("why-in-curve")),
            of.before(mass, message("why-in-mass")),
            of.before(water[-1], message("why-in-line", line="water")),
        ),
    )
    return OwnSum(
        key=key,
        title=message("why-sum-undone"),
        steps=(read, mass, *water, years),
        answer_value=upkeep.years_water_undoes_dose,
        sure=prose(message("why-sure-ledger", line="water")),
        narrow=narrowing_line(bed, "water"),
    )


def _lasting(bed: OpenedBed, *, feed: bool) -> Mapping[str, tuple[SumStep, ...]]:
    left_out = _PASSING if feed else (*_PASSING, "feed")
    return {name: steps for name, steps in ledger_steps(bed).items() if name not in left_out}


def _with_feed(bed: OpenedBed) -> tuple[Mapping[str, tuple[SumStep, ...]], list[SumStep]]:
    """Lasting lines without today's feed, that which is advised, and the net of all."""
    upkeep = bed.answer.upkeep
    assert upkeep is not None
    lines = _lasting(bed, feed=False)
    alone = sum_of_lines(lines)
    fed = tuple(
        SumInput(
            symbol=f"Z{number}",
            name=message("why-in-feed-acid"),
            value=line.acid_mmolc_m2_year,
            unit=SumUnit.MMOLC_M2,
            origin=Origin.STEP,
            row=f"upkeep.feed.{number - 1}.acid_mmolc_m2_year",
        )
        for number, line in enumerate(upkeep.feed, 1)
    )
    total = SumStep(
        says=message("why-step-with-feed", feeds=len(fed)),
        symbol="net",
        value=alone.value + sum(one.value for one in fed),
        unit=SumUnit.MMOLC_M2,
        formula="{net} = {net₀}" + "".join(f" + {{{one.symbol}}}" for one in fed),
        inputs=(
            SumInput(
                symbol="net₀",
                name=message("why-in-net-alone"),
                value=alone.value,
                unit=SumUnit.MMOLC_M2,
                origin=Origin.STEP,
            ),
            *fed,
        ),
    )
    steps = [step for each in lines.values() for step in each]
    return lines, [*steps, _renamed_net(alone), total]


def _renamed_net(step: SumStep) -> SumStep:
    return replace(step, symbol="net₀", formula=step.formula.replace("{net}", "{net₀}", 1))


def _sum(
    bed: OpenedBed,
    key: str,
    title: str,
    steps: list[SumStep],
    value: float,
    lines: Mapping[str, tuple[SumStep, ...]],
    aside: Prose = NOTHING,
) -> OwnSum:
    widest = widest_line(lines)
    return OwnSum(
        key=key,
        title=message(f"why-sum-{title}"),
        steps=tuple(steps),
        answer_value=value,
        aside=aside,
        sure=prose(message("why-sure-ledger", line=widest)),
        narrow=narrowing_line(bed, widest),
        source_keys=tuple(
            dict.fromkeys(one.source_key for s in steps for one in s.inputs if one.source_key)
        ),
    )
