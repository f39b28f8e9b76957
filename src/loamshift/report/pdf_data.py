"""A letter as plain data for the print template, and its pictures as files."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, Final

from loamshift.domain.letter import (
    Align,
    Block,
    Figure,
    FigureKind,
    Items,
    Letter,
    Matter,
    Note,
    Paragraph,
    Section,
    Sheet,
    Table,
)
from loamshift.domain.message import Given, message
from loamshift.report.drawn import drawn
from loamshift.report.inline import (
    bare,
    figures,
    pieces,
    without_citation,
    without_link,
    without_repeats,
)
from loamshift.report.messages import say
from loamshift.report.typeface import runs_from_the_right, settable, unsettable
from loamshift.report.words import Words

MARGIN_MM: Final = 50.0
"""Width of the margin beside the column."""
HALF_MM: Final = 85.0
"""Width of one of two columns, where there is no margin."""
COLUMN_MM: Final = 121.0
COURSE_MM: Final = 102.0
"""The course is as high as it is wide; more than this and it fills the sheet."""
DECIDES_MM: Final = 160.0
"""Room for the brackets beside the course."""
_PX_PER_MM: Final = 96.0 / 25.4
"""Pictures are printed as large as they are drawn: their smallest letters have 9 points."""
_HALF: Final = (FigureKind.LEDGER, FigureKind.CLAIMS, FigureKind.OPTIONS)
_IN_THE_TABLE: Final = (FigureKind.OPTIONS,)
"""Pictures of what the table under them says whole: not printed."""
WORKSHEET: Final = "worksheet"
"""What a sheet for a class is about; the sheets behind it hold its answers."""
_TOLD: Final = (FigureKind.YEAR, FigureKind.HISTORY)
"""Pictures whose sentence says what no other does; that of the others is for those who listen."""
_WIDE_COLUMNS: Final = 6
"""A table of so many columns needs the whole column of print."""
SOURCE_COLUMNS: Final = 2
_SHORT: Final = 18
"""A table column no longer than this is as wide as its words; longer ones share the rest."""


def letter_data(letter: Letter, *, words: Words) -> dict[str, Any]:
    """What the template sets, without size and paper.

    Returns
    -------
    dict
        Texts as runs of words and boldness, sections by the sheets they stand on.
    """
    sources = next((s for s in letter.sections if s.matter is Matter.SOURCES), None)
    colophon = [b for s in letter.sections if s.matter is Matter.COLOPHON for b in s.blocks]
    names = iter(range(1, len(figures(letter)) + 1))
    placed: dict[str, list[dict[str, Any]]] = {"front": [], "working": []}
    for section in letter.sections:
        if section.matter in (Matter.SOURCES, Matter.COLOPHON):
            continue
        place = "front" if section.sheet is Sheet.FRONT else "working"
        placed[place].append(_section(section, without_repeats(section), names))
    day = letter.day
    return {
        "title": _name(bare(letter.title)),
        "subtitle": _runs(letter.subtitle),
        "letterhead": [_name(line) for line in letter.letterhead],
        "day": None if day is None else {"year": day.year, "month": day.month, "day": day.day},
        "of": say(message("paper-of"), words),
        "next": say(message(_next(letter)), words),
        "margin": MARGIN_MM,
        **placed,
        "sources": None if sources is None else _sources(sources),
        "source_columns": SOURCE_COLUMNS,
        "colophon": [run for b in colophon if isinstance(b, Paragraph) for run in _runs(b.text)]
        or None,
        "unset": _unset(letter, words),
    }


def _next(letter: Letter) -> str:
    """What the foot of the first sheet says of those behind it."""
    is_worksheet = any(section.topic == WORKSHEET for section in letter.front)
    return "lesson-paper-next" if is_worksheet else "paper-next"


def _name(text: str) -> dict[str, Any]:
    """A name that somebody gave, and whether it is written from the right."""
    return {"text": settable(text), "rtl": runs_from_the_right(text)}


def _unset(letter: Letter, words: Words) -> str | None:
    """Which characters of the names our type could not set; None where it could set all."""
    missing = unsettable("".join((letter.title, letter.subtitle, *letter.letterhead)))
    if not missing:
        return None
    codes = Given(" ".join(f"U+{ord(one):04X}" for one in missing))
    return say(message("paper-not-set", codes=codes, n=len(missing)), words)


def pictures(letter: Letter) -> dict[str, bytes]:
    """The drawings of a letter by the name the template asks for."""
    drawings = figures(letter)
    if not drawings:
        return {}
    from loamshift.report.chart_tones import Tone

    made = {}
    for number, figure in enumerate(drawings, start=1):
        if figure.kind in _IN_THE_TABLE:
            continue
        width = round(_width_mm(figure) * _PX_PER_MM)
        svg = drawn(figure, tone=Tone.PRINT, width_px=width)
        made[_picture(number)] = settable(svg, pictures=False).encode("utf-8")
    return made


def _width_mm(figure: Figure) -> float:
    if figure.kind is FigureKind.COURSE:
        return COURSE_MM
    if figure.kind is FigureKind.DECIDES:
        return DECIDES_MM
    return HALF_MM if figure.kind in _HALF else COLUMN_MM


def _picture(number: int) -> str:
    return f"picture-{number}.svg"


def _section(section: Section, blocks: tuple[Block, ...], names: Iterator[int]) -> dict[str, Any]:
    return {
        "heading": None if section.heading is None else settable(bare(section.heading)),
        "matter": section.matter.value,
        "wide": _is_of_notes(blocks) or any(_is_wide(block) for block in blocks),
        "blocks": [made for block in blocks for made in _block(block, names)],
    }


def _is_of_notes(blocks: tuple[Block, ...]) -> bool:
    """True where the margin would hold more than what it stands beside."""
    notes = sum(isinstance(block, Note) for block in blocks)
    return notes > 1 and notes >= len(blocks) - 1


def _is_wide(block: Block) -> bool:
    """True for a table that needs the margin's room too."""
    return isinstance(block, Table) and len(block.columns) >= _WIDE_COLUMNS


def _block(block: Block, names: Iterator[int]) -> list[dict[str, Any]]:
    match block:
        case Paragraph(text):
            return [{"kind": "paragraph", **_said(text)}]
        case Items(items, numbered):
            return [{"kind": "items", "numbered": numbered, "items": [_said(i) for i in items]}]
        case Note(text, label):
            return [{"kind": "note", "label": settable(label), **_said(text)}]
        case Table():
            return [_table(block)]
        case Figure(title=title, sentence=sentence):
            picture = _picture(next(names))
            if block.kind in _IN_THE_TABLE:
                return []
            shown = {"title": settable(bare(title)), "alt": settable(bare(sentence))}
            drawn = {
                "picture": picture,
                "width": _width_mm(block),
                "told": block.kind in _TOLD,
            }
            return [{"kind": "figure", **drawn, **shown, **_said(sentence)}]


def _table(table: Table) -> dict[str, Any]:
    widest = [
        max((len(bare(row[i])) for row in table.rows), default=0) for i in range(len(table.columns))
    ]
    shares = [0.0 if width <= _SHORT else width**0.6 for width in widest]
    if not any(shares):
        shares[0] = 1.0
    return {
        "kind": "table",
        "columns": [
            {"title": _runs(column.title), "right": column.align is Align.RIGHT, "share": share}
            for column, share in zip(table.columns, shares, strict=True)
        ],
        "rows": [[_runs(cell) for cell in row] for row in table.rows],
        "caption": _runs(table.caption) if table.caption else None,
    }


def _sources(section: Section) -> dict[str, Any]:
    items = [item for block in section.blocks if isinstance(block, Items) for item in block.items]
    lines = []
    for item in items:
        said, url = without_link(item)
        shown = None if url is None else _address(settable(url), said)
        lines.append({"runs": _runs(said), "url": url, "shown": shown})
    return {"heading": settable(bare(section.heading or "")), "items": lines}


def _address(url: str, said: str) -> str:
    """An address as it is printed: it may be broken at a stroke; a DOI is not printed twice."""
    shown = url.split("://", 1)[1].rstrip("/")
    doi = shown.removeprefix("doi.org/")
    if doi != shown and doi in said:
        return ""
    return shown.replace("/", "/\u200b").replace("_", "_\u200b")


def _said(text: str) -> dict[str, Any]:
    said, number = without_citation(text)
    return {"runs": _runs(said), "cite": None if number is None else str(number)}


def _runs(text: str) -> list[tuple[str, bool]]:
    return [(piece.text, piece.bold) for piece in pieces(settable(text))]
