"""Chipboard floor panels against the printed table."""

from __future__ import annotations

import pytest

from estimating.published.panel_centres import greatest_centres_mm

TABLE_7 = [
    # thickness, greatest centres, source
    (18, 450, "NHBC Standards 6.4.19 Table 7, P5 chipboard, 1.5 kN/m²"),
    (22, 600, "NHBC Standards 6.4.19 Table 7, P5 chipboard, 1.5 kN/m²"),
    (18, 450, "LABC Warranty technical blog, floor decks, P5/P7"),
    (22, 600, "LABC Warranty technical blog, floor decks, P5/P7"),
]


@pytest.mark.parametrize(("thickness", "centres", "source"), TABLE_7)
def test_printed_centres(thickness: int, centres: int, source: str) -> None:
    assert greatest_centres_mm(thickness) == centres, source


@pytest.mark.parametrize(("thickness", "centres"), [(12, None), (17, None), (20, 450), (25, 600), (38, 600)])
def test_between_rows_the_next_thinner_one_is_taken(thickness: int, centres: int | None) -> None:
    assert greatest_centres_mm(thickness) == centres


OTHER_ROWS = [
    # NHBC Standards 6.4.19 Table 7, normal domestic load 1.5 kN/m²
    ("softwood boarding", 16, 450),
    ("softwood boarding", 19, 600),
    ("plywood", 15, 450),
    ("plywood", 18, 600),
    ("OSB/3", 15, 450),
    ("OSB/3", 18, 600),
]


@pytest.mark.parametrize(("material", "thickness", "centres"), OTHER_ROWS)
def test_printed_centres_of_other_boards(material: str, thickness: int, centres: int) -> None:
    assert greatest_centres_mm(thickness, material) == centres
