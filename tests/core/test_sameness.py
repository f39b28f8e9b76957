"""The promise: same lock and machine, same bits; another machine, the same pH within 1e-9."""

from __future__ import annotations

import json
import os
import platform
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest

from core.column_cases import everything, pick, run, same_result
from core.course_case import MEMBERS, bed, course

TESTS = Path(__file__).resolve().parents[1]
BASELINE = TESTS / "baselines" / "column_course.json"
ELSEWHERE_PH = 1e-9


@pytest.mark.parametrize("threads", [1, 2, 3])
@pytest.mark.parametrize("cut", [1, 2, 4])
def test_the_same_bits_for_any_threads_and_any_two_batches(threads: int, cut: int) -> None:
    the_soil, the_members, days = bed()
    whole = run(the_soil, the_members, days, everything())
    for part in (np.arange(cut), np.arange(cut, MEMBERS)):
        alone = run(the_soil, pick(the_members, part), days, everything(), threads=threads)
        assert np.array_equal(alone.ph.view(np.int64), whole.ph[part].view(np.int64))
        assert np.array_equal(alone.balance_error, whole.balance_error[part])


def test_the_same_bits_once_more() -> None:
    assert same_result(course(threads=2), course())


def test_another_processor_gives_the_same_ph(tmp_path: Path) -> None:
    """Machine code for the plainest processor, then plain arithmetic under it as well."""
    generic = {
        "NUMBA_CPU_NAME": "generic",
        "NUMBA_CPU_FEATURES": "",
        "NUMBA_CACHE_DIR": str(tmp_path / "kernels"),
    }
    here = course().ph
    plain = ph_in_a_process_of_its_own(tmp_path / "plain.npy", generic)
    assert np.array_equal(plain.view(np.int64), here.view(np.int64))
    oldest = ph_in_a_process_of_its_own(tmp_path / "oldest.npy", generic | plain_arithmetic())
    assert np.abs(oldest - here).max() < ELSEWHERE_PH


def ph_in_a_process_of_its_own(file: Path, environment: dict[str, str]) -> np.ndarray:
    subprocess.run(
        [sys.executable, str(TESTS / "core" / "course_case.py"), str(file)],
        env={**os.environ, "PYTHONPATH": str(TESTS), **environment},
        stdin=subprocess.DEVNULL,
        check=True,
    )
    ph: np.ndarray = np.load(file)
    return ph


def plain_arithmetic() -> dict[str, str]:
    """Without what newer processors bring to NumPy and, on Linux, to exp, log and pow."""
    if platform.machine().lower() not in ("x86_64", "amd64"):
        return {}
    from numpy._core import _multiarray_umath as numpy_core

    has = numpy_core.__cpu_features__
    newer = [name for name in numpy_core.__cpu_dispatch__ if has.get(name)]
    return {
        "NPY_DISABLE_CPU_FEATURES": " ".join(newer),
        "GLIBC_TUNABLES": "glibc.cpu.hwcaps=-AVX2,-FMA,-FMA4,-AVX2_Usable,-FMA_Usable",
    }


def test_the_ph_of_the_baseline_is_reached() -> None:
    """Written on another machine by tools/column_baseline.py; a real change rewrites it."""
    kept = json.loads(BASELINE.read_text(encoding="utf-8"))
    result = course()
    assert kept["day"] == result.day.tolist()
    assert np.ptp(result.ph) > 1.0
    assert np.abs(np.array(kept["ph"]) - result.ph).max() < ELSEWHERE_PH
