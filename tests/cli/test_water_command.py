from __future__ import annotations

import pytest


def test_a_hard_water_is_answered_with_lime_acid_and_care(command) -> None:
    result = command("water", "220 mg/L HCO3", "--target-ph", "5.8", "--weekly", "25 mm")
    assert result.code == 0
    assert "Alkalinity 180 mg/L CaCO3" in result.out
    assert "550 mm of this water has the same effect as liming with 99 g/m²" in " ".join(
        result.out.split()
    )
    assert "never water into acid" in result.out
    assert "sulphuric acid 93%" in result.out


def test_us_words_and_units(command) -> None:
    result = command("water", "180", "--units", "us", "--weekly", "1 in", "--weeks", "20")
    assert "sulfuric acid 93%" in result.out and "sulphuric" not in result.out
    assert "For 100 US gallons of water" in result.out
    assert "20 in of this water" in result.out


def test_the_printed_factor_of_100_us_gallons_agrees(command) -> None:
    """0.56 mL of 63 % nitric acid per mg/L and 100 gal is printed; 67 % acid needs 0.51."""
    result = command("water", "140", "--leave", "40", "--units", "us")
    line = next(row for row in result.out.splitlines() if row.startswith("nitric acid 67%"))
    fl_oz = float(line.split("67%")[1].split("fl oz")[0])
    assert fl_oz * 29.5735 / 100.0 == pytest.approx(0.508, rel=0.03)


def test_hardness_is_explained_and_never_used(command) -> None:
    result = command("water", "--hardness", "15 dH")
    assert result.code == 1 and result.out == ""
    assert "alkalinity counts the bicarbonate" in result.err


@pytest.mark.parametrize("arguments", [(), ("--ph", "7.5")])
def test_without_a_water_it_is_wrong_usage(command, arguments: tuple[str, ...]) -> None:
    assert command("water", *arguments).code == 2


@pytest.mark.parametrize(
    "arguments",
    [
        ("180 furlongs",),
        ("9000",),
        ("180", "--leave", "500"),
        ("180", "--target-ph", "3"),
        ("180", "--target-ph", "6", "--leave", "40"),
        ("180", "--weekly", "500 L"),
        ("180", "--temp", "900 C"),
    ],
)
def test_a_bad_water_is_exit_1_without_a_traceback(command, arguments: tuple[str, ...]) -> None:
    result = command("water", *arguments)
    assert result.code == 1 and result.out == ""
    assert result.err.strip() and "Traceback" not in result.err and "our fault" not in result.err
