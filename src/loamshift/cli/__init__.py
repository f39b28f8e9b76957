"""The command line: parse, call one service, print, leave an exit code."""

from __future__ import annotations


def main() -> None:
    """Run ``loamshift`` with the arguments of this process and end it with an exit code."""
    import gc
    import sys

    gc.disable()  # a command ends before there is much to collect; what runs on turns it on again

    from loamshift.cli.run import run

    code = run(sys.argv[1:])
    gc.freeze()  # the interpreter's last collection would look through all that was loaded
    sys.exit(code)
