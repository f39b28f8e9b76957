from __future__ import annotations

from dataclasses import replace

from loamshift.domain.answer import Band, Decision
from loamshift.domain.letter import Items
from loamshift.domain.message import message, ph, prose
from loamshift.report.letter_rescue import putting_right, steps_said, what_is_wrong
from loamshift.report.words import Words
from report.answers import ALL
from report.examples import example_answers
from report.sections import said

UK = Words("uk", "metric")
US = Words("us", "us")


def test_the_rescue_is_in_order_and_says_what_not_to_do() -> None:
    section = putting_right(ALL["stop"]()[0], words=US)
    assert section is not None
    steps = next(b for b in section.blocks if isinstance(b, Items))
    assert steps.numbered and len(steps.items) == 3
    text = said(section)
    assert "the pH would end between 2.9 and 3.6 in 9 of 10 cases" in text
    assert "What not to do:\nHydrated lime round living roots." in text
    assert "needs 12.5 to 25 lb/100 sq ft of pure lime" in text


def test_relief_for_plants_in_soil_that_stays_is_called_that() -> None:
    answer, _ = ALL["stop"]()
    verdict = replace(answer.verdict, decision=Decision.ELSEWHERE)
    section = putting_right(replace(answer, verdict=verdict), words=US)
    assert section is not None and section.heading == "Helping the plants already there"


def test_what_is_for_today_comes_first_and_the_rest_is_numbered() -> None:
    answer, _ = example_answers()["overdone-bed"]
    assert answer.rescue is not None
    section = putting_right(answer, words=UK)
    assert section is not None
    today, later, *_ = (b for b in section.blocks if isinstance(b, Items))
    assert (today.items, later.items) == steps_said(answer.rescue, UK)
    assert not today.numbered and later.numbered
    assert 2 <= len(today.items) <= 4 and today.items[0].startswith("Stop everything")
    text = said(section)
    assert text.index("Today:") < text.index("Then, in this order:") < text.index("What not")


def test_a_rescue_with_nothing_but_today_is_one_list() -> None:
    answer, _ = example_answers()["overdone-bed"]
    assert answer.rescue is not None
    only = replace(answer.rescue, steps=(message("rescue-today-stop-all"),))
    section = putting_right(replace(answer, rescue=only), words=UK)
    assert "Today:" not in said(section) and "Apply nothing more of any kind" in said(section)


def test_a_course_that_is_certain_is_said_near_a_ph_and_lime_that_may_be_none_up_to() -> None:
    answer, _ = example_answers()["overdone-bed"]
    assert answer.rescue is not None
    sure = replace(
        answer.rescue,
        course=None,
        ph_expected=Band(lo90=3.51, mid=3.52, hi90=3.53),
        lime_as_caco3_g_m2=Band(lo90=0.0, mid=40.0, hi90=210.0),
    )
    verdict = replace(answer.verdict, because="")  # which says where the pH ends, too
    changed = replace(answer, rescue=sure, verdict=verdict)
    assert what_is_wrong(changed, UK).endswith("the pH is likely to end near 3.5.")
    text = said(putting_right(changed, words=UK))
    assert "up to 210 g/m² of pure lime, or perhaps none" in text


def test_americans_read_their_own_words() -> None:
    answer, _ = example_answers()["patio-pots"]
    uk = said(putting_right(answer, words=UK))
    us = said(putting_right(answer, words=US))
    assert "mains water" in uk and "ericaceous compost" in uk
    assert "tap water" in us and "acidic potting mix" in us and "mains" not in us
    assert "soft water" not in uk + us


def test_the_end_of_an_overdose_is_told_once() -> None:
    """The forecast and the chemistry at rest give two figures; the verdict's is the one."""
    answer, _ = ALL["stop"]()
    assert answer.rescue is not None and answer.rescue.ph_expected is not None
    text = what_is_wrong(answer, UK)
    assert "would end between" in text
    course = message("verdict-overdose-course", ph=ph(5.9), expected=ph(3.5))
    told = replace(answer, verdict=replace(answer.verdict, because=prose(course)))
    assert "would end" not in what_is_wrong(told, UK)
