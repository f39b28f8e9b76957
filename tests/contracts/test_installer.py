"""The environment is made by uv from where pip looks, and by pip alone where uv fails."""

from __future__ import annotations

import subprocess
from pathlib import Path

import pytest

from installer import install, lines_of, options_of_pip

LOCK = """ruff==1 \\
    --hash=sha256:aa
    # via loamshift (pyproject.toml)
uv==0.9 \\
    --hash=sha256:bb \\
    --hash=sha256:cc
    # via loamshift (pyproject.toml)
waitress==3 \\
    --hash=sha256:dd
"""
TOLD = """:env:.find-links='/wheels'
global.cert='/etc/certs'
global.extra-index-url='file:///one\\nfile:///two'
global.find-links='/elsewhere'
install.no-compile='true'
"""


def made(tmp_path: Path, *, broken: str = "") -> tuple[int, list[list[str]]]:
    """How an installation of two lists ends, and the commands it ran; ``broken`` ones fail."""
    asked = []

    def run(
        command: list[str], environment: dict[str, str]
    ) -> tuple[subprocess.CompletedProcess[str], None]:
        asked.append(command[2:])
        code = int(bool(broken) and broken in command)
        return subprocess.CompletedProcess(command, code, TOLD if "config" in command else ""), None

    lock = tmp_path / "all.lock"
    lock.write_text(LOCK, encoding="utf-8")
    python = tmp_path / "bin" / "python"
    done = install(python, [["-r", "all"], ["-e", "."]], lock=lock, run=run, environment={})
    return done.returncode, asked


def test_uv_installs_from_where_pip_is_told_to_look(tmp_path: Path) -> None:
    code, asked = made(tmp_path)
    assert code == 0 and [command[0] for command in asked] == ["pip", "pip", "uv", "uv"]
    words = " ".join(asked[2])
    assert words.endswith("-r all")
    assert "--index file:///one --index file:///two --find-links /wheels" in words
    assert "--default-index" not in words and "/elsewhere" not in words
    assert (tmp_path / "uv.txt").read_text("utf-8") == lines_of("uv", LOCK)


@pytest.mark.parametrize(
    ("broken", "tools"),
    [
        ("uv", ["pip", "pip", "uv", "pip", "uv", "pip"]),
        ("config", ["pip", "pip", "pip"]),
        ("--require-hashes", ["pip", "pip", "pip", "pip"]),
    ],
)
def test_what_uv_cannot_do_pip_does(tmp_path: Path, broken: str, tools: list[str]) -> None:
    code, asked = made(tmp_path, broken=broken)
    assert code == 0 and [command[0] for command in asked] == tools
    assert [command[-2:] for command in asked if "--no-compile" in command] == [
        ["-r", "all"],
        ["-e", "."],
    ]


def test_what_nobody_can_install_is_told(tmp_path: Path) -> None:
    code, asked = made(tmp_path, broken="-r")
    assert code == 1 and asked[-1][-2:] == ["-r", "all"]


def test_the_lines_of_a_package_are_its_own() -> None:
    found = lines_of("uv", LOCK)
    assert found.startswith("uv==0.9") and "cc" in found
    assert "aa" not in found and "dd" not in found
    assert options_of_pip(TOLD)["find-links"] == "/wheels"
