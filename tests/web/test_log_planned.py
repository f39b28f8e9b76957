"""Logging a part of the plan that is due: it is offered as the plan has it, one press away."""

from __future__ import annotations

import re
import tomllib
from datetime import date, timedelta
from html import unescape

import pytest
from django.test import Client as Browser

from loamshift.case.answer import answer_to_json
from loamshift.services.advise import advise
from loamshift.store.changes import Writer
from loamshift.store.models import Bed, Office, Product, SentLetter
from loamshift.web.beds.keeping import put_case
from loamshift.web.beds.next_thing import SOON, due_part
from loamshift.web.cases import case_of
from loamshift.web.compiled import COMPILED

TODAY = date.today()  # noqa: DTZ011 - the pages know only the local day
THEN = TODAY - timedelta(days=300)
CASE = """case = 1
name = "Berry border"
[place]
name = "Leeds"
[bed]
area = "20 m2"
planted = false
[soil]
ph = 6.6
ph_method = "water 1:2.5"
texture = "loam"
fizz = "none"
fizz_acid = "HCl"
[aim]
plant = "highbush blueberry"
"""
BAG = {"material": "Yellow bag", "label": "s_element_pct = 90"}


@pytest.fixture(autouse=True)
def at_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """Pages with the answer that has no forecast yet: what is due is the same."""
    monkeypatch.setattr(COMPILED, "_asked", lambda: False)


@pytest.fixture
def office(db: None) -> Office:
    return Office.objects.create(name="Ours")


@pytest.fixture
def bed(office: Office) -> Bed:
    bed = Bed(name="")
    put_case(bed, CASE, today=TODAY)
    Writer(office, what="Added").add(bed)
    return bed


def offered_on(page: str) -> dict[str, str]:
    """The fields of the form that logs what was planned, as they stand there."""
    form = page[page.index('id="quick-planned"') : page.index('id="quick-reading"')]
    inputs = re.findall(r"<input[^>]*>", form)
    told = [dict(re.findall(r'(name|value)="([^"]*)"', one)) for one in inputs]
    return {one["name"]: unescape(one.get("value", "")) for one in told}


@pytest.mark.parametrize("bag", [None, BAG])
def test_a_due_part_is_logged_as_the_letter_had_it(
    client: Browser, office: Office, bed: Bed, bag: dict[str, str] | None
) -> None:
    tree = tomllib.loads(CASE)
    if bag is not None:
        Writer(office, what="Bought").add(Product(name="Yellow bag", **bag))
        tree["on_hand"] = [bag]
    answer = advise(case_of(tree, today=THEN))
    (part, *_) = answer.applications
    letter = SentLetter(bed=bed, title="L", sent_on=THEN, decision=answer.verdict.decision.value)
    letter.answer_text = answer_to_json(answer)
    Writer(office, what="Sent").add(letter)
    offered = offered_on(client.get(f"/beds/{bed.pk}").content.decode())
    assert offered["date"] == part.date.isoformat() and part.rate_g_m2 > 0.0
    assert client.post(f"/beds/{bed.pk}/applied", offered).status_code == 302
    (entry,) = case_of(Bed.objects.get(pk=bed.pk).case_json, today=TODAY).applied
    assert (entry.on, entry.incorporated_cm) == (part.date, part.incorporate_cm)
    assert entry.rate_g_m2 == pytest.approx(part.rate_g_m2, rel=0.02), "as the letter rounds it"
    assert entry.material.key == part.material
    assert "quick-planned" not in client.get(f"/beds/{bed.pk}").content.decode(), "it is done"
    assert "\u00a0" not in offered["rate"] and "\u202f" not in offered["rate"]


def test_a_part_far_ahead_and_one_of_a_trial_of_facts_are_not_offered(
    client: Browser, bed: Bed
) -> None:
    case = case_of(tomllib.loads(CASE), today=TODAY)
    answer = advise(case)
    first = answer.applications[0].date
    found = due_part(case, answer, None, read=str)
    assert (found is None) == (first > TODAY + SOON)
    page = client.get(f"/beds/{bed.pk}?soil.ph=6.9").content.decode()
    assert "quick-planned" not in page and "quick-applied" in page
