"""Files of weather, the person who uploaded a file, and whether online weather is asked for."""

import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models


class Migration(migrations.Migration):
    """Three fields more."""

    dependencies = [
        ("store", "0009_trials"),
    ]

    operations = [
        migrations.AddField(
            model_name="intakedraft",
            name="bed",
            field=models.ForeignKey(
                blank=True,
                null=True,
                on_delete=django.db.models.deletion.CASCADE,
                related_name="weather_files",
                to="store.bed",
            ),
        ),
        migrations.AddField(
            model_name="intakedraft",
            name="user",
            field=models.ForeignKey(
                blank=True,
                null=True,
                on_delete=django.db.models.deletion.CASCADE,
                related_name="+",
                to=settings.AUTH_USER_MODEL,
            ),
        ),
        migrations.AddField(
            model_name="office",
            name="online_weather",
            field=models.BooleanField(default=False),
        ),
    ]
