"""The inbox: questions waiting, each with what was understood and a reply that asks the rest."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date
from typing import Any, Final
from uuid import UUID

from django.db import transaction
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from loamshift.case.question_text import sender_of
from loamshift.domain.field_name import field_in_text
from loamshift.domain.message import Given, Listed, message
from loamshift.domain.worded_error import WordedError
from loamshift.errors import InputError
from loamshift.report.letter_fields import field_called
from loamshift.report.messages import say
from loamshift.report.reply import danger_said, reply_text
from loamshift.report.words import Words
from loamshift.store.changes import Writer
from loamshift.store.models import Bed, Question
from loamshift.store.scope import found, kept
from loamshift.web.acts import delete_kept, do_act, writer_of
from loamshift.web.beds.keeping import put_case
from loamshift.web.inbox.asked import Asked, asked, in_order
from loamshift.web.inbox.forms import QuestionForm, TableForm
from loamshift.web.inbox.rows import LARGEST_BYTES, question_rows
from loamshift.web.middleware import office_of
from loamshift.web.notices import notify_done
from loamshift.web.problems import whole_fault
from loamshift.web.wording import words_for

MOST_SHOWN: Final = 200
LONGEST: Final = 20_000
BEGINNING: Final = 160


@require_http_methods(["GET", "HEAD", "POST"])
def inbox(request: HttpRequest) -> HttpResponse:
    """Questions waiting, the most dangerous first; a POST adds one, or a table of them."""
    is_table = "table" in request.FILES
    one = QuestionForm(request, typed=request.method == "POST" and not is_table)
    many = TableForm(request, typed=is_table, at="table-%s")
    return _add(request, one, many) if request.method == "POST" else _list(request, one, many)


@require_safe
def question(request: HttpRequest, pk: UUID) -> HttpResponse:
    """One question: its words, what was understood, and the reply."""
    one = _question(request, pk)
    words = words_for(request)
    made = asked(one.words, today=_today())
    assert made.triage is not None
    facts = _facts(made, words)
    understood = [f"{label}: {value}" for label, value, _ in facts]
    context = {
        "question": one,
        "facts": facts,
        "dangers": [say(said, words) for said in danger_said(made.triage)],
        "missing": [
            (field_called(row.field, words), say(row.why, words)) for row in made.triage.missing
        ],
        "reply": reply_text(made.triage, understood, words=words),
        "waits": one.bed_id is None and not one.closed,
    }
    return render(request, "inbox/question.html", context)


@require_POST
def to_bed(request: HttpRequest, pk: UUID) -> HttpResponse:
    """Make a bed of what was understood; the question keeps its words and leads to the bed."""
    one = _question(request, pk)
    made = asked(one.words, today=_today())
    tree = {**made.tree, "name": _bed_name(one, made, words_for(request))}
    bed = Bed()

    def make(writer: Writer) -> None:
        if one.bed_id is not None:
            raise WordedError(message("inbox-has-bed"))
        put_case(bed, tree, today=_today())
        writer.add(bed)
        one.bed = bed
        writer.change(one, seen_version=one.version)

    if do_act(request, message("inbox-made-bed", sender=_called(one)), make):
        return redirect("bed", pk=bed.pk)
    return redirect("question", pk=pk)


@require_POST
def close(request: HttpRequest, pk: UUID) -> HttpResponse:
    """Mark a question as answered; it waits no longer."""
    one = _question(request, pk)
    one.closed = True
    what = message("inbox-closed", sender=_called(one))
    do_act(request, what, lambda writer: writer.change(one, seen_version=one.version))
    return redirect("inbox")


@require_POST
def away(request: HttpRequest, pk: UUID) -> HttpResponse:
    """Put a question away; the next page takes it back."""
    one = _question(request, pk)
    delete_kept(request, one, message("inbox-deleted", sender=_called(one)))
    return redirect("inbox")


def _list(request: HttpRequest, one: QuestionForm, many: TableForm) -> HttpResponse:
    words = words_for(request)
    sought = request.GET.get("find", "").replace("\x00", "").strip()[:200]
    answered_tab = request.GET.get("show") == "answered"
    every = found(kept(Question, office_of(request)), sought)
    waiting = every.filter(bed__isnull=True, closed=False)
    answered = every.exclude(bed__isnull=True, closed=False).select_related("bed")
    rows = [] if answered_tab else in_order(waiting[:MOST_SHOWN], today=_today())
    context = {
        "answered_tab": answered_tab,
        "rows": [
            (row, _urgent(made, words), _state(made, words), _begins(row)) for row, made in rows
        ],
        "answered": [(row, _begins(row)) for row in answered.order_by("-changed_at")[:MOST_SHOWN]]
        if answered_tab
        else [],
        "waiting_count": waiting.count(),
        "answered_count": answered.count(),
        "most": MOST_SHOWN,
        "find": sought,
        "one": one,
        "many": many,
    }
    status = max(one.status, many.status)
    return render(request, "inbox/inbox.html", context, status=status)


def _add(request: HttpRequest, one: QuestionForm, many: TableForm) -> HttpResponse:
    """Keep one question, or every row of a table, as one act."""
    sent = many if many.is_bound else one
    if not sent.is_valid():
        return _list(request, one, many)
    try:
        questions = list(_asked_in(sent.cleaned_data))
        what = message("inbox-added", n=len(questions), sender=_called(questions[0]))
        writer = writer_of(request, what)
        with transaction.atomic():
            for question in questions:
                writer.add(question)
    except InputError as fault:
        sent.refuse([whole_fault(fault, path="table" if sent is many else "words")])
        return _list(request, one, many)
    notify_done(request, writer)
    if len(questions) > 1:
        return redirect("inbox")
    return redirect("question", pk=questions[0].pk)


def _asked_in(typed: Mapping[str, Any]) -> Iterator[Question]:
    """The questions of a table, or the one that was typed."""
    if "table" in typed:
        for who, words in question_rows(typed["table"].read(LARGEST_BYTES + 1)):
            yield _new(words, who, "import")
    else:
        head = sender_of(typed["words"])
        source = "email" if head else "typed"
        yield _new(typed["words"], typed["sender"] or head, source)


def _new(words: str, sender: str, source: str) -> Question:
    if len(words) > LONGEST:
        raise WordedError(message("inbox-too-long", count=len(words), most=LONGEST))
    return Question(words=words, sender=sender[:160], source=source, received_on=_today())


def _question(request: HttpRequest, pk: UUID) -> Question:
    questions = kept(Question, office_of(request)).select_related("bed")
    return get_object_or_404(questions, pk=pk)


def _called(one: Question) -> Given:
    """Who asked, or how the words begin."""
    return Given(one.sender or _begins(one, 40))


def _begins(one: Question, most: int = BEGINNING) -> str:
    text = " ".join(one.words.split())
    return text if len(text) <= most else f"{text[: most - 1]}…"


def _bed_name(one: Question, made: Asked, words: Words) -> str:
    """What the bed is called: by its plant and who asked, as far as they are known."""
    plants = [words.plant(fact.value) for fact in made.facts if fact.path == "aim.plant"]
    who = one.sender.split("<")[0].strip().strip('"')
    parts = [part for part in (words.listed(plants) if plants else "", who) if part]
    return ", ".join(parts)[:160] or say(message("inbox-bed-name"), words)


def _facts(made: Asked, words: Words) -> list[tuple[str, str, str]]:
    """What was read: the name of the field, its value, and the words it was read from."""
    return [
        (
            say(message("ask-soil-ph"), words)  # not "a laboratory pH": nobody said whose it is
            if fact.path == "soil.ph"
            else field_called(fact.path, words),
            words.plant(fact.value) if fact.path == "aim.plant" else fact.value,
            fact.words,
        )
        for fact in made.facts
    ]


def _urgent(made: Asked, words: Words) -> str:
    """The worst danger in a few words; empty where there is none."""
    if not made.dangers:
        return ""
    return say(message("inbox-urgent", danger=made.dangers[0].value), words)


def _state(made: Asked, words: Words) -> str:
    """What is missing, in a line."""
    if made.triage is None:
        return say(message("inbox-later"), words)
    fields = tuple(field_in_text(row.field) for row in made.triage.missing)
    if not fields:
        return say(message("inbox-ready"), words)
    told = message("inbox-missing", n=len(fields), fields=Listed(fields))
    return say(told, words)


def _today() -> date:
    return date.today()  # noqa: DTZ011 - the local day
