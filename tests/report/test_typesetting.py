"""Sheets set in one process: how long they are, and that nothing of them stays in memory."""

from __future__ import annotations

import subprocess
import sys
from datetime import date
from pathlib import Path
from threading import Thread

import pypdfium2
import pytest

from loamshift.report.typesetting import extent, set_pdf, typesetting

DAY = date(2026, 4, 12)
MOST_MB = 50.0
HEIGHT_PT = {"a4": 841.9, "us-letter": 792.0}
END = "#context [#metadata(counter(page).final().first()) <pages>]"
SHEETS = 100
GROWTH = """
import resource, sys
from pathlib import Path
from loamshift.report.typesetting import set_pdf, typesetting

def resident_mb():
    return int(Path("/proc/self/statm").read_text().split()[1]) * resource.getpagesize() / 1e6

def sheet(number):
    words = " ".join(f"#par[Bed {number}, line {line}: #lorem(90)]" for line in range(60))
    with typesetting():
        set_pdf({"main.typ": f"#set document(title: [{number}])\\n{words}".encode()}, day=None)

before = resident_mb()
for number in range(int(sys.argv[1])):
    sheet(number)
print(resident_mb() - before)
"""


def document(words: str, *, paper: str = "a4") -> dict[str, bytes]:
    head = f'#set page(paper: "{paper}", margin: 20mm)\n#set document(title: [Beds])\n'
    return {"main.typ": f"{head}{words}\n{END}".encode()}


@pytest.mark.parametrize("paper", HEIGHT_PT)
def test_the_extent_is_where_the_last_line_ends(paper: str) -> None:
    for words, sheets, down_pt in (
        ("#v(100pt)", 1, 157.0),
        ("#pagebreak()#v(300pt)", 2, 357.0),
    ):
        found = extent(document(words, paper=paper), height_pt=HEIGHT_PT[paper])
        assert found.sheets == sheets
        assert found.down_pt == pytest.approx(down_pt, abs=15.0)
        assert found.length == pytest.approx(sheets - 1 + found.down_pt / HEIGHT_PT[paper])


def test_a_day_is_written_in_and_the_bytes_are_the_same_again() -> None:
    with typesetting():
        first = set_pdf(document("Beds"), day=DAY)
    with typesetting():
        again = set_pdf(document("Beds"), day=DAY)
        other = set_pdf(document("Beds"), day=None)
    assert first == again != other
    assert "20260412" in pypdfium2.PdfDocument(first).get_metadata_dict()["CreationDate"]


def test_threads_set_the_same_sheets_in_turn() -> None:
    texts = [f"Bed {number}. #lorem({number * 20 + 20})" for number in range(8)]
    alone = [set_pdf(document(text), day=DAY) for text in texts]
    made: dict[int, bytes] = {}

    def work(number: int) -> None:
        with typesetting():
            extent(document(texts[number]), height_pt=HEIGHT_PT["a4"])
            made[number] = set_pdf(document(texts[number]), day=DAY)

    threads = [Thread(target=work, args=(number,)) for number in range(len(texts))]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert [made[number] for number in range(len(texts))] == alone


def test_a_sheet_that_cannot_be_set_does_not_hold_up_the_next() -> None:
    with pytest.raises(RuntimeError, match="unclosed"), typesetting():
        set_pdf({"main.typ": b"#["}, day=None)
    with typesetting():
        assert set_pdf(document("Beds"), day=None).startswith(b"%PDF")


@pytest.mark.skipif(sys.platform != "linux", reason="memory is read off another place there")
def test_a_hundred_sheets_leave_next_to_no_memory_behind(tmp_path: Path) -> None:
    """Sheets of a page or more each; kept, they would hold hundreds of megabytes."""
    script = tmp_path / "growth.py"
    script.write_text(GROWTH, encoding="utf-8")
    done = subprocess.run(
        [sys.executable, str(script), str(SHEETS)], capture_output=True, text=True, check=True
    )
    assert float(done.stdout) < MOST_MB
