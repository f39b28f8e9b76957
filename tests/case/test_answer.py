"""The answer as JSON, its schema and the document of both."""

from __future__ import annotations

import json
import math
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from loamshift.case.answer import answer_from_json, answer_keys, answer_to_dict, answer_to_json
from loamshift.case.answer_keys import ANSWER_UNITS, KEPT_KEYS, LATER_KEYS, kept_meaning
from loamshift.case.answer_schema import answer_parts, answer_schema, key_of
from loamshift.case.page import case_page
from loamshift.domain import answer as parts
from loamshift.domain.answer import Answer, Band, Decision, Direction, Severity
from loamshift.errors import CaseError, LoamshiftError
from loamshift.report.words import Words

DOCUMENT = Path(__file__).parents[2] / "docs" / "case.md"


def made_answer() -> Answer:
    """An answer with every part present; the figures mean nothing."""
    band = Band(lo90=1.0, mid=2.5, hi90=1234567.89)
    day = date(2026, 4, 12)
    return Answer(
        name="Bed é",
        today=day,
        made_by=parts.MadeBy(version="0.1.0", model="1", tables="abc"),
        verdict=parts.Verdict(
            decision=Decision.GO, because="x", would_change_if="y",
            reason=parts.Reason.WITHIN_REACH,
        ),
        findings=(
            parts.Finding(
                check="ph", value=7.2, operator="<=", limit="5.5", unit="pH", passed=False,
                severity=Severity.CAUTION, comment="too high",
            ),
            parts.Finding(
                check="fizz", value=None, operator="is", limit=None, unit="", passed=True,
                severity=Severity.INFO, comment="", source_key="key",
            ),
        ),
        missing=(parts.Missing(field="soil.fizz", why="w", how="h"),),
        dose=parts.Dose(
            direction=Direction.ACIDIFY, provisional=True, acid_mmolc_kg=band,
            sulfur_as_s_g_m2=band, lime_as_caco3_g_m2=None, carbonate_share=1 / 3,
            published_g_m2=parts.PublishedSpread(n_sources=5, low=10.0, high=90.0),
        ),
        plan=parts.PlanRule(
            material="m",
            parts=(parts.PlanPart(date=day, material="m", rate_g_m2=30.0, amount_g=None),),
            decides=(
                parts.TestLine(test=day, reads_from=6.4, reads_to=None, part_g_m2=84.0,
                               then=parts.Then.PART, part_on=day),
                parts.TestLine(test=day, reads_from=None, reads_to=6.3, part_g_m2=0.0,
                               then=parts.Then.DONE, part_on=None),
            ),
            share_in_range=2 / 3, share_in_range_without_tests=0.31, share_if_known=0.9,
            share_harmed=0.02, median_ph=5.1, on=day,
        ),
        branches=(
            parts.Branch(field="soil.fizz", outcome="no-lime", probability=0.6,
                         decision=Decision.GO, sulfur_as_s_g_m2=440.0, lime_as_caco3_g_m2=None),
        ),
        applications=(
            parts.Application(
                date=day, material="m", rate_g_m2=30.0, amount_g=None, incorporate_cm=10.0,
                only_if="pH above 5.8",
            ),
        ),
        options=(
            parts.Option(
                material="m", rate_g_m2=30.0, amount_g=600.0, cost=None, currency=None,
                cost_per_mol_acid=0.1, cost_per_kg_caco3_eq=None, weeks_to_half=12.0,
                ec_rise_ds_m=0.0, cautions=("sulfur-dust",),
            ),
        ),
        too_early_before=day,
        retest=(day, day),
        forecast=parts.Forecast(
            dates=(day,),
            ph=parts.ForecastPh(q05=(5.0,), q25=(5.1,), q50=(5.2,), q75=(5.3,), q95=(5.4,)),
            do_nothing=parts.DoNothing(q50=(7.2,)),
        ),
        refit=parts.Refit(
            used=True, readings=2, acid_scale=parts.AcidScale(prior=band, now=band),
            effective_members=31.5, doubted=("d",), words="w",
        ),
        rescue=parts.Rescue(
            problem="p", ph_expected=band, steps=("a", "b"), never=("c",), lime_as_caco3_g_m2=None
        ),
        upkeep=parts.Upkeep(
            drift_ph_year=-0.1, nitrogen_needed_g_m2_year=5.0,
            feed=(parts.FeedLine(material="m", n_g_m2_year=5.0, rate_g_m2_year=24.0,
                                 acid_mmolc_m2_year=350.0),),
            net_with_feed_mmolc_m2_year=-2.0, sulfur_as_s_g_m2_year=0.0,
            lime_as_caco3_g_m2_year=1.0, years_water_undoes_dose=None, comment="c",
        ),
        ledger=parts.Ledger(lines=(parts.LedgerLine(name="water", value=-410.25),), net=-410.25),
        claims=(
            parts.ClaimResult(
                material="m", acid_brought_mmolc_m2=0.0, acid_needed_mmolc_m2=10.0, share=0.0,
                ph_change_now=None, ph_change_1_year=-0.0, comment="none",
            ),
        ),
        cautions=(parts.Caution(code="salt", text="t", source_key=None),),
        sources=(parts.SourceLine(key="k", citation="c"),),
        balance_error=1.5e-12,
    )  # fmt: skip


def bare_answer() -> Answer:
    return replace(
        made_answer(), findings=(), missing=(), plan=None, branches=(), applications=(),
        options=(), too_early_before=None, retest=(), forecast=None, refit=None, rescue=None,
        upkeep=None, ledger=None, claims=(), cautions=(), sources=(), balance_error=None,
    )  # fmt: skip


def test_keys_come_in_the_order_of_the_design() -> None:
    assert list(answer_to_dict(made_answer())) == [
        "answer", "name", "today", "made_by", "verdict", "findings", "missing", "worth", "wanted",
        "dose", "plan", "branches", "applications", "options", "too_early_before", "retest",
        "forecast", "soil_temperature", "subsoil", "pot_or_ground", "refit", "rescue", "upkeep",
        "ledger", "claims", "cautions", "sources", "balance_error", "said", "case", "letter",
    ]  # fmt: skip
    assert list(answer_to_dict(made_answer())["ledger"]) == ["unit", "lines", "net"]


def test_all_keys_stay_when_there_is_nothing_to_say() -> None:
    plain = answer_to_dict(bare_answer())
    assert plain.keys() == answer_to_dict(made_answer()).keys()
    assert (plain["retest"], plain["forecast"], plain["balance_error"]) == ([], None, None)


def test_values_are_plain_and_rounded() -> None:
    plain = answer_to_dict(made_answer())
    assert (plain["answer"], plain["today"]) == (1, "2026-04-12")
    assert plain["verdict"]["decision"] == "go"
    assert plain["dose"]["carbonate_share"] == 0.333333
    assert plain["dose"]["acid_mmolc_kg"]["hi90"] == 1234570.0
    change = plain["claims"][0]["ph_change_1_year"]
    assert math.copysign(1.0, change) == 1.0


@pytest.mark.parametrize("made", [made_answer, bare_answer])
def test_an_answer_comes_back_as_printed(made: Any) -> None:
    text = answer_to_json(made())
    again = answer_from_json(text)
    assert answer_to_json(again) == text
    assert again.verdict == made().verdict
    assert again.findings == made().findings


def test_a_number_that_is_none_is_our_fault() -> None:
    broken = replace(made_answer(), balance_error=math.nan)
    with pytest.raises(LoamshiftError, match="balance_error"):
        answer_to_json(broken)


def _changed(**changes: object) -> str:
    plain = answer_to_dict(made_answer())
    for key, value in changes.items():
        plain[key] = value
    return json.dumps(plain)


@pytest.mark.parametrize(
    ("text", "path"),
    [
        ("", "file"),
        ("[1", "file"),
        ("[" * 100_000, "file"),
        ("[]", "answer"),
        ('{"answer": NaN}', "file"),
        (_changed(answer=2), "answer"),
        (_changed(answer=True), "answer"),
        (_changed(name=None), "name"),
        (_changed(today="yesterday"), "today"),
        (_changed(verdict={"decision": "perhaps", "because": "", "would_change_if": ""}),
         "verdict.decision"),
        (_changed(verdict={"decision": "go", "because": ""}), "verdict.would_change_if"),
        (_changed(retest=["2026-04-12", 5]), "retest[2]"),
        (_changed(extra=1), "extra"),
        (_changed(dose=[]), "dose"),
        (_changed(balance_error=True), "balance_error"),
    ],
)  # fmt: skip
def test_what_is_no_answer_is_told_with_its_path(text: str, path: str) -> None:
    with pytest.raises(CaseError) as caught:
        answer_from_json(text)
    assert path in {fault.path for fault in caught.value.faults}


def test_every_key_of_the_answer_has_its_meaning_and_no_other_has() -> None:
    kinds = answer_parts()
    messages = list(Words().book.keys())
    meanings = {key_of(kind, key).meaning.key for kind in kinds for key in answer_keys(kind)}
    meanings |= {kept_meaning(key).key for key in KEPT_KEYS}
    assert meanings == {key for key in messages if key.startswith("answer-means-")}
    named = {kind.__name__: set(answer_keys(kind)) for kind in kinds}
    for part, units in ANSWER_UNITS.items():
        assert units.keys() <= named[part]


def _conforms(value: Any, schema: dict[str, Any], top: dict[str, Any]) -> bool:
    """Whether a JSON value obeys the few words of JSON Schema that ours uses."""
    if "$ref" in schema:
        return _conforms(value, top["$defs"][schema["$ref"].rpartition("/")[2]], top)
    if "anyOf" in schema:
        return any(_conforms(value, option, top) for option in schema["anyOf"])
    kinds: dict[str, Any] = {
        "object": dict, "array": list, "string": str, "number": (int, float), "integer": int,
        "boolean": bool, "null": type(None),
    }  # fmt: skip
    if not isinstance(value, kinds[schema["type"]]):
        return False
    if isinstance(value, bool) and schema["type"] != "boolean":
        return False
    if "enum" in schema and value not in schema["enum"]:
        return False
    if "const" in schema and value != schema["const"]:
        return False
    if schema["type"] == "array":
        return all(_conforms(part, schema["items"], top) for part in value)
    if schema["type"] == "object":
        if "properties" not in schema:
            return True
        return set(schema["required"]) <= value.keys() <= schema["properties"].keys() and all(
            _conforms(value[key], schema["properties"][key], top) for key in value
        )
    return True


@pytest.mark.parametrize("made", [made_answer, bare_answer])
def test_answers_obey_the_schema(made: Any) -> None:
    schema = answer_schema()
    plain = json.loads(answer_to_json(made()))
    assert _conforms(plain, schema, schema)
    plain["verdict"]["decision"] = "perhaps"
    assert not _conforms(plain, schema, schema)


def kept_by_0_1_0() -> dict[str, Any]:
    """An answer without the later keys, and with the amount by the forecast as it was then."""
    plain = answer_to_dict(bare_answer())
    for kind, keys in LATER_KEYS.items():
        tables = {"Answer": [plain], "Verdict": [plain["verdict"]], "Caution": plain["cautions"]}
        tables["TestLine"] = tables["Rescue"] = tables["Worth"] = []  # it had none of them
        for table in tables[kind]:
            for key in keys:
                del table[key]
    plain["dose"]["by_forecast"] = {
        "sulfur_as_s_g_m2": 60.0, "lime_as_caco3_g_m2": None, "by": "2027-05-01",
        "limited_by": "risk", "share_in_range": 0.62, "share_past_limit": 0.04,
        "median_ph_by": 5.04, "median_in_range_on": None, "because": ["The water takes it back."],
    }  # fmt: skip
    return plain


def test_an_answer_of_0_1_0_reads_obeys_the_schema_and_keeps_its_amount() -> None:
    plain, schema = kept_by_0_1_0(), answer_schema()
    again = answer_from_json(json.dumps(plain))
    assert (again.plan, again.branches, again.verdict.reason) == (None, (), None)
    assert again.dose.by_forecast is not None
    assert answer_to_dict(again)["dose"] == plain["dose"]
    assert _conforms(json.loads(json.dumps(plain)), schema, schema)
    del plain["options"]
    assert not _conforms(json.loads(json.dumps(plain)), schema, schema)


def test_every_new_answer_has_the_later_keys() -> None:
    plain = answer_to_dict(made_answer())
    assert all(key in plain for key in LATER_KEYS["Answer"])
    assert all(key in plain["verdict"] for key in LATER_KEYS["Verdict"])
    assert plain["cautions"]
    assert all(key in row for row in plain["cautions"] for key in LATER_KEYS["Caution"])


@pytest.mark.parametrize(
    ("path", "value"),
    [
        ("decides.0.then", "perhaps"), ("decides.0.reads_from", "6.4"), ("decides.0.test", None),
        ("parts.0.rate_g_m2", None), ("share_harmed", "2 %"), ("on", "soon"),
    ],
)  # fmt: skip
def test_a_plan_of_another_shape_is_told_with_its_path(path: str, value: object) -> None:
    plain = answer_to_dict(made_answer())
    node: Any = plain["plan"]
    *parents, last = path.split(".")
    for part in parents:
        node = node[int(part)] if part.isdigit() else node[part]
    node[last] = value
    with pytest.raises(CaseError) as caught:
        answer_from_json(json.dumps(plain))
    assert {fault.path for fault in caught.value.faults} == {f"plan.{path}".replace(".0", "[1]")}


def test_the_committed_document_is_current() -> None:
    assert DOCUMENT.read_text(encoding="utf-8") == case_page(), (
        "run: python -m loamshift.case.page docs/case.md"
    )
