from __future__ import annotations

import dataclasses
import types
import typing
from collections.abc import Iterator

import pytest

from loamshift.domain.answer import Answer
from loamshift.domain.message import Message, Prose
from loamshift.report.explanation import explanation_letter, keys_letter
from loamshift.report.terminal import letter_text
from loamshift.report.words import Words
from loamshift.services.explanations import ANSWER_KEYS
from loamshift.services.why import UnknownKey, explain, explained_keys
from loamshift.tables.materials import load_materials
from loamshift.tables.parameters import load_parameters
from loamshift.tables.references import load_references
from wording import read


def answer_paths(kind: type = Answer, stem: str = "") -> Iterator[str]:
    """Every dotted key of the public answer; what is said there is worded, and has no keys."""
    hints = typing.get_type_hints(kind)
    for field in dataclasses.fields(kind):
        path = f"{stem}{field.name}"
        yield path
        for part in _parts(hints[field.name]):
            if dataclasses.is_dataclass(part) and part not in (Message, Prose):
                yield from answer_paths(typing.cast(type, part), f"{path}.")


def _parts(hint: object) -> Iterator[object]:
    origin = typing.get_origin(hint)
    if origin in (typing.Union, types.UnionType, tuple):
        for part in typing.get_args(hint):
            yield from _parts(part)
    else:
        yield hint


@pytest.mark.parametrize("path", sorted(set(answer_paths())))
def test_every_key_of_the_answer_opens(path: str) -> None:
    explanation = explain(path)
    assert explanation.kind == "answer"
    assert read(explanation.title)
    assert explanation.text and all(read(text) for text in explanation.text)
    assert all(read(line) for line in explanation.equations)


@pytest.mark.parametrize("key", sorted(ANSWER_KEYS))
def test_every_explanation_leads_on_to_keys_that_open(key: str) -> None:
    explanation = explain(key)
    for other in explanation.see_also:
        assert explain(other).key == other
    for source in explanation.source_keys:
        assert source in load_references()


def test_every_parameter_opens_with_its_value_unit_and_source() -> None:
    for topic, rows in load_parameters().items():
        for name, parameter in rows.items():
            explanation = explain(f"{topic}.{name}")
            figure = explanation.figures[0]
            assert (figure.value, figure.unit) == (parameter.value, parameter.unit)
            assert explanation.source_keys == (parameter.source_key,)
            assert parameter.source_key in load_references()


def test_every_material_figure_opens() -> None:
    for key, material in load_materials().items():
        for name, figure in material.figures.items():
            explanation = explain(f"{key}.{name}")
            assert explanation.figures[0].value == figure.value


@pytest.mark.parametrize("kind", ["cautions", "limits", "parameter-topics", "materials"])
def test_every_listed_key_opens(kind: str) -> None:
    keys = explained_keys()[kind]
    assert keys
    for key in keys:
        explanation = explain(key)
        assert explanation.source_keys, key
        assert letter_text(explanation_letter(explanation, words=Words()))


def test_a_source_opens_to_its_citation_and_what_rests_on_it() -> None:
    explanation = explain("schmidinger-2025")
    assert any("sampling.core_sd_even" in read(text) for text in explanation.text)


@pytest.mark.parametrize(
    ("wrong", "right"),
    [
        ("dose.acid_mmolckg", "dose.acid_mmolc_kg"),
        ("sampling.core_sd_evn", "sampling.core_sd_even"),
        ("acid-handlin", "acid-handling"),
        ("verdict.decison", "verdict.decision"),
        ("schmidinger-2024", "schmidinger-2025"),
    ],
)
def test_a_misspelt_key_names_the_nearest(wrong: str, right: str) -> None:
    with pytest.raises(UnknownKey) as error:
        explain(wrong)
    assert right in error.value.nearest
    assert right in str(error.value)
    assert str(error.value).endswith(f"For example: loamshift why {error.value.nearest[0]}")
    assert explain(error.value.nearest[0])


def test_a_wrong_figure_of_a_material_lists_the_right_ones() -> None:
    with pytest.raises(UnknownKey) as error:
        explain("gypsum.price")
    assert all(name.startswith("gypsum.") for name in error.value.nearest)


@pytest.mark.parametrize("key", ["", "   ", "zzzz qqqq", "dose.acid_mmolc_kg.nonsense", "."])
def test_nonsense_is_answered_as_unknown(key: str) -> None:
    with pytest.raises(UnknownKey):
        explain(key)


def test_uk_spelling_finds_the_same_caution() -> None:
    assert explain("sulphur-dust").key == "sulfur-dust"


def test_the_list_of_keys_prints() -> None:
    assert "dose.acid_mmolc_kg" in letter_text(keys_letter(explained_keys(), words=Words()))
