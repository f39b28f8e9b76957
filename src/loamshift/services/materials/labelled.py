"""From the analysis on a bag to a material: its vector, its kind and what to mind."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from itertools import pairwise
from types import MappingProxyType
from typing import Final

from loamshift.core.bag_label import (
    ALUMINIUM_ACID_MOLC_KG,
    CACO3_PER_CAO,
    CALCIUM_PER_CAO,
    IRON_ACID_MOLC_KG,
    MAGNESIUM_PER_MGO,
    PHOSPHORUS_PER_P2O5,
    POTASSIUM_PER_K2O,
    SULFUR_PER_SO3,
    Ions,
    ammonia_base_molc_kg,
    ions_molc_kg,
    label_salt_molc_kg,
)
from loamshift.domain.evidence import Evidence
from loamshift.domain.label import Label, Passing
from loamshift.domain.material import (
    BREAK_UP_DUG_IN,
    BREAK_UP_TOP,
    Figure,
    Material,
    MaterialGroup,
    SizeClass,
)
from loamshift.tables.materials import load_materials

_SULFUR_GRADE: Final = "elemental sulfur, powder"
_LIME_GRADE: Final = "ground limestone, calcitic"
_COAT_GRADE: Final = "sulfur-coated urea"
_KEEPS_GROUP: Final = (MaterialGroup.ORGANIC, MaterialGroup.ASH, MaterialGroup.IRON)
"""What a label does not turn into something else: its own decay, ash or chelate goes on."""
_CAUSTIC_FRAC: Final = 1.1
"""Carbonates lie below this neutralising value; above it there is oxide or hydroxide [0-1]."""
_DUST_FRAC: Final = 0.3
_IRON_STAINS_FRAC: Final = 0.005
_AMMONIA_N_FRAC: Final = 0.03
"""Ammonium or urea from which gas escapes beside lime; calcium nitrate has less [0-1]."""
_SALT_MOLC_KG: Final = 5.0
_SULFUR_CODES: Final = ("cold-soil", "split", "hydrogen-sulfide", "too-early")
_SULFUR_SPAN: Final = 4.0
"""Sulfur is taken to be ground down to this fraction of its finest sieve [1]."""
_COARSEST_SPAN: Final = 2.0
"""What no sieve passes is taken to reach to so many times the coarsest opening [1]."""

_OXIDES: Final = (
    ("so3_pct", "s_sulfate", SULFUR_PER_SO3),
    ("p2o5_pct", "p", PHOSPHORUS_PER_P2O5),
    ("k2o_pct", "k", POTASSIUM_PER_K2O),
    ("cao_pct", "ca", CALCIUM_PER_CAO),
    ("mgo_pct", "mg", MAGNESIUM_PER_MGO),
    ("nv_as_cao_pct", "nv_as_caco3", CACO3_PER_CAO),
)


def label_shares(label: Label) -> dict[str, float]:
    """The figures of a bag as shares of the product, oxides turned into what they stand for.

    Returns
    -------
    dict
        By key without ``_pct``; where a figure is given in both ways, the first counts [0-1].

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> round(label_shares(Label(so3_pct=60.0))["s_sulfate"], 2)
    0.24
    """
    shares = {key.removesuffix("_pct"): value / 100.0 for key, value in label.said.items()}
    for key, stands_for, factor in _OXIDES:
        given = label.said.get(key)
        if given is not None:
            shares.setdefault(stands_for, factor * given / 100.0)
    return shares


def label_ions(label: Label) -> Ions:
    """Charges that a bag's analysis stands for.

    Returns
    -------
    Ions
        Charges [molc/kg product].

    References
    ----------
    own-arithmetic
    """
    shares = label_shares(label)
    return ions_molc_kg(
        n_as_nh4_frac=shares.get("n_ammonium", 0.0),
        n_as_urea_frac=shares.get("n_urea", 0.0),
        n_as_no3_frac=shares.get("n_nitrate", 0.0),
        s_as_so4_frac=shares.get("s_sulfate", 0.0),
        p_frac=shares.get("p", 0.0),
        k_frac=shares.get("k", 0.0),
        ca_frac=shares.get("ca", 0.0),
        mg_frac=shares.get("mg", 0.0),
        fe_frac=shares.get("fe_sulfate", 0.0),
        al_frac=shares.get("al_sulfate", 0.0),
        caco3_eq_frac=shares.get("nv_as_caco3", 0.0),
    )


def labelled_material(
    label: Label, *, key: str, written: str, kind: Material | None = None
) -> Material:
    """The material that a bag's analysis describes.

    Answers what the bag brings by its figures, whatever its name says. Phosphate and potassium are
    salts, sulfate is part of one, calcium and magnesium lime only by the neutralising value.

    Parameters
    ----------
    kind
        A shipped material of the same sort: it lends form, grain, weight by volume and what decay
        does, none of which stands on a bag; None where nobody said.

    Notes
    -----
    Iron and aluminium sulfate bring the acid of their metal. Phosphate counts as H2PO4, and takes
    up acid as far as the analysis needs HPO4 to be neutral. Slow nitrogen acts as organic nitrogen
    does: one mole of acid per mole, by the clock of meals. Sulfur without a grain counts as flowers
    and lime without a fineness as ground garden lime, for no bag of either says more.

    References
    ----------
    own-arithmetic, common-practice

    Examples
    --------
    >>> bag = labelled_material(Label(s_element_pct=30.0), key="bag", written="bag")
    >>> bag.elemental_s_frac, bag.group.value
    (0.3, 'sulfur')
    """
    shares, ions = label_shares(label), label_ions(label)
    metal = IRON_ACID_MOLC_KG * shares.get("fe_sulfate", 0.0)
    metal += ALUMINIUM_ACID_MOLC_KG * shares.get("al_sulfate", 0.0)
    vector = {
        "elemental_s_frac": shares.get("s_element", 0.0),
        "fast_acid_molc_kg": metal - ammonia_base_molc_kg(ions),
        "n_as_nh4_frac": shares.get("n_ammonium", 0.0),
        "n_as_urea_frac": shares.get("n_urea", 0.0),
        "n_as_no3_frac": shares.get("n_nitrate", 0.0),
        "n_organic_frac": shares.get("n_slow", 0.0),
        "caco3_eq_frac": shares.get("nv_as_caco3", 0.0),
        "salt_molc_kg": label_salt_molc_kg(ions),
    }
    group = _group(vector, metal)
    if kind is not None and kind.group in _KEEPS_GROUP:
        group = kind.group
    base = kind or Material(
        key=key, name_uk=written, name_us=written, synonyms=(), group=group, form="by its label"
    )
    sizes = _sizes(label, kind, vector)
    material = replace(
        base,
        key=key,
        name_uk=key,
        name_us=key,
        synonyms=(),
        group=group,
        sizes=sizes,
        intact_diameter_um=None if label.fineness else base.intact_diameter_um,
        label=label,
        written=written,
        figures=MappingProxyType(
            {**_figures(vector, ions), **({} if label.fineness else _break_up(base))}
        ),
        elemental_s_frac=vector["elemental_s_frac"],
        fast_acid_molc_kg=vector["fast_acid_molc_kg"],
        n_as_nh4_frac=vector["n_as_nh4_frac"],
        n_as_urea_frac=vector["n_as_urea_frac"],
        n_as_no3_frac=vector["n_as_no3_frac"],
        n_organic_frac=vector["n_organic_frac"],
        caco3_eq_frac=vector["caco3_eq_frac"],
        salt_molc_kg=vector["salt_molc_kg"],
    )
    return replace(material, cautions=_cautions(material, kind, shares, ions))


def _group(vector: Mapping[str, float], metal_molc_kg: float) -> MaterialGroup:
    """What it is for: any nitrogen makes it a feed, for nitrogen is what then limits it."""
    nitrogen = sum(vector[name] for name in vector if name.startswith("n_"))
    if nitrogen > 0.0:
        return MaterialGroup.NITROGEN
    by_acid = {
        MaterialGroup.SULFUR: 62.4 * vector["elemental_s_frac"],
        MaterialGroup.ACID_SALT: metal_molc_kg,
        MaterialGroup.LIME: 20.0 * vector["caco3_eq_frac"],
    }
    group = max(by_acid, key=lambda one: by_acid[one])
    return group if by_acid[group] > 0.0 else MaterialGroup.NEUTRAL_SALT


def _sizes(
    label: Label, kind: Material | None, vector: Mapping[str, float]
) -> tuple[SizeClass, ...]:
    is_sulfur = vector["elemental_s_frac"] > 0.0
    if label.fineness:
        return _classes(label.fineness, is_sulfur=is_sulfur)
    if kind is not None and kind.sizes:
        return kind.sizes
    materials = load_materials()
    if is_sulfur:
        coated = vector["n_as_urea_frac"] > vector["elemental_s_frac"]
        return materials[_COAT_GRADE if coated else _SULFUR_GRADE].sizes
    return materials[_LIME_GRADE].sizes if vector["caco3_eq_frac"] > 0.0 else ()


def _classes(fineness: tuple[Passing, ...], *, is_sulfur: bool) -> tuple[SizeClass, ...]:
    """Size classes between the sieves; sulfur in classes of at most a doubling, by log size."""
    finest, coarsest = fineness[0], fineness[-1]
    low_um = finest.opening_um / _SULFUR_SPAN if is_sulfur else 0.0
    edges = [(low_um, finest.opening_um, finest.passing_pct)]
    edges += [
        (fine.opening_um, coarse.opening_um, coarse.passing_pct - fine.passing_pct)
        for fine, coarse in pairwise(fineness)
    ]
    top_um = _COARSEST_SPAN * coarsest.opening_um
    edges.append((coarsest.opening_um, top_um, 100.0 - coarsest.passing_pct))
    found = []
    for low, high, share_pct in edges:
        if share_pct <= 0.0:
            continue
        parts = 1
        while is_sulfur and (high / low) ** (1.0 / parts) > 2.0 + 1e-9:
            parts += 1
        cuts = [low * (high / low) ** (n / parts) for n in range(parts)] if low else [low]
        found += [
            SizeClass(start, end, share_pct / 100.0 / parts)
            for start, end in pairwise([*cuts, high])
        ]
    return tuple(found)


def _cautions(
    material: Material, kind: Material | None, shares: Mapping[str, float], ions: Ions
) -> tuple[str, ...]:
    codes = list(kind.cautions) if kind is not None else []
    sulfur = material.elemental_s_frac
    if sulfur >= _DUST_FRAC and material.intact_diameter_um is None:
        codes.append("sulfur-dust")
    if material.group is MaterialGroup.SULFUR:
        codes += _SULFUR_CODES
    if material.n_frac > 0.0:
        codes.append("nitrogen")
    if shares.get("fe_sulfate", 0.0) >= _IRON_STAINS_FRAC:
        codes += ("iron-stain", "children-pets")
    if shares.get("al_sulfate", 0.0) > 0.0:
        codes += ("aluminium", "children-pets")
    if kind is None and material.caco3_eq_frac > _CAUSTIC_FRAC:
        codes += ("caustic-lime", "children-pets")
    if material.group is MaterialGroup.NEUTRAL_SALT:
        codes.append("neutral-salt")
    if _dissolves_molc_kg(ions) >= _SALT_MOLC_KG or material.group is MaterialGroup.ACID_SALT:
        codes.append("salt")
    if material.group in (MaterialGroup.LIME, MaterialGroup.ACID_SALT):
        codes.append("split")
    as_ammonia = material.n_as_nh4_frac + material.n_as_urea_frac
    if as_ammonia >= _AMMONIA_N_FRAC or material.group is MaterialGroup.LIME:
        codes.append("ammonia")
    return tuple(dict.fromkeys(codes))


def _dissolves_molc_kg(ions: Ions) -> float:
    """Salt that scorches at once: urea has yet to turn, and phosphate is soon held."""
    return label_salt_molc_kg(ions) - ions.urea - 2.0 * ions.phosphate


def _break_up(base: Material) -> Mapping[str, Figure]:
    """How fast its prills break up, which no label says."""
    names = (BREAK_UP_TOP, BREAK_UP_DUG_IN)
    return {name: base.figures[name] for name in names if name in base.figures}


def _figures(vector: Mapping[str, float], ions: Ions) -> Mapping[str, Figure]:
    """Every figure of the vector as one of the bag, and the gypsum that calcium sulfate fills."""
    gypsum = min(ions.alkaline_earth_left, ions.sulfate) if ions.calcium > ions.base else 0.0
    figures = {name: value for name, value in vector.items() if value}
    figures |= {"sulfate_molc_kg": gypsum} if gypsum else {}
    return MappingProxyType(
        {
            name: Figure(
                value=float(f"{value:.3g}"),
                low=None,
                high=None,
                unit="molc/kg" if name.endswith("_molc_kg") else "kg/kg",
                source_key="own-arithmetic",
                evidence=Evidence.DERIVED,
                note="by the label",
            )
            for name, value in figures.items()
        }
    )
