"""What goes up through the hatch of a loft, and who lifts it."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from estimating.checks.access.carried_up import board_passes, lifting_verdicts
from estimating.checks.access.way_up import way_up
from estimating.choices import Part
from estimating.price_book import Board, Condition
from estimating.survey import Severity, Survey
from tests.estimating.lofts import choices, cut_roof_loft, price_book, rectangle, trussed_loft


def board(code: str) -> Board:
    found = price_book().product(code)
    assert isinstance(found, Board)
    return found


def with_hatch(survey: Survey, **changes: object) -> Survey:
    return replace(survey, hatch=replace(survey.hatch, **changes))


def passing(survey: Survey, code: str, **chosen: object) -> bool:
    return board_passes(way_up(survey, price_book(), choices(**chosen)), board(code))


def test_a_long_board_is_stopped_by_little_room_above_and_a_short_one_is_not() -> None:
    low = with_hatch(trussed_loft(), headroom_above_mm=350, lining_depth_mm=500)
    assert not passing(low, "B22")
    assert not passing(with_hatch(low, clear_floor_mm=200), "B22")
    assert passing(with_hatch(trussed_loft(), headroom_above_mm=1300), "B22N")


def test_room_above_that_nobody_measured_follows_from_pitch_and_place() -> None:
    middle = way_up(cut_roof_loft(), price_book(), choices())
    at_eaves = with_hatch(cut_roof_loft(), outline=rectangle(2600, 300, 3200, 990))
    assert way_up(at_eaves, price_book(), choices()).above.value < middle.above.value


def test_a_new_hatch_counts_only_where_it_is_cut_for_certain() -> None:
    small = with_hatch(trussed_loft(), outline=rectangle(3335, 3200, 3735, 3600))
    parts = frozenset({Part.INSULATION, Part.HATCH})
    assert not passing(small, "B22")
    assert passing(small, "B22", parts=parts)
    assert not passing(small, "B22", parts=parts, optional_parts=frozenset({Part.HATCH}))


def test_heavy_boards_are_lifted_in_twos_and_the_employer_goes_first() -> None:
    """HSE INDG143, from memory: 10 kg for one man between shoulder and head."""
    [light] = lifting_verdicts(board("B22N"), choices())
    [heavy] = lifting_verdicts(board("B22"), choices(conditions=frozenset({Condition.LONG_CARRY})))
    assert light.severity is Severity.NOTE
    assert heavy.severity is Severity.CAUTION
    assert "in twos" in heavy.words
    assert "10 m at a time" in heavy.words
    assert heavy.words.endswith("The employer's own assessment goes before this.")
    assert list(lifting_verdicts(replace(board("B22"), weight_kg=Decimal(0)), choices())) == []
