"""Names that can be no file: each is told as something to mend, with what to do."""

from __future__ import annotations

from pathlib import Path

import pytest

from loamshift.cli.run import run

CASE = Path(__file__).resolve().parents[2] / "examples" / "bean-rows.toml"


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("advise", "x" * 400), "cannot be read: File name too long"),
        (("advise", "loop.toml"), "Too many levels of symbolic links"),
        (("advise", "empty.toml"), "It is empty"),
        (("advise", "null.toml"), "binary, not text"),
        (("advise", "latin.toml"), "A character on line 1 is not UTF-8"),
        (("advise", "wide.toml"), "UTF-16"),
        (("advise", "long.toml"), "At most 1 MB is read"),
        (("advise", "folder"), "contains no case file"),
        (("card", "folder"), "Name the case file inside it"),
        (("reprint", "empty.toml"), "not valid JSON"),
        (("advise", str(CASE), "--years", "0", "--md", "none/a.md"), "There is no folder none."),
        (("advise", str(CASE), "--years", "0", "--md", "folder"), "folder is a folder"),
        (("new", "folder", "--ph", "7", "--target-ph", "6"), "folder is a folder"),
        (("claim", "gypsum", "lots", "--ph", "7", "--target-ph", "6"), "AMOUNT: “lots” must start"),
    ],
)
def test_it_says_what_is_wrong_and_is_exit_1(
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    arguments: tuple[str, ...],
    said: str,
) -> None:
    monkeypatch.chdir(tmp_path)
    Path("folder").mkdir()
    Path("loop.toml").symlink_to("loop.toml")
    Path("empty.toml").touch()
    Path("null.toml").write_bytes(b"case = 1\0\n")
    Path("latin.toml").write_bytes(b'name = "caf\xe9"\n')
    Path("wide.toml").write_bytes("case = 1".encode("utf-16"))
    Path("long.toml").write_text(f'name = "{"x" * 2_000_000}"\n', encoding="utf-8")
    assert run(list(arguments)) == 1
    err = capsys.readouterr().err
    assert said in err and "our fault" not in err and "Traceback" not in err
