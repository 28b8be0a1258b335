"""The office's choices: what cannot be so comes back with everything typed, in the label's own words."""

from __future__ import annotations

import pytest
from django.urls import reverse

from jobs.quotes.drafts.forms import OFFERABLE, ChoicesForm, part_field

pytestmark = pytest.mark.django_db
HTMX = {"HX-Request": "true"}


@pytest.fixture
def typed(draft) -> dict[str, object]:
    """Return the choices of the draft as its form sends them."""
    form = ChoicesForm(revision=draft)
    sent = {name: form[name].value() for name in form.fields}
    sent |= {part_field(part): form[part_field(part)].value() for part in OFFERABLE}
    return {name: value for name, value in sent.items() if value is not None and value is not False}


def address(draft) -> str:
    return reverse("revision_choices", args=[draft.quote.number, draft.letter])


def test_choices_are_kept_and_the_price_follows(draft, typed, office, logged_in):
    client = logged_in(office)
    before = client.get(reverse("quote", args=[draft.quote.number])).context["price"].totals.gross
    answer = client.post(address(draft), {**typed, "miles": "120"}, headers=HTMX)
    draft.refresh_from_db()
    assert answer.status_code == 200
    assert draft.choices["miles"] == "120"
    assert answer.context["price"].totals.gross > before
    for part in ('id="figures"', 'id="drawings"', 'id="lines"'):
        assert part in answer.content.decode()


def test_what_the_form_does_not_ask_stays_and_a_target_typed_here_is_no_longer_the_nations(
    draft, typed, office, logged_in
):
    kept = {
        "least_headroom_mm": 1234,
        "energy_price_pence_kwh": "6.29",
        "roof_space": "left out, as ventilated",
    }
    draft.choices = {**draft.choices, **kept}
    draft.save()
    client = logged_in(office)
    client.post(address(draft), {**typed, "miles": "12"}, headers=HTMX)
    draft.refresh_from_db()
    assert {name: draft.choices[name] for name in kept} == kept
    assert draft.choices["target_source"].startswith("England: Approved Document L")
    client.post(address(draft), {**typed, "target_u_w_m2k": "0.13"}, headers=HTMX)
    draft.refresh_from_db()
    assert draft.choices["target_source"] == "chosen for this quote"


def test_the_office_sees_what_each_way_to_buy_the_deck_would_cost(draft, office, logged_in):
    answer = logged_in(office).get(reverse("quote", args=[draft.quote.number]))
    page = answer.content.decode()
    assert "the ways to buy this deck" in page
    for way in answer.context["estimate"].board_alternatives:
        assert way.description in page


def test_joists_are_left_out_only_when_that_is_ticked(draft, typed, office, logged_in):
    client = logged_in(office)
    for ticked in (True, False):
        client.post(address(draft), typed | ({"fewer_joists": "on"} if ticked else {}), headers=HTMX)
        draft.refresh_from_db()
        assert draft.choices["fewer_joists"] is ticked


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"gap_mm": "five"}, "Gap above insulation, mm must be a number."),
        ({"target_u_w_m2k": "3"}, "Target U-value, W/m²K must be from 0.05 to 1 W/m²K."),
        ({"miles": ""}, "Miles to drive is missing."),
        (
            {"hatch_cut_with_insulation": "on"},
            "Why the hatch follows the insulation&#x27;s VAT rate must say why",
        ),
    ],
)
def test_what_cannot_be_so_is_said_and_nothing_typed_is_lost(draft, typed, office, logged_in, changes, words):  # noqa: PLR0913, PLR0917 - fixtures
    client, before = logged_in(office), draft.choices
    sent = {**typed, "introduction": "Dear Odile", **changes}
    whole, partial = client.post(address(draft), sent), client.post(address(draft), sent, headers=HTMX)
    assert (whole.status_code, partial.status_code) == (422, 422)
    assert words in whole.content.decode()
    assert words in partial.content.decode()
    assert "Dear Odile" in whole.content.decode()
    assert whole.context["form"]["gap_mm"].value() == str(sent["gap_mm"])
    assert 'id="drawings"' not in partial.content.decode()
    draft.refresh_from_db()
    assert draft.choices == before


def test_all_that_is_wrong_is_told_at_once_with_what_cannot_be_read(draft, typed, owner, logged_in):
    """A box that cannot be read does not hide what is wrong with the others, nor is it told twice."""
    wrong = {
        "gap_mm": "plenty", "miles": "-3", "lights": "-1", "hatch_cut_with_insulation": "on",
        "discount_0_reason": "Neighbours", "discount_0_percent": "five",
        "discount_1_reason": "Off season", "discount_1_percent": "140",
        "vat_0_part": "deck",
    }  # fmt: skip
    before = draft.choices
    answer = logged_in(owner).post(address(draft), {**typed, **wrong})
    errors = answer.context["form"].errors
    assert {name: len(told) for name, told in errors.items()} == dict.fromkeys(
        ("gap_mm", "miles", "lights", "hatch_reason", "discount_0_percent", "discount_1_percent",
         "vat_0_class"), 1,
    )  # fmt: skip
    assert errors["gap_mm"] == ["Gap above insulation, mm must be a number."]
    assert errors["miles"] == ["Miles to drive must not be less than 0."]
    draft.refresh_from_db()
    assert draft.choices == before


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"tax_point": "2019-01-01"}, "Work expected to be complete on must be 1 October 2019 or later"),
        ({"discount_0_reason": "Friends", "discount_0_amount": "99999"}, "Discounts must"),
    ],
)
def test_why_a_draft_cannot_be_worked_out_is_said_in_its_pages_words(  # noqa: PLR0913, PLR0917 - fixtures
    draft, typed, office, logged_in, changes, words
):
    answer = logged_in(office).post(address(draft), {**typed, **changes}, headers=HTMX)
    page = answer.content.decode()
    assert words in page
    assert "Open the survey" not in page


def test_what_the_price_book_lacks_is_said_in_words(draft, office, logged_in):
    draft.edition.products.filter(role="board").delete()
    page = logged_in(office).get(reverse("quote", args=[draft.quote.number])).content.decode()
    assert "This cannot be worked out yet" in page
    assert "needs a product for board (deck)" in page
