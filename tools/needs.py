"""What the tests need besides Python: Debian's Chromium, a PostgreSQL server, the rules of axe.

Programs are looked for first. Where they are missing, this machine is Debian and we may install,
they are installed; anywhere else the tests that need them are skipped, and the reason is said.
The rules of axe-core come as one package of npm, held to a digest, into the user's cache.
"""

from __future__ import annotations

import base64
import contextlib
import hashlib
import os
import pwd
import shutil
import socket
import subprocess
import tarfile
import tempfile
from collections.abc import Iterator
from functools import cache
from pathlib import Path

WINDOWLESS = "chromium-headless-shell"
BROWSERS = (WINDOWLESS, "chromium", "chromium-browser", "google-chrome")
"""Best first. The windowless one is the same Chromium without the toolbars and menus that the
others draw for every page even where nobody looks: a page opens in a fifth of their time."""
AXE_VERSION = "4.14.1"
AXE_SHA512 = (
    "FHfa+lmNjQZfJz1q8wKqIDwC6DExcHt/pkjNQb09a3NPjCKg2rhu5qb2S4r76ASyFNNtuFooJpZe37OgudVGtQ=="
)
SERVER_HOMES = ("/usr/lib/postgresql", "/usr/local", "/opt/homebrew")


def browser() -> tuple[str | None, str]:
    """Path of a Chromium, and what to say about it."""
    if not (_which((WINDOWLESS,)) or _install(WINDOWLESS) or chromium()):
        _install("chromium")
    found = chromium()
    if found is None:
        return None, "no Chromium here and none could be installed: browser tests are skipped"
    return found, found


def chromium() -> str | None:
    """Path of the Chromium that is here, if any; nothing is installed."""
    return _which(BROWSERS)


def axe() -> tuple[str | None, str]:
    """Path of the rules of axe-core, and what to say about it.

    Kept in the user's cache, so that later runs need no network; what npm brings is used only
    where its digest is the one written here.
    """
    cache = Path(os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache")
    folder = cache / "loamshift-tests"
    package = folder / f"axe-core-{AXE_VERSION}.tgz"
    rules = folder / f"axe-core-{AXE_VERSION}.js"
    if not package.exists():
        npm = shutil.which("npm") or (shutil.which("npm") if _install("npm") else None)
        if npm is None:
            return None, "no npm here and none could be installed: the rules of axe are not tried"
        folder.mkdir(parents=True, exist_ok=True)
        done = subprocess.run(
            [npm, "pack", "--silent", f"axe-core@{AXE_VERSION}"],
            cwd=folder, stdin=subprocess.DEVNULL, capture_output=True, text=True, check=False,
        )  # fmt: skip
        if done.returncode or not package.exists():
            return None, f"npm could not bring axe-core: {_last(done.stderr)}"
    digest = base64.b64encode(hashlib.sha512(package.read_bytes()).digest()).decode()
    if digest != AXE_SHA512:
        package.unlink()
        return None, "what npm brought as axe-core is not what was expected; it was thrown away"
    with tarfile.open(package) as archive:
        inside = archive.extractfile("package/axe.min.js")
        assert inside is not None
        rules.write_bytes(inside.read())
    return str(rules), f"axe-core {AXE_VERSION}"


def server() -> tuple[str | None, str]:
    """Folder of PostgreSQL's own tools, and what to say about it."""
    tools = _server_tools()
    if tools is None and _install("postgresql"):
        tools = _server_tools()
    if tools is None:
        return None, "no PostgreSQL here and none could be installed: its tests are skipped"
    return str(tools), str(tools)


@contextlib.contextmanager
def postgresql() -> Iterator[tuple[str | None, str]]:
    """A PostgreSQL server for these tests alone: its URL, and what to say about it.

    It runs as an ordinary user, because PostgreSQL refuses root; it listens on loopback on a free
    port, keeps its files in a temporary folder, and goes when the tests are done.
    """
    found, note = server()
    if found is None:
        yield None, note
        return
    tools = Path(found)
    user = _ordinary_user()
    with tempfile.TemporaryDirectory(prefix="loamshift-pg-") as name:
        folder = Path(name)
        data = folder / "data"
        if user is not None:
            os.chown(folder, pwd.getpwnam(user).pw_uid, pwd.getpwnam(user).pw_gid)
        port = _free_port()
        done = _as(user, [str(tools / "initdb"), "-D", str(data), "-U", "loamshift", "-A", "trust",
                          "-E", "UTF8", "--locale=C", "--no-sync"])  # fmt: skip
        if done.returncode:
            yield None, f"PostgreSQL could not make its files: {_last(done.stderr)}"
            return
        options = f"-p {port} -c listen_addresses=127.0.0.1 -k {folder} -c fsync=off"
        control = [str(tools / "pg_ctl"), "-D", str(data), "-w", "-t", "60"]
        started = _as(user, [*control, "-l", str(folder / "log.txt"), "-o", options, "start"])
        if started.returncode:
            yield None, f"PostgreSQL did not start: {_last(started.stderr or started.stdout)}"
            return
        try:
            yield f"postgresql://loamshift@127.0.0.1:{port}/postgres", f"port {port}"
        finally:
            _as(user, [*control, "-m", "immediate", "stop"])


def _server_tools() -> Path | None:
    found = shutil.which("pg_ctl")
    if found:
        return Path(found).parent
    for home in SERVER_HOMES:
        for path in sorted(Path(home).glob("*/bin/pg_ctl"), reverse=True):
            return path.parent
    return None


def _which(names: tuple[str, ...]) -> str | None:
    return next((path for name in names if (path := shutil.which(name))), None)


def _ordinary_user() -> str | None:
    """Who the server runs as: us, unless we are root."""
    if os.geteuid() != 0:
        return None
    for name in ("postgres", "nobody"):
        with contextlib.suppress(KeyError):
            return pwd.getpwnam(name).pw_name
    return None


def _as(user: str | None, command: list[str]) -> subprocess.CompletedProcess[str]:
    lead = [] if user is None else ["runuser", "-u", user, "--"]
    return subprocess.run(
        [*lead, *command],
        cwd="/",
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
        env={"PATH": os.environ.get("PATH", ""), "LC_ALL": "C"},
        check=False,
    )


def _install(package: str) -> bool:
    """Install a Debian package, where we are root on a Debian that has its tools."""
    apt = shutil.which("apt-get")
    if apt is None or os.geteuid() != 0:
        return False
    _read_lists(apt)
    return _run_apt(apt, "install", "-y", "-qq", package)


@cache
def _read_lists(apt: str) -> None:
    """Once in a run, whatever is missing."""
    _run_apt(apt, "update", "-qq")


def _run_apt(*command: str) -> bool:
    quiet = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    apt, *words = command
    patience = ("-o", "Acquire::Retries=1", "-o", "Acquire::http::Timeout=15")
    done = subprocess.run(
        [apt, *patience, *words],
        env=quiet, stdin=subprocess.DEVNULL, capture_output=True, check=False,
    )  # fmt: skip
    return done.returncode == 0


def _free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


def _last(text: str) -> str:
    lines = [line for line in text.splitlines() if line.strip()]
    return lines[-1] if lines else "it said nothing"
