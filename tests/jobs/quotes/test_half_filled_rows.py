"""Rows of the price boxes: one that is half filled waits quietly, and there is always one more to fill."""

from __future__ import annotations

import re

import pytest
from django.urls import reverse

from estimating.json_forms import choices_from_json
from jobs.quotes.drafts.forms import ChoicesForm

pytestmark = pytest.mark.django_db
HTMX = {"HX-Request": "true"}
STRICT = {"act": "work it out"}


@pytest.fixture
def typed(draft) -> dict[str, object]:
    form = ChoicesForm(revision=draft, may_choose_vat_class=True)
    sent = {name: form[name].value() for name in form.fields}
    return {name: value for name, value in sent.items() if value is not None and value is not False}


def post(client, draft, sent, **headers):
    answer = client.post(
        reverse("revision_choices", args=[draft.quote.number, draft.letter]), sent, headers=headers
    )
    draft.refresh_from_db()
    return answer


def boxes_of(kind: str, page: str) -> list[str]:
    """Return the numbers of the rows of a kind that a page or a part of it holds."""
    return list(dict.fromkeys(re.findall(rf'name="{kind}_(\d+)_', page)))


@pytest.mark.parametrize(
    ("half", "called"),
    [
        ({"discount_0_reason": "Neighbours"}, "Discount 1"),
        ({"discount_0_percent": "5"}, "Discount 1"),
        ({"discount_0_amount": "40"}, "Discount 1"),
        ({"stage_1_due": "start of work"}, "Payment 2"),
        ({"stage_1_percent": "20"}, "Payment 2"),
        ({"stage_1_on": "2027-02-08"}, "Payment 2"),
        ({"vat_0_part": "deck"}, "VAT class 1"),
        ({"vat_0_part": "deck", "vat_0_class": "standard"}, "VAT class 1"),
    ],
)
def test_a_row_that_is_still_being_filled_waits_and_is_asked_only_before_it_is_issued(  # noqa: PLR0913, PLR0917 - fixtures
    draft, typed, owner, logged_in, half, called
):
    client = logged_in(owner)
    whole = post(client, draft, typed, **HTMX)
    waiting = post(client, draft, {**typed, **half}, **HTMX)
    page = waiting.content.decode()
    assert waiting.status_code == 200
    assert f"{called} is half filled and does not count yet." in page
    assert waiting.context["price"].totals == whole.context["price"].totals
    asked = post(client, draft, {**typed, **half, **STRICT}, **HTMX)
    assert asked.status_code == 422
    assert asked.headers["HX-Reswap"] == "outerHTML show:top"
    assert "HX-Reswap" not in waiting.headers
    assert f"{called}, " in asked.content.decode()
    without_script = post(client, draft, {**typed, **half})
    assert without_script.status_code == 422
    assert f"{called}, " in without_script.content.decode()
    issued = client.post(
        reverse("revision_issue", args=[draft.quote.number, "A"]), {**typed, **half, "page": "shown"}
    )
    assert issued.status_code == 422
    assert f"{called}, " in issued.content.decode()
    draft.refresh_from_db()
    assert draft.is_draft


def test_what_is_whole_counts_while_another_row_waits(draft, typed, office, logged_in):
    sent = {
        "discount_0_reason": "Two lofts in one street", "discount_0_percent": "5",
        "discount_1_reason": "Off season", "miles": "30",
    }  # fmt: skip
    answer = post(logged_in(office), draft, typed | sent, **HTMX)
    kept = choices_from_json(draft.choices)
    assert [each.reason for each in kept.discounts] == ["Two lofts in one street"]
    assert kept.miles == 30
    assert "Discount 2 is half filled" in answer.content.decode()


def test_what_cannot_be_so_is_told_even_while_it_is_typed(draft, typed, office, logged_in):
    wrong = {"discount_0_reason": "Friends", "discount_0_percent": "150"}
    answer = post(logged_in(office), draft, typed | wrong, **HTMX)
    assert answer.status_code == 422
    assert "Discount 1, per cent must be more than 0 and less than 100." in answer.content.decode()


def test_nothing_waits_once_a_row_is_whole(draft, typed, office, logged_in):
    whole = {"discount_0_reason": "Friends", "discount_0_percent": "5"}
    page = post(logged_in(office), draft, typed | whole, **HTMX).content.decode()
    assert "half filled" not in page


def test_one_row_more_than_is_filled_is_offered_and_comes_by_itself(draft, typed, owner, logged_in):
    client = logged_in(owner)
    address = reverse("quote", args=[draft.quote.number])
    page = client.get(address).content.decode()
    assert {kind: boxes_of(kind, page) for kind in ("discount", "stage", "vat")} == {
        "discount": ["0"],
        "stage": ["0", "1"],
        "vat": ["0"],
    }
    first = {"discount_0_reason": "Friends", "discount_0_percent": "5"}
    answer = post(client, draft, typed | first, **HTMX).content.decode()
    assert 'hx-swap-oob="beforeend:#rows-discount"' in answer
    assert boxes_of("discount", answer) == ["1"]
    assert boxes_of("stage", answer) == []
    empty = {"discount_1_reason": "", "discount_1_percent": "", "discount_1_amount": ""}
    assert boxes_of("discount", post(client, draft, typed | first | empty, **HTMX).content.decode()) == []
    assert boxes_of("discount", client.get(address).content.decode()) == ["0", "1"]


def test_without_scripts_a_row_is_added_by_each_save_up_to_the_most(draft, typed, office, logged_in):
    client = logged_in(office)
    address = reverse("quote", args=[draft.quote.number])
    for number in range(13):
        typed |= {f"stage_{number}_on": f"2027-02-{number + 1:02}", f"stage_{number}_amount": "10"}
        typed |= {"stage_0_due": "", "stage_0_percent": ""}
        assert post(client, draft, typed).status_code == 302
        rows = boxes_of("stage", client.get(address).content.decode())
        assert len(rows) == min(12, number + 2)
    assert len(choices_from_json(draft.choices).stages) == 12


def test_a_page_that_came_back_keeps_the_half_row(draft, typed, office, logged_in):
    half = {"discount_0_reason": "Friends & neighbours"}
    page = post(logged_in(office), draft, typed | half).content.decode()
    assert 'value="Friends &amp; neighbours"' in page
    assert boxes_of("discount", page) == ["0", "1"]
