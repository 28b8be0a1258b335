"""Take enquiries, book visits and close them."""

from __future__ import annotations

from datetime import datetime

from django.contrib.auth.models import User
from django.db import transaction
from django.utils import timezone

from jobs.customers.finding import keep_words_of_customers
from jobs.customers.models import Customer, Enquiry, Property
from jobs.quotes.listing.finding import keep_words_of_customer, keep_words_of_property


class EnquiryClosed(Exception):
    """A closed enquiry is not gone on with; it can be opened again."""


@transaction.atomic
def take_enquiry(enquiry: Enquiry, *, building: Property, customer: Customer, by: User) -> Enquiry:
    """Keep an enquiry with its customer and its property, whichever of them are new."""
    if customer.pk is None:
        customer.save()
    if building.pk is None:
        building.customer = customer
        building.save()
    keep_words_of_customers([building.customer])
    enquiry.property, enquiry.taken_by = building, by
    enquiry.save()
    return enquiry


@transaction.atomic
def change_customer(customer: Customer) -> None:
    """Keep a customer's particulars, and let them and their quotes be found by them."""
    customer.save()
    keep_words_of_customers([customer])
    keep_words_of_customer(customer)


@transaction.atomic
def change_property(building: Property) -> None:
    """Keep a property's particulars, new ones too, and let it and its quotes be found by them."""
    building.save()
    keep_words_of_customers([building.customer])
    keep_words_of_property(building)


@transaction.atomic
def book_visit(enquiry: Enquiry, *, at: datetime, surveyor: User) -> None:
    """Book the survey visit of an enquiry, or move it."""
    locked = _open(enquiry)
    locked.visit_at, locked.surveyor = at, surveyor
    if locked.state == Enquiry.State.NEW:
        locked.state = Enquiry.State.VISIT_BOOKED
    locked.save(update_fields=["visit_at", "surveyor", "state"])


@transaction.atomic
def close_enquiry(enquiry: Enquiry, *, because: str) -> None:
    """Close an enquiry that comes to nothing, with the reason."""
    locked = _open(enquiry)
    locked.state, locked.closed_because = Enquiry.State.CLOSED, because
    locked.save(update_fields=["state", "closed_because"])


@transaction.atomic
def reopen_enquiry(enquiry: Enquiry) -> None:
    """Open a closed enquiry again, where it stood."""
    locked = Enquiry.objects.select_for_update().get(pk=enquiry.pk)
    if locked.surveys.exists():
        locked.state = Enquiry.State.SURVEYED
    else:
        locked.state = Enquiry.State.VISIT_BOOKED if locked.visit_at else Enquiry.State.NEW
    locked.closed_because = ""
    locked.save(update_fields=["state", "closed_because"])


@transaction.atomic
def agree_to_news(customer: Customer, *, words: str) -> None:
    """Keep that a customer agreed to be sent news, in the words they ticked."""
    locked = Customer.objects.select_for_update().get(pk=customer.pk)
    locked.news_words, locked.news_agreed_at, locked.news_withdrawn_at = words, timezone.now(), None
    locked.save(update_fields=["news_words", "news_agreed_at", "news_withdrawn_at"])


@transaction.atomic
def withdraw_news(customer: Customer) -> None:
    """Keep that a customer wants no news any longer; what they had agreed to stays on record."""
    locked = Customer.objects.select_for_update().get(pk=customer.pk)
    if locked.wants_news:
        locked.news_withdrawn_at = timezone.now()
        locked.save(update_fields=["news_withdrawn_at"])


def _open(enquiry: Enquiry) -> Enquiry:
    locked = Enquiry.objects.select_for_update().get(pk=enquiry.pk)
    if locked.state == Enquiry.State.CLOSED:
        raise EnquiryClosed("This enquiry is closed. Open it again first.")
    return locked
