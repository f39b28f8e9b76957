"""The parts of the letter one by one: what each says, and in which words."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from loamshift.case.read import parse_case
from loamshift.domain.answer import (
    Answer,
    Band,
    ClaimResult,
    Decision,
    Direction,
    PublishedSpread,
    Reason,
    Severity,
    Verdict,
)
from loamshift.domain.case import Bed, BedKind, Case, SoilEntry
from loamshift.domain.letter import Block, Items, Note, Paragraph, Section, Table
from loamshift.domain.message import Given, Measure, Quantity, message, prose
from loamshift.domain.ph import PhMethod, PhReading
from loamshift.domain.soil import Fizz, FizzAcid
from loamshift.report.bed_names import treated_area_m2
from loamshift.report.front import opening
from loamshift.report.learnt import learnt
from loamshift.report.letter_checks import checks, worth_measuring
from loamshift.report.letter_claims import claims_settled
from loamshift.report.letter_fields import field_called
from loamshift.report.letter_head import reading_in_force, subtitle
from loamshift.report.letter_need import how_much
from loamshift.report.letter_plan import what_to_do, when_to_retest
from loamshift.report.words import Words
from loamshift.services.advise import advise
from loamshift.services.context.readings import current_reading
from report.answers import ALL, finding

UK = Words("uk", "metric")
US = Words("us", "us")


def said(section: Section | None) -> str:
    assert section is not None
    return "\n".join([section.heading or "", *(_text(block) for block in section.blocks)])


def _text(block: Block) -> str:
    match block:
        case Paragraph(text):
            return text
        case Note(text, label):
            return f"{label}: {text}"
        case Items(items, _):
            return "\n".join(items)
        case Table():
            return "\n".join(" | ".join(row) for row in (titles(block), *block.rows))


def titles(table: Table) -> tuple[str, ...]:
    return tuple(column.title for column in table.columns)


def table(section: Section | None) -> Table:
    assert section is not None
    return next(block for block in section.blocks if isinstance(block, Table))


# -- the head ----------------------------------------------------------------------------------


def test_the_subtitle_says_where_what_and_how_it_was_read() -> None:
    assert subtitle(*ALL["effort"](), words=UK) == (
        "12 April 2026. Minneapolis. Bed of 20 m². Loam with 3% organic matter. pH 6.9 in water "
        "1:1, top 15 cm, tested 20 March 2026. No fizz with vinegar."
    )


def test_a_place_that_is_not_known_is_named_so_in_the_head() -> None:
    answer, case = ALL["effort"]()
    note = message("case-note-place-unknown", given=Given("Ashby Green"))
    placed = message("case-note-at", path=Given("place.name"), note=note)
    nowhere = replace(case, place=None, notes=(placed,))
    assert "2026. Place not known: Ashby Green. Bed of" in subtitle(answer, nowhere, words=UK)
    assert "Place" not in subtitle(answer, replace(nowhere, notes=()), words=UK)


@pytest.mark.parametrize(
    ("passed", "text"),
    [
        (1, "The one check that could be made found nothing wrong."),
        (2, "Neither of the two checks found anything wrong."),
        (6, "The six checks found nothing wrong."),
    ],
)
def test_checks_that_are_all_passed_are_counted_in_a_sentence(passed: int, text: str) -> None:
    answer, _ = ALL["effort"]()
    clear = tuple(finding(f"check {n}", "", passed=True) for n in range(passed))
    assert text in said(checks(replace(answer, findings=clear), numbers={}, words=UK))


def soil(**given: object) -> str:
    case = Case(name="n", today=date(2026, 1, 1), soil=SoilEntry(**given))  # type: ignore[arg-type]
    return subtitle(replace(ALL["bare"]()[0]), case, words=UK).removeprefix("1 January 2026. ")


@pytest.mark.parametrize(
    ("given", "text"),
    [
        ({"ph": PhReading(ph=5.0, method=PhMethod.KCL)}, "pH 5.0 in potassium chloride."),
        ({"ph": PhReading(ph=5.0, method=PhMethod.PASTE)}, "pH 5.0 in saturated paste."),
        ({"ph": PhReading(ph=5.0, method=PhMethod.UNKNOWN)}, "pH 5.0 (method not stated)."),
        ({"ph": PhReading(ph=5.0, method=PhMethod.STRIP)}, "pH 5.0 by test strip."),
        ({"carbonate_pct": 0.0}, "No free lime."),
        ({"carbonate_pct": 2.5}, "2.5% free lime."),
        ({"fizz": Fizz.EXTREME, "fizz_acid": FizzAcid.HCL}, "A violent fizz with hydrochloric "
         "acid."),
        ({"clay_pct": 20.0}, "20% clay."),
    ],
)  # fmt: skip
def test_the_soil_as_told(given: dict[str, object], text: str) -> None:
    assert soil(**given) == text


def test_pots_are_counted_and_rings_described() -> None:
    answer, case = ALL["measure-first"]()
    assert "6 pots of 0.16 m² each." in subtitle(answer, case, words=UK)
    ringed = replace(case, bed=Bed(plants=2, treated_diameter_cm=120.0))
    assert "A 1.2 m ring around each of 2 plants." in subtitle(answer, ringed, words=UK)
    tree = replace(case, bed=Bed(plants=1, treated_diameter_cm=609.6))
    assert "A 20 ft ring" in subtitle(answer, tree, words=US)


def test_a_later_laboratory_reading_speaks_but_a_later_probe_does_not() -> None:
    answer, case = ALL["effort"]()
    first = case.soil.ph
    later = PhReading(ph=6.2, method=PhMethod.WATER_1_1, taken=date(2026, 4, 1))
    probe = PhReading(ph=5.0, method=PhMethod.PROBE, taken=date(2026, 4, 2))
    assert reading_in_force(replace(case, readings=(later,))) is later
    assert reading_in_force(replace(case, readings=(later, probe))) is later
    assert reading_in_force(replace(case, readings=(probe,))) is first
    text = subtitle(answer, replace(case, readings=(later,)), words=UK)
    assert "pH 6.9 in water 1:1" in text and "pH 6.2 in water 1:1" in text


@pytest.mark.parametrize(
    ("first", "sampled", "later", "speaks"),
    [
        (None, None, date(2026, 4, 1), 6.9),
        (None, None, date(2026, 4, 12), 6.2),
        (None, date(2026, 3, 20), date(2026, 4, 1), 6.2),
        (date(2026, 3, 20), None, date(2025, 4, 1), 6.9),
        (date(2026, 3, 20), date(2026, 3, 20), date(2026, 3, 20), 6.2),
    ],
)
def test_a_reading_without_a_date_is_todays_for_letter_and_advice_alike(
    first: date | None, sampled: date | None, later: date, speaks: float
) -> None:
    _, case = ALL["effort"]()
    own = PhReading(ph=6.9, method=PhMethod.WATER_1_1, taken=first)
    new = PhReading(ph=6.2, method=PhMethod.WATER_1_1, taken=later)
    case = replace(case, soil=replace(case.soil, ph=own, sampled=sampled), readings=(new,))
    mine, theirs = reading_in_force(case), current_reading(case)
    assert mine is not None and theirs is not None
    assert mine.ph == theirs.ph == speaks


# -- the opening -------------------------------------------------------------------------------


def opened(name: str, **verdict: object) -> str:
    answer, case = ALL[name]()
    changed = replace(answer.verdict, **verdict)  # type: ignore[arg-type]
    return said(opening(replace(answer, verdict=changed), case, words=UK))


@pytest.mark.parametrize(
    ("name", "bold"),
    [
        (
            "go-acidify",
            "Go ahead for camellia: start with 420 g of sulphur powder on 14 April 2026.",
        ),
        (
            "go-lime",
            "Go ahead for tomato and cabbage: start with 8.9 kg of ground limestone on "
            "3 October 2026.",
        ),
        (
            "effort",
            "You can do it, but it needs topping up every year: start with 1.95 kg of sulphur "
            "powder on 4 May 2026.",
        ),
        (
            "elsewhere",
            "This soil cannot be made to suit rhododendron; treat the plant, not the soil.",
        ),
        ("measure-first", "Do not spread anything yet. Take a new, mixed sample first."),
        ("stop", "Stop: put nothing more on this raised bed for now."),
        ("leave", "Leave the pH of this lawn alone."),
        ("bare", "Have the pH tested first; everything else starts from that."),
    ],
)
def test_the_verdict_comes_first_and_bold(name: str, bold: str) -> None:
    assert opened(name).strip().startswith(f"**{bold}**\n")


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("A repeat test.", "A repeat test."),
        ("if it fizzes", "If it fizzes."),
        ("It is settled by a fizz test.", "It is settled by a fizz test."),
        ("Fizz decides. Try it.", "Fizz decides. Try it."),
    ],
)
def test_what_would_change_it_reads_as_a_sentence(text: str, line: str) -> None:
    last = opened("leave", would_change_if=text).splitlines()[-1]
    assert last == f"What would change this: {line}"


@pytest.mark.parametrize(
    ("name", "decision", "reason", "bold"),
    [
        ("effort", Decision.EFFORT, Reason.WATER, "Treat the water first: without that, no change"),
        ("elsewhere", Decision.ELSEWHERE, Reason.WATER, "Treat the water first"),
        ("leave", Decision.EFFORT, Reason.WATER, "Treat the water first"),
        ("leave", Decision.LEAVE, Reason.WATER,
         "Leave the soil of this lawn alone and treat the water."),
        ("go-lime", Decision.ELSEWHERE, Reason.NO_COMMON_RANGE,
         "Grow tomato and cabbage in separate places: no single pH suits them."),
        ("leave", Decision.LEAVE, Reason.AT_WORK, "what was applied is still working."),
        ("leave", Decision.LEAVE, Reason.IN_RANGE, "Leave the pH of this lawn alone."),
        ("leave", Decision.EFFORT, Reason.UPKEEP,
         "The pH of this lawn is right, but needs a little upkeep every year."),
        ("effort", Decision.EFFORT, Reason.UPKEEP,
         "You can do it, but it needs topping up every year: start with"),
        ("effort", Decision.EFFORT, Reason.PARTS, "but it will take more than a year: start with"),
        ("effort", Decision.EFFORT, Reason.MONTHS,
         "You can do it, but it will take more than a year: start with"),
        ("effort", Decision.MEASURE_FIRST, Reason.NO_PH, "Have the pH tested first"),
        ("effort", Decision.MEASURE_FIRST, Reason.NO_AIM, "First, tell us what you want to grow."),
        ("measure-first", Decision.MEASURE_FIRST, Reason.UNKNOWN_LIME, "Do not spread anything"),
        ("stop", Decision.STOP, Reason.SALT, "Stop: put nothing more on this raised bed for now."),
    ],
)  # fmt: skip
def test_the_headline_follows_the_reason(
    name: str, decision: Decision, reason: Reason, bold: str
) -> None:
    first = opened(name, decision=decision, reason=reason).strip().splitlines()[0]
    assert bold in first and first.startswith("**")


@pytest.mark.parametrize("reason", [None, *Reason])
@pytest.mark.parametrize("decision", list(Decision))
def test_every_reason_with_every_decision_has_a_headline(
    reason: Reason | None, decision: Decision
) -> None:
    for name in ("effort", "bare"):
        first = opened(name, decision=decision, reason=reason, because="x").strip().splitlines()[0]
        assert first.startswith("**") and first.endswith(".**") and "  " not in first


def test_what_the_readings_taught_has_its_own_section() -> None:
    answer, _ = ALL["rule"]()
    lines = said(learnt(answer, words=UK)).splitlines()
    assert lines[1] == "This soil resists 1.4 times more than its texture suggests."
    assert lines[2].startswith("Doubtful reading: The reading of 2 May 2025 fits no bed")
    assert answer.refit is not None
    quiet = replace(answer, refit=replace(answer.refit, words="", doubted=()))
    assert learnt(quiet, words=UK) is None


def test_a_plant_that_is_still_to_come_goes_elsewhere() -> None:
    answer, case = ALL["elsewhere"]()
    empty = replace(case, bed=replace(case.bed, growing=()))
    text = said(opening(answer, empty, words=UK))
    assert "**Do not fight this soil for rhododendron; give it a place of its own.**" in text


def test_a_pot_of_lime_is_filled_afresh() -> None:
    answer, case = ALL["measure-first"]()
    verdict = Verdict(decision=Decision.ELSEWHERE, because="x", would_change_if="")
    assert "the mix in these pots; repot them in fresh compost" in said(
        opening(replace(answer, verdict=verdict), case, words=UK)
    )


# -- how much ----------------------------------------------------------------------------------


def test_the_need_is_a_range_per_area_and_for_the_bed() -> None:
    text = said(how_much(*ALL["effort"](), words=UK))
    assert "Our best estimate of the need is 230 g/m² of pure sulphur." in text
    assert "anywhere from 110 to 600 g/m²" in text
    assert "For the bed that is about 4.6 kg, in a range of 2.2 to 12 kg." in text
    assert "About 23% of it goes into free lime" in text
    assert "Six published sulphur tables" in text and "give 98 to 240 g/m²" in text
    assert "Provisional" not in text


def test_a_need_that_may_be_none_says_so() -> None:
    text = said(how_much(*ALL["measure-first"](), words=UK))
    assert "anywhere up to 88 g/m², and perhaps nothing at all" in text
    assert "Provisional: " in text and "The one published sulphur table" in text


@pytest.mark.parametrize(("share", "said_so"), [(None, False), (0.1, False), (0.11, True)])
def test_free_lime_is_named_from_a_tenth_on(share: float | None, said_so: bool) -> None:
    answer, case = ALL["effort"]()
    changed = replace(answer, dose=replace(answer.dose, carbonate_share=share))
    assert ("free lime" in said(how_much(changed, case, words=UK))) is said_so


def test_tables_that_agree_have_no_range() -> None:
    answer, case = ALL["effort"]()
    one = PublishedSpread(n_sources=2, low=98.0, high=98.0)
    changed = replace(answer, dose=replace(answer.dose, published_g_m2=one))
    told = said(how_much(changed, case, words=UK))
    assert "Two published sulphur tables for this soil and this change in pH give 98 g/m²." in told


def test_the_area_comes_from_the_plan_or_else_from_the_bed() -> None:
    answer, case = ALL["effort"]()
    assert treated_area_m2(answer, case) == pytest.approx(20.0)
    bare = replace(answer, applications=(), options=())
    assert treated_area_m2(bare, replace(case, bed=Bed(area_m2=3.0, count=4))) == 12.0
    assert treated_area_m2(bare, replace(case, bed=Bed())) is None


# -- what to do --------------------------------------------------------------------------------


def test_a_part_says_when_what_how_much_and_how() -> None:
    parts = table(what_to_do(*ALL["go-acidify"](), words=UK))
    assert titles(parts) == ("when", "what", "rate", "for the bed", "how")
    assert parts.rows[0] == (
        "14 April 2026", "Sulphur powder", "52 g/m²", "420 g",
        "work into the top 20 cm",
    )  # fmt: skip
    assert parts.rows[1][1] == "Sulphur powder"
    assert parts.rows[1][4] == (
        "only if a test on or after 27 March 2027 reads above pH 5.8: work into the top 20 cm"
    )


def test_without_an_area_there_is_no_column_for_the_bed() -> None:
    answer, case = ALL["go-acidify"]()
    parts = tuple(replace(part, amount_g=None) for part in answer.applications)
    section = what_to_do(replace(answer, applications=parts), case, words=UK)
    assert titles(table(section)) == ("when", "what", "rate", "how")


def test_one_part_needs_no_reason() -> None:
    answer, case = ALL["go-acidify"]()
    assert "Split it into two applications: roots and soil microbes" in said(
        what_to_do(answer, case, words=UK)
    )
    single = replace(answer, applications=answer.applications[:1])
    assert "Split it" not in said(what_to_do(single, case, words=UK))


def test_a_rough_reading_is_not_to_be_repeated() -> None:
    text = said(what_to_do(*ALL["measure-first"](), words=UK))
    assert "have a laboratory do it" in text and "same method" not in text


def test_why_it_is_too_early_follows_the_material() -> None:
    assert "sulphur works only in warm soil" in said(what_to_do(*ALL["effort"](), words=UK))
    assert "lime dissolves slowly" in said(what_to_do(*ALL["go-lime"](), words=UK))


# -- claims, checks --------------------------------------------------------------------


def claimed(brought: float, needed: float, **more: object) -> str:
    answer, case = ALL["leave"]()
    claim = ClaimResult(
        material="wood ash", acid_brought_mmolc_m2=brought, acid_needed_mmolc_m2=needed,
        share=None, ph_change_now=None, ph_change_1_year=None, comment="",
    )  # fmt: skip
    claim = replace(claim, **more)  # type: ignore[arg-type]
    return said(claims_settled(replace(answer, claims=(claim,)), case, words=UK)).splitlines()[1]


def test_claims_wait_for_a_test_of_the_ph() -> None:
    case = parse_case(
        "case = 1\ntoday = 2026-04-12\n[[claim]]\nmaterial = 'garden lime'\nrate = '100 g/m2'"
    )
    waits = said(claims_settled(advise(case), case, words=UK))
    assert "The claim waits for the test" in waits and "put none of it on" in waits


SULFUR, LIME = "This adds acid equivalent to", "This adds lime equivalent to"
NEEDS_160 = "This lawn needs the equivalent of 160 g/m² of pure sulphur."


@pytest.mark.parametrize(
    ("brought", "needed", "share", "text"),
    [
        (1000.0, 10000.0, 0.1, f"{SULFUR} 16 g/m² of pure sulphur. {NEEDS_160} That is 10% of the "
         "need."),
        (0.0, 10000.0, 0.0, f"This adds no lasting acid. {NEEDS_160}"),
        (-1000.0, 10000.0, -0.1, f"{LIME} 50 g/m² of pure limestone. {NEEDS_160} This works "
         "the other way."),
        (-1000.0, -2000.0, 0.5, f"{LIME} 50 g/m² of pure limestone. This lawn needs the equivalent "
         "of 100 g/m² of pure limestone. That is 50% of the need."),
        (1000.0, 0.0, None, f"{SULFUR} 16 g/m² of pure sulphur. This lawn needs none."),
        (1.0, 1000000.0, 1e-6, f"{SULFUR} 0.016 g/m² of pure sulphur. This lawn needs the "
         "equivalent of 16 kg/m² of pure sulphur. That is less than 1% of the need."),
    ],
)  # fmt: skip
def test_a_claim_is_weighed(brought: float, needed: float, share: float | None, text: str) -> None:
    assert claimed(brought, needed, share=share) == f"**Wood ash.** {text}"


def test_a_comment_that_tells_the_figures_is_not_told_twice() -> None:
    part = {"share": Measure(Quantity.SHARE, 0.1), "size": "plain", "aim": "given"}
    told = message("claim-share", pace="quick", needs="acid", place="lawn", **part)
    comment = prose(told, message("claim-year-still"))
    text = claimed(1000.0, 10000.0, share=0.1, comment=comment, ph_change_now=-0.1)
    assert text.endswith(
        "of pure sulphur. That is 10% of the acid this lawn needs. The pH would barely change, "
        "now or in a year."
    )
    kept = "That is 10 % of it; the pH falls by 0.1."
    assert claimed(1000.0, 10000.0, share=0.1, comment=kept, ph_change_now=-0.1).endswith(
        f"of pure sulphur. {kept}"
    )


@pytest.mark.parametrize(
    ("now", "year", "text"),
    [
        (0.1, 0.2, "At once the pH would rise by about 0.1. After a year the pH would be about "
         "0.2 higher than without it."),
        (-0.3, 0.0, "At once the pH would fall by about 0.3. After a year there would be no "
         "difference."),
        (0.0, 0.0, "The pH would barely change, now or later."),
        (-0.4, -0.4, "The pH would fall by about 0.4 at once and stay there through the year."),
        (None, -0.2, "After a year the pH would be about 0.2 lower than without it."),
        (-0.2, None, "At once the pH would fall by about 0.2."),
    ],
)  # fmt: skip
def test_what_the_ph_would_do(now: float | None, year: float | None, text: str) -> None:
    assert claimed(1000.0, 0.0, ph_change_now=now, ph_change_1_year=year).endswith(f" {text}")


def checked(answer: Answer) -> list[str]:
    section = checks(answer, numbers={}, words=UK)
    assert section is not None
    return [_text(block) for block in section.blocks]


def test_checks_stand_gravest_first_and_passed_ones_are_counted() -> None:
    answer, _ = ALL["bare"]()
    rows = (
        finding("c", "So it is", severity=Severity.INFO),
        finding("ok", "fine", passed=True, severity=Severity.INFO),
        finding("a", "Mind that", severity=Severity.CAUTION),
        finding("b", "Do not", severity=Severity.BLOCK),
    )
    assert checked(replace(answer, findings=rows)) == [
        "Stop: Do not.", "Caution: Mind that.", "Note: So it is.",
        "One other check found nothing wrong.",
    ]  # fmt: skip
    assert checked(replace(answer, findings=rows[1:2])) == [
        "The one check that could be made found nothing wrong."
    ]


def test_what_was_only_noted_is_said_and_not_counted_as_a_check() -> None:
    answer, _ = ALL["bare"]()
    note = replace(
        finding(
            "as read",
            message(
                "case-note-at",
                path=Given("applied[1].rate"),
                note=message("case-note-short-ton", given=Given("1 ton/acre")),
            ),
            passed=True,
            severity=Severity.INFO,
        ),
        operator="",
    )
    assert checked(replace(answer, findings=(note,))) == [
        "Note: Application 1, rate: The ton in “1 ton/acre” is read as a short ton of 2000 lb."
    ]


def test_a_check_without_words_is_put_into_some() -> None:
    answer, _ = ALL["bare"]()
    bare = finding("ph_above_limit", "", value=7.25, limit=5.5)
    assert checked(replace(answer, findings=(bare,))) == [
        "Caution: Ph above limit: 7.25; at most 5.5 was expected."
    ]


def test_what_is_missing_is_named_in_words() -> None:
    text = said(worth_measuring(ALL["measure-first"]()[0], currency=None, words=UK))
    assert "**A laboratory pH.** The probe decides nothing by itself." in text
    assert "**Alkalinity of the water.** Pots are watered daily" in text
    assert field_called("soil.never_heard_of") == "Never heard of"
    assert field_called("claim[2].amount") == "Claim 2, amount"


def test_pots_and_lawns_are_called_so() -> None:
    answer, case = ALL["go-lime"]()
    lawn = replace(case, bed=replace(case.bed, kind=BedKind.LAWN))
    assert "Go ahead for tomato and cabbage" in said(opening(answer, lawn, words=UK))
    assert "for the lawn" in titles(table(what_to_do(answer, lawn, words=UK)))


def test_a_dose_of_none_needs_no_section() -> None:
    answer, case = ALL["effort"]()
    none = replace(answer.dose, direction=Direction.NONE)
    assert how_much(replace(answer, dose=none), case, words=UK) is None
    unknown = replace(answer.dose, sulfur_as_s_g_m2=None)
    assert how_much(replace(answer, dose=unknown), case, words=UK) is None
    sure = replace(answer.dose, sulfur_as_s_g_m2=Band(lo90=50.0, mid=50.0, hi90=50.0))
    assert "need is 50 g/m² of pure sulphur. For the bed" in said(
        how_much(replace(answer, dose=sure), case, words=UK)
    )
    nothing = replace(answer, dose=sure, applications=())
    assert "need is 50 g/m² of pure sulphur." in said(how_much(nothing, case, words=UK))


def test_a_depth_given_in_inches_is_said_as_a_ruler_shows_it() -> None:
    answer, case = ALL["go-acidify"]()
    assert case.soil.ph is not None
    reading = replace(case.soil.ph, depth_cm=15.24)
    deep = replace(case, soil=replace(case.soil, ph=reading))
    assert "top 15 cm" in subtitle(answer, deep, words=UK)


def test_a_test_to_another_depth_than_is_worked_says_why() -> None:
    answer, case = ALL["effort"]()
    deep = max(part.incorporate_cm for part in answer.applications)
    why = "although the application is worked into the top"
    at = replace(case, soil=replace(case.soil, sample_depth_cm=deep))
    assert why not in when_to_retest(answer, at, UK)
    below = replace(case, soil=replace(case.soil, sample_depth_cm=deep + 5.0))
    assert why in when_to_retest(answer, below, UK)
