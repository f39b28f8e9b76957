"""The two invented beds that a new store starts with: one to acidify, one to lime."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

_SAMPLED_DAYS_AGO: Final = 35
_EARLIER_DAYS_AGO: Final = 770


@dataclass(frozen=True, slots=True)
class Sample:
    """A bed as a case file, by its name; ``earlier_ph`` what its soil read two years before."""

    name: str
    case_text: str
    earlier_ph: float

    def as_of(self, today: date) -> str:
        """The case file with its samples dated back from a day, as TOML."""
        sampled = today - timedelta(days=_SAMPLED_DAYS_AGO)
        earlier = today - timedelta(days=_EARLIER_DAYS_AGO)
        dated = self.case_text.replace("\n\n[aim]", f"\nsampled = {sampled}\n\n[aim]", 1)
        return (
            f"{dated}\n[[reading]]\ndate = {earlier}\nph = {self.earlier_ph}\n"
            'ph_method = "water 1:1"\n'
        )


SAMPLES = (
    Sample(
        "Berry border",
        """case = 1
name = "Berry border"

[place]
name = "Minneapolis"

[bed]
kind = "ground"
area = "18 m2"
depth = "15 cm"
planted = false
drainage = "free"

[soil]
ph = 6.8
ph_method = "water 1:1"
texture = "loam"
organic_matter_pct = 3
fizz = "none"
fizz_acid = "HCl"

[aim]
plant = "highbush blueberry"

[water]
alkalinity = "160 mg/L CaCO3"
weekly = "25 mm"

[[claim]]
material = "coffee grounds"
rate = "1 kg/m2"
""",
        earlier_ph=6.9,
    ),
    Sample(
        "Kitchen plot",
        """case = 1
name = "Kitchen plot"

[place]
name = "Minneapolis"

[bed]
kind = "ground"
area = "30 m2"
depth = "20 cm"
planted = false

[soil]
ph = 5.6
ph_method = "water 1:1"
texture = "sandy loam"
organic_matter_pct = 2.5

[aim]
plant = "cabbage"

[feed]
n_g_m2_year = 12
form = "urea"
""",
        earlier_ph=5.8,
    ),
)
