"""Finding one thing by any name the trade gives it."""

from __future__ import annotations

import difflib
import re
import unicodedata
from collections.abc import Iterable, Mapping
from functools import lru_cache

from loamshift.domain.message import Given, Listed, ProductName, Prose, choice, message
from loamshift.errors import InputError

_SPELLINGS = {
    "sulphate": "sulfate",
    "sulphur": "sulfur",
    "aluminum": "aluminium",
    "fertilizer": "fertiliser",
    "mold": "mould",
    "pelletized": "pelletised",
    "micronized": "micronised",
}
_UK = re.compile("|".join(_SPELLINGS))
_GAP = re.compile(r"[\s_-]+")
_COMMA = re.compile(r" *, *")


class NameFault(InputError):
    """A name is unknown, or fits several things; ``candidates`` are the nearest right names."""

    def __init__(self, text: str, kind: str, candidates: tuple[str, ...], *, ambiguous: bool):
        self.text = text
        self.kind = kind
        self.candidates = candidates
        self.ambiguous = ambiguous
        self.said = _said(text, choice(kind), candidates, ambiguous=ambiguous)
        """The same as messages, for a door to word."""
        listed = ", ".join(f"“{c}”" for c in candidates)
        if ambiguous:
            plain = f"“{text}” could be more than one {kind}; say which: {listed}"
        elif candidates:
            plain = f"no {kind} called “{text}”; nearest: {listed}"
        else:
            plain = f"no {kind} called “{text}”, and nothing like it"
        super().__init__(plain)


def _said(text: str, kind: str, candidates: tuple[str, ...], *, ambiguous: bool) -> Prose:
    key = "name-ambiguous" if ambiguous else "name-unknown"
    wrong = message(key, given=Given(text[:_SHOWN]), kind=kind)
    if not candidates:
        return Prose((wrong, message("name-place-otherwise")) if kind == "place" else (wrong,))
    names = Listed(
        tuple(
            message("name-quoted", name=ProductName(name) if kind == "material" else Given(name))
            for name in candidates
        ),
        either=True,
    )
    return Prose((wrong, message("name-did-you-mean", names=names)))


_SHOWN = 60
"""Characters of a name that are told again."""


@lru_cache(maxsize=16_384)
def plain_name(text: str) -> str:
    """Fold case, accents, spaces, hyphens and UK/US spelling so that names can be compared.

    Examples
    --------
    >>> plain_name("Sulphate of  Ammonia")
    'sulfate of ammonia'
    """
    if not text.isascii():
        text = unicodedata.normalize("NFKD", text).encode("ascii", "ignore").decode()
    folded = _GAP.sub(" ", text.casefold())
    folded = _COMMA.sub(", ", folded).strip()
    return _UK.sub(lambda found: _SPELLINGS[found[0]], folded)


def match_name(text: str, names: Mapping[str, Iterable[str]], *, kind: str) -> str:
    """The key whose name or synonym is ``text``.

    ``names`` maps each key to every spelling that finds it (the key itself always does).
    An exact match wins; otherwise a text that begins or is contained as whole words in the
    names of just one key finds that key.

    Raises
    ------
    NameFault
        Where nothing, or more than one thing, is meant; it lists the candidates.
    """
    wanted = plain_name(text)
    spellings: dict[str, list[str]] = {}
    for key, others in names.items():
        for spelling in (key, *others):
            keys = spellings.setdefault(plain_name(spelling), [])
            if key not in keys:
                keys.append(key)
    exact = spellings.get(wanted, [])
    if len(exact) == 1:
        return exact[0]
    if len(exact) > 1:
        raise NameFault(text, kind, tuple(exact), ambiguous=True)
    words = re.compile(rf"\b{re.escape(wanted)}\b") if wanted else None
    held = sorted({k for s, keys in spellings.items() if words and words.search(s) for k in keys})
    if len(held) == 1:
        return held[0]
    if held:
        raise NameFault(text, kind, tuple(held[:8]), ambiguous=True)
    near = nearest_spellings(wanted, spellings, n=5, cutoff=0.6)
    candidates = tuple(dict.fromkeys(k for s in near for k in spellings[s]))
    raise NameFault(text, kind, candidates, ambiguous=False)


_TOO_SHORT = 3
"""Letters below which anything is like it."""
_IN_A_NAME = 0.97
"""What a like word inside a longer name counts beside a whole name that is as like."""


def nearest_spellings(wanted: str, spellings: Iterable[str], *, n: int, cutoff: float) -> list[str]:
    """Spellings that a misspelt name may have meant, the likest first.

    Letters are compared as written and as they sound; a word is looked for inside longer names
    as well.

    Of two as like, the one named first comes first.

    Parameters
    ----------
    cutoff
        The least likeness, 0 to 1 [1].

    Examples
    --------
    >>> nearest_spellings("sulfer", ["salt peter", "sulfur powder"], n=2, cutoff=0.6)
    ['sulfur powder']
    """
    if len(wanted) < _TOO_SHORT:
        return []
    likeness = _Likeness(wanted)
    scored = [(likeness.of(spelling, cutoff), spelling) for spelling in spellings]
    scored.sort(key=lambda pair: -pair[0])
    return [spelling for score, spelling in scored[:n] if score >= cutoff]


class _Likeness:
    """How like one misspelt name others are, as written and as they sound."""

    def __init__(self, wanted: str) -> None:
        self._words = len(wanted.split())
        self._written = difflib.SequenceMatcher(b=wanted)
        self._sounding = difflib.SequenceMatcher(b=_sound(wanted))

    def of(self, spelling: str, cutoff: float) -> float:
        """The likeness of a name or of the words in it, 0 where it is below the cut-off [1]."""
        words = spelling.split()
        parts = [
            " ".join(words[start : start + self._words])
            for start in range(len(words) - self._words + 1)
        ]
        inside = max((self._whole(part, cutoff) for part in parts), default=0.0)
        return max(self._whole(spelling, cutoff), _IN_A_NAME * inside)

    def _whole(self, spelling: str, cutoff: float) -> float:
        written = _ratio(self._written, spelling, cutoff)
        sounding = _ratio(self._sounding, _sound(spelling), cutoff)
        return (written + sounding) / 2.0


def _ratio(matcher: difflib.SequenceMatcher[str], text: str, cutoff: float) -> float:
    matcher.set_seq1(text)
    if matcher.real_quick_ratio() < cutoff or matcher.quick_ratio() < cutoff:
        return 0.0
    return matcher.ratio()


@lru_cache(maxsize=16_384)
def _sound(plain: str) -> str:
    """A plain name with letters that sound alike made one, and doubled letters single."""
    for letters, sound in _SOUNDS:
        plain = plain.replace(letters, sound)
    return re.sub(r"(.)\1", r"\1", plain)


_SOUNDS = (("ph", "f"), ("rh", "r"), ("ck", "k"), ("qu", "kw"), ("c", "k"), ("y", "i"), ("z", "s"))
