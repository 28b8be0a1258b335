"""What goes up through the hatch of a loft, and who lifts it."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from hypothesis import given, settings
from hypothesis import strategies as st

from estimating.checks.access.carried_up import (
    board_passes,
    carried_up,
    carried_up_verdicts,
    other_things,
    roll_verdicts,
)
from estimating.checks.access.goes_up import Size, goes_up, passes
from estimating.checks.access.lifted import lifting_verdict
from estimating.checks.access.way_up import WayUp, way_up
from estimating.choices import Part
from estimating.estimate import estimate
from estimating.price_book import Board, Condition, PriceBook
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


def through(survey: Survey, size: Size) -> tuple[bool, int, int, int]:
    """Whether it passes, the longest that does, and by how much it is too long and too wide."""
    found = goes_up(way_up(survey, price_book(), choices()), "a board", size)
    return found.passes, found.longest_mm.value, found.too_long_mm.value, found.too_wide_mm.value


def test_what_stays_upright_is_as_long_as_the_lower_room_and_the_working_says_by_how_much_it_fails() -> None:
    """Geometry: a lining deeper than the board is long lets it tilt by nothing that matters."""
    chimney = with_hatch(
        trussed_loft(),
        outline=rectangle(3335, 3200, 3735, 3600),
        lining_depth_mm=2000,
        headroom_above_mm=5000,
        floor_to_ceiling_mm=1900,
    )
    passed, longest, too_long, _ = through(chimney, Size(2400, 380, 390))
    assert not passed
    assert longest + too_long == 2400
    assert abs(longest - 1900) <= 1
    assert through(chimney, Size(longest, 380, 390))[0]


def test_what_is_too_wide_is_told_with_the_width_that_passes() -> None:
    narrow = with_hatch(trussed_loft(), outline=rectangle(3335, 3200, 3735, 3600))
    way = way_up(narrow, price_book(), choices())
    [verdict] = carried_up_verdicts(way, carried_up(way, board("B22")))
    assert verdict.severity is Severity.CAUTION
    assert "200 mm too wide" in verdict.words
    assert "400 mm would go up" in verdict.words


def test_what_nobody_measured_of_the_way_up_is_said_once() -> None:
    def told(survey: Survey) -> str:
        way = way_up(survey, price_book(), choices())
        return next(carried_up_verdicts(way, carried_up(way, board("B22")))).words

    usual = told(trussed_loft())
    assert "the floor below, taken as free" in usual
    assert "the roof over the hatch, taken by its pitch" in usual
    assert "Not measured" not in told(with_hatch(trussed_loft(), clear_floor_mm=2600, headroom_above_mm=2300))


def test_a_thing_wider_than_both_sides_may_go_up_from_corner_to_corner() -> None:
    """Geometry: the diagonal of 530 by 700 mm is 878 mm."""
    assert through(trussed_loft(), Size(1200, 800, 18)) == (True, 2199, 0, 0)
    assert through(trussed_loft(), Size(1200, 900, 18))[3] == 200


def test_the_ladder_that_is_bought_is_the_one_that_must_go_up() -> None:
    """A ladder that costs less and does not reach the floor is not looked at."""
    folded = {"L1": 1200, "L2": 5000}
    products = tuple(
        replace(each, folded_length_mm=folded[each.code]) if each.code in folded else each
        for each in price_book().products
    )
    tall = with_hatch(trussed_loft(), floor_to_ceiling_mm=2900, clear_floor_mm=2000)
    result = estimate(tall, price_book(products=products), choices(parts=frozenset({Part.LADDER})))
    (ladder,) = (each for each in result.checks.access if "ladder" in each.what)
    assert (ladder.what, ladder.passes) == ("tall three-part ladder", False)


def rolls(across: int, width: int | None) -> PriceBook:
    changed = {"roll_diameter_mm": across, "roll_width_mm": width}
    return price_book(
        products=tuple(
            replace(each, **changed) if each.code == "R170" else each for each in price_book().products
        )
    )


def test_a_roll_goes_up_on_end_or_lying_and_is_else_squeezed() -> None:
    way = way_up(trussed_loft(), price_book(), choices())  # 530 by 700 mm
    [layer, *_] = estimate(trussed_loft(), price_book(), choices()).design.insulation.layers
    layers = [replace(layer, roll_code="R170")] * 2

    def told(across: int, width: int | None) -> str:
        [verdict] = roll_verdicts(way, rolls(across, width), layers)
        return verdict.words

    assert "goes up as it is delivered" in told(500, 1200)
    assert "goes up as it is delivered" in told(600, 400)
    assert "squeeze or cut it first" in told(600, 1200)
    assert list(roll_verdicts(way, price_book(), layers)) == []
    assert [each.code for each in other_things(way, price_book(), layers)] == ["R170"]


sizes = st.builds(Size, st.integers(600, 3600), st.integers(100, 1000), st.integers(12, 120))
lofts = st.builds(
    lambda long, short, lining, below, above: with_hatch(
        trussed_loft(),
        outline=rectangle(3000, 3000, 3000 + short, 3000 + long),
        lining_depth_mm=lining,
        floor_to_ceiling_mm=below,
        headroom_above_mm=above,
    ),
    st.integers(400, 1200),
    st.integers(400, 1200),
    st.integers(0, 500),
    st.integers(1900, 3000),
    st.integers(600, 2600),
)


def way_of(loft: Survey) -> WayUp:
    return way_up(loft, price_book(), choices())


@given(lofts, sizes, st.integers(0, 300))
@settings(max_examples=40)
def test_a_smaller_thing_or_a_roomier_way_never_hinders(loft: Survey, size: Size, by: int) -> None:
    if not passes(way_of(loft), size):
        return
    for name in ("length_mm", "width_mm", "thickness_mm"):
        assert passes(way_of(loft), size._replace(**{name: max(1, getattr(size, name) - by)}))
    hatch = loft.hatch
    left, low, right, high = 3000, 3000, hatch.outline[1][0], hatch.outline[2][1]
    assert passes(way_of(with_hatch(loft, outline=rectangle(left, low, right + by, high))), size)
    assert passes(way_of(with_hatch(loft, outline=rectangle(left, low, right, high + by))), size)
    lining = max(0, hatch.lining_depth_mm - by)
    assert passes(way_of(with_hatch(loft, lining_depth_mm=lining)), size)
    assert passes(way_of(with_hatch(loft, floor_to_ceiling_mm=hatch.floor_to_ceiling_mm + by)), size)


@given(lofts, sizes)
@settings(max_examples=40)
def test_what_passes_is_too_large_by_nothing_and_what_does_not_by_something(loft: Survey, size: Size) -> None:
    passed, longest, too_long, too_wide = through(loft, size)
    assert passed == (too_long == 0 and too_wide == 0)
    assert passed == passes(way_of(loft), size)
    if longest and not passed:
        width = min(size.width_mm, max(loft.hatch.clear_sides_mm))
        assert passes(way_of(loft), Size(min(size.length_mm, longest), width, size.thickness_mm))


def test_heavy_boards_are_lifted_in_twos_and_the_employer_goes_first() -> None:
    """HSE INDG143, from memory: 10 kg for one man between shoulder and head."""
    light = lifting_verdict(board("B22N"), (), choices())
    heavy = lifting_verdict(board("B22"), (), choices(conditions=frozenset({Condition.LONG_CARRY})))
    assert light.severity is Severity.NOTE
    assert heavy.severity is Severity.CAUTION
    assert "in twos" in heavy.words
    assert "10 m at a time" in heavy.words
    assert heavy.words.endswith("The employer's own assessment goes before this.")


def test_a_board_of_unknown_weight_is_weighed_by_its_size() -> None:
    """2.4 × 0.6 × 0.022 m at 750 kg/m³, TRADA Timber frame construction, Table A2.1."""
    verdict = lifting_verdict(replace(board("B22"), weight_kg=Decimal(0)), (), choices())
    assert "weighs 23.8 kg by its size" in verdict.words


def test_ladder_and_rolls_are_told_where_they_are_outside_the_figure() -> None:
    """HSE INDG143, from memory: 10 kg for one man."""
    others = [each for code in ("L1", "L2", "R170") if (each := price_book().product(code))]
    verdict = lifting_verdict(board("B22N"), others, choices())
    assert verdict.severity is Severity.CAUTION
    assert "in parts: three-part ladder (12 kg), tall three-part ladder (15 kg)." in verdict.words
