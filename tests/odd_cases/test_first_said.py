"""What a letter says first, and what it no longer says; each was once said otherwise.

What an expert would say is common practice, no source.
"""

from __future__ import annotations

import re

import pytest

from loamshift.case.quantities import read_area_m2
from loamshift.case.read import parse_case
from loamshift.domain.answer import Decision, Reason, Severity
from loamshift.domain.letter import Items, Note, Paragraph, Sheet
from loamshift.report.letter import letter_from_answer
from loamshift.report.words import Words
from odd_cases.cases import WATER, answered, put_on, read, read_again, text
from wording import read as worded

UK = Words("uk", "metric")
PLANTED = 'area = "8 m2"\nplanted = true'


def letter(case_text: str, *, forecast: bool = False) -> dict[str, str]:
    """The texts of a letter by the topic of their section, the front sheet's with ``front-``."""
    answer, case = answered(case_text, forecast=forecast), parse_case(case_text)
    found: dict[str, str] = {}
    for section in letter_from_answer(answer, case, words=UK).sections:
        texts: list[str] = []
        for block in section.blocks:
            if isinstance(block, Paragraph):
                texts.append(block.text)
            elif isinstance(block, Items):
                texts += block.items
            elif isinstance(block, Note):
                texts.append(block.text)
        topic = f"front-{section.topic}" if section.sheet is Sheet.FRONT else str(section.topic)
        found[topic] = found.get(topic, "") + " ".join(texts)
    return found


def test_signs_stand_before_what_goes_on() -> None:
    bed = PLANTED + '\nsigns = ["planted-too-deep", "yellow-young-leaves"]'
    said = letter(text(bed=bed, soil=read(6.3), aim='plant = "rhododendron"'))
    topics = list(said)
    assert topics.index("front-first") < topics.index("front-steps")
    assert "too deep" in said["front-first"] and "Yellow young leaves" in said["front-first"]


def test_lime_that_lies_around_is_said_to_be_left_out() -> None:
    bed = PLANTED + '\nsurroundings = ["limestone-gravel", "mortar"]'
    case_text = text(bed=bed, soil=read(6.3), aim='plant = "rhododendron"')
    said = letter(case_text, forecast=True)
    for topic in ("front-undo", "expect"):
        assert "leaves out the lime from limestone gravel and mortar" in said[topic]
    assert "Nothing we know of" not in said["front-undo"]
    assert (
        "leaves out" not in letter(case_text.replace("surroundings", "# "), forecast=True)["expect"]
    )


def test_wet_ground_that_is_to_be_limed_is_drained_first() -> None:
    bed = 'area = "8 m2"\nplanted = false\ndrainage = "waterlogged"'
    said = letter(text(bed=bed, soil=read(4.9), aim='plant = "onion"'))
    assert "Drain or raise it before anything else" in said["front-first"]
    assert "first" not in " ".join(letter(text(soil=read(4.9), aim='plant = "onion"')))


def test_old_ground_is_tested_for_metals_before_food_is_grown() -> None:
    bed = 'area = "8 m2"\nsite = "old-urban"'
    soil = read(8.3, lime="carbonate_pct = 6\n")
    said = letter(text(bed=bed, soil=soil, aim='plant = "apple"'))
    assert "lead or arsenic" in said["front-first"]
    assert "front-measure" not in said, "nothing about the soil would change it"


def test_an_acid_subsoil_stands_on_the_front_sheet() -> None:
    below = '[[soil.layer]]\ntop = "15 cm"\nbottom = "30 cm"\nph = 4.3\nph_method = "CaCl2"\n'
    said = letter(text(soil=read(6.2) + below, aim='plant = "cabbage"'))
    assert "From 15 cm down the soil is so acid" in said["front-first"]


def test_tests_that_contradict_each_other_are_not_told_as_one() -> None:
    other = '[[soil.other_ph]]\nph = 6.6\nph_method = "CaCl2"\n'
    said = letter(text(soil=read(6.2) + other, aim='plant = "raspberry"'))
    assert "contradict each other" in said["front-first"]
    assert "It tested at" not in said["front-opening"]


def test_a_test_of_twelve_years_ago_is_named_as_too_old() -> None:
    soil = read(5.3) + "sampled = 2014-03-01\n"
    answer = answered(text(soil=soil, aim='plant = "cabbage"'))
    assert "1 March 2014" in worded(answer.verdict.because)
    assert "no pH reading" not in worded(answer.verdict.because)
    assert [row.check for row in answer.findings if row.check == "age of the sample"] == []


def test_lime_of_a_fortnight_ago_is_named_as_still_working() -> None:
    soil = read(5.6) + "organic_matter_pct = 4\nsampled = 2026-04-10\n"
    lime = put_on("2026-03-28", "ground limestone", "400 g/m2", depth="15 cm")
    answer = answered(text(soil=soil, aim='plant = "onion"', more=lime))
    assert answer.verdict.decision is Decision.LEAVE
    assert answer.verdict.reason is Reason.AT_WORK
    (day,) = answer.retest
    assert day.isoformat() == "2027-03-28"


def test_lime_of_two_winters_is_not_called_one_application() -> None:
    lime = put_on("2025-02-01", "hydrated lime", "300 g/m2")
    lime += put_on("2026-02-10", "ground limestone", "500 g/m2")
    soil = read(6.2, texture="loamy sand") + "sampled = 2026-03-20\n"
    answer = answered(text(soil=soil, aim='plant = "cabbage"', more=lime), forecast=False)
    (row,) = [row for row in answer.findings if row.check == "applied within a year: limestone"]
    assert "limestone" in worded(row.comment) and "hydrated" not in worded(row.comment)


def test_ash_is_never_said_to_lower_the_ph() -> None:
    ash = put_on("2026-01-15", "wood ash", "5 kg/m2")
    soil = 'ph = 9.1\nph_method = "strip"\ntexture = "loam"\nsampled = 2026-04-05'
    answer = answered(text(soil=soil, aim='plant = "lettuce"', more=ash))
    assert answer.verdict.reason is Reason.OVERDOSE
    assert "before it has finished" not in worded(answer.verdict.because)
    (care,) = [one for one in answer.cautions if one.code == "caustic-lime"]
    assert "wood ash" in worded(care.short) and "limestone instead" not in worded(care.short)


def test_an_overdose_that_is_only_proposed_is_not_scraped_up() -> None:
    claim = '[[claim]]\nmaterial = "elemental sulfur, prills"\nrate = "250 g/m2"'
    case_text = text(
        bed='kind = "lawn"\narea = "80 m2"', soil=read(7.4), aim='plant = "lawn"', more=claim
    )
    answer = answered(case_text, forecast=False)
    assert any(row.severity is Severity.BLOCK for row in answer.findings)
    (caution,) = [one for one in answer.cautions if one.code == "overdose"]
    assert "Do not apply it" in worded(caution.text)
    assert "scrape" not in worded(caution.text) + worded(caution.short)


def test_sulfur_that_was_dug_in_is_not_raked_off() -> None:
    soil = read(4.1, texture="sand") + "sampled = 2026-04-08\n"
    bed = PLANTED
    for depth, lies in (("15 cm", False), ("", True)):
        sulfur = put_on("2025-09-01", "elemental sulfur, powder", "150 g/m2", depth=depth)
        answer = answered(
            text(bed=bed, soil=soil, aim='plant = "highbush blueberry"', more=sulfur),
            forecast=False,
        )
        assert answer.rescue is not None
        steps = " ".join(map(worded, answer.rescue.steps))
        assert ("rake off" in steps) is lies


def test_a_salty_soil_is_told_in_one_scale_and_washed_at_once() -> None:
    soil = read(7.4) + 'ec_ds_m = 0.9\nec_method = "1:5"\nsampled = 2026-03-25\n'
    answer = answered(text(soil=soil, aim='plant = "tomato"'), forecast=False)
    assert answer.verdict.reason is Reason.SALT
    assert "about 8.8 dS/m in saturated paste" in worded(answer.verdict.because)
    assert answer.rescue is not None
    steps = [worded(step) for step in answer.rescue.steps]
    assert "water the bed through" in steps[1] and "If the salt reads" not in " ".join(steps)
    assert len(answer.retest) == 1


def test_a_day_that_leaves_out_seasons_is_what_would_change_it() -> None:
    soil = read(7.2, texture="clay loam") + "organic_matter_pct = 3\nsampled = 2026-04-01\n"
    aim = 'plant = "highbush blueberry"\nby = 2026-09-10'
    answer = answered(text(soil=soil, aim=aim), forecast=False)
    assert answer.verdict.reason is Reason.CAPS
    assert "A later day than 10 September 2026" in worded(answer.verdict.would_change_if)


def test_no_test_is_asked_for_where_none_of_the_beds_gets_there() -> None:
    soil = read(7.9, texture="silty clay loam", lime='fizz = "strong"\nfizz_acid = "HCl"\n')
    case_text = text(bed='area = "8 m2"\nplanted = false', soil=soil, aim='plant = "rhododendron"')
    answer = answered(case_text, forecast=False)
    assert answer.verdict.reason is Reason.FREE_LIME
    assert worded(answer.verdict.would_change_if) == "Nothing that a test is likely to show."
    assert "front-measure" not in letter(case_text)


def test_a_target_elsewhere_in_the_range_is_answered() -> None:
    aim = 'plant = "cabbage"\ntarget_ph = 7.2'
    answer = answered(text(soil=read(6.3), aim=aim), forecast=False)
    assert answer.verdict.decision is Decision.LEAVE
    assert "Your target, pH 7.2" in worded(answer.verdict.because)
    near = answered(text(soil=read(6.3), aim=aim.replace("7.2", "6.5")), forecast=False)
    assert "Your target" not in worded(near.verdict.because)


@pytest.mark.parametrize(
    ("said", "square_metres"),
    [
        ("16 in diameter", 0.1297),
        ("16 inches in diameter", 0.1297),
        ("40 cm in diameter", 0.1257),
        ('16" in diameter', 0.1297),
        ("2 ft across", 0.2919),
    ],
)
def test_the_inches_of_a_round_pot_are_inches(said: str, square_metres: float) -> None:
    """A circle: pi d^2 / 4, an inch being 2.54 cm."""
    assert read_area_m2(said).value == pytest.approx(square_metres, rel=1e-3)


def test_pots_are_repotted_now_and_helped_until_then() -> None:
    bed = 'kind = "container"\narea = "0.12 m2"\ncount = 3\nplanted = true'
    soil = f'ph = 6.8\n{WATER}medium = "peat mix"'
    water = '[water]\nalkalinity = 220\nweekly = "6 L"'
    said = letter(text(bed=bed, soil=soil, aim='plant = "camellia"', more=water))
    assert "Until the plants are repotted" in said["rescue"]
    assert "In the long run" not in said["rescue"]


def test_sulfur_in_waterlogged_ground_is_not_left_to_work() -> None:
    bed = PLANTED + '\ndrainage = "waterlogged"'
    soil = read(6.6, texture="clay") + "sampled = 2026-03-20\n"
    sulfur = put_on("2026-03-22", "elemental sulfur, powder", "30 g/m2")
    aim = 'plant = "rhododendron"'
    wet = answered(text(bed=bed, soil=soil, aim=aim, more=sulfur), forecast=False)
    assert (wet.verdict.decision, wet.verdict.reason) == (Decision.STOP, Reason.WATERLOGGED)
    dry = answered(text(bed=PLANTED, soil=soil, aim=aim, more=sulfur), forecast=False)
    assert dry.verdict.decision is not Decision.STOP


def test_a_claim_about_a_bed_in_its_range_is_not_told_to_lack_a_little() -> None:
    claim = '[[claim]]\nmaterial = "wood ash"\nrate = "100 g/m2"'
    soil = read(6.4, texture="sand")
    said = letter(text(soil=soil, aim='plant = ["tomato", "maize"]', more=claim))
    assert "neither acid nor lime" in said["claims"]
    assert "times the lime" not in said["claims"] and "needs none" not in said["claims"]


def test_salt_on_a_lawn_says_where_the_ph_goes_and_moves_no_plants() -> None:
    lawn = 'kind = "lawn"\narea = "80 m2"'
    iron = put_on("2026-04-08", "iron sulfate", "400 g/m2")
    soil = read(5.8, texture="sandy loam") + "sampled = 2026-04-01\n"
    case_text = text(bed=lawn, soil=soil, aim='plant = "lawn"', more=iron)
    answer = answered(case_text, forecast=False)
    assert answer.verdict.reason is Reason.SALT
    assert "before it has finished" in worded(answer.verdict.because)
    assert answer.rescue is not None
    assert "compost" not in " ".join(map(worded, answer.rescue.steps))


def test_pots_that_had_too_much_lime_are_repotted_first() -> None:
    bed = 'kind = "container"\narea = "0.1 m2"\ncount = 2\nplanted = true'
    soil = f'ph = 6.9\n{WATER}medium = "peat mix"\nsampled = 2026-04-10\n'
    lime = put_on("2026-02-20", "ground limestone", "1200 g/m2")
    case_text = text(bed=bed, soil=soil, aim='plant = "highbush blueberry"', more=lime)
    answer = answered(case_text, forecast=False)
    assert answer.rescue is not None
    assert "repot" in worded(answer.rescue.steps[1])


def test_steps_of_the_front_sheet_are_not_repeated_behind_it() -> None:
    bed = PLANTED + '\ngrowing = ["rhododendron"]'
    soil = read(7.9, lime="carbonate_pct = 8\n")
    said = letter(text(bed=bed, soil=soil, aim='plant = "rhododendron"'))
    assert "Make sure that iron is the problem" in said["front-steps"]
    assert "Make sure that iron is the problem" not in said["rescue"]
    assert "After the steps on the front sheet" in said["rescue"]


def a_year_later(ph: float, *, method: str = "water 1:2.5") -> str:
    """A bed of pH 6.8 that had sulfur, and its test a year later."""
    sulfur = put_on("2025-03-20", "elemental sulfur, powder", "90 g/m2", depth="15 cm")
    test = f'[[reading]]\ndate = 2026-04-10\nph = {ph}\nph_method = "{method}"\n'
    soil = read(6.8, texture="sandy loam") + "sampled = 2025-03-10\n"
    return text(bed=PLANTED, soil=soil, aim='plant = "highbush blueberry"', more=sulfur + test)


@pytest.mark.parametrize(
    ("ph", "how"),
    [
        (6.5, "less than forecast."),
        (4.3, "more than forecast, though within the range of such tests."),
    ],
)
def test_a_bed_that_answered_otherwise_says_so_at_the_verdict(ph: float, how: str) -> None:
    case_text = a_year_later(ph)
    answer = answered(case_text)
    assert answer.refit is not None and not answer.refit.doubted
    said = letter(case_text, forecast=True)["front-opening"]
    assert re.search(
        rf"The test of 10 April 2026 read pH {ph} where about 5\.\d was expected: "
        rf"the soil has answered {re.escape(how)}",
        said,
    )


def test_a_bed_that_answered_as_forecast_is_not_said_to_differ() -> None:
    assert "than forecast" not in letter(a_year_later(5.6), forecast=True)["front-opening"]


def test_a_reading_taken_as_another_is_told_with_both_figures() -> None:
    """1:5 reads 0.1 above 1:2.5 (Kabala 2016), calcium chloride 0.6 below (NSW DPI 2021)."""
    said = letter(a_year_later(6.6, method="water 1:5"), forecast=True)
    both = "pH 6.6 in water 1:5 (about 6.5 in water 1:2.5)"
    assert both in said["front-opening"] and f"10 April 2026, {both}, is" in said["learnt"]
    salt = letter(
        text(soil='ph = 5.7\nph_method = "CaCl2"\ntexture = "loam"', aim='plant = "cabbage"')
    )
    assert "tested at pH 5.7 in calcium chloride (about 6.3 in water)" in salt["front-opening"]


def test_a_proposal_is_not_called_by_its_number() -> None:
    claim = '[[claim]]\nmaterial = "vinegar"\nrate = "1 L/m2"\n'
    said = letter(text(soil=read(6.3), aim='plant = "rhododendron"', more=claim))
    assert "The amount proposed: “1 L/m2” of vinegar" in said["checks"]
    assert "Claim 1" not in " ".join(said.values())


def test_peaty_ground_is_not_limed_by_the_range_of_mineral_soil_without_a_word() -> None:
    """Organic soil by the SoilCare glossary; sugar beet 6.0 to 6.5 on peat (BBRO 2020)."""
    soil = 'ph = 4.6\nph_method = "CaCl2"\ntexture = "loam"\norganic_matter_pct = {}\n'
    aim = 'plant = ["celery", "onion"]'
    peat, loam = (letter(text(soil=soil.format(matter), aim=aim)) for matter in (55, 8))
    assert "the pH range here is for mineral soil" in peat["front-first"]
    assert "With 55% organic matter this is peaty ground" in peat["checks"]
    assert "published lime table" not in peat["need"], "a table for loam says nothing of peat"
    assert "mineral soil" not in " ".join(loam.values())
    assert "published lime table" in loam["need"]


CHALK = 'ph = 8.1\nph_method = "water 1:2.5"\ntexture = "silt loam"\ncarbonate_pct = 22\n'
"""A limy soil that acid cannot move."""


def test_plants_that_share_no_range_are_told_which_of_them_the_bed_suits() -> None:
    aim = 'plant = ["potato", "cabbage"]'
    limy = letter(text(soil=CHALK, aim=aim))["front-opening"]
    assert "tested at pH 8.1, above the ranges of them all. Its free lime holds it" in limy
    some = letter(text(soil=read(6.4), aim=aim))["front-opening"]
    assert "tested at pH 6.4, which suits cabbage as it is" in some
    sour = letter(text(soil=read(4.4), aim=aim))["front-opening"]
    assert "below the ranges of them all" in sour and "free lime" not in sour


def test_a_range_that_no_plant_has_is_not_wanted() -> None:
    """Between the blueberry's range and the asparagus's lies a gap, where neither grows."""
    answer = answered(text(soil=read(5.8), aim='plant = ["highbush blueberry", "asparagus"]'))
    assert answer.verdict.reason is Reason.NO_COMMON_RANGE and answer.wanted is None


def test_a_feed_that_holds_the_ph_is_for_when_it_is_there() -> None:
    """Urea suits blueberries in their range; above it ammonium does more (from memory)."""
    aim = 'plant = "highbush blueberry"'
    away = letter(text(bed=PLANTED, soil=read(6.3), aim=aim))["front-undo"]
    assert "Once in range, feed with" in away
    there = letter(text(bed=PLANTED, soil=read(5.0), aim=aim))
    assert "Once in range" not in " ".join(there.values())


def test_water_to_be_acidified_brings_its_caution_wherever_it_is_named() -> None:
    water = '[water]\nalkalinity = 270\nweekly = "20 mm"\nmonths = [5, 6, 7, 8, 9]'
    case_text = text(bed=PLANTED, soil=read(6.6), aim='plant = "rhododendron"', more=water)
    answer = answered(case_text, forecast=False)
    said = letter(case_text)
    assert answer.verdict.decision is Decision.ELSEWHERE
    assert "acidify the water" in said["front-steps"]
    assert "Pour acid into water, never water into acid" in said["front-care"]


def test_caustic_lime_on_the_shelf_comes_after_ground_limestone() -> None:
    """The caution says that ground limestone does the same work safely."""
    shelf = '[[on_hand]]\nmaterial = "hydrated lime"\n'
    limestone = shelf.replace("hydrated lime", "ground limestone")
    case_text = text(soil=read(5.4), aim='plant = "cabbage"', more=shelf + limestone)
    both = answered(case_text, forecast=False)
    assert {part.material for part in both.applications} == {"ground limestone, calcitic"}
    only = answered(case_text.replace(limestone, ""), forecast=False)
    assert {part.material for part in only.applications} == {"hydrated lime"}


def test_a_strip_against_a_laboratory_is_no_draw() -> None:
    other = '[[soil.other_ph]]\nph = 6.5\nph_method = "strip"\n'
    case_text = text(soil=read(5.0) + other, aim='plant = "raspberry"')
    said = letter(case_text)
    assert "We go by the laboratory" in said["front-first"]
    head = letter_from_answer(answered(case_text, forecast=False), parse_case(case_text), words=UK)
    assert "pH 5.0 in water 1:2.5" in head.subtitle and "pH 6.5 by test strip" in head.subtitle


def ashed(salt: float) -> str:
    ash = put_on("2025-11-05", "wood ash", "6.5 kg/m2")
    soil = read(8.8, lime=f'ec_ds_m = {salt}\nec_method = "1:5"\nsampled = 2026-03-25\n')
    return text(soil=soil, aim='plant = "strawberry"', more=ash)


def test_ash_explains_a_high_ph_before_sodium_does() -> None:
    said = letter(ashed(0.6), forecast=True)
    assert "most likely comes from the wood ash applied here" in said["checks"]
    assert "usually that of a sodic soil" not in said["checks"]
    assert "would end" not in said["rescue"], "no forecast stands behind a course"
    case_text = text(soil=read(8.8), aim='plant = "strawberry"')
    assert "usually that of a sodic soil" in letter(case_text)["checks"]


def test_salt_that_was_tested_is_not_asked_about() -> None:
    for found, asked in ((0.6, False), (0.1, True)):
        answer = answered(ashed(found), forecast=False)
        assert answer.rescue is not None
        steps = " ".join(map(worded, answer.rescue.steps))
        assert ("If the salt reads above" in steps) is asked
        assert ("takes the salt below the roots" in steps) is not asked


def test_one_course_is_told_of_a_bed_left_alone() -> None:
    lime = put_on("2026-02-14", "ground limestone", "1.3 kg/m2")
    soil = read(7.9, lime="") + "sampled = 2026-04-01\n"
    lawn = text(bed='kind = "lawn"\narea = "80 m2"', soil=soil, aim='plant = "lawn"', more=lime)
    assert "If you do nothing" not in letter(lawn, forecast=True)["rescue"]


def test_gypsum_on_sodic_soil_is_not_said_to_do_nothing() -> None:
    """Calcium for sodium: the reclamation of USDA Handbook 60 (ussl-1954, from memory)."""
    soil = read(9.1) + "sodium_pct = 22\n"
    claim = '[[claim]]\nmaterial = "gypsum"\nrate = "500 g/m2"\n'
    said = letter(text(soil=soil, aim='plant = "tomato"', more=claim))["claims"]
    assert "its calcium takes the place of the sodium" in said
    assert "barely change" not in said and "This bed needs" not in said


def test_spoil_is_not_limed_before_acid_sulfate_is_ruled_out() -> None:
    soil = read(3.1, texture="sandy loam") + "sampled = 2026-04-02\n"
    case_text = text(soil=soil, aim='plant = "lawn"')
    said = letter(case_text, forecast=True)
    assert "lime only after a specialist has looked at it" in said["front-opening"]
    assert "Once that is ruled out and the laboratory confirms" in said["rescue"]
    assert said["rescue"].index("acid sulphate soil") < said["rescue"].index("ruled out")
    assert "Below pH 6.0" not in said["rescue"], "no roots are injured between 5.5 and 6.0"


def test_salt_below_the_limit_is_told_for_sensitive_plants() -> None:
    """Citrus loses growth from 1.7 dS/m (Maas and Hoffman 1977, from memory)."""
    soil = read(6.6) + 'ec_ds_m = {}\nec_method = "saturated paste"\n'
    salty, sweet = (letter(text(soil=soil.format(ec), aim='plant = "lemon"')) for ec in (3.4, 0.8))
    assert "The salinity (ECe) is 3.4 dS/m" in salty["checks"] and "citrus" in salty["checks"]
    assert "sensitive ones" not in sweet["checks"]


def test_fruit_on_limestone_is_not_sent_into_pots() -> None:
    bed = 'plants = 5\ntreated_diameter = "2 m"\nplanted = true\ngrowing = ["{0}"]'
    said = {
        name: letter(text(bed=bed.format(name), soil=CHALK, aim=f'plant = "{name}"'))
        for name in ("pear", "rhododendron")
    }
    assert "a rootstock or variety that is sold for limy soil" in said["pear"]["front-steps"]
    assert "raised bed or pot" in said["rhododendron"]["front-steps"]


def test_lime_around_a_bed_is_not_followed_by_nothing_else_is_needed() -> None:
    bed = PLANTED + '\nsurroundings = ["concrete"]'
    said = letter(text(bed=bed, soil=read(6.3), aim='plant = "camellia"'))
    assert "nothing else is needed" not in said["front-undo"]
    assert "act only on what the test reads" in said["front-undo"]


def test_a_claim_that_fits_the_need_says_so_once() -> None:
    soil, aim = read(5.2, texture="sandy loam"), 'plant = ["pea", "lettuce"]'
    need = answered(text(soil=soil, aim=aim), forecast=False).dose.lime_as_caco3_g_m2
    assert need is not None
    claim = f'[[claim]]\nmaterial = "limestone"\nrate = "{need.mid:.0f} g/m2"\n'
    said = letter(text(soil=soil, aim=aim, more=claim.replace("limestone", "ground limestone")))
    assert "about the lime this bed needs" in said["claims"] and "of the need" not in said["claims"]


def test_what_is_planted_is_left_out_for_one_reason() -> None:
    bed = 'kind = "field"\narea = "500 m2"\nplanted = true\ngrowing = ["tea"]'
    said = letter(text(bed=bed, soil=read(5.0, texture="clay"), aim='plant = "tea"'))["checks"]
    assert "whether the field is planted and the plants already there" in said
    assert "It matters here only" not in said


def test_a_drift_inside_its_range_is_no_other_answer() -> None:
    soil = read(5.6) + "sampled = 2025-05-02\n"
    more = read_again("2026-03-01", 5.9)
    case_text = text(bed=PLANTED, soil=soil, aim='plant = "rhododendron"', more=more)
    assert "than forecast" not in letter(case_text, forecast=True)["front-opening"]


def test_potatoes_above_their_range_are_a_matter_of_scab() -> None:
    """The range is kept low against scab; the plant itself bears more (common practice)."""
    case_text = text(soil=CHALK, aim='plant = "potato"')
    assert answered(case_text, forecast=False).verdict.decision is Decision.ELSEWHERE
    assert "kept low against scab" in letter(case_text)["front-first"]


def test_yellow_leaves_above_the_range_get_iron_though_the_ph_is_left() -> None:
    bed = PLANTED + '\nsigns = ["yellow-young-leaves"]'
    for reads, helped in ((7.4, True), (6.6, False)):
        case_text = text(bed=bed, soil=read(reads), aim='plant = "lemon"')
        assert answered(case_text).verdict.decision is Decision.LEAVE
        first = letter(case_text, forecast=True)["front-first"]
        assert ("give an iron chelate by its label" in first) is helped
