"""A section of a letter as plain text, for tests that look at its words."""

from __future__ import annotations

from loamshift.domain.letter import Block, Items, Note, Paragraph, Section, Table


def said(section: Section | None) -> str:
    """Heading and blocks of a section, a line each."""
    assert section is not None
    return "\n".join([section.heading or "", *(_text(block) for block in section.blocks)])


def titles(table: Table) -> tuple[str, ...]:
    """The titles of the columns of a table."""
    return tuple(column.title for column in table.columns)


def table(section: Section | None) -> Table:
    """The first table of a section."""
    assert section is not None
    return next(block for block in section.blocks if isinstance(block, Table))


def _text(block: Block) -> str:
    match block:
        case Paragraph(text):
            return text
        case Note(text, label):
            return f"{label}: {text}"
        case Items(items, _):
            return "\n".join(items)
        case Table():
            return "\n".join(" | ".join(row) for row in (titles(block), *block.rows))
        case _:
            return ""
