"""Starting the workbench: on this machine alone, or for an office behind a proxy."""

from __future__ import annotations

import ipaddress
import os
import socket
from collections.abc import Callable
from pathlib import Path
from typing import Final

from loamshift.domain.message import message
from loamshift.domain.worded_error import WordedError, given
from loamshift.web import surroundings as around

LOOPBACK: Final = "127.0.0.1"
THREADS: Final = 24
"""As many as may wait for a forecast, and as many again for everything that is answered at once."""


def set_up(
    *,
    folder: Path | None,
    database: str = "",
    office: bool = False,
    hosts: str = "",
    behind_proxy: bool = False,
    hsts_days: int = 0,
) -> Path:
    """Tell Django where things are; call it once, before anything of Django is used."""
    chosen = folder or Path(os.environ.get(around.DATA) or around.default_folder())
    os.environ[around.DATA] = str(chosen.absolute())
    os.environ["DJANGO_SETTINGS_MODULE"] = "loamshift.web.settings"
    if database:
        os.environ[around.DATABASE] = database
    if office:
        os.environ[around.OFFICE] = "1"
        if hosts:
            os.environ[around.HOSTS] = hosts
        if behind_proxy:
            os.environ[around.PROXY] = "1"
        if hsts_days:
            os.environ[around.HSTS] = str(hsts_days)
    else:
        os.environ.pop(around.OFFICE, None)
    around.make_secret(chosen.absolute())
    import django

    django.setup()
    return chosen.absolute()


def free_port(port: int, *, host: str = LOOPBACK) -> int:
    """The port asked for, if nobody listens there; 0 finds one.

    Raises
    ------
    InputError
        Where the port is taken.
    """
    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    with socket.socket(family, socket.SOCK_STREAM) as probe:
        probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            probe.bind((host, port))
        except socket.gaierror as fault:
            raise WordedError(message("setup-host-unknown", host=given(host))) from fault
        except OSError as fault:
            raise WordedError(message("setup-port-taken", port=given(port))) from fault
        return int(probe.getsockname()[1])


def is_loopback(address: str) -> bool:
    """True for an address of this machine itself, which no other machine reaches."""
    try:
        return ipaddress.ip_address(address.split("%", 1)[0]).is_loopback
    except ValueError:
        return False


def serve(
    *,
    host: str,
    port: int,
    ready: Callable[[], None] | None = None,
    believe_proxy: bool = False,
) -> None:
    """Serve until stopped; what a proxy says of itself is dropped unless it is to be believed."""
    import waitress  # type: ignore[import-untyped]
    from waitress.channel import HTTPChannel  # type: ignore[import-untyped]

    from loamshift.web.forecasts import FORECASTS
    from loamshift.web.large_uploads import ReadsToTheEnd
    from loamshift.web.sizes import LARGEST_UPLOAD
    from loamshift.web.wsgi import application

    HTTPChannel.parser_class = ReadsToTheEnd
    server = waitress.create_server(
        application,
        host=host,
        port=port,
        threads=THREADS,
        ident=None,
        max_request_body_size=LARGEST_UPLOAD + 1,
        channel_request_lookahead=1,  # else nobody sees that a browser has gone
        clear_untrusted_proxy_headers=not believe_proxy,
    )
    FORECASTS.start()
    if ready is not None:
        ready()
    try:
        server.run()
    except KeyboardInterrupt:
        pass
    finally:
        FORECASTS.stop()
        server.close()
