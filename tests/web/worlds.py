"""Two offices with one of each kind, and every address of the workbench tried on them."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from typing import Any

from django.test import Client as Browser
from django.urls import URLPattern, URLResolver, get_resolver

from loamshift.store.changes import Writer
from loamshift.store.models import (
    ApiKey,
    Bed,
    Client,
    FieldFiles,
    Garden,
    IntakeDraft,
    JarSeries,
    Office,
    Product,
    Question,
    SentLetter,
    Trial,
    User,
)

MARK = "Zinnia"
NASTY = f'<script>alert("x")</script>{MARK}'
CASE = f"""case = 1
name = {json.dumps(NASTY + " bed")}
[soil]
ph = 6.4
texture = "loam"
[aim]
plant = "cabbage"
"""


@dataclass
class World:
    """An office with two people and one of each kind; ``at`` holds the ids by kind."""

    office: Office
    adviser: User
    reader: User
    at: dict[str, Any]

    def signed_in(self, user: User, **options: Any) -> Browser:
        browser = Browser(**options)
        browser.force_login(user)
        return browser


def world(name: str) -> World:
    """An office whose every name is marked, and is markup if anybody lets it be."""
    office = Office.objects.create(name=f"{NASTY} {name}")
    adviser = User.objects.create_user(f"adviser-{name}")
    reader = User.objects.create_user(f"reader-{name}")
    adviser.office, adviser.role = office, "adviser"
    reader.office, reader.role = office, "reader"
    adviser.save()
    reader.save()
    writer = Writer(office, user=adviser, what=f"Added {NASTY}")
    client = Client(name=f"{NASTY} client", contact=NASTY, note=NASTY)
    writer.add(client)
    garden = Garden(client=client, name=f"{NASTY} garden", place={"name": "Minneapolis"})
    garden.plan = {
        "width_m": 20.0,
        "height_m": 12.0,
        "areas": [{"name": NASTY, "bed": None, "points": [[1, 1], [4, 1], [4, 3]]}],
    }
    writer.add(garden)
    bed = Bed(garden=garden, name=f"{NASTY} bed", case_text=CASE, plants="cabbage", ph=6.4)
    writer.add(bed)
    letter = SentLetter(
        bed=bed,
        title=f"{NASTY} letter",
        sent_on=date(2026, 4, 12),
        decision="leave",
        answer_text=_answer(),
        note=NASTY,
    )
    writer.add(letter)
    product = Product(name=f"{NASTY} bag", material="gypsum", note=NASTY, pack="25 kg", price=9.0)
    writer.add(product)
    question = Question(words=NASTY, sender=f"{NASTY} sender", received_on=date(2026, 4, 12))
    writer.add(question)
    key = ApiKey.objects.create(user=adviser, name=f"{NASTY} key", digest=f"{name:0>64}"[:64])
    draft = IntakeDraft.objects.create(
        office=office,
        name=f"{NASTY}.csv",
        laboratory=NASTY,
        content=f"Sample,pH\n{NASTY},6".encode(),
    )
    weather = IntakeDraft.objects.create(
        office=office,
        bed=bed,
        name=f"{NASTY}.csv",
        content=f"Date,{NASTY} soil temp 10 cm (°C)\n2026-03-01,6\n2026-03-02,7\n".encode(),
    )
    trial = Trial(bed=bed, name=f"{NASTY} trial", question=NASTY, starts_on=date(2026, 4, 20))
    trial.trial_json = trial_tree()
    writer.add(trial)
    jars = JarSeries(
        bed=bed,
        set_up_on=date(2026, 4, 12),
        to_ph=5.5,
        soil_g=50.0,
        acid_mol_l=0.1,
        sheet_text="jar,acid_mmolc_kg,acid_ml,lime_g,ph\n1,0,0,0,\n2,20,10,0,\n3,40,20,0,\n",
    )
    writer.add(jars)
    field = FieldFiles.objects.create(
        office=office,
        client=client,
        name=f"{NASTY} field",
        samples_name=f"{NASTY}.csv",
        samples=b"longitude,latitude,pH\n-3,53,6\n",
        told={
            "case": {"bed": {"kind": "field"}, "aim": {"target_ph": "6.5"}},
            "method": "water 1:2.5",
            "crs": NASTY,
        },
    )
    at = {
        "field": field.pk,
        "trial": trial.pk,
        "jars": jars.pk,
        "client": client.pk,
        "garden": garden.pk,
        "bed": bed.pk,
        "letter": letter.pk,
        "product": product.pk,
        "question": question.pk,
        "act": writer.act,
        "key": key.pk,
        "intake": draft.pk,
        "weather": weather.pk,
    }
    return World(office, adviser, reader, at)


def trial_tree() -> dict[str, Any]:
    """A trial whose names are markup."""
    return {
        "trial": 1,
        "name": f"{NASTY} trial",
        "question": NASTY,
        "start": "2026-04-20",
        "days": [0, 9],
        "replicates": 2,
        "soil": {"ph": 6.4, "texture": "loam"},
        "treatment": [
            {"name": NASTY[:40]},
            {"name": "peat", "material": "peat", "rate": "3 kg/m2"},
        ],
    }


def _answer() -> str:
    from loamshift.case.answer import answer_to_json
    from loamshift.case.frozen import FrozenLetter
    from loamshift.case.read import parse_case
    from loamshift.report.letter import letter_from_answer
    from loamshift.report.words import Words
    from loamshift.services.advise import advise

    case = parse_case(CASE, today=date(2026, 4, 12))
    answer, words = advise(case), Words(spelling="uk", units="metric")
    letter = FrozenLetter(letter_from_answer(answer, case, words=words), words)
    return answer_to_json(answer, case=case, letter=letter)


@dataclass(frozen=True)
class Route:
    """One address as it is declared: its pattern and its name."""

    pattern: str
    name: str

    @property
    def is_api(self) -> bool:
        return self.pattern.startswith("api/v1/")

    @property
    def kinds(self) -> list[str]:
        """The kinds of things that stand in the address."""
        return [
            kind for kind in (_kind(self.pattern, *one) for one in _holes(self.pattern)) if kind
        ]

    def address(self, at: dict[str, Any]) -> str:
        """A real address, with the ids of a world.

        Raises
        ------
        LookupError
            Where nobody said what belongs into a hole of the pattern.
        """
        filled = self.pattern
        for place, (converter, hole) in enumerate(_holes(self.pattern)):
            kind = _kind(self.pattern, converter, hole)
            value = at[kind] if kind else OTHER.get((self.name, hole), OTHER.get(("", hole)))
            if value is None:
                raise LookupError(
                    f"/{self.pattern} (hole {place + 1}, <{converter}:{hole}>): say in "
                    "tests/web/worlds.py what belongs there"
                )
            filled = filled.replace(f"<{converter}:{hole}>", str(value), 1)
        return f"/{filled}"


KIND_BY_FOLDER = {
    "beds": "bed",
    "clients": "client",
    "gardens": "garden",
    "intake": "intake",
    "fields": "field",
    "weather": "weather",
    "trials": "trial",
    "jars": "jars",
    "post": "letter",
    "letters": "letter",
    "shelf": "product",
    "inbox": "question",
    "products": "product",
    "changes": "act",
    "acts": "act",
    "account/keys": "key",
}
OTHER: dict[tuple[str, str], object] = {
    ("letter-style", "name"): "0",
    ("", "ending"): "md",
    ("jars-file", "ending"): "csv",
    ("field-file", "file"): "driver.pdf",
    ("trial-file", "file"): "record.csv",
    ("letter-file", "kind"): "html",
    ("score-pairs", "kind"): "csv",
    ("why", "key"): "soil.ph",
    ("", "sheet"): "sampling",
    ("claim-card", "number"): "1",
    ("", "shape"): "slide",
}
"""What belongs into holes that hold no thing of an office, by name of the route and of the hole."""


def _holes(pattern: str) -> list[tuple[str, str]]:
    return re.findall(r"<(\w+):(\w+)>", pattern)


def _kind(pattern: str, converter: str, hole: str) -> str:
    """The kind of thing that an id in an address belongs to; empty for what is no id."""
    if not (converter.startswith("uuid") or converter == "int"):
        return ""
    if hole in KIND_BY_FOLDER.values():
        return hole
    folder = pattern.removeprefix("api/v1/").split("<", 1)[0].strip("/")
    kind = KIND_BY_FOLDER.get(folder)
    if kind is None:
        raise LookupError(f"/{pattern}: say in tests/web/worlds.py of what kind {folder} are")
    return kind


def routes() -> list[Route]:
    """Every address of the workbench, each once."""
    found: dict[str, Route] = {}
    for pattern, name in _walk(get_resolver().url_patterns, ""):
        found.setdefault(pattern, Route(pattern, name))
    return list(found.values())


def _walk(patterns: Any, before: str) -> Iterator[tuple[str, str]]:
    for one in patterns:
        pattern = before + str(one.pattern)
        if isinstance(one, URLResolver):
            yield from _walk(one.url_patterns, pattern)
        else:
            assert isinstance(one, URLPattern)
            yield pattern, one.name or ""
