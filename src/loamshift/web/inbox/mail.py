"""A saved e-mail (.eml) as a question: who wrote it, and its text without what was attached."""

from __future__ import annotations

import re
from email import message_from_bytes
from email.message import EmailMessage
from email.policy import default
from email.utils import parseaddr
from html.parser import HTMLParser
from typing import Final

_HEAD: Final = re.compile(
    rb"\A(?:From |[A-Za-z][A-Za-z0-9-]{1,60}:[^\n]*\r?\n)(?:[^\n]+\r?\n)*?From:", re.IGNORECASE
)
_BREAKS: Final = frozenset({"br", "p", "div", "tr", "li", "h1", "h2", "h3", "blockquote"})
_UNSEEN: Final = frozenset({"style", "script", "head", "title"})


def is_mail(data: bytes) -> bool:
    """Whether a file begins as a saved e-mail does: lines of its head, with one who wrote it."""
    head = data[:20_000].lstrip(b"\xef\xbb\xbf")
    return head[:5].lower() == b"from:" or _HEAD.match(head) is not None


def question_of_mail(data: bytes) -> tuple[str, str]:
    """Sender and words of an e-mail; no words where it has no text."""
    mail = message_from_bytes(data, policy=default)
    assert isinstance(mail, EmailMessage)
    name, address = parseaddr(str(mail.get("From", "")))
    sender = f"{name} <{address}>" if name and address else name or address
    try:
        body = mail.get_body(preferencelist=("plain", "html"))
        text = "" if body is None else str(body.get_content())
        is_html = body is not None and body.get_content_subtype() == "html"
    except (LookupError, ValueError, KeyError):
        return sender, ""
    subject = " ".join(str(mail.get("Subject", "")).split())
    words = (_text_of(text) if is_html else text).strip()
    return sender, "\n\n".join(part for part in (subject, words) if part) if words else ""


def _text_of(markup: str) -> str:
    reader = _Text()
    reader.feed(markup)
    reader.close()
    lines = (" ".join(line.split()) for line in "".join(reader.parts).splitlines())
    return re.sub(r"\n{3,}", "\n\n", "\n".join(lines)).strip()


class _Text(HTMLParser):
    """The text that a reader of an e-mail sees."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.parts: list[str] = []
        self._unseen = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag in _UNSEEN:
            self._unseen += 1
        if tag in _BREAKS:
            self.parts.append("\n")

    def handle_endtag(self, tag: str) -> None:
        if tag in _UNSEEN:
            self._unseen = max(0, self._unseen - 1)
        if tag in _BREAKS:
            self.parts.append("\n")

    def handle_data(self, data: str) -> None:
        if not self._unseen:
            self.parts.append(" ".join(data.splitlines()) if data.strip() else " ")
