from __future__ import annotations

import io
from datetime import date
from email.message import EmailMessage

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client as Browser
from django.utils import timezone
from openpyxl import Workbook

from loamshift.store.changes import Writer, take_back
from loamshift.store.erase import erase_client
from loamshift.store.export import client_zip, store_zip
from loamshift.store.models import Bed, Client, Garden, Office, Question
from loamshift.store.restore import read_zip

TODAY = date.today()  # noqa: DTZ011 - the pages know only the local day
ASKED = "My soil near Leeds is pH 7.2 by probe. Can I grow blueberries on 12 m2 of clay?"


@pytest.fixture
def office(db: None) -> Office:
    return Office.objects.create(name="Ours")


def add(office: Office, words: str, sender: str = "") -> Question:
    made = Question(words=words, sender=sender, received_on=TODAY)
    Writer(office, what="Added").add(made)
    return made


def test_a_pasted_e_mail_is_kept_whole_and_understood(client: Browser, office: Office) -> None:
    words = f"From: Ann <ann@example.org>\nSubject: soil\n\n{ASKED}"
    page = client.post("/inbox/", {"words": words}, follow=True).content.decode()
    made = Question.objects.get()
    assert (made.words, made.source, made.sender) == (words, "email", "Ann <ann@example.org>")
    assert "highbush blueberry" in page and "12 m2" in page and "Leeds" in page


def test_the_reply_asks_for_what_is_missing_and_nothing_else(
    client: Browser, office: Office
) -> None:
    made = add(
        office, "My soil near Leeds is pH 6.2, lab, water 1:5. Can I grow cabbages on 12 m2?"
    )
    page = client.get(f"/inbox/{made.pk}").content.decode()
    reply = page.split("<textarea")[1].split("</textarea>")[0]
    assert "Name the plant" not in reply
    assert "Multiply the length" not in reply
    assert "Roll a moist ball of soil" in reply


def test_what_is_dangerous_comes_first(client: Browser, office: Office) -> None:
    add(office, ASKED, "Plain")
    add(office, "I bought hydrated lime", "Caustic")
    add(office, "My son swallowed some of the lime", "Hurt")
    add(office, "Is sulphur safe for my cat?", "Cat")
    page = client.get("/inbox/").content.decode()
    places = [page.index(f">{name}<") for name in ("Hurt", "Caustic", "Cat", "Plain")]
    assert places == sorted(places)
    hurt = Question.objects.get(sender="Hurt")
    assert "call 111" in client.get(f"/inbox/{hurt.pk}").content.decode()
    Office.objects.update(words="us")
    assert "Poison Control" in client.get(f"/inbox/{hurt.pk}").content.decode()


def test_a_question_becomes_a_bed_and_keeps_its_words(client: Browser, office: Office) -> None:
    made = add(office, ASKED, "Ann <ann@example.org>")
    client.post(f"/inbox/{made.pk}/bed")
    made.refresh_from_db()
    bed = Bed.objects.get()
    assert made.bed == bed and made.words == ASKED
    assert bed.name == "highbush blueberry, Ann"
    assert str(bed.case_json["soil"]["ph"]) == "7.2"
    assert ASKED.split(".")[0] in client.get(f"/beds/{bed.pk}/history").content.decode()
    assert "No question is waiting." in client.get("/inbox/").content.decode()
    client.post(f"/inbox/{made.pk}/bed")
    assert Bed.objects.count() == 1


def test_making_a_bed_is_undone_as_a_whole(client: Browser, office: Office) -> None:
    made = add(office, ASKED, "Ann")
    client.post(f"/inbox/{made.pk}/bed")
    act = office.changes.latest("id").act
    take_back(office, act)
    made.refresh_from_db()
    assert made.bed is None
    assert Bed.objects.get().deleted_at is not None


def test_answered_and_deleted_questions_wait_no_longer(client: Browser, office: Office) -> None:
    one, other = add(office, ASKED, "Ann"), add(office, ASKED, "Bob")
    client.post(f"/inbox/{one.pk}/close")
    client.post(f"/inbox/{other.pk}/put-away")
    assert "No question is waiting." in client.get("/inbox/").content.decode()
    answered = client.get("/inbox/?show=answered").content.decode()
    assert ">Ann<" in answered and ">Bob<" not in answered


def test_a_table_is_imported_in_one_act(client: Browser, office: Office) -> None:
    table = "name;question;plant\nAnn;My lawn is mossy.;\nBob;What now?;cabbage\n\n"
    sent = SimpleUploadedFile("asked.csv", table.encode("cp1252"))
    client.post("/inbox/", {"table": sent})
    ann, bob = Question.objects.order_by("sender")
    assert (ann.words, ann.source) == ("My lawn is mossy.", "import")
    assert bob.words == "question: What now?\nplant: cabbage"
    take_back(office, office.changes.latest("id").act)
    assert not Question.objects.filter(deleted_at=None).exists()


def mail(*, html: bool) -> bytes:
    made = EmailMessage()
    made["From"] = "Ann Höfer <ann@example.org>"
    made["Subject"] = "Moss"
    if html:
        made.set_content("<style>p {color: red}</style><p>My lawn<br>is mossy.</p>", subtype="html")
    else:
        made.set_content("My lawn is mossy, pH 5.2.\n")
    made.add_attachment(b"%PDF-", maintype="application", subtype="pdf", filename="report.pdf")
    return made.as_bytes()


@pytest.mark.parametrize(
    ("html", "words"), [(False, "My lawn is mossy, pH 5.2."), (True, "My lawn\nis mossy.")]
)
def test_a_saved_e_mail_is_one_question(
    client: Browser, office: Office, html: bool, words: str
) -> None:
    client.post("/inbox/", {"table": SimpleUploadedFile("moss.eml", mail(html=html))})
    (one,) = Question.objects.all()
    assert (one.sender, one.words) == ("Ann Höfer <ann@example.org>", f"Moss\n\n{words}")


def test_the_rows_of_a_workbook_are_questions(client: Browser, office: Office) -> None:
    book = Workbook()
    for row in (("name", "question"), ("Ann", "Why is my oak yellow?"), ("Bob", "What now?")):
        book.active.append(row)
    data = io.BytesIO()
    book.save(data)
    client.post("/inbox/", {"table": SimpleUploadedFile("asked.xlsx", data.getvalue())})
    assert set(Question.objects.values_list("sender", "words")) == {
        ("Ann", "Why is my oak yellow?"),
        ("Bob", "What now?"),
    }


@pytest.mark.parametrize(
    "data",
    [
        b"",
        b"PK\x03\x04 no workbook",
        b"From: a@b.c\nSubject: x\n\n",
        b"only a head\n",
        b"\x00\x01\x02\n\x00",
        b"q\n" + b"x\n" * 501,
        b"q\n" + b"y" * 1_000_001,
    ],
)
def test_a_table_that_cannot_be_used_is_refused_whole(
    client: Browser, office: Office, data: bytes
) -> None:
    response = client.post("/inbox/", {"table": SimpleUploadedFile("asked.csv", data)})
    assert response.status_code in (200, 422)
    assert 'role="alert"' in response.content.decode()
    assert not Question.objects.exists()


def test_too_long_and_empty_questions_are_told_and_kept_in_the_form(
    client: Browser, office: Office
) -> None:
    assert client.post("/inbox/", {"words": "  "}).status_code == 422
    page = client.post("/inbox/", {"words": "x" * 20_001, "sender": "Ann"})
    assert page.status_code == 422
    assert "20,001" in page.content.decode() or "20001" in page.content.decode()
    assert "x" * 20_001 in page.content.decode()


def test_questions_go_out_and_come_back_with_the_store(client: Browser, office: Office) -> None:
    made = add(office, ASKED, "Ann")
    client.post(f"/inbox/{made.pk}/bed")
    now = timezone.now()
    read = read_zip(store_zip(office, now=now))
    (back,) = [thing for thing in read.things if isinstance(thing, Question)]
    assert (back.words, back.bed_id) == (ASKED, Bed.objects.get().pk)


def test_what_a_client_asked_goes_with_the_client(client: Browser, office: Office) -> None:
    writer = Writer(office, what="Added")
    ann = Client(name="Ann")
    writer.add(ann)
    garden = Garden(client=ann, name="Home")
    writer.add(garden)
    made = add(office, ASKED, "Ann")
    client.post(f"/inbox/{made.pk}/bed")
    bed = Bed.objects.get()
    bed.garden = garden
    writer.change(bed, seen_version=bed.version)
    other = add(office, "Another question", "Bob")
    out = read_zip(client_zip(ann, now=timezone.now()))
    assert [thing.pk for thing in out.things if isinstance(thing, Question)] == [made.pk]
    erase_client(office, ann)
    assert list(Question.objects.all()) == [other]
