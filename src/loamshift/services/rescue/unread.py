"""First steps for a bed that has had too much where nobody has read the pH yet."""

from __future__ import annotations

from loamshift.domain.answer import Direction, Rescue
from loamshift.domain.bed_context import BedContext
from loamshift.services.context.overdose import Load
from loamshift.services.rescue.words import laboratory_test, take_up


def without_a_reading(context: BedContext, load: Load) -> Rescue:
    """What to do before the pH is known: stop, take up what lies there, test.

    Parameters
    ----------
    context
        A bed without a soil [object].
    load
        What was put on, against its limit [object].

    Returns
    -------
    Rescue
        Steps in order, and what never to do; no lime or sulfur before a test [object].

    References
    ----------
    common-practice, own-judgement
    """
    limes = load.direction is Direction.LIME
    listed = " and ".join(load.materials)
    steps = [
        "Put on nothing more of any kind: no feed, no lime, no acid.",
        take_up(context),
        laboratory_test("pH and salt (EC)"),
        "Keep the soil evenly moist with rainwater until the result is there; a dry bed brings "
        "the salt to the roots.",
    ]
    if context.planted:
        steps.append("Lift plants you value into fresh potting mix and wait for the result.")
    return Rescue(
        problem=f"The {listed} put on here is {load.times:.1f} times what a year may bring to this "
        "ground. How far the pH has moved cannot be told without a test.",
        ph_expected=None,
        steps=tuple(steps),
        never=(
            "No lime on a guess: it overshoots as easily as the acid did."
            if not limes
            else "No acid or sulfur on a guess: while lime lies free it only dissolves that.",
            "Do not dig in what still lies on the surface.",
        ),
        lime_as_caco3_g_m2=None,
    )
