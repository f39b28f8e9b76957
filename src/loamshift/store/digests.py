"""The list of digests in a backup: what every file held when it was written.

It has the form that ``sha256sum --check`` reads, so that a backup is tested without loamshift.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from hashlib import sha256
from typing import Final

DIGESTS: Final = "SHA256SUMS.txt"
_LINE: Final = re.compile(r"([0-9a-f]{64}) [ *](.+)")


def digest_of(data: bytes) -> str:
    """SHA-256 of a file [hex]."""
    return sha256(data).hexdigest()


def digests_text(digests: Mapping[str, str]) -> str:
    """A line for every file: its digest, two spaces, its name."""
    return "".join(f"{digest}  {name}\n" for name, digest in sorted(digests.items()))


def read_digests(data: bytes) -> dict[str, str]:
    """Digests by file.

    Raises
    ------
    ValueError
        Where a line has another form.
    """
    found: dict[str, str] = {}
    for line in data.decode("utf-8").splitlines():
        match = _LINE.fullmatch(line)
        if match is None:
            raise ValueError(line)
        found[match[2]] = match[1]
    return found
