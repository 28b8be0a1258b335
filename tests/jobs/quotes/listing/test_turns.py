"""Whose turn it is, as the firm would say it. Common practice, no source."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jobs.quotes.listing.turns import Because, Facts, Turn, standing, turn_now

MADE = datetime(2026, 11, 1, 9, tzinfo=UTC)


def day(number: int) -> datetime:
    return MADE + timedelta(days=number)


@pytest.mark.parametrize(
    ("facts", "turn", "because", "since"),
    [
        ({"begun_at": day(0)}, Turn.OFFICE, Because.DRAFT, day(0)),
        ({"begun_at": day(0), "owner_asked_at": day(2)}, Turn.OFFICE, Because.APPROVE, day(2)),
        ({"offered_at": day(1)}, Turn.CUSTOMER, Because.DECIDE, day(1)),
        ({"offered_at": day(1), "begun_at": day(4)}, Turn.OFFICE, Because.DRAFT, day(4)),
        ({"offered_at": day(1), "asked_at": day(2)}, Turn.OFFICE, Because.QUESTION, day(2)),
        ({"offered_at": day(1), "answered_at": day(3)}, Turn.CUSTOMER, Because.DECIDE, day(3)),
        ({"offered_at": day(5), "answered_at": day(3)}, Turn.CUSTOMER, Because.DECIDE, day(5)),
        ({"offered_at": day(1), "mail_stopped_at": day(2)}, Turn.OFFICE, Because.MAIL, day(2)),
        (
            {"offered_at": day(1), "settled_at": day(6), "to_book_since": day(6)},
            Turn.OFFICE, Because.BOOK, day(6),
        ),
        (
            {"offered_at": day(1), "settled_at": day(6), "job_is_booked": True},
            Turn.NOBODY, Because.BOOKED, day(6),
        ),
        (
            {"offered_at": day(1), "settled_at": day(6), "job_is_booked": True, "mail_stopped_at": day(7)},
            Turn.OFFICE, Because.MAIL, day(7),
        ),
        (
            {"offered_at": day(1), "settled_at": day(8), "to_settle_since": day(8)},
            Turn.OFFICE, Because.SETTLE, day(8),
        ),
        ({"offered_at": day(1), "settled_at": day(6)}, Turn.NOBODY, Because.SETTLED, day(6)),
        (
            {"offered_at": day(1), "settled_at": day(6), "mail_stopped_at": day(2)},
            Turn.NOBODY, Because.SETTLED, day(6),
        ),
        (
            {"offered_at": day(1), "settled_at": day(6), "asked_at": day(7)},
            Turn.OFFICE, Because.QUESTION, day(7),
        ),
        ({}, Turn.NOBODY, Because.SETTLED, MADE),
    ],
)  # fmt: skip
def test_whoever_must_act_next_has_the_turn(facts, turn, because, since):
    found = standing(Facts(**facts), made_at=MADE)
    assert (found.turn, found.because, found.since) == (turn, because, since)


def test_of_several_duties_the_one_that_waits_longest_is_told():
    facts = Facts(offered_at=day(1), begun_at=day(5), asked_at=day(3), mail_stopped_at=day(4))
    found = standing(facts, made_at=MADE)
    assert (found.because, found.since, found.office_from) == (Because.QUESTION, day(3), day(3))


def test_a_follow_up_brings_the_turn_to_the_office_on_its_day_and_not_before():
    kept = standing(Facts(offered_at=day(1), follow_up_at=day(8)), made_at=MADE)
    before, on_the_day = turn_now(kept, now=day(8) - timedelta(seconds=1)), turn_now(kept, now=day(8))
    assert (before.turn, before.since) == (Turn.CUSTOMER, day(1))
    assert (on_the_day.turn, on_the_day.since, on_the_day.because) == (Turn.OFFICE, day(8), Because.FOLLOW_UP)


def test_a_follow_up_comes_due_also_on_what_is_settled():
    kept = standing(Facts(offered_at=day(1), settled_at=day(6), follow_up_at=day(90)), made_at=MADE)
    assert turn_now(kept, now=day(89)).turn == Turn.NOBODY
    assert turn_now(kept, now=day(90)).turn == Turn.OFFICE


moments = st.none() | st.integers(0, 60).map(day)
any_facts = st.builds(
    Facts,
    begun_at=moments,
    offered_at=moments,
    settled_at=moments,
    asked_at=moments,
    answered_at=moments,
    mail_stopped_at=moments,
    to_book_since=moments,
    to_settle_since=moments,
    job_is_booked=st.booleans(),
    follow_up_at=moments,
)


@given(any_facts, st.integers(0, 90).map(day))
def test_it_is_the_offices_turn_exactly_from_the_moment_that_is_kept(facts, now):
    """The list asks the database with `office_from` alone, so it must say the same as the rule."""
    kept = standing(facts, made_at=MADE)
    told = turn_now(kept, now=now)
    everything_happened = now >= day(60)
    if everything_happened:
        from_then = kept.office_from is not None and kept.office_from <= now
        assert (told.turn == Turn.OFFICE) is from_then
        assert not from_then or told.since == kept.office_from
