"""``loamshift office``: the workbench for an office, behind a proxy that speaks TLS."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Annotated, Final, TypeAlias

import typer

from loamshift.cli.help_text import told
from loamshift.domain.message import message
from loamshift.domain.worded_error import WordedError, given

DataOption: TypeAlias = Annotated[
    Path | None,
    typer.Option(
        "--data",
        metavar="FOLDER",
        help=told("cli-help-office-data"),
        show_default=False,
    ),
]
DatabaseOption: TypeAlias = Annotated[
    str,
    typer.Option(
        "--database",
        metavar="URL",
        help=told("cli-help-office-database"),
        show_default=False,
    ),
]
_HOST: Final = re.compile(r"\.?[a-z0-9]([a-z0-9-]*[a-z0-9])?(\.[a-z0-9]([a-z0-9-]*[a-z0-9])?)*")
_OWN_NAMES: Final = ("localhost", "127.0.0.1")


def command(
    hosts: Annotated[
        str,
        typer.Option(
            "--hosts",
            metavar="NAME",
            help=told("cli-help-office-hosts"),
            show_default=False,
        ),
    ],
    port: Annotated[
        int, typer.Option("--port", min=0, max=65535, help=told("cli-help-office-port"))
    ] = 8461,
    host: Annotated[
        str,
        typer.Option(
            "--host",
            metavar="ADDRESS",
            help=told("cli-help-office-host"),
        ),
    ] = "127.0.0.1",
    data: DataOption = None,
    database: DatabaseOption = "",
    behind_proxy: Annotated[
        bool,
        typer.Option(
            "--behind-proxy",
            help=told("cli-help-office-behind-proxy"),
        ),
    ] = False,
    hsts: Annotated[
        int,
        typer.Option("--hsts", metavar="DAYS", min=0, max=9999, help=told("cli-help-office-hsts")),
    ] = 0,
) -> None:
    """Serve the workbench to an office: people sign in, and see what is their office's.

    It speaks plain HTTP to a proxy that speaks TLS to the world. Without a proxy it serves this
    machine alone, to try it out. `loamshift office-user add` makes the first person.

    \b
    Example:
      loamshift office --hosts soil.example --behind-proxy --data office-data
    """
    names = _names(hosts)
    if not behind_proxy:
        _only_to_try(names, host)
    import gc

    from loamshift.cli.kernel_beside import compile_beside
    from loamshift.cli.show import tell, warn
    from loamshift.web.serve import free_port, serve, set_up

    gc.enable()
    folder = set_up(
        folder=data,
        database=database,
        office=True,
        hosts=",".join(names),
        behind_proxy=behind_proxy,
        hsts_days=hsts,
    )
    from loamshift.store.models import User
    from loamshift.web.compiled import COMPILED
    from loamshift.web.prepare import prepare

    chosen = free_port(port, host=host)
    COMPILED.ask(compile_beside())
    for line in prepare(folder, samples=False, waits=tell):
        warn(line)
    if not User.objects.filter(is_active=True).exists():
        tell(message("cli-office-nobody"))

    def ready() -> None:
        tell(
            message("cli-office-ready", host=given(names[0]), address=given(host), port=int(chosen))
        )

    serve(host=host, port=chosen, ready=ready, believe_proxy=behind_proxy)


def _names(hosts: str) -> list[str]:
    names = [name.strip().casefold() for name in hosts.split(",") if name.strip()]
    for name in names:
        if not _HOST.fullmatch(name):
            raise WordedError(message("cli-office-bad-host", given=given(name)))
    if not names:
        raise WordedError(message("cli-office-no-host"))
    return names


def _only_to_try(names: list[str], host: str) -> None:
    """Without TLS in front, passwords may not leave this machine."""
    from loamshift.web.serve import is_loopback

    if not is_loopback(host) or any(name not in _OWN_NAMES for name in names):
        raise WordedError(message("cli-office-no-tls"))
