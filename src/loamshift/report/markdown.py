"""A letter as Markdown: one line per paragraph, tables with pipes, nothing exotic."""

from __future__ import annotations

import re

from loamshift.domain.letter import Align, Block, Figure, Items, Letter, Note, Paragraph, Table

_SPECIAL = re.compile(r"([\\`_\[\]<>#])")


def letter_markdown(letter: Letter) -> str:
    """A letter as CommonMark with pipe tables.

    Returns
    -------
    str
        The text, blocks set apart by one empty line, one newline at the end; no line ends in
        a space.
    """
    parts = ["\\\n".join(_line_start(_escaped(line)) for line in letter.letterhead)]
    parts.append(f"# {_escaped(letter.title)}")
    if letter.subtitle:
        parts.append(_escaped(letter.subtitle))
    for section in letter.sections:
        if section.heading:
            parts.append(f"## {_escaped(section.heading)}")
        parts.extend(_block(block) for block in section.blocks)
    text = "\n\n".join(part for part in parts if part)
    return "\n".join(line.rstrip() for line in text.splitlines()) + "\n"


def _block(block: Block) -> str:
    match block:
        case Paragraph(text):
            return _line_start(_escaped(text))
        case Items(items, numbered):
            return "\n".join(
                f"{f'{number}.' if numbered else '-'} {_escaped(item)}"
                for number, item in enumerate(items, start=1)
            )
        case Note(text, label):
            lead = f"**{_escaped(label)}:** " if label else ""
            return f"> {lead}{_escaped(text)}"
        case Table():
            return _table(block)
        case Figure():
            return ""  # prose and tables say it already


def _table(table: Table) -> str:
    rules = ["---:" if column.align is Align.RIGHT else "---" for column in table.columns]
    lines = [
        _row([column.title for column in table.columns]),
        f"| {' | '.join(rules)} |",
        *(_row(row) for row in table.rows),
    ]
    caption = f"**{_escaped(table.caption)}**\n\n" if table.caption else ""
    return caption + "\n".join(lines)


def _row(cells: list[str] | tuple[str, ...]) -> str:
    return "| " + " | ".join(_escaped(cell).replace("|", "\\|") for cell in cells) + " |"


def _escaped(text: str) -> str:
    """Text with Markdown's own marks made literal; ``**`` stays, a lone ``*`` does not."""
    flat = re.sub(r"\s*\n\s*", " ", text.strip())
    flat = _SPECIAL.sub(r"\\\1", flat)
    return re.sub(r"(?<!\*)\*(?!\*)", r"\\*", flat)


def _line_start(text: str) -> str:
    """Keep a paragraph that begins like a list or a number from becoming one."""
    if re.match(r"(?:[-+]|\d+[.)])\s", text):
        return re.sub(r"^([-+]|\d+(?=[.)]))", lambda m: _marked(m.group(1)), text, count=1)
    return text


def _marked(lead: str) -> str:
    return f"\\{lead}" if lead in "-+" else f"{lead}\\"
