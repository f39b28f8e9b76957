"""Acids as sold for irrigation water, and how much of one makes a given acid."""

from __future__ import annotations

from dataclasses import dataclass

from loamshift.errors import InputError, OutOfRangeError


@dataclass(frozen=True, slots=True, kw_only=True)
class IrrigationParameters:
    """Molar masses, densities and dissociation of the acids, one field per row.

    ``*_g_mol`` molar mass [g/mol]; ``*_density_g_ml`` of the acid of that strength in per cent
    [g/mL]; ``*_pk*`` dissociation exponents [pH]; ``ionic_strength_*`` estimates [mol/kg].
    """

    sulfuric_g_mol: float
    nitric_g_mol: float
    phosphoric_g_mol: float
    citric_monohydrate_g_mol: float
    sulfuric_93_density_g_ml: float
    sulfuric_98_density_g_ml: float
    sulfuric_35_density_g_ml: float
    nitric_63_density_g_ml: float
    nitric_67_density_g_ml: float
    phosphoric_75_density_g_ml: float
    phosphoric_85_density_g_ml: float
    phosphoric_pk1: float
    phosphoric_pk2: float
    phosphoric_pk3: float
    citric_pk1: float
    citric_pk2: float
    citric_pk3: float
    sulfuric_pk2: float
    ionic_strength_per_alkalinity: float
    ionic_strength_base: float
    ionic_strength_per_ec: float


@dataclass(frozen=True, slots=True, kw_only=True)
class AcidProduct:
    """An acid as sold.

    ``pka`` lists the exponents of every H it can give up [pH]; a strong acid has one far below
    zero. ``density_g_ml`` is None for a dry acid, which is then weighed.
    """

    name: str
    molar_mass_g_mol: float
    purity_frac: float
    density_g_ml: float | None
    pka: tuple[float, ...]

    @property
    def unit(self) -> str:
        """Unit of the amounts of this product: mL, or g where it is dry [text]."""
        return "g" if self.density_g_ml is None else "mL"


_STRONG = -3.0


def acid_products(params: IrrigationParameters) -> dict[str, AcidProduct]:
    """The acids used in irrigation water, by name.

    Parameters
    ----------
    params
        Coefficients of the topic ``irrigation`` [see the dataclass].

    Returns
    -------
    dict
        Name to product [see the dataclass].

    Notes
    -----
    The per cent in a name is acid by mass; density belongs to that strength at 20 degC. The first
    proton of sulfuric and nitric acid is taken as always given up.

    References
    ----------
    crc-handbook

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> sorted(acid_products(IrrigationParameters(**parameter_values("irrigation"))))[0]
    'citric acid'
    """
    p = params
    sulfuric = (_STRONG, p.sulfuric_pk2)
    phosphoric = (p.phosphoric_pk1, p.phosphoric_pk2, p.phosphoric_pk3)
    citric = (p.citric_pk1, p.citric_pk2, p.citric_pk3)
    table: list[tuple[str, float, float, float | None, tuple[float, ...]]] = [
        ("sulfuric acid 93 %", p.sulfuric_g_mol, 0.93, p.sulfuric_93_density_g_ml, sulfuric),
        ("sulfuric acid 98 %", p.sulfuric_g_mol, 0.98, p.sulfuric_98_density_g_ml, sulfuric),
        ("sulfuric acid 35 %", p.sulfuric_g_mol, 0.35, p.sulfuric_35_density_g_ml, sulfuric),
        ("nitric acid 63 %", p.nitric_g_mol, 0.63, p.nitric_63_density_g_ml, (_STRONG,)),
        ("nitric acid 67 %", p.nitric_g_mol, 0.67, p.nitric_67_density_g_ml, (_STRONG,)),
        (
            "phosphoric acid 75 %",
            p.phosphoric_g_mol,
            0.75,
            p.phosphoric_75_density_g_ml,
            phosphoric,
        ),
        (
            "phosphoric acid 85 %",
            p.phosphoric_g_mol,
            0.85,
            p.phosphoric_85_density_g_ml,
            phosphoric,
        ),
        ("citric acid", p.citric_monohydrate_g_mol, 1.0, None, citric),
    ]
    return {
        name: AcidProduct(
            name=name,
            molar_mass_g_mol=mass,
            purity_frac=purity,
            density_g_ml=density,
            pka=pka,
        )
        for name, mass, purity, density, pka in table
    }


def protons_released(product: AcidProduct, ph_target: float) -> float:
    """H given up by one molecule of an acid once the water stands at a pH.

    Parameters
    ----------
    product
        The acid [see the dataclass].
    ph_target
        pH of the water afterwards, 2 to 10 [pH].

    Returns
    -------
    float
        Moles of H per mole of acid [mol/mol].

    Raises
    ------
    OutOfRangeError
        For a pH outside 2 to 10.

    Notes
    -----
    Sum of 1/(1 + 10^(pKa - pH)). Phosphoric acid gives 1.04 at pH 5.8 (printed factors count
    one); citric acid 2.1 at 5.8 and 2.5 at 6.5, and three, as printed factors count, only near
    pH 7 and above.

    References
    ----------
    crc-handbook

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> acids = acid_products(IrrigationParameters(**parameter_values("irrigation")))
    >>> round(protons_released(acids["citric acid"], 5.8), 1)
    2.1
    """
    if not 2.0 <= ph_target <= 10.0:
        raise OutOfRangeError(
            f"ph_target {ph_target:g} is outside 2 to 10; 5.8 to 6.5 is usual for watering"
        )
    return float(sum(1.0 / (1.0 + 10.0 ** (pka - ph_target)) for pka in product.pka))


def acid_strength_molc_l(product: AcidProduct, *, protons: float) -> float:
    """Acid in a litre of a liquid product.

    Parameters
    ----------
    product
        The acid [see the dataclass].
    protons
        Moles of H that count per mole, from :func:`protons_released` [mol/mol].

    Returns
    -------
    float
        Equivalents per litre, the same number as mmolc per mL [molc/L].

    Raises
    ------
    InputError
        For a dry acid, which has no strength per litre.

    Notes
    -----
    1000 x purity x density / molar mass x protons.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> acids = acid_products(IrrigationParameters(**parameter_values("irrigation")))
    >>> round(acid_strength_molc_l(acids["sulfuric acid 93 %"], protons=2.0), 1)
    34.8
    """
    if product.density_g_ml is None:
        raise InputError(f"{product.name} is dry: weigh it, see product_per_100_l")
    return 1000.0 * product.purity_frac * product.density_g_ml / product.molar_mass_g_mol * protons


def product_per_100_l(*, acid_mmolc_l: float, product: AcidProduct, protons: float) -> float:
    """How much of an acid as sold goes into 100 litres of water.

    Parameters
    ----------
    acid_mmolc_l
        Acid wanted per litre, from ``core.irrigation.water_acid_mmolc_l`` [mmolc/L].
    product
        The acid [see the dataclass].
    protons
        Moles of H that count per mole, from :func:`protons_released` [mol/mol].

    Returns
    -------
    float
        Amount per 100 L, in the unit the product names: mL, or g where it is dry [mL or g].

    Raises
    ------
    OutOfRangeError
        For a negative acid or no H that counts.

    Notes
    -----
    Amount = 100 x acid / strength. Acid is poured into water, never water into acid.

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> acids = acid_products(IrrigationParameters(**parameter_values("irrigation")))
    >>> acid = acids["sulfuric acid 93 %"]
    >>> round(product_per_100_l(acid_mmolc_l=2.0, product=acid, protons=2.0), 1)
    5.7
    """
    if not acid_mmolc_l >= 0.0:
        raise OutOfRangeError(f"acid_mmolc_l {acid_mmolc_l:g} must be 0 or more; nothing to add")
    if not protons > 0.0:
        raise OutOfRangeError(
            f"protons {protons:g} must be above 0; at this pH the acid gives up nothing, take a "
            "stronger one"
        )
    if product.density_g_ml is None:
        return 0.1 * acid_mmolc_l * product.molar_mass_g_mol / product.purity_frac / protons
    return 100.0 * acid_mmolc_l / acid_strength_molc_l(product, protons=protons)
