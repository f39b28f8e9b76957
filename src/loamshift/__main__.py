"""``python -m loamshift``: the same as the command ``loamshift``."""

from __future__ import annotations

from loamshift.cli import main

if __name__ == "__main__":
    main()
