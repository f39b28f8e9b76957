"""The example case files as they come with the program: listed, copied, never written over."""

from __future__ import annotations

from pathlib import Path

from loamshift.cli.examples import FOLDER, example_files

ROOT = Path(__file__).parents[2]


def test_the_packaged_examples_are_those_of_the_repository() -> None:
    assert FOLDER.resolve() == ROOT / "examples"
    assert [file.name for file in example_files()] == sorted(
        path.name for path in (ROOT / "examples").glob("*.toml")
    )


def test_each_is_listed_with_a_line(command) -> None:
    result = command("examples")
    assert result.code == 0 and result.err == ""
    lines = result.out.splitlines()
    assert [line.split()[0] for line in lines] == [file.stem for file in example_files()]
    assert all(line.endswith(".") and len(line) <= 88 for line in lines)


def test_they_are_copied_as_they_are_and_can_be_read(command, tmp_path: Path) -> None:
    folder = tmp_path / "new" / "beds"
    result = command("examples", "--copy", str(folder))
    assert result.code == 0 and result.out == ""
    assert result.err == f"{len(example_files())} examples were copied to {folder}.\n"
    for file in example_files():
        assert (folder / file.name).read_bytes() == file.read_bytes()
    assert command("check", str(folder / "bean-rows.toml")).code == 0


def test_nothing_is_written_over_and_nothing_else_is_copied(command, tmp_path: Path) -> None:
    mine = tmp_path / "front-lawn.toml"
    mine.write_text("mine", encoding="utf-8")
    result = command("examples", "--copy", str(tmp_path))
    assert result.code == 1
    assert result.err.startswith(f"front-lawn.toml is already in {tmp_path}. Nothing was copied.")
    assert [path.name for path in tmp_path.iterdir()] == [mine.name]
    assert mine.read_text(encoding="utf-8") == "mine"


def test_an_empty_name_is_no_folder(command, tmp_path: Path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    assert command("examples", "--copy", "").code == 2
    assert not list(tmp_path.iterdir())
