"""The files that an office copies from the documentation: read by the programs they are for."""

from __future__ import annotations

import http.client
import os
import re
import shutil
import socket
import ssl
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from http.server import BaseHTTPRequestHandler, HTTPServer
from pathlib import Path

import pytest

from loamshift.web.sizes import LARGEST_UPLOAD

FOLDER = Path(__file__).parents[2] / "docs" / "how-to" / "office"
SEEN = ("Host", "X-Forwarded-Proto", "X-Forwarded-For")
LIED = {"X-Forwarded-For": "203.0.113.9", "X-Forwarded-Proto": "http"}


def text(name: str) -> str:
    return (FOLDER / name).read_text(encoding="utf-8")


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


class Told(BaseHTTPRequestHandler):
    """Answers with what a proxy passed on."""

    def do_POST(self) -> None:
        left = int(self.headers.get("Content-Length", 0))
        while left:
            left -= len(self.rfile.read(min(left, 1_000_000)))
        said = "\n".join(f"{name}: {self.headers.get(name)}" for name in SEEN).encode()
        self.send_response(200)
        self.send_header("Content-Length", str(len(said)))
        self.end_headers()
        self.wfile.write(said)

    do_GET = do_POST

    def log_message(self, *_: object) -> None:
        """Say nothing."""


@pytest.fixture(scope="module")
def behind() -> Iterator[int]:
    server = HTTPServer(("127.0.0.1", 0), Told)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    yield server.server_port
    server.shutdown()
    server.server_close()


def passed_on(port: int, *, size: int = 0, host: str = "soil.example") -> tuple[int, str]:
    """What comes through a proxy that listens by TLS, for a visitor who lies about himself."""
    context = ssl.create_default_context()
    context.check_hostname, context.verify_mode = False, ssl.CERT_NONE
    line = http.client.HTTPSConnection("127.0.0.1", port, context=context, timeout=30)
    line.sock = context.wrap_socket(
        socket.create_connection(("127.0.0.1", port), timeout=30), server_hostname=host
    )
    line.request("POST", "/", body=b"0" * size, headers={"Host": host, **LIED})
    answer = line.getresponse()
    told = answer.read().decode()
    line.close()
    return answer.status, told


def waited_for(port: int, proxy: subprocess.Popen[bytes]) -> None:
    for _ in range(150):
        if proxy.poll() is not None:
            break
        with socket.socket() as probe:
            if probe.connect_ex(("127.0.0.1", port)) == 0:
                return
        time.sleep(0.1)
    raise AssertionError(f"the proxy did not start: {proxy.poll()}")


@pytest.mark.skipif(not (shutil.which("nginx") and shutil.which("openssl")), reason="no nginx here")
def test_nginx_passes_on_the_name_and_who_it_was(tmp_path: Path, behind: int) -> None:
    port, pem, key = free_port(), tmp_path / "a.pem", tmp_path / "a.key"
    made = ["openssl", "req", "-x509", "-newkey", "rsa:2048", "-nodes", "-subj", "/CN=soil.example"]
    made += ["-days", "2", "-keyout", str(key), "-out", str(pem)]
    subprocess.run(made, check=True, capture_output=True)
    told = text("nginx.conf").replace("listen 80;", f"listen 127.0.0.1:{free_port()};")
    told = told.replace("listen 443 ssl;", f"listen 127.0.0.1:{port} ssl;")
    told = told.replace("127.0.0.1:8461", f"127.0.0.1:{behind}")
    told = re.sub(r"(ssl_certificate +)[^;]+", rf"\g<1>{pem}", told)
    told = re.sub(r"(ssl_certificate_key +)[^;]+", rf"\g<1>{key}", told)
    whole = tmp_path / "nginx.conf"
    places = "".join(
        f"{name}_temp_path {tmp_path}/{name};\n"
        for name in ("client_body", "proxy", "fastcgi", "uwsgi", "scgi")
    )
    whole.write_text(
        f"daemon off; master_process off; pid {tmp_path}/pid; error_log {tmp_path}/log;\n"
        f"events {{}}\nhttp {{\naccess_log off;\n{places}{told}}}\n",
        encoding="utf-8",
    )
    proxy = subprocess.Popen(["nginx", "-c", str(whole), "-p", str(tmp_path)])
    try:
        waited_for(port, proxy)
        checked(port)
    finally:
        proxy.terminate()
        proxy.wait(timeout=10)


@pytest.mark.skipif(not shutil.which("caddy"), reason="no Caddy here")
def test_caddy_passes_on_the_name_and_who_it_was(tmp_path: Path, behind: int) -> None:
    port = free_port()
    told = text("Caddyfile").replace("127.0.0.1:8461", f"127.0.0.1:{behind}")
    site = f"https://soil.example:{port} {{\n\ttls internal\n\tbind 127.0.0.1"
    told = told.replace("soil.example {", site, 1)
    whole = tmp_path / "Caddyfile"
    alone = "{\n\tadmin off\n\tauto_https disable_redirects\n\tskip_install_trust\n}\n"
    whole.write_text(alone + told, encoding="utf-8")
    around = {**os.environ, "XDG_DATA_HOME": str(tmp_path), "XDG_CONFIG_HOME": str(tmp_path)}
    proxy = subprocess.Popen(
        ["caddy", "run", "--config", str(whole), "--adapter", "caddyfile"],
        env=around,
        stderr=subprocess.DEVNULL,
    )
    try:
        waited_for(port, proxy)
        checked(port)
    finally:
        proxy.terminate()
        proxy.wait(timeout=10)


def checked(port: int) -> None:
    status, told = passed_on(port)
    assert status == 200
    assert re.search(r"^Host: soil\.example(:\d+)?$", told, re.MULTILINE)
    assert "X-Forwarded-Proto: https" in told
    assert "X-Forwarded-For: 127.0.0.1" in told and "203.0.113.9" not in told
    assert passed_on(port, size=LARGEST_UPLOAD)[0] == 200


@pytest.mark.skipif(not shutil.which("systemd-analyze"), reason="no systemd here")
def test_the_unit_is_read_and_leaves_little_open(tmp_path: Path) -> None:
    unit = tmp_path / "loamshift.service"
    here = text("loamshift.service").replace("/opt/loamshift/bin/loamshift", sys.executable)
    unit.write_text(here, encoding="utf-8")
    ran = subprocess.run(
        ["systemd-analyze", "verify", "--man=no", str(unit)],
        capture_output=True,
        text=True,
        check=False,
    )
    said = [line for line in ran.stderr.splitlines() if "loamshift.service" in line]
    assert not said
    ran = subprocess.run(
        ["systemd-analyze", "security", "--offline=true", "--threshold=30", str(unit)],
        capture_output=True,
        text=True,
        check=False,
    )
    assert ran.returncode == 0, ran.stdout.splitlines()[-1:] or ran.stderr


def test_the_container_serves_as_the_unit_does() -> None:
    """No container runs in these tests; what both files say is held together."""
    made, unit, compose = text("Containerfile"), text("loamshift.service"), text("compose.yaml")
    assert "USER 10001" in made and "/health" in made
    for one in ("LOAMSHIFT_DATA", "XDG_CACHE_HOME"):
        assert one in made and one in unit
    for one in ("--hosts", "--behind-proxy"):
        assert one in made and one in unit and one in compose
    assert "service_healthy" in compose and "no-new-privileges" in compose
    said = "\n".join(line for line in compose.splitlines() if not line.startswith("#"))
    assert not re.search(r"password\s*[:=]\s*\w", said, re.IGNORECASE)
