"""Products known by their label: from a name and an analysis to a material of the case."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from loamshift.case.collect import Collected
from loamshift.case.faults import faults_from
from loamshift.case.label import label_short
from loamshift.case.label_checks import kind_faults
from loamshift.case.schema_base import OwnName
from loamshift.case.schema_care import AppliedEntry, ClaimEntryTable, FeedTable, OnHandEntry
from loamshift.domain.label import Label
from loamshift.domain.material import Material
from loamshift.domain.message import message
from loamshift.errors import CaseError
from loamshift.services.materials.labelled import labelled_material
from loamshift.tables.lime_grades import KNOWN_AS
from loamshift.tables.materials import load_materials

Entry = AppliedEntry | ClaimEntryTable | FeedTable | OnHandEntry

_MUCH_FRAC: Final = 0.3


def entry_material(entry: Entry, path: str, collected: Collected) -> Material | None:
    """The material of an entry: shipped, or as its label describes it.

    Returns
    -------
    Material or None
        The material; None where none is named or its label cannot be used.
    """
    name, label = entry.material, entry.label
    if name is None or (label is None and isinstance(name, OwnName)):
        return None
    if isinstance(name, Material) and label is None:
        return None if collected.is_bad(f"{path}.label") else name
    if label is None:
        return None
    if isinstance(name, Material):  # its label makes lime of unknown grade a known one
        name = load_materials()[KNOWN_AS.get(name.key, name.key)]
    kind = name if isinstance(name, Material) else None
    if kind is not None:
        faults = list(kind_faults(label, kind))
        for key, mend in faults:
            collected.mend(f"{path}.label.{key}" if key else f"{path}.label", None, mend)
        if faults:
            return None
    return _known(label, name, path, collected)


def _known(
    label: Label, name: Material | OwnName, path: str, collected: Collected
) -> Material | None:
    """The product of this name and label, the same object for each entry that names it."""
    kind = name if isinstance(name, Material) else None
    written = name.key if isinstance(name, Material) else name.text
    key = written if kind is None else f"{written} ({label_short(label)})"
    before = collected.products.get(key)
    if before is not None and before.label != label and kind is None:
        collected.fault(
            f"{path}.material",
            written,
            message("case-label-same-name"),
            message("case-label-own-name"),
        )
        return None
    number = 2
    while before is not None and before.label != label:
        key = f"{written} ({label_short(label)}, no. {number})"
        before, number = collected.products.get(key), number + 1
    if before is None:
        before = labelled_material(label, key=key, written=written, kind=kind)
        collected.products[key] = before
        _note_grain(before, kind, path, collected)
    return before


def _note_grain(material: Material, kind: Material | None, path: str, collected: Collected) -> None:
    """Say what grain was taken where neither the label nor the kind of product tells it."""
    if kind is not None or material.label is None or material.label.fineness:
        return
    if material.elemental_s_frac >= _MUCH_FRAC:
        collected.note(f"{path}.label", message("case-note-sulfur-grain"))
    elif material.caco3_eq_frac >= _MUCH_FRAC:
        collected.note(f"{path}.label", message("case-note-lime-fineness"))


def product_from_label(name: str, label: str) -> Material:
    """A product known by its name and by the analysis on its bag, outside any case file.

    Raises
    ------
    CaseError
        With every fault of the label.
    """
    from pydantic import ValidationError

    collected = Collected()
    try:
        entry = OnHandEntry.model_validate({"material": name, "label": label})
    except ValidationError as error:
        raise CaseError(faults_from(error.errors(include_url=False)), source="the label") from None
    material = entry_material(entry, "", collected)
    if material is None or collected.faults:
        faults = [replace(fault, path=fault.path.removeprefix(".")) for fault in collected.faults]
        raise CaseError(faults, source="the label")
    return material
