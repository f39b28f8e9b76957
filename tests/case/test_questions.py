from __future__ import annotations

from loamshift.case.questions import case_questions
from loamshift.case.schema import CaseFile


def test_every_table_and_key_of_the_case_file_is_asked() -> None:
    asked = {table.name: table for table in case_questions()}
    assert {"", "place", "bed", "soil", "soil.other_ph", "place.soil_temp", "claim"} <= set(asked)
    assert asked["claim"].is_list and asked["soil.other_ph"].is_list
    assert not asked["soil"].is_list and not asked[""].is_list
    keys = {question.key for question in asked["soil"].questions}
    model = set(CaseFile.model_fields["soil"].annotation.model_fields)  # type: ignore[union-attr]
    assert keys == model - {"other_ph", "layer"}
    fizz = next(q for q in asked["soil"].questions if q.key == "fizz")
    assert fizz.choices == ("none", "slight", "moderate", "strong", "extreme")
    assert next(q for q in asked["reading"].questions if q.key == "ph").is_required
