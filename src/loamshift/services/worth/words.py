"""What is said of the worth of further tests, as messages."""

from __future__ import annotations

from typing import Final

from loamshift.domain.answer import Decision, Reason
from loamshift.domain.message import Message, in_100, message
from loamshift.domain.worth import FurtherTest, WorthOfTest
from loamshift.services.verdict.judgement import Judgement

_HOW: Final = {
    FurtherTest.FIZZ: message("missing-fizz-how"),
    FurtherTest.CARBONATE: message("missing-carbonate-how"),
    FurtherTest.LABORATORY_PH: message("missing-rough-how"),
    FurtherTest.CORE: message("worth-core-how"),
    FurtherTest.BUFFER_PH: message("worth-buffer-ph-how"),
    FurtherTest.JARS: message("worth-jars-how"),
    FurtherTest.TEXTURE: message("missing-texture-how"),
    FurtherTest.ORGANIC_MATTER: message("missing-organic-matter-how"),
    FurtherTest.WATER: message("missing-alkalinity-how"),
    FurtherTest.WATER_AMOUNT: message("missing-weekly-how"),
    FurtherTest.LATER_READING: message("worth-later-reading-how"),
}


def how_to(test: FurtherTest) -> Message:
    """How a test is made."""
    return _HOW[test]


def best_words(row: WorthOfTest, *, kind: str) -> Message:
    """The one test to make first, and what it gains.

    Parameters
    ----------
    kind
        Kind of the bed, as a choice.
    """
    return message("worth-best", test=_named(row.test), gain=in_100(row.gain), kind=kind)


def waits_for_words(row: WorthOfTest, *, kind: str) -> Message:
    """The test that the verdict waits for, and how it may turn out.

    Parameters
    ----------
    kind
        Kind of the bed, as a choice.
    """
    return message(
        "worth-waits",
        test=row.test.value,
        named=_named(row.test),
        changes=in_100(row.changes),
        kind=kind,
    )


def none_words(most: float, *, tested: bool, kind: str) -> Message:
    """That no further test is worth its cost.

    Parameters
    ----------
    most
        The most that any of them gains [0-1].
    tested
        True where the plan has tests of its own.
    kind
        Kind of the bed, as a choice.
    """
    key = "worth-none" if tested else "worth-none-no-test"
    return message(key, most=in_100(most), kind=kind)


def without_plan_words(judged: Judgement, waits_for: FurtherTest | None, *, kind: str) -> Message:
    """Why no test is weighed where nothing is planned.

    Parameters
    ----------
    waits_for
        The test that the verdict waits for, None for another fact.
    kind
        Kind of the bed, as a choice.
    """
    if judged.reason is Reason.NO_PH:
        return message("worth-no-soil")
    if judged.decision is Decision.MEASURE_FIRST:
        if waits_for is None:
            return message("worth-first", test=None, named=None)
        return message("worth-first", test=waits_for.value, named=_named(waits_for))
    if judged.decision is Decision.STOP:
        return message("worth-stop")
    if judged.decision is Decision.LEAVE and judged.stays is not None:
        return message(
            "worth-leave", stays=in_100(judged.stays), most=in_100(1.0 - judged.stays), kind=kind
        )
    return message("worth-nothing-planned")


def _named(test: FurtherTest) -> Message:
    """The test as it is named inside a sentence."""
    return message("worth-test", test=test.value)
