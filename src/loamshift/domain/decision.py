"""What is decided, why, and which way: the codes of an answer."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Decision(StrEnum):
    """What the adviser is told to do, the first that holds in this order of cases."""

    STOP = "stop"
    LEAVE = "leave"
    MEASURE_FIRST = "measure-first"
    ELSEWHERE = "elsewhere"
    EFFORT = "effort"
    GO = "go"


class Severity(StrEnum):
    """How grave a finding is."""

    INFO = "info"
    CAUTION = "caution"
    BLOCK = "block"


class Direction(StrEnum):
    """Which way the dose moves the pH."""

    ACIDIFY = "acidify"
    LIME = "lime"
    NONE = "none"


class Reason(StrEnum):
    """Why the decision is what it is: every sentence about it is made from this code."""

    NO_PH = "no-ph"
    NO_AIM = "no-aim"
    OVERDOSE = "overdose"
    """What lies there is more than the ground may carry, or brings the bed to harm."""
    TOO_ACID = "too-acid"
    SALT = "salt"
    SODIC = "sodic"
    WATERLOGGED = "waterlogged"
    NO_COMMON_RANGE = "no-common-range"
    IN_RANGE = "in-range"
    """Left alone, the bed stays in the range."""
    AT_WORK = "at-work"
    """What was put on earlier brings the bed into the range by itself."""
    SMALL_GAIN = "small-gain"
    """Nearer to the range than a second test could show."""
    UNKNOWN_LIME = "unknown-lime"
    DOUBTFUL_READING = "doubtful-reading"
    UNKNOWN_SODIUM = "unknown-sodium"
    """So high a pH comes from sodium more often than from lime, and nobody has tested it."""
    UNKNOWN_WATER = "unknown-water"
    UNKNOWN_TEXTURE = "unknown-texture"
    ONE_SOURCE_RANGE = "one-source-range"
    FREE_LIME = "free-lime"
    CAPS = "caps"
    """The printed limits of the seasons at hand do not reach so far."""
    WATER = "water"
    """The soil is not the question: the water brings back whatever is done to it."""
    FEED = "feed"
    """The soil is not the question: the acid of its fertiliser takes it out of the range."""
    UPKEEP = "upkeep"
    """In the range now, and pulled out of it unless something is given from time to time."""
    PARTS = "parts"
    """More parts than usual under the limit of one dose."""
    MONTHS = "months"
    """Longer than a year from the first part."""
    WITHIN_REACH = "within-reach"


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """A likely range: nine in ten lie between ``lo90`` and ``hi90``; ``mid`` is the median."""

    lo90: float
    mid: float
    hi90: float
