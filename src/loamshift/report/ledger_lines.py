"""Lines of the yearly ledger in words: what each is called, which way it goes, what it equals."""

from __future__ import annotations

from loamshift import units
from loamshift.domain.answer import LedgerLine
from loamshift.domain.message import Given, Message, Worded, message, rate
from loamshift.report.messages import say
from loamshift.report.words import Words

_WASHED_OUT = "ledger-bicarbonate-washed-out"
NOTHING_MMOLC_M2 = 5.0
"""Less than a tenth of a gram of sulfur: a line that small says `next to nothing` [mmolc/m2]."""


def named(line: LedgerLine) -> Worded:
    """The name of a line by what it does: draining water that raises the pH carries acid out."""
    name = line.name
    washed = isinstance(name, Message) and name.key == _WASHED_OUT
    acid = line.value <= -NOTHING_MMOLC_M2
    return message("ledger-acid-washed-out") if washed and acid else name


def called(name: Worded, words: Words) -> str:
    """A line of the ledger by its name as a label: ``Irrigation water``."""
    if isinstance(name, str):  # as an earlier version kept it
        return words.text(f"{name[:1].upper()}{name[1:]}".replace("_", " "))
    return say(name, words)


def in_text(name: Worded) -> Message | Given:
    """The same name to stand inside a sentence: ``the irrigation water``."""
    if isinstance(name, Message):
        return message(f"ledger-in-text-{name.key.removeprefix('ledger-')}")
    return Given(str(name).replace("_", " "))


def effect_of(acid_mmolc_m2: float) -> str | None:
    """Which way acid [mmolc/m2, negative limes] moves the pH: ``lime``, ``acidify`` or None."""
    if abs(acid_mmolc_m2) < NOTHING_MMOLC_M2:
        return None
    return "acidify" if acid_mmolc_m2 > 0.0 else "lime"


def worth(acid_mmolc_m2: float) -> Message | None:
    """What acid [mmolc/m2, negative limes] equals in pure sulfur or lime; None for a trace."""
    effect = effect_of(acid_mmolc_m2)
    if effect is None:
        return None
    return message("ledger-worth", effect=effect, amount=rate(equal_g_m2(acid_mmolc_m2)))


def equal_g_m2(acid_mmolc_m2: float) -> float:
    """The sulfur, or where it is negative the lime, that acid [mmolc/m2] equals [g/m2]."""
    if acid_mmolc_m2 < 0.0:
        return units.lime_as_caco3_g_m2_from_acid_mmolc_m2(-acid_mmolc_m2)
    return units.sulfur_as_s_g_m2_from_acid_mmolc_m2(acid_mmolc_m2)


def strongest(lines: tuple[LedgerLine, ...]) -> Message:
    """The line that moves the pH most, of several; says so where none does."""
    largest = max(lines, key=lambda line: abs(line.value))
    effect = effect_of(largest.value)
    if effect is None:
        return message("ledger-still")
    return message(
        "ledger-strongest",
        line=in_text(named(largest)),
        effect=effect,
        amount=rate(equal_g_m2(largest.value)),
    )
