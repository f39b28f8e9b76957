"""The workbench of one person starts from nothing and shows its first page."""

from __future__ import annotations

import re
import subprocess
import sys
import urllib.request
from pathlib import Path


def test_the_first_start_makes_the_data_and_serves_the_first_page(tmp_path: Path) -> None:
    data = tmp_path / "data"
    words = ["-m", "loamshift", "open", "--no-browser", "--data", str(data), "--port", "0"]
    with subprocess.Popen(
        [sys.executable, *words], stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True
    ) as started:
        try:
            assert started.stdout is not None
            said = started.stdout.readline()
            address = re.search(r"http://127\.0\.0\.1:\d+/", said)
            assert address is not None, said + started.stdout.read()
            with urllib.request.urlopen(address[0], timeout=60) as answer:
                assert answer.status == 200
                assert "loamshift" in answer.read().decode()
        finally:
            started.terminate()
