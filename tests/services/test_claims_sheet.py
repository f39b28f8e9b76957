from __future__ import annotations

from dataclasses import replace

import pytest

from loamshift.domain.answer import ClaimResult
from loamshift.domain.case import Case
from loamshift.domain.claims_sheet import ClaimsSheet
from loamshift.errors import InputError
from loamshift.services.claim.settle import settle_claims
from loamshift.services.claims_sheet import claims_sheet, sheet_verdict, usual_amount
from loamshift.services.context.build_context import build_context
from loamshift.tables.materials import load_materials
from loamshift.tables.usual_amounts import load_usual_amounts
from services.beds import bed
from wording import read

LOAM = bed(
    'ph = 7.0\nph_method = "water 1:1"\ntexture = "loam"\ncarbonate_pct = 0',
    aim="target_ph = 5.5",
)
SAND = bed('ph = 5.0\nph_method = "water 1:1"\ntexture = "sand"', aim="target_ph = 6.5")
ASKED_FOR = {
    *("rainwater", "compost, any finished", "coffee grounds, spent", "pine needles, fallen"),
    *("oak leaves, fallen", "sphagnum peat", "vinegar, 5 %", "epsom salt", "gypsum"),
    "tea leaves, spent",
}


def sheet(case: Case) -> ClaimsSheet:
    return claims_sheet(case, seed=None)


def test_ten_remedies_for_a_soil_that_needs_acid() -> None:
    assert {line.claim.material for line in sheet(LOAM).lines} == ASKED_FOR


def test_a_soil_that_needs_lime_has_those_that_lime() -> None:
    listed = {line.claim.material for line in sheet(SAND).lines}
    assert {"wood ash", "eggshell, hand crushed"} <= listed
    assert not {"vinegar, 5 %", "sphagnum peat"} & listed and len(listed) == 10


def test_every_line_is_what_the_claim_alone_would_be() -> None:
    found = sheet(LOAM)
    assert found.answer.claims == settle_claims(build_context(LOAM), found.case.claims)
    assert [line.claim for line in found.lines] == list(found.answer.claims)
    assert (found.answer.applications, found.answer.options) == ((), ())


def test_rates_are_those_of_the_amounts() -> None:
    """5 cm on a square metre are 50 L; 52 cups of 0.2366 L are 12.3 L."""
    rates = {line.claim.material: line.rate_g_m2 for line in sheet(LOAM).lines}
    density = load_materials()["compost, any finished"].bulk_density_kg_m3
    assert density is not None
    assert rates["compost, any finished"] == pytest.approx(50.0 * density)
    coffee = load_materials()["coffee grounds, spent"].bulk_density_kg_m3
    assert coffee is not None
    assert rates["coffee grounds, spent"] == pytest.approx(52 * 0.2366 * coffee, rel=0.001)


def test_rain_vinegar_and_salts_bring_next_to_nothing() -> None:
    """A year of rain at pH 5.2 holds 700 L times 6 umol/L: 4 mmolc/m2."""
    lines = {line.claim.material: line for line in sheet(LOAM).lines}
    assert lines["rainwater"].claim.acid_brought_mmolc_m2 == pytest.approx(4.2)
    for key in ("vinegar, 5 %", "epsom salt", "gypsum"):
        assert lines[key].claim.acid_brought_mmolc_m2 == 0.0
    assert lines["epsom salt"].verdict.key == "claim-sheet-salt"
    assert lines["vinegar, 5 %"].verdict.key == "claim-sheet-fades"


def test_those_that_lime_are_told_to_work_the_other_way() -> None:
    lines = {line.claim.material: line for line in sheet(LOAM).lines}
    for key in ("compost, any finished", "oak leaves, fallen", "pine needles, fallen"):
        assert lines[key].claim.acid_brought_mmolc_m2 < 0.0
        assert lines[key].verdict.key == "claim-sheet-wrong-way"


@pytest.mark.parametrize(
    ("share", "text"),
    [
        (0.0002, "This adds next to nothing."),
        (0.004, "This adds less than 1% of the acid the bed needs."),
        (0.4, "This adds 40% of the acid the bed needs."),
        (1.1, "This adds about as much acid as the bed needs."),
        (3.0, "This adds 3.0 times the acid the bed needs: too much."),
        (-0.004, "This adds a trace of lime, and the bed needs acid."),
        (-0.4, "This adds lime, and the bed needs acid."),
    ],
)
def test_one_sentence_follows_from_the_share(share: float, text: str) -> None:
    claim = ClaimResult(
        material="wood ash", acid_brought_mmolc_m2=5000.0 * share, acid_needed_mmolc_m2=5000.0,
        share=share, ph_change_now=0.0, ph_change_1_year=0.0, comment="",
    )  # fmt: skip
    said = sheet_verdict(claim, load_materials()["wood ash"], place="bed")
    assert read(said) == text
    other = replace(
        claim,
        acid_brought_mmolc_m2=-claim.acid_brought_mmolc_m2,
        acid_needed_mmolc_m2=-claim.acid_needed_mmolc_m2,
    )
    swap = {"acid": "lime", "lime": "acid"}
    swapped = " ".join(
        swap.get(word.rstrip(".,"), word.rstrip(".,")) + word[len(word.rstrip(".,")) :]
        for word in text.split(" ")
    )
    assert read(sheet_verdict(other, load_materials()["wood ash"], place="bed")) == swapped


def test_amounts_are_said_as_people_say_them() -> None:
    said = {row.key: usual_amount(row) for row in load_usual_amounts()}
    assert read(said["rainwater"]) == "a year of rain, 700 mm"
    assert read(said["sphagnum peat"]) == "a 5 cm layer, dug in"
    assert read(said["sphagnum peat"], units="us") == "a 2 in layer, dug in"
    for amount in said.values():
        assert read(amount, units="us") and read(amount)


def test_a_sheet_cites_where_its_amounts_come_from() -> None:
    assert "common-practice" in {line.key for line in sheet(LOAM).answer.sources}


def test_a_sheet_needs_the_ph_of_its_soil() -> None:
    with pytest.raises(InputError):
        claims_sheet(bed('texture = "loam"'), seed=None)
