"""The climate region of a postcode area.

Document: SAP 10.2 Table U6, from memory and provisional: whoever knows the place better says so. Some areas
lie in two regions; the one of their larger part is given.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

SOURCE = "SAP 10.2 Table U6, from memory"

_AREAS_BY_REGION = {
    1: "AL CR E EC EN GU HA HP KT LU MK N NW OX RG RH SE SG SL SM SW TW UB W WC WD",
    2: "BN BR CT DA ME TN",
    3: "BH DT PO SO SP",
    4: "EX PL TQ TR",
    5: "BA BS CF GL NP SA SN TA",
    6: "B CV DE DY HR LE NN ST SY TF WR WS WV",
    7: "BB BL CH CW FY L LA M OL PR SK WA WN",
    8: "CA DG",
    9: "NE TD",
    10: "DH DL HG SR TS YO",
    11: "BD DN HD HU HX LN LS NG S WF",
    12: "CB CM CO IG IP NR PE RM SS",
    13: "LD LL",
    14: "FK G KA ML PA",
    15: "DD EH KY PH",
    16: "AB",
    17: "IV KW",
    18: "HS",
    20: "ZE",
    21: "BT",
}
_SPLIT_AREAS = "BA BD CM EH EN GU IG IV KW LA LD LL LS MK NE NG PE PH PO RG RH RM S SA SK SN SP SR SY TA YO"

REGION_OF_AREA: Mapping[str, int] = MappingProxyType(
    {area: region for region, areas in _AREAS_BY_REGION.items() for area in areas.split()}
)
SPLIT_AREAS = frozenset(_SPLIT_AREAS.split())


def region_of_area(postcode_area: str) -> int | None:
    """Give the climate region of a postcode area.

    Args:
        postcode_area: The letters that a postcode begins with. Text. [-]

    Returns:
        SAP's number of the region, None for an area that is not in the table. Scalar. [-]

    Source:
        SAP 10.2 Table U6, from memory.
    """
    return REGION_OF_AREA.get(postcode_area.strip().upper())


def lies_in_two_regions(postcode_area: str) -> bool:
    """Tell whether parts of a postcode area lie in another climate region.

    Args:
        postcode_area: The letters that a postcode begins with. Text. [-]

    Returns:
        Whether they do. Flag. [-]

    Source:
        SAP 10.2 Table U6, from memory.
    """
    return postcode_area.strip().upper() in SPLIT_AREAS
