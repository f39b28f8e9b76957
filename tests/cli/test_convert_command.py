from __future__ import annotations

import pytest

BAD = 1


@pytest.mark.parametrize(
    ("quantity", "unit", "answer"),
    [
        ("2 lb/100 sq ft", "g/m2", "97.65 g/m2"),
        ("5 oz/yd2", "g/m2", "169.5 g/m2"),
        ("3 t/ha", "lb/acre", "2,677 lb/acre"),
        ("20 m2", "sq ft", "215.3 sq ft"),
        ("6 in", "cm", "15.24 cm"),
        ("1 lb", "g", "453.6 g"),
        ("50 F", "C", "10 °C"),
        ("10 C", "F", "50 °F"),
        ("220 mg/L HCO3", "mg/L CaCO3", "180.4 mg/L CaCO3"),
        ("10 dKH", "mg/L CaCO3", "178.5 mg/L CaCO3"),
    ],
)
def test_units_of_the_trade(command, quantity: str, unit: str, answer: str) -> None:
    result = command("convert", quantity, unit)
    assert (result.code, result.out) == (0, f"{quantity} = {answer}\n")


@pytest.mark.parametrize(
    ("typed", "answer"),
    [
        ("5 kg lb", "5 kg = 11.02 lb"),
        ("20 m2 sq ft", "20 m2 = 215.3 sq ft"),
        ("5 kg to lb", "5 kg = 11.02 lb"),
        ("-5 C F", "−5 C = 23 °F"),
        ("220 mg/L HCO3 mg/L CaCO3", "220 mg/L HCO3 = 180.4 mg/L CaCO3"),
        ("500 m ft", "500 m = 1,640 ft"),
        ("0 kg lb", "0 kg = 0 lb"),
    ],
)
def test_quotation_marks_may_be_left_out(command, typed: str, answer: str) -> None:
    assert command("convert", *typed.split()).out == f"{answer}\n"


@pytest.mark.parametrize("typed", [("5", "kg"), ("x", "y"), ("5 apples", "g"), ("0 x", "kg")])
def test_what_is_no_water_is_told_no_rule_of_water(command, typed: tuple[str, str]) -> None:
    said = command("convert", *typed).err
    assert "HCO3" not in said and "meq/L" not in said and "hardness" not in said


def test_a_cup_of_a_material_comes_with_its_range(command) -> None:
    result = command("convert", "1 cup", "g", "--material", "elemental sulfur, powder")
    assert result.code == 0
    assert result.out == "1 cup = about 180 g (105 to 200)\n"
    assert "767 g per litre" in result.err


def test_weight_to_cups_is_the_inverse(command) -> None:
    result = command("convert", "181.5 g", "cups", "--material", "elemental sulfur, powder")
    assert result.out.startswith("181.5 g = about 1.0 cups (")


def test_a_cup_of_nothing_in_particular_asks_what_is_in_it(command) -> None:
    result = command("convert", "1 cup", "g")
    assert result.code == BAD and "--material" in result.err and result.out == ""


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("2 kg", "m2"), "not a unit of the same kind"),
        (("x", "y"), "cannot be read"),
        (("2 lb/100 sq ft", "flurbs"), "“flurbs” is not a unit"),
        (("5", "kg"), "5 of what?"),
        (("5", "F"), 'convert "5 F" C'),
        (("5", "ft2"), 'convert "5 ft2" m2'),
        (("5", "custard"), 'convert "5 kg" lb'),
        (("5 kg", ""), "Into which unit"),
        (("5", "kg", "lb", "please"), "The word “please” after “lb” is left over"),
        (("5 kg of them", "lb"), "The words “of them” after “kg” are left over"),
        (("12 dH", "ppm"), "is a hardness"),
        (("1 cup", "g", "--material", "elemental sulfur, chipz"), "Did you mean"),
        (("10 kg", "F"), "not a temperature"),
    ],
)
def test_what_cannot_be_converted_is_explained(command, arguments: tuple[str], said: str) -> None:
    result = command("convert", *arguments)
    assert result.code == BAD
    assert said in result.err and "Traceback" not in result.err


def test_a_ph_comes_by_every_conversion(command) -> None:
    result = command("convert", "--ph", "6.2", "--from", "CaCl2", "--to", "water")
    assert result.code == 0
    assert "pH 6.2 (CaCl2) reads about 6.8 in water 1:2.5" in result.out
    assert "Every conversion we list" in result.out and "Sources" in result.out


@pytest.mark.parametrize("word", ["water", "1:2.5", "Water 1:2.5", "pH H2O", "h2o"])
def test_a_method_is_found_by_the_words_of_the_trade(command, word: str) -> None:
    assert "water 1:2.5" in command("convert", "--ph", "6", "--from", "KCl", "--to", word).out


@pytest.mark.parametrize(
    "arguments",
    [
        (),
        ("2 kg",),
        ("--ph", "6.2"),
        ("--ph", "6.2", "--from", "KCl", "2 kg"),
        ("--from", "KCl"),
        ("--ph", "sour", "--from", "KCl"),
    ],
)
def test_wrong_usage_is_exit_2(command, arguments: tuple[str, ...]) -> None:
    result = command("convert", *arguments)
    assert result.code == 2 and result.out == "" and "Usage" in result.err


@pytest.mark.parametrize("arguments", [("--from", "foo"), ("--from", "KCl", "--to", "bar")])
def test_an_unknown_method_lists_the_right_ones(command, arguments: tuple[str, ...]) -> None:
    result = command("convert", "--ph", "6.2", *arguments)
    assert result.code == BAD and "CaCl2" in result.err
