"""What the checks say, and how gravely."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from typing import Any

import pytest

from estimating.checks.verdicts import Verdict
from estimating.choices import Part
from estimating.estimate import estimate
from estimating.survey import (
    DeckZone,
    Finding,
    Hatch,
    JoistField,
    Severity,
    Survey,
    evenly_spaced,
)
from tests.estimating.lofts import choices, cut_roof_loft, price_book, rectangle, trussed_loft


def verdicts(survey: Survey, **changes: Any) -> tuple[Verdict, ...]:
    return estimate(survey, price_book(), choices(**changes)).checks.verdicts


def said(found: tuple[Verdict, ...], subject: str) -> Verdict:
    return next(verdict for verdict in found if verdict.subject == subject)


def joists_at(centres: int) -> JoistField:
    field = trussed_loft().joist_fields[0]
    return replace(
        field, centre_lines_mm=evenly_spaced(first_mm=300, centres_mm=centres, count=9000 // centres)
    )


@pytest.mark.parametrize(
    ("centres", "code", "severity"),
    [
        (400, "B18N", Severity.NOTE),
        (450, "B18N", Severity.NOTE),
        (600, "B22", Severity.NOTE),
        (600, "B18N", Severity.STOP),
        (700, "B22", Severity.STOP),
    ],
)
def test_boards_against_the_published_centres(centres: int, code: str, severity: Severity) -> None:
    """NHBC Standards 6.4.19 Table 7: 18 mm to 450, 22 mm to 600; the price book's own limit stops."""
    survey = trussed_loft(joist_fields=(joists_at(centres),))
    boards = [v for v in verdicts(survey, board_code=code) if v.subject == "boards" and v.figure]
    assert [verdict.severity for verdict in boards] == [severity]


def test_a_board_outside_the_table_but_within_its_own_data_is_a_caution() -> None:
    book = price_book()
    bold = tuple(
        replace(each, max_joist_centres_mm=600) if each.code == "B18N" else each  # type: ignore[call-arg]
        for each in book.products
    )
    found = estimate(trussed_loft(), replace(book, products=bold), choices(board_code="B18N")).checks.verdicts
    board = next(verdict for verdict in found if verdict.subject == "boards" and verdict.figure)
    assert board.severity is Severity.CAUTION
    assert "outside the table" in board.words


def test_a_deck_on_one_joist_would_tip_and_is_a_stop() -> None:
    """Common practice, no source: 1 m of deck between joists at 600, with one of them under it."""
    survey = trussed_loft(
        zones=(DeckZone(name="A", outline=rectangle(4000, 4200, 5000, 5200), joist_field="main"),)
    )
    boards = said(verdicts(survey), "boards")
    assert boards.severity is Severity.STOP
    assert "stands on one joist only" in boards.words


def test_squashing_that_costs_no_more_heat_than_is_lost_now_is_not_told() -> None:
    """100 mm of old wool between 97 mm joists: pressed by 3 mm it loses 1.02 times the heat."""
    found = verdicts(trussed_loft(), parts=frozenset())
    assert not [verdict for verdict in found if "squash" in verdict.words]
    assert [verdict for verdict in verdicts(trussed_loft()) if "squash" in verdict.words]


def test_a_deck_that_cannot_be_laid_is_a_stop_that_says_why() -> None:
    found = estimate(trussed_loft(), price_book(), choices(board_code="B22N"))
    assert found.design.zones[0].layout is None
    assert any("joints" in verdict.words for verdict in found.checks.stops)


def test_no_support_high_enough_is_a_stop() -> None:
    gap = said(verdicts(trussed_loft(), gap_mm=250), "gap above insulation")
    assert gap.severity is Severity.STOP
    assert "98 mm short" in gap.words  # 173 + 250 − 325


@pytest.mark.parametrize(
    ("ridge", "severity"), [(240, Severity.STOP), (1400, Severity.CAUTION), (2450, Severity.NOTE)]
)
def test_headroom_is_ridge_less_support_less_board(ridge: int, severity: Severity) -> None:
    survey = trussed_loft()
    survey = replace(survey, roof=replace(survey.roof, ridge_height_mm=ridge))
    result = estimate(survey, price_book(), choices())
    assert result.checks.headroom_mm.value == ridge - 225 - 22
    assert said(result.checks.verdicts, "headroom").severity is severity


def test_trussed_rafters_are_never_cut_and_their_designer_is_asked() -> None:
    words = " ".join(v.words for v in verdicts(trussed_loft()) if v.subject == "trussed rafters")
    assert "Ask the truss designer" in words
    assert "Never cut" in words
    assert not [v for v in verdicts(cut_roof_loft()) if v.subject == "trussed rafters"]


def test_a_hatch_across_a_tie_is_to_be_measured_again() -> None:
    """A hatch in a trussed roof lies between two ties, or one was cut; C. Mindham: never cut a truss."""
    across = "lies across the tie at 3900 mm"
    moved = Hatch(outline=rectangle(3635, 3200, 4200, 3930))
    assert any(across in verdict.words for verdict in verdicts(trussed_loft(hatch=moved)))
    assert not any("lies across the tie" in verdict.words for verdict in verdicts(trussed_loft()))


def test_a_chimney_asks_for_boards_kept_clear() -> None:
    assert said(verdicts(cut_roof_loft()), "flues and chimneys").severity is Severity.CAUTION


def test_downlights_without_covers_are_a_caution() -> None:
    assert said(verdicts(trussed_loft()), "downlights").severity is Severity.CAUTION
    covered = frozenset({Part.INSULATION, Part.DOWNLIGHT_COVERS})
    assert not [v for v in verdicts(trussed_loft(), parts=covered) if v.subject == "downlights"]


def test_a_hatch_under_520_mm_is_a_caution_unless_a_new_one_is_offered() -> None:
    """NHBC Standards 2020 7.2.12."""
    survey = trussed_loft()
    small = replace(survey, hatch=replace(survey.hatch, outline=rectangle(3335, 3200, 3835, 3900)))
    assert "520 mm" in said(verdicts(small), "hatch").words
    offered = verdicts(small, parts=frozenset({Part.INSULATION, Part.HATCH}))
    assert not [verdict for verdict in offered if "520 mm" in verdict.words]


def test_a_new_hatch_must_be_drawn_before_boards_are_ordered() -> None:
    words = said(verdicts(trussed_loft(), parts=frozenset({Part.HATCH})), "hatch").words
    assert "draw the new opening" in words


def test_a_zone_beyond_its_joists_or_the_loft_is_a_stop() -> None:
    survey = trussed_loft()
    field = replace(survey.joist_fields[0], outline=rectangle(0, 0, 5900, 7200))
    beyond = said(verdicts(replace(survey, joist_fields=(field,))), "zones")
    assert beyond.severity is Severity.STOP
    assert beyond.words.startswith("2.88 m² of zone A lies beyond joist field main")
    assert not [verdict for verdict in verdicts(survey) if verdict.subject == "zones"]


def test_a_chosen_board_too_wide_for_the_hatch_is_a_caution() -> None:
    survey = trussed_loft()
    small = replace(survey, hatch=replace(survey.hatch, outline=rectangle(3335, 3200, 3735, 3600)))
    words = [verdict.words for verdict in verdicts(small, board_code="B22") if verdict.subject == "hatch"]
    assert any("200 mm too wide for the hatch" in each for each in words)


def test_a_target_missed_is_a_caution() -> None:
    heat = said(verdicts(trussed_loft(), parts=frozenset()), "heat")
    assert heat.severity is Severity.CAUTION
    assert "No insulation is offered" in heat.words


def test_stops_come_before_cautions_and_cautions_before_notes() -> None:
    finding = Finding(hazard="asbestos", severity=Severity.STOP, words="Old lagging on a pipe.")
    order = [verdict.severity for verdict in verdicts(trussed_loft(findings=(finding,)))]
    assert order == sorted(order, key=list(Severity).index)
    assert order[0] is Severity.STOP


def test_no_verdict_says_that_anything_is_safe() -> None:
    for survey in (trussed_loft(), cut_roof_loft()):
        assert not [verdict for verdict in verdicts(survey) if "safe" in verdict.words.lower()]


def test_two_zones_on_joists_of_one_depth_stand_level() -> None:
    zones = tuple(
        DeckZone(name=name, outline=rectangle(left, 1000, left + 2400, 3400), joist_field="main")
        for name, left in (("A", 900), ("B", 5700))
    )
    result = estimate(trussed_loft(zones=zones), price_book(), choices())
    assert len({zone.support_height_mm.value for zone in result.design.zones}) == 1
    assert result.design.deck_area_m2.value == Decimal("11.52")
