"""A board between two joists needs more than its edge bearers. Common practice, no source."""

from __future__ import annotations

from dataclasses import replace

from estimating.checks.deck.edge_bearers import edge_bearer_verdicts
from estimating.estimate import Estimate, estimate
from estimating.survey import KeepOut, KeepOutKind, Severity
from tests.estimating.lofts import choices, price_book, rectangle, trussed_loft


def with_a_chimney(left: int, right: int) -> Estimate:
    """A deck of ties at 300, 900 ... with a chimney across all of its depth."""
    survey = trussed_loft()
    chimney = KeepOut(name="chimney", kind=KeepOutKind.CHIMNEY, outline=rectangle(left, 2100, right, 5200))
    zone = replace(survey.zones[0], outline=rectangle(3920, 2200, 8080, 5080))
    hatch = replace(survey.hatch, outline=rectangle(3335, 600, 3865, 1300))
    survey = replace(survey, keep_outs=(chimney,), zones=(zone,), hatch=hatch)
    return estimate(survey, price_book(), choices(board_code="B22"))


def test_boards_between_two_joists_are_a_caution() -> None:
    """The strip from 3920 to 4480 lies between the ties at 3900 and 4500."""
    result = with_a_chimney(4480, 4880)
    (verdict,) = edge_bearer_verdicts(result.design.zones)
    assert verdict.severity is Severity.CAUTION
    assert "under boards that lie between two joists" in verdict.words
    assert verdict in result.checks.verdicts


def test_boards_with_a_joist_below_them_are_not() -> None:
    assert not list(edge_bearer_verdicts(with_a_chimney(5300, 5700).design.zones))
