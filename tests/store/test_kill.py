"""Kill -9 during writes: what was acknowledged is there, and the database is whole."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

SCRIPT = Path(__file__).with_name("killed.py")
TIMES = int(os.environ.get("LOAMSHIFT_KILLS", "50"))


@pytest.mark.skipif(not hasattr(os, "fork"), reason="this system cannot fork a writer")
def test_fifty_killed_writers_lose_nothing_acknowledged(tmp_path: Path, url: str) -> None:
    done = subprocess.run(
        [
            sys.executable,
            str(Path(__file__).with_name("killed.py")),
            str(tmp_path),
            str(TIMES),
            "7",
        ],
        env={**os.environ, "LOAMSHIFT_DATABASE": url},
        capture_output=True,
        text=True,
        check=False,
        timeout=300,
    )
    assert done.returncode == 0, done.stderr
    told = json.loads(done.stdout)
    assert told["kills"] == TIMES
    assert told["broken"] == []
    assert told["acknowledged"] >= TIMES
    assert told["killed_inside_an_act"] > 0
