from __future__ import annotations

from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from jobs.customers.models import Enquiry
from jobs.firm.insurance_models import Insurance
from jobs.firm.kinds import FirmKind
from jobs.firm.models import Firm
from jobs.orders.models import MaterialsOrder
from jobs.quotes.customer.decisions import ask_question
from jobs.quotes.listing.following import drop_follow_up, set_follow_up
from jobs.quotes.models import Quote, Revision
from jobs.surveys.models import Clearance, Finding, Survey
from jobs.surveys.tablet.models import KeptAside
from jobs.today.groups import READ, SHOWN
from jobs.today.waiting import waiting_for
from jobs.works.models import Job

pytestmark = pytest.mark.django_db


@pytest.fixture
def today():
    return timezone.localdate()


def titles(person, today) -> dict[str, int]:
    """Return how many things wait under each title."""
    person = type(person).objects.get(pk=person.pk)  # forget which permissions were looked up
    return {group.title: len(group.items) for group in waiting_for(person, today=today)}


@pytest.mark.parametrize("role", ["owner", "office", "surveyor", "crew"])
def test_nothing_waits_in_an_empty_book(request, role, logged_in):
    person = request.getfixturevalue(role)
    assert "Nothing waits for you today." in logged_in(person).get(reverse("today")).content.decode()


def test_an_enquiry_waits_for_its_visit_to_be_booked_and_then_made(building, office, surveyor, today):
    enquiry = Enquiry.objects.create(property=building, taken_by=office)
    assert titles(office, today) == {"Book a visit": 1}
    assert titles(surveyor, today) == {}
    Enquiry.objects.filter(pk=enquiry.pk).update(
        state=Enquiry.State.VISIT_BOOKED, visit_at=timezone.now(), surveyor=surveyor
    )
    assert titles(office, today) == titles(surveyor, today) == {"Visit": 1}
    Enquiry.objects.filter(pk=enquiry.pk).update(state=Enquiry.State.SURVEYED)
    assert titles(office, today) == titles(surveyor, today) == {}


def test_a_survey_waits_for_its_surveyor_and_then_for_the_office(survey, office, surveyor, today):
    assert titles(surveyor, today) == {"Finish the survey": 1}
    Survey.objects.filter(pk=survey.pk).update(state=Survey.State.COMPLETE)
    assert titles(surveyor, today) == {}
    assert titles(office, today) == {"Price the survey": 1}


def test_a_stop_waits_until_it_is_cleared(survey, office, today):
    stop = Finding.objects.create(
        survey=survey, hazard="bats", seen="yes", severity="stop", words="Droppings"
    )
    assert titles(office, today)["Have a stop cleared"] == 1
    Clearance.objects.create(
        finding=stop, cleared_by="An ecologist", qualification="Licensed", document="Letter", dated=today,
        recorded_by=office,
    )  # fmt: skip
    assert "Have a stop cleared" not in titles(office, today)


def test_a_draft_that_a_stop_holds_waits_for_the_stop_alone(survey, office, firm, edition, today):
    quote = Quote.objects.create(
        number="Q-2026-0001", property=survey.property, survey=survey, made_by=office
    )
    Revision.objects.create(quote=quote, letter="A", edition=edition, made_by=office)
    assert titles(office, today)["Issue the draft"] == 1
    Finding.objects.create(survey=survey, hazard="bats", seen="yes", severity="stop", words="Droppings")
    assert "Issue the draft" not in titles(office, today)


def test_values_kept_aside_wait_until_somebody_has_chosen(survey, office, surveyor, today):
    Survey.objects.filter(pk=survey.pk).update(surveyor=office)
    row = KeptAside.objects.create(survey=survey, section="roof", name="span", other="7 m", reason="differs")
    assert titles(office, today)["Choose between values"] == 1
    assert "Choose between values" not in titles(surveyor, today)
    Survey.objects.filter(pk=survey.pk).update(surveyor=surveyor)
    assert titles(surveyor, today)["Choose between values"] == 1
    KeptAside.objects.filter(pk=row.pk).update(settled_at=timezone.now())
    assert "Choose between values" not in titles(office, today)


def test_cautions_and_stops_not_seen_wait_for_nobody(survey, office, today):
    Finding.objects.create(survey=survey, hazard="heat", seen="yes", severity="caution")
    Finding.objects.create(survey=survey, hazard="bats", seen="no", severity="stop")
    assert "Have a stop cleared" not in titles(office, today)


@pytest.mark.parametrize(("days_left", "waits"), [(6, False), (5, True), (0, True)])
def test_an_offer_waits_from_five_days_before_it_lapses(offer, office, today, days_left, waits):
    Survey.objects.update(state=Survey.State.COMPLETE)
    Revision.objects.filter(pk=offer.pk).update(valid_until=today + timedelta(days=days_left))
    assert ("Ask before it lapses" in titles(office, today)) is waits


def test_a_question_waits_until_it_is_answered(offer, office, today):
    question = ask_question(offer.quote, "May the deck carry a wardrobe?")
    assert titles(office, today)["Answer"] == 1
    question.answered_at = timezone.now()
    question.save()
    assert "Answer" not in titles(office, today)


@pytest.fixture
def quoted(job) -> Job:
    """Return a job whose survey waits for nothing more."""
    Survey.objects.update(state=Survey.State.COMPLETE)
    return job


def booked(job: Job, starts_on) -> None:
    Job.objects.filter(pk=job.pk).update(state=Job.State.BOOKED, starts_on=starts_on, ends_on=starts_on)


def test_an_accepted_job_waits_to_be_booked(quoted, office, today):
    assert titles(office, today) == {"Book the job": 1}


@pytest.mark.parametrize(("days", "waits"), [(8, False), (7, True), (0, True)])
def test_a_job_that_starts_within_a_week_waits_for_a_sent_order(quoted, office, today, days, waits):
    booked(quoted, today + timedelta(days=days))
    assert ("Order for it" in titles(office, today)) is waits
    assert titles(office, today)["Send the order"] == quoted.orders.count()
    quoted.orders.update(state="sent", paper_sha256="0" * 64)
    assert titles(office, today) == {}


def test_unsent_orders_wait_once_it_is_known_when_they_are_wanted(quoted, office, today):
    assert "Send the order" not in titles(office, today)
    quoted.orders.filter(pk=quoted.orders.first().pk).update(wanted_on=today)
    assert titles(office, today)["Send the order"] == 1
    booked(quoted, today)
    assert titles(office, today)["Send the order"] == 2


def test_a_complete_job_waits_to_be_handed_over(quoted, office, crew, today):
    quoted.crew.add(crew)
    Job.objects.filter(pk=quoted.pk).update(state=Job.State.COMPLETE)
    assert titles(office, today) == {"Hand over": 1}
    assert titles(crew, today) == {}


def test_the_crew_sees_the_jobs_it_is_on(quoted, crew, today):
    booked(quoted, today)
    assert titles(crew, today) == {}
    quoted.crew.add(crew)
    assert titles(crew, today) == {"Your jobs": 1}


def test_a_long_list_is_cut_short_and_says_so(building, office, logged_in, today):
    Enquiry.objects.bulk_create(Enquiry(property=building, taken_by=office) for _ in range(READ + 5))
    (group,) = waiting_for(office, today=today)
    assert (len(group.shown), group.count) == (SHOWN, f"{READ} or more")
    assert "See all" in logged_in(office).get(reverse("today")).content.decode()


def test_a_quote_waits_from_the_day_to_follow_it_up_until_that_is_done(offer, office, today):
    Survey.objects.update(state=Survey.State.COMPLETE)
    set_follow_up(offer.quote, on=today + timedelta(days=1))
    assert "Follow up" not in titles(office, today)
    assert titles(office, today + timedelta(days=1))["Follow up"] == 1
    drop_follow_up(offer.quote)
    assert "Follow up" not in titles(office, today + timedelta(days=1))


def test_the_database_is_asked_thirteen_times_however_much_waits(
    quoted, owner, today, django_assert_max_num_queries
):
    enquiries = (Enquiry(property=quoted.revision.quote.property, taken_by=owner) for _ in range(20))
    Enquiry.objects.bulk_create(enquiries)
    for number in range(20):
        ask_question(quoted.revision.quote, f"Question {number}?")
        MaterialsOrder.objects.create(
            number=f"M-2026-1{number:03}", job=quoted, supplier=f"Merchant {number}", wanted_on=today
        )
    owner.get_all_permissions()
    with django_assert_max_num_queries(13):
        assert len(waiting_for(owner, today=today)) == 5


def test_today_asks_for_a_log_in(client):
    assert client.get(reverse("today")).url.startswith("/log-in/")


def test_the_owner_is_told_what_the_law_wants_said_and_which_insurance_runs_out(owner, office, firm, today):
    held = Insurance.objects.create(what="Liability", insurer="An insurer", until=today - timedelta(days=1))
    assert titles(owner, today) == {"Mend the firm's particulars": 2}
    assert titles(office, today) == {}
    Firm.objects.update(kind=FirmKind.SOLE_TRADER, owners="Odile Pemberwick")
    Insurance.objects.filter(pk=held.pk).update(until=today + timedelta(days=300))
    assert titles(owner, today) == {}
