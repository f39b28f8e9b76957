"""Caps govern once each, cautions are complete, printed rates are converted rightly."""

from __future__ import annotations

import csv
import re

import build_rules
import printed_rates
import pytest
from common import DATA

from loamshift.domain.evidence import Evidence
from loamshift.domain.message import Given, Quantity, message
from loamshift.errors import LoamshiftError, TableError
from loamshift.tables.references import load_references
from loamshift.tables.rows import read_rows
from loamshift.tables.rules import (
    cap_for,
    caution_text,
    has_cap,
    load_caps,
    load_cautions,
    load_lime_rates,
    load_sulfur_rates,
)
from wording import read

CODES = [
    "sulfur-dust",
    "caustic-lime",
    "acid-handling",
    "salt",
    "aluminium",
    "nitrogen",
    "hydrogen-sulfide",
    "iron-stain",
    "metals",
    "free-lime",
    "water-alkalinity",
    "cold-soil",
    "too-early",
    "over-cap",
    "overdose",
    "too-acid",
    "probe-reading",
    "method-unknown",
    "unit-slip",
    "neutral-salt",
    "split",
    "established-roots",
    "iron-chlorosis",
    "ammonia",
    "children-pets",
    "acid-sulfate",
    "sodic",
    "beside-limestone",
    "beside-concrete",
    "mortar-rubble",
    "lined-trench",
    "over-chalk",
    "yellow-young",
    "yellow-old",
    "scorched-edges",
    "too-deep",
    "wet-feet",
    "blue-flowers",
    "pink-flowers",
    "potato-scab",
    "club-root",
]


def test_one_cap_governs_each_material_situation_and_period() -> None:
    caps = load_caps()
    triples = {(cap.applies_to, cap.situation, cap.per) for cap in caps}
    for triple in triples:
        assert sum(c.used and (c.applies_to, c.situation, c.per) == triple for c in caps) == 1
    assert len({cap.key for cap in caps}) == len(caps)


@pytest.mark.parametrize(
    ("applies_to", "situation", "per", "limit_g_m2"),
    [
        ("sulfur", "unplanted", "dose", 97.6),
        ("sulfur", "unplanted", "year", 195.3),
        ("sulfur", "planted", "dose", 34.2),
        ("sulfur", "planted", "year", 34.2),
        ("sulfur", "lawn", "dose", 24.4),
        ("sulfur", "lawn", "year", 48.8),
        ("sulfur", "field", "year", 44.8),
        ("sulfur", "container", "dose", 34.2),
        ("limestone", "unplanted", "dose", 488.2),
        ("limestone", "planted", "dose", 244.1),
        ("limestone", "lawn", "year", 488.2),
        ("aluminium sulfate", "planted", "dose", 244.1),
        ("iron sulfate", "lawn", "dose", 341.8),
        ("nitrogen", "lawn", "dose", 4.9),
        ("nitrogen", "planted", "year", 15.5),
    ],
)
def test_governing_caps(applies_to: str, situation: str, per: str, limit_g_m2: float) -> None:
    cap = cap_for(applies_to=applies_to, situation=situation, per=per)
    assert cap.limit_g_m2 == pytest.approx(limit_g_m2, abs=0.06)
    assert cap.used


@pytest.mark.parametrize("material", ["sulfur", "limestone", "aluminium sulfate", "iron sulfate"])
@pytest.mark.parametrize("situation", ["unplanted", "planted", "lawn", "field", "container"])
def test_a_year_allows_at_least_one_dose(material: str, situation: str) -> None:
    dose = cap_for(applies_to=material, situation=situation, per="dose")
    year = cap_for(applies_to=material, situation=situation, per="year")
    assert dose.limit_g_m2 <= year.limit_g_m2


def test_bare_ground_waits_three_months() -> None:
    assert cap_for(applies_to="sulfur", situation="unplanted", per="dose").wait_months == 3


def test_the_suspect_turf_figure_is_recorded_and_never_used() -> None:
    suspect = [cap for cap in load_caps() if "suspect" in cap.note]
    assert [(cap.key, cap.used) for cap in suspect] == [("sulfur-lawn-suspect", False)]
    assert suspect[0].limit_g_m2 == pytest.approx(488.2, abs=0.1)


def test_limits_lie_below_the_injuries_seen() -> None:
    by_key = {cap.key: cap for cap in load_caps()}
    bare = cap_for(applies_to="sulfur", situation="unplanted", per="year").limit_g_m2
    lawn = cap_for(applies_to="sulfur", situation="lawn", per="year").limit_g_m2
    assert bare < by_key["sulfur-unplanted-injury-pine"].limit_g_m2
    assert lawn < by_key["sulfur-lawn-injury-green"].limit_g_m2
    assert lawn < by_key["sulfur-lawn-injury-bentgrass"].limit_g_m2


def test_a_cup_of_sulfur_is_five_times_the_yearly_limit() -> None:
    """One pound is printed as two and a half cups."""
    cup_g = 453.59 / 2.5
    year = cap_for(applies_to="sulfur", situation="planted", per="year").limit_g_m2
    assert cup_g / year == pytest.approx(5.0, abs=0.5)
    figures = load_cautions()["unit-slip"].figures
    assert figures["cup"].value == pytest.approx(cup_g, abs=0.1)
    assert figures["ratio"].value == pytest.approx(cup_g / year, abs=0.05)
    assert "about 180 g" in read(load_cautions()["unit-slip"].text)


def test_where_nothing_was_printed_there_is_no_cap() -> None:
    assert not has_cap(applies_to="nitrogen", situation="container", per="year")
    assert has_cap(applies_to="iron sulfate", situation="container", per="dose")
    with pytest.raises(TableError, match="nitrogen per year for container"):
        cap_for(applies_to="nitrogen", situation="container", per="year")


def test_a_cap_cannot_drift_from_the_row_it_was_read_from(monkeypatch: pytest.MonkeyPatch) -> None:
    rows = build_rules.source_rows

    def changed(name: str) -> list[dict[str, str]]:
        return [
            {**row, "rate": "0.8"} if row.get("key") == "sulfur-planted-year" else row
            for row in rows(name)
        ]

    monkeypatch.setattr(build_rules, "source_rows", changed)
    with pytest.raises(SystemExit, match="sulfur-planted-year"):
        build_rules.cap_rows()


def test_all_caution_codes_are_there() -> None:
    assert list(load_cautions()) == CODES


@pytest.mark.parametrize("units", ["metric", "us"])
@pytest.mark.parametrize("code", CODES)
def test_cautions_are_short_plain_and_sourced(code: str, units: str) -> None:
    caution = load_cautions()[code]
    sentences = re.split(r"(?<=[.!?])\s+", read(caution.text, units=units))
    assert 1 <= len(sentences) <= 6
    assert all(len(sentence.split()) <= 30 for sentence in sentences)
    short = read(caution.short, units=units)
    assert short.endswith(".") and len(short.split()) <= 25
    assert len(read(caution.label, units=units).split()) <= 4
    assert caution.source_key in load_references()
    assert caution.evidence in Evidence


@pytest.mark.parametrize(
    ("code", "words"),
    [
        ("caustic-lime", "Never apply lime or ash together with ammonium or urea"),
        ("ammonia", "Never apply lime or ash together with ammonium or urea"),
        ("nitrogen", "Never apply lime or ash together with ammonium or urea"),
        ("acid-handling", "acid into water, never water into acid"),
        ("acid-handling", "Never let acid meet hypochlorite"),
        ("acid-handling", "chlorine gas"),
        ("sulfur-dust", "Follow the label and local rules"),
        ("children-pets", "Follow the label and local rules"),
        ("hydrogen-sulfide", "saturated ground"),
        ("neutral-salt", "bring no acid"),
    ],
)
def test_cautions_say_what_must_not_be_left_out(code: str, words: str) -> None:
    for units in ("metric", "us"):
        assert words in read(load_cautions()[code].text, units=units)


@pytest.mark.parametrize(
    ("code", "words"),
    [
        ("sulfur-dust", "goggles, gloves and a dust mask"),
        ("sulfur-dust", "flames"),
        ("acid-handling", "acid into water, never water into acid"),
        ("acid-handling", "bleach"),
        ("caustic-lime", "goggles"),
        ("hydrogen-sulfide", "waterlogged"),
        ("ammonia", "Never apply lime or ash together with ammonium or urea"),
        ("children-pets", "children and pets off"),
    ],
)
def test_the_short_cautions_keep_what_protects(code: str, words: str) -> None:
    for units in ("metric", "us"):
        assert words in read(load_cautions()[code].short, units=units)


def test_whom_to_call_is_said_for_the_country_of_the_reader() -> None:
    text = caution_text(load_cautions()["children-pets"], ("iron-stain",))
    assert "111" in read(text) and "Poison Control" not in read(text)
    assert "Poison Control" in read(text, units="us") and "999" not in read(text, units="us")
    assert "Iron" not in read(caution_text(load_cautions()["children-pets"], ("sulfur-dust",)))


def test_every_figure_in_a_caution_has_a_source_and_appears_in_its_words() -> None:
    rows = read_rows("caution_figures")
    assert {row["code"] for row in rows} <= set(CODES)
    names = [(row["code"], row["name"]) for row in rows]
    assert len(names) == len(set(names))
    for row in rows:
        assert row["source_key"] in load_references()
        caution = load_cautions()[row["code"]]
        with pytest.raises(LoamshiftError):
            without = {key: one for key, one in caution.figures.items() if key != row["name"]}
            read(message(f"caution-{caution.code}", **without))


@pytest.mark.parametrize("units", ["metric", "us"])
@pytest.mark.parametrize("code", CODES)
def test_no_figure_stands_in_the_words_of_a_caution(code: str, units: str) -> None:
    """What is not in the table of figures is a name, a telephone number or a unit of area."""
    caution = load_cautions()[code]
    blank = {key: Given("so much") for key in caution.figures}
    said = read(message(f"caution-{code}", **blank), units=units)
    known = r"\b1-800-222-1222\b|\b(?:111|999|911)\b|\bper (?:100|1,000)\b|\bCaCO3\b"
    assert not re.search(r"\d", re.sub(known, "", said))


def test_figures_in_cautions_are_those_of_the_caps() -> None:
    cautions = load_cautions()
    for code, name, applies_to, situation, per in (
        ("split", "dose", "sulfur", "unplanted", "dose"),
        ("established-roots", "year", "sulfur", "planted", "year"),
        ("over-cap", "planted", "sulfur", "planted", "year"),
        ("over-cap", "lawn", "sulfur", "lawn", "dose"),
        ("nitrogen", "blueberry", "nitrogen", "planted", "year"),
        ("nitrogen", "lawn", "nitrogen", "lawn", "dose"),
    ):
        limit = cap_for(applies_to=applies_to, situation=situation, per=per)
        figure = cautions[code].figures[name]
        assert (figure.kind, figure.value) == (Quantity.RATE, limit.limit_g_m2)
    killed = next(cap for cap in load_caps() if cap.key == "sulfur-unplanted-injury-pine")
    assert cautions["overdose"].figures["killed"].value == killed.limit_g_m2


def test_a_figure_of_a_caution_cannot_drift_from_its_limit(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    rows = build_rules.source_rows

    def changed(name: str) -> list[dict[str, str]]:
        return [
            {**row, "value": "99"} if row.get("cap") == "sulfur-unplanted-dose" else row
            for row in rows(name)
        ]

    monkeypatch.setattr(build_rules, "source_rows", changed)
    with pytest.raises(SystemExit, match="split"):
        build_rules.caution_figure_rows()


def test_the_figures_we_derived_are_derived_rightly() -> None:
    """Free lime and water by the weights of the atoms, warmth by the equation of the forecast."""
    cautions = load_cautions()
    lime, water = cautions["free-lime"].figures, cautions["water-alkalinity"].figures
    soil_g_m2 = 1.3e6 * lime["depth"].value / 100.0
    limestone = soil_g_m2 * lime["lime"].value / 100.0
    assert lime["sulfur"].value == pytest.approx(limestone * 32.06 / 100.09, rel=1e-3)
    limed = water["alkalinity"].value * water["water"].value / 1000.0
    assert water["lime"].value == pytest.approx(limed)
    assert water["sulfur"].value == pytest.approx(limed * 32.06 / 100.09, rel=5e-3)


def test_printed_rates_are_converted_as_handed_down() -> None:
    assert printed_rates.sulfur_differences() == []
    assert printed_rates.lime_differences() == []


def test_sulfur_rates() -> None:
    rates = load_sulfur_rates()
    assert len({rate.row for rate in rates}) == len(rates)
    for rate in rates:
        assert 0.0 < rate.low_g_m2 <= rate.high_g_m2
        assert rate.depth_cm > 0.0
        assert rate.source_key in load_references()
        if rate.usable:
            assert rate.ph_drop > 0.0
            if rate.ph_start is not None and rate.ph_target is not None:
                assert rate.ph_start - rate.ph_target == pytest.approx(rate.ph_drop)
    by_row = {rate.row: rate for rate in rates}
    assert by_row[5].low_g_m2 == pytest.approx(115.4, abs=0.1)  # 1030 lb/acre
    assert by_row[22].low_g_m2 == pytest.approx(43.9, abs=0.1)  # 1 lb/100 sq ft of 90 % S
    assert by_row[41].low_g_m2 == pytest.approx(40.7, abs=0.1)  # 1.2 oz/yd2


def test_the_limestone_table_under_the_heading_of_sulfur_is_never_usable() -> None:
    trap = [rate for rate in load_sulfur_rates() if rate.family == "G19"]
    assert len(trap) == 9
    assert not any(rate.usable for rate in trap)
    assert all(rate.ph_drop <= 0.0 for rate in trap)
    rates = [rate for rate in load_sulfur_rates() if rate.usable]
    assert {rate.evidence for rate in rates} == {
        Evidence.SEEN,
        Evidence.SECONDARY,
        Evidence.MEMORY,
    }


def test_sulfur_rates_of_one_family_rise_with_the_step() -> None:
    rates = [r for r in load_sulfur_rates() if r.family == "G2" and r.evidence is Evidence.MEMORY]
    assert len(rates) == 40
    for texture in ("sand", "loam"):
        steps = {r.ph_drop: r.low_g_m2 for r in rates if r.texture == texture}
        ordered = [steps[drop] for drop in sorted(steps)]
        assert ordered == sorted(ordered)


def test_salts_stay_in_the_table_only() -> None:
    with (DATA / "sulfur_rates.csv").open(encoding="utf-8", newline="") as handle:
        rows = list(csv.DictReader(handle))
    salts = {row["row"] for row in rows if row["material"] != "elemental sulfur"}
    assert len(rows) == 157
    assert len(salts) == 24
    assert not salts & {str(rate.row) for rate in load_sulfur_rates()}


def test_lime_rates_rise_with_the_step_and_the_clay() -> None:
    rates = load_lime_rates()
    assert [rate.row for rate in rates] == list(range(72, 91))
    chart = {(r.ph_rise, r.texture): r.rate_g_m2 for r in rates if r.row <= 86}
    for texture in ("sandy loam", "loam", "clay loam"):
        column = [chart[rise, texture] for rise in (0.5, 1.0, 1.5, 2.0, 2.5)]
        assert column == sorted(column)
    for rise in (0.5, 1.0, 1.5, 2.0, 2.5):
        row = [chart[rise, t] for t in ("sandy loam", "loam", "clay loam")]
        assert row == sorted(row)
    assert chart[2.5, "loam"] == pytest.approx(781.2, abs=0.1)  # 16 lb/100 sq ft
