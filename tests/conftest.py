"""Machine code of the forecast is kept between test runs, as the command line keeps it.

Property tests try the same cases each time. ``tools/check random`` tries others; what it finds is
written above its test as an ``@example``, and is tried ever after.
"""

from __future__ import annotations

import gc
import os

gc.set_threshold(100_000, 20, 20)
"""Thousands of tests are kept until the end; looking through them for cycles every 700 new objects
took a tenth of a run, and a third where tests are many and short."""

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
"""Small matrices gain nothing from a second core, and two runs of tests would fight for it."""

from hypothesis import HealthCheck, settings  # noqa: E402 (numpy reads it when it is loaded)

from loamshift.cli.kernel_cache import keep_kernels  # noqa: E402
from tries import ORDINARY_SHARE, RANDOM_TIMES  # noqa: E402

keep_kernels()

BUSY = (HealthCheck.too_slow, HealthCheck.function_scoped_fixture)
"""A busy machine is no fault of the code, and no test keeps anything in its fixtures."""
USUAL = 100
"""Examples of a property that asks for no number; see ``tries`` for those that do."""
settings.register_profile(
    "steady",
    max_examples=round(USUAL * ORDINARY_SHARE),
    derandomize=True,
    deadline=None,
    database=None,
    suppress_health_check=BUSY,
)
settings.register_profile(
    "random",
    max_examples=USUAL * RANDOM_TIMES,
    derandomize=False,
    deadline=None,
    print_blob=True,
    suppress_health_check=BUSY,
)
settings.load_profile("steady")


def pytest_collection_finish() -> None:
    """What is there before the first test stays to the end: no need to look through it again."""
    gc.freeze()
