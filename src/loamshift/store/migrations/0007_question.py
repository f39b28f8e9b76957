"""Questions that wait for an answer."""

import uuid

import django.db.models.deletion
import django.utils.timezone
from django.db import migrations, models


class Migration(migrations.Migration):
    """One table more."""

    dependencies = [("store", "0006_bed_case_json")]

    operations = [
        migrations.CreateModel(
            "Question",
            [
                (
                    "id",
                    models.UUIDField(
                        default=uuid.uuid4, editable=False, primary_key=True, serialize=False
                    ),
                ),
                ("version", models.PositiveIntegerField(default=1)),
                (
                    "created_at",
                    models.DateTimeField(default=django.utils.timezone.now, editable=False),
                ),
                (
                    "changed_at",
                    models.DateTimeField(default=django.utils.timezone.now, editable=False),
                ),
                ("deleted_at", models.DateTimeField(blank=True, db_index=True, null=True)),
                ("sought", models.TextField(blank=True, default="", editable=False)),
                ("sender", models.CharField(blank=True, default="", max_length=160)),
                ("words", models.TextField(max_length=20000)),
                (
                    "source",
                    models.CharField(
                        choices=[("typed", "typed"), ("email", "e-mail"), ("import", "import")],
                        default="typed",
                        max_length=10,
                    ),
                ),
                ("received_on", models.DateField()),
                ("closed", models.BooleanField(default=False)),
                (
                    "bed",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.SET_NULL,
                        related_name="questions",
                        to="store.bed",
                    ),
                ),
                (
                    "office",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="+",
                        to="store.office",
                    ),
                ),
            ],
            options={"ordering": ("received_on", "created_at", "id")},
        ),
    ]
