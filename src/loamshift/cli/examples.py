"""``loamshift examples``: the example case files, listed or copied."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Final

import typer

from loamshift.cli.help_text import told
from loamshift.cli.options import path_given
from loamshift.domain.message import Given, Listed, Message, message
from loamshift.domain.worded_error import WordedError, given

FOLDER: Final = Path(__file__).resolve().parents[1] / "case" / "examples"
"""The folder of the repository by a link; a folder of files once the package is built."""


def command(
    copy: Annotated[
        Path | None,
        typer.Option(
            "--copy",
            metavar="FOLDER",
            help=told("cli-help-examples-copy"),
            show_default=False,
            parser=path_given,
        ),
    ] = None,
) -> None:
    """List them with one line each, or copy them.

    \b
    Examples:
      loamshift examples
      loamshift examples --copy beds
    """
    from loamshift.cli.show import say, tell, worded

    files = example_files()
    if copy is None:
        wide = max(len(file.stem) for file in files)
        lines = (f"{file.stem:<{wide}}  {worded(line_of(file))}" for file in files)
        say("\n".join(lines))
        return
    copy_all(files, copy)
    tell(message("cli-examples-copied", count=len(files), path=given(copy)))


def example_files() -> list[Path]:
    """The case files, by name."""
    return sorted(FOLDER.glob("*.toml"))


def line_of(file: Path) -> Message:
    """What an example shows, in one line."""
    return message(f"cli-example-{file.stem}")


def copy_all(files: list[Path], folder: Path) -> None:
    """Copy files to a folder; where one of their names is taken there, none is copied.

    Raises
    ------
    WordedError
        Where a name is taken, or the folder cannot be written into.
    """
    from loamshift.cli.files import make_folder, write_whole

    make_folder(folder)
    there = [file.name for file in files if (folder / file.name).exists()]
    if there:
        names = Listed(tuple(map(Given, there)))
        raise WordedError(
            message("cli-examples-exist", count=len(there), names=names, path=given(folder))
        )
    for file in files:
        write_whole(folder / file.name, file.read_bytes(), replace=False)
