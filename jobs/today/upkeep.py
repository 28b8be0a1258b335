"""What waits for whoever keeps the book itself: old prices, the firm's particulars, insurances."""

from __future__ import annotations

from datetime import date

from django.urls import reverse

from jobs.firm.insurance_models import Insurance
from jobs.firm.models import Firm
from jobs.firm.settings.reminders import reminders
from jobs.price_books.checked import old_prices_in_use
from jobs.today.groups import Group, Waiting, group_of


def prices_to_check(today: date) -> list[Group]:
    """The prices that new quotes are made with, once they are old by the firm's own measure."""
    old = old_prices_in_use(today=today)
    if old is None:
        return []
    waits = Waiting(
        what=old.edition.name,
        where=old.in_words,
        when="oldest",
        day=old.oldest,
        address=reverse("price_book", args=[old.edition.pk]),
        state=old.edition.state,
    )
    return [group_of("Check prices", [waits], "price_books")]


def particulars_to_mend(today: date) -> list[Group]:
    """What the law wants said of the firm and is not, and insurances that run out."""
    firm = Firm.objects.filter(pk=1).first()
    found = reminders(firm, Insurance.objects.all(), today=today) if firm else []
    items = (
        Waiting(
            what=each.words,
            where="the firm's settings",
            when=("ran out" if each.is_over else "until") if each.day else "",
            day=each.day,
            address=reverse(each.page),
            state="waiting",
        )
        for each in found
    )
    return [group_of("Mend the firm's particulars", items, "firm")]
