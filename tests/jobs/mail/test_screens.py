from __future__ import annotations

from collections.abc import Callable
from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from jobs.mail.models import OutgoingMail
from jobs.quotes.customer.models import CustomerLink
from jobs.quotes.models import Revision
from jobs.today.waiting import waiting_for

pytestmark = pytest.mark.django_db
State = OutgoingMail.State


def page(answer) -> str:
    return answer.content.decode()


@pytest.fixture
def acts(queue, on_paper: Revision) -> list[str]:
    mail = queue()
    return [
        reverse("mail_try_again", args=[mail.pk]),
        reverse("mail_withdraw", args=[mail.pk]),
        reverse("quote_mail", args=[on_paper.quote.number]),
    ]


@pytest.fixture
def looks(queue) -> list[str]:
    return [reverse("outbox"), reverse("mail", args=[queue().pk])]


def test_nobody_reaches_the_outbox_without_logging_in(client, acts, looks):
    for address in (*looks, *acts):
        assert client.post(address).url.startswith("/log-in/")


@pytest.mark.parametrize("role", ["crew", "surveyor"])
def test_crew_and_surveyor_see_and_send_no_mail(request, logged_in, acts, looks, role):
    client = logged_in(request.getfixturevalue(role))
    assert [client.get(address).status_code for address in looks] == [403, 403]
    assert [client.post(address).status_code for address in acts] == [403] * len(acts)


@pytest.mark.parametrize("role", ["office", "owner"])
def test_office_and_owner_send_mail(request, logged_in, acts, looks, role):
    client = logged_in(request.getfixturevalue(role))
    assert [client.get(address).status_code for address in looks] == [200, 200]
    assert [client.get(address).status_code for address in acts] == [405, 405, 200]
    assert [client.post(address).status_code for address in acts] == [302, 302, 422]


@pytest.fixture
def form_of(logged_in, office, on_paper) -> Callable[..., dict[str, str]]:
    """Return what the form sends if nothing in it is changed but what is named."""

    def sent(**changes: str) -> dict[str, str]:
        answer = logged_in(office).get(reverse("quote_mail", args=[on_paper.quote.number]))
        form = answer.context["form"]
        return {field.name: field.value() or "" for field in form} | changes

    return sent


def test_the_form_suggests_customer_and_words_and_queues_one_message(logged_in, office, on_paper, form_of):
    client, address = logged_in(office), reverse("quote_mail", args=[on_paper.quote.number])
    sent = form_of()
    assert (sent["name"], sent["address"]) == ("Odile Pemberwick", "odile@example.org")
    for _ in range(2):  # pressed twice
        answer = client.post(address, sent, follow=True)
    assert "To be sent to Odile Pemberwick &lt;odile@example.org&gt;." in page(answer)
    mail = OutgoingMail.objects.get()
    assert (mail.about, mail.made_by, mail.state) == (on_paper, office, State.WAITING)


def test_the_form_comes_back_with_everything_typed(logged_in, office, on_paper, form_of):
    address = reverse("quote_mail", args=[on_paper.quote.number])
    sent = form_of(text="Without the place for it.", also_address="ivo@example.org", name="Odile\nBcc: x")
    answer = logged_in(office).post(address, sent)
    assert answer.status_code == 422
    assert "Keep [link] once" in page(answer)
    assert "Without the place for it." in page(answer)
    assert "ivo@example.org" in page(answer)
    sent |= {"text": "Here: [link]"}
    assert "must be one line" in page(logged_in(office).post(address, sent))
    assert not OutgoingMail.objects.exists()
    assert not CustomerLink.objects.exists()


def test_the_quotes_page_tells_what_was_mailed_and_what_failed(logged_in, office, on_paper, form_of):
    client = logged_in(office)
    client.post(reverse("quote_mail", args=[on_paper.quote.number]), form_of())
    quote = reverse("quote", args=[on_paper.quote.number])
    calm = page(client.get(quote))
    assert "Mail to Odile Pemberwick &lt;odile@example.org&gt;" in calm
    assert '<details class="working-link"><summary>open the mail of this quote' in calm
    OutgoingMail.objects.update(state=State.FAILED, last_error="550 No such box here")
    failed = page(client.get(quote))
    assert 'role="alert"' in failed
    assert '<details class="working-link" open><summary>open the mail of this quote' in failed
    assert "did not go: 550 No such box here" in failed
    OutgoingMail.objects.update(state=State.SENT, sent_at=timezone.now())
    assert "Mailed to Odile Pemberwick &lt;odile@example.org&gt;" in page(client.get(quote))


def test_the_outbox_tells_states_apart(logged_in, office, queue):
    for state in (State.WAITING, State.SENT, State.FAILED, State.WITHDRAWN):
        mail = queue(subject=f"A {state} message")
        OutgoingMail.objects.filter(pk=mail.pk).update(state=state, last_error="why", sent_at=timezone.now())
    client = logged_in(office)
    assert page(client.get(reverse("outbox"))).count(" message</a>") == 4
    for state in ("waiting", "sent", "failed", "withdrawn"):
        listed = page(client.get(reverse("outbox"), {"state": state}))
        assert listed.count(" message</a>") == 1
        assert f"A {state} message" in listed


def test_without_a_mail_server_the_pages_say_how_to_set_one(logged_in, office, queue, on_paper, settings):
    client, mail = logged_in(office), queue()
    addresses = [
        reverse("outbox"),
        reverse("mail", args=[mail.pk]),
        reverse("quote_mail", args=[on_paper.quote.number]),
    ]
    assert not any("EMAIL_URL" in page(client.get(address)) for address in addresses)
    settings.EMAIL_BACKEND = "django.core.mail.backends.console.EmailBackend"
    assert all("Set EMAIL_URL" in page(client.get(address)) for address in addresses)


def test_trying_again_and_withdrawing_are_told(logged_in, office, queue):
    client, mail = logged_in(office), queue()
    assert "within seconds" in page(client.post(reverse("mail_try_again", args=[mail.pk]), follow=True))
    withdrawn = page(client.post(reverse("mail_withdraw", args=[mail.pk]), follow=True))
    assert "It is not sent." in withdrawn
    assert "nothing was done" in page(client.post(reverse("mail_withdraw", args=[mail.pk]), follow=True))


def test_mail_that_did_not_go_waits_for_the_office(office, surveyor, queue):
    mail = queue()
    today = timezone.localdate()

    def told(person) -> list[str]:
        return [group.title for group in waiting_for(person, today=today)]

    assert "Mail that did not go" not in told(office)
    OutgoingMail.objects.update(state=State.FAILED, last_error="550 No such box here")
    assert "Mail that did not go" in told(office)
    assert "Mail that did not go" not in told(surveyor)
    OutgoingMail.objects.filter(pk=mail.pk).update(
        state=State.WAITING, made_at=timezone.now() - timedelta(hours=2)
    )
    assert "Mail that did not go" in told(office)
