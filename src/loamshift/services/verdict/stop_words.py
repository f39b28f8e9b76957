"""Sentences where nothing can be judged, or nothing may go on."""

from __future__ import annotations

from loamshift.domain.bed_context import BedContext
from loamshift.services.context.amount_words import load_sentence
from loamshift.services.context.build_context import require_soil
from loamshift.services.verdict.bed_words import (
    Planned,
    reads_words,
)
from loamshift.services.verdict.judgement import Judgement
from loamshift.services.verdict.stops import overdosed, salt_limit_ds_m
from loamshift.tables.model import verdict_values


def no_ph_words(context: BedContext, judged: Judgement, plan: Planned) -> tuple[str, str]:
    """Nobody read a pH, and what would change that.

    Parameters
    ----------
    context
        The bed as understood [object].
    judged
        The judgement on it [object].
    plan
        Its plan, None without one [object].

    Returns
    -------
    tuple of str
        Why, and what would change it [text].
    """
    return (
        "There is no pH reading, and no advice on pH can be given without one.",
        "A laboratory pH in water, with the depth sampled.",
    )


def no_aim_words(context: BedContext, judged: Judgement, plan: Planned) -> tuple[str, str]:
    """Nobody said what the soil is for, and what would change that.

    Parameters
    ----------
    context
        The bed as understood [object].
    judged
        The judgement on it [object].
    plan
        Its plan, None without one [object].

    Returns
    -------
    tuple of str
        Why, and what would change it [text].
    """
    return (
        f"You have not said what you want to grow, so no pH is right or wrong for it. The soil is "
        f"at {reads_words(context)}.",
        "The plant, or a target pH.",
    )


def overdose_words(context: BedContext, judged: Judgement, plan: Planned) -> tuple[str, str]:
    """Too much was put on, and what would change that.

    Parameters
    ----------
    context
        The bed as understood [object].
    judged
        The judgement on it [object].
    plan
        Its plan, None without one [object].

    Returns
    -------
    tuple of str
        Why, and what would change it [text].
    """
    load = overdosed(context)
    said = "" if load is None else load_sentence(context, load)
    change = "A weighed amount well below this one."
    if context.soil is not None and judged.ph_expected is not None:
        now = require_soil(context).ph.ph_water
        apart = abs(judged.ph_expected - now) >= verdict_values()["leave_gain_ph"]
        if apart and context.pending_acid_mmolc_m2 != 0.0:
            said = said or "What was already put on is more than this soil can take."
            said += (
                f" It is still reacting: from pH {now:.1f} we expect about pH "
                f"{judged.ph_expected:.1f} before it is done."
            )
            change = (
                "A test of pH and salts in a few weeks, at the depth it was worked in, showing "
                "that less of it has reacted than we estimate."
            )
    return said or "What was already put on takes this bed past what its plants bear.", change


def too_acid_words(context: BedContext, judged: Judgement, plan: Planned) -> tuple[str, str]:
    """The soil is harmful already, and what would change that.

    Parameters
    ----------
    context
        The bed as understood [object].
    judged
        The judgement on it [object].
    plan
        Its plan, None without one [object].

    Returns
    -------
    tuple of str
        Why, and what would change it [text].
    """
    return (
        f"The soil is at {reads_words(context)}. Below {verdict_values()['harmful_ph']:.1f} "
        "aluminium injures roots, and acid sulfate soil is possible. Nothing that acidifies "
        "belongs here, and lime only after a specialist has looked.",
        "A second laboratory reading above it.",
    )


def sodic_words(context: BedContext, judged: Judgement, plan: Planned) -> tuple[str, str]:
    """Sodium rules treatment out, and what would change that.

    Parameters
    ----------
    context
        The bed as understood [object].
    judged
        The judgement on it [object].
    plan
        Its plan, None without one [object].

    Returns
    -------
    tuple of str
        Why, and what would change it [text].
    """
    return (
        f"Sodium holds {context.case.soil.sodium_pct:.0f} % of the exchange sites. From "
        f"{verdict_values()['sodic_pct']:.0f} % on a soil is sodic, and its pH cannot be judged by "
        "lime and acid alone.",
        "A laboratory report that shows less sodium.",
    )


def salt_words(context: BedContext, judged: Judgement, plan: Planned) -> tuple[str, str]:
    """Salt rules treatment out, and what would change that.

    Parameters
    ----------
    context
        The bed as understood [object].
    judged
        The judgement on it [object].
    plan
        Its plan, None without one [object].

    Returns
    -------
    tuple of str
        Why, and what would change it [text].
    """
    return (
        f"The soil holds too much salt already ({context.case.soil.ec_ds_m:g} dS/m by "
        f"{context.case.soil.ec_method}, against {salt_limit_ds_m(context):g} in the saturated "
        "paste). Every material here would add more.",
        "A low reading after the bed has been flushed with good water.",
    )


def waterlogged_words(context: BedContext, judged: Judgement, plan: Planned) -> tuple[str, str]:
    """Standing water rules treatment out, and what would change that.

    Parameters
    ----------
    context
        The bed as understood [object].
    judged
        The judgement on it [object].
    plan
        Its plan, None without one [object].

    Returns
    -------
    tuple of str
        Why, and what would change it [text].
    """
    return (
        "The ground is waterlogged. Without air sulfur turns to hydrogen sulfide, not to acid.",
        "Drainage that lets the bed dry out between rains.",
    )


def no_common_range_words(context: BedContext, judged: Judgement, plan: Planned) -> tuple[str, str]:
    """The plants share no range, and what would change that.

    Parameters
    ----------
    context
        The bed as understood [object].
    judged
        The judgement on it [object].
    plan
        Its plan, None without one [object].

    Returns
    -------
    tuple of str
        Why, and what would change it [text].
    """
    plants = context.case.aim.plants
    ranges = ", ".join(f"{p.name} {p.ph_low:.1f} to {p.ph_high:.1f}" for p in plants)
    return (
        f"No one pH suits all of these plants: {ranges}. Plant them apart, each in soil of its "
        "own; a pot or a raised bed for those that do not suit the ground.",
        "A choice of plants that share a range.",
    )
