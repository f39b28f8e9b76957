"""Every example in the documentation runs and prints what the page shows."""

from __future__ import annotations

import difflib
from pathlib import Path

import pytest

import docs as site
import docs_examples
from loamshift.cli.app import app

PAGES = docs_examples.pages()
ROOT = Path(__file__).parents[2]


@pytest.mark.parametrize("path", PAGES, ids=lambda path: path.stem)
def test_the_examples_of_a_page_print_what_it_shows(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    made = docs_examples.refreshed(text, path.name).text
    difference = difflib.unified_diff(text.splitlines(), made.splitlines(), lineterm="", n=1)
    assert made == text, "\n".join([*difference, "run python tools/docs.py --refresh"])


def test_the_pages_show_every_command() -> None:
    shown = "\n".join(path.read_text(encoding="utf-8") for path in PAGES)
    missing = {
        name
        for name in (command.name for command in app.registered_commands if not command.hidden)
        if f"loamshift {name}" not in shown
    }
    assert not missing


def test_an_output_that_is_out_of_date_is_found() -> None:
    page = '```console\n$ loamshift convert "1 kg" g\n1 kg = 999 g\n```'
    made = docs_examples.refreshed(page)
    assert "1 kg = 1,000 g" in made.text and made.commands == 1


def test_a_command_that_fails_unasked_is_told_with_its_line() -> None:
    page = "one\n\n```console\n$ loamshift advise nothing.toml\n```"
    with pytest.raises(docs_examples.ExampleError, match="line 3"):
        docs_examples.refreshed(page)
    asked = "<!-- exit: 1 -->\n```console\n$ loamshift advise nothing.toml\n```"
    assert "nothing.toml" in docs_examples.refreshed(asked).text


def test_only_the_lines_asked_for_are_shown() -> None:
    page = '<!-- show: Where -> How; When -->\n```console\n$ loamshift sample --area "20 m2"\n```'
    lines = docs_examples.refreshed(page).text.splitlines()
    assert "Where" in lines and "How" not in lines and "When" in lines and "[…]" in lines


def test_a_heading_that_is_gone_is_told() -> None:
    page = "<!-- show: Nowhere -->\n```console\n$ loamshift places Denver\n```"
    with pytest.raises(docs_examples.ExampleError, match="Nowhere"):
        docs_examples.refreshed(page)


def test_a_file_given_on_the_page_is_written_and_used() -> None:
    page = (
        "<!-- file: own.toml -->\n```toml\ncase = 1\nname = 'Own'\ntoday = 2026-04-12\n"
        "[soil]\nph = 6.5\n[aim]\ntarget_ph = 6.5\n```\n"
        "<!-- show: Own -->\n```console\n$ loamshift advise own.toml --years 0\n```"
    )
    assert "\nOwn\n" in docs_examples.refreshed(page).text


def test_python_results_are_the_real_ones_and_names_last_through_a_page() -> None:
    page = "```python\n>>> a = 2\n```\ntext\n```python\n>>> a + 1\n7\n```"
    made = docs_examples.refreshed(page)
    assert ">>> a + 1\n3\n" in made.text and made.python == 2


def test_blocks_can_be_picked_by_place_and_number() -> None:
    page = "<!-- show: paragraph 2 x2 -->\n```console\n$ loamshift sample --pots 6\n```"
    whole = docs_examples.refreshed(page.partition("\n")[2]).text.split("\n\n")
    picked = docs_examples.refreshed(page).text
    assert whole[1] in picked and whole[2] in picked
    assert whole[0].splitlines()[-1] not in picked and whole[3] not in picked


def test_a_letter_is_worked_out_anew_once_its_case_has_changed() -> None:
    def page(ph: float) -> str:
        return (
            f"<!-- file: own.toml -->\n```toml\ncase = 1\ntoday = 2026-04-12\n[soil]\nph = {ph}\n"
            "[aim]\ntarget_ph = 6.5\n```\n```console\n$ loamshift advise own.toml --years 0\n```\n"
        )

    made = docs_examples.refreshed(page(6.5) + page(5.0)).text
    first, second = made.split("<!-- file")[1:]
    assert "pH 6.5" in first and "pH 5.0" in second.split("console")[1]


def test_a_script_from_another_host_is_found_and_a_link_is_none() -> None:
    assert site.foreign('<script src="https://example.org/a.js"></script>')
    assert site.foreign('<link rel="stylesheet" href="//example.org/a.css">')
    assert not site.foreign('<script src="_static/a.js"></script><a href="https://x.org">x</a>')


def test_every_folder_of_examples_named_in_the_pages_exists() -> None:
    for path in PAGES:
        for word in path.read_text(encoding="utf-8").split():
            if word.startswith("`examples/"):
                assert (ROOT / word.strip("`.,:;)")).exists(), f"{path.name}: {word}"
