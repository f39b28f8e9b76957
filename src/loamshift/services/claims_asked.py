"""Claims asked about by themselves, with what to mind and where the figures come from."""

from __future__ import annotations

from dataclasses import replace

from loamshift.domain.answer import Answer, SourceLine
from loamshift.domain.case import Case
from loamshift.domain.message import message
from loamshift.domain.worded_error import WordedError
from loamshift.services.advise import advise
from loamshift.services.cautions.cautions import cautions
from loamshift.services.claim.settle import settle_claims
from loamshift.services.context.build_context import build_context
from loamshift.services.materials.named import material_named
from loamshift.services.verdict.decide import decide
from loamshift.tables.references import citation, load_references


def claims_asked(case: Case, *, seed: int | None) -> Answer:
    """The answer to a case with its claims run through a year, and nothing of any plan.

    Parameters
    ----------
    seed
        Seed of the possible beds that are run; None asks the curve alone [number].

    Raises
    ------
    InputError
        Where the case has no soil pH.

    References
    ----------
    own-arithmetic
    """
    context = build_context(case)
    if context.soil is None:
        raise WordedError(message("claim-no-ph"))
    claims = settle_claims(context, case.claims, seed=seed)
    minded = cautions(context, decide(context).judged, applications=(), options=())
    keys = [
        figure.source_key
        for claim in claims
        for figure in material_named(claim.material, own=case.own_materials).figures.values()
    ]
    keys += [caution.source_key for caution in minded if caution.source_key]
    known = load_references()
    return replace(
        advise(replace(case, claims=())),
        claims=claims,
        cautions=minded,
        applications=(),
        options=(),
        sources=tuple(
            SourceLine(key=key, citation=citation(key))
            for key in dict.fromkeys(keys)
            if key in known
        ),
    )
