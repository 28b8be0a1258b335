"""What cannot be so is refused by name, and all of it at once."""

from __future__ import annotations

from dataclasses import replace

import pytest

from estimating.design.boards import BoardProduct, LayingRules, LayoutProblem, PedestalRule
from estimating.refusals import Refusal
from tests.estimating.boards.problems import deck, keep_out


def _fields(refusal: Refusal) -> set[str]:
    return {each.field for each in refusal.each}


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"outline": ((0, 0), (900, 900), (900, 0), (0, 900))}, "outline"),
        ({"outline": ((0, 0), (900, 0))}, "outline"),
        ({"outline": ((0, 0), (900_000, 0), (900_000, 900), (0, 900))}, "outline"),
        ({"joist_lines": ()}, "joist_lines"),
        ({"joist_lines": (20, 620, 620)}, "joist_lines[2]"),
        ({"joist_lines": (620, 20)}, "joist_lines[1]"),
        ({"row_origin_mm": 1}, "row_origin_mm"),
        ({"row_origin_mm": -900_000}, "row_origin_mm"),
        ({"keep_outs": (keep_out(0, 0, 0, 100),)}, "keep_outs[0].outline"),
    ],
)
def test_a_deck_that_cannot_be_so_is_refused(changes: dict[str, object], field: str):
    problem = deck(3000, 1200)
    given = {name: getattr(problem, name) for name in LayoutProblem.__dataclass_fields__}
    with pytest.raises(Refusal) as refused:
        LayoutProblem(**{**given, **changes})
    assert field in _fields(refused.value)


def test_a_keep_out_beside_the_deck_is_no_fault():
    assert replace(deck(3000, 1200), keep_outs=(keep_out(5000, 0, 5600, 600),)).keep_outs


def test_a_board_without_size_is_refused_all_at_once():
    with pytest.raises(Refusal) as refused:
        BoardProduct(code="none", cover_length_mm=0, cover_width_mm=-5, thickness_mm=0, pack_size=0)
    assert _fields(refused.value) == {"cover_length_mm", "cover_width_mm", "thickness_mm", "pack_size"}


def test_rules_and_pedestals_take_no_negative_measures():
    with pytest.raises(Refusal) as refused:
        LayingRules(kerf_mm=-1, min_stagger_mm=-1)
    assert _fields(refused.value) == {"kerf_mm", "min_stagger_mm"}
    with pytest.raises(Refusal) as refused:
        PedestalRule(max_spacing_mm=0)
    assert _fields(refused.value) == {"max_spacing_mm"}
