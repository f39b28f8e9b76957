"""A new trial file, written with what was given and a word about each key."""

from __future__ import annotations

import datetime
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from loamshift.case.toml_string import toml_string
from loamshift.case.write import case_toml
from loamshift.domain.message import message
from loamshift.domain.trial import Design


@dataclass(frozen=True, slots=True, kw_only=True)
class TreatmentText:
    """A treatment as typed: name, material and rate; no material for an untreated one."""

    name: str
    material: str = ""
    rate: str = ""


def trial_toml(
    *,
    name: str,
    question: str,
    start: datetime.date,
    design: Design,
    replicates: int,
    seed: int,
    blind: bool,
    case_file: str,
    soil: Mapping[str, object],
    treatments: Sequence[TreatmentText],
    days: Sequence[int],
) -> str:
    """The text of a trial file.

    Parameters
    ----------
    replicates, seed
        Pots of each treatment, and what the layout is shuffled by [count, number].
    case_file
        The case file that the soil is in; empty where it is told here.
    soil
        Keys of a case file with their values [dotted].
    days
        Days on which everything is read [d].
    """
    lines = [
        f"# {_said('head')}",
        "trial = 1",
        f"name = {toml_string(name)}",
        f"question = {toml_string(question)}",
        f"start = {start.isoformat()}",
        f"design = {toml_string(design.value)}  # {_said('design')}",
        f"replicates = {replicates}",
        f"seed = {seed}  # {_said('seed')}",
        f"days = {list(days)}  # {_said('days')}",
        f"# matters = 0.2  # {_said('matters')}",
        f"# slurry = [[7.1, 7.2, 7.1, 7.1]]  # {_said('slurry')}",
    ]
    if blind:
        lines.append("blind = true")
    if case_file:
        lines.append(f"case_file = {toml_string(case_file)}")
    text = "\n".join(lines) + "\n"
    if soil:
        told = case_toml(dict(soil), examples=False)
        text += "\n" + told[told.index("\n# ", told.index("case = ")) :].strip() + "\n"
    for one in treatments:
        text += f"\n[[treatment]]\nname = {toml_string(one.name)}\n"
        if one.material:
            text += f"material = {toml_string(one.material)}\nrate = {toml_string(one.rate)}\n"
    return text


def _said(key: str) -> str:
    from loamshift.report.messages import say
    from loamshift.report.words import Words

    return say(message("trial-file", key=key), Words())
