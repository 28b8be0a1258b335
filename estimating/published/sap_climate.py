"""Mean outside temperature of each month in the 22 climate regions of the Standard Assessment Procedure.

Document: SAP 10.2 (17 December 2021) Appendix U, Table U1, unchanged from SAP 2012; region numbers are SAP's.
Read in three transcriptions that agree.
Address: github.com/swwilshub/OpenUValue, packages/engine/src/climate.ts.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from estimating.refusals import Refusal

SOURCE = "SAP 10.2 (17 December 2021) Table U1"


@dataclass(frozen=True, slots=True)
class ClimateRegion:
    """One region: the mean temperature outside in °C, January to December."""

    name: str
    monthly_means_c: tuple[float, ...]


CLIMATE_REGIONS: Mapping[int, ClimateRegion] = MappingProxyType(
    {
        0: ClimateRegion(
            "UK average",
            (4.3, 4.9, 6.5, 8.9, 11.7, 14.6, 16.6, 16.4, 14.1, 10.6, 7.1, 4.2),
        ),
        1: ClimateRegion(
            "Thames",
            (5.1, 5.6, 7.4, 9.9, 13.0, 16.0, 17.9, 17.8, 15.2, 11.6, 8.0, 5.1),
        ),
        2: ClimateRegion(
            "South East England",
            (5.0, 5.4, 7.1, 9.5, 12.6, 15.4, 17.4, 17.5, 15.0, 11.7, 8.1, 5.2),
        ),
        3: ClimateRegion(
            "Southern England",
            (5.4, 5.7, 7.3, 9.6, 12.6, 15.4, 17.3, 17.3, 15.0, 11.8, 8.4, 5.5),
        ),
        4: ClimateRegion(
            "South West England",
            (6.1, 6.4, 7.5, 9.3, 11.9, 14.5, 16.2, 16.3, 14.6, 11.8, 9.0, 6.4),
        ),
        5: ClimateRegion(
            "Severn Wales / Severn England",
            (4.9, 5.3, 7.0, 9.3, 12.2, 15.0, 16.7, 16.7, 14.4, 11.1, 7.8, 4.9),
        ),
        6: ClimateRegion(
            "Midlands",
            (4.3, 4.8, 6.6, 9.0, 11.8, 14.8, 16.6, 16.5, 14.0, 10.5, 7.1, 4.2),
        ),
        7: ClimateRegion(
            "West Pennines Wales / England",
            (4.7, 5.2, 6.7, 9.1, 12.0, 14.7, 16.4, 16.3, 14.1, 10.7, 7.5, 4.6),
        ),
        8: ClimateRegion(
            "North West England / South West Scotland",
            (3.9, 4.3, 5.6, 7.9, 10.7, 13.2, 14.9, 14.8, 12.8, 9.7, 6.6, 3.7),
        ),
        9: ClimateRegion(
            "Borders Scotland / England",
            (4.0, 4.5, 5.8, 7.9, 10.4, 13.3, 15.2, 15.1, 13.1, 9.7, 6.6, 3.7),
        ),
        10: ClimateRegion(
            "North East England",
            (4.0, 4.6, 6.1, 8.3, 10.9, 13.8, 15.8, 15.6, 13.5, 10.1, 6.7, 3.8),
        ),
        11: ClimateRegion(
            "East Pennines",
            (4.3, 4.9, 6.5, 8.9, 11.7, 14.6, 16.6, 16.4, 14.1, 10.6, 7.1, 4.2),
        ),
        12: ClimateRegion(
            "East Anglia",
            (4.7, 5.2, 7.0, 9.5, 12.5, 15.4, 17.6, 17.6, 15.0, 11.4, 7.7, 4.7),
        ),
        13: ClimateRegion(
            "Wales",
            (5.0, 5.3, 6.5, 8.5, 11.2, 13.7, 15.3, 15.3, 13.5, 10.7, 7.8, 5.2),
        ),
        14: ClimateRegion(
            "West Scotland",
            (4.0, 4.4, 5.6, 7.9, 10.4, 13.0, 14.5, 14.4, 12.5, 9.3, 6.5, 3.8),
        ),
        15: ClimateRegion(
            "East Scotland",
            (3.6, 4.0, 5.4, 7.7, 10.1, 12.9, 14.6, 14.5, 12.5, 9.2, 6.1, 3.2),
        ),
        16: ClimateRegion(
            "North East Scotland",
            (3.3, 3.6, 5.0, 7.1, 9.3, 12.2, 14.0, 13.9, 12.0, 8.8, 5.7, 2.9),
        ),
        17: ClimateRegion(
            "Highland",
            (3.1, 3.2, 4.4, 6.6, 8.9, 11.4, 13.2, 13.1, 11.3, 8.2, 5.4, 2.7),
        ),
        18: ClimateRegion(
            "Western Isles",
            (5.2, 5.0, 5.8, 7.6, 9.7, 11.8, 13.4, 13.6, 12.1, 9.6, 7.3, 5.2),
        ),
        19: ClimateRegion(
            "Orkney",
            (4.4, 4.2, 5.0, 7.0, 8.9, 11.2, 13.1, 13.2, 11.7, 9.1, 6.6, 4.3),
        ),
        20: ClimateRegion(
            "Shetland",
            (4.6, 4.1, 4.7, 6.5, 8.3, 10.5, 12.4, 12.8, 11.4, 8.8, 6.5, 4.6),
        ),
        21: ClimateRegion(
            "Northern Ireland",
            (4.8, 5.2, 6.4, 8.4, 10.9, 13.5, 15.0, 14.9, 13.1, 10.0, 7.2, 4.7),
        ),
    }
)


def climate_region(number: int) -> ClimateRegion:
    """Give the climate of one region.

    Args:
        number: The region's number, 0 for the average of the United Kingdom. Scalar. [-]

    Returns:
        The region's name and monthly means. Record. [C]

    Raises:
        Refusal: There is no such region.

    Source:
        SAP 10.2 (17 December 2021) Appendix U, Table U1.
    """
    region = CLIMATE_REGIONS.get(number)
    if region is None:
        raise Refusal("climate_region", "must be a SAP region from 0 to 21")
    return region
