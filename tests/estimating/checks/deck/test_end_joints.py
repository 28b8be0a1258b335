"""Joints that are not on centre lines are told, with whose data allow it."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from estimating.checks.verdicts import Verdict
from estimating.estimate import Estimate, estimate
from estimating.price_book import Board, Pedestal, PriceBook
from estimating.survey import Severity
from tests.estimating.lofts import choices, price_book, trussed_loft

SHEET = "Invented Boards, data sheet 4 of May 2025, page 2"


def _book(kind: type, **changes: Any) -> PriceBook:
    book = price_book()
    changed = tuple(replace(each, **changes) if isinstance(each, kind) else each for each in book.products)
    return replace(book, products=changed)


def _worked(book: PriceBook, code: str = "B22N") -> Estimate:
    return estimate(trussed_loft(), book, choices(board_code=code))


def _told(worked: Estimate, words: str) -> list[Verdict]:
    return [verdict for verdict in worked.checks.verdicts if words in verdict.words]


def test_floating_joints_are_counted_and_told_with_their_source() -> None:
    worked = _worked(_book(Board, floating_end_joints=True, floating_source=SHEET))
    (told,) = _told(worked, "float between joists")
    assert told.severity is Severity.NOTE
    assert told.source == SHEET
    assert told.figure is not None
    assert told.figure.working.source == SHEET
    (zone,) = worked.design.zones
    assert zone.layout is not None
    lines = zone.problem.joist_lines
    assert told.figure.value == sum(joint.x not in lines for joint in zone.layout.joints) > 0
    assert told.words.startswith(f"Zone A: {told.figure.value} of {len(zone.layout.joints)} end joints float")


def test_joints_on_centre_lines_are_not_told() -> None:
    worked = _worked(price_book(), "B22")
    assert not _told(worked, "float between joists")
    assert not _told(worked, "off a joist's centre line")


def test_joints_off_centre_are_told_with_the_bearing_left() -> None:
    worked = _worked(_book(Pedestal, top_plate_mm=92), "B22")
    (zone,) = worked.design.zones
    assert zone.layout is not None
    told = _told(worked, "off a joist's centre line")
    off = [joint for joint in zone.layout.joints if joint.x not in zone.problem.joist_lines]
    assert bool(told) == bool(off)
    assert zone.problem.rules.joint_tolerance_mm == 10
    for verdict in told:
        assert verdict.figure is not None
        assert verdict.figure.value == 10
        assert "18 mm" in verdict.words
