"""A rescue over time: from the beds of the judgement, and in agreement with the steps."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from functools import cache

import pytest

from loamshift.case.read import parse_case
from loamshift.domain.answer import Answer, Reason, Rescue, RescueCourse
from loamshift.domain.case import Applied, Bed, BedKind, Case
from loamshift.domain.message import Measure, Message
from loamshift.report.letter import letter_from_answer
from loamshift.report.words import Words
from loamshift.services.advise import advise
from loamshift.services.context.acid_come import acid_come_mmolc_m2
from loamshift.services.context.build_context import build_context
from loamshift.services.courses.seasons import TEST_LEAD_D
from loamshift.services.rescue.over_time import STAGES_DAYS
from loamshift.services.rescue.rescue import lime_back_g_m2
from loamshift.tables.materials import load_materials
from loamshift.tables.parameters import parameter_values

PLANTED = Bed(area_m2=20.0, depth_cm=15.0, planted=True)
Make = Callable[..., Case]
HEAD = 'case = 1\nname = "b"\ntoday = 2026-05-05\n[place]\nname = "Manchester"\n'


@cache
def answered(material: str, amount: str, ph: float, plant: str = "highbush blueberry") -> Answer:
    return advise(parse_case(text(material, amount, ph, plant)))


def text(material: str, amount: str, ph: float, plant: str = "highbush blueberry") -> str:
    return (
        f'{HEAD}[bed]\narea = "8 m2"\nplanted = true\n[soil]\nph = {ph}\n'
        'ph_method = "water 1:2.5"\ntexture = "loam"\norganic_matter_pct = 4\n'
        f'carbonate_pct = 0\nsampled = 2026-04-01\n[aim]\nplant = "{plant}"\n[[applied]]\n'
        f'date = 2026-05-03\nmaterial = "{material}"\namount = "{amount}"\n'
    )


def rescued(answer: Answer) -> tuple[Rescue, RescueCourse]:
    assert answer.rescue is not None and answer.rescue.course is not None
    return answer.rescue, answer.rescue.course


def keys(rescue: Rescue) -> list[str]:
    return [step.key for step in (*rescue.steps, *rescue.never) if isinstance(step, Message)]


def come(course: RescueCourse) -> list[float]:
    return [stage.come_frac or 0.0 for stage in course.stages]


def test_the_acid_of_sulfur_comes_slowly_and_that_of_aluminium_sulfate_at_once() -> None:
    """Common practice, from memory: aluminium sulfate acts at once, sulfur takes months; the
    clock by itself is held to measured courses in tests/published (sulfur_oxidation).
    """
    sulfur = rescued(answered("elemental sulfur, powder", "4 kg", 6.2))[1]
    salt = rescued(answered("aluminium sulfate", "8 kg", 6.2, "hydrangea (blue flowers)"))[1]
    for course in (sulfur, salt):
        assert come(course) == sorted(come(course))
        assert all(0.0 <= one <= 1.0 for one in come(course))
    assert come(salt)[1] > 0.95 > 0.5 > come(sulfur)[1]
    assert come(sulfur)[4] > 0.6


def test_the_share_that_has_come_follows_a_measured_course(bed_case: Make) -> None:
    """Degryse et al. 2016 (abstract): powder mixed into soil at 25 C was oxidised to 50, 75 and
    90 % after 35, 69 and 115 days; 0.3 g of it to the kg.
    """
    on = Applied(
        on=date(2026, 4, 12),
        material=load_materials()["elemental sulfur, powder"],
        rate_g_m2=57.0,
        as_given="",
        incorporated_cm=15.0,
    )
    case = bed_case(6.5, target=None, plant="apple", applied=(on,))
    context = replace(build_context(case), soil_temp_c=(25.0,) * 365)
    pending = context.pending_acid_mmolc_m2
    for days, seen in ((35, 0.50), (69, 0.75), (115, 0.90)):
        assert acid_come_mmolc_m2(context, days=days) / pending == pytest.approx(seen, abs=0.12)


def test_prills_act_later_than_powder() -> None:
    powder = come(rescued(answered("elemental sulfur, powder", "4 kg", 6.2))[1])
    case = parse_case(text("elemental sulfur, prills", "4 kg", 6.2))
    context = build_context(case)
    prills = acid_come_mmolc_m2(context, days=365) / context.pending_acid_mmolc_m2
    assert prills < powder[4]


def test_lime_against_sulfur_is_three_to_one(bed_case: Make) -> None:
    """W07 of the worked examples: 10 tons of lime take 10 / 3.12 tons of sulfur, printed in an
    agronomy newsletter of March 2006: a gram more of sulfur takes 3.12 g more of lime.
    """

    def lime(rate_g_m2: float) -> float:
        on = Applied(
            on=date(2026, 4, 12),
            material=load_materials()["elemental sulfur, powder"],
            rate_g_m2=rate_g_m2,
            as_given="",
        )
        case = bed_case(6.0, target=None, plant="apple", bed=PLANTED, applied=(on,))
        return lime_back_g_m2(build_context(case), ph_low=6.0).mid

    assert (lime(700.0) - lime(600.0)) / 100.0 == pytest.approx(3.12, rel=0.02)


def test_lime_goes_back_within_the_printed_limits_and_later_parts_wait_for_a_test() -> None:
    answer = answered("elemental sulfur, powder", "4 kg", 6.2)
    rescue, course = rescued(answer)
    first = sum(part.rate_g_m2 for part in course.plan.parts)
    most = first + max((line.part_g_m2 for line in course.plan.decides), default=0.0)
    from loamshift.tables.rules import cap_for

    year = cap_for(applies_to="limestone", situation="planted", per="year").limit_g_m2
    assert most <= year * 1.05
    assert course.plan.decides
    weeks = (course.plan.decides[0].test - answer.today).days / 7
    assert weeks >= parameter_values("advice")["rescue_retest_weeks"] - 1
    assert "rescue-first-lime" not in keys(rescue)


def test_the_steps_say_what_the_rule_says() -> None:
    rescue, course = rescued(answered("elemental sulfur, powder", "4 kg", 6.2))
    said = {step.key: step for step in rescue.steps if isinstance(step, Message)}
    first = sum(part.rate_g_m2 for part in course.plan.parts)
    if first > 0.0:
        rate = said["rescue-part-now"].values["rate"]
        assert isinstance(rate, Measure) and rate.value == first
    else:
        assert "rescue-part-not-yet" in said
    assert said["rescue-part-test"].values["day"] == course.plan.decides[0].test


def test_nothing_goes_on_before_the_laboratory_has_answered() -> None:
    answer = answered("elemental sulfur, powder", "4 kg", 6.2)
    _, course = rescued(answer)
    assert all((part.date - answer.today).days >= TEST_LEAD_D for part in course.plan.parts)


@pytest.mark.parametrize(
    ("material", "amount", "ph", "plant"),
    [
        ("elemental sulfur, powder", "4 kg", 6.2, "highbush blueberry"),
        ("elemental sulfur, powder", "1.5 kg", 6.2, "apple"),
        ("aluminium sulfate", "8 kg", 6.2, "hydrangea (blue flowers)"),
        ("iron sulfate", "12 kg", 6.2, "highbush blueberry"),
        ("hydrated lime", "8 kg", 5.5, "highbush blueberry"),
        ("wood ash", "20 kg", 6.2, "hydrangea (blue flowers)"),
    ],
)
def test_half_are_safe_no_later_than_nine_in_ten(
    material: str, amount: str, ph: float, plant: str
) -> None:
    answer = answered(material, amount, ph, plant)
    _, course = rescued(answer)
    if course.safe_90_on is not None:
        assert course.safe_on is not None and course.safe_on <= course.safe_90_on
        assert answer.today <= course.safe_90_on <= course.look_to
    for stage in course.stages:
        assert stage.untreated.lo90 <= stage.untreated.mid <= stage.untreated.hi90
    case = parse_case(text(material, amount, ph, plant))
    letter = letter_from_answer(answer, case, words=Words("uk", "metric"))
    assert "None" not in str([section for section in letter.sections if section.topic == "rescue"])


def test_lime_does_not_lower_the_ph_nor_sulfur_raise_it() -> None:
    _, limed = rescued(answered("elemental sulfur, powder", "4 kg", 6.2))
    for stage in limed.stages:
        assert stage.treated.mid >= stage.untreated.mid - 0.02
    _, acidified = rescued(answered("hydrated lime", "8 kg", 5.5))
    for stage in acidified.stages:
        assert stage.treated.mid <= stage.untreated.mid + 0.02


def test_sulfur_waits_for_the_first_test_after_too_much_lime() -> None:
    rescue, course = rescued(answered("hydrated lime", "8 kg", 5.5))
    assert course.plan.parts == ()
    assert "rescue-today-caustic" in keys(rescue)
    assert "rescue-never-bleach" in keys(rescue) and "rescue-hurt" in keys(rescue)


def test_ash_brings_salt_to_test_for() -> None:
    rescue, _ = rescued(answered("wood ash", "20 kg", 6.2, "hydrangea (blue flowers)"))
    assert "rescue-flush" in keys(rescue)


def test_a_spill_of_acid_is_watered_and_not_raked() -> None:
    answer = answered("sulfuric acid, 35 %", "6 L", 6.2)
    assert answer.rescue is not None
    assert "rescue-today-acid-spill" in keys(answer.rescue)
    assert "rescue-today-take-up" not in keys(answer.rescue)


def test_no_lime_goes_ahead_of_prills() -> None:
    """Lime works within months and most of the acid of pure prills comes after years."""
    text_of_prills = text("elemental sulfur, prills", "5 kg", 6.2, "apple")
    rescue, course = rescued(advise(parse_case(text_of_prills)))
    assert course.plan.parts == ()
    assert not course.acts
    assert "rescue-no-lime-ahead" in keys(rescue) and "rescue-part-now" not in keys(rescue)


def test_pots_are_filled_afresh(bed_case: Make) -> None:
    on = Applied(
        on=date(2026, 4, 1),
        material=load_materials()["elemental sulfur, powder"],
        rate_g_m2=900.0,
        as_given="",
    )
    pots = Bed(kind=BedKind.CONTAINER, area_m2=0.1, depth_cm=25.0, count=4, planted=True)
    case = bed_case(6.0, target=None, plant="highbush blueberry", bed=pots, applied=(on,))
    rescue = advise(case).rescue
    assert rescue is not None and rescue.course is not None and not rescue.course.acts
    assert "rescue-repot" in keys(rescue) and "rescue-first-lime" not in keys(rescue)
    ground = advise(replace(case, bed=PLANTED)).rescue
    assert ground is not None and "rescue-repot" not in keys(ground)


def test_no_lime_is_given_where_the_ph_does_no_harm() -> None:
    rescue, course = rescued(
        answered("aluminium sulfate", "4.8 kg", 5.6, "hydrangea (blue flowers)")
    )
    assert course.is_safe_by_ph
    assert not course.acts
    assert "rescue-part-not-yet" in keys(rescue)


@pytest.mark.parametrize(
    ("kind", "limy"), [("ground", True), ("container", False), ("container", True)]
)
def test_every_overdone_bed_shows_the_ph_by_date(kind: str, limy: bool) -> None:
    """Where no lime is needed, and in a pot that is filled afresh: the course left alone."""
    bed = text("elemental sulfur, powder", "8 kg", 6.5).replace(
        "[bed]\n", f'[bed]\nkind = "{kind}"\n'
    )
    bed = bed.replace("carbonate_pct = 0", "carbonate_pct = 12") if limy else bed
    case = parse_case(bed.replace("ph = 6.5", "ph = 7.9") if limy else bed)
    answer = advise(case)
    rescue, course = rescued(answer)
    assert answer.verdict.reason is Reason.OVERDOSE
    assert not course.acts and len(course.stages) == len(STAGES_DAYS)
    assert ("rescue-repot" in keys(rescue)) == (kind == "container")
    (section,) = [
        one
        for one in letter_from_answer(answer, case, words=Words()).sections
        if one.topic == "rescue"
    ]
    assert ("if it were kept" in str(section)) == (kind == "container")
    assert "pH left alone" in str(section) and "pH with this plan" not in str(section)


def test_an_overdone_sodic_bed_is_neither_flushed_nor_said_to_take_the_acid_up() -> None:
    """Own judgement: what an overdose asks for must not contradict what sodium forbids."""
    sodic = text("elemental sulfur, powder", "8 kg", 6.5).replace(
        "carbonate_pct = 0", "carbonate_pct = 0\nsodium_pct = 25"
    )
    rescue, _course = rescued(advise(parse_case(sodic)))
    assert "rescue-sodic-advice" in keys(rescue)
    assert not {"rescue-flush", "rescue-no-lime-needed", "rescue-part-now"} & set(keys(rescue))
