"""A page that waits is answered with the improved part, with nothing yet, or told to ask no longer."""

from __future__ import annotations

import re

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from jobs.layouts.landing import PATIENCE, Waiting, has_landed
from jobs.layouts.models import StoredLayout
from jobs.layouts.services import prove_wanted_layouts, search_longer
from jobs.layouts.store import Awaited
from jobs.quotes.drafts.services import draft_quote
from jobs.quotes.models import Revision
from jobs.quotes.services import issue_revision
from jobs.surveys.services import complete_survey, save_section
from tests.jobs.quotes.conftest import answer_every_hazard
from tests.jobs.surveys.lofts import TRUSSED

pytestmark = pytest.mark.django_db
State = StoredLayout.State
HTMX = {"HX-Request": "true"}
ASKS = re.compile(r'id="awaited" hx-get="([^"]+)"')


@pytest.fixture
def measured(survey, edition):
    for section, typed in TRUSSED.items():
        save_section(survey, section=section, typed=typed)
    answer_every_hazard(survey)
    survey.refresh_from_db()
    return survey


@pytest.fixture
def draft(measured, office) -> Revision:
    complete_survey(measured)
    measured.refresh_from_db()
    return draft_quote(measured, by=office)


@pytest.fixture
def opened(django_capture_on_commit_callbacks):
    """Open a page as a browser does, its transaction ended."""

    def get(client, address, **headers):
        with django_capture_on_commit_callbacks(execute=True):
            return client.get(address, headers=headers)

    return get


def asked_by(page) -> str | None:
    """Return the address that a page goes on asking."""
    found = ASKS.search(page.content.decode())
    return found[1].replace("&amp;", "&") if found else None


def test_a_draft_says_that_its_proof_is_being_worked_out_and_asks_for_it(draft, office, logged_in, opened):
    page = opened(logged_in(office), reverse("quote", args=[draft.quote.number]))
    assert "boards, best so far; the proof is being worked out." in page.content.decode()
    assert asked_by(page).startswith(reverse("revision_landed", args=[draft.quote.number, draft.letter]))
    assert StoredLayout.objects.count() > 0


def test_nothing_yet_is_one_query_on_the_layouts(draft, office, logged_in, opened):
    client = logged_in(office)
    address = asked_by(opened(client, reverse("quote", args=[draft.quote.number])))
    with CaptureQueriesContext(connection) as queries:
        answer = client.get(address, headers=HTMX)
    assert answer.status_code == 204
    assert sum("storedlayout" in each["sql"] for each in queries) == 1


def test_a_proof_that_landed_changes_boards_price_plan_and_lines_together(
    draft, office, logged_in, opened, solver
):
    solver()
    client = logged_in(office)
    address = asked_by(opened(client, reverse("quote", args=[draft.quote.number])))
    prove_wanted_layouts()
    answer = opened(client, address, **HTMX)
    words = answer.content.decode()
    assert "proved the fewest." in words
    for part in ('id="figures"', 'id="drawings"', 'id="lines"'):
        assert part in words
    assert 'id="choices"' not in words
    assert asked_by(answer) is None


def test_a_gap_goes_on_waiting_from_when_the_page_began(draft, office, logged_in, opened, solver):
    solver(proof=1, long=0)
    client = logged_in(office)
    first = asked_by(opened(client, reverse("quote", args=[draft.quote.number])))
    prove_wanted_layouts()
    answer = opened(client, first, **HTMX)
    assert "at most 1 more than the fewest; a longer search is under way." in answer.content.decode()
    second = asked_by(answer)
    assert second.rpartition("since=")[2] == first.rpartition("since=")[2]
    assert client.get(second, headers=HTMX).status_code == 204
    search_longer(at_most=9)
    assert "proved the fewest." in opened(client, second, **HTMX).content.decode()


def test_after_a_while_the_page_is_told_to_ask_no_longer(draft, office, logged_in, opened):
    client = logged_in(office)
    address, _, since = asked_by(opened(client, reverse("quote", args=[draft.quote.number]))).rpartition("=")
    long_ago = int(since) - int(PATIENCE.total_seconds()) - 1
    answer = client.get(f"{address}={long_ago}", headers=HTMX)
    assert (answer["HX-Retarget"], answer["HX-Reswap"]) == ("#awaited", "outerHTML")
    assert "open the page again" in answer.content.decode()
    assert asked_by(answer) is None


def test_what_cannot_be_read_has_waited_long_enough(draft, office, logged_in):
    address = reverse("revision_landed", args=[draft.quote.number, draft.letter])
    answer = logged_in(office).get(address, {"since": "²", "proofs": ",,"}, headers=HTMX)
    assert "open the page again" in answer.content.decode()


def test_a_page_of_a_draft_that_was_issued_meanwhile_stops_asking(draft, office, logged_in, opened):
    client = logged_in(office)
    address = asked_by(opened(client, reverse("quote", args=[draft.quote.number])))
    issue_revision(draft, by=office)
    answer = client.get(address, headers=HTMX)
    assert (answer.status_code, answer["HX-Reswap"]) == (286, "none")


def test_an_issued_quote_says_what_was_known_then_and_asks_nothing(draft, office, logged_in, opened, solver):
    solver()
    client = logged_in(office)
    address = reverse("quote", args=[draft.quote.number])
    opened(client, address)
    prove_wanted_layouts()
    issue_revision(draft, by=office)
    StoredLayout.objects.all().delete()
    page = opened(client, address)
    assert "proved the fewest." in page.content.decode()
    assert asked_by(page) is None
    assert not StoredLayout.objects.exists()


def test_issuing_waits_for_no_proof(draft, office, logged_in, opened):
    issue_revision(draft, by=office)
    page = opened(logged_in(office), reverse("quote", args=[draft.quote.number]))
    assert "the best found; not proved." in page.content.decode()


def test_without_htmx_the_address_leads_to_the_page(draft, measured, office, logged_in):
    client = logged_in(office)
    answer = client.get(reverse("revision_landed", args=[draft.quote.number, draft.letter]))
    assert answer.url == reverse("revision", args=[draft.quote.number, draft.letter])
    assert client.get(reverse("survey_landed", args=[measured.number])).url == reverse(
        "survey", args=[measured.number]
    )


@pytest.fixture
def visiting(surveyor, logged_in):
    """Return the browser in which the surveyor is logged in."""
    return logged_in(surveyor)


@pytest.mark.parametrize("section", ["plan", ""])
def test_a_survey_is_improved_without_a_box_of_its_form(measured, visiting, opened, solver, section):
    solver()
    name, arguments = ("survey_section", [section]) if section else ("survey", [])
    page = opened(visiting, reverse(name, args=[measured.number, *arguments]))
    assert "boards, best so far" in page.content.decode()
    prove_wanted_layouts()
    words = opened(visiting, asked_by(page), **HTMX).content.decode()
    assert "proved the fewest." in words
    assert 'id="counts" hx-swap-oob' in words
    assert ('id="plan"' in words) is (section == "")  # the sheet's plan stands outside its figures
    assert "<input" not in words
    assert "<svg" in words


def test_whoever_may_not_see_the_quote_is_not_answered(draft, crew, client, logged_in):
    address = reverse("revision_landed", args=[draft.quote.number, draft.letter])
    assert logged_in(crew).get(address, headers=HTMX).status_code == 403
    assert client.get(address, headers=HTMX).status_code == 302


def test_a_wish_that_was_never_written_down_has_not_landed():
    assert not has_landed(["0" * 32], State.PROOF_WANTED)
    assert not has_landed([], State.PROOF_WANTED)


def test_a_stage_has_landed_once_nothing_of_it_is_wanted_any_longer():
    now = timezone.now()
    for digest in "ab":
        StoredLayout.objects.create(
            digest=digest, task={}, asked_at=now, used_on=timezone.localdate(now), laid={}
        )
    rows = StoredLayout.objects.order_by("digest")
    for state, landed in ((State.SEARCH_WANTED, False), (State.LANDED, True)):
        StoredLayout.objects.filter(pk=rows[0 if state == State.SEARCH_WANTED else 1].pk).update(state=state)
        assert has_landed("ab", State.PROOF_WANTED) is landed
    assert not has_landed("ab", State.SEARCH_WANTED)
    assert has_landed("b", State.SEARCH_WANTED)


def test_the_proof_of_what_is_shown_is_waited_for_first():
    def query(**stages: tuple[str, ...]) -> str:
        return Waiting(Awaited(**stages), since=7).query

    assert query(shown=("a",), others=("b",), searches=("c",)) == "proofs=a&since=7"
    assert query(others=("b", "d"), searches=("c",)) == "proofs=b%2Cd&since=7"
    assert query(searches=("c",)) == "searches=c&since=7"
