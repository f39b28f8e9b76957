"""Reading a question in a person's own words: pH, plant, place, area, water, soil, and danger.

Modest on purpose: what is not said plainly is left for the reply to ask. Nothing read here is
used before a person has seen it beside the words it was read from.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from functools import cache
from typing import Final

from loamshift.case.quantities import read_area_m2
from loamshift.domain.names import plain_name
from loamshift.domain.question import Danger, QuestionRead, Understood
from loamshift.errors import LoamshiftError
from loamshift.tables.places import find_place
from loamshift.tables.plants import plant_spellings
from loamshift.tables.soils import load_textures

MOST_PLANTS: Final = 3
LONGEST: Final = 20_000
"""A question longer than this is read no further [signs]."""
_NUMBER: Final = r"\d{1,4}(?:[.,]\d{1,3})?"
_PH: Final = re.compile(
    rf"\bp\.?h(?![a-z]|[- ]?(?:meter|probe|test|kit|strip))[^\d\n.?!]{{0,30}}?(?P<a>{_NUMBER})"
    rf"|(?P<b>{_NUMBER})\s*\(?p\.?h\b",
    re.IGNORECASE,
)
_A_RANGE: Final = re.compile(r"\s*(?:-|–|to|and|or)\s*\d", re.IGNORECASE)
_NOT_THE_SOIL: Final = re.compile(
    r"\b(?:target|ideal|want\w*|need\w*|like\w*|prefer\w*|aim\w*|should|supposed|recommend\w*|"
    r"down to|up to|water|rain|tap|compost|bag)\b[^.?!\n]{0,30}$",
    re.IGNORECASE,
)
_LOWEST_PH, _HIGHEST_PH = 2.5, 11.0
_METHODS: Final[tuple[tuple[str, str], ...]] = (
    (r"\bcacl2?\b|calcium chloride", "CaCl2"),
    (r"\bkcl\b|potassium chloride", "KCl"),
    (r"\b1\s*:\s*5\b", "water 1:5"),
    (r"\b1\s*:\s*2\.5\b", "water 1:2.5"),
    (r"\b1\s*:\s*2\b(?!\.)", "water 1:2"),
    (r"\b1\s*:\s*1\b", "water 1:1"),
    (r"\b(?:stab |soil |ph )?(?:probe|meter|stick)\b", "probe"),
    (r"\b(?:test strips?|strips?|test kit|colour kit|color kit|litmus|dye kit)\b", "strip"),
)
_AREA: Final = re.compile(
    rf"{_NUMBER}\s*(?:m|ft|feet|yd|yards?|metres?|meters?)?\s*(?:x|×|by)\s*{_NUMBER}\s*"
    r"(?:m|metres?|meters?|ft|feet|yd|yards?)\b"
    rf"|{_NUMBER}\s*(?:m2|m²|sq\.? ?m\b|square met(?:re|er)s?|sq\.? ?ft\b|square f(?:ee|oo)t|ft2|"
    r"ft²|sq\.? ?yd\b|square yards?|hectares?|ha\b|acres?)",
    re.IGNORECASE,
)
_UNITS: Final[Mapping[str, str]] = {
    r"square met(?:re|er)s?|sq\.? ?m\b|m²": "m2",
    r"square f(?:ee|oo)t|sq\.? ?ft\b|ft²": "ft2",
    r"square yards?|sq\.? ?yd\b": "yd2",
    r"\b(?:by|×)\b|×": "x",
    r"hectares?": "ha",
    r"met(?:re|er)s?": "m",
    r"\b(?:feet|foot)\b": "ft",
    r"\byards?\b": "yd",
}
_ALKALINITY: Final = re.compile(
    rf"\balkalinity\b[^\d\n]{{0,25}}({_NUMBER})\s*(mg/l|ppm|mmol/l)?\s*(?:as\s+)?(caco3|hco3)?",
    re.IGNORECASE,
)
_PLACE: Final = re.compile(
    r"\b(?:near|in|at|from|outside|around|live in)\s+(?P<name>(?:[A-Z][\w'’.-]+)"
    r"(?:,?\s+(?:of|upon|on|in|the|[A-Z][\w'’.-]+)){0,3})"
)
_NO_PLACES: Final = re.compile(
    "january|february|march|april|may|june|july|august|september|october|november|december|"
    "(?:mon|tues|wednes|thurs|fri|satur|sun)day|spring|summer|autumn|winter|fall"
)
_NO_PLANTS: Final = re.compile(
    "|box(?:es)?|bays?|hops?|mums?|teas?|limes?|lings?|fruit|herbs?|shrub|vegs?|veggy|ash(?:es)?|"
    "elder|rapes?|prune|rice|rose|heath|aby|tare|bugle|cosmo|plum|lemon"
)
"""Names of plants that mean something else more often in a letter."""
_BEDS: Final = frozenset(("mixed border", "vegetables", "fruit", "herbs"))
"""Groups that only say which bed it is, where a plant is named beside them."""
_ALSO_PEOPLE: Final = re.compile(
    "iris|viola|basil|holly|hazel|olive|heather|erica|lily|daisy|violet|rosemary"
)
"""Names of plants that are people where they are written with a capital."""
_PRODUCT: Final = (
    r"lime|quicklime|acid|sul(?:f|ph)ur|alumini?um sul(?:f|ph)ate|iron sul(?:f|ph)ate|"
    r"ferrous sul(?:f|ph)ate|bleach|fertili[sz]er|powder|granules?|pellets?|dust"
)
_HURT: Final = (
    r"\b(?:ate|eaten|swallow\w*|drank|drunk|inhal\w+|breathed|lick\w*|in (?:his|her|my|the|their) "
    r"eyes?|splash\w*|burnt?|burning|blister\w*|vomit\w*|throw\w* up|unconscious|chok\w+|wheez\w+)"
    r"\b"
)
_WHOM: Final = (
    r"\b(?:i|me|my|he|she|his|her|son|daughter|child(?:ren)?|toddler|baby|boy|girl|husband|wife|"
    r"dog|puppy|cat|kitten|horse|hens?|chickens?|rabbits?|eyes?|skin|hands?|face|throat|lungs?)\b"
)
_CAUSTIC: Final = re.compile(
    r"\b(?:quick ?lime|burnt lime|hydrated lime|slaked lime|builders?['’]? lime|calcium hydroxide|"
    r"calcium oxide|battery acid|sul(?:f|ph)uric acid|hydrochloric|muriatic|nitric acid|"
    r"phosphoric acid|caustic soda|sodium hydroxide|bleach)\b",
    re.IGNORECASE,
)
_OVERDONE: Final = re.compile(
    rf"\b(?:too much|overdid|overdosed?|over-?appl\w+|spilt|spilled|a whole bag of|by mistake|"
    rf"ten times|double[d]? the)\b[^.?!\n]{{0,60}}\b(?:{_PRODUCT})\b"
    rf"|\b(?:{_PRODUCT})\b[^.?!\n]{{0,40}}\b(?:too much|overdone|by mistake|spilt|spilled)\b",
    re.IGNORECASE,
)
_NEAR: Final = re.compile(
    r"\b(?:child(?:ren)?|kids?|toddlers?|baby|grandchild(?:ren)?|grandson|granddaughter|pupils?|"
    r"dogs?|puppy|cats?|kittens?|rabbits?|chickens?|hens?|horses?|ponies|pony|guinea pigs?|"
    r"tortoises?|pets?)\b",
    re.IGNORECASE,
)


def read_question(words: str) -> QuestionRead:
    """What a question says plainly, each fact with the words it was read from.

    Parameters
    ----------
    words
        As a person wrote it, with or without the head of an e-mail.

    Examples
    --------
    >>> read = read_question("My soil near Leeds is pH 7,2 by probe; can I grow blueberries?")
    >>> [(fact.path, fact.value) for fact in read.facts][:2]
    [('soil.ph', '7.2'), ('soil.ph_method', 'probe')]
    """
    text = _without_head(words[:LONGEST])
    return QuestionRead(facts=tuple(_facts(text)), dangers=tuple(_dangers(text)))


def sender_of(words: str) -> str:
    """Who wrote an e-mail, by its ``From:`` line; empty where there is none."""
    found = re.search(r"^\s*From:\s*(.+)$", words[:LONGEST], re.MULTILINE | re.IGNORECASE)
    return "" if found is None else found[1].strip()[:160]


def _without_head(words: str) -> str:
    """A text without the lines that only say who wrote it, to whom and when."""
    head = re.compile(r"^\s*(?:from|to|cc|bcc|date|sent|reply-to):.*$", re.IGNORECASE)
    return "\n".join("" if head.match(line) else line for line in words.splitlines())


def _facts(text: str) -> Iterator[Understood]:
    found = _ph(text)
    if found is not None:
        yield found
        yield from _first(text, _METHODS, "soil.ph_method")
    yield from _textures(text)
    yield from _plants(text)
    yield from _place(text)
    yield from _area(text)
    yield from _alkalinity(text)


def _ph(text: str) -> Understood | None:
    """The first pH that is the soil's; one that is wished for, or of the water, is passed over."""
    for match in _PH.finditer(text):
        figure = (match["a"] or match["b"]).replace(",", ".")
        before = text[max(match.start() - 45, 0) : match.start()]
        if _A_RANGE.match(text, match.end()) or _NOT_THE_SOIL.search(before):
            continue
        if _LOWEST_PH <= float(figure) <= _HIGHEST_PH and "." + figure != figure:
            return Understood(path="soil.ph", value=figure, words=match[0])
    return None


def _first(text: str, patterns: Iterable[tuple[str, str]], path: str) -> Iterator[Understood]:
    for pattern, value in patterns:
        match = re.search(pattern, text, re.IGNORECASE)
        if match is not None:
            yield Understood(path=path, value=value, words=match[0])
            return


def _textures(text: str) -> Iterator[Understood]:
    match = _texture_words().search(text)
    if match is not None:
        yield Understood(path="soil.texture", value=match[1].casefold(), words=match[0])


@cache
def _texture_words() -> re.Pattern[str]:
    names = {name for one in load_textures().values() for name in (one.name, *one.synonyms)}
    either = "|".join(re.escape(name) for name in sorted(names, key=len, reverse=True))
    return re.compile(rf"\b({either})\b(?! (?:pot|pebble|shingle)s?\b)", re.IGNORECASE)


def _plants(text: str) -> Iterator[Understood]:
    seen: dict[str, Understood] = {}
    for match in _plant_words().finditer(text):
        said = match[0]
        plain = plain_name(said)
        key = _plant_keys().get(plain)
        if key is None or (_ALSO_PEOPLE.fullmatch(plain) and said[:1].isupper()):
            continue
        seen.setdefault(key, Understood(path="aim.plant", value=key, words=said))
    named = [one for one in seen.values() if one.value not in _BEDS]
    yield from (named or list(seen.values()))[:MOST_PLANTS]


@cache
def _plant_keys() -> Mapping[str, str]:
    """Plants by their plain spellings; a spelling of several plants is none of them."""
    named: dict[str, set[str]] = {}
    for key, spellings in plant_spellings().items():
        for spelling in spellings:
            named.setdefault(plain_name(spelling), set()).add(key)
    return {
        plain: next(iter(keys))
        for plain, keys in named.items()
        if len(keys) == 1 and not _NO_PLANTS.fullmatch(plain)
    }


@cache
def _plant_words() -> re.Pattern[str]:
    names = sorted(_plant_keys(), key=len, reverse=True)
    return re.compile(rf"\b(?:{'|'.join(map(re.escape, names))})\b", re.IGNORECASE)


def _place(text: str) -> Iterator[Understood]:
    """The first name after “near”, “in” and the like that is a place, the longest that is one."""
    for match in _PLACE.finditer(text):
        parts = match["name"].rstrip(".").split()
        for count in range(len(parts), 0, -1):
            name = " ".join(parts[:count]).rstrip(",.")
            if _NO_PLACES.fullmatch(name.casefold()):
                continue
            if _is_good(find_place, name):
                yield Understood(path="place.name", value=name, words=match[0])
                return


def _area(text: str) -> Iterator[Understood]:
    for match in _AREA.finditer(text):
        value = match[0].replace(",", ".")
        for pattern, unit in _UNITS.items():
            value = re.sub(pattern, unit, value, flags=re.IGNORECASE)
        if _is_good(read_area_m2, value):
            yield Understood(path="bed.area", value=value, words=match[0])
            return


def _alkalinity(text: str) -> Iterator[Understood]:
    match = _ALKALINITY.search(text)
    if match is not None:
        unit = (match[2] or "mg/L").replace("mg/l", "mg/L").replace("ppm", "mg/L")
        of = {"hco3": "HCO3"}.get((match[3] or "").casefold(), "CaCO3")
        value = f"{match[1].replace(',', '.')} {unit} {of}"
        yield Understood(path="water.alkalinity", value=value, words=match[0])


def _dangers(text: str) -> Iterator[Danger]:
    product = re.compile(rf"\b(?:{_PRODUCT})\b", re.IGNORECASE)
    for hurt in re.finditer(_HURT, text, re.IGNORECASE):
        around = text[max(hurt.start() - 120, 0) : hurt.end() + 120]
        near = text[max(hurt.start() - 50, 0) : hurt.end() + 50]
        if product.search(around) and re.search(_WHOM, near, re.IGNORECASE):
            yield Danger.HURT
            break
    if _CAUSTIC.search(text):
        yield Danger.CAUSTIC
    if _OVERDONE.search(text):
        yield Danger.STOP
    if _NEAR.search(text):
        yield Danger.NEAR


def _is_good(read: Callable[[str], object], value: str) -> bool:
    try:
        read(value)
    except (LoamshiftError, ValueError):
        return False
    return True
