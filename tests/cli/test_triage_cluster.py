"""Rows on real worker processes: killed, gone, or all well, the result is the same."""

from __future__ import annotations

import os
import signal
import threading
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pyarrow.parquet as pq
import pytest

from cli.conftest import Command
from cli.test_triage_command import DAY, row, table
from loamshift.cli import triage_spread

distributed: Any = pytest.importorskip("distributed")
pytestmark = pytest.mark.filterwarnings("ignore")


@pytest.fixture(scope="module")
def cluster() -> Iterator[Any]:
    """Two real processes with one thread each, as somebody's own scheduler has them."""
    import dask

    quiet = {"distributed.scheduler.allowed-failures": 10, "distributed.worker.daemon": True}
    with (
        dask.config.set(quiet),
        distributed.LocalCluster(
            n_workers=2,
            threads_per_worker=1,
            processes=True,
            host="127.0.0.1",
            dashboard_address=None,
            silence_logs=50,
        ) as made,
    ):
        yield made


def rows_of(count: int) -> list[list[str]]:
    return [row(n, ph=f"{4 + n % 45 / 10:.1f}") for n in range(count)]


def test_a_worker_that_is_killed_changes_nothing(
    command: Command, tmp_path: Path, cluster: Any
) -> None:
    file = table(tmp_path, rows_of(160))
    one, two = tmp_path / "one.parquet", tmp_path / "two.parquet"
    called = ("triage", str(file), "--block-rows", "4", *DAY)
    assert command(*called, "-o", str(one), "--jobs", "1").code == 0
    killed: list[int] = []

    def kill() -> None:
        with distributed.Client(cluster, set_as_default=False) as client:
            pid = next(iter(client.run(os.getpid).values()))
        until_s = time.monotonic() + 240.0
        while len(list((tmp_path / "two.parts").glob("*.json"))) < 5:
            if time.monotonic() > until_s:
                return
            time.sleep(0.005)
        os.kill(pid, signal.SIGKILL)
        killed.append(pid)

    killer = threading.Thread(target=kill)
    killer.start()
    done = command(*called, "-o", str(two), "--scheduler", cluster.scheduler_address)
    killer.join()
    assert done.code == 0, done.err
    assert killed
    assert one.read_bytes() == two.read_bytes()


def test_a_cluster_that_goes_away_leaves_what_was_done(
    command: Command, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(triage_spread, "NOBODY_S", 2.0)
    file, out = table(tmp_path, rows_of(60)), tmp_path / "o.parquet"
    called = ("triage", str(file), "-o", str(out), "--block-rows", "2", *DAY)
    lent = distributed.LocalCluster(
        n_workers=1,
        threads_per_worker=1,
        processes=False,
        protocol="tcp",
        host="127.0.0.1",
        dashboard_address=None,
        silence_logs=50,
    )

    def end() -> None:
        while len(list((tmp_path / "o.parts").glob("*.json"))) < 4:
            time.sleep(0.005)
        lent.close()

    ender = threading.Thread(target=end)
    ender.start()
    done = command(*called, "--scheduler", lent.scheduler_address)
    ender.join()
    assert done.code == 1, done.err
    assert "has gone away" in done.err and "rows are kept" in done.err
    assert not out.exists()
    again = command(*called, "--jobs", "1")
    assert again.code == 0 and "Going on after" in again.err
    assert pq.read_table(out).column("key").to_pylist() == [str(n) for n in range(60)]


def test_no_cluster_at_an_address_is_told(
    command: Command, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(triage_spread, "_ANSWERS_S", 0.5)
    file = table(tmp_path, rows_of(2))
    called = ("triage", str(file), "-o", str(tmp_path / "o.csv"), *DAY)
    done = command(*called, "--scheduler", "tcp://127.0.0.1:9")
    assert done.code == 1 and "No cluster answers" in done.err


def test_a_block_that_kills_every_worker_is_told_row_by_row(tmp_path: Path) -> None:
    from datetime import date

    from loamshift.case.table.judge_block import Order
    from loamshift.case.table.open_table import columns_of, open_table
    from loamshift.report.words import Words

    file = open_table(table(tmp_path, [*rows_of(3), ["broken"]]))
    columns = columns_of(file.headings, file="a", named={})
    order = Order(columns=columns, today=date(2026, 4, 12), seed=1, ahead=None, words=Words())
    (block,) = file.blocks(file.begin, used=columns.used, rows=10)
    found = triage_spread.given_up(block, order)
    assert found.table.num_rows == 0
    assert sorted(one.row for one in found.problems) == [2, 3, 4, 5]
