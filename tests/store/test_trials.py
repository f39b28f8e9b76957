"""Trials and jars in the store: exported as the command keeps them, brought back, erased."""

import io
import zipfile
from datetime import date

import pytest

from loamshift.store.archive import ArchiveFault
from loamshift.store.changes import Writer, take_back
from loamshift.store.erase import erase_client
from loamshift.store.export import client_zip, store_zip
from loamshift.store.models import Bed, Client, JarSeries, Office, Trial
from loamshift.store.put_in import add_missing, replace_all
from loamshift.store.restore import read_zip
from store.stores import NOW, everything, small

pytestmark = pytest.mark.django_db
FILE = {
    "trial": 1,
    "name": "Peat",
    "start": "2026-04-20",
    "slurry": [[7.1, 7.2]],
    "soil": {"ph": 7.8},
    "treatment": [{"name": "nothing"}, {"name": "peat", "material": "peat", "rate": "3 kg/m2"}],
}


@pytest.fixture
def office() -> Office:
    return Office.objects.create(name="Ours")


def with_trials(office: Office) -> tuple[Client, Bed, Trial, Trial, JarSeries]:
    client, _, bed, *_ = small(office)
    writer = Writer(office, what="Added")
    of_bed = Trial(bed=bed, name="=Peat", starts_on=date(2026, 4, 20), trial_json=FILE)
    of_bed.readings_text = "pot,day,date,ph,method,note\n1,0,,7.8,,\n"
    of_bed.forecast_text = '{"trial_forecast": 1}\n'
    of_client = Trial(client=client, name="Bark", starts_on=date(2026, 5, 1), trial_json=FILE)
    jars = JarSeries(
        bed=bed, set_up_on=date(2026, 4, 1), to_ph=5.5, soil_g=50.0, acid_mol_l=0.1,
        sheet_text="jar,acid_mmolc_kg,acid_ml,lime_g,ph\n1,0,0,0,7.1\n",
    )  # fmt: skip
    for one in (of_bed, of_client, jars):
        writer.add(one)
    return client, bed, of_bed, of_client, jars


def test_a_zip_holds_what_the_command_reads_and_brings_all_of_it_back(office: Office) -> None:
    *_, of_bed, of_client, jars = with_trials(office)
    before = everything(office)
    packed = store_zip(office, now=NOW)
    names = set(zipfile.ZipFile(io.BytesIO(packed)).namelist())
    assert {
        f"trials/{of_bed.pk}{tail}" for tail in (".toml", ".readings.csv", ".forecast.json")
    } <= names
    assert f"trials/{of_client.pk}.readings.csv" not in names
    assert f"jars/{jars.pk}.csv" in names
    replace_all(read_zip(packed), office)
    assert everything(office) == before
    Trial.objects.all().delete()
    done = add_missing(read_zip(packed), office, what="Brought in")
    assert done.added == 2 and done.differing == 0
    assert done.act is not None
    take_back(office, done.act)
    assert not Trial.objects.filter(deleted_at=None).exists()


def test_a_client_takes_its_trials_along_and_leaves_none_behind(office: Office) -> None:
    client, *_, of_bed, of_client, jars = with_trials(office)
    found = read_zip(client_zip(client, now=NOW)).things
    kinds = (Trial, JarSeries)
    assert {one.pk for one in found if isinstance(one, kinds)} == {of_bed.pk, of_client.pk, jars.pk}
    erase_client(office, client)
    assert not Trial.objects.exists() and not JarSeries.objects.exists()


def test_a_zip_without_a_trials_file_or_with_a_broken_one_is_refused(office: Office) -> None:
    *_, of_bed, _, _ = with_trials(office)
    packed = zipfile.ZipFile(io.BytesIO(store_zip(office, now=NOW)))
    for text in (None, "trial = = 1"):
        again = io.BytesIO()
        with zipfile.ZipFile(again, "w") as archive:
            for name in packed.namelist():
                if name == "SHA256SUMS.txt" or (name == f"trials/{of_bed.pk}.toml" and not text):
                    continue
                is_it = text is not None and name == f"trials/{of_bed.pk}.toml"
                archive.writestr(name, text if is_it and text else packed.read(name))
        with pytest.raises(ArchiveFault) as refused:
            read_zip(again.getvalue())
        assert any("trials.csv row" in one.path for one in refused.value.faults)
