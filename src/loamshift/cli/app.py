"""The command ``loamshift`` whole, for what lists its parts or calls several."""

from __future__ import annotations

from loamshift.cli.commands import command_line

app = command_line()
