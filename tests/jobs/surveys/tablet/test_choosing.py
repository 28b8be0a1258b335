"""What was kept aside, shown to the office until it has chosen."""

from __future__ import annotations

import pytest
from django.urls import reverse

from jobs.quotes.services import why_not_issue
from jobs.surveys.models import Survey
from jobs.surveys.services import SurveyKept, copy_survey, save_section
from jobs.surveys.tablet.choosing import choices_of, choose
from jobs.surveys.tablet.keeping import SEEN_ELSEWHERE, unsettled
from jobs.surveys.tablet.models import KeptAside
from jobs.works.services import what_holds_work
from tests.jobs.offers import worked_loft
from tests.jobs.surveys.tablet.sending import OTHER_TABLET, answers, envelope, sealed, send

pytestmark = pytest.mark.django_db


@pytest.fixture
def apart(survey, tablet) -> KeptAside:
    """Return a value kept aside: the survey says a span of 6 m, a tablet 7 m."""
    save_section(survey, section="roof", typed={"span": "6 m"})
    send(tablet, survey.number, answers(span=("5 m", "7 m")))
    return KeptAside.objects.get()


def span(survey: Survey) -> str:
    survey.refresh_from_db()
    return survey.answers["roof"]["span"]


def page(client, survey) -> str:
    return client.get(reverse("survey_aside", args=[survey.number])).content.decode()


def press(client, row, choice, now="6 m"):
    address = reverse("survey_choose", args=[row.survey.number, row.pk])
    return client.post(address, {"choice": choice, "now": now}, follow=True).content.decode()


def test_the_page_shows_question_both_values_who_when_and_which_tablet(apart, survey, office, logged_in):
    words = page(logged_in(office), survey)
    for told in (
        "Span of the roof, wall plate to wall plate", "Roof and joists", "Mirren Oxleigh", "tablet 000000",
        "Keep 6 m", "Take 7 m",
    ):  # fmt: skip
        assert told in words


def test_the_sheet_says_how_many_differ_and_leads_there(apart, survey, office, crew, logged_in):
    address = reverse("survey", args=[survey.number])
    aside = reverse("survey_aside", args=[survey.number])
    assert "1 value from tablets differs" in logged_in(office).get(address).content.decode()
    assert aside in logged_in(office).get(address).content.decode()
    assert aside not in logged_in(crew).get(address).content.decode()
    assert logged_in(crew).get(aside).status_code == 403


def test_taking_the_other_writes_it_and_keeps_who_chose(apart, survey, office, logged_in):
    assert "The other value is taken." in press(logged_in(office), apart, "take")
    assert span(survey) == "7 m"
    apart.refresh_from_db()
    assert (apart.settled_by, apart.taken, apart.stood) == (office, True, "6 m")


def test_keeping_what_stands_changes_nothing_and_ends_the_wait(apart, survey, office, logged_in):
    assert "The survey stays as it is." in press(logged_in(office), apart, "keep")
    assert span(survey) == "6 m"
    apart.refresh_from_db()
    assert (apart.settled_by, apart.taken) == (office, False)
    assert "Somebody has chosen about this already." in press(logged_in(office), apart, "take")
    assert span(survey) == "6 m"


def test_a_survey_that_changed_since_is_looked_at_again(apart, survey, office, logged_in):
    save_section(survey, section="roof", typed={"span": "6.5 m"})
    assert "has changed since this page was made" in press(logged_in(office), apart, "take")
    assert span(survey) == "6.5 m"


def test_the_same_value_from_two_tablets_is_chosen_about_once(apart, survey, office, tablet):
    send(tablet, survey.number, answers(span=("5 m", "7 m"), tablet=OTHER_TABLET))
    choose(survey.number, apart.pk, take=True, shown="6 m", by=office)
    assert not unsettled(survey).exists()


def test_a_complete_survey_is_opened_first(apart, survey, office, logged_in):
    Survey.objects.update(state=Survey.State.COMPLETE)
    words = page(logged_in(office), survey)
    assert "Open it again" in words
    assert "Take 7 m" not in words
    with pytest.raises(SurveyKept, match="Open it again"):
        choose(survey.number, apart.pk, take=True, shown="6 m", by=office)


def test_a_quoted_survey_is_copied_first_and_the_choice_goes_along(apart, survey, office, offer, logged_in):
    assert "Copy it to change it" in page(logged_in(office), survey)
    with pytest.raises(SurveyKept, match="Copy it to change it"):
        choose(survey.number, apart.pk, take=True, shown="6 m", by=office)
    copy = copy_survey(survey, by=office, visited_on=survey.visited_on)
    assert not unsettled(survey).exists()
    choose(copy.number, apart.pk, take=True, shown="6 m", by=office)
    assert (span(survey), span(copy)) == ("6 m", "7 m")


def test_the_answer_to_a_hazard_is_taken_by_the_same_way(survey, tablet, office, logged_in):
    send(tablet, survey.number, envelope("hazards", fields={"seen_bats": ("", "no")}))
    other = envelope("hazards", tablet=OTHER_TABLET, fields={"seen_bats": ("", "not seen")})
    send(tablet, survey.number, other)
    words = page(logged_in(office), survey)
    assert "Keep No" in words
    assert "Take Could not be seen" in words
    press(logged_in(office), KeptAside.objects.get(), "take", now="no")
    assert survey.findings.get().seen == "not seen"


def test_a_row_of_the_plan_is_called_as_on_its_page(survey, tablet):
    send(tablet, survey.number, answers("plan", **{"zones-700-left": ("", "900")}))
    send(tablet, survey.number, answers("plan", **{"zones-700-left": ("", "1000")}))
    survey.refresh_from_db()
    (choice,) = choices_of(survey)
    assert choice.question == "Deck zone 1: from left gable"


def test_what_cannot_be_taken_is_shown_whole_and_seen_to(survey, tablet, office, logged_in):
    send(tablet, survey.number, sealed("not a change"))
    send(tablet, survey.number, answers(old_question=("", "an answer")))
    words = page(logged_in(office), survey)
    assert "not a change" in words
    assert "an answer" in words
    assert words.count("Seen to") == 2
    assert 'value="take"' not in words
    for row in unsettled(survey):
        assert "cannot be taken" in press(logged_in(office), row, "take", now="")
        press(logged_in(office), row, "keep", now="")
    assert not unsettled(survey).exists()


def test_a_page_made_before_another_changed_the_survey_loses_neither(survey, surveyor):
    save_section(survey, section="roof", typed={"span": "6 m", "ridge_height": "2 m"})
    save_section(survey, section="roof", typed={"span": "7 m"})
    shown = {"span": "6 m", "ridge_height": "2 m"}
    typed = {"span": "8 m", "ridge_height": "2 m"}
    save_section(survey, section="roof", typed=typed, as_shown=shown, by=surveyor)
    save_section(survey, section="roof", typed=typed, as_shown=shown, by=surveyor)  # the button pressed twice
    assert span(survey) == "7 m"
    (row,) = unsettled(survey)
    assert (row.name, row.other, row.by, row.change) == ("span", "8 m", surveyor, None)


def test_what_a_page_left_alone_is_not_written_over_a_newer_value(survey, surveyor):
    save_section(survey, section="roof", typed={"span": "7 m"})
    save_section(survey, section="roof", typed={"span": ""}, as_shown={"span": ""}, by=surveyor)
    assert span(survey) == "7 m"
    assert not unsettled(survey).exists()


def post(client, survey, section, **typed):
    address = reverse("survey_section", args=[survey.number, section])
    return client.post(address, {"act": "save", **typed}, follow=True).content.decode()


def test_a_person_without_scripts_is_told_what_was_kept_aside(survey, tablet):
    save_section(survey, section="roof", typed={"span": "7 m"})
    words = post(tablet, survey, "roof", span="8 m", as_shown='{"span": "6 m"}')
    assert "1 answer differs from what somebody else has written since" in words
    assert span(survey) == "7 m"


def test_a_page_shown_again_is_not_taken_for_having_seen_the_other_value(survey, tablet):
    """It still shows 8 m, beside what it could not read: pressing again must not overwrite the 7 m."""
    save_section(survey, section="roof", typed={"span": "7 m"})
    typed = {"span": "8 m", "pitch_degrees": "steep"}
    words = post(tablet, survey, "roof", **typed, as_shown='{"span": "6 m"}')
    assert "{&quot;span&quot;: &quot;6 m&quot;, &quot;pitch_degrees&quot;: &quot;steep&quot;}" in words
    post(tablet, survey, "roof", **typed, as_shown='{"span": "6 m", "pitch_degrees": "steep"}')
    assert span(survey) == "7 m"
    assert unsettled(survey).get().other == "8 m"


def test_words_about_a_hazard_are_kept_before_it_is_answered(survey, tablet):
    post(tablet, survey, "hazards", words_bats="Droppings", as_shown="{}")
    survey.refresh_from_db()
    assert survey.answers["hazards"] == {"words_bats": "Droppings"}
    page = tablet.get(reverse("survey_section", args=[survey.number, "hazards"])).content.decode()
    assert "Droppings" in page
    shown = '{"words_bats": "Droppings"}'
    post(tablet, survey, "hazards", words_bats="Droppings", seen_bats="yes", as_shown=shown)
    assert [(row.seen, row.words) for row in survey.findings.all()] == [("yes", "Droppings")]


def test_a_page_that_says_nothing_of_a_hazard_takes_no_answer_back(survey, tablet):
    post(tablet, survey, "hazards", words_bats="Droppings", seen_bats="yes")
    post(tablet, survey, "hazards", seen_wiring="no")
    post(tablet, survey, "hazards", words_bats="Fresh droppings")
    row = survey.findings.get(hazard="bats")
    assert (row.seen, row.words) == ("yes", "Fresh droppings")


def test_a_stop_that_one_tablet_saw_holds_quote_and_work_until_it_is_settled(survey, tablet, office, job):
    """Whoever wrote No may be right; a price is given when somebody has looked, not before."""
    Survey.objects.filter(pk=survey.pk).update(state=Survey.State.OPEN)
    told = [("seen_bats", "yes"), ("seen_heat", "yes"), ("words_bats", "yes"), ("seen_dragons", "yes")]
    send(tablet, survey.number, envelope("hazards", fields={name: ("no", said) for name, said in told}))
    held = [f"Bats, or signs of a roost: {SEEN_ELSEWHERE}"]
    assert what_holds_work(job) == held
    revision = job.revision
    assert held[0] in why_not_issue(revision, [worked_loft()])
    choose(survey.number, unsettled(survey).get(name="seen_bats").pk, take=False, shown="", by=office)
    assert what_holds_work(job) == []
    assert held[0] not in why_not_issue(revision, [worked_loft()])
