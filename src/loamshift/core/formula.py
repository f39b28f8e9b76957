"""Chemical formulas: masses, and the acid or base a compound leaves behind in soil."""

from __future__ import annotations

import re
from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from loamshift.errors import InputError

ATOMIC_MASS_G_MOL: Final[Mapping[str, float]] = MappingProxyType(
    {
        "H": 1.008,
        "C": 12.011,
        "N": 14.007,
        "O": 15.999,
        "Na": 22.990,
        "Mg": 24.305,
        "Al": 26.982,
        "Si": 28.085,
        "P": 30.974,
        "S": 32.06,
        "Cl": 35.45,
        "K": 39.098,
        "Ca": 40.078,
        "Mn": 54.938,
        "Fe": 55.845,
        "Cu": 63.546,
        "Zn": 65.38,
    }
)
"""Standard atomic weights, IUPAC 2021, abridged [g/mol]."""

_LASTING_CHARGE: Final[Mapping[str, int]] = MappingProxyType(
    {"S": 2, "Cl": 1, "P": 1, "Ca": -2, "Mg": -2, "K": -1, "Na": -1}
)
"""Acid left per atom once it stands in soil as sulfate, chloride, dihydrogen phosphate or a
strong base cation [molc/mol]. Aluminium and iron end as hydroxide and carbon as carbon dioxide,
and leave nothing."""

_TOKEN: Final = re.compile(r"([A-Z][a-z]?)|(\()|(\))|([1-9]\d*)|(.)", re.DOTALL)


def element_counts(formula: str) -> dict[str, int]:
    """Atoms of each element in a formula.

    Parameters
    ----------
    formula
        Such as ``Al2(SO4)3.18H2O``; parts joined by a dot may begin with a number [text].

    Returns
    -------
    dict
        Element to its number of atoms [-].

    Raises
    ------
    InputError
        Where the formula cannot be read or names an element not in use here.

    Notes
    -----
    Charges, isotopes and unknown amounts (``nH2O``) are not read.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> element_counts("CaSO4.2H2O")
    {'Ca': 1, 'S': 1, 'O': 6, 'H': 4}
    """
    counts: dict[str, int] = {}
    for part in formula.replace("·", ".").split("."):
        lead = re.match(r"[1-9]\d*", part)
        times = int(lead.group()) if lead else 1
        for element, number in _part_counts(part[lead.end() if lead else 0 :], formula).items():
            counts[element] = counts.get(element, 0) + times * number
    return counts


def _part_counts(part: str, formula: str) -> dict[str, int]:
    stack: list[dict[str, int]] = [{}]
    last: dict[str, int] = {}
    for element, opened, closed, digits, other in _TOKEN.findall(part):
        if other or (element and element not in ATOMIC_MASS_G_MOL) or (digits and not last):
            raise InputError(
                f"formula “{formula}” cannot be read at “{other or element or digits}”; write it "
                "like Al2(SO4)3.18H2O"
            )
        if digits:
            for name, number in last.items():
                stack[-1][name] += number * (int(digits) - 1)
            last = {}
        elif opened:
            stack.append({})
            last = {}
        else:
            if closed and len(stack) == 1:
                raise InputError(f"formula “{formula}” closes a bracket that was never opened")
            last = stack.pop() if closed else {element: 1}
            for name, number in last.items():
                stack[-1][name] = stack[-1].get(name, 0) + number
    if len(stack) != 1 or not stack[0]:
        raise InputError(f"formula “{formula}” is empty or leaves a bracket open")
    return stack[0]


def formula_mass_g_mol(formula: str) -> float:
    """Mass of one mole of a compound.

    Parameters
    ----------
    formula
        Such as ``FeSO4.7H2O`` [text].

    Returns
    -------
    float
        Formula mass [g/mol].

    Raises
    ------
    InputError
        Where the formula cannot be read.

    Notes
    -----
    Standard atomic weights, abridged.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> round(formula_mass_g_mol("CaCO3"), 2)
    100.09
    """
    counts = element_counts(formula)
    return sum(ATOMIC_MASS_G_MOL[element] * number for element, number in counts.items())


def acid_mol_per_mol(formula: str, *, n_uptake_frac: float = 0.0) -> float:
    """Acid that a mole of a compound leaves in soil once all its reactions are over.

    Positive acidifies, negative limes. Answers by charge alone what reaction by reaction gives:
    the strong acid anions that stay, less the strong base cations. How fast is left out.

    Parameters
    ----------
    formula
        Such as ``(NH4)2SO4`` [text].
    n_uptake_frac
        Share of the nitrogen that plants take up as nitrate, 0 to 1 [0-1].

    Returns
    -------
    float
        Acid; negative for base [molc/mol].

    Raises
    ------
    InputError
        Where the formula cannot be read or the share is not 0 to 1.

    Notes
    -----
    2 S + Cl + P + (1 - u) N - 2 Ca - 2 Mg - K - Na. All nitrogen ends as nitrate, of which the
    share u leaves with an equal charge of base set free. Phosphorus stays as H2PO4. The same
    balance with u = 0.5 is the convention of Pierre (1933; recalled, not read).

    References
    ----------
    pierre-1933, own-arithmetic

    Examples
    --------
    >>> acid_mol_per_mol("(NH4)2SO4"), acid_mol_per_mol("CaSO4.2H2O"), acid_mol_per_mol("CaCO3")
    (4.0, 0.0, -2.0)
    """
    if not 0.0 <= n_uptake_frac <= 1.0:
        raise InputError(f"n_uptake_frac = {n_uptake_frac:g} must be a share from 0 to 1")
    counts = element_counts(formula)
    charge = sum(_LASTING_CHARGE.get(element, 0) * number for element, number in counts.items())
    return charge + (1.0 - n_uptake_frac) * counts.get("N", 0)


def acid_molc_kg(formula: str, *, n_uptake_frac: float = 0.0) -> float:
    """Acid that a kilogram of a pure compound leaves in soil; see ``acid_mol_per_mol``.

    Parameters
    ----------
    formula
        Such as ``Al2(SO4)3.18H2O`` [text].
    n_uptake_frac
        Share of the nitrogen that plants take up as nitrate, 0 to 1 [0-1].

    Returns
    -------
    float
        Acid; negative for base [molc/kg].

    Raises
    ------
    InputError
        Where the formula cannot be read or the share is not 0 to 1.

    Notes
    -----
    ``acid_mol_per_mol`` over the formula mass.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> round(acid_molc_kg("S"), 2), round(acid_molc_kg("FeSO4.7H2O"), 2)
    (62.38, 7.19)
    """
    per_mol = acid_mol_per_mol(formula, n_uptake_frac=n_uptake_frac)
    return 1000.0 * per_mol / formula_mass_g_mol(formula)
