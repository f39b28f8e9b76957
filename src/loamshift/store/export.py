"""The store, or one client, as a zip of plain tables and files that a person can read.

``loamshift.toml`` says what the zip is and holds the office's settings; clients, beds, letters,
products, questions, trials and jars are tables (CSV), gardens, case files and trials TOML, letters
the JSON they were sent as. A trial has its readings and its forecast beside it, as
``loamshift trial`` keeps them; a bed with saved plans has their forecasts in a file of its own.
What was put away is in it with its day; people who sign in, and the list of changes, are not.
``SHA256SUMS.txt`` holds a digest of every file, by which a file that was cut is found.
"""

from __future__ import annotations

import csv
import io
import zipfile
from collections.abc import Iterable, Iterator
from datetime import UTC, datetime
from typing import Any, BinaryIO, Final

from django.db import connection, transaction
from django.db.models import Q, QuerySet

from loamshift import __version__
from loamshift.store.cells import cell_of, columns
from loamshift.store.digests import DIGESTS, digest_of, digests_text
from loamshift.store.forecast_files import forecast_parts
from loamshift.store.models import (
    Bed,
    Client,
    Garden,
    JarSeries,
    Kept,
    Office,
    Product,
    Question,
    SentLetter,
    Trial,
)
from loamshift.store.toml_out import toml_text, without_nulls

FORMAT: Final = 1
HEAD: Final = "loamshift.toml"
ABOUT: Final = "READ-ME.txt"
OFFICE_FIELDS: Final = ("name", "units", "words", "paper", "currency", "letterhead", "toured")
_BOM: Final = "\ufeff"
Part = tuple[str, str]


def store_zip(office: Office, *, now: datetime, about: str = "") -> bytes:
    """Everything of an office, what was put away included.

    Parameters
    ----------
    now
        The moment to write into it [time].
    about
        What the zip is, for somebody who unpacks it; empty for no such file.
    """
    file = io.BytesIO()
    write_store(file, office, now=now, about=about)
    return file.getvalue()


def client_zip(client: Client, *, now: datetime, about: str = "") -> bytes:
    """One client with its gardens, beds and letters, without what was put away of them."""
    file = io.BytesIO()
    with _one_moment():
        gardens = Garden.objects.filter(client=client, deleted_at=None)
        beds = Bed.objects.filter(garden__in=gardens, deleted_at=None)
        letters = SentLetter.objects.filter(bed__in=beds, deleted_at=None)
        clients = Client.objects.filter(pk=client.pk)
        questions = Question.objects.filter(bed__in=beds, deleted_at=None)
        trials = Trial.objects.filter(Q(bed__in=beds) | Q(client=client, bed=None), deleted_at=None)
        jars = JarSeries.objects.filter(bed__in=beds, deleted_at=None)
        parts = _chain(
            _parts(clients, gardens, beds, letters, Product.objects.none(), questions),
            _trial_parts(trials, jars),
            forecast_parts(beds),
        )
        head = _head(client.office, scope="client", now=now)
        _write(file, [head, *parts], now=now, about=about)
    return file.getvalue()


def write_store(file: BinaryIO, office: Office, *, now: datetime, about: str = "") -> None:
    """Write everything of an office into a file that is open for writing."""
    with _one_moment():
        of = {"office": office}
        parts = _chain(
            _parts(
                Client.objects.filter(**of),
                Garden.objects.filter(**of),
                Bed.objects.filter(**of),
                SentLetter.objects.filter(**of),
                Product.objects.filter(**of),
                Question.objects.filter(**of),
            ),
            _trial_parts(Trial.objects.filter(**of), JarSeries.objects.filter(**of)),
            forecast_parts(Bed.objects.filter(**of)),
        )
        head = _head(office, scope="store", now=now)
        _write(file, _chain([head], parts), now=now, about=about)


def table(model: type[Kept], things: Iterable[Kept]) -> str:
    """Things of one kind as a CSV text with a head."""
    text = io.StringIO(newline="")
    writer = csv.writer(text)
    heads = columns(model)
    writer.writerow(heads)
    for thing in things:
        writer.writerow(cell_of(field, getattr(thing, field.attname)) for field in heads.values())
    return _BOM + text.getvalue()


def garden_toml(garden: Garden) -> str:
    """A garden as TOML: who it belongs to, its place and its plan."""
    heads: dict[str, Any] = {
        name: value if isinstance(value, (str, int, datetime)) else str(value)
        for name, field in columns(Garden).items()
        if name not in ("place", "plan") and (value := getattr(garden, field.attname)) is not None
    }
    tree, nulls = without_nulls({"place": garden.place, "plan": garden.plan})
    if nulls:
        heads["nothing_at"] = nulls
    return toml_text({**heads, **tree})


def _parts(
    clients: QuerySet[Client],
    gardens: QuerySet[Garden],
    beds: QuerySet[Bed],
    letters: QuerySet[SentLetter],
    products: QuerySet[Product],
    questions: QuerySet[Question],
) -> Iterator[Part]:
    yield "clients.csv", table(Client, clients.order_by("pk"))
    yield "beds.csv", table(Bed, beds.defer("case_json", "own_text").order_by("pk"))
    yield "letters.csv", table(SentLetter, letters.defer("answer_text").order_by("pk"))
    yield "products.csv", table(Product, products.order_by("pk"))
    yield "questions.csv", table(Question, questions.order_by("pk"))
    for garden in gardens.order_by("pk"):
        yield f"gardens/{garden.pk}.toml", garden_toml(garden)
    for bed in beds.order_by("pk").iterator(chunk_size=100):
        yield f"beds/{bed.pk}.toml", bed.case_text
    for letter in letters.order_by("pk").iterator(chunk_size=10):
        yield f"letters/{letter.pk}.json", letter.answer_text


def _trial_parts(trials: QuerySet[Trial], jars: QuerySet[JarSeries]) -> Iterator[Part]:
    """Trials as ``loamshift trial`` keeps them, each file beside the others, and sheets of jars."""
    yield "trials.csv", table(Trial, trials.order_by("pk"))
    yield "jars.csv", table(JarSeries, jars.order_by("pk"))
    for trial in trials.order_by("pk").iterator(chunk_size=100):
        yield f"trials/{trial.pk}.toml", trial.trial_text
        if trial.readings_text:
            yield f"trials/{trial.pk}.readings.csv", trial.readings_text
        if trial.forecast_text:
            yield f"trials/{trial.pk}.forecast.json", trial.forecast_text
    for series in jars.order_by("pk"):
        yield f"jars/{series.pk}.csv", series.sheet_text


def _head(office: Office, *, scope: str, now: datetime) -> Part:
    tree = {
        "format": FORMAT,
        "scope": scope,
        "program": f"loamshift {__version__}",
        "made_at": now,
        "office": {name: getattr(office, name) for name in OFFICE_FIELDS},
    }
    return HEAD, toml_text(tree)


def _chain(*parts: Iterable[Part]) -> Iterator[Part]:
    for some in parts:
        yield from some


def _write(file: BinaryIO, parts: Iterable[Part], *, now: datetime, about: str = "") -> None:
    day = now.astimezone(UTC)
    stamp = (max(day.year, 1980), day.month, day.day, day.hour, day.minute, day.second)
    digests: dict[str, str] = {}
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as archive:

        def put(name: str, data: bytes) -> None:
            entry = zipfile.ZipInfo(name, stamp)
            entry.compress_type = zipfile.ZIP_DEFLATED
            entry.external_attr = 0o600 << 16
            archive.writestr(entry, data)

        if about:
            put(ABOUT, (about.rstrip() + "\n").encode("utf-8"))
        for name, text in parts:
            data = text.encode("utf-8")
            digests[name] = digest_of(data)
            put(name, data)
        put(DIGESTS, digests_text(digests).encode("utf-8"))


def _one_moment() -> transaction.Atomic:
    return _Moment(using=None, savepoint=True, durable=False)


class _Moment(transaction.Atomic):
    """A transaction that sees the store as it is at one moment, on PostgreSQL too."""

    def __enter__(self) -> None:
        outermost = not connection.in_atomic_block
        super().__enter__()
        if outermost and connection.vendor == "postgresql":
            with connection.cursor() as cursor:
                cursor.execute("SET TRANSACTION ISOLATION LEVEL REPEATABLE READ, READ ONLY")
