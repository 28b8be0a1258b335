"""What the customer picks among alternatives: shown, priced and accepted to the penny, in whatever order."""

from __future__ import annotations

from decimal import Decimal

import pytest
from django.http import QueryDict
from django.test import Client
from django.urls import reverse
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from estimating.choices import Part
from estimating.estimate import Estimate, estimate
from estimating.price.taking import ONE_HATCH
from jobs.firm.models import Firm
from jobs.quotes.compared import compared
from jobs.quotes.customer.decisions import Evidence, NotOpen, accept_revision
from jobs.quotes.customer.links import make_link
from jobs.quotes.customer.models import Decision
from jobs.quotes.frozen import freeze, frozen_estimate, price_with
from jobs.quotes.models import Revision
from jobs.quotes.picking import Picking
from jobs.works.as_accepted import accepted_estimate
from jobs.works.models import Job
from tests.estimating import lofts
from tests.jobs.offers import make_offer

pytestmark = pytest.mark.django_db
NOBODY = Evidence(link=None, address=None, browser="")
HTMX = {"HX-Request": "true"}
NAMES = ["The whole deck", "The smaller deck", "On battens"]
FRONT = lofts.DeckZone(name="Front", outline=lofts.rectangle(1500, 2200, 4500, 5080), joist_field="main")
BACK = lofts.DeckZone(name="Back", outline=lofts.rectangle(4500, 2200, 6900, 5080), joist_field="main")
SMALL_HATCH = lofts.Hatch(outline=lofts.rectangle(3335, 3200, 3800, 3650))  # 465 × 450 mm


@pytest.fixture(scope="module")
def worked() -> list[Estimate]:
    """Return three ways to do one job, with options that differ and that mind each other."""
    survey = lofts.trussed_loft(zones=(FRONT, BACK), hatch=SMALL_HATCH)

    def way(fixed: set[Part], options: set[Part], taken: set[Part] = frozenset(), **changes) -> Estimate:
        parts = frozenset(fixed | options | {Part.INSULATION})
        choices = lofts.choices(
            parts=parts, optional_parts=frozenset(options), taken_parts=frozenset(taken), **changes
        )
        return estimate(survey, lofts.price_book(), choices)

    ways_up = {Part.HATCH, Part.LADDER, Part.DRAUGHT_STRIP}
    return [
        way({Part.EDGE_TRIM}, {Part.LIGHT, *ways_up}),
        way(set(), {Part.LIGHT, Part.EDGE_TRIM}, {Part.EDGE_TRIM}, left_out_zones=frozenset({"Back"})),
        way({Part.LIGHT}, {Part.EDGE_TRIM, *ways_up}, raise_with="battens"),
    ]


@pytest.fixture
def offer(firm, survey, office, worked) -> Revision:
    made = make_offer(
        survey,
        office,
        worked=worked[0],
        alternative_name=NAMES[0],
        alternatives=[{"name": name, "choices": {}} for name in NAMES[1:]],
    )
    made.issued = freeze(made, worked[0], Firm.ours(), worked[1:])
    made.save()
    return made


@pytest.fixture
def customer(client: Client, offer, office) -> Client:
    client.get(reverse("customer_exchange", args=[make_link(offer, by=office)]))
    return client


def address(name: str, revision: Revision) -> str:
    return reverse(f"customer_{name}", args=[revision.quote.number])


def signed(**sent: object) -> dict[str, object]:
    return {
        "name_typed": "Odile Pemberwick",
        "letter": "A",
        "scope": "on",
        "cancel": "on",
        "priced": "1",
    } | sent


class Page:
    """A page of the customer's: what it shows is what it sends back, and one thing is changed at a time."""

    def __init__(self, revision: Revision) -> None:
        self.revision = revision
        self.sent = QueryDict(mutable=True)

    @property
    def picking(self) -> Picking:
        return Picking(self.revision, self.sent or None)

    def change(self, *, alternative: int | None = None, option: Part | None = None) -> None:
        """Pick an alternative, or take an option that is left or leave one that is taken."""
        picking = self.picking
        now, here = picking.now, picking.offers[picking.alternative].optional_parts
        taken = now.taken ^ {option} if option in here else now.taken
        sent = QueryDict(mutable=True)
        sent["priced"], sent["drawn"] = "1", str(now.alternative)
        sent["alternative"] = str(now.alternative if alternative is None else alternative)
        sent.setlist("taken", sorted(taken))
        for name, wish in (("wished", True), ("unwished", False)):
            sent.setlist(name, [part.value for part, wants in picking.wishes.items() if wants is wish])
        self.sent = sent


steps = st.lists(
    st.one_of(
        st.integers(0, 2).map(lambda number: {"alternative": number}),
        st.sampled_from(sorted(set(Part) - {Part.VISIT, Part.DECK})).map(lambda part: {"option": part}),
    ),
    max_size=8,
)
quickly = settings(
    max_examples=30, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)


@quickly
@given(steps)
def test_however_it_came_about_the_price_is_that_of_what_is_picked(offer, worked, way) -> None:
    page = Page(offer)
    for step in way:
        page.change(**step)
    now = page.picking.now
    assert now.price == price_with(offer, now.taken, now.alternative)
    asked_at_once = QueryDict(mutable=True)
    asked_at_once.update({"priced": "1", "alternative": str(now.alternative)})
    asked_at_once.setlist("taken", [part.value for part in now.taken])
    assert Picking(offer, asked_at_once).now == now


@quickly
@given(steps, st.integers(0, 2))
def test_looking_at_other_alternatives_and_coming_back_changes_nothing(offer, way, elsewhere) -> None:
    page = Page(offer)
    for step in way:
        page.change(**step)
    before = page.picking.now
    page.change(alternative=elsewhere)
    page.change(alternative=before.alternative)
    assert page.picking.now == before


@quickly
@given(steps, st.integers(0, 2))
def test_the_price_beside_an_alternative_is_the_price_of_picking_it(offer, way, other) -> None:
    page = Page(offer)
    for step in way:
        page.change(**step)
    promised = page.picking.every[other]
    page.change(alternative=other)
    assert page.picking.now == promised


def test_a_wish_goes_along_and_what_nobody_touched_is_as_the_firm_offers_it(offer) -> None:
    page = Page(offer)
    page.change(option=Part.LIGHT)
    page.change(alternative=1)
    assert page.picking.now.taken == {Part.LIGHT, Part.EDGE_TRIM}  # the trim is offered as taken there
    page.change(alternative=2)
    assert page.picking.now.taken == frozenset()  # the light is in the price there, the trim is left
    page.change(alternative=1)
    page.change(option=Part.EDGE_TRIM)
    page.change(option=Part.EDGE_TRIM)
    page.change(alternative=2)
    assert page.picking.now.taken == {Part.EDGE_TRIM}


def test_alternatives_do_not_influence_each_others_price(offer, worked, survey, office) -> None:
    for number, each in enumerate(worked):
        assert frozen_estimate(offer, number) == each
        assert Picking(offer).every[number].price.totals == each.price.totals


def test_the_first_page_shows_every_alternative_with_its_price_and_what_differs(offer, customer, worked):
    page = customer.get(address("quote", offer)).content.decode()
    for name, each in zip(NAMES, worked, strict=True):
        assert name in page
        assert f"£{each.price.totals.gross:,.2f}" in page
    assert "Decked: Front, Back" in page
    assert "Raised on: battens" in page
    assert page.count('type="radio" name="alternative"') == 3
    assert 'value="0" id="pick-0" checked' in page


def test_another_alternative_brings_its_own_drawing_and_figures(offer, customer, worked):
    asked = {"priced": "1", "letter": "A", "alternative": "1", "drawn": "0"}
    plain = customer.get(address("quote", offer), asked)
    live = customer.get(address("quote", offer), asked, headers=HTMX).content.decode()
    drawing = offer.issued["alternatives"][0]["drawings"]["narrow_plan"]
    for page in (plain.content.decode(), live):
        assert drawing in page
        assert f"{worked[1].design.deck_area_m2.value:.1f} m² of deck" in page
    for part in ("work", "heat", "room", "to-know"):
        assert f'id="{part}" hx-swap-oob="true"' in live
    again = customer.get(address("quote", offer), {**asked, "drawn": "1"}, headers=HTMX).content.decode()
    assert drawing not in again
    assert 'id="price"' in again


def test_what_is_accepted_is_what_was_shown_to_the_penny_and_the_job_follows(offer, customer, worked):
    asked = {"priced": "1", "letter": "A", "alternative": "1", "taken": ["light"]}
    page = customer.get(address("accept", offer), asked)
    total = page.context["price"].totals.gross
    assert NAMES[1] in page.content.decode()
    answer = customer.post(address("accept", offer), signed(alternative="1", taken=["light"]))
    assert answer.status_code == 302
    decision = Decision.objects.get()
    assert (decision.alternative, decision.taken_parts, decision.total) == (1, ["light"], total)
    accepted = accepted_estimate(Job.objects.get())
    assert [zone.zone for zone in accepted.design.zones] == ["Front"]
    assert accepted.price.totals.gross == total
    assert accepted.choices.taken_parts == {Part.LIGHT}
    offer.refresh_from_db()
    assert Picking(offer).now.name == NAMES[1]
    after = customer.get(address("quote", offer), {"priced": "1", "alternative": "2"}).content.decode()
    assert f"{NAMES[1]}, <strong>accepted</strong>" in after
    assert f"£{total:,.2f}" in after


@pytest.mark.parametrize("number", ["", "3", "-1", "x", "٣"])
def test_an_alternative_that_there_is_not_is_refused(offer, customer, number):
    answer = customer.post(address("accept", offer), signed(alternative=number))
    assert answer.status_code == 422
    assert "Pick one of the alternatives of this quote." in answer.content.decode()
    assert not Decision.objects.exists()


def test_the_service_refuses_what_the_form_would_not_send(offer):
    for alternative, taken in ((3, frozenset()), (-1, frozenset()), (1, frozenset({Part.LADDER}))):
        with pytest.raises(NotOpen):
            accept_revision(
                offer, name_typed="O. P.", statements=[], taken_parts=taken, evidence=NOBODY,
                alternative=alternative,
            )  # fmt: skip
    assert not Job.objects.exists()


def test_options_that_exclude_each_other_are_asked_for_as_one_of_them(offer, customer):
    page = customer.get(address("quote", offer)).content.decode()
    for part in ("hatch", "draught-strip"):
        assert f'id="take-{part}"' in page
    assert page.count('type="radio" name="taken"') == 3
    assert "needs the new hatch too" in page


@pytest.mark.parametrize(
    ("taken", "words"),
    [
        (["hatch", "draught strip"], ONE_HATCH),
        (["ladder"], "the present hatch has 465 × 450 mm: take the new hatch too"),
    ],
)
def test_what_does_not_go_together_is_said_and_never_priced_or_accepted(offer, customer, taken, words):
    asked = {"priced": "1", "letter": "A", "alternative": "0", "taken": taken}
    shown = customer.get(address("quote", offer), asked)
    assert words in shown.content.decode()
    assert "price__total" not in shown.content.decode()
    accept = customer.get(address("accept", offer), asked)
    assert accept.status_code == 422
    assert words in accept.content.decode()
    assert "Accept and agree" not in accept.content.decode()
    answer = customer.post(address("accept", offer), signed(alternative="0", taken=taken))
    assert answer.status_code in (409, 422)
    assert words in answer.content.decode()
    assert not Decision.objects.exists()


def test_a_page_left_open_over_another_revision_is_told_so_before_it_is_read_as_this_one(offer, customer):
    asked = {"priced": "1", "letter": "Z", "alternative": "1"}
    assert customer.get(address("accept", offer), asked).status_code == 409
    assert customer.get(address("quote", offer), asked, headers=HTMX)["HX-Refresh"] == "true"


def test_a_second_press_with_another_alternative_is_not_taken_for_the_same(offer, customer):
    sent = signed(alternative="1", taken=[])
    assert customer.post(address("accept", offer), sent).status_code == 302
    assert customer.post(address("accept", offer), sent).status_code == 302
    assert customer.post(address("accept", offer), {**sent, "alternative": "2"}).status_code == 409


def test_alternatives_are_compared_from_the_frozen_copy(offer, worked):
    found = compared(offer, Picking(offer).every)
    assert [each.deck_area_m2 for each in found] == [each.design.deck_area_m2.value for each in worked]
    assert [each.boards for each in found] == [len(each.design.cuts) for each in worked]
    assert [each.u_value for each in found] == [
        Decimal(str(each.checks.heat.as_proposed.value)) for each in worked
    ]
    assert dict(found[2].differs)["Raised on"] == "battens"
    assert dict(found[1].differs)["Decked"] == "Front"
