"""The HTML of a letter without what every browser fills in by itself, for a page that is light.

Closing tags of cells, rows and list items may be left out by the HTML standard (13.1.2.4), and so
may the quotation marks of a value without spaces (13.1.2.3).
"""

from __future__ import annotations

import re
from typing import Final

_CLOSING: Final = re.compile(r"</(?:td|th|tr|thead|tbody|li)>\n?")
_TAG: Final = re.compile(r"<[a-z][^>]*>")
_QUOTED: Final = re.compile(r' (?!class|id|href)([a-z-]+)="([^\s"\'=<>`]+)"(?=[ >])')
"""Marks of classes, names and addresses stay: others look for them in the page."""


def compact(html: str) -> str:
    """HTML that a browser reads alike, in fewer bytes.

    >>> compact('<tr><td align="right" title="a b">1</td></tr>')
    '<tr><td align=right title="a b">1'
    """
    return _TAG.sub(lambda tag: _QUOTED.sub(r" \1=\2", tag[0]), _CLOSING.sub("", html))
