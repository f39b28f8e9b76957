"""First steps for a bed that has had too much where nobody has read the pH yet."""

from __future__ import annotations

from loamshift.domain.answer import Direction, Rescue
from loamshift.domain.bed_context import BedContext
from loamshift.domain.message import message, prose
from loamshift.services.context.amount_words import load_sentence
from loamshift.services.context.overdose import Load
from loamshift.services.rescue.words import laboratory_test, lies_there, take_up, wash


def without_a_reading(context: BedContext, load: Load) -> Rescue:
    """What to do before the pH is known: stop, take up what lies there, test.

    Parameters
    ----------
    context
        A bed without a soil.

    Returns
    -------
    Rescue
        Steps in order, and what never to do; no lime or sulfur before a test.

    References
    ----------
    common-practice, own-judgement
    """
    limes = load.direction is Direction.LIME
    lies = lies_there(context)
    steps = [
        message("rescue-today-stop-all"),
        take_up(context, limes=limes) if lies else wash(context),
        laboratory_test("ph-salt", lies=lies),
        message("rescue-keep-moist"),
    ]
    if context.planted:
        steps.append(message("rescue-lift-until-result"))
    return Rescue(
        problem=prose(load_sentence(context, load), message("rescue-unread")),
        ph_expected=None,
        steps=tuple(steps),
        never=(
            message("rescue-never-guess", direction="lime" if limes else "acidify"),
            message("rescue-never-dig-in"),
        ),
        lime_as_caco3_g_m2=None,
    )
