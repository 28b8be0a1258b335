"""The invented firm's visits: lofts measured, one half measured, and one still to visit."""

from __future__ import annotations

from datetime import timedelta

from django.contrib.auth.models import User
from django.utils import timezone

from estimating.published.hazards import HAZARDS
from jobs.customers.finding import keep_words_of_customers
from jobs.customers.models import Customer, Enquiry, Property
from jobs.demo.lofts import DemoLoft
from jobs.surveys.models import Clearance, Finding, Survey
from jobs.surveys.services import answer_hazards, clear_finding, complete_survey, open_survey, save_section


def survey_loft(loft: DemoLoft, *, surveyor: User, office: User, days_ago: int) -> Survey:
    """Take an enquiry, visit the loft and complete its survey."""
    customer = Customer.objects.create(name=loft.customer, email=loft.email, phone=loft.phone)
    place = Property.objects.create(
        customer=customer,
        address=loft.address,
        town=loft.town,
        postcode=loft.postcode,
        description=loft.description,
        built_year=loft.built_year,
    )
    keep_words_of_customers([customer])
    enquiry = Enquiry.objects.create(
        property=place,
        state=Enquiry.State.VISIT_BOOKED,
        wants=loft.wants,
        surveyor=surveyor,
        taken_by=office,
    )
    visited_on = timezone.localdate() - timedelta(days=days_ago)
    survey = open_survey(place, by=surveyor, visited_on=visited_on, enquiry=enquiry)
    for section, typed in loft.answers.items():
        save_section(survey, section=section, typed=typed)
    answer_hazards(
        survey,
        answers=[(hazard.key, *_answer(loft, hazard.key)) for hazard in HAZARDS],
    )
    complete_survey(survey)
    survey.refresh_from_db()
    return survey


def _answer(loft: DemoLoft, hazard: str) -> tuple[str, str]:
    """Return whether a hazard was seen in a loft, and the words."""
    words = loft.seen.get(hazard, "")
    return (Finding.Seen.YES if words else Finding.Seen.NO), words


def clear_wiring(survey: Survey, *, by: User) -> None:
    clear_finding(
        survey.findings.get(hazard="wiring"),
        clearance=Clearance(
            cleared_by="Marit Osgood",
            qualification="Registered electrician",
            document="Minor works certificate 0412: cable to front bedroom renewed",
            dated=timezone.localdate() - timedelta(days=1),
        ),
        by=by,
    )


def leave_a_survey_under_way(*, office: User, surveyor: User) -> None:
    """Leave one loft as it stands when somebody has just climbed up: for whoever tries the tablet's pages."""
    customer = Customer.objects.create(
        name="Ivo Lanteglos", email="ivo.lanteglos@example.com", phone="0161 496 0857"
    )
    place = Property.objects.create(
        customer=customer, address="5 Sandpiper Row", town="Wexcombe", postcode="WX2 8SR", built_year=1996
    )
    keep_words_of_customers([customer])
    enquiry = Enquiry.objects.create(
        property=place,
        state=Enquiry.State.VISIT_BOOKED,
        wants="A deck for boxes round the hatch, and a ladder.",
        visit_at=timezone.now(),
        surveyor=surveyor,
        taken_by=office,
    )
    survey = open_survey(place, by=surveyor, visited_on=timezone.localdate(), enquiry=enquiry)
    at_the_hatch = {"hatch_long": "2' 5\"", "hatch_short": "565", "floor_to_ceiling": "2.4 m"}
    save_section(survey, section="arrive", typed=at_the_hatch)


def leave_an_enquiry_to_visit(*, office: User, surveyor: User) -> None:
    customer = Customer.objects.create(
        name="Wilf Tarrant", email="wilf.tarrant@example.com", phone="020 7946 0418"
    )
    place = Property.objects.create(
        customer=customer, address="27 Harbour Lane", town="Wexcombe", postcode="WX1 2HL"
    )
    keep_words_of_customers([customer])
    Enquiry.objects.create(
        property=place,
        state=Enquiry.State.VISIT_BOOKED,
        wants="Boards over new insulation, and somewhere to put the tent.",
        visit_at=timezone.now() + timedelta(days=1),
        surveyor=surveyor,
        taken_by=office,
    )
