"""What the plan page shows, worked out from a tree of fields: sentences, letter, what changed."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date
from typing import Any, Final

from django.http import QueryDict
from django.utils.http import urlencode

from loamshift.domain.field_name import IN_TEXT, field_key
from loamshift.domain.message import Given, Message, message
from loamshift.errors import CaseError, Fault, InputError
from loamshift.report.letter_fields import field_called
from loamshift.report.messages import say
from loamshift.report.words import Words
from loamshift.store.models import Office
from loamshift.web.answers import Answered, answered, answered_already, answered_at_once
from loamshift.web.cases import Tree
from loamshift.web.plan.facts import Field, Piece, asked_in_sentences, facts, faults_elsewhere
from loamshift.web.plan.places import place_beside
from loamshift.web.problems import whole_fault
from loamshift.web.turns import stays
from loamshift.web.wording import words_of

TOP_KEYS: Final = ("name", "units", "today")
_MOST_TOLD: Final = 8

Fields = list[tuple[str, str]]
"""Fields by their paths, as an address or a form says them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """What the plan page shows: sentences with fields, and the answer or what is wrong.

    ``fields`` is what the address says: for a kept bed only what differs from what is kept;
    ``is_coming`` where the answer has no forecast yet.
    """

    tree: Tree
    sentences: tuple[tuple[Piece, ...], ...]
    answered: Answered | None
    is_coming: bool
    faults: tuple[Fault, ...]
    elsewhere: tuple[Fault, ...]
    fields: tuple[tuple[str, str], ...]
    carried: tuple[tuple[str, str], ...]
    also: str

    @property
    def query(self) -> str:
        """What the address says after its question mark."""
        return urlencode(self.fields)

    @property
    def asked(self) -> tuple[Field, ...]:
        """Every field that stands in a sentence."""
        return tuple(p for sentence in self.sentences for p in sentence if isinstance(p, Field))


def said_in(said: QueryDict) -> Fields:
    """The fields of a case file among what an address or a form says."""
    return [
        (key, value)
        for key, values in said.lists()
        if "." in key or key in TOP_KEYS
        for value in values
    ]


def page_of(
    tree: Tree,
    *,
    office: Office,
    today: date,
    kept: Mapping[str, Any] | None = None,
    at_once: bool = False,
    gone: Callable[[], bool] = stays,
) -> Page:
    """Everything on the plan page for a tree of fields.

    Parameters
    ----------
    kept
        The fields as they are kept; None for somebody who walks in.
    at_once
        True for the answer without its forecast, unless the whole one is known already.
    gone
        Says, while a forecast waits for its turn, whether nobody wants the page any more.

    Raises
    ------
    GoneError
        Where ``gone`` said so.
    """
    faults: tuple[Fault, ...] = ()
    found: Answered | None = None
    is_coming = False
    try:
        if not (tree.get("soil") or tree.get("aim")):
            pass  # nothing is asked yet
        elif at_once:
            found = answered_already(tree, office=office, today=today)
            is_coming = found is None
            found = found or answered_at_once(tree, office=office, today=today)
        else:
            found = answered(tree, office=office, today=today, gone=gone)
    except CaseError as error:
        faults = error.faults
    except InputError as error:
        faults = (whole_fault(error),)
    fields = changed(tree, kept or {})
    words = words_of(office)
    return Page(
        tree=dict(tree),
        sentences=facts(
            tree,
            words=words,
            faults=faults,
            kept=kept,
            beside=place_beside(
                tree, case=None if found is None else found.case, fields=fields, words=words
            ),
        ),
        answered=found,
        is_coming=is_coming and found is not None,
        faults=faults,
        elsewhere=tuple(
            replace(fault, path=field_called(fault.path, words) if fault.path else "")
            for fault in faults_elsewhere(faults)
        ),
        fields=tuple(fields),
        carried=tuple((path, value) for path, value in fields if path not in asked_in_sentences()),
        also=words.listed(also_known(tree, words)),
    )


def leaves(node: object, path: str = "") -> Iterator[tuple[str, str]]:
    """Every value of a tree with its path, as an address says it; a list of values repeats it."""
    if isinstance(node, Mapping):
        for key, value in node.items():
            if path or key != "case":
                yield from leaves(value, f"{path}.{key}" if path else str(key))
    elif isinstance(node, list):
        for place, value in enumerate(node):
            inside = isinstance(value, (Mapping, list))
            yield from leaves(value, f"{path}.{place}" if inside else path)
    else:
        yield path, said(node)


def said(value: object) -> str:
    """A value as a form says it."""
    if isinstance(value, bool):
        return "true" if value else "false"
    return value.isoformat() if hasattr(value, "isoformat") else str(value)


def changed(tree: Mapping[str, Any], kept: Mapping[str, Any]) -> Fields:
    """What a tree says otherwise than another; what it no longer says is empty."""
    before, after = _gathered(leaves(kept)), _gathered(leaves(tree))
    new = [
        (path, value) for path, values in after.items() if values != before.get(path)
        for value in values
    ]  # fmt: skip
    return new + [(path, "") for path in before if path not in after]


def _gathered(pairs: Iterable[tuple[str, str]]) -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for path, value in pairs:
        found.setdefault(path, []).append(value)
    return found


def also_known(tree: Mapping[str, Any], words: Words) -> list[str]:
    """What is known of a bed that no sentence asks for, as short phrases."""
    told: list[Message] = []
    for key, node in tree.items():
        if key in TOP_KEYS or key == "case":
            continue
        if isinstance(node, list):
            told.append(_counted(key, len(node)))
        elif isinstance(node, Mapping):
            rows = {name: len(held) for name, held in node.items() if _is_rows(held)}
            facts_alone = {name: held for name, held in node.items() if name not in rows}
            told += [
                message("advice-also-fact", field=_named(path, words), value=value)
                for path, value in _gathered_text(leaves(facts_alone, key), words)
                if path not in asked_in_sentences()
            ]
            told += [_counted(f"{key}.{name}", count) for name, count in rows.items()]
    shown = told[:_MOST_TOLD]
    if len(told) > _MOST_TOLD:
        shown.append(message("advice-also-more", n=len(told) - _MOST_TOLD))
    return [say(one, words) for one in shown]


def _is_rows(held: object) -> bool:
    """True for a list whose entries have keys of their own."""
    return isinstance(held, list) and any(isinstance(one, Mapping) for one in held)


def _named(path: str, words: Words) -> Message | Given:
    """A key as it is called inside a sentence."""
    key = f"{field_key(path)}{IN_TEXT}"
    if key in words.book:
        return message(key)
    return Given(path.rsplit(".", 1)[-1].replace("_", " "))


def _gathered_text(
    pairs: Iterable[tuple[str, str]], words: Words
) -> Iterator[tuple[str, Message | Given]]:
    truths = {"true": message("page-yes"), "false": message("page-no")}
    for path, values in _gathered(pairs).items():
        yield path, truths.get(values[0], Given(", ".join(_shown(one, words) for one in values)))


def _shown(value: str, words: Words) -> str:
    """A value as it reads in a sentence: days as the office has them."""
    try:
        return words.date(date.fromisoformat(value))
    except ValueError:
        return value


def _counted(key: str, count: int) -> Message:
    match key:
        case "claim":
            return message("advice-also-claims", n=count)
        case "applied":
            return message("advice-also-applied", n=count)
        case "reading":
            return message("advice-also-readings", n=count)
        case "on_hand":
            return message("advice-also-products", n=count)
        case "titration":
            return message("advice-also-titration", n=count)
        case "soil.layer":
            return message("advice-also-layers", n=count)
        case "soil.other_ph":
            return message("advice-also-other-ph", n=count)
        case "place.soil_temp":
            return message("advice-also-soil-temp", n=count)
    return message(
        "advice-also-other", n=count, what=Given(key.rpartition(".")[2].replace("_", " "))
    )
