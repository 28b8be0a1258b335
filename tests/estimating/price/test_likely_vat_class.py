from __future__ import annotations

import pytest

from estimating.price.likely_vat_class import likely_vat_class
from estimating.ways_to_price import VatClass


@pytest.mark.parametrize(
    ("name", "energy_saving"),
    [  # VATA 1994 Schedule 7A Group 2 note 1; VENSAV3040; VENSAV3240
        ("Mineral wool loft insulation, 200 mm roll", True),
        ("tank insulation", True),
        ("Pipe lagging", True),
        ("Cylinder jacket", True),
        ("insulation between joists", True),
        ("Draught-strip to hatch", True),
        ("draught stripping", True),
        ("floor insulation", True),
        ("Glass wool", True),
        ("Loft roll 200 mm", True),
        ("loft_insulation", True),
        ("PIR insulation board", True),
        ("Draft strip", True),
        ("insulation to the loft hatch", True),
        ("loft hatch insulation", True),
        ("loft hatch with insulation", False),
        ("insulated loft boards", False),
        ("Loft boarding over insulation", False),
        ("raised storage deck with insulation", False),
        ("insulated loft hatch", False),
        ("new loft hatch", False),
        ("Loft ladder", False),
        ("LED light", False),
        ("Pedestal", False),
        ("curtains", False),
        ("", False),
    ],
)
def test_name_suggests_the_relief_only_for_what_the_law_lists(name: str, energy_saving: bool) -> None:
    assert likely_vat_class(name) is (VatClass.ENERGY_SAVING if energy_saving else VatClass.STANDARD)
