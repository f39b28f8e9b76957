"""The rules of axe-core, which are fetched for the tests and never shipped.

``LOAMSHIFT_AXE`` names the file.
"""

from __future__ import annotations

import os
from pathlib import Path
from typing import Any, Final

import pytest

AXE: Final = os.environ.get("LOAMSHIFT_AXE", "")
HAS_AXE: Final = Path(AXE).is_file()
needs_axe = pytest.mark.skipif(
    not HAS_AXE, reason="LOAMSHIFT_AXE names no file of axe-core; tools/check fetches it with npm"
)
COLOURS: Final = ("color-contrast", "link-in-text-block")
EVERY_RULE: Final[dict[str, Any]] = {}
LAYOUT: Final[dict[str, Any]] = {"rules": {rule: {"enabled": False} for rule in COLOURS}}
ONLY_COLOURS: Final[dict[str, Any]] = {"runOnly": {"type": "rule", "values": list(COLOURS)}}
RULES: Final = """async (options) => {
  const found = await axe.run(document, options);
  return found.violations.map((one) => [one.id, one.help,
    one.nodes.slice(0, 3).map((node) => node.html.slice(0, 160) + ' | ' +
      node.failureSummary.split('\\n')[1])]);
}"""


def broken_rules(page: Any, options: dict[str, Any]) -> list[str]:
    """What the rules find on the page as it stands now, each with its first places."""
    return [
        f"{rule}: {said}: {place}"
        for rule, said, places in page.evaluate(RULES, options)
        for place in places
    ]
