"""Files of fields that were uploaded to be mapped."""

import uuid

import django.db.models.deletion
import django.utils.timezone
from django.conf import settings
from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [
        ("store", "0010_weather_files"),
    ]

    operations = [
        migrations.CreateModel(
            name="FieldFiles",
            fields=[
                (
                    "id",
                    models.UUIDField(
                        default=uuid.uuid4, editable=False, primary_key=True, serialize=False
                    ),
                ),
                ("name", models.CharField(max_length=160)),
                ("samples_name", models.CharField(max_length=200)),
                ("samples", models.BinaryField()),
                ("boundary_name", models.CharField(blank=True, default="", max_length=200)),
                ("boundary", models.BinaryField(blank=True, null=True)),
                ("told", models.JSONField(default=dict)),
                (
                    "changed_at",
                    models.DateTimeField(db_index=True, default=django.utils.timezone.now),
                ),
                (
                    "client",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="field_files",
                        to="store.client",
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
                (
                    "user",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
            ],
            options={
                "ordering": ("-changed_at", "id"),
            },
        ),
    ]
