"""The short forms on a bed's own page: what they ask, and what was wrong with what was typed."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final, Self

from loamshift.errors import Fault
from loamshift.report.words import Words
from loamshift.web.beds.case_form import asked_path, path_label

QUICK: Final[Mapping[str, tuple[str, ...]]] = {
    "reading": ("date", "ph", "ph_method", "depth"),
    "applied": ("date", "material", "amount", "rate", "incorporated"),
}
"""Lists that the bed's own page adds one entry to, with what it asks."""


@dataclass(frozen=True, slots=True, kw_only=True)
class QuickForm:
    """A short form: empty, or as it was typed where it could not be saved."""

    table: str
    values: Mapping[str, str]
    faults: Mapping[str, Fault]
    """By the field that is to blame."""
    whole: tuple[tuple[str, Fault], ...]
    """Those for which no field of the form is to blame, with what the place is called."""

    @property
    def is_wrong(self) -> bool:
        """True where it could not be saved."""
        return bool(self.faults or self.whole)

    @classmethod
    def fresh(cls, table: str, **values: str) -> Self:
        """A form to fill in, with what can be known already."""
        empty = dict.fromkeys(QUICK[table], "")
        return cls(table=table, values=empty | values, faults={}, whole=())

    @classmethod
    def of(
        cls,
        table: str,
        typed: Mapping[str, str],
        faults: Sequence[Fault],
        *,
        number: int,
        words: Words,
    ) -> Self:
        """Sort faults by the fields of the form.

        Parameters
        ----------
        number
            Which entry of its list the form asks for, the first being 0.
        """
        at = f"{table}.{number}."
        paths = [(asked_path(fault.path), fault) for fault in faults]
        own = {
            path.removeprefix(at): fault
            for path, fault in reversed(paths)
            if path.startswith(at) and path.removeprefix(at) in typed
        }
        return cls(
            table=table,
            values=typed,
            faults=own,
            whole=tuple(
                ("" if f"{path}." == at or not path else path_label(fault.path, words), fault)
                for path, fault in paths
                if fault not in own.values()
            ),
        )
