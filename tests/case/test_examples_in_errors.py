"""An error's example is read: put where the error was, it says nothing of the kind again."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator, Sequence
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from loamshift.case.questions import case_questions
from loamshift.case.read import parse_case
from loamshift.case.schema import item_table, tables
from loamshift.domain.message import Given, Listed, Message
from loamshift.domain.worded_error import WordedFault
from loamshift.errors import CaseError, Fault
from loamshift.report.messages import say
from loamshift.report.messages.refusal import refusal
from loamshift.report.words import Words
from tries import tries

TODAY = date(2026, 4, 12)
UK = Words("uk", "metric")


def faults_of(text: str) -> tuple[CaseError | None, tuple[Fault, ...]]:
    try:
        parse_case(text, today=TODAY)
    except CaseError as error:
        return error, error.faults
    return None, ()


def shown_by(said: Message) -> Iterator[str]:
    """Every line or value that a message says to type."""
    values = said.values
    key = values["key"].text if isinstance(values.get("key"), Given) else ""
    for name in ("example", "line"):
        if isinstance(values.get(name), Given):
            yield f"{key}{values[name].text}"  # type: ignore[union-attr]
    more = values.get("more")
    if isinstance(more, Given):
        yield from (f"{key}{one}" for one in _several(more.text))
    for name in ("words", "names"):
        listed = values.get(name)
        if isinstance(listed, Listed):
            yield from (one.text for one in listed.items if isinstance(one, Given))
            yield from (say(one, UK) for one in listed.items if isinstance(one, Message))


def _several(text: str) -> list[str]:
    """A list of values with commas between them, which may hold commas of their own."""
    value = tomllib.loads(f"x = [{text}]")["x"]
    return [f'"{one}"' if isinstance(one, str) else str(one) for one in value]


def mended(text: str, fault: Fault, shown: str) -> str:
    """The text of a case with what an error shows in the place of what it is about."""
    lines = text.splitlines()
    at = _line_of(lines, fault)
    if at is None:  # the key is missing: it goes to the end, where its table is
        return f"{text}\n{shown}"
    if ".label." in fault.path:
        lines[at] = f"label = {{ {shown} }}"
        return "\n".join(lines)
    key = lines[at].partition("=")[0].strip()
    lines[at] = shown if re.match(r"\w+ = ", shown) else f"{key} = {shown}"
    return "\n".join(lines)


def _line_of(lines: Sequence[str], fault: Fault) -> int | None:
    if fault.names_a_line:
        return int(fault.path.removeprefix("line ")) - 1
    key = "label" if ".label." in fault.path else fault.path.split(".")[-1].split("[")[0]
    return next((n for n, line in enumerate(lines) if line.startswith(f"{key} =")), None)


def check(text: str) -> int:
    """How many examples the errors of a text show; each is read, and is printed with it."""
    error, faults = faults_of(text)
    count = 0
    for fault in faults:
        assert isinstance(fault, WordedFault), fault
        assert error is not None and "⟨" not in refusal(error, UK)
        for said in fault.said.sentences:
            for shown in shown_by(said):
                count += 1
                assert shown.partition(" = ")[2] or shown in str(fault)
                assert shown.removeprefix(f"{fault.path.split('.')[-1]} = ") in str(fault)
                again = faults_of(mended(text, fault, shown))[1]
                left = [one for one in again if not _is_next(one)]
                assert not any(one.path == fault.path for one in left), (str(fault), shown, left)
                assert not any(one.names_a_line for one in left), (str(fault), shown, left)
    return count


def _is_next(fault: Fault) -> bool:
    """Whether a value is read, and what it rests on beside it is still missing."""
    assert isinstance(fault, WordedFault)
    return fault.said.sentences[0].key in (
        "case-area-unknown",
        "case-watered-area-unknown",
        "case-ground-of-plant",
        "case-daily-file-alone",
    )


BROKEN = [
    "[soil]\nsampled = 20.03.2026",
    "[soil]\nsampled = 3/20/2026",
    "[soil]\nsampled = 20 March 2026",
    '[soil]\nsampled = "March 20, 2026"',
    "[soil]\nsampled = 03.04.2026",
    "[soil]\nsampled = 2026-3-2",
    "[soil]\nsampled = 2026-02-30",
    "[soil]\nsampled = 7",
    "[soil]\nph = = 7",
    "[soil]\nph = = seven",
    "[soil]\nph = 7,2",
    "[soil]\nph = 72",
    "[soil]\nph = 650",
    "[soil]\nph = seven",
    "[soil]\nph =",
    "[soil]\nph = true",
    '[soil]\nph = "7.2 mS/cm"',
    "[soil]\nph = 7\nph_method = water",
    '[soil]\nph_method = "water 1:3"',
    "[soil]\ntexture = lome",
    '[soil]\ntexture = "lome"',
    "[soil]\ntexture = “loam”",
    '[soil]\nfizz = "lots"',
    "[soil]\norganic_matter_pct = 120",
    "[soil]\ncec_cmolc_kg = 180",
    '[soil]\ncec_cmolc_kg = "12 mg"',
    '[soil]\nlab_lime_requirement = "3000 t/ha"',
    "[bed]\narea = 20 m2",
    '[bed]\narea = "20 m3"',
    '[bed]\narea = "20 metters"',
    '[bed]\narea = "5 x 4"',
    '[bed]\narea = "20000 ha"',
    '[bed]\narea = "-20 m2"',
    '[bed]\narea = "20 m2',
    "[bed]\narea = 20 m2 # our estimate",
    "[bed]\ndepth = 150",
    '[bed]\ndepth = "20 kg"',
    "[bed]\ndepth = 15,5 cm",
    "[bed]\nkind = pot",
    '[bed]\nkind = "groud"',
    "[bed]\nplanted = yes",
    '[bed]\nplanted = "perhaps"',
    "[bed]\ncount = 1.5",
    "name = North",
    "name = North \\ South",
    "name = 5",
    "units = metrick",
    "today = 12.04.2026",
    "[aim]\nplant = blueberry",
    '[aim]\nplant = "higbush blubery"',
    '[aim]\nplant = "maple"',
    "[place]\nlatitude = 95\nlongitude = 1",
    '[water]\nalkalinity = "12 dH"',
    '[water]\nalkalinity = "3.6 mmol/L"',
    "[water]\nalkalinity = 180 mg/L CaCO3",
    '[water]\nweekly = "550 kg"',
    "[water]\nmonths = [5, 5]",
    "[water]\nmonths = 13",
    '[[applied]]\ndate = 2025-10-05\nmaterial = "gypsum"\namount = "3 boxes"',
    '[[applied]]\ndate = 2025-10-05\nmaterial = "gipsum"\namount = "3 kg"',
    '[[applied]]\ndate = 2025-10-05\nmaterial = "sulfur"\namount = "3 kg"',
    '[[applied]]\ndate = 5.10.2025\nmaterial = "gypsum"\namount = "3 kg"',
    '[bed]\narea = "20 m2"\n[[claim]]\nmaterial = "elemental sulfur, powder"\namount = "600 kg"',
    '[bed]\narea = "20 m2"\n[[claim]]\nmaterial = "ground limestone"\namount = "6 t"',
    '[[claim]]\nmaterial = "elemental sulfur, powder"\nrate = "99 kg/m2"',
    '[[claim]]\nmaterial = "gypsum"\nrate = "30 g"',
    "[[on_hand]]\nmaterial = \"gypsum\"\nprice = 5\ncurrency = 'pounds'",
    '[[on_hand]]\nmaterial = "gypsum"\npack = "25 L"',
    "case = 2",
]  # fmt: skip


@pytest.mark.parametrize("broken", BROKEN)
def test_what_an_error_shows_is_read(broken: str) -> None:
    text = broken if broken.startswith("case") else f"case = 1\n{broken}"
    error, faults = faults_of(text)
    assert error is not None and faults
    assert check(text) >= 1, str(error)


def _fields() -> list[tuple[str, bool, str, str]]:
    """Every key that takes one value: its table, whether that is a list, its name, its example."""
    return [
        (table.name, table.is_list, question.key, question.row.example)
        for table in case_questions()
        for question in table.questions
        if question.key != "case"
    ]


FIELDS = _fields()
SLIPS = {
    "decimal comma": lambda value: value.replace(".", ",") if "." in value else f"{value},5",
    "date in another order": lambda _: "20.03.2026",
    "American date": lambda _: "3/20/2026",
    "unit missing": lambda value: value.strip('"').split(" ")[0],
    "wrong kind of unit": lambda value: f'"{value.strip(chr(34)).split(" ")[0]} m3"',
    "two equals signs": lambda value: f"= {value}",
    "unquoted": lambda value: value.strip('"'),
    "not closed": lambda value: value.rstrip('"]}'),
    "nothing": lambda _: "",
    "true": lambda _: "true",
    "far too large": lambda _: "9e99",
    "negative": lambda value: f'"-{value.strip(chr(34))}"',
    "curly quotation marks": lambda value: f"“{value.strip(chr(34))}”",
}


@tries(100)
@given(
    field=st.sampled_from(FIELDS),
    slip=st.sampled_from(sorted(SLIPS)),
    extra=st.text(st.characters(categories=["L", "N", "P"]), max_size=4),
)
def test_any_slip_under_any_key_is_told_with_what_is_read(
    field: tuple[str, bool, str, str], slip: str, extra: str
) -> None:
    table, is_list, key, example = field
    header = "" if not table else f"[[{table}]]\n" if is_list else f"[{table}]\n"
    check(f"case = 1\n{header}{key} = {SLIPS[slip](example)}{extra}")


@given(
    day=st.dates(date(1950, 1, 1), TODAY - timedelta(days=1)),
    order=st.sampled_from(
        ("%d.%m.%Y", "%d/%m/%Y", "%Y/%m/%d", "%d %B %Y", "%B %d, %Y", "%d-%b-%Y")
    ),
    quote=st.sampled_from(("", '"')),
)
def test_a_date_in_another_order_is_told_as_the_same_day(day: date, order: str, quote: str) -> None:
    text = f"case = 1\n[soil]\nsampled = {quote}{day.strftime(order)}{quote}"
    check(text)
    ((fault,),) = (faults_of(text)[1],)
    assert isinstance(fault, WordedFault)
    could_be_two = order[:5] in ("%d.%m", "%d/%m") and day.day <= 12 and day.day != day.month
    assert (day.isoformat() in str(fault)) is not could_be_two


def test_every_key_with_an_example_was_tried() -> None:
    known = {
        key
        for table in tables().values()
        for key, field in table.model_fields.items()
        if item_table(field.annotation)[0] is None
    }
    assert {key for *_, key, _ in FIELDS} | {"case"} == known
