"""What cards say: boxes, lines to fill in, steps in order, in the reader's units and words."""

from __future__ import annotations

import re

from loamshift.domain.card import Blanks, Choices, Chores, Log, WalkPlan
from loamshift.domain.letter import Items
from loamshift.report.card.html import card_html
from loamshift.report.card.plain import card_letter
from loamshift.report.card.text import first_sentence
from loamshift.report.card.walk import walk_svg
from loamshift.report.letter_plan import dated_parts
from loamshift.report.letter_rescue import steps_said
from loamshift.report.markdown import letter_markdown
from loamshift.report.pdf import PaperSize
from loamshift.report.terminal import letter_text
from report.cards import HOSTILE, UK, every_card
from report.examples import example_answers


def plain(name: str) -> str:
    return letter_text(card_letter(every_card()[name][0]))


def blocks(name: str, kind: type) -> list[object]:
    card, _ = every_card()[name]
    return [b for row in card.rows for part in row for b in part.blocks if isinstance(b, kind)]


def test_the_bed_card_has_a_box_before_every_part_and_lines_for_readings() -> None:
    answer, _ = example_answers()["north-border"]
    parts = dated_parts(answer)
    assert parts and {part.only_if for part in parts} == {None}
    (chores,) = blocks("bed north-border", Chores)
    assert isinstance(chores, Chores) and len(chores.table.rows) == len(parts)
    (log,) = blocks("bed north-border", Log)
    assert isinstance(log, Log) and log.columns[:3] == ("date", "pH", "method")
    assert plain("bed north-border").count("☐") == len(parts)


def test_a_card_warns_of_what_goes_on_the_bed_not_of_what_does_not() -> None:
    text = plain("bed north-border")
    assert "Dust." in text and "Iron sulphate stains" not in text


def test_on_an_overdone_bed_the_card_has_the_steps_and_what_never_to_do() -> None:
    text = plain("bed overdone-bed")
    assert text.index("Putting it right") < text.index("Never on this bed")
    assert "No hydrated lime or quicklime" in text


def test_a_bed_to_measure_first_has_boxes_for_what_to_find_out() -> None:
    (choices,) = blocks("bed camellia-corner", Choices)
    answer, _ = example_answers()["camellia-corner"]
    assert isinstance(choices, Choices) and len(choices.texts) == len(answer.missing)


def test_a_bed_to_measure_first_has_no_weights_and_no_days_on_its_card() -> None:
    """A card hangs in the shed: what stands on it is spread."""
    answer, _ = example_answers()["camellia-corner"]
    assert answer.applications, "the letter has them, called provisional"
    assert not blocks("bed camellia-corner", Chores)
    text = plain("bed camellia-corner")
    assert "sulphur powder" not in text.lower() and "Test again" not in text


def test_only_beds_with_a_rescue_have_a_rescue_sheet() -> None:
    having = {name for name, (answer, _) in example_answers().items() if answer.rescue}
    made = {name.removeprefix("rescue ") for name in every_card() if name.startswith("rescue ")}
    assert made == having and "overdone-bed" in made


def test_the_rescue_sheet_keeps_the_order_and_says_whom_to_ask() -> None:
    answer, _ = example_answers()["overdone-bed"]
    assert answer.rescue is not None
    text = plain("rescue overdone-bed")
    _, words = every_card()["rescue overdone-bed"]
    today, later = steps_said(answer.rescue, words)
    assert today and later
    numbers = [int(n) for n in re.findall(r"^ *(\d+)\. ", text, re.MULTILINE)]
    assert numbers == list(range(1, len(later) + 1))
    order = [" ".join(text.split()).index(step[:30]) for step in (*today, *later)]
    assert order == sorted(order)
    assert "Whom to ask" in text and "A soil lab" in text


def test_a_claim_that_does_nothing_says_so_in_its_first_line() -> None:
    card, _ = every_card()["claim coffee grounds metric"]
    assert card.lead.startswith("Used grounds are close to neutral")
    assert plain("claim coffee grounds metric").count("barely change") == 2


def test_first_sentence_ends_where_the_next_begins() -> None:
    assert first_sentence("It is 2.5 kg. 98 g is the limit.") == "It is 2.5 kg."
    assert first_sentence("Only one") == "Only one"


def test_acid_goes_into_water_before_anything_else_is_poured() -> None:
    text = " ".join(plain("water 350 sulphuric acid 93 metric").split())
    order = [
        "goggles",
        "Fill the tank with the water nearly",
        "Measure",
        "Pour the acid slowly",
        "Fill up",
    ]
    places = [text.index(words) for words in order]
    assert places == sorted(places)
    assert "chlorine gas" in text and "1:100" in text


def test_crystals_are_weighed_and_liquids_measured_in_us_too() -> None:
    assert "Weigh" in plain("water 180 citric us")
    assert re.search(r"fl oz \([\d.,]+( to [\d.,]+)? mL\)", plain("water 180 phosphoric 75 us"))


def test_a_range_of_acid_begins_with_the_least() -> None:
    card, _ = every_card()["water 180 phosphoric 75 metric"]
    assert "Start with the smaller amount" in card.lead


def test_a_water_of_low_alkalinity_needs_no_acid_and_names_none() -> None:
    text = plain("water 20 None metric")
    assert "No acid is needed" in text and "goggles" not in text


def test_the_sampling_sheet_has_a_plan_a_label_and_what_to_ask() -> None:
    name = "sample ground 20.0 1 metric"
    (plan,) = blocks(name, WalkPlan)
    assert isinstance(plan, WalkPlan)
    svg = walk_svg(plan)
    assert svg.count('r="5.0"') == 6 and "about 6.3 m" in svg and "3.2 m" in svg
    (label,) = blocks(name, Blanks)
    assert isinstance(label, Blanks) and ("Depth", "0 to 15 cm") in label.lines
    assert "Free carbonate (lime)" in plain(name)


def test_what_to_do_today_stands_before_the_numbered_steps() -> None:
    text = plain("bed overdone-bed")
    lists = [block for block in blocks("bed overdone-bed", Items) if isinstance(block, Items)]
    assert [block.numbered for block in lists[:2]] == [False, True]
    assert text.index("Today:") < text.index("Then, in this order:")


def test_us_readers_get_feet_and_inches() -> None:
    (plan,) = blocks("sample ground 20.0 1 us", WalkPlan)
    assert isinstance(plan, WalkPlan) and plan.along.endswith(" ft")


def test_markdown_has_lines_to_fill_in() -> None:
    text = letter_markdown(card_letter(every_card()["sample ground 20.0 1 metric"][0]))
    assert text.startswith("# Taking the sample") and "Sampled by: " in text


def test_a_page_runs_nothing_and_shows_hostile_words_as_words() -> None:
    card, words = every_card()["bed many parts"]
    page = card_html(card, paper=PaperSize.A4, words=words)
    assert HOSTILE.startswith("<script>") and "<script" not in page
    assert "script-src 'none'" in page and "&lt;script&gt;" in page
    assert not re.search(r"(?:src|href)=\"(?!#)", page) and words == UK
