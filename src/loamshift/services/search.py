"""Finding things by part of a name, for lists a person picks from."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from loamshift.domain.names import match_name, plain_name


def search_keys(text: str, names: Mapping[str, Iterable[str]], *, kind: str) -> tuple[str, ...]:
    """Keys that a text may mean, the one it surely means alone.

    A key in full finds itself; any other text finds every key with a name that holds all its
    words.

    Parameters
    ----------
    text
        What the user wrote; empty for everything.

    Raises
    ------
    NameFault
        Where no name holds it; it lists the nearest.

    Examples
    --------
    >>> search_keys("oak", {"red oak": (), "pin oak": ("swamp oak",), "elm": ()}, kind="plant")
    ('pin oak', 'red oak')
    """
    wanted = plain_name(text)
    if not wanted:
        return tuple(sorted(names))
    itself = [key for key in names if plain_name(key) == wanted]
    if itself:
        return (itself[0],)
    held = sorted(key for key, others in names.items() if _holds(wanted, (key, *others)))
    return tuple(held) or (match_name(text, names, kind=kind),)


def _holds(wanted: str, spellings: Iterable[str]) -> bool:
    words = wanted.split()
    return any(all(word in plain_name(spelling) for word in words) for spelling in spellings)
