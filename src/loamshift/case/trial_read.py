"""Reading a trial file: a ``Trial``, or every fault at once."""

from __future__ import annotations

import datetime
import difflib
import math
from collections.abc import Iterator, Mapping
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final, TypeAlias

from loamshift.case.case_key import row_of
from loamshift.case.collect import Collected
from loamshift.case.faults import first_faults, path_text
from loamshift.case.lines import with_lines
from loamshift.case.mend import ListMend, Mend, fault_of, for_example, quoted
from loamshift.case.read import case_from_tree
from loamshift.case.schema import CASE_VERSION, CaseFile, item_table
from loamshift.case.toml_text import parse_toml, read_text
from loamshift.case.trial_schema import DAYS, DAYS_BEFORE_AFTER, TreatmentEntry, TrialFile
from loamshift.domain.case import BedKind, Case
from loamshift.domain.message import Given, Listed, Message, message
from loamshift.domain.ph import PhMethod
from loamshift.domain.trial import Design, Treatment, Trial
from loamshift.errors import CaseError, Fault, InputError
from loamshift.tables.parameters import parameter_values

if TYPE_CHECKING:
    from pydantic_core import ErrorDetails

_OWN: Final = ("case", "today", "name", "claim", "reading")
"""Keys of a case file that a trial says in its own way."""
OF_CASE: Final = tuple(key for key in CaseFile.model_fields if key not in _OWN)
_ENTRY: Final = "treatment["
_ADDS: Final = ("material", "label", "amount", "rate")
_MOST_PLACES: Final = 500
_Adds: TypeAlias = list[tuple[int, str, Mapping[str, Any]]]
"""Materials of treatments: number of the treatment, path in the file, keys."""
_ANY_DAY: Final = datetime.date(2100, 1, 1)
"""Where a file has no day to start, the rest of it can still be checked: all it tells is past."""


def read_trial(path: Path) -> Trial:
    """The trial in a file.

    Raises
    ------
    CaseError
        Where the file cannot be used; it carries every fault found.
    """
    text = read_text(path)
    try:
        return parse_trial(text, source=str(path), folder=path.parent)
    except CaseError as error:
        faults = with_lines(error.faults, text)
        raise CaseError(faults, source=str(path), units=error.units) from None


def parse_trial(text: str, *, source: str = "trial.toml", folder: Path | None = None) -> Trial:
    """The trial in a text.

    Parameters
    ----------
    folder
        Folder that a case file named in it is looked for in; without one it is a fault.

    Raises
    ------
    CaseError
        Where the text cannot be used; it carries every fault found.
    """
    return trial_from_tree(parse_toml(text, source=source), source=source, folder=folder)


def trial_from_tree(
    tree: Mapping[str, Any], *, source: str = "trial", folder: Path | None = None
) -> Trial:
    """The trial in the keys of a trial file, already taken out of its text.

    Parameters
    ----------
    folder
        Folder that a case file named in it is looked for in; without one it is a fault.

    Raises
    ------
    CaseError
        Where the keys cannot be used; it carries every fault found.
    """
    from pydantic import ValidationError

    shared = {key: tree[key] for key in OF_CASE if key in tree}
    own = {key: value for key, value in tree.items() if key not in shared}
    faults: list[Fault] = []
    file: TrialFile | None = None
    try:
        file = TrialFile.model_validate(own)
    except ValidationError as error:
        faults = [fault for one in error.errors(include_url=False) for fault in _faults(one)]
    adds = _flattened(own)
    bad = {
        int(f.path[len(_ENTRY) : f.path.index("]")]) for f in faults if f.path.startswith(_ENTRY)
    }
    sound = [one for one in adds if one[0] + 1 not in bad]
    design = None if file is None else file.design
    case = None
    try:
        start = _day_told(own.get("start")) if file is None else file.start
        case = _case(own, shared, sound, design=design, start=start, source=source, folder=folder)
    except CaseError as error:
        faults += [_renamed(fault, sound) for fault in error.faults]
    if faults or file is None or case is None:
        raise CaseError(first_faults(faults), source=source)
    collected = Collected()
    trial = _trial(file, case, adds, collected)
    if trial is None or collected.faults:
        raise CaseError(first_faults(collected.faults), source=source)
    return trial


def _day_told(given: object) -> datetime.date | None:
    """A day where one is told, in a file that is wrong elsewhere."""
    if isinstance(given, datetime.date):
        return given
    try:
        return datetime.date.fromisoformat(str(given))
    except ValueError:
        return None


def _flattened(own: Mapping[str, Any]) -> _Adds:
    """Every material of every treatment: number of the treatment, path, keys."""
    found: _Adds = []
    treatments = own.get("treatment")
    for number, entry in enumerate(treatments if isinstance(treatments, list) else []):
        if not isinstance(entry, Mapping):
            continue
        path = f"treatment[{number + 1}]"
        if any(key in entry for key in _ADDS):
            found.append((number, path, {k: entry[k] for k in _ADDS if k in entry}))
        also = entry.get("also")
        for place, more in enumerate(also if isinstance(also, list) else [], start=1):
            if isinstance(more, Mapping):
                found.append((number, f"{path}.also[{place}]", more))
    return found


def _case(
    own: Mapping[str, Any],
    shared: Mapping[str, Any],
    adds: _Adds,
    *,
    design: Design | None,
    start: datetime.date | None,
    source: str,
    folder: Path | None,
) -> Case:
    """One pot or plot as a bed, with what the treatments add as its claims."""
    tree: dict[str, Any] = {}
    named = own.get("case_file")
    if isinstance(named, str):
        if folder is None:
            wrong = message("trial-case-file-alone")
            raise CaseError([fault_of("case_file", named, wrong)], source=source)
        path = folder / named
        try:
            given = parse_toml(read_text(path), source=str(path))
        except InputError as error:
            faults = getattr(error, "faults", ())
            wrong = message("trial-case-file", given=quoted(named))
            raise CaseError(
                [fault_of("case_file", named, wrong), *faults], source=source
            ) from error
        tree = {key: given[key] for key in OF_CASE if key in given}
    tree |= shared
    bed = dict(tree["bed"]) if isinstance(tree.get("bed"), Mapping) else {}
    kind = BedKind.FIELD if design is Design.STRIPS else BedKind.CONTAINER
    if design is not None and design.is_of_beds:
        kind = BedKind.GROUND
    bed.setdefault("kind", kind.value)
    bed.setdefault("planted", False)
    tree |= {
        "case": CASE_VERSION,
        "name": own.get("name") if isinstance(own.get("name"), str) else "trial",
        "bed": bed,
        "claim": [dict(keys) for _, _, keys in adds],
    }
    return case_from_tree(tree, source=source, today=start or _ANY_DAY, folder=folder)


def _renamed(fault: Fault, adds: _Adds) -> Fault:
    """A fault about a claim at the treatment that it stands for."""
    if not fault.path.startswith("claim["):
        return replace(fault, path="start") if fault.path == "today" else fault
    number, _, rest = fault.path[len("claim[") :].partition("]")
    return replace(fault, path=f"{adds[int(number) - 1][1]}{rest}")


def _faults(error: ErrorDetails) -> Iterator[Fault]:
    """What the schema refused, as faults."""
    loc, given, kind = error["loc"], error.get("input"), error["type"]
    path = path_text(loc)
    reason = (error.get("ctx") or {}).get("error")
    if isinstance(reason, ListMend):
        for place, part, mend in reason.parts:
            yield fault_of(path_text((*loc, place)), part, mend.wrong, *mend.right)
    elif isinstance(reason, Mend):
        yield fault_of(path, given, reason.wrong, *(reason.right or _example(loc)))
    elif kind == "missing":
        yield fault_of(path, None, message("case-missing"), *_example(loc))
    elif kind == "extra_forbidden":
        yield _unknown(loc, given)
    elif kind == "list_type":
        header = Given(f"[[{path}]]")
        right = message("case-entry-under-header", header=header)
        yield fault_of(path, given, message("case-not-entries"), right)
    else:
        header = Given(f"[[{path_text([part for part in loc if not isinstance(part, int)])}]]")
        right = message("case-write-table", header=header)
        yield fault_of(path, given, message("case-not-a-table", given=quoted(given)), right)


def _table(loc: tuple[str | int, ...]) -> Any:
    table: Any = TrialFile
    for part in loc:
        if isinstance(part, str):
            field = table.model_fields.get(part) if table else None
            table = item_table(field.annotation)[0] if field else None
    return table


def _example(loc: tuple[str | int, ...]) -> tuple[Message, ...]:
    table = _table(loc[:-1])
    field = table.model_fields.get(str(loc[-1])) if table else None
    row = row_of(field) if field else None
    return () if row is None else (for_example(row.example),)


def _unknown(loc: tuple[str | int, ...], given: object) -> Fault:
    table, key = _table(loc[:-1]), str(loc[-1])
    known = list(table.model_fields) + (list(OF_CASE) if table is TrialFile else [])
    near = difflib.get_close_matches(key.casefold(), known, n=3, cutoff=0.6)
    listed = Listed(tuple(Given(name) for name in near or known))
    here = path_text([part for part in loc[:-1] if not isinstance(part, int)])
    header = None if here == "file" else Given(f"[[{here}]]")
    if near:
        right = message("case-nearest-keys", keys=listed)
    else:
        right = message("case-keys-here", header=header, keys=listed)
    wrong = message("case-unknown-key", name=quoted(key), header=header)
    return fault_of(path_text(loc), given, wrong, right)


def _trial(
    file: TrialFile,
    case: Case,
    adds: _Adds,
    collected: Collected,
) -> Trial | None:
    """The trial, once what must agree between its keys does."""
    limits = parameter_values("trial")
    design = file.design or Design.RANDOMISED
    of_each: dict[int, list[int]] = {}
    for index, (number, _, _) in enumerate(adds):
        of_each.setdefault(number, []).append(index)
    treatments = [
        Treatment(
            name=entry.name or "",
            adds=tuple(case.claims[index] for index in of_each.get(number, [])),
            levels=entry.levels or (),
        )
        for number, entry in enumerate(file.treatment)
    ]
    _check_treatments(file.treatment, treatments, design, file.factors, collected)
    if case.soil.ph is None:
        collected.fault("soil.ph", None, message("trial-soil-ph"), for_example("7.2"))
    names = [treatment.name for treatment in treatments]
    bare = [treatment.name for treatment in treatments if not treatment.adds]
    control = file.control or (bare[0] if bare else None)
    if control is not None and control not in names:
        known = Listed(tuple(Given(f'"{name}"') for name in names), either=True)
        collected.fault(
            "control", control, message("trial-control"), message("case-one-of", words=known)
        )
    replicates = file.replicates or 1
    if replicates * len(treatments) > _MOST_PLACES:
        count = replicates * len(treatments)
        unit = "bed" if design.is_of_beds else "pot"
        wrong = message("trial-too-many", count=count, most=_MOST_PLACES, unit=unit)
        collected.fault("replicates", replicates, wrong)
    days = _days(file, design, collected)
    if collected.faults or file.start is None:
        return None
    treatments.sort(key=lambda treatment: treatment.name != control)
    in_blocks = design.always_in_blocks or bool(file.in_blocks)
    per_row = (
        len(treatments) if in_blocks else max(2, round(math.sqrt(len(treatments) * replicates)))
    )
    return Trial(
        name=file.name or "",
        question=file.question or "",
        design=design,
        start=file.start,
        treatments=tuple(treatments),
        has_control=control is not None,
        replicates=replicates,
        in_blocks=in_blocks,
        by_lot=file.by_lot is not False,
        seed=1 if file.seed is None else file.seed,
        days=days,
        ph_method=file.ph_method or PhMethod.WATER_1_2_5,
        matters_ph=file.matters or limits["matters_ph"],
        sd_ph=file.sd,
        slurry_ph=tuple(one for one in file.slurry or () if len(one) > 1),
        factors=file.factors or (),
        blind=bool(file.blind),
        per_row=file.per_row or per_row,
        of_bed=bool(file.of_bed) or file.case_file is not None,
        case=case,
    )


def _days(file: TrialFile, design: Design, collected: Collected) -> tuple[int, ...]:
    """The days of reading; one before the start and one after it where both are compared."""
    is_both = design is Design.BEFORE_AFTER
    if "days" not in file.model_fields_set or file.days is None:
        return DAYS_BEFORE_AFTER if is_both else DAYS
    days = tuple(sorted(set(file.days)))
    example = for_example("[-60, -30, 0, 30, 90]")
    if is_both and not days[0] <= 0 < days[-1]:
        collected.fault("days", list(days), message("trial-days-both"), example)
    elif not is_both and days[0] < 0:
        collected.fault("days", list(days), message("trial-days-before"), for_example("[0, 30]"))
    return days


def _check_treatments(
    entries: list[TreatmentEntry],
    treatments: list[Treatment],
    design: Design,
    factors: tuple[str, ...] | None,
    collected: Collected,
) -> None:
    names = [treatment.name.casefold() for treatment in treatments]
    if len(treatments) < 2:
        collected.fault(
            "treatment", None, message("trial-two-treatments"), message("trial-treatment-header")
        )
    for number, name in enumerate(names, start=1):
        if name in names[: number - 1]:
            wrong = message("trial-name-twice", given=quoted(treatments[number - 1].name))
            collected.fault(f"treatment[{number}].name", entries[number - 1].name, wrong)
    if design is Design.PAIRED and len(treatments) > 2:
        wrong = message("trial-paired", count=len(treatments))
        collected.fault("design", design.value, wrong, message("trial-paired-mend"))
    if design is Design.DOSES:
        used = {entry.material.key for one in treatments for entry in one.adds}
        if len(used) > 1 or any(len(one.adds) > 1 for one in treatments):
            collected.fault("design", design.value, message("trial-doses-one-material"))
    if design is Design.TWO_FACTOR:
        _check_factors(treatments, factors, collected)


def _check_factors(
    treatments: list[Treatment], factors: tuple[str, ...] | None, collected: Collected
) -> None:
    if factors is None or len(factors) != 2:
        right = for_example('["peat", "sulfur"]')
        collected.fault("factors", None, message("trial-factors"), right)
        return
    cells = [treatment.levels for treatment in treatments]
    short = [number for number, cell in enumerate(cells, start=1) if len(cell) != 2]
    for number in short:
        wrong = message("trial-levels", first=Given(factors[0]), second=Given(factors[1]))
        right = for_example('["with peat", "fine"]')
        collected.fault(f"treatment[{number}].levels", None, wrong, right)
    if short:
        return
    firsts, seconds = ({cell[i] for cell in cells} for i in (0, 1))
    missing = [(a, b) for a in sorted(firsts) for b in sorted(seconds) if (a, b) not in cells]
    if missing or len(set(cells)) != len(cells) or min(len(firsts), len(seconds)) < 2:
        listed = Listed(tuple(Given(f"{a} + {b}") for a, b in missing)) if missing else None
        collected.fault("treatment", None, message("trial-cells", missing=listed))
