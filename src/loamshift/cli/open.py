"""``loamshift open``: the workbench for one adviser, on this machine only."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from loamshift.cli.help_text import told


def command(
    port: Annotated[
        int, typer.Option("--port", min=0, max=65535, help=told("cli-help-office-port"))
    ] = 8460,
    browser: Annotated[
        bool, typer.Option("--browser/--no-browser", help=told("cli-help-open-browser"))
    ] = True,
    data: Annotated[
        Path | None,
        typer.Option(
            "--data", metavar="FOLDER", help=told("cli-help-open-data"), show_default=False
        ),
    ] = None,
) -> None:
    """Open the workbench in the browser: beds, letters, shelf and claims.

    It listens on this machine only and needs no network. Its data lies in one folder of yours;
    the first start makes it, with two invented beds to look around in.

    \b
    Example:
      loamshift open --data garden-data
    """
    import gc
    import webbrowser

    from loamshift.cli.kernel_beside import compile_beside
    from loamshift.cli.show import tell, warn
    from loamshift.domain.message import message
    from loamshift.domain.worded_error import given
    from loamshift.web.serve import LOOPBACK, free_port, serve, set_up

    gc.enable()
    folder = set_up(folder=data)
    from loamshift.web.compiled import COMPILED
    from loamshift.web.prepare import prepare

    chosen = free_port(port)
    COMPILED.ask(compile_beside())
    for line in prepare(folder, samples=True):
        warn(line)
    address = f"http://{LOOPBACK}:{chosen}/"

    def ready() -> None:
        tell(message("cli-open-ready", address=given(address), path=given(folder)))
        if browser:
            webbrowser.open(address)

    serve(host=LOOPBACK, port=chosen, ready=ready)
