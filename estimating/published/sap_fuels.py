"""Carbon dioxide, primary energy and price of the fuels a house is heated with.

Document: SAP 10.2 (17 December 2021) Table 12, read in a transcription. The prices are those of 2021 and
stale: a firm sets its own before a saving is shown.
Address: github.com/swwilshub/OpenUValue, packages/engine/src/heatSource.ts.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from types import MappingProxyType

SOURCE = "SAP 10.2 (17 December 2021) Table 12"


@dataclass(frozen=True, slots=True)
class Fuel:
    """One row of the table, for each kWh of fuel."""

    name: str
    co2_kg_kwh: Decimal
    primary_energy_factor: Decimal
    price_2021_pence_kwh: Decimal


FUELS: Mapping[str, Fuel] = MappingProxyType(
    {
        each.name: each
        for each in (
            Fuel("mains gas", Decimal("0.210"), Decimal("1.130"), Decimal("3.64")),
            Fuel("heating oil", Decimal("0.298"), Decimal("1.180"), Decimal("4.94")),
            Fuel("bulk LPG", Decimal("0.241"), Decimal("1.141"), Decimal("6.74")),
            Fuel("electricity", Decimal("0.136"), Decimal("1.501"), Decimal("16.49")),
            Fuel("wood logs", Decimal("0.028"), Decimal("1.046"), Decimal("5.12")),
            Fuel("wood pellets, bulk", Decimal("0.053"), Decimal("1.325"), Decimal("6.25")),
            Fuel("house coal", Decimal("0.395"), Decimal("1.064"), Decimal("5.58")),
        )
    }
)
