"""The office's side of alternatives: added, renamed, removed, changed singly, and all checked on issue."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from django.urls import reverse

from estimating.choices import Part
from estimating.json_forms import choices_from_json
from estimating.price_terms import Discount, Stage, StageDue
from jobs.quotes.alternatives import MOST_ALTERNATIVES, alternatives_of
from jobs.quotes.drafts.alternatives import (
    CannotBeSo,
    add_alternative,
    remove_alternative,
    rename_alternative,
)
from jobs.quotes.drafts.forms import OFFERABLE, ChoicesForm, part_field
from jobs.quotes.drafts.services import NotADraft, change_draft, draft_quote, estimate_draft, next_revision
from jobs.quotes.frozen import alternative_names, frozen_estimate, price_with
from jobs.quotes.services import CannotIssue, issue_revision
from jobs.surveys.services import complete_survey

pytestmark = pytest.mark.django_db
HTMX = {"HX-Request": "true"}


def names(revision) -> list[str]:
    revision.refresh_from_db()
    return [each.shown for each in alternatives_of(revision)]


def address(name: str, revision, query: str = "") -> str:
    return reverse(name, args=[revision.quote.number, revision.letter]) + query


def offering(*parts: str) -> dict[str, object]:
    return {"parts": sorted(parts), "optional_parts": [], "taken_parts": []}


def typed(revision, alternative: int = 0, **changes: object) -> dict[str, object]:
    """Return the choices of an alternative as its form sends them."""
    form = ChoicesForm(revision=revision, alternative=alternative)
    sent = {name: form[name].value() for name in form.fields}
    sent |= {part_field(part): form[part_field(part)].value() for part in OFFERABLE}
    return {name: value for name, value in sent.items() if value is not None and value is not False} | changes


def test_an_alternative_begins_as_a_copy_and_then_goes_its_own_way(draft, office, logged_in):
    client = logged_in(office)
    answer = client.post(address("alternative_add", draft), {"name": "On battens", "copy_of": "0"})
    assert answer.url == address("revision", draft, "?alternative=1")
    assert names(draft) == ["Alternative 1", "On battens"]
    assert draft.alternatives[0]["choices"] == draft.choices
    before = draft.choices
    page = client.get(answer.url)
    assert '<select name="raise_with"' in page.content.decode()
    query = "?alternative=1&called=On+battens"
    assert query.replace("&", "&amp;") in page.content.decode()
    sent = typed(draft, 1, raise_with="battens", miles="77")
    answer = client.post(address("revision_choices", draft, query), sent, headers=HTMX)
    assert answer.status_code == 200
    draft.refresh_from_db()
    assert draft.choices == before
    changed = alternatives_of(draft)[1].choices
    assert (changed.raise_with, str(changed.miles)) == ("battens", "77")
    assert not estimate_draft(draft, alternative=1).design.zones[0].pedestals
    assert estimate_draft(draft).design.zones[0].pedestals


def test_alternatives_are_renamed_and_removed_and_those_after_move_up(draft):
    for name in ("Smaller", "Warmer"):
        add_alternative(draft, name=name)
    rename_alternative(draft, 0, name="  The whole   middle ")
    assert names(draft) == ["The whole middle", "Smaller", "Warmer"]
    remove_alternative(draft, 0)
    assert names(draft) == ["Smaller", "Warmer"]
    remove_alternative(draft, 1)
    assert (names(draft), draft.alternatives) == (["Smaller"], [])
    with pytest.raises(CannotBeSo, match="the only way to do the job"):
        remove_alternative(draft, 0)


def test_names_tell_alternatives_apart_and_there_are_only_so_many(draft):
    with pytest.raises(CannotBeSo, match="Another alternative is called alternative 1 already"):
        add_alternative(draft, name="alternative 1")
    with pytest.raises(CannotBeSo, match="is missing"):
        add_alternative(draft, name="  ")
    for number in range(2, MOST_ALTERNATIVES + 1):
        add_alternative(draft, name=f"Number {number}")
    with pytest.raises(CannotBeSo, match=f"at most {MOST_ALTERNATIVES}"):
        add_alternative(draft, name="One more")


def test_a_name_that_cannot_be_given_comes_back_as_it_was_typed(draft, office, logged_in):
    client = logged_in(office)
    sent = {"name": "Alternative 1", "copy_of": "0"}
    answer = client.post(address("alternative_add", draft), sent)
    assert answer.status_code == 422
    assert "Another alternative is called Alternative 1 already." in answer.content.decode()
    assert 'value="Alternative 1"' in answer.content.decode()


def test_a_page_left_open_while_alternatives_moved_changes_nothing(draft, office, logged_in):
    client = logged_in(office)
    add_alternative(draft, name="Smaller")
    add_alternative(draft, name="Warmer")
    draft.refresh_from_db()
    sent = typed(draft, 1, miles="77")
    remove_alternative(draft, 1)
    for query in ("?alternative=1&called=Smaller", "?alternative=2&called=Warmer", "", "?alternative=x"):
        answer = client.post(address("revision_choices", draft, query), sent, follow=True)
        assert "changed meanwhile" in answer.content.decode()
        client.post(address("alternative_remove", draft, query))
        client.post(address("alternative_rename", draft, query), {"name": "Another"})
    assert names(draft) == ["Alternative 1", "Warmer"]
    assert "77" not in {each.form["miles"] for each in alternatives_of(draft)}


def test_the_next_revision_carries_every_alternative_with_the_new_day(draft, office):
    add_alternative(draft, name="Warmer")
    issue_revision(draft, by=office)
    revised = next_revision(draft.quote, by=office)
    assert names(revised) == ["Alternative 1", "Warmer"]
    assert {each.choices.tax_point for each in alternatives_of(revised)} == {
        choices_from_json(revised.choices).tax_point
    }


def test_issuing_checks_every_alternative_and_names_the_one_that_has_a_stop(draft, office, logged_in):
    add_alternative(draft, name="Pressed down")
    draft.refresh_from_db()
    draft.alternatives[0]["choices"] |= offering("draught strip", "hatch", "insulation")
    draft.save()
    with pytest.raises(CannotIssue) as refused:
        issue_revision(draft, by=office)
    [reason] = refused.value.reasons
    assert reason.startswith("Pressed down: A new hatch and sealing the old hatch do not go together")
    draft.alternatives[0]["choices"] |= {"board_code": "no such board"}
    draft.save()
    with pytest.raises(CannotIssue) as refused:
        issue_revision(draft, by=office)
    assert all(reason.startswith("Pressed down: ") for reason in refused.value.reasons)


def test_what_is_wrong_with_every_alternative_is_said_once(draft, office):
    add_alternative(draft, name="Also")
    draft.refresh_from_db()
    both = offering("draught strip", "hatch", "insulation")
    draft.choices |= both
    draft.alternatives[0]["choices"] |= both
    draft.save()
    with pytest.raises(CannotIssue) as refused:
        issue_revision(draft, by=office)
    [reason] = refused.value.reasons
    assert reason.startswith("A new hatch")


def test_an_issued_revision_keeps_its_alternatives_and_shows_each(draft, office, logged_in):
    add_alternative(draft, name="With a light")
    draft.refresh_from_db()
    draft.alternatives[0]["choices"] |= offering("insulation", "light")
    draft.save()
    worked = [estimate_draft(draft, alternative=number) for number in (0, 1)]
    issue_revision(draft, by=office)
    draft.refresh_from_db()
    assert alternative_names(draft) == ["Alternative 1", "With a light"]
    assert [frozen_estimate(draft, number) for number in (0, 1)] == worked
    with pytest.raises(NotADraft):
        add_alternative(draft, name="Too late")
    page = logged_in(office).get(address("revision", draft, "?alternative=1"))
    assert page.context["price"].totals == worked[1].price.totals
    assert "With a light" in page.content.decode()
    assert "add, rename or remove" not in page.content.decode()


def test_a_revision_frozen_before_there_were_alternatives_reads_as_one_without_a_name(offer):
    for key in ("name", "alternatives"):
        del offer.issued[key]
    offer.save()
    assert alternative_names(offer) == [""]
    assert frozen_estimate(offer) == frozen_estimate(offer, 0)


def test_only_what_was_asked_for_at_the_survey_may_be_offered_as_taken(draft, office, logged_in):
    client = logged_in(office)
    draft.quote.survey.answers["wishes"] = {"ladder": "option", "light": "no"}
    draft.quote.survey.save()
    draft.choices |= offering("insulation", "ladder", "light")
    draft.save()
    sent = typed(draft, part_ladder="taken")
    assert client.post(address("revision_choices", draft), sent, headers=HTMX).status_code == 200
    answer = client.post(address("revision_choices", draft), {**sent, "part_light": "taken"}, headers=HTMX)
    assert answer.status_code == 422
    assert "Light cannot be offered as taken" in answer.content.decode()
    draft.refresh_from_db()
    assert choices_from_json(draft.choices).taken_parts == {Part.LADDER}
    draft.choices |= {"optional_parts": ["light"], "taken_parts": ["light"]}
    draft.save()
    with pytest.raises(CannotIssue, match="not asked for at the survey: light"):
        issue_revision(draft, by=office)


def test_a_zone_can_be_left_out_on_the_draft_where_there_are_several(draft, office, logged_in):
    client, survey = logged_in(office), draft.quote.survey
    assert "Zones left open" not in client.get(address("revision", draft)).content.decode()
    survey.answers["plan"] |= {
        "zones-0-name": "Front", "zones-0-length": "3 m",
        "zones-1-name": "Back", "zones-1-left": "3900", "zones-1-front": "2150", "zones-1-length": "3.6 m",
        "zones-1-depth": "2.0 m",
    }  # fmt: skip
    survey.save()
    page = client.get(address("revision", draft)).content.decode()
    assert "Zones left open" in page
    sent = typed(draft, left_out_zones=["Front"])
    assert client.post(address("revision_choices", draft), sent, headers=HTMX).status_code == 200
    draft.refresh_from_db()
    assert [zone.zone for zone in estimate_draft(draft).design.zones] == ["Back"]
    both = client.post(
        address("revision_choices", draft), {**sent, "left_out_zones": ["Front", "Back"]}, headers=HTMX
    )
    assert "must leave at least one zone to deck" in both.content.decode()


def test_of_a_deck_measured_in_two_sizes_the_larger_is_drafted_and_the_smaller_can_be_offered(
    measured, office, surveyor, logged_in
):
    measured.answers["plan"] |= {
        "zones-1-name": "Small", "zones-1-left": "900", "zones-1-front": "2150", "zones-1-length": "3.6 m",
        "zones-1-depth": "2.0 m",
    }  # fmt: skip
    measured.save()
    page = logged_in(surveyor).get(reverse("survey_section", args=[measured.number, "plan"]))
    assert "taken as a smaller size of the deck" in page.content.decode()
    complete_survey(measured)
    measured.refresh_from_db()
    draft = draft_quote(measured, by=office)
    assert [zone.zone for zone in estimate_draft(draft).design.zones] == ["Deck"]
    add_alternative(draft, name="The smaller deck")
    draft.refresh_from_db()
    sent = typed(draft, 1, left_out_zones=["Deck"])
    query = "?alternative=1&called=The+smaller+deck"
    logged_in(office).post(address("revision_choices", draft, query), sent, headers=HTMX)
    draft.refresh_from_db()
    assert [zone.zone for zone in estimate_draft(draft, alternative=1).design.zones] == ["Small"]
    issue_revision(draft, by=office)
    draft.refresh_from_db()
    areas = [frozen_estimate(draft, number).design.deck_area_m2.value for number in (0, 1)]
    assert areas[0] > areas[1]


def test_each_alternative_keeps_its_own_discounts_and_payments_once_issued(draft, office):
    number = add_alternative(draft, name="With a discount")
    draft.refresh_from_db()
    terms = {
        "discounts": (Discount(reason="Off season", percent=Decimal(7)),),
        "stages": (Stage(due=StageDue.START, percent=Decimal(40)),),
    }
    choices = replace(choices_from_json(draft.choices), **terms)
    change_draft(draft, choices=choices, introduction="", alternative=number)
    draft.refresh_from_db()
    worked = [estimate_draft(draft, alternative=each).price for each in (0, number)]
    issue_revision(draft, by=office)
    draft.refresh_from_db()
    taken = [frozen_estimate(draft, each).choices.taken_parts for each in (0, number)]
    frozen = [price_with(draft, parts, each) for each, parts in zip((0, number), taken, strict=True)]
    assert [each.totals for each in frozen] == [each.totals for each in worked]
    assert [each.stages for each in frozen] == [each.stages for each in worked]
    assert frozen[0].totals.gross > frozen[1].totals.gross
