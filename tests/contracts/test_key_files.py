"""A key of the case file is described in one row and one block of messages, and nowhere else."""

from __future__ import annotations

import pytest

from key_files import countable_keys, files_that_name

ROW_AND_WORDS = 2
"""The row in `case`, and the messages in `keys-*.ftl`."""
ONLY_DESCRIBED = (
    *("cec_cmolc_kg", "base_saturation_pct", "ec_method"),
    *("bulk_density_g_cm3", "clay_type", "before_years"),
)
"""Keys that no part of `case`, `cli`, `report` or `web` treats in a way of its own."""
CEILING = 80
"""Files of `case` that name a key, over all keys; 149 before there were rows."""
OTHER_READERS = (
    *("case/intake/", "case/weather/", "case/online_weather", "case/question_text"),
    *("case/trial_", "case/field/", "case/table/"),
)
"""What reads files of other people, and names the keys that it fills."""
CEILING_OF_OTHERS = 39
"""One file for each key of a report or a file of weather; 37 before reports of magnesium and of
phosphorus were read."""


@pytest.mark.parametrize("key", ONLY_DESCRIBED)
def test_a_key_stands_in_its_row_and_its_messages_only(key: str) -> None:
    files = files_that_name(key)
    assert len(files) == ROW_AND_WORDS, files
    assert files[0].startswith("case/schema_")
    assert files[1].startswith("report/messages/en/keys-")


def test_the_reader_names_keys_in_no_more_files_than_it_did() -> None:
    files = [file for key in countable_keys() for file in files_that_name(key)]
    ours = [file for file in files if file.startswith("case/")]
    others = [file for file in ours if file.startswith(OTHER_READERS)]
    assert len(ours) - len(others) <= CEILING
    assert len(others) <= CEILING_OF_OTHERS


def test_what_names_a_key_is_found() -> None:
    named = files_that_name("organic_matter_pct")
    assert "report/letter_head.py" in named, "code"
    assert "report/messages/en/pages-facts.ftl" in named, "a gap of a message"
    assert "report/messages/en/keys-soil.ftl" in named, "names of messages"
