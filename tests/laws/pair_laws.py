"""Laws of two letters: neighbouring cases get neighbouring answers, and facts count."""

from __future__ import annotations

import random
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Final

from laws.draft import Draft, number
from laws.law import bed_of
from loamshift.case.read import parse_case
from loamshift.domain.answer import Answer, Decision, Direction, Finding, Reason
from loamshift.domain.case import Case
from loamshift.services.cautions.unused_facts import CHECK
from loamshift.services.materials.acid import acid_brought_mmolc_m2

Change = Callable[[Draft, random.Random], Draft | None]
"""A neighbour of a case, or None where this change makes none of it."""


@dataclass(frozen=True, slots=True)
class Letter:
    """A case with its answer."""

    case: Case
    answer: Answer


@dataclass(frozen=True, slots=True)
class PairLaw:
    """A law of two letters: id, sentence, how the second case is made, and what must hold."""

    key: str
    sentence: str
    change: Change
    check: Callable[[Letter, Letter], list[str]]


PAIR_LAWS: Final[dict[str, PairLaw]] = {}
"""Every law of two letters, by id."""

LADDER: Final = (Decision.LEAVE, Decision.GO, Decision.EFFORT, Decision.ELSEWHERE)
"""Words in the order of how much there is to do."""
NOTHING_G_M2: Final = 1.0
"""Amounts below this are told alike [g/m2]."""
PH_STEP: Final = 0.1
JUMP: Final = 1.6
"""A neighbour's amount grows by no more than this beyond what the step itself asks [1]."""


def pair_law(
    key: str, change: Change
) -> Callable[[Callable[[Letter, Letter], list[str]]], Callable[[Letter, Letter], list[str]]]:
    """Enter a law of two letters in the register."""

    def enter(
        check: Callable[[Letter, Letter], list[str]],
    ) -> Callable[[Letter, Letter], list[str]]:
        assert key not in PAIR_LAWS, f"two laws are called {key}"
        sentence = (check.__doc__ or "").strip().splitlines()[0]
        PAIR_LAWS[key] = PairLaw(key, sentence, change, check)
        return check

    return enter


_READ_WITH_PH: Final = frozenset(
    {"buffer_ph", "lab_lime_requirement", "cec_cmolc_kg", "base_saturation_pct"}
)
"""What a laboratory reads of the same sample goes with its pH, and says how much it resists."""


def further_off(draft: Draft, draw: random.Random) -> Draft | None:
    """The same bed a tenth of a pH further from its range."""
    soil = draft.table("soil")
    case = parse_case(draft.text())
    target, believed = bed_of(case).target, bed_of(case).soil
    if "ph" not in soil or target is None or believed is None or draft.has("applied"):
        return None
    ph, now = float(soil["ph"]), believed.ph.ph_water
    if case.readings or case.soil.other_ph or target.ph_low < now < target.ph_high:
        return None
    if _READ_WITH_PH & set(soil) or case.titration:
        return None
    further = ph + PH_STEP if now >= target.ph_high else ph - PH_STEP
    if not 3.3 <= further <= 9.2:
        return None
    made = draft.copy()
    made.table("soil")["ph"] = number(further)
    return made


def more_clay(draft: Draft, draw: random.Random) -> Draft | None:
    """The same bed with three per cent of sand turned into clay."""
    soil = draft.table("soil")
    if "clay_pct" not in soil or int(soil["sand_pct"]) < 4:
        return None
    made = draft.copy()
    changed = made.table("soil")
    changed["clay_pct"] = str(int(soil["clay_pct"]) + 3)
    changed["sand_pct"] = str(int(soil["sand_pct"]) - 3)
    return made


def more_humus(draft: Draft, draw: random.Random) -> Draft | None:
    """The same bed with half a per cent more of organic matter."""
    soil = draft.table("soil")
    if "organic_matter_pct" not in soil or "medium" in soil:
        return None
    made = draft.copy()
    made.table("soil")["organic_matter_pct"] = number(float(soil["organic_matter_pct"]) + 0.5)
    return made


def more_lime(draft: Draft, draw: random.Random) -> Draft | None:
    """The same bed with half as much free lime again."""
    soil = draft.table("soil")
    if float(soil.get("carbonate_pct", 0.0)) <= 0.0:
        return None
    made = draft.copy()
    made.table("soil")["carbonate_pct"] = number(1.5 * float(soil["carbonate_pct"]), 2)
    return made


def deeper(draft: Draft, draw: random.Random) -> Draft | None:
    """The same bed treated a centimetre deeper."""
    if "depth" not in draft.table("bed"):
        return None
    made = draft.copy()
    made.table("bed")["depth"] = number(float(draft.table("bed")["depth"]) + 1.0, 0)
    return made


def more_put_on(draft: Draft, draw: random.Random) -> Draft | None:
    """The same bed with a tenth more of what was put on first."""
    made = draft.copy()
    for header, keys in made.tables:
        if header == "[[applied]]" and "rate" in keys:
            keys["rate"] = number(1.1 * float(keys["rate"]))
            return made
    return None


def a_fact_less(draft: Draft, draw: random.Random) -> Draft | None:
    """The same bed with one of its facts left out."""
    made = draft.copy()
    droppable = [
        (header, key)
        for header, keys in made.tables
        for key in keys
        if (header, key) in _DROPPED and not (key == "texture" and "clay_pct" in keys)
    ]
    whole = [header for header, keys in made.tables if keys and header in _DROPPED_WHOLE]
    if not droppable and not whole:
        return None
    if whole and (not droppable or draw.random() < 0.4):
        gone = draw.choice(whole)
        made.tables.remove(next(one for one in made.tables if one[0] == gone))
        return made
    header, key = draw.choice(droppable)
    next(keys for name, keys in made.tables if name == header and key in keys).pop(key)
    return made


_DROPPED: Final = frozenset(
    {("[soil]", key) for key in (
        "texture", "organic_matter_pct", "carbonate_pct", "fizz", "buffer_ph", "cec_cmolc_kg",
        "lab_lime_requirement", "sodium_pct", "ec_ds_m", "clay_type", "bulk_density_g_cm3",
        "sample_depth",
    )}
    | {("[water]", "hardness"), ("[bed]", "drainage"), ("[bed]", "site"), ("[bed]", "growing"),
       ("[aim]", "by"), ("[soil]", "sampled")}
)  # fmt: skip
_DROPPED_WHOLE: Final = (
    "[water]",
    "[feed]",
    "[[applied]]",
    "[[reading]]",
    "[[claim]]",
    "[[soil.other_ph]]",
    "[[soil.layer]]",
    "[[on_hand]]",
    "[[titration]]",
    "[place]",
)


def no_proposal(draft: Draft, draw: random.Random) -> Draft | None:
    """The same bed without what is proposed for it."""
    if not draft.has("claim") and not any(name == "[[claim]]" for name, _ in draft.tables):
        return None
    made = draft.copy()
    made.tables = [one for one in made.tables if one[0] != "[[claim]]"]
    return made


@pair_law("P01", further_off)
def the_further_the_more(near: Letter, far: Letter) -> list[str]:
    """A bed further from its range needs more, by little more than the step, and is no easier."""
    found = _ladder(near, far)
    wanted = near.answer.wanted
    reads = bed_of(near.case).soil
    if wanted is None or reads is None:
        return found
    gap = abs(reads.ph.ph_water - wanted.ph_aim)
    return found + _grows(near, far, step=(gap + PH_STEP) / max(gap, PH_STEP))


@pair_law("P02", more_clay)
def more_clay_more_to_do(near: Letter, far: Letter) -> list[str]:
    """A little more clay asks for a little more, save where it only makes the soil lighter."""
    return _grows(near, far, step=1.0, falls_to=0.98)


@pair_law("P03", more_humus)
def humus_without_jumps(near: Letter, far: Letter) -> list[str]:
    """Half a per cent more of organic matter changes the amount without a jump."""
    return _grows(near, far, step=1.0, falls_to=0.9)


@pair_law("P04", more_lime)
def more_lime_more_acid(near: Letter, far: Letter) -> list[str]:
    """More free lime asks for more acid, and makes nothing easier."""
    if near.answer.dose.direction is not Direction.ACIDIFY:
        return []
    return [*_ladder(near, far), *_grows(near, far, step=1.5)]


@pair_law("P05", deeper)
def deeper_asks_for_more(near: Letter, far: Letter) -> list[str]:
    """A centimetre deeper asks for as much more as there is more soil."""
    depth = bed_of(near.case).depth_cm
    return _grows(near, far, step=(depth + 1.0) / depth)


@pair_law("P06", more_put_on)
def more_put_on_needs_no_more(near: Letter, far: Letter) -> list[str]:
    """More put on before never calls for more of the same, and never takes a stop away."""
    found = []
    harmed = near.answer.verdict.decision is Decision.STOP
    if harmed and far.answer.verdict.decision is not Decision.STOP and _only_one(near.case):
        found.append(f"stop, and with a tenth more {far.answer.verdict.decision}")
    acid = acid_brought_mmolc_m2(
        near.case.applied[0].material, rate_g_m2=1.0, in_pot=bed_of(near.case).in_pot
    )
    same = near.answer.dose.direction is far.answer.dose.direction
    way = Direction.ACIDIFY if acid > 0.0 else Direction.LIME
    before, after = _amount(near.answer), _amount(far.answer)
    if same and near.answer.dose.direction is way and after > before + NOTHING_G_M2:
        found.append(f"{before:.1f} g/m2, and with more of it put on {after:.1f}")
    return found


@pair_law("P07", a_fact_less)
def every_fact_counts(near: Letter, far: Letter) -> list[str]:
    """Every fact that is given is used or named as unused with the reason."""
    if _told(near.answer) != _told(far.answer) or near.case.notes != far.case.notes:
        return []
    gone = _difference(near.case, far.case)
    plan = near.answer.plan
    if gone == "on_hand" and plan is not None and plan.material in _on_hand(near.case):
        return []  # it is what goes on, and what would be bought for want of it
    named = [row.check.removeprefix(CHECK) for row in near.answer.findings if _names(row)]
    listed = {path for names in named for path in names.split(", ")}
    if any(path == gone or gone.startswith(path) or path.startswith(gone) for path in listed):
        return []
    return [f"{gone} is passed over in silence (named: {', '.join(sorted(listed)) or 'nothing'})"]


@pair_law("P08", no_proposal)
def a_proposal_changes_no_plan(near: Letter, far: Letter) -> list[str]:
    """What is proposed adds nothing to the plan and changes no decision."""
    found = []
    if near.answer.verdict != far.answer.verdict:
        found.append(
            f"{near.answer.verdict.decision}, and without the proposal "
            f"{far.answer.verdict.decision}"
        )
    if (near.answer.plan, near.answer.applications) != (far.answer.plan, far.answer.applications):
        found.append("the plan is another without the proposal")
    return found


def _amount(answer: Answer) -> float:
    """Sulfur or lime that the headline need speaks of [g/m2]."""
    band = answer.dose.sulfur_as_s_g_m2 or answer.dose.lime_as_caco3_g_m2
    return 0.0 if band is None else band.mid


def _ladder(near: Letter, far: Letter) -> list[str]:
    """The word for the case further off is no easier one."""
    words = (near.answer.verdict.decision, far.answer.verdict.decision)
    if not all(word in LADDER for word in words):
        return []
    if Reason.NO_COMMON_RANGE in (near.answer.verdict.reason, far.answer.verdict.reason):
        return []
    if near.answer.dose.direction is not far.answer.dose.direction and words[1] != "leave":
        return []
    if LADDER.index(words[1]) < LADDER.index(words[0]):
        return [f"{words[0]} ({near.answer.verdict.reason}), and further off {words[1]}"]
    return []


def _grows(near: Letter, far: Letter, *, step: float, falls_to: float = 1.0) -> list[str]:
    """The amount grows with the step, and by little more than the step."""
    if near.answer.dose.direction is not far.answer.dose.direction:
        return []
    before, after = _amount(near.answer), _amount(far.answer)
    if max(before, after) < NOTHING_G_M2 or not min(before, after):
        return []
    found = []
    if after < before * falls_to - NOTHING_G_M2:
        found.append(f"the need falls from {before:.1f} to {after:.1f} g/m2")
    if after > before * step * JUMP + NOTHING_G_M2:
        found.append(f"the need jumps from {before:.1f} to {after:.1f} g/m2")
    return found


def _on_hand(case: Case) -> set[str]:
    return {item.material.key for item in case.on_hand}


def _only_one(case: Case) -> bool:
    return len(case.applied) == 1


def _names(row: Finding) -> bool:
    return row.check.startswith(CHECK)


def _told(answer: Answer) -> Answer:
    """An answer without what it names as unused."""
    return replace(answer, findings=tuple(row for row in answer.findings if not _names(row)))


def _difference(near: Case, far: Case) -> str:
    """The path of the fact that one case has and the other has not."""
    tables = ("place", "bed", "soil", "aim", "water", "feed")
    for name in tables:
        one, other = getattr(near, name), getattr(far, name)
        if one == other:
            continue
        if one is None or other is None:
            return name
        for key in type(one).__dataclass_fields__:
            if getattr(one, key) != getattr(other, key):
                return f"{name}.{_key_of(key, near, far)}"
    lists = ("applied", "readings", "claims", "on_hand", "titration")
    for name in lists:
        if getattr(near, name) != getattr(far, name):
            return name.removesuffix("s")
    return "nothing"


def _key_of(key: str, near: Case, far: Case) -> str:
    """The key of the case file behind a field; the reading holds its date and depth."""
    one, other = near.soil.ph, far.soil.ph
    if key == "ph" and one is not None and other is not None and one.ph == other.ph:
        return "sampled" if one.taken != other.taken else "sample_depth"
    return _KEYS.get(key, key)


_KEYS: Final = {
    "lab_lime_requirement_g_m2": "lab_lime_requirement",
    "sample_depth_cm": "sample_depth",
    "hardness_mg_l_as_caco3": "hardness",
    "alkalinity_mg_l_as_caco3": "alkalinity",
}
