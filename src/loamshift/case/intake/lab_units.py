"""Units as laboratories write them, each brought to one spelling."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Final

_SPELLINGS: Final = {
    "%": ("%", "pct", "percent", "percentage", "vol%", "gew%", "m%", "wt%", "%m/m", "massa%",
          "g/100g", "percents", "dm%", "%dm", "mass%", "%w/w", "pp"),
    "g/kg": ("g/kg", "‰", "gkg", "g/kgdm", "g/kgts", "g/kgds", "promille", "mg/g"),
    "dag/kg": ("dag/kg",),
    "mg/kg": ("mg/kg", "ppm", "ug/g", "mg/kgdm", "mg/kgts", "mgkg", "mg/kgds", "mg/1000g"),
    "mg/100 g": ("mg/100g", "mg/100gts", "mg/100gboden", "mg/100ggleby", "mg%", "mg/100gjord"),
    "mg/L": ("mg/dm3", "mg/l", "mg/litre", "mg/lsoil", "ppmv", "ug/ml", "mg/lgrond"),
    "g/dm3": ("g/dm3",),
    "lb/ac": ("lb/ac", "lbs/ac", "lb/acre", "lbs/acre", "lbs/a", "lb/a", "pp2m", "#/a", "#/ac"),
    "kg/ha": ("kg/ha", "kgha"),
    "cmolc/kg": ("cmolc/kg", "cmol/kg", "cmol(+)/kg", "cmol+/kg", "meq/100g", "me/100g",
                 "meq/100gm", "meq/100gr", "meq%", "me%", "mval/100g", "cmolckg", "meq/100gsoil",
                 "cmole/kg", "centimol/kg", "milliequivalents/100g"),
    "mmolc/kg": ("mmolc/kg", "mmol/kg", "mmol(+)/kg", "mmol+/kg", "meq/kg", "me/kg", "mval/kg"),
    "cmolc/dm3": ("cmolc/dm3", "cmol/dm3", "meq/100cm3", "meq/100ml", "me/100cm3", "cmolc/l"),
    "mmolc/dm3": ("mmolc/dm3", "mmol/dm3"),
    "dS/m": ("ds/m", "ms/cm", "mmho/cm", "mmhos/cm", "mmhos", "dsm", "mmho", "mhos", "ms"),
    "mS/m": ("ms/m",),
    "uS/cm": ("us/cm", "micros/cm", "umho/cm", "umhos/cm", "us"),
    "mg/L salts": ("ppmsalts", "mg/ltds", "ppmtds", "ppmtss"),
    "t/ha": ("t/ha", "ton/ha", "tonne/ha", "tonnes/ha", "tons/ha", "to/ha", "mg/ha", "tn/ha"),
    "t CaO/ha": ("tcao/ha", "t/hacao", "tonne/hacao", "tcaoha", "t/hacaorein"),
    "dt CaO/ha": ("dtcao/ha", "dt/hacao", "qcao/ha"),
    "kg CaO/ha": ("kgcao/ha", "kg/hacao"),
    "dt/ha": ("dt/ha", "q/ha", "qx/ha"),
    "ton/ac": ("ton/ac", "tons/ac", "ton/acre", "tons/acre", "tons/a", "ton/a",
               "shorttons/acre"),
    "lb/1000 sq ft": ("lb/1000sqft", "lbs/1000sqft", "lb/1000ft2", "lbs/1000ft2", "lb/m",
                      "lbs/1,000sqft", "lb/1,000sqft", "lb/mft2", "lbs/1000squarefeet"),
    "lb/100 sq ft": ("lb/100sqft", "lbs/100sqft", "lb/100ft2", "lbs/100ft2"),
    "g/m2": ("g/m2", "g/sqm"),
    "kg/m2": ("kg/m2",),
    "oz/yd2": ("oz/yd2", "oz/sqyd"),
    "g/cm3": ("g/cm3", "g/cc", "g/ml", "kg/l", "kg/dm3", "t/m3", "g/cm"),
    "kg/m3": ("kg/m3", "g/l"),
    "cm": ("cm", "cms", "centimetre", "centimetres", "centimeter"),
    "mm": ("mm",),
    "m": ("m", "metre", "metres", "meter"),
    "in": ("in", "inch", "inches", '"', "”", "in."),
    "mg/L CaCO3": ("mg/lcaco3", "mg/lascaco3", "ppmcaco3", "ppmascaco3", "mgcaco3/l",
                   "mg/l(caco3)"),
    "mg/L HCO3": ("mg/lhco3", "mg/lashco3", "ppmhco3", "mghco3/l"),
    "meq/L": ("meq/l", "mmolc/l", "me/l", "mval/l", "mmol/l"),
    "dH": ("dh", "°dh", "gdh", "°d"),
    "fH": ("fh", "°fh", "tf", "°f"),
    "gpg": ("gpg", "grains", "grains/gallon"),
    "index": ("index", "indexvalue", "klasse", "class", "idx", "stufe"),
    "none": ("s.u.", "su", "phunits", "phunit", "unitless", "none", "pHunits", "standardunits"),
    "ratio": ("ratio",),
}  # fmt: skip
_BY_SPELLING: Final = {one: unit for unit, many in _SPELLINGS.items() for one in many}
_SIGNS: Final = str.maketrans(
    {"³": "3", "²": "2", "µ": "u", "μ": "u", "−": "-", "⁻": "-", "¹": "1", "⁺": "+", "₃": "3",
     "·": " ", "•": " ", "^": "", "₊": "+", "–": "-", "—": "-", "₂": "2", "ₒ": "o"}
)  # fmt: skip
_PER_ONE: Final = re.compile(r"\s*\b(kg|g|ha|l|dm|m|cm|ac|acre|ml)\s*-\s*([1-3])\b")


@lru_cache(maxsize=4_096)
def unit_of(text: str) -> str:
    """The one spelling of a unit; empty where a text is none.

    >>> unit_of("mg kg-1"), unit_of("me/100g"), unit_of("cmol(+) kg⁻¹"), unit_of("Result")
    ('mg/kg', 'cmolc/kg', 'cmolc/kg', '')
    """
    plain = text.translate(_SIGNS).casefold().strip().strip("[]").strip()
    if plain.startswith("in ") and plain != "in ":
        plain = plain[3:]
    plain = _PER_ONE.sub(lambda m: f"/{m[1]}{m[2] if m[2] != '1' else ''}", plain)
    plain = plain.replace(" per ", "/").replace(" of ", " ").replace("*", "")
    tight = re.sub(r"\s+", "", plain)
    for one in (tight, tight.strip("()"), re.sub(r"(?:as|of|v/v|m/m|w/w|,)", "", tight)):
        if one in _BY_SPELLING:
            return _BY_SPELLING[one]
    return ""
