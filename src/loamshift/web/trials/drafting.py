"""From what a form asks to the keys of a trial file, and back."""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import date
from typing import Any, Final
from uuid import UUID

from loamshift.case.trial_read import OF_CASE, trial_from_tree
from loamshift.case.trial_schema import TRIAL_VERSION
from loamshift.domain.case import Case
from loamshift.domain.message import message
from loamshift.domain.message import rate as rate_of
from loamshift.domain.trial import Design
from loamshift.domain.worded_error import fault
from loamshift.errors import CaseError
from loamshift.services.context.readings import current_reading
from loamshift.services.trial.expect import doses_to_span
from loamshift.store.models import Bed, Client, Office
from loamshift.store.scope import kept
from loamshift.web.cases import case_of
from loamshift.web.trials.forms import BED, CASE_KEYS, CLIENT, TrialForm

Tree = dict[str, Any]
_FIGURE: Final = re.compile(r"-?\d+(\.\d+)?")
_PLAIN: Final = (
    *("name", "question", "design", "replicates", "start", "ph_method", "matters", "sd"),
    *("control", "seed"),
)
"""Fields whose text is the value of the key of the same name."""
_SOIL: Final = ("ph", "soil_method", "texture", "om", "fizz", "place")
_ONE_RATE: Final = "1 g/m2"


def owner_of(office: Office, told: str) -> Bed | Client | None:
    """The bed or the client of an office that a form names."""
    before, _, key = told.partition(":")
    try:
        pk = UUID(key)
    except ValueError:
        return None
    if f"{before}:" == BED:
        return kept(Bed, office).filter(pk=pk).first()
    return kept(Client, office).filter(pk=pk).first() if f"{before}:" == CLIENT else None


def tree_of(form: TrialForm, owner: Bed | Client | None, *, today: date) -> Tree:
    """The keys of a trial file as a form gives them; nothing is judged yet but a bed's own case.

    Raises
    ------
    CaseError
        Where the bed that the soil is taken from cannot be used.
    """
    typed = {name: str(form[name].value() or "").strip() for name in form.fields}
    tree: Tree = {"trial": TRIAL_VERSION}
    tree |= {name: _value(typed[name], name) for name in _PLAIN if typed[name]}
    tree |= {name: True for name in ("in_blocks", "blind") if _ticked(typed[name])}
    if not _ticked(typed["by_lot"]):
        tree["by_lot"] = False
    days = [_value(part) for part in re.split(r"[,;\s]+", typed["days"].strip("[]")) if part]
    if days:
        tree["days"] = days
    soils = [_figures(line) for line in typed["slurry"].splitlines() if line.strip()]
    if soils:
        tree["slurry"] = soils
    factors = [typed[name] for name in ("factor_1", "factor_2") if typed[name]]
    if factors:
        tree["factors"] = factors
    of_bed = isinstance(owner, Bed) and typed["soil"] != "own"
    if of_bed:
        assert isinstance(owner, Bed)
        tree |= _until(soil_of(owner, today=today), typed["start"])
        tree["of_bed"] = True
    else:
        _put(tree, {CASE_KEYS[name]: typed[name] for name in _SOIL})
    kind = "" if Design(typed["design"] or "randomised").is_of_beds else typed["kind"]
    kind = "field" if typed["design"] == Design.STRIPS.value else kind or "ground"
    tree["bed"] = {"kind": kind, "planted": False}
    tree["bed"] |= {name: typed[name] for name in ("area", "depth") if typed[name]}
    tree["treatment"] = [_treatment(row.data, row.prefix or "") for row in form.filled()]
    return tree


def with_doses(form: TrialForm, tree: Tree) -> Tree:
    """A tree with the treatments of a dose series worked out, where one is asked for.

    Raises
    ------
    CaseError
        Where the series cannot be worked out.
    """
    typed = {
        name: str(form[f"dose_{name}"].value() or "").strip()
        for name in ("material", "count", "to_ph")
    }
    if not any(typed.values()):
        return tree
    lacking = [
        fault(f"dose_{name}", message("trial-form-dose-all"))
        for name, one in typed.items()
        if not one
    ]
    if lacking:
        raise CaseError(lacking)
    count, to_ph = _between(typed, "count", 3, 10), _between(typed, "to_ph", 3, 9)
    bare = {"name": "0 g/m2"}
    one = {"name": "1", "material": typed["material"], "rate": _ONE_RATE}
    tree = {**tree, "design": Design.DOSES.value, "treatment": [bare, one]}
    trial = trial_from_tree(tree)
    rates = doses_to_span(trial, ph_to=to_ph, count=round(count))
    if not rates:
        raise CaseError([fault("dose_to_ph", message("trial-doses-wrong-way"))])
    tree["treatment"] = [
        {"name": f"{rate:g} g/m2", "material": typed["material"], "rate": f"{rate:g} g/m2"}
        if rate
        else bare
        for rate in rates
    ]
    try:
        trial_from_tree(tree)
    except CaseError:
        wrong = message("trial-form-dose-too-much", most=rate_of(max(rates)))
        raise CaseError([fault("dose_to_ph", wrong)]) from None
    return tree


def shown(tree: Mapping[str, Any], *, belongs: str) -> dict[str, Any]:
    """A trial that is kept as its form shows it."""
    bed = tree.get("bed", {})
    told: dict[str, Any] = {name: tree.get(name, "") for name in _PLAIN}
    told |= {name: tree.get(name, False) for name in ("in_blocks", "blind")}
    told["by_lot"] = tree.get("by_lot", True)
    told["days"] = ", ".join(str(day) for day in tree.get("days", []))
    told["slurry"] = "\n".join("; ".join(map(str, soil)) for soil in tree.get("slurry", []))
    told |= dict(zip(("factor_1", "factor_2"), tree.get("factors", []), strict=False))
    told |= {"belongs": belongs, "kind": bed.get("kind", ""), "area": bed.get("area", "")}
    told["soil"] = "bed" if tree.get("of_bed") else "own"
    for name, path in CASE_KEYS.items():
        table, _, key = path.partition(".")
        told[name] = tree.get(table, {}).get(key, "")
    told["treatments"] = [_row(one) for one in tree.get("treatment", [])]
    return told


def soil_of(bed: Bed, *, today: date) -> Tree:
    """What a trial takes from its bed: the soil as it was last read, the water, the place."""
    tree = {key: bed.case_json[key] for key in OF_CASE if key in bed.case_json and key != "bed"}
    case: Case = case_of(bed.case_json, today=today)
    reading = current_reading(case)
    if reading is not None:
        soil = {**tree.get("soil", {}), "ph": reading.ph, "ph_method": reading.method.value}
        if reading.taken is not None:
            soil["sampled"] = reading.taken.isoformat()
        tree["soil"] = soil
    return tree


def _until(tree: Tree, start: str) -> Tree:
    """What was known of a bed when a trial starts that is set down later."""
    soil = {**tree.get("soil", {})}
    if str(soil.get("sampled", ""))[:10] > start:
        soil.pop("sampled", None)
    applied = [one for one in tree.get("applied", []) if str(one.get("date", ""))[:10] <= start]
    found = {**tree, "soil": soil, "applied": applied}
    return {key: value for key, value in found.items() if value}


def _treatment(data: Mapping[str, Any], prefix: str) -> Tree:
    typed = {
        name: str(data.get(f"{prefix}-{name}", "")).strip()
        for name in ("name", "material", "rate", "level_1", "level_2")
    }
    made: Tree = {name: typed[name] for name in ("name", "material", "rate") if typed[name]}
    if typed["rate"] and not typed["material"]:
        made["material"] = ""
    levels = [typed[name] for name in ("level_1", "level_2") if typed[name]]
    return made | ({"levels": levels} if levels else {})


def _row(entry: Mapping[str, Any]) -> dict[str, str]:
    levels = [*entry.get("levels", []), "", ""]
    return {
        "name": str(entry.get("name", "")),
        "material": str(entry.get("material", "")),
        "rate": str(entry.get("rate", entry.get("amount", ""))),
        "level_1": levels[0],
        "level_2": levels[1],
    }


def _value(typed: str, name: str = "") -> object:
    """A figure as a figure, everything else as it was typed, for the reader to judge."""
    bare = typed.replace(",", ".")
    if name in ("name", "question", "control") or not _FIGURE.fullmatch(bare):
        return typed
    return float(bare) if "." in bare else int(bare)


def _figures(line: str) -> list[object]:
    """Readings of one soil; a comma before a blank parts them, one between digits is a point."""
    return [
        _value(part.strip(",")) for part in re.split(r"[;\s]+|,(?=\s)", line) if part.strip(",")
    ]


def _put(tree: Tree, values: Mapping[str, str]) -> None:
    for path, value in values.items():
        table, _, key = path.partition(".")
        if value:
            tree.setdefault(table, {})[key] = value


def _ticked(value: str) -> bool:
    return value in ("on", "True", "true", "1", "yes")


def _between(typed: Mapping[str, str], name: str, low: float, high: float) -> float:
    given = _value(typed[name])
    if isinstance(given, (int, float)) and low <= given <= high:
        return float(given)
    wrong = message("trial-form-dose-between", low=round(low), high=round(high))
    raise CaseError([fault(f"dose_{name}", wrong)])
