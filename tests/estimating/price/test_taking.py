"""What excludes what and what needs what, before an offer goes out and whatever the customer takes."""

from __future__ import annotations

from dataclasses import replace
from itertools import chain, combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimating.choices import Choices, Part
from estimating.estimate import estimate
from estimating.json_forms import price_from_json
from estimating.json_records import as_json
from estimating.price.taking import (
    ONE_HATCH,
    Bond,
    PartRule,
    fullest_takings,
    part_rules,
    why_not_offered,
    why_not_together,
)
from estimating.survey import Hatch
from tests.estimating.lofts import choices, price_book, rectangle, trussed_loft

SMALL = Hatch(outline=rectangle(3335, 3200, 3800, 3650))  # 465 × 450 mm
LARGE = Hatch(outline=rectangle(3335, 3200, 3935, 4400))  # 600 × 1200 mm
WAYS_UP = frozenset({Part.HATCH, Part.LADDER, Part.DRAUGHT_STRIP})
some_parts = st.frozensets(st.sampled_from(sorted(WAYS_UP)))


def offering(parts: frozenset[Part], **changes: frozenset[Part]) -> Choices:
    return choices(parts=parts, **{"optional_parts": parts} | changes)


def rules_of(hatch: Hatch, parts: frozenset[Part] = WAYS_UP) -> tuple[PartRule, ...]:
    return part_rules(trussed_loft(hatch=hatch), price_book(), offering(parts))


def test_a_new_hatch_and_sealing_the_old_one_exclude_each_other() -> None:
    """Common practice, no source: the old opening is closed, and a new hatch comes with its own seal."""
    rules = rules_of(LARGE)
    assert why_not_together(rules, frozenset({Part.HATCH, Part.DRAUGHT_STRIP})) == (ONE_HATCH,)
    assert not why_not_together(rules, frozenset({Part.HATCH}))
    assert not why_not_together(rules, frozenset({Part.DRAUGHT_STRIP}))


def test_a_ladder_that_does_not_pass_the_old_hatch_needs_the_new_one() -> None:
    [words] = why_not_together(rules_of(SMALL), frozenset({Part.LADDER}))
    assert "the present hatch has 465 × 450 mm" in words
    assert not why_not_together(rules_of(SMALL), frozenset({Part.LADDER, Part.HATCH}))
    assert not why_not_together(rules_of(LARGE), frozenset({Part.LADDER}))


def test_without_the_other_part_there_is_no_rule() -> None:
    assert rules_of(LARGE, frozenset({Part.LADDER, Part.DRAUGHT_STRIP})) == ()
    assert rules_of(LARGE, frozenset({Part.HATCH, Part.LIGHT})) == ()


def test_an_estimate_carries_its_rules_and_older_ones_have_none() -> None:
    price = estimate(trussed_loft(hatch=SMALL), price_book(), offering(WAYS_UP)).price
    form = as_json(price)
    assert isinstance(form, dict)
    assert price_from_json(form) == price
    assert [rule.bond for rule in price.part_rules] == [Bond.EXCLUDES, Bond.NEEDS]
    del form["part_rules"]
    assert price_from_json(form) == replace(price, part_rules=())


@pytest.mark.parametrize(
    ("optional", "taken", "refused"),
    [
        (WAYS_UP, frozenset(), False),
        (WAYS_UP, frozenset({Part.HATCH, Part.LADDER}), False),
        (WAYS_UP, frozenset({Part.LADDER}), True),
        (WAYS_UP, WAYS_UP, True),
        (frozenset(), frozenset(), True),
        (frozenset({Part.DRAUGHT_STRIP, Part.LADDER}), frozenset(), True),  # the new hatch is no option
        (frozenset({Part.LADDER, Part.HATCH}), frozenset(), True),  # sealing the old one is no option
    ],
)
def test_an_offer_is_refused_when_what_it_holds_or_offers_cannot_be_had(
    optional: frozenset[Part], taken: frozenset[Part], refused: bool
) -> None:
    wanted = offering(WAYS_UP, optional_parts=optional, taken_parts=taken)
    assert bool(why_not_offered(rules_of(SMALL), wanted)) is refused


@given(some_parts, some_parts)
def test_the_fullest_takings_go_together_and_no_more_can_be_taken(
    offered: frozenset[Part], fixed: frozenset[Part]
) -> None:
    rules, options = rules_of(SMALL), offered - fixed
    found = fullest_takings(rules, fixed, options)
    every = chain.from_iterable(combinations(sorted(options), size) for size in range(len(options) + 1))
    allowed = [taken for taken in map(frozenset, every) if not why_not_together(rules, fixed | taken)]
    largest = {taken for taken in allowed if not any(taken < other for other in allowed)}
    assert largest <= set(found) <= set(allowed)


@given(some_parts)
def test_what_may_be_offered_can_be_taken_one_by_one(optional: frozenset[Part]) -> None:
    wanted = offering(WAYS_UP, optional_parts=optional)
    rules = rules_of(SMALL)
    if why_not_offered(rules, wanted):
        return
    takings = fullest_takings(rules, wanted.parts - optional, optional)
    assert frozenset().union(*takings) == optional
