"""Trial files: read whole, or refused with every fault at its own place."""

from pathlib import Path

import pytest

from invented_trials import LIMY, TWO, trial
from loamshift.case.trial_read import parse_trial, read_trial
from loamshift.domain.case import BedKind
from loamshift.domain.trial import Design
from loamshift.errors import CaseError

HEAD = 'trial = 1\nname = "Peat"\nquestion = "Does it last?"\nstart = 2026-04-20\n'


def faults(text: str) -> dict[str, str]:
    with pytest.raises(CaseError) as caught:
        parse_trial(text)
    return {fault.path: str(fault) for fault in caught.value.faults}


def test_pots_are_bare_and_the_untreated_one_comes_first() -> None:
    found = trial(treatments=TWO.replace('name = "nothing"', 'name = "zero"'))
    assert found.case.bed.kind is BedKind.CONTAINER and found.case.bed.planted is False
    assert found.has_control and found.treatments[0].name == "zero"
    assert [one.rate_g_m2 for one in found.treatments] == [0.0, 10_000.0, 100.0]
    assert found.days == (0, 1, 3, 9, 30, 90)


def test_strips_lie_in_a_field_in_blocks() -> None:
    found = trial('design = "strip trial"')
    assert found.design is Design.STRIPS
    assert found.in_blocks and found.case.bed.kind is BedKind.FIELD


def test_a_case_file_beside_it_brings_the_soil(tmp_path: Path) -> None:
    (tmp_path / "bed.toml").write_text(f"case = 1\ntoday = 2026-01-01\n{LIMY}", encoding="utf-8")
    own = '[bed]\narea = "0.05 m2"\ndepth = "15 cm"\n'
    path = tmp_path / "trial.toml"
    path.write_text(f'{HEAD}case_file = "bed.toml"\n{own}{TWO}', encoding="utf-8")
    found = read_trial(path)
    assert found.case.soil.ph is not None and found.case.soil.ph.ph == 7.8
    assert found.case.bed.area_m2 == pytest.approx(0.05)
    assert found.case.today == found.start


def test_every_fault_is_told_at_its_own_place() -> None:
    text = HEAD.replace("trial = 1", "trial = 3") + (
        f'desgn = "blocks"\nreplicates = 0\n{LIMY}'
        '[[treatment]]\nname = "a"\nmaterial = "peet"\nrate = "3 kg/m2"\n'
        '[[treatment]]\nname = "b"\nmaterial = "peat"\nrate = "3 bananas"\n'
        '[[treatment]]\nname = "c"\nalso = [{material = "lime"}]\n'
    )
    found = faults(text)
    assert {"trial", "desgn", "replicates", "treatment[1].material"} <= set(found)
    assert "treatment[2].rate" in found
    assert "design" in found["desgn"]
    assert "Moss peat" in found["treatment[1].material"]


def test_a_material_without_an_amount_is_a_fault_of_its_treatment() -> None:
    bare = '[[treatment]]\nname = "nothing"\n[[treatment]]\nname = "p"\nmaterial = "peat"\n'
    assert "treatment[2].amount" in faults(f"{HEAD}{LIMY}{bare}")


@pytest.mark.parametrize(
    ("head", "treatments", "path"),
    [
        ("", '[[treatment]]\nname = "nothing"\n', "treatment"),
        ("", TWO.replace('name = "sulfur"', 'name = "Peat"'), "treatment[3].name"),
        ('control = "air"', TWO, "control"),
        ('design = "paired"', TWO, "design"),
        ('design = "dose series"', TWO, "design"),
        ('design = "two-factor"', TWO, "factors"),
        ('design = "two-factor"\nfactors = ["a", "b"]', TWO, "treatment[1].levels"),
        ("replicates = 50\n", TWO + TWO.replace('name = "', 'name = "x') * 3, "treatment[9].name"),
        ("days = [0, 1, -3]", TWO, "days"),
        ("days = [0, 1, -3000]", TWO, "days[3]"),
        ('slurry = [[7.0, "x"]]', TWO, "slurry"),
        ('case_file = "bed.toml"', TWO, "case_file"),
    ],
)
def test_what_does_not_agree_is_named(head: str, treatments: str, path: str) -> None:
    assert path in faults(f"{HEAD}{head}\n{LIMY}{treatments}")


def test_repeated_readings_of_one_soil_need_no_further_brackets() -> None:
    assert trial("slurry = [7.1, 7.2, 7.1]").slurry_ph == ((7.1, 7.2, 7.1),)
    assert trial("slurry = [[7.1, 7.2], [6.8, 6.9]]").slurry_ph == ((7.1, 7.2), (6.8, 6.9))


def test_a_trial_without_a_soil_ph() -> None:
    assert "soil.ph" in faults(f"{HEAD}{LIMY.replace('ph = 7.8', '')}{TWO}")


def test_a_missing_cell_of_two_factors_is_named() -> None:
    cells = "".join(
        f'[[treatment]]\nname = "{a}{b}"\nlevels = ["{a}", "{b}"]\n'
        for a, b in (("no", "no"), ("no", "yes"), ("yes", "no"))
    )
    head = 'design = "two-factor"\nfactors = ["peat", "sulfur"]\n'
    assert "yes + yes" in faults(f"{HEAD}{head}{LIMY}{cells}")["treatment"]
