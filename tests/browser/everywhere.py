"""Every page of a workbench in use: its store, and an address for each name."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path
from urllib.parse import urlencode
from uuid import UUID

from django.urls import URLPattern, URLResolver, get_resolver

from loamshift.case.trial_read import trial_from_tree
from loamshift.services.trial.design import plan_trial
from loamshift.store.changes import Writer
from loamshift.store.models import (
    Bed,
    Client,
    FieldFiles,
    Garden,
    IntakeDraft,
    JarSeries,
    Office,
    Product,
    Question,
    SentLetter,
    Trial,
)
from loamshift.web.beds.keeping import put_case
from loamshift.web.cases import with_fields
from loamshift.web.intake.drafts import new_draft
from loamshift.web.intake.weather import new_weather_file
from loamshift.web.letters.sending import letter_to_send
from loamshift.web.prepare import add_samples

NO_PAGES = {
    # files, data for scripts, parts of a page
    "api-description", "bed-case", "bed-file", "client-zip", "data-zip", "health",
    "known", "letter-file", "letter-style", "lists", "plan-file", "plan-sheet",
    "plan-sliders", "bed-sheet", "claim-card", "bed-sliders", "prices-out", "claims-sheet",
    "claims-picture", "lesson-worksheet", "bed-whole", "plan-whole", "places-like", "score-pairs",
    # acts: they change something and send one on
    "account-key", "account-key-end", "bed-keep", "bed-next", "bed-put-away", "bed-send",
    "client-for-good", "data-backup", "data-bring-in", "garden-cases", "garden-put-away",
    "garden-size", "intake-delete", "letter-away", "letter-note", "plan-keep", "product-away",
    "samples-away", "sign-out", "take-back", "tour-again", "tour-done",
    "question-away", "question-bed", "question-close", "weather-delete", "weather-online",
    "trial-file", "jars-file", "trial-away", "trial-to-bed", "trial-upload", "jars-away",
    "jars-to-bed", "jars-upload", "field-file", "field-delete",
}  # fmt: skip
SIGNED_IN_ONLY = {"sign-in", "account", "account-password"}
WALK_IN = urlencode(
    {"soil.ph": "7.3", "soil.texture": "loam", "aim.plant": "highbush blueberry",
     "place.name": "Minneapolis"}
)  # fmt: skip
WRONG = urlencode({"soil.ph": "17", "soil.texture": "custard", "aim.plant": "highbush blueberry"})
CLAIM = urlencode(
    {"claim.0.material": "wood ash", "claim.0.amount": "100 g/m2",
     "claim.1.material": "pelletised limestone", "claim.1.amount": "200 g/m2",
     "soil.texture": "sandy loam", "soil.ph": "5.4", "aim.target_ph": "6.5"}
)  # fmt: skip
LONG = "Sulphur chips of the wholesale list, ninety per cent, with a name that goes on and on"
ASKED = (
    "We put hydrated lime on our 12 m2 border near Leeds, pH 7.9, and the camellias look ill. "
    "The children play there."
)
LESSON = urlencode({"ph": "6.8", "water": "hard", "material": "sulphur powder", "month": "4"})
WRONG_LESSON = urlencode({"ph": "17", "material": "moon dust", "place": "Hull"})
WRONG_CLAIM = urlencode({"claim.0.material": "moon dust", "claim.0.amount": "much"})


def in_use(today: date) -> Office:
    """The samples, with a history, a letter that was sent, a shelf, and a garden drawn."""
    office = Office.objects.create(pk=UUID(int=1), name="Ours")
    add_samples(office)
    writer = Writer(office, what="Used it for a year")
    border = Bed.objects.get(name="Berry border")
    past = today - timedelta(days=420)
    noted = with_fields(
        border.case_json,
        [
            ("soil.sampled", str(past)),
            ("applied.0.material", "elemental sulfur, powder"),
            ("applied.0.rate", "60 g/m2"),
            ("applied.0.date", str(past + timedelta(days=14))),
            ("reading.0.ph", "6.3"),
            ("reading.0.ph_method", "water 1:1"),
            ("reading.0.date", str(today - timedelta(days=40))),
        ],
    )
    put_case(border, noted, today=today)
    writer.change(border, seen_version=border.version)
    plot = Bed.objects.get(name="Kitchen plot")
    writer.add(letter_to_send(plot, office=office, today=today))
    writer.add(
        Product(name="Yellow dust", material="elemental sulfur, powder", pack="1 kg", price=6.2,
                currency="GBP", note="from the shed")
    )  # fmt: skip
    writer.add(
        Product(name="Pale bag", material="ground limestone, calcitic", pack="20 kg", price=5.4,
                currency="GBP")
    )  # fmt: skip
    writer.add(
        Product(name=LONG, material="elemental sulfur, prills", pack="25 kg", price=31.5,
                currency="GBP", note="n")
    )  # fmt: skip
    writer.add(Question(words=ASKED, sender="Somebody", received_on=today))
    garden = Garden.objects.get()
    garden.plan = {
        "width_m": 20.0,
        "height_m": 12.0,
        "areas": [
            {"name": "", "bed": str(border.pk), "points": [[1, 1], [7, 1], [7, 4], [1, 4]]},
            {"name": "", "bed": str(plot.pk), "points": [[9, 3], [17, 3], [17, 9], [9, 9]]},
            {"name": "Shed", "bed": None, "points": [[1, 8], [4, 8], [4, 11], [1, 11]]},
        ],
    }
    writer.change(garden, seen_version=garden.version)
    tried(border, writer, today)
    report = "Sample;Date;pH;OM %\nBerry border;2026-03-02;5,9;3,4\nNew;2026-03-02;6;2\n"
    new_draft(office, report.encode(), name="report.csv", laboratory="Riverside", user=None)
    rows = [
        f"2025-{1 + day // 28:02}-{1 + day % 28:02},{day % 9},1,{day % 7}" for day in range(336)
    ]
    station = "Date,Temp (°C),Rain (mm),Soil temp 10 cm (°C)\n" + "\n".join(rows)
    new_weather_file(border, station.encode(), name="station.csv", user=None)
    field = Path(__file__).parents[2] / "examples" / "field"
    FieldFiles.objects.create(
        office=office,
        name="Long Acre",
        samples_name="samples.csv",
        samples=b"\n".join((field / "samples.csv").read_bytes().splitlines()[:10]),
        boundary_name="boundary.geojson",
        boundary=(field / "boundary.geojson").read_bytes(),
        told={"case": {"bed": {"kind": "field"}, "aim": {"plant": "broad bean"},
                       "place": {"name": "Edinburgh"}}, "method": "water 1:2.5",
              "crs": "EPSG:4326"},
    )  # fmt: skip
    return office


def tried(bed: Bed, writer: Writer, today: date) -> None:
    """A trial of a bed that is read, another that is not, and jars."""
    start = today - timedelta(days=60)
    for name, days in (("Peat for how long?", (0, 1, 9)), ("Sulfur, coarse or fine", ())):
        tree = {
            "trial": 1, "name": name, "question": "Does it last?", "start": start.isoformat(),
            "days": [0, 1, 9, 30], "replicates": 4, "of_bed": True,
            "soil": {"ph": 6.8, "ph_method": "water 1:2.5", "texture": "loam"},
            "bed": {"kind": "container", "area": "0.03 m2", "depth": "15 cm"},
            "treatment": [
                {"name": "nothing"}, {"name": "peat", "material": "peat", "rate": "10 kg/m2"},
            ],
        }  # fmt: skip
        trial = Trial(bed=bed, name=name, question="Does it last?", starts_on=start)
        trial.trial_json = tree
        places = plan_trial(trial_from_tree(tree)).places
        rows = [
            f"{p.label},{day},,{6.8 - 0.5 * (p.treatment * (day == 1)) + 0.01 * (n % 5):.2f},,"
            for day in days
            for n, p in enumerate(places)
        ]
        trial.readings_text = "\n".join(["pot,day,date,ph,method,note", *rows]) if rows else ""
        writer.add(trial)
    sheet = "jar,acid_mmolc_kg,acid_ml,lime_g,ph\n1,0,0,0,6.3\n2,20,10,0,5.8\n3,40,20,0,5.2\n"
    writer.add(
        JarSeries(bed=bed, set_up_on=start, to_ph=5.0, soil_g=50, acid_mol_l=0.1, sheet_text=sheet)
    )


def addresses() -> dict[str, tuple[str, ...]]:
    """Addresses by the name of the page, with the states that look different."""
    border = Bed.objects.get(name="Berry border")
    plot = Bed.objects.get(name="Kitchen plot")
    garden = Garden.objects.get()
    client = Client.objects.get()
    letter = SentLetter.objects.get()
    product = Product.objects.get(name="Yellow dust")
    return {
        "start": ("/", "/?tour=1", "/?tour=4"),
        "plan": ("/plan", f"/plan?{WALK_IN}", f"/plan?{WRONG}"),
        "beds": ("/beds/", "/beds/?q=zzz"),
        "bed-new": ("/beds/new",),
        "bed": (f"/beds/{border.pk}", f"/beds/{plot.pk}", f"/beds/{plot.pk}?soil.ph=5.2"),
        "bed-history": (f"/beds/{border.pk}/history", f"/beds/{plot.pk}/history"),
        "bed-edit": (f"/beds/{border.pk}/edit", f"/beds/{plot.pk}/edit?as=text"),
        "bed-test": (),
        "bed-applied": (),
        "client": (f"/clients/{client.pk}",),
        "client-new": ("/clients/new",),
        "client-edit": (f"/clients/{client.pk}/edit",),
        "client-delete": (f"/clients/{client.pk}/delete",),
        "garden": (f"/gardens/{garden.pk}",),
        "garden-new": ("/gardens/new",),
        "garden-edit": (f"/gardens/{garden.pk}/edit",),
        "why": ("/why/dose.acid_mmolc_kg",),
        "why-all": ("/why/",),
        "shelf": ("/shelf/", f"/shelf/?bed={border.pk}"),
        "product-new": ("/shelf/new",),
        "product": (f"/shelf/{product.pk}", f"/shelf/{Product.objects.get(name=LONG).pk}"),
        "prices": ("/shelf/prices",),
        "review": ("/review/", f"/review/?year={letter.sent_on.year - 1}"),
        "client-review": (f"/clients/{client.pk}/review",),
        "bed-review": (f"/beds/{border.pk}/review",),
        "inbox": ("/inbox/", "/inbox/?show=answered", "/inbox/?find=zzz"),
        "question": (f"/inbox/{Question.objects.get().pk}",),
        "scores": ("/scores/",),
        "client-scores": (f"/clients/{client.pk}/scores",),
        "bed-scores": (f"/beds/{border.pk}/scores",),
        "trials": ("/trials/", "/trials/?q=zzz"),
        "trial-new": (f"/trials/new?bed={border.pk}", f"/trials/new?client={client.pk}"),
        "trial": tuple(f"/trials/{one.pk}" for one in Trial.objects.all()),
        "trial-edit": (f"/trials/{Trial.objects.all()[0].pk}/edit",),
        "trial-readings": (f"/trials/{Trial.objects.all()[0].pk}/readings?day=1",),
        "bed-jars": (f"/beds/{border.pk}/jars",),
        "jars": (f"/jars/{JarSeries.objects.get().pk}",),
        "intake": ("/intake/",),
        "intake-file": (f"/intake/{IntakeDraft.objects.get(bed=None).pk}/",),
        "bed-weather": (f"/beds/{border.pk}/weather",),
        "weather-file": (f"/beds/{border.pk}/weather/{IntakeDraft.objects.get(bed=border).pk}",),
        "fields": (f"/fields/?bed={border.pk}",),
        "field-map": (f"/fields/{FieldFiles.objects.get().pk}",),
        "post": ("/post/",),
        "letter": (f"/post/{letter.pk}",),
        "letter-today": (f"/post/{letter.pk}/today", f"/post/{letter.pk}/today?now=1"),
        "claims": ("/claims/", f"/claims/?{CLAIM}", f"/claims/?{WRONG_CLAIM}"),
        "lesson": ("/lesson/", f"/lesson/?{LESSON}", f"/lesson/?{WRONG_LESSON}"),
        "settings": ("/settings/",),
        "changes": ("/changes/",),
        "data": ("/settings/data",),
        "api-page": ("/api/",),
        "api-v1": (),
        "not found": ("/nowhere", "/why/nothing.like-it"),
    }


def named() -> set[str]:
    """The names of all addresses, those of the data interface aside."""
    found: set[str] = set()

    def gather(patterns: list[URLPattern | URLResolver]) -> None:
        for one in patterns:
            if isinstance(one, URLPattern) and one.name:
                found.add(one.name)

    gather(get_resolver().url_patterns)
    return found
