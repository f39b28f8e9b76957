"""Sentences, clauses and names as the letter says them, whoever wrote them."""

from __future__ import annotations

import re

from loamshift import units
from loamshift.domain.case import BedKind, Case
from loamshift.domain.material import Material
from loamshift.domain.message import Worded
from loamshift.report.letter_fields import without_paths
from loamshift.report.letter_units import in_reader_units
from loamshift.report.messages import say
from loamshift.report.words import Words
from loamshift.tables.materials import load_materials

_KEEP_CAPITAL = re.compile(r"^(?:Epsom\b|[A-Z]{2}|pH\b|[A-Z]\d)")
_KEYS = re.compile(
    "|".join(sorted((re.escape(k) for k in load_materials() if ", " in k), key=len, reverse=True))
)
"""Materials as they are written in a case file, where a text names one by that."""
_NOUNS = {
    BedKind.GROUND: ("bed", "beds"),
    BedKind.RAISED: ("raised bed", "raised beds"),
    BedKind.CONTAINER: ("pot", "pots"),
    BedKind.LAWN: ("lawn", "lawns"),
    BedKind.FIELD: ("field", "fields"),
}


def tidy(text: str, words: Words) -> str:
    """A text [text] with single spaces, in this reader's units and spelling [text]."""
    text = without_paths(text)
    text = _KEYS.sub(lambda found: material_in_text(found.group(), words).split(" (")[0], text)
    return words.text(in_reader_units(" ".join(text.split()), words))


def sentence(what: Worded, words: Words) -> str:
    """Sentences as this reader has them; a text [text] gets a capital and a full stop [text]."""
    if not isinstance(what, str):
        return say(what, words)
    text = tidy(what, words)
    if not text:
        return ""
    if not re.match(r"pH\b|[a-z]+[A-Z]", text):
        text = text[0].upper() + text[1:]
    return text if text[-1] in ".!?" else text.rstrip(",;:") + "."


def clause(what: Worded, words: Words) -> str:
    """A text [text] to stand inside a sentence: no capital, no full stop [text]."""
    return lowered(tidy(what if isinstance(what, str) else say(what, words), words).rstrip(".;,: "))


def sentences(*parts: str) -> str:
    """Sentences [text] after one another; empty ones leave no gap [text]."""
    return " ".join(part for part in parts if part)


def lowered(text: str) -> str:
    """A name or text [text] with a small first letter, unless it is spelt with a capital."""
    if not text or _KEEP_CAPITAL.match(text):
        return text
    return text[0].lower() + text[1:]


def raised(text: str) -> str:
    """A text [text] with a capital first letter [text]."""
    return text if text.startswith("pH") else text[:1].upper() + text[1:]


def material_called(key: str, words: Words) -> str:
    """The name of a material by its key [text] as this reader says it, for a table [text].

    A product known by its label keeps its own name, or has its figures behind the name of its kind.
    """
    material = load_materials().get(key)
    if material is not None:
        return words.material_name(material)
    kind, figures = _kind_and_figures(key)
    if kind is None:
        return key
    return f"{words.material_name(kind).split(' (')[0]} ({words.text(figures)}"


def material_in_text(key: str, words: Words) -> str:
    """The same name [text] to stand inside a sentence; an own name is left as it is [text]."""
    called = material_called(key, words)
    is_own = key not in load_materials() and _kind_and_figures(key)[0] is None
    return called if is_own else lowered(called)


def product_in_text(key: str, words: Words) -> str:
    """A product by its key [text] in a sentence: ``sulphur powder``, ``elemental sulfur (powder)``.

    Its other names in brackets are left out; a form behind a comma goes into them [text].
    """
    said = material_in_text(key, words)
    if key not in load_materials():
        return said
    name, comma, form = said.split(" (")[0].partition(", ")
    return f"{name} ({form})" if comma else name


def _kind_and_figures(key: str) -> tuple[Material | None, str]:
    """The shipped kind that a labelled product is named after, and what stands behind it."""
    stem, opened, figures = key.partition(" (")
    return (load_materials().get(stem) if opened else None), figures


def bed_noun(case: Case) -> str:
    """``bed``, ``pot``, ``lawn`` … as this case [object] has it, for one of them [text]."""
    return _NOUNS[case.bed.kind][0]


def these(case: Case) -> str:
    """``this bed`` or ``these pots``, as this case [object] has them [text]."""
    one, many = _NOUNS[case.bed.kind]
    return f"this {one}" if case.bed.count == 1 else f"these {many}"


def whole(case: Case) -> str:
    """``the bed`` or ``all 12 pots``: what amounts of this case [object] are for [text]."""
    one, many = _NOUNS[case.bed.kind]
    return f"the {one}" if case.bed.count == 1 else f"all {case.bed.count} {many}"


def plants_wanted(case: Case, words: Words) -> str:
    """``highbush blueberry and heather``, the plants of the aim [object], or nothing [text]."""
    return words.listed([words.text(plant.name) for plant in case.aim.plants])


def as_sulfur(acid_mmolc_m2: float, words: Words) -> str:
    """An amount of acid [mmolc/m2] as the sulfur that would make it [text]."""
    rate = units.sulfur_as_s_g_m2_from_acid_mmolc_m2(abs(acid_mmolc_m2))
    return words.text(f"{words.rate(rate)} of sulfur")


def as_limestone(base_mmolc_m2: float, words: Words) -> str:
    """An amount of base [mmolc/m2, either sign] as pure limestone [text]."""
    rate = units.lime_as_caco3_g_m2_from_acid_mmolc_m2(abs(base_mmolc_m2))
    return f"{words.rate(rate)} of limestone"


def counted(number: int, one: str, many: str | None = None) -> str:
    """``two parts``: a small number in letters, with its noun [count, text]."""
    small = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")
    word = small[number] if 0 <= number < len(small) else str(number)
    return f"{word} {one if number == 1 else many or one + 's'}"


def in_100(share: float) -> str:
    """A share [0-1] as a count of 100, ``about 62`` or ``fewer than 1`` [text]."""
    count = round(100.0 * share)
    if share < 0.01:
        return "fewer than 1"
    return "more than 99" if share > 0.99 else f"about {count}"
