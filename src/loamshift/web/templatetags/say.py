"""Messages in templates: ``{% say "beds-none" %}``, and sentences with fields or links in them.

A text among the values is a person's own and is escaped like any other; ``|choice`` makes one
choose between wordings instead.
"""

from __future__ import annotations

import re
import secrets
from typing import Any

from django import template
from django.template.base import FilterExpression, Node, NodeList, Parser, Token, token_kwargs
from django.utils.html import escape
from django.utils.safestring import SafeString, mark_safe

from loamshift.domain.message import Given, Measure, Quantity, Value, message
from loamshift.errors import Fault
from loamshift.report.messages import say as say_message
from loamshift.report.messages.refusal import fault_line as fault_with_place
from loamshift.report.messages.refusal import mend_text, problem_text
from loamshift.report.words import Words
from loamshift.web.problems import told
from loamshift.web.wording import Choice, isolated, value_of, words_for

register = template.Library()
_CLOSING = re.compile(r"[.,;:!?%)]+")


def words_in(context: Any) -> Words:
    """The words of the page that is being made."""
    words = context.get("words")
    if isinstance(words, Words):
        return words
    request = context.get("request")
    return Words() if request is None else words_for(request)


@register.simple_tag(takes_context=True)
def say(context: Any, key: str, **values: Any) -> str:
    """A message by its key with its values."""
    return word(context, key, values)


def word(context: Any, key: str, values: dict[str, Any]) -> str:
    """A message with values as a template has them, as text."""
    typed: dict[str, Value] = {name: value_of(value) for name, value in values.items()}
    return say_message(isolated(message(key, **typed)), words_in(context))


@register.simple_tag(takes_context=True)
def worded(context: Any, what: Any) -> str:
    """A message that a view has made; nothing for nothing."""
    return say_message(isolated(what), words_in(context)) if what else ""


@register.filter
def choice(value: object) -> Choice:
    """A value that chooses between wordings and is never printed."""
    return Choice(str(value).replace("_", "-"))


@register.filter
def or_none(value: object) -> object:
    """A text of a person, or nothing where it is empty."""
    return value or None


@register.filter
def ph(value: float) -> Measure:
    """A pH, said to one place."""
    return Measure(Quantity.PH, value)


@register.simple_tag(takes_context=True)
def plants(context: Any, names: str) -> str:
    """Plants as a list of beds holds them, by the names this reader has for them."""
    words = words_in(context)
    return ", ".join(words.plant(name) for name in names.split(", ") if name)


@register.simple_tag(takes_context=True)
def fault_line(context: Any, fault: Fault) -> str:
    """A fault with its place and what stood there."""
    return fault_with_place(fault, words_in(context))


@register.simple_tag(takes_context=True)
def faulty(context: Any, fault: Fault) -> str:
    """What is wrong and what works instead, in whole sentences."""
    return told(fault, words_in(context))


@register.simple_tag(takes_context=True)
def problem(context: Any, fault: Fault) -> str:
    """What is wrong, alone."""
    return problem_text(fault, words_in(context))


@register.simple_tag(takes_context=True)
def mend(context: Any, fault: Fault) -> str:
    """What works instead, alone."""
    return mend_text(fault, words_in(context))


class _Sentence(Node):
    """One message whose gaps hold HTML; another language may put them in another order."""

    child_nodelists = ("gaps_list",)

    def __init__(
        self,
        key: FilterExpression,
        values: dict[str, FilterExpression],
        gaps: dict[str, NodeList],
    ) -> None:
        self.key = key
        self.values = values
        self.gaps = gaps
        self.gaps_list = NodeList(node for nodes in gaps.values() for node in nodes)

    def render(self, context: Any) -> SafeString:
        """Word the message with a mark for each gap, escape it, and put the HTML in."""
        values = {name: value.resolve(context) for name, value in self.values.items()}
        mark = secrets.token_hex(8)
        marks = {name: f"\ue000{mark}{place}\ue001" for place, name in enumerate(self.gaps)}
        values |= {name: Given(sign) for name, sign in marks.items()}
        text = str(escape(word(context, self.key.resolve(context), values)))
        for name, sign in marks.items():
            text = _filled(text, sign, self.gaps[name].render(context).strip())
        return mark_safe(text)


def _filled(text: str, sign: str, html: str) -> str:
    """A text with HTML in the place of a sign; a field never parts from what closes after it."""
    before, _, after = text.partition(sign)
    closing = _CLOSING.match(after)
    if closing is None or not html.startswith(("<input", "<select")):
        return f"{before}{html}{after}"
    end = closing[0]
    return f'{before}<span class="together">{html}{end}</span>{after[len(end) :]}'


@register.tag
def sentence(parser: Parser, token: Token) -> _Sentence:
    """``{% sentence "key" a=b %}{% gap link %}<a …>{% endgap %}{% endsentence %}``."""
    bits = token.split_contents()[1:]
    if not bits:
        raise template.TemplateSyntaxError("sentence needs the key of a message")
    values = token_kwargs(bits[1:], parser)
    gaps: dict[str, NodeList] = {}
    while True:
        between = parser.parse(("gap", "endsentence"))
        if "".join(getattr(node, "s", "x") for node in between).strip():
            raise template.TemplateSyntaxError("a sentence holds gaps and nothing between them")
        inner = parser.next_token()
        if inner.contents == "endsentence":
            return _Sentence(parser.compile_filter(bits[0]), values, gaps)
        name = inner.split_contents()[1]
        gaps[name] = parser.parse(("endgap",))
        parser.delete_first_token()
