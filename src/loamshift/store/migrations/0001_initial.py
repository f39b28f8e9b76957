"""Every table of the store, as the first release has them."""

import uuid

import django.contrib.auth.models
import django.contrib.auth.validators
import django.db.models.deletion
import django.utils.timezone
from django.conf import settings
from django.db import migrations, models

import loamshift.store.models.client


class Migration(migrations.Migration):
    initial = True

    dependencies = [
        ("auth", "0012_alter_user_first_name_max_length"),
    ]

    operations = [
        migrations.CreateModel(
            name="Client",
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
                ("contact", models.TextField(blank=True, default="", max_length=1000)),
                ("note", models.TextField(blank=True, default="", max_length=4000)),
            ],
            options={
                "ordering": ("sought", "id"),
            },
        ),
        migrations.CreateModel(
            name="Office",
            fields=[
                (
                    "id",
                    models.UUIDField(
                        default=uuid.uuid4, editable=False, primary_key=True, serialize=False
                    ),
                ),
                ("name", models.CharField(default="My beds", max_length=120)),
                (
                    "units",
                    models.CharField(
                        choices=[("metric", "metric"), ("us", "US")],
                        default="metric",
                        max_length=10,
                    ),
                ),
                (
                    "words",
                    models.CharField(
                        choices=[("uk", "UK"), ("us", "US")], default="uk", max_length=10
                    ),
                ),
                (
                    "paper",
                    models.CharField(
                        choices=[("a4", "A4"), ("letter", "US Letter")], default="a4", max_length=10
                    ),
                ),
                ("currency", models.CharField(blank=True, default="", max_length=3)),
                ("letterhead", models.TextField(blank=True, default="", max_length=600)),
                ("toured", models.BooleanField(default=False)),
            ],
        ),
        migrations.CreateModel(
            name="User",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("password", models.CharField(max_length=128, verbose_name="password")),
                (
                    "last_login",
                    models.DateTimeField(blank=True, null=True, verbose_name="last login"),
                ),
                (
                    "is_superuser",
                    models.BooleanField(
                        default=False,
                        help_text="Designates that this user has all permissions without explicitly assigning them.",
                        verbose_name="superuser status",
                    ),
                ),
                (
                    "username",
                    models.CharField(
                        error_messages={"unique": "A user with that username already exists."},
                        help_text="Required. 150 characters or fewer. Letters, digits and @/./+/-/_ only.",
                        max_length=150,
                        unique=True,
                        validators=[django.contrib.auth.validators.UnicodeUsernameValidator()],
                        verbose_name="username",
                    ),
                ),
                (
                    "first_name",
                    models.CharField(blank=True, max_length=150, verbose_name="first name"),
                ),
                (
                    "last_name",
                    models.CharField(blank=True, max_length=150, verbose_name="last name"),
                ),
                (
                    "email",
                    models.EmailField(blank=True, max_length=254, verbose_name="email address"),
                ),
                (
                    "is_staff",
                    models.BooleanField(
                        default=False,
                        help_text="Designates whether the user can log into this admin site.",
                        verbose_name="staff status",
                    ),
                ),
                (
                    "is_active",
                    models.BooleanField(
                        default=True,
                        help_text="Designates whether this user should be treated as active. Unselect this instead of deleting accounts.",
                        verbose_name="active",
                    ),
                ),
                (
                    "date_joined",
                    models.DateTimeField(
                        default=django.utils.timezone.now, verbose_name="date joined"
                    ),
                ),
                (
                    "role",
                    models.CharField(
                        choices=[("adviser", "adviser"), ("reader", "reader")],
                        default="reader",
                        max_length=10,
                    ),
                ),
                (
                    "groups",
                    models.ManyToManyField(
                        blank=True,
                        help_text="The groups this user belongs to. A user will get all permissions granted to each of their groups.",
                        related_name="user_set",
                        related_query_name="user",
                        to="auth.group",
                        verbose_name="groups",
                    ),
                ),
                (
                    "user_permissions",
                    models.ManyToManyField(
                        blank=True,
                        help_text="Specific permissions for this user.",
                        related_name="user_set",
                        related_query_name="user",
                        to="auth.permission",
                        verbose_name="user permissions",
                    ),
                ),
                (
                    "office",
                    models.ForeignKey(
                        null=True,
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="people",
                        to="store.office",
                    ),
                ),
            ],
            options={
                "verbose_name": "user",
                "verbose_name_plural": "users",
                "abstract": False,
            },
            managers=[
                ("objects", django.contrib.auth.models.UserManager()),
            ],
        ),
        migrations.CreateModel(
            name="Garden",
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
                ("place", models.JSONField(blank=True, default=dict)),
                (
                    "plan",
                    models.JSONField(blank=True, default=loamshift.store.models.client.empty_plan),
                ),
                (
                    "client",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="gardens",
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
                "ordering": ("sought", "id"),
            },
        ),
        migrations.AddField(
            model_name="client",
            name="office",
            field=models.ForeignKey(
                on_delete=django.db.models.deletion.CASCADE, related_name="+", to="store.office"
            ),
        ),
        migrations.CreateModel(
            name="Bed",
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
                ("case_text", models.TextField(max_length=1000000)),
                ("plants", models.CharField(blank=True, default="", max_length=300)),
                ("decision", models.CharField(blank=True, default="", max_length=20)),
                ("ph", models.FloatField(blank=True, null=True)),
                ("is_sample", models.BooleanField(default=False)),
                (
                    "garden",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="beds",
                        to="store.garden",
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
                "ordering": ("sought", "id"),
            },
        ),
        migrations.CreateModel(
            name="Product",
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
                ("material", models.CharField(max_length=160)),
                ("purity_pct", models.FloatField(blank=True, null=True)),
                ("pack", models.CharField(blank=True, default="", max_length=40)),
                ("price", models.FloatField(blank=True, null=True)),
                ("currency", models.CharField(blank=True, default="", max_length=3)),
                ("in_stock", models.BooleanField(default=True)),
                ("note", models.TextField(blank=True, default="", max_length=1000)),
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
                "ordering": ("sought", "id"),
            },
        ),
        migrations.CreateModel(
            name="SentLetter",
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
                ("title", models.CharField(max_length=200)),
                ("sent_on", models.DateField()),
                ("decision", models.CharField(max_length=20)),
                ("answer_text", models.TextField(max_length=20000000)),
                ("note", models.TextField(blank=True, default="", max_length=2000)),
                (
                    "bed",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="letters",
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
                "ordering": ("-sent_on", "-created_at", "id"),
            },
        ),
        migrations.CreateModel(
            name="Change",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("who", models.CharField(blank=True, default="", max_length=150)),
                ("at", models.DateTimeField(db_index=True, default=django.utils.timezone.now)),
                ("act", models.UUIDField(db_index=True, default=uuid.uuid4)),
                ("what", models.CharField(max_length=200)),
                ("kind", models.CharField(max_length=20)),
                ("thing", models.UUIDField(db_index=True)),
                ("before", models.JSONField(null=True)),
                ("after", models.JSONField()),
                ("taken_back", models.BooleanField(default=False)),
                (
                    "user",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.SET_NULL,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "office",
                    models.ForeignKey(
                        db_index=False,
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="changes",
                        to="store.office",
                    ),
                ),
            ],
            options={
                "ordering": ("-at", "-id"),
                "indexes": [models.Index(fields=["office", "at"], name="change_office_at")],
            },
        ),
        migrations.CreateModel(
            name="FailedSignIn",
            fields=[
                ("whose", models.CharField(max_length=64, primary_key=True, serialize=False)),
                ("times", models.PositiveIntegerField(default=0)),
                (
                    "last_at",
                    models.DateTimeField(db_index=True, default=django.utils.timezone.now),
                ),
            ],
        ),
        migrations.CreateModel(
            name="ApiKey",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("name", models.CharField(max_length=80)),
                ("digest", models.CharField(max_length=64, unique=True)),
                (
                    "made_at",
                    models.DateTimeField(default=django.utils.timezone.now, editable=False),
                ),
                (
                    "user",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="keys",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
            ],
            options={
                "ordering": ("made_at", "id"),
            },
        ),
    ]
