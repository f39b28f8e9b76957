"""What a check against the world outside looks like; tests hold it and docs/trust.md prints it."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Check:
    """One figure of ours against a limit that stands in the project's promises.

    ``source`` names the published work, or says "common practice, no source"; ``n`` counts the
    cases behind ``figure``; ``passed`` is the test; ``note`` says what to keep in mind.
    """

    topic: str
    claim: str
    source: str
    n: int
    figure: str
    limit: str
    passed: bool
    note: str = ""
