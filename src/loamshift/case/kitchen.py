"""Cups, spoons, handfuls and buckets by any of their names."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import cache

from loamshift.case.spellings import plain_unit
from loamshift.domain.names import plain_name
from loamshift.domain.rules import KitchenMeasure


@cache
def _measures() -> Mapping[str, tuple[KitchenMeasure, ...]]:
    """Every spelling of a kitchen measure, with the measures it can mean."""
    from loamshift.tables.measures import load_kitchen_measures

    loaded: Mapping[str, KitchenMeasure] | Iterable[KitchenMeasure] = load_kitchen_measures()
    found: dict[str, list[KitchenMeasure]] = {}
    for measure in loaded.values() if isinstance(loaded, Mapping) else loaded:
        for name in (measure.name, *measure.synonyms):
            for spelling in {plain_name(name), plain_unit(name)}:
                held = found.setdefault(spelling, [])
                if measure not in held:
                    held.append(measure)
    return {spelling: tuple(held) for spelling, held in found.items()}


def find_kitchen_measure(text: str) -> KitchenMeasure | None:
    """The kitchen measure a word means, or None where it is no such word.

    Returns
    -------
    KitchenMeasure or None
        Its volume [L] or mass [g] with range.
    """
    known = _measures()
    for spelling in dict.fromkeys((plain_name(text), plain_unit(text))):
        for form in _singular_forms(spelling):
            if form in known:
                return known[form][0]
    return None


def _singular_forms(text: str) -> tuple[str, ...]:
    """The text, and what it may be the plural of: handfuls, cupsful, bunches."""
    forms = [text]
    if text.endswith("sful"):
        forms.append(text[:-4])
    if text.endswith("ful") and not text.endswith("handful"):
        forms.append(text[:-3])
    if text.endswith("fuls"):
        forms += [text[:-1], text[:-4]]
    if text.endswith("es"):
        forms.append(text[:-2])
    if text.endswith("s"):
        forms.append(text[:-1])
    words = text.split(" ", 1)
    if len(words) == 2 and words[0].endswith("s"):
        forms.append(f"{words[0][:-1]} {words[1]}")
    return tuple(forms)


def kitchen_words() -> tuple[str, ...]:
    """The names of the kitchen measures, for messages and documents."""
    return tuple(dict.fromkeys(m.name for held in _measures().values() for m in held))
