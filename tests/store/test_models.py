from __future__ import annotations

from pathlib import Path

import pytest
from django.core.management import call_command

from loamshift.store import migrations
from loamshift.store.models import Bed, Office

pytestmark = pytest.mark.django_db


def test_the_migrations_make_what_the_models_say() -> None:
    call_command("makemigrations", check_changes=True, dry_run=True, verbosity=0)


def test_the_first_migration_knows_users_and_offices_and_each_later_one_says_what_for() -> None:
    first, *later = sorted(Path(str(migrations.__file__)).parent.glob("0*.py"))
    assert first.name == "0001_initial.py"
    assert 'name="User"' in first.read_text(encoding="utf-8")
    assert all(one.read_text(encoding="utf-8").startswith('"""') for one in later)


def test_what_is_found_by_is_folded_whenever_a_thing_is_saved() -> None:
    bed = Bed(office=Office.objects.create(), name="Äpfel", plants="Straße", case_text="case = 1")
    bed.save()
    assert Bed.objects.get().sought == "apfel\nstrasse"
