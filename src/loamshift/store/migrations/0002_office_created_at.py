"""When an office came to be, so that the first of several is the same on every run."""

import django.utils.timezone
from django.db import migrations, models


class Migration(migrations.Migration):
    """One column more; offices kept before count from the day of the upgrade."""

    dependencies = [("store", "0001_initial")]

    operations = [
        migrations.AlterModelOptions("office", options={"ordering": ("created_at", "id")}),
        migrations.AddField(
            "office",
            "created_at",
            models.DateTimeField(default=django.utils.timezone.now, editable=False),
        ),
    ]
