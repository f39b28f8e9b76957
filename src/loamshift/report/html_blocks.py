"""The blocks of a letter as HTML; every text is escaped on its way in."""

from __future__ import annotations

from html import escape
from typing import Final

from loamshift.domain.letter import (
    Align,
    Block,
    Figure,
    Items,
    Note,
    Paragraph,
    Table,
)
from loamshift.report.inline import bare, pieces, without_citation, without_link

WIDE_COLUMNS: Final = 5
"""From so many columns on a table is turned into short lists on a phone."""
_NARROW: Final = 34
"""So many characters stand beside one another on a phone, in the longest cells of a row."""

SHORT: Final = 17
"""A name of a row no longer than this, such as a date, stays on one line."""


def inline_html(text: str, *, sources: int = 0) -> str:
    """A text with its bold runs, and its citation as a link.

    Parameters
    ----------
    sources
        How many numbered sources can be linked to [count].
    """
    said, number = without_citation(text)
    if number is None or not 1 <= number <= sources:
        said, number = text, None
    runs = (
        f"<strong>{escape(piece.text)}</strong>" if piece.bold else escape(piece.text)
        for piece in pieces(said)
    )
    link = (
        ""
        if number is None
        else f'\u00a0<a class="cite" href="#source-{number}" aria-label="source {number}">'
        f"[{number}]</a>"
    )
    return "".join(runs) + link


def block_html(block: Block, *, sources: int) -> str:
    """A block other than a figure as HTML.

    Parameters
    ----------
    sources
        How many numbered sources can be linked to [count].
    """
    match block:
        case Paragraph(text):
            return f"<p>{inline_html(text, sources=sources)}</p>"
        case Items(items, numbered):
            tag = "ol" if numbered else "ul"
            inside = "\n".join(f"<li>{inline_html(item, sources=sources)}</li>" for item in items)
            return f"<{tag}>\n{inside}\n</{tag}>"
        case Note(text, label):
            lead = f"<b>{escape(label)}</b> " if label else ""
            return f'<p class="note">{lead}{inline_html(text, sources=sources)}</p>'
        case Table():
            return table_html(block)
        case Figure(sentence=sentence):
            return f"<p>{inline_html(sentence, sources=sources)}</p>"


def table_html(table: Table) -> str:
    """A table with its caption, the first cell of each row as the row's name."""
    titles = [column.title for column in table.columns]
    wide = ' class="wide"' if _is_wide(table) else ""
    caption = f"<caption>{inline_html(table.caption)}</caption>\n" if table.caption else ""
    head = ""
    if any(titles):
        cells = "".join(
            f'<th scope="col"{_leaning(column.align)}>{inline_html(column.title)}</th>'
            for column in table.columns
        )
        head = f"<thead><tr>{cells}</tr></thead>\n"
    body = "\n".join(_row(table, row, named=bool(wide)) for row in table.rows)
    return f"<table{wide}>\n{caption}{head}<tbody>\n{body}\n</tbody>\n</table>"


def _is_wide(table: Table) -> bool:
    """True where the rows of a table would be pressed on a phone."""
    many = len(table.columns)
    if many < WIDE_COLUMNS - 1:
        return False
    longest = [max((len(bare(row[i])) for row in table.rows), default=0) for i in range(many)]
    return many >= WIDE_COLUMNS or sum(longest) > _NARROW


def _row(table: Table, row: tuple[str, ...], *, named: bool) -> str:
    """A row; the cells of a wide table name their column, for where it stands on its side."""
    first, *rest = zip(table.columns, row, strict=True)
    short = ' class="short"' if len(first[1]) <= SHORT else _leaning(first[0].align)
    cells = [f'<th scope="row"{short}>{inline_html(first[1])}</th>']
    for column, cell in rest:
        title = f' data-title="{escape(bare(column.title))}"' if named and column.title else ""
        cells.append(f"<td{_leaning(column.align)}{title}>{inline_html(cell)}</td>")
    return f"<tr>{''.join(cells)}</tr>"


def _leaning(align: Align) -> str:
    return ' class="right"' if align is Align.RIGHT else ""


def sources_html(items: Items) -> str:
    """The numbered sources: each can be linked to, addresses are links."""
    lines = []
    for number, item in enumerate(items.items, start=1):
        said, url = without_link(item)
        link = ""
        if url is not None:
            shown = escape(url.split("://", 1)[1].rstrip("/"))
            link = f' <a href="{escape(url)}" rel="noreferrer">{shown}</a>'
        lines.append(f'<li id="source-{number}">{inline_html(said)}{link}</li>')
    return "<ol>\n" + "\n".join(lines) + "\n</ol>"
