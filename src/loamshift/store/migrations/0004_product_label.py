"""Products keep the analysis of their bag; those kept before have none."""

from django.db import migrations, models


class Migration(migrations.Migration):
    """One column more."""

    dependencies = [("store", "0003_change_said")]

    operations = [
        migrations.AddField(
            "product",
            "label",
            models.TextField(blank=True, default="", max_length=1000),
        ),
    ]
