"""Forecasts as they were issued; those of letters are drawn from the letters when asked for."""

import uuid

import django.db.models.deletion
from django.db import migrations, models


class Migration(migrations.Migration):
    """One table more."""

    dependencies = [("store", "0004_product_label")]

    operations = [
        migrations.CreateModel(
            "ForecastIssued",
            [
                (
                    "id",
                    models.UUIDField(
                        default=uuid.uuid4, editable=False, primary_key=True, serialize=False
                    ),
                ),
                ("issued_on", models.DateField()),
                ("course", models.JSONField(null=True)),
                (
                    "bed",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="forecasts",
                        to="store.bed",
                    ),
                ),
                (
                    "letter",
                    models.OneToOneField(
                        null=True,
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="forecast",
                        to="store.sentletter",
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
            options={"ordering": ("issued_on", "id")},
        ),
        migrations.AddConstraint(
            "forecastissued",
            models.UniqueConstraint(
                condition=models.Q(("letter__isnull", True)),
                fields=("bed", "issued_on"),
                name="one_plan_a_day",
            ),
        ),
    ]
