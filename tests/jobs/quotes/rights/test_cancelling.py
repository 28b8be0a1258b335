"""Cancelling: until which day, one outcome, what is called off, and what each side then owes."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal

import pytest
from django.utils import timezone

from estimating.contracts.kind import HowAgreed
from jobs.quotes.models import Revision
from jobs.quotes.rights.cancelling import cancel_contract, settle_cancellation
from jobs.quotes.rights.early_start import TooLate, ask_early_start
from jobs.quotes.rights.models import Cancellation, EarlyStart
from jobs.quotes.rights.period import time_to_cancel
from jobs.store.models import StoredBoard
from jobs.works.models import Job
from jobs.works.services import JobRefused, book_job
from tests.jobs.quotes.rights.conftest import NOBODY, accept, address

pytestmark = pytest.mark.django_db
# Consumer Contracts Regulations 2013 (SI 2013/3134) reg 30, 31, 34 and 36.


def begun(decision) -> Job:
    job = decision.revision.job
    job.state, job.started_at = Job.State.UNDER_WAY, timezone.now()
    job.save()
    return job


def test_fourteen_days_after_the_contract_and_after_the_last_goods_the_later_is_printed(offer):
    decision = accept(offer, days_ago=20)
    made = timezone.localdate() - timedelta(days=20)
    time = time_to_cancel(decision)
    assert (time.period.last_day.on, time.is_running) == (made + timedelta(days=14), True)
    assert "Goods are still to come" in time.how_it_may_move
    decision.last_goods_on = timezone.localdate() - timedelta(days=3)
    time = time_to_cancel(decision)
    assert [each.on for each in time.both] == [
        made + timedelta(days=14),
        decision.last_goods_on + timedelta(days=14),
    ]
    assert time.period.last_day.on == decision.last_goods_on + timedelta(days=14)
    assert (time.is_running, time.how_it_may_move) == (True, "")
    decision.last_goods_on = timezone.localdate() - timedelta(days=15)
    assert not time_to_cancel(decision).is_running


def test_finished_work_has_had_its_last_goods(offer):
    decision = accept(offer, days_ago=40)
    job = decision.revision.job
    job.completed_at = timezone.now() - timedelta(days=14)
    job.save()
    assert time_to_cancel(decision).is_running
    job.completed_at -= timedelta(days=1)
    assert not time_to_cancel(decision).is_running


def test_who_was_never_told_has_a_year_more(offer):
    # reg 31: 12 months after the usual period
    del offer.issued["rights"]
    offer.save()
    decision = accept(offer)
    decision.decided_at = timezone.make_aware(timezone.datetime(2026, 3, 2, 12))
    assert time_to_cancel(decision).period.by_contract.on == date(2027, 3, 16)


def test_cancelling_keeps_its_evidence_and_calls_the_job_off(offer, phone):
    decision = accept(offer)
    sent = {"name_typed": "Odile Pemberwick", "reason": "We move."}
    answer = phone.post(address("cancel", offer), sent, headers={"User-Agent": "A phone"})
    assert answer.status_code == 302
    said = Cancellation.objects.get()
    assert said.words == f"I cancel the contract made by accepting quote {offer}."
    assert (said.name_typed, said.reason, said.browser) == ("Odile Pemberwick", "We move.", "A phone")
    assert (said.address, said.link) == ("127.0.0.1", offer.quote.links.get())
    assert said.period["printed"] == (timezone.localdate() + timedelta(days=14)).isoformat()
    offer.refresh_from_db()
    assert (offer.state, offer.job.state) == (Revision.State.CANCELLED, Job.State.CALLED_OFF)
    assert said.settlement["payable"] == "0.00"
    assert said.decision == decision


def test_cancelled_twice_is_cancelled_once(offer, phone):
    accept(offer)
    sent = {"name_typed": "Odile Pemberwick", "reason": ""}
    first = phone.post(address("cancel", offer), sent)
    again = phone.post(address("cancel", offer), sent | {"reason": "another"})
    assert (first.url, again.url) == (address("quote", offer), address("quote", offer))
    assert Cancellation.objects.get().reason == ""


def test_a_cancellation_without_a_name_comes_back_with_what_was_typed(offer, phone):
    accept(offer)
    answer = phone.post(address("cancel", offer), {"name_typed": "", "reason": "We move."})
    assert answer.status_code == 422
    assert "We move." in answer.content.decode()
    assert not Cancellation.objects.exists()


def test_after_the_last_day_nobody_cancels(offer, phone):
    decision = accept(offer, days_ago=30)
    decision.last_goods_on = timezone.localdate() - timedelta(days=15)
    decision.save()
    for answer in (phone.get(address("cancel", offer)), phone.post(address("cancel", offer), {})):
        assert answer.status_code == 409
        assert "The last day to cancel was" in answer.content.decode()
    with pytest.raises(TooLate):
        cancel_contract(decision, name_typed="Odile", evidence=NOBODY)
    letter_sent_in_time = timezone.localdate() - timedelta(days=2)
    assert cancel_contract(decision, name_typed="Odile", evidence=NOBODY, said_on=letter_sent_in_time)


def test_where_there_is_no_right_there_is_no_form(told, phone):
    offer = told(HowAgreed.AFTER_VISIT, right_to_cancel_anyway=False)
    accept(offer)
    assert "Cancel the contract" not in phone.get(address("quote", offer)).content.decode()
    assert phone.post(address("cancel", offer), {"name_typed": "Odile"}).status_code == 409
    assert not Cancellation.objects.exists()


def test_what_was_not_accepted_cannot_be_cancelled(offer, phone):
    assert phone.get(address("cancel", offer)).status_code == 409
    assert phone.get(address("early_start", offer)).status_code == 409


def test_boards_go_back_into_the_store_unless_work_has_begun(offer, edition):
    decision = accept(offer)
    for begun_before in (False, True):
        StoredBoard.objects.all().delete()
        StoredBoard.objects.create(
            board_code="B", description="a board", length_mm=2400, count=2, taken_for=decision.revision.job
        )
        if begun_before:
            Cancellation.objects.all().delete()
            Revision.objects.update(state=Revision.State.ACCEPTED)
            Job.objects.update(state=Job.State.UNDER_WAY, started_at=timezone.now())
        cancel_contract(decision, name_typed="Odile", evidence=NOBODY)
        assert StoredBoard.objects.filter(taken_for=None).exists() is not begun_before


@pytest.mark.parametrize(
    ("early_start", "share", "owed"),
    [
        # price 1000, 300 paid. reg 36, from memory: the share done, and nothing without the request
        (True, "0.25", ("250.00", "50.00", "0.00")),
        (True, "0.60", ("600.00", "0.00", "300.00")),
        (False, "0.60", ("0.00", "300.00", "0.00")),
    ],
)
def test_work_under_way_is_paid_by_the_share_done_if_it_was_asked_for(
    offer, office, early_start, share, owed
):
    decision = accept(offer, early_start=early_start)
    decision.total = Decimal(1000)
    decision.save()
    begun(decision)
    said = cancel_contract(decision, name_typed="Odile", evidence=NOBODY)
    assert (said.work_had_begun, said.settlement) == (True, {})
    said = settle_cancellation(said, share_done=Decimal(share), paid=Decimal(300), by=office)
    kept = said.settlement
    assert (kept["payable"], kept["to_refund"], kept["still_to_pay"]) == owed
    assert kept["refund_by"] == (timezone.localdate() + timedelta(days=14)).isoformat()


def test_a_job_called_off_goes_nowhere(offer, office, crew):
    job = cancel_contract(accept(offer), name_typed="Odile", evidence=NOBODY).decision.revision.job
    job.refresh_from_db()
    day = timezone.localdate()
    with pytest.raises(JobRefused):
        book_job(job, starts_on=day, ends_on=day, crew=[crew], note="", by=office)


def test_the_early_start_is_never_needed_and_kept_apart(offer):
    decision = accept(offer, early_start=True)
    asked = EarlyStart.objects.get()
    assert asked.words.startswith("Please start within the days in which I may cancel.")
    assert "pay for what was done" in asked.words
    assert "lost once it is fully performed" in asked.words
    assert asked.words not in decision.statements


def test_the_early_start_can_be_asked_for_later_until_work_begins(offer, phone):
    decision = accept(offer)
    shown = phone.get(address("early_start", offer)).content.decode()
    assert "Please start within the days in which I may cancel." in shown
    unticked = phone.post(address("early_start", offer), {"name_typed": "Odile"})
    assert (unticked.status_code, EarlyStart.objects.exists()) == (422, False)
    for _ in range(2):
        answer = phone.post(address("early_start", offer), {"name_typed": "Odile", "early_start": "on"})
        assert answer.status_code == 302
    assert EarlyStart.objects.get().link == offer.quote.links.get()
    EarlyStart.objects.all().delete()
    begun(decision)
    decision.refresh_from_db()
    with pytest.raises(TooLate):
        ask_early_start(decision, name_typed="Odile", evidence=NOBODY)
