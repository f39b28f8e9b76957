"""Write ``docs/cli.md`` from the help texts: ``python -m loamshift.cli.page docs/cli.md``."""

from __future__ import annotations

import os
import sys
from pathlib import Path
from typing import Final

from loamshift.domain.message import message

_WIDTH: Final = "92"


def page() -> str:
    """The whole page [Markdown]: the program's help, then that of every command."""
    import typer

    from loamshift.cli.app import app
    from loamshift.report.messages import say
    from loamshift.report.words import Words

    head = say(message("reference-cli-head"), Words()) + "\n"

    before = {name: os.environ.get(name) for name in ("COLUMNS", "TERMINAL_WIDTH")}
    os.environ["COLUMNS"] = _WIDTH
    os.environ["TERMINAL_WIDTH"] = _WIDTH
    try:
        group = typer.main.get_command(app)
        parts = [head, _block("loamshift", _help(group, "loamshift", None))]
        context = _context(group, "loamshift", None)
        for name in group.list_commands(context):  # type: ignore[attr-defined]
            command = group.get_command(context, name)  # type: ignore[attr-defined]
            parts.append(_block(f"loamshift {name}", _help(command, name, context)))
            parts += _below(command, name, context)
    finally:
        for name, value in before.items():
            if value is None:
                os.environ.pop(name, None)
            else:
                os.environ[name] = value
    return "\n".join(parts)


def _below(group: object, name: str, parent: object) -> list[str]:
    """The commands of a group of commands."""
    if not hasattr(group, "list_commands"):
        return []
    context = _context(group, name, parent)
    found = []
    for below in group.list_commands(context):
        command = group.get_command(context, below)  # type: ignore[attr-defined]
        found.append(_block(f"loamshift {name} {below}", _help(command, below, context)))
    return found


def _context(command: object, name: str, parent: object) -> object:
    return command.make_context(  # type: ignore[attr-defined]
        name, [], parent=parent, resilient_parsing=True
    )


def _help(command: object, name: str, parent: object) -> str:
    context = _context(command, name, parent)
    context.max_content_width = int(_WIDTH)  # type: ignore[attr-defined]
    context.terminal_width = int(_WIDTH)  # type: ignore[attr-defined]
    text: str = command.get_help(context)  # type: ignore[attr-defined]
    return "\n".join(line.rstrip() for line in text.splitlines())


def _block(title: str, text: str) -> str:
    return f"## {title}\n\n```\n{text.strip()}\n```\n"


if __name__ == "__main__":
    Path(sys.argv[1]).write_text(page(), encoding="utf-8")
