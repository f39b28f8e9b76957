"""Trials of beds and clients, and titrations in jars."""

import uuid

import django.db.models.deletion
import django.utils.timezone
from django.db import migrations, models


class Migration(migrations.Migration):
    """Two tables more."""

    dependencies = [
        ("store", "0008_intake"),
    ]

    operations = [
        migrations.CreateModel(
            name="JarSeries",
            fields=[
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
                ("set_up_on", models.DateField()),
                ("to_ph", models.FloatField()),
                ("soil_g", models.FloatField()),
                ("acid_mol_l", models.FloatField()),
                ("sheet_text", models.TextField(max_length=20000)),
                (
                    "bed",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="jars",
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
            options={
                "ordering": ("-set_up_on", "-created_at", "id"),
            },
        ),
        migrations.CreateModel(
            name="Trial",
            fields=[
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
                ("name", models.CharField(max_length=160)),
                ("question", models.TextField(blank=True, default="", max_length=2000)),
                ("starts_on", models.DateField()),
                ("trial_json", models.JSONField(blank=True, default=dict)),
                ("readings_text", models.TextField(blank=True, default="", max_length=2000000)),
                ("forecast_text", models.TextField(blank=True, default="", max_length=2000000)),
                (
                    "bed",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.SET_NULL,
                        related_name="trials",
                        to="store.bed",
                    ),
                ),
                (
                    "client",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.SET_NULL,
                        related_name="trials",
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
            ],
            options={
                "ordering": ("-starts_on", "sought", "id"),
            },
        ),
    ]
