"""What is said of the worth of further tests, as messages."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from loamshift.domain.answer import Decision, Reason
from loamshift.domain.message import Message, Prose, in_100, message, ph_mean, prose
from loamshift.domain.worth import FurtherTest, SamplesLine, WorthOfTest
from loamshift.services.verdict.judgement import Judgement
from loamshift.tables.parameters import parameter_values

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


def cores_words(*, cores: int, one_ph: float, mixed_ph: float, uneven: bool, kind: str) -> Message:
    """How many cores a sample is mixed from, and what one core alone is worth.

    Parameters
    ----------
    cores
        Cores to mix [count].
    one_ph, mixed_ph
        How far one core and the mix may read from the whole bed [pH].
    uneven
        True where the readings differ as on uneven ground.
    kind
        Kind of the bed, as a choice.
    """
    return message(
        "worth-cores",
        cores=cores,
        one=ph_mean(one_ph),
        mixed=ph_mean(mixed_ph),
        looks="uneven" if uneven else "even",
        kind=kind,
    )


def further_samples_words(
    lines: Sequence[SamplesLine], *, test: FurtherTest, alike: bool, kind: str
) -> Prose:
    """What further samples bring: the fewest that gain enough, else one.

    Parameters
    ----------
    lines
        From no further sample up.
    test
        That each of them gets.
    alike
        True where one sample speaks for the whole ground.
    kind
        Kind of the bed, as a choice.
    """
    least = parameter_values("plan")["test_again_gain_frac"]
    enough = (line for line in lines[1:] if line.gain is not None and line.gain >= least)
    told = next(enough, lines[1])
    gain = None if told.gain is None else in_100(told.gain)
    first = message(
        "worth-samples",
        test=test.value,
        samples=told.samples,
        now=ph_mean(lines[0].error_ph),
        then=ph_mean(told.error_ph),
        gain=gain,
        little="yes" if alike and told.gain is not None and told.gain < least else "no",
        kind=kind,
    )
    after = lines[told.samples + 1] if told.samples + 1 < len(lines) else None
    if after is None or (told.gain is not None and test is FurtherTest.CORE):
        return prose(first)
    return prose(first, message("worth-samples-next", then=ph_mean(after.error_ph)))


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
