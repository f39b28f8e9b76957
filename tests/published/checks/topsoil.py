"""The density of a topsoil nobody weighed against the typical profiles of a soil map."""

from __future__ import annotations

import numpy as np

from loamshift.core.topsoil import (
    TopsoilParameters,
    bulk_density_g_cm3,
    mineral_density_g_cm3,
)
from loamshift.tables.parameters import parameter_values
from published.check import Check, Kind
from published.checks.carbonate import rows

P = TopsoilParameters(**parameter_values("topsoil"))
ACCURACY = 1.14
"""What Perie and Ouimet (2008, abstract) report for density from organic matter: 14 %."""


def checks() -> list[Check]:
    cases = rows("topsoil_density")
    logs = np.array(
        [
            np.log10(
                bulk_density_g_cm3(
                    mineral_g_cm3=mineral_density_g_cm3(
                        sand_pct=float(row["sand_pct"]),
                        clay_pct=float(row["clay_pct"]),
                        params=P,
                    ),
                    organic_matter_pct=float(row["organic_matter_pct"]),
                    params=P,
                )
                / float(row["bulk_density_g_cm3"])
            )
            for row in cases
        ]
    )
    humous = np.array([float(row["organic_matter_pct"]) >= 10.0 for row in cases])
    rmse, rmse_humous = (float(np.sqrt(np.mean(some**2))) for some in (logs, logs[humous]))
    return [
        Check(
            topic="soil density",
            kind=Kind.SOIL,
            claim="density of topsoils from sand, clay and organic matter, 0.3 to 65 %",
            source="Soil map of the Netherlands (BRO, 2025-01), typical topsoil horizons as "
            "shipped in the package dutchsoils 0.3.3",
            n=logs.size,
            figure=f"log10 bias {float(logs.mean()):+.3f}, RMSE {rmse:.3f}",
            limit=f"RMSE below {np.log10(ACCURACY):.3f}, the 14 % of Perie and Ouimet (2008)",
            passed=rmse < np.log10(ACCURACY),
            in_view="this map: the density of organic matter alone was chosen between two "
            "published ones with it in sight",
            note="Every sixth topsoil by organic matter; typical profiles drawn up by surveyors, "
            "not single measurements. With 10 % of organic matter and more the "
            f"RMSE is {rmse_humous:.3f} (n {int(humous.sum())}).",
        )
    ]
