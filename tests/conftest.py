"""Machine code of the forecast is kept between test runs, as the command line keeps it."""

from __future__ import annotations

from loamshift.cli.kernel_cache import keep_kernels

keep_kernels()
