"""The pages people wait for, with their queries, over a loft of the usual size."""

from __future__ import annotations

from collections.abc import Callable
from itertools import count, cycle
from typing import Any

from django.contrib.auth.models import User
from django.db import connection
from django.http import HttpResponse
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from jobs.quotes.drafts.forms import ChoicesForm
from jobs.quotes.frozen import optional_parts
from jobs.quotes.models import Revision
from jobs.surveys.models import Survey
from tests.benchmarks.lofts import Made
from tests.benchmarks.measuring import Table, in_own_process, ms, timed

CHANGED_CHOICE_LIMIT_MS = 500
"""How long the office waits for a changed choice, at most, on the machine of a small firm."""
MOVED_HATCH_LIMIT_MS = 500
"""How long the surveyor waits for the boards round a moved hatch, at most; a proof comes when it comes."""
OPTION_TAKEN_LIMIT_MS = 100
"""How long a customer waits for the price with an option taken or left, at most."""
HTMX = {"HX-Request": "true"}

Ask = Callable[[], HttpResponse]


def pages(made: Made) -> Table:
    """Measure every page, warm, as the person who opens it."""
    return Table(("Page", "time", "limit", "queries", "size"), in_own_process(_rows, made))


def _rows(made: Made) -> list[tuple[str, ...]]:
    office, customer, chooser = (Client(headers={"host": "127.0.0.1"}) for _ in range(3))
    office.force_login(User.objects.get(username="office"))
    customer.get(reverse("customer_exchange", args=[made.customer_token]))
    chooser.get(reverse("customer_exchange", args=[made.four_ways_token]))
    one, four = made.offered_number, made.four_ways_number

    def page(name: str, *arguments: str) -> Ask:
        return lambda: office.get(reverse(name, args=arguments))

    return [
        _row("Today", page("today")),
        _row("Quotes, the list", page("quotes")),
        _row("Quote, draft", page("quote", made.draft_number)),
        _row("Quote, a changed choice", _changed_choice(office, made), CHANGED_CHOICE_LIMIT_MS),
        _row("Quote, issued", page("quote", made.offered_number)),
        _row("Survey, the sheet", page("survey", made.visit_number)),
        _row("Survey, roof", page("survey_section", made.visit_number, "roof")),
        _row("Survey, plan", page("survey_section", made.visit_number, "plan")),
        _row("Survey, the hatch moved", _moved_hatch(office, made), MOVED_HATCH_LIMIT_MS),
        _row("Job sheet on a screen", page("job_sheet", made.job_number)),
        _row("Customer's page", lambda: customer.get(_customer_quote(one))),
        _row("Customer's page, an option taken", _option_taken(customer, one), OPTION_TAKEN_LIMIT_MS),
        _row("Four alternatives", lambda: chooser.get(_customer_quote(four))),
        _row("Four alternatives, an option taken", _option_taken(chooser, four), OPTION_TAKEN_LIMIT_MS),
        _row("Four alternatives, another picked", _another_picked(chooser, four)),
    ]


def _row(name: str, ask: Ask, limit_ms: int | None = None) -> tuple[str, ...]:
    timing = timed(ask)
    with CaptureQueriesContext(connection) as queries:
        answer = ask()
    if answer.status_code != 200:
        raise RuntimeError(f"{name} answered {answer.status_code}: there is nothing to measure")
    limit = ms(limit_ms) if limit_ms else ""
    size = f"{len(answer.content) / 1024:.0f} KB"
    return name, ms(timing.median_ms), limit, str(len(queries)), size


def _changed_choice(office: Client, made: Made) -> Ask:
    """Return a call that sends the draft's form as htmx does, each time with another U-value to reach."""
    revision = Revision.objects.select_related("edition").get(quote__number=made.draft_number)
    sent = _as_sent(ChoicesForm(revision=revision))
    address = reverse("revision_choices", args=[made.draft_number, revision.letter])
    targets = cycle(("0.14", "0.16"))
    return lambda: office.post(address, sent | {"target_u_w_m2k": next(targets)}, headers=HTMX)


def _moved_hatch(office: Client, made: Made) -> Ask:
    """Return a call that sends the plan as htmx does, each time with the hatch where it never was."""
    sent = Survey.objects.get(number=made.visit_number).answers["plan"]
    address = reverse("survey_section", args=[made.visit_number, "plan"])
    places_mm = count(4_300, 20)
    writes_through = HTMX | {"HX-Trigger": "answers"}
    return lambda: office.post(address, sent | {"hatch_left": str(next(places_mm))}, headers=writes_through)


def _as_sent(form: ChoicesForm) -> dict[str, Any]:
    """Return what a browser sends of a form left as it is; a box without a tick is not sent."""
    values = {field.html_name: field.value() for field in form}
    return {name: value for name, value in values.items() if value is not None and value is not False}


def _option_taken(customer: Client, number: str) -> Ask:
    """Return a call that takes every option of the alternative that is drawn, as htmx does."""
    revision = Revision.objects.get(quote__number=number)
    taken = [part.value for part in optional_parts(revision, alternative=0)]
    asked = {"priced": "1", "drawn": "0", "alternative": "0", "taken": taken}
    return lambda: customer.get(_customer_quote(number), asked, headers=HTMX)


def _another_picked(customer: Client, number: str) -> Ask:
    """Return a call that picks an alternative other than the one drawn, which draws all of it anew."""
    asked = {"priced": "1", "drawn": "0", "alternative": "1"}
    return lambda: customer.get(_customer_quote(number), asked, headers=HTMX)


def _customer_quote(number: str) -> str:
    return reverse("customer_quote", args=[number])
