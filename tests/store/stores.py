"""Stores as tests need them: a small one, random ones, and everything in one as plain values."""

from __future__ import annotations

import json
import uuid
from datetime import UTC, date, datetime
from typing import Any

from hypothesis import strategies as st

from loamshift.store.changes import Writer
from loamshift.store.models import Bed, Client, Garden, Kept, Office, Product, SentLetter
from loamshift.store.plain import KINDS, plain
from loamshift.store.toml_out import toml_text

NOW = datetime(2026, 4, 12, 9, 30, tzinfo=UTC)


def small(office: Office) -> tuple[Client, Garden, Bed, SentLetter, Product]:
    """One of each kind."""
    writer = Writer(office, what="Added")
    client = Client(name="=A client", contact="-1 Long Lane")
    writer.add(client)
    garden = Garden(client=client, name="A garden", place={"name": "Minneapolis"})
    writer.add(garden)
    bed = Bed(garden=garden, name="A bed", case_text="case = 1\n", ph=6.8)
    writer.add(bed)
    letter = SentLetter(
        bed=bed, title="Plan", sent_on=date(2026, 4, 12), decision="do", answer_text='{"a": 1}'
    )
    writer.add(letter)
    product = Product(name="'Sulfur", material="elemental sulfur, powder", price=12.5)
    writer.add(product)
    return client, garden, bed, letter, product


def everything(office: Office) -> dict[str, Any]:
    """Every field of every thing of an office, what was put away too, and the settings."""
    found: dict[str, Any] = {
        field.name: getattr(office, field.name)
        for field in Office._meta.concrete_fields
        if field.name not in ("id", "created_at")  # those of the store it came into
    }
    for kind, model in KINDS.items():
        for thing in model._default_manager.filter(office=office):
            found[f"{kind} {thing.pk}"] = {
                field.attname: plain(field, getattr(thing, field.attname))
                for field in thing._meta.concrete_fields
                if field.name != "office"
            }
    return found


_signs = st.characters(exclude_categories=["Cs"], exclude_characters="\x00")
texts = st.text(_signs, max_size=30) | st.sampled_from(
    [
        '=cmd|" /C calc"!A0',
        "+1",
        "-1",
        "@SUM(A1)",
        "'",
        "''=1",
        "\t=1",
        "\r\n=1",
        'a,b;"c"\n',
        "＝1",
    ]
)
names = texts.map(lambda text: text[:29] + "x")
floats = st.none() | st.floats(0, 1e6, allow_nan=False)
moments = st.datetimes(datetime(2000, 1, 1), datetime(2100, 1, 1), timezones=st.just(UTC))  # noqa: DTZ001
versions = st.integers(1, 2_147_483_647)
_leaves = (
    st.none()
    | st.booleans()
    | st.integers(-(10**12), 10**12)
    | st.floats(-1e6, 1e6, allow_nan=False, allow_infinity=False)
    | texts
)
trees = st.dictionaries(
    texts,
    st.recursive(
        _leaves,
        lambda inner: st.lists(inner, max_size=3) | st.dictionaries(texts, inner, max_size=3),
        max_leaves=8,
    ),
    max_size=3,
)
case_texts = st.builds(
    lambda name, note: toml_text({"case": 1, "name": name, "odd": note}), texts, texts
) | st.just('case = 1\r\nname = "as written"  # kept to the letter\r\n')


@st.composite
def things(draw: st.DrawFn) -> list[Kept]:
    """Unsaved things that belong together, some of them put away, what holds others first."""
    found: list[Kept] = []

    def kept(parent: Kept | None) -> dict[str, Any]:
        away = parent is not None and parent.deleted_at is not None
        return {
            "id": draw(st.uuids(version=4)),
            "version": draw(versions),
            "created_at": draw(moments),
            "changed_at": draw(moments),
            "deleted_at": draw(moments) if away else draw(st.none() | moments),
        }

    def add(thing: Kept) -> Kept:
        found.append(thing)
        return thing

    for _ in range(draw(st.integers(0, 2))):
        client = add(Client(name=draw(names), contact=draw(texts), note=draw(texts), **kept(None)))
        for _ in range(draw(st.integers(0, 2))):
            garden = add(
                Garden(
                    client=client,
                    name=draw(names),
                    place=draw(trees),
                    plan=draw(trees),
                    **kept(client),
                )
            )
            for _ in range(draw(st.integers(0, 2))):
                _bed(draw, add, garden, kept)
    if draw(st.booleans()):
        _bed(draw, add, None, kept)
    for _ in range(draw(st.integers(0, 2))):
        add(
            Product(
                name=draw(names),
                material=draw(names),
                purity_pct=draw(floats),
                pack=draw(texts),
                price=draw(floats),
                currency=draw(texts)[:3],
                in_stock=draw(st.booleans()),
                note=draw(texts),
                **kept(None),
            )
        )
    return sorted(found, key=lambda one: list(KINDS.values()).index(type(one)))


def _bed(draw: st.DrawFn, add: Any, garden: Kept | None, kept: Any) -> None:
    bed = add(
        Bed(
            garden=garden,
            name=draw(names),
            case_text=draw(case_texts),
            plants=draw(texts),
            decision=draw(texts)[:20],
            ph=draw(floats),
            is_sample=draw(st.booleans()),
            **kept(garden),
        )
    )
    for _ in range(draw(st.integers(0, 1))):
        add(
            SentLetter(
                bed=bed,
                title=draw(names),
                sent_on=draw(st.dates()),
                decision="do",
                answer_text=json.dumps({"letter": draw(texts)}, ensure_ascii=draw(st.booleans())),
                note=draw(texts),
                **kept(bed),
            )
        )


offices = st.builds(
    Office,
    name=names,
    units=st.sampled_from(["metric", "us"]),
    words=st.sampled_from(["uk", "us"]),
    paper=st.sampled_from(["a4", "letter"]),
    currency=st.sampled_from(["", "EUR", "USD"]),
    letterhead=texts,
    toured=st.booleans(),
)


def keep(office: Office, some: list[Kept]) -> None:
    """Save an office and things as they are, round the one door, for the tests of it."""
    office.pk = uuid.uuid4()
    office.save(force_insert=True)
    for thing in some:
        thing.office = office
        thing.save(force_insert=True)
