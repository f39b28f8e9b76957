"""Files of laboratories on their way into beds, and what was answered for each laboratory."""

import uuid

import django.db.models.deletion
import django.utils.timezone
from django.db import migrations, models


class Migration(migrations.Migration):
    """Two tables more."""

    dependencies = [
        ("store", "0007_question"),
    ]

    operations = [
        migrations.CreateModel(
            name="IntakeDraft",
            fields=[
                (
                    "id",
                    models.UUIDField(
                        default=uuid.uuid4, editable=False, primary_key=True, serialize=False
                    ),
                ),
                ("name", models.CharField(max_length=200)),
                ("content", models.BinaryField()),
                ("laboratory", models.CharField(blank=True, default="", max_length=120)),
                ("answers", models.JSONField(blank=True, default=dict)),
                ("beds", models.JSONField(blank=True, default=dict)),
                ("garden", models.UUIDField(blank=True, null=True)),
                ("act", models.UUIDField(blank=True, null=True)),
                (
                    "changed_at",
                    models.DateTimeField(db_index=True, default=django.utils.timezone.now),
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
            options={
                "ordering": ("-changed_at", "id"),
            },
        ),
        migrations.CreateModel(
            name="LaboratoryAnswers",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("laboratory", models.CharField(max_length=120)),
                ("answers", models.JSONField(default=dict)),
                (
                    "office",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="+",
                        to="store.office",
                    ),
                ),
            ],
            options={
                "ordering": ("laboratory", "id"),
                "constraints": [
                    models.UniqueConstraint(fields=("office", "laboratory"), name="one_laboratory")
                ],
            },
        ),
    ]
