"""What an act did, as a message beside its text."""

from django.db import migrations, models


class Migration(migrations.Migration):
    """One column more; records of earlier versions keep their text."""

    dependencies = [("store", "0002_office_created_at")]

    operations = [
        migrations.AddField("change", "said", models.TextField(blank=True, default="")),
    ]
