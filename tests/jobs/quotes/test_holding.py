"""A quote that would stay open past a change of VAT rate ends before it, and the draft's page says so.

The relief of VATA 1994 Schedule 8 Group 23 ends on 31 March 2027; 5 % from 1 April, Schedule 7A Group 2.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from django.urls import reverse
from django.utils import timezone

from estimating.choices import Part
from estimating.json_forms import choices_from_json
from jobs.quotes.drafts.alternatives import add_alternative
from jobs.quotes.drafts.services import change_draft, estimate_draft
from jobs.quotes.holding import holds_until, why_rate_has_gone
from jobs.quotes.models import Revision
from jobs.quotes.services import CannotIssue, issue_revision

pytestmark = pytest.mark.django_db


def complete_on(draft: Revision, day: date, **changes) -> None:
    choices = replace(choices_from_json(draft.choices), tax_point=day, **changes)
    change_draft(draft, choices=choices, introduction="")
    draft.refresh_from_db()


def on_a_day(monkeypatch, day: date) -> None:
    monkeypatch.setattr(timezone, "localdate", lambda *_: day)


def rate_of_wool(draft: Revision) -> int:
    lines = estimate_draft(draft).price.lines
    return next(each.vat_percent for each in lines if each.part is Part.INSULATION)


@pytest.mark.parametrize(
    ("issued", "complete", "until", "rate"),
    [
        (date(2027, 2, 20), date(2027, 3, 20), date(2027, 3, 22), 0),  # 30 days end before the change
        (date(2027, 3, 2), date(2027, 3, 31), date(2027, 3, 31), 0),
        (date(2027, 3, 20), date(2027, 3, 31), date(2027, 3, 31), 0),
        (date(2027, 3, 31), date(2027, 3, 31), date(2027, 3, 31), 0),
        (date(2027, 3, 20), date(2027, 4, 1), date(2027, 4, 19), 5),  # worked out at the new rate already
        (date(2027, 4, 1), date(2027, 4, 1), date(2027, 5, 1), 5),
    ],
)
def test_an_offer_ends_before_its_rate_does(draft, office, issued, complete, until, rate, monkeypatch):  # noqa: PLR0913, PLR0917 - days
    complete_on(draft, complete)
    on_a_day(monkeypatch, issued)
    assert rate_of_wool(draft) == rate
    issue_revision(draft, by=office)
    draft.refresh_from_db()
    assert draft.valid_until == until


def test_the_drafts_page_says_so_when_it_bites(draft, office, logged_in, monkeypatch):
    complete_on(draft, date(2027, 3, 25))
    on_a_day(monkeypatch, date(2027, 3, 20))
    page = logged_in(office).get(reverse("quote", args=[draft.quote.number])).content.decode()
    assert "holds until 31 March 2027 only, and not until 19 April 2027" in page
    assert "VAT of a deposit" not in page
    complete_on(draft, date(2027, 4, 2))
    page = logged_in(office).get(reverse("quote", args=[draft.quote.number])).content.decode()
    assert "holds until" not in page
    assert "what comes in before 1 April 2027, or is invoiced before, takes the rate of its own day" in page
    complete_on(draft, date(2027, 4, 2), stages=())
    page = logged_in(office).get(reverse("quote", args=[draft.quote.number])).content.decode()
    assert "takes the rate of its own day" not in page


def test_a_change_that_touches_no_line_ends_nothing(draft):
    complete_on(draft, date(2027, 3, 25), parts=frozenset({Part.LADDER}), optional_parts=frozenset())
    held = holds_until(estimate_draft(draft), date(2027, 3, 20), 30)
    assert (held.until, held.in_words) == (date(2027, 4, 19), "")


def test_a_rate_that_ended_since_the_day_of_the_work_is_not_offered(draft, office, monkeypatch):
    complete_on(draft, date(2027, 3, 25))
    assert why_rate_has_gone(estimate_draft(draft), date(2027, 3, 31)) == ""
    on_a_day(monkeypatch, date(2027, 4, 1))
    with pytest.raises(CannotIssue, match="25 March 2027, which has passed"):
        issue_revision(draft, by=office)


def test_of_several_alternatives_the_one_whose_rate_ends_first_ends_the_offer(draft, office, monkeypatch):
    complete_on(draft, date(2027, 3, 25), parts=frozenset({Part.LADDER}), optional_parts=frozenset())
    number = add_alternative(draft, name="With insulation")
    draft.refresh_from_db()
    choices = replace(choices_from_json(draft.choices), parts=frozenset({Part.INSULATION}))
    change_draft(draft, choices=choices, introduction="", alternative=number)
    on_a_day(monkeypatch, date(2027, 3, 20))
    issue_revision(draft, by=office)
    draft.refresh_from_db()
    assert draft.valid_until == date(2027, 3, 31)
