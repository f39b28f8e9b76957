"""The document of the case file and the answer, written from the schema itself."""

from __future__ import annotations

import sys
import textwrap
import typing
from collections.abc import Iterator
from enum import StrEnum
from pathlib import Path

from pydantic.fields import FieldInfo

from loamshift.case.answer import ANSWER_VERSION, answer_keys, kind_words, type_hints
from loamshift.case.answer_keys import KEPT_KEYS
from loamshift.case.answer_schema import answer_parts, key_of
from loamshift.case.quantities import Measure
from loamshift.case.reads import Reads
from loamshift.case.schema import CASE_VERSION, item_table, tables
from loamshift.case.schema_base import Table
from loamshift.domain.answer import Answer

_JOINER = "\x1f"
"""Stands for the space inside a name while lines are filled."""
_LISTS = ("on_hand", "applied", "reading", "titration", "claim")

_HEAD = f"""# The case file and the answer

<!-- Written by `python -m loamshift.case.page docs/case.md` from the schema; do not edit here. -->

A case goes in as a TOML file, version {CASE_VERSION}; the answer comes out as JSON, version
{ANSWER_VERSION} (`loamshift advise CASE.toml --json`). This page lists every key of both.

## Quantities

A quantity is a text with a unit, such as `"20 m2"`, `"6 in"`, `"3 cups"`, `"180 mg/L CaCO3"`,
`"5 oz/yd2"` or `"1 cup per plant"`. A bare number means area in m2, depth in cm, alkalinity in
mg/L CaCO3, weekly water in L on the whole bed, amount in g on the whole bed, rate in g/m2,
whatever `units` says.

- Fractions (`"1 1/2 in"`, `"½ cup"`), a decimal comma (`"2,5 cm"`) and thousands (`"1,000 sq ft"`)
  are read. A comma before exactly three digits marks thousands unless a nought stands before it.
- Areas: m2, ha, sq ft, sq yd, acre; `"5 x 4 m"`; `"40 cm diameter"`.
- Weights: g, kg, t (1000 kg), oz, lb, `short ton` (2000 lb), `long ton` (2240 lb). A plain ton to
  the acre is read as the short ton, a plain ton to the hectare as the tonne, and the letter says
  so; a plain ton otherwise is refused, as is cwt.
- Volumes: mL, L, m3, fl oz, pint, quart, gallon (of the US, and the letter says so; write `UK gal`
  for the other), cu ft, cu yd; a layer such as `"5 cm"` as a rate; cups, spoons, handfuls and
  buckets, which become grams by the material's own density, with their spread told.
- Rates: any weight or volume per m2, 100 sq ft, 1000 sq ft, yd2, acre, ha, plant or pot.
- Alkalinity: mg/L or ppm as CaCO3 or as HCO3, meq/L, mmol/L HCO3, dKH. Degrees of hardness are
  refused there.
- Temperatures: °C, or °F when `F` is written.

Plants, places, materials and textures are found without regard to case, hyphens or the spelling
of sulphur and sulfur, by any of their names; form and fineness follow a comma
(`"elemental sulfur, prills"`). A name that is unknown or could mean two things is a fault that
lists the nearest. Dates are written 2026-04-12.

Every fault is told at once, each with its path: `applied[2].amount` is the amount of the second
`[[applied]]`. A file over 1 MB is not read.

## The case file
"""

_RULES = f"""## Versions

The meaning of a key never changes within version {CASE_VERSION} of the case file or version
{ANSWER_VERSION} of the answer. A new key that may be left out, a new word of an enumeration, a new
caution code or a wider spelling may come within a version; anything else makes a new version,
which an older loamshift refuses by its number. An answer is stored whole, so that an old letter
says the same when it is opened again.
"""

_LABEL_HEAD = """### The label

`label` takes the analysis on a bag, as a table or as a text with the same keys (`_pct` may be left
out there): `label = { n_ammonium_pct = 21, s_sulfate_pct = 24 }` or
`label = "n_ammonium = 21, s_sulfate = 24"`. Every figure is per cent of the product as sold, and
may be left out. `material` may then be the product's own name; a shipped name lends what no bag
prints (grain, form, weight of a cup). Sulfate and phosphate count as parts of salts; calcium and
magnesium are lime only by the neutralising value.

"""

_ANSWER_HEAD = f"""## The answer

All keys are always there; they are null or `[]` when there is nothing to say. Shares are fractions
from 0 to 1, `mid` is the median, acid is positive where it acidifies, dates are ISO texts, numbers
carry six significant digits, and nothing is ever NaN. `loamshift.case.answer_schema.answer_schema`
gives the same as JSON Schema. Version {ANSWER_VERSION}.
"""


def _label_section() -> str:
    """The figures of a bag's label, which four tables take."""
    from loamshift.case.label_keys import FINENESS, FINENESS_EXAMPLE, FINENESS_MEANING, LABEL_KEYS

    rows = [
        f"| `{row.key}` | number, 0 to {row.most_pct:g} | {row.on_bags} | {row.meaning} |"
        for row in LABEL_KEYS
    ]
    rows.append(
        f"| `{FINENESS}` | text, such as `{FINENESS_EXAMPLE}` | passes | {FINENESS_MEANING} |"
    )
    head = "| key | what it takes | on bags | meaning |\n|---|---|---|---|\n"
    return f"{_LABEL_HEAD}{head}" + "\n".join(rows) + "\n"


def _names_section() -> str:
    """The names that come from shipped tables and are short enough to list."""
    from loamshift.case.kitchen import kitchen_words
    from loamshift.tables.laboratory import load_buffer_ph_methods
    from loamshift.tables.rules import load_cautions
    from loamshift.tables.soils import load_textures

    lists = (
        ("Textures", load_textures()),
        ("Buffer-pH methods", load_buffer_ph_methods()),
        ("Kitchen measures", kitchen_words()),
        ("Caution codes of the answer", load_cautions()),
    )
    lines = ["## Names", "", "Each is found by other spellings too; `loamshift materials`,"]
    lines += ["`loamshift plants` and `loamshift places` list the longer tables.", ""]
    for title, names in lists:
        whole = ", ".join(f"`{name.replace(' ', _JOINER)}`" for name in names)
        listed = textwrap.fill(whole, 98, break_on_hyphens=False, break_long_words=False)
        lines += [f"**{title}:**", listed.replace(_JOINER, " ") + ".", ""]
    return "\n".join(lines)


def case_page() -> str:
    """The whole document as Markdown."""
    parts = [_HEAD]
    for name, table in tables().items():
        parts.append(_table_section(name, table))
    parts.append(_label_section())
    parts.append(_names_section())
    parts.append(_ANSWER_HEAD)
    parts += [_answer_section(kind) for kind in answer_parts()]
    parts.append(_RULES)
    return "\n".join(parts)


def _table_section(name: str, table: type[Table]) -> str:
    is_list = name in _LISTS or "." in name
    title = f"`[[{name}]]`" if is_list else f"`[{name}]`" if name else "Top of the file"
    doc = (table.__doc__ or "").splitlines()[0]
    many = " Any number of entries." if is_list else ""
    lines = [f"### {title}", "", doc + many, ""]
    lines += ["| key | what it takes | default | example | meaning |", "|---|---|---|---|---|"]
    for key, field in table.model_fields.items():
        if item_table(field.annotation)[0] is None:
            lines.append(_key_row(key, field))
    return "\n".join([*lines, ""])


def _key_row(key: str, field: FieldInfo) -> str:
    reads = next(part for part in field.metadata if isinstance(part, Reads))
    takes = reads.kind
    if reads.choices:
        takes = ", ".join(f"`{word}`" for word in reads.choices)
    example = f"`{field.examples[0]}`" if field.examples else ""
    cells = (f"`{key}`", takes, _default(field), example, field.description or "")
    return "| " + " | ".join(cell.replace("|", "\\|") for cell in cells) + " |"


def _default(field: FieldInfo) -> str:
    if field.is_required():
        return "**required**"
    if field.default is None:
        return "not given"
    if isinstance(field.default, StrEnum):
        return f"`{field.default.value}`"
    if isinstance(field.default, Measure):
        return f"`{field.default.as_given}`"
    return f"`{field.default}`"


def _answer_section(kind: type) -> str:
    title = "Top of the answer" if kind is Answer else f"`{kind.__name__}`"
    used = "" if kind is Answer else f"In {', '.join(_used_in(kind))}.\n\n"
    rows = [
        f"| `{key}` | {_hint_words(type_hints(kind)[key])} | {key_of(kind, key).unit} "
        f"| {key_of(kind, key).text} |"
        for key in answer_keys(kind)
    ]
    head = "| key | type | unit | meaning |\n|---|---|---|---|\n"
    if kind is Answer:
        rows += [f"| `{key}` | table or null |  | {row.text} |" for key, row in KEPT_KEYS.items()]
    return f"### {title}\n\n{used}{head}" + "\n".join(rows) + "\n"


def _used_in(kind: type) -> Iterator[str]:
    for other in answer_parts():
        for key in answer_keys(other):
            if f"`{kind.__name__}`" in _hint_words(type_hints(other)[key]):
                owner = "" if other is Answer else f"{other.__name__}."
                yield f"`{owner}{key}`"


def _hint_words(hint: object) -> str:
    arguments = typing.get_args(hint)
    if typing.get_origin(hint) is tuple:
        return f"list of {_hint_words(arguments[0])}"
    if arguments:
        return " or ".join(_hint_words(part) for part in arguments)
    if isinstance(hint, type) and issubclass(hint, StrEnum):
        return ", ".join(f"`{kind.value}`" for kind in hint)
    if hint in answer_parts():
        return f"`{getattr(hint, '__name__', '')}`"
    return kind_words(hint).removeprefix("a ")


def main(arguments: list[str]) -> int:
    """Write the document to the path given; 0 when done, 2 for wrong usage."""
    if len(arguments) != 1:
        sys.stderr.write("usage: python -m loamshift.case.page docs/case.md\n")
        return 2
    Path(arguments[0]).write_text(case_page(), encoding="utf-8")
    return 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
