"""Files are written whole or not at all, whenever the interrupt comes."""

from __future__ import annotations

from pathlib import Path

import pytest

from loamshift.cli import files


def test_an_interrupt_just_after_a_file_was_made_leaves_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def interrupted(name: str) -> Path:
        assert name.endswith(".part")
        raise KeyboardInterrupt

    monkeypatch.setattr(files, "Path", interrupted)
    with pytest.raises(KeyboardInterrupt):
        files.write_whole(tmp_path / "letter.md", "text", replace=False)
    assert list(tmp_path.iterdir()) == []
