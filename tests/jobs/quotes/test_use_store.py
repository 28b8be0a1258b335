"""A quote uses what is in the store where that is ticked, and keeps what it counted on once it is issued."""

from __future__ import annotations

import pytest
from django.urls import reverse

from jobs.quotes.drafts.forms import OFFERABLE, ChoicesForm, part_field
from jobs.quotes.drafts.services import estimate_draft, next_revision
from jobs.quotes.frozen import frozen_choices, frozen_estimate
from jobs.quotes.services import issue_revision
from jobs.store.at_hand import counted_on
from jobs.store.models import StoredBoard

pytestmark = pytest.mark.django_db
TICK = "Use what is in the store"


@pytest.fixture
def stocked(office) -> None:
    for code in ("BRD-2400-22", "BRD-2400-18"):
        StoredBoard.objects.create(
            board_code=code, description="board", length_mm=2400, count=2, added_by=office
        )


@pytest.fixture
def choose(draft, logged_in, office):
    """Send the draft's choices as its form does, the store ticked or not."""

    def send(*, use_store: bool):
        form = ChoicesForm(revision=draft)
        sent = {name: form[name].value() for name in form.fields}
        sent |= {part_field(part): form[part_field(part)].value() for part in OFFERABLE}
        sent["use_store"] = "on" if use_store else None
        kept = {name: value for name, value in sent.items() if value is not None and value is not False}
        address = reverse("revision_choices", args=[draft.quote.number, draft.letter])
        answer = logged_in(office).post(address, kept, headers={"HX-Request": "true"})
        draft.refresh_from_db()
        return answer

    return send


def bought(worked) -> int:
    return sum(int(each.needed.value) for each in worked.quantities.purchases if each.role == "board")


def test_ticked_it_uses_the_store_and_unticked_it_does_not(draft, stocked, choose):
    before = bought(estimate_draft(draft))
    answer = choose(use_store=True)
    assert "From the store, not bought: 2 of 2400 mm" in answer.content.decode()
    assert bought(estimate_draft(draft)) <= before - 2
    choose(use_store=False)
    assert bought(estimate_draft(draft)) == before


def test_the_tick_is_shown_only_where_there_is_something_to_use(draft, logged_in, office):
    page = reverse("quote", args=[draft.quote.number])
    assert TICK not in logged_in(office).get(page).content.decode()


def test_a_draft_follows_the_store_and_an_issued_quote_does_not(draft, stocked, choose, office):
    choose(use_store=True)
    issue_revision(draft, by=office)
    draft.refresh_from_db()
    StoredBoard.objects.all().delete()
    assert [each.count for each in counted_on(draft)] == [2]
    assert frozen_estimate(draft).quantities.from_store == counted_on(draft)
    assert sum(each.count for each in frozen_choices(draft).store) == 4
    following = next_revision(draft.quote, by=office)
    assert following.use_store
    assert estimate_draft(following).quantities.from_store == ()
