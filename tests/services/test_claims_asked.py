from __future__ import annotations

import pytest

from loamshift.errors import InputError
from loamshift.services.claim.settle import settle_claims
from loamshift.services.claims_asked import claims_asked
from loamshift.services.context.build_context import build_context
from services.beds import bed

CLAIMS = """
[[claim]]
material = "coffee grounds"
rate = "1 kg/m2"
[[claim]]
material = "flowers of sulphur"
rate = "60 g/m2"
"""


def test_claims_are_those_of_the_letter_and_nothing_is_planned() -> None:
    case = bed(more=CLAIMS)
    found = claims_asked(case, seed=None)
    assert found.claims == settle_claims(build_context(case), case.claims)
    assert (found.applications, found.options) == ((), ())


def test_cautions_are_those_of_what_was_claimed() -> None:
    codes = {caution.code for caution in claims_asked(bed(more=CLAIMS), seed=None).cautions}
    assert "sulfur-dust" in codes
    assert "caustic-lime" not in codes
    coffee = claims_asked(bed(more=CLAIMS.split('[[claim]]\nmaterial = "f')[0]), seed=None)
    assert "sulfur-dust" not in {caution.code for caution in coffee.cautions}


def test_every_caution_with_a_source_has_it_listed() -> None:
    found = claims_asked(bed(more=CLAIMS), seed=None)
    listed = {line.key for line in found.sources}
    assert {c.source_key for c in found.cautions if c.source_key} <= listed
    assert len(listed) == len(found.sources)


def test_a_claim_needs_the_ph_of_its_soil() -> None:
    with pytest.raises(InputError, match="claim-no-ph"):
        claims_asked(bed('texture = "loam"', more=CLAIMS), seed=None)
