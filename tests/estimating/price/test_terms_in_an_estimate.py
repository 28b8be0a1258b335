"""What was chosen about VAT and payment, through the whole estimate."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest

from estimating.choices import ChosenVatClass, Part
from estimating.estimate import estimate
from estimating.json_forms import choices_as_json, choices_from_json, estimate_as_json, estimate_from_json
from estimating.price.notices import changes_that_concern
from estimating.price.price import Price
from estimating.price_book import PricingRules
from estimating.price_terms import Discount, ReverseChargeAnswers, Stage, StageDue
from estimating.refusals import Refusal
from estimating.ways_to_price import VatClass
from tests.estimating.lofts import choices, price_book, trussed_loft

ASKED_ALL = ReverseChargeAnswers(customer_registered=True, reported_in_cis=True, end_user_notice=False)


def priced(*, registered: bool = True, **chosen) -> Price:
    book = price_book(pricing=PricingRules(vat_registered=registered))
    return estimate(trussed_loft(), book, choices(**chosen)).price


def test_the_owner_may_choose_the_class_of_a_part_and_the_line_says_why() -> None:
    chosen = ChosenVatClass(
        part=Part.INSULATION, vat_class=VatClass.STANDARD, note="One supply, says our accountant."
    )
    wool = next(
        each for each in priced(vat_classes=(chosen,)).lines if each.part is Part.INSULATION
    )  # fmt: skip
    assert wool.vat_percent == 20
    assert wool.vat_reason.endswith(
        "Class chosen by the owner, standard: One supply, says our accountant."
    )  # fmt: skip
    with pytest.raises(Refusal, match="must say why"):
        ChosenVatClass(part=Part.DECK, vat_class=VatClass.ENERGY_SAVING, note="  ")
    with pytest.raises(Refusal, match="must name each part once"):
        choices(vat_classes=(chosen, chosen))


def test_a_chosen_relief_follows_the_place_and_the_day() -> None:
    """VATA 1994 Schedule 7A Group 2: 5 % from 1 April 2027."""
    chosen = ChosenVatClass(part=Part.DECK, vat_class=VatClass.ENERGY_SAVING, note="x")
    for day, rate in (((3, 31), 0), ((4, 1), 5)):
        deck = priced(vat_classes=(chosen,), tax_point=date(2027, *day)).lines[1]
        assert (deck.part, deck.vat_percent) == (Part.DECK, rate)


def test_under_the_reverse_charge_no_vat_is_asked_and_the_wording_says_how_much_the_customer_declares() -> (
    None
):
    """VAT (Section 55A) Order 2019, from memory; HMRC guidance on the domestic reverse charge."""
    usual, reverse = priced(), priced(reverse_charge=ASKED_ALL)
    assert reverse.totals.gross == reverse.totals.net == usual.totals.net
    assert (reverse.totals.vat, reverse.totals.customer_accounts_for) == (0, usual.totals.vat)
    assert reverse.reverse_charge is not None
    assert reverse.reverse_charge.wording == (
        f"Reverse charge: customer to account to HMRC for the VAT of £{usual.totals.vat} on this invoice."
    )
    assert any("The customer accounts for the VAT" in each for each in reverse.notices)
    assert sum(each.gross for each in reverse.stages) == reverse.totals.gross
    assert sum(figure.value for figure in reverse.totals.figures if figure.name.startswith("VAT at")) == 0


@pytest.mark.parametrize(
    "answers",
    [
        ReverseChargeAnswers(),
        replace(ASKED_ALL, customer_registered=False),
        replace(ASKED_ALL, reported_in_cis=None),
        replace(ASKED_ALL, end_user_notice=True),
        replace(ASKED_ALL, end_user_notice=None),
    ],
)
def test_the_usual_rules_stay_until_every_answer_is_there(answers: ReverseChargeAnswers) -> None:
    price = priced(reverse_charge=answers)
    assert price.reverse_charge is None
    assert price.totals == priced().totals
    assert any("The usual rules" in each for each in price.notices)


def test_a_firm_that_charges_no_vat_has_no_reverse_charge() -> None:
    price = priced(registered=False, reverse_charge=ASKED_ALL)
    assert price.reverse_charge is None
    assert price.notices == ()


@pytest.mark.parametrize(
    ("answers", "settled"),
    [
        (ReverseChargeAnswers(), False),
        (ReverseChargeAnswers(customer_registered=False), True),
        (ReverseChargeAnswers(reported_in_cis=False), True),
        (ReverseChargeAnswers(end_user_notice=True), True),
        (replace(ASKED_ALL, end_user_notice=None), False),
        (ASKED_ALL, True),
    ],
)
def test_one_answer_that_keeps_the_usual_rules_settles_it(answers, settled) -> None:
    assert answers.is_settled is settled


def test_only_a_change_that_touches_a_line_concerns_an_offer() -> None:
    """The relief of VATA 1994 Schedule 8 Group 23 ends on 31 March 2027; the deck knows nothing of it."""
    around = {"after": date(2027, 3, 20), "until": date(2027, 4, 19)}
    standard = (ChosenVatClass(part=Part.INSULATION, vat_class=VatClass.STANDARD, note="One supply."),)
    for parts, classes, changes in (
        ({Part.INSULATION}, (), 1),
        ({Part.LADDER}, (), 0),
        ({Part.INSULATION}, standard, 0),
        ({Part.HATCH}, (), 0),
    ):
        chosen = choices(parts=frozenset(parts), vat_classes=classes, tax_point=date(2027, 3, 20))
        worked = estimate(trussed_loft(), price_book(), chosen)
        lines = worked.price.lines
        found = changes_that_concern(lines, worked.survey, worked.price_book, worked.choices, **around)
        assert [each.on for each in found] == [date(2027, 4, 1)] * changes


def test_choices_and_estimates_with_terms_are_read_back_as_they_were() -> None:
    chosen = choices(
        discounts=(Discount(reason="Two at once", percent=Decimal(5)),),
        stages=(
            Stage(due=StageDue.ACCEPTANCE, percent=Decimal(25)),
            Stage(on=date(2027, 1, 8), amount=Decimal(90)),
        ),
        vat_classes=(ChosenVatClass(part=Part.DECK, vat_class=VatClass.STANDARD, note="x"),),
        reverse_charge=ASKED_ALL,
    )
    assert choices_from_json(choices_as_json(chosen)) == chosen
    worked = estimate(trussed_loft(), price_book(), chosen)
    assert estimate_from_json(estimate_as_json(worked)) == worked
    older = {
        name: value
        for name, value in choices_as_json(choices()).items()
        if name not in ("discounts", "stages", "vat_classes", "reverse_charge")
    }
    assert choices_from_json(older) == choices()
