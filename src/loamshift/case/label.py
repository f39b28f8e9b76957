"""The label of a bag in a case file: a table of percentages, or the same as a text."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import fields
from itertools import pairwise
from typing import Final

from loamshift.case.label_checks import label_faults
from loamshift.case.label_keys import FINENESS, FINENESS_EXAMPLE, LABEL_KEYS, LabelKey
from loamshift.case.mend import ListMend, Mend, for_example, plain_figure, quoted, shown, typed
from loamshift.case.numbers import number_from
from loamshift.case.reads import Holds, Reads
from loamshift.domain.label import Label, Passing
from loamshift.domain.message import Given, message
from loamshift.services.materials.labelled import label_shares

EXAMPLE: Final = "{ n_ammonium_pct = 21, s_sulfate_pct = 24 }"
_EXAMPLE: Final = for_example(EXAMPLE)


_BY_KEY: Final = {row.key: row for row in LABEL_KEYS}
_OTHER_NAMES: Final[Mapping[str, str]] = {
    **dict.fromkeys(("n", "nitrogen", "total_n"), "nitrogen"),
    **dict.fromkeys(("s", "sulfur", "sulphur"), "sulfur"),
    **dict.fromkeys(("nv", "neutralising_value", "neutralizing_value", "lime"), "value"),
    **dict.fromkeys(("fe", "iron"), "iron"),
}
"""Names that leave the form of an element open, and what they name."""
_SAME_NAMES: Final[Mapping[str, str]] = {
    **dict.fromkeys(("cce", "caco3", "calcium_carbonate"), "nv_as_caco3_pct"),
    **dict.fromkeys(("al", "aluminium", "aluminum"), "al_sulfate_pct"),
}
"""Other names of a figure, with its key."""
_SIEVE: Final = re.compile(
    r"(?P<pct>\d+(?:[.,]\d+)?)\s*(?:%|per\s?cent|percent)?\s*"
    r"(?:through|thru|pass(?:es|ing)?(?:\s+through)?|under|below|<|<=)?\s*"
    r"(?:a\s+|an\s+|no\.?\s*)?(?P<size>\d+(?:[.,]\d+)?)\s*"
    r"(?P<unit>mesh|um|µm|μm|microns?|mm)\b(?:\s+sieve)?",
    re.IGNORECASE,
)
_PAIR: Final = re.compile(
    r"\s*([A-Za-z0-9_ \-]+?)\s*[=:]\s*(\"[^\"]*\"|'[^']*'|\d+,\d+\s*%?|[^,;]+?)\s*(?:[,;]|$)"
)
_ACTS: Final = {
    "s_element": "S",
    "n_ammonium": "ammonium N",
    "n_urea": "urea N",
    "n_nitrate": "nitrate N",
    "n_slow": "slow N",
    "fe_sulfate": "Fe",
    "al_sulfate": "Al",
    "nv_as_caco3": "lime value",
}
"""What acts on the pH in a label, as an answer tells two bags of one kind apart."""
_LONGEST_TEXT: Final = 1000


def read_label(value: object) -> Label:
    """The label of a bag, with every fault of it at once.

    Parameters
    ----------
    value
        A table of percentages by key, or the same as a text (``n_ammonium = 21, s_sulfate = 24``).

    Raises
    ------
    Mend
        Where it is neither; a ``ListMend`` where some of its figures cannot be used.
    """
    table = _table_of(value)
    wrong: list[tuple[int | str, object, Mend]] = []
    figures: dict[str, float] = {}
    fineness: tuple[Passing, ...] = ()
    for name, given in table.items():
        try:
            key = _key_of(str(name))
            if key in figures or (key == FINENESS and fineness):
                raise Mend(message("case-figure-twice"), message("case-keep-one"))
            if key == FINENESS:
                fineness = _read_fineness(given)
            else:
                figures[key] = _read_figure(given, _BY_KEY[key])
        except Mend as mend:
            wrong.append((shown(name), given, mend))
    label = Label(**figures, fineness=fineness)
    wrong_keys = {_spelled(name) for name, _, _ in wrong}
    wrong += [
        (key, _as_given(table, key), mend) for key, mend in label_faults(label, wrong=wrong_keys)
    ]
    whole = [mend for key, _, mend in wrong if not key]
    if whole and len(wrong) == 1:
        raise whole[0]
    if wrong:
        raise ListMend(wrong)
    return label


LABEL: Final = Reads(parse=read_label, takes=message("takes-label"), holds=Holds.TABLE)


def label_table(label: Label) -> dict[str, float | str]:
    """A label as the case file has it: its figures by key [%], and its fineness as a text."""
    table: dict[str, float | str] = {}
    for part in fields(label):
        value = getattr(label, part.name)
        if isinstance(value, float):
            table[part.name] = int(value) if value.is_integer() else value
    if label.fineness:
        table[FINENESS] = fineness_text(label.fineness)
    return table


def label_text(label: Label) -> str:
    """A label as one line that :func:`read_label` reads.

    >>> label_text(Label(n_ammonium_pct=21.0, s_sulfate_pct=24.0))
    'n_ammonium_pct = 21, s_sulfate_pct = 24'
    """
    return ", ".join(
        f'{key} = "{value}"' if isinstance(value, str) else f"{key} = {value}"
        for key, value in label_table(label).items()
    )


def label_short(label: Label, *, nothing: str = "by its label") -> str:
    """What acts on the pH in a label, in a few words; ``nothing`` where none does."""
    shares = label_shares(label)
    acting = [
        f"{plain_figure(100.0 * shares[name])} % {called}"
        for name, called in _ACTS.items()
        if shares.get(name)
    ]
    return ", ".join(acting) or nothing


def fineness_text(fineness: Iterable[Passing]) -> str:
    """What passes which sieve, as a text that reads back."""
    return ", ".join(f"{one.passing_pct:g} % through {one.opening_um:g} um" for one in fineness)


def _table_of(value: object) -> Mapping[object, object]:
    if isinstance(value, Mapping):
        table: Mapping[object, object] = value
    elif isinstance(value, str):
        table = _pairs(value)
    else:
        raise Mend(message("case-label-no-figures", given=quoted(value)), _EXAMPLE)
    if not table:
        raise Mend(message("case-label-empty"), _EXAMPLE)
    return table


def _pairs(text: str) -> dict[object, object]:
    text = text.strip().removeprefix("{").removesuffix("}").strip()
    if len(text) > _LONGEST_TEXT:
        raise Mend(message("case-label-too-long"), _EXAMPLE)
    found: dict[object, object] = {}
    at = 0
    while at < len(text):
        pair = _PAIR.match(text, at)
        if pair is None or pair.end() == at:
            raise Mend(
                message("case-label-not-a-figure", given=quoted(text[at:])),
                message("case-label-with-commas"),
                _EXAMPLE,
            )
        key, given = pair[1].strip(), pair[2].strip("\"' ")
        if key in found:
            raise Mend(message("case-key-twice", name=quoted(key)), message("case-keep-one"))
        found[key] = given
        at = pair.end()
    return found


def _key_of(name: str) -> str:
    wanted = re.sub(r"[\s\-]+", "_", name.strip().casefold())
    wanted = wanted.replace("sulph", "sulf").replace("nitrogen_as_", "n_").replace("_as_no3", "")
    bare = wanted.removesuffix("_pct")
    if bare == FINENESS:
        return FINENESS
    if f"{bare}_pct" in _BY_KEY:
        return f"{bare}_pct"
    if bare in _OTHER_NAMES:
        form = _OTHER_NAMES[bare]
        raise Mend(
            message("case-label-form-open", what=form), message("case-label-which-form", what=form)
        )
    unknown = message("case-label-unknown-key", name=quoted(name))
    if bare in _SAME_NAMES:
        raise Mend(unknown, message("case-did-you-mean-key", name=Given(_SAME_NAMES[bare])))
    import difflib

    near = difflib.get_close_matches(f"{bare}_pct", _BY_KEY, n=1, cutoff=0.75)
    if near:
        raise Mend(unknown, message("case-did-you-mean-key", name=Given(near[0])))
    keys = Given(", ".join((*_BY_KEY, FINENESS)))
    raise Mend(unknown, message("case-label-keys", keys=keys))


def _spelled(name: int | str) -> str:
    """The key a name means, or the name where it means none."""
    try:
        return _key_of(str(name))
    except Mend:
        return str(name)


def _read_figure(given: object, row: LabelKey) -> float:
    if isinstance(given, str):
        given = given.strip().removesuffix("%").strip()
    figure = number_from(given, message("case-label-as-printed"))
    if 0.0 <= figure <= row.most_pct:
        return figure
    if row.key == "so3_pct" and figure > row.most_pct:
        line = Given(f"s_element_pct = {min(0.4 * figure, 100.0):.3g}")
        raise Mend(
            message("case-label-too-much-so3", given=quoted(given)),
            message("case-label-is-sulfur", line=line),
        )
    raise Mend(
        message(
            "case-outside",
            given=quoted(given),
            low=typed(0.0),
            high=typed(row.most_pct),
            unit=Given("%"),
        ),
        message("case-label-as-printed"),
    )


def _read_fineness(given: object) -> tuple[Passing, ...]:
    example = for_example(FINENESS_EXAMPLE, '"60 % through 100 mesh"')
    if not isinstance(given, str):
        raise Mend(message("case-no-fineness", given=quoted(given)), example)
    rest = _SIEVE.sub("", given)
    found: dict[float, float] = {}
    for match in _SIEVE.finditer(given):
        size = float(match["size"].replace(",", "."))
        opening_um = _opening_um(size, match["unit"].casefold())
        passing_pct = float(match["pct"].replace(",", "."))
        if passing_pct > 100.0:
            raise Mend(message("case-fineness-over-100", given=quoted(given)), example)
        found[opening_um] = passing_pct
    if not found or re.sub(r"[\s,;.&]|\band\b", "", rest):
        raise Mend(message("case-no-fineness", given=quoted(given)), example)
    rows = tuple(Passing(opening, found[opening]) for opening in sorted(found))
    for fine, coarse in pairwise(rows):
        if fine.passing_pct > coarse.passing_pct:
            raise Mend(message("case-fineness-finer"), message("case-fineness-all-that-passes"))
    if rows[-1].passing_pct <= 0.0:
        raise Mend(message("case-fineness-nothing"), example)
    return rows


def _opening_um(size: float, unit: str) -> float:
    if unit == "mm":
        opening = 1000.0 * size
    elif unit == "mesh":
        from loamshift.tables.laboratory import load_sieve_openings_um

        sieves = load_sieve_openings_um()
        if size not in sieves:
            listed = Given(", ".join(str(mesh) for mesh in sieves))
            raise Mend(
                message("case-sieve-unknown", mesh=typed(size)),
                message("case-sieves-known", sieves=listed),
            )
        opening = sieves[int(size)]
    else:
        opening = size
    if not 1.0 <= opening <= 20_000.0:
        raise Mend(message("case-sieve-unlikely", opening=typed(opening)), message("case-mm-or-um"))
    return opening


def _as_given(table: Mapping[object, object], key: str) -> object:
    """What stood there for a key, whatever spelling it had."""
    for name, given in table.items():
        try:
            if _key_of(str(name)) == key:
                return given
        except Mend:
            continue
    return "" if key else dict(table)
