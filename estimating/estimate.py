"""The front door: a survey, a price book and choices in, one Estimate out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from estimating.alternatives import BoardAlternative, choose_board
from estimating.checks.all import check
from estimating.checks.verdicts import Checks
from estimating.choices import Choices, Part
from estimating.costed_decks import DeckInputs, DeckWithBoard
from estimating.design.assemble import assemble
from estimating.design.deck import LayDeck, at_most, first_layout
from estimating.design.decked import decked_survey, numbered_as_measured
from estimating.design.design import Design
from estimating.design.insulation import design_insulation
from estimating.design.supports import choose_support
from estimating.design.zones import ZoneFrame, zone_frames
from estimating.missing import refuse_if_missing
from estimating.price.descriptions import descriptions
from estimating.price.lines import price_lines
from estimating.price.notices import notices
from estimating.price.offer import offer, refuse_terms
from estimating.price.price import Price
from estimating.price.taking import part_rules
from estimating.price.vat import vat_rate
from estimating.price_book import PriceBook, Task
from estimating.quantities.board_count import board_count
from estimating.quantities.charges import charges
from estimating.quantities.extras import PartCount, extras
from estimating.quantities.from_store import taken_from_store
from estimating.quantities.labour import Work, hours_in_all, labour
from estimating.quantities.purchases import purchases, weight_in_all
from estimating.quantities.quantities import Quantities
from estimating.refusals import Refusal
from estimating.survey import Survey
from estimating.ways_to_price import SupplyMode, VatClass


@dataclass(frozen=True, slots=True, kw_only=True)
class Estimate:
    """One loft designed, checked, counted and priced, beside the inputs it was worked out from.

    `survey` is the loft as measured, with every zone; which of them are decked the design tells.
    """

    survey: Survey
    price_book: PriceBook
    choices: Choices
    design: Design
    board_alternatives: tuple[BoardAlternative, ...]
    checks: Checks
    quantities: Quantities
    price: Price


LAID_WHILE_SOMEONE_TYPES = 3
"""How many decks are laid for one answer of a page; what is left over is told by the least it can cost."""


def estimate(
    survey: Survey, price_book: PriceBook, choices: Choices, *, lay: LayDeck | None = None
) -> Estimate:
    """Design, check, count and price one loft.

    A design that must not be built still gets an estimate, whose checks hold the stops: the office sees what
    is wrong beside what it would cost.

    Args:
        survey: The loft as measured. Record. [-]
        price_book: One edition of products, rates and charges. Record. [GBP]
        choices: How to do the job, and what is offered. Record. [-]
        lay: What lays the boards of a whole deck: with proof, or from what was found before. None lays a
            few decks as well as can be while someone types. Function. [-]

    Returns:
        The estimate, every figure with its working. Record. [-]

    Raises:
        Refusal: Something in the inputs cannot be so; all that is missing from the price book at once.

    Source:
        As each part names it.
    """
    refuse_if_missing(survey, price_book, choices)
    as_measured, survey = survey, decked_survey(survey, choices)
    frames = _frames(as_measured, survey, choices)
    insulation = design_insulation(survey, price_book, choices)
    supported = tuple(
        (frame, choose_support(survey, price_book, choices, frame, insulation.layers)) for frame in frames
    )
    vat_kept = _vat_not_reclaimed(survey, price_book, choices)
    deck, alternatives = choose_board(
        DeckInputs(
            survey=survey,
            price_book=price_book,
            choices=choices,
            supported=supported,
            vat_not_reclaimed_percent=vat_kept,
            lay=lay or at_most(LAID_WHILE_SOMEONE_TYPES, first_layout),
        )
    )
    design = assemble(survey, price_book, choices, deck.designed, insulation)
    others = tuple(extras(survey, price_book, choices, insulation))
    quantities = _quantities(price_book, choices, deck, others, vat_kept)
    return Estimate(
        survey=as_measured,
        price_book=price_book,
        choices=choices,
        design=design,
        board_alternatives=alternatives,
        checks=check(survey, price_book, choices, design, deck.board),
        quantities=quantities,
        price=_price(survey, price_book, choices, design, quantities),
    )


def _frames(as_measured: Survey, survey: Survey, choices: Choices) -> tuple[ZoneFrame, ...]:
    try:
        return zone_frames(survey, choices)
    except Refusal as refused:
        raise numbered_as_measured(refused, as_measured, choices) from None


def _vat_not_reclaimed(survey: Survey, price_book: PriceBook, choices: Choices) -> Decimal:
    """The VAT on materials that a firm not registered for VAT pays and cannot reclaim."""
    if price_book.pricing.vat_registered:
        return Decimal(0)
    rate = vat_rate(
        VatClass.STANDARD, nation=survey.nation, tax_point=choices.tax_point, mode=SupplyMode.SUPPLY_ONLY
    )
    return rate.percent


def _quantities(
    price_book: PriceBook,
    choices: Choices,
    deck: DeckWithBoard,
    others: Sequence[PartCount],
    vat_kept: Decimal,
) -> Quantities:
    """The deck was counted when its board was chosen; everything else is counted here and set beside it."""
    take_off = tuple(line for count in others for line in count.take_off)
    works = (Work(Part.VISIT, Task.PREPARE), *(work for count in others for work in count.works))
    bought = (*deck.purchases, *purchases(take_off, price_book, vat_not_reclaimed_percent=vat_kept))
    in_order = list(Part)
    hours = sorted(
        (*deck.labour, *labour(works, price_book, choices.conditions)),
        key=lambda line: in_order.index(line.part),
    )
    return Quantities(
        take_off=(*deck.take_off, *take_off),
        purchases=bought,
        labour=tuple(hours),
        charges=charges(price_book, choices),
        hours=hours_in_all(hours),
        weight_kg=weight_in_all(bought),
        board_count=board_count(deck.designed),
        from_store=taken_from_store(deck.designed.cuts, choices.store),
    )


def _price(
    survey: Survey, price_book: PriceBook, choices: Choices, design: Design, quantities: Quantities
) -> Price:
    words = descriptions(design, quantities, choices)
    lines = price_lines(survey, price_book, choices, quantities, words)
    refuse_terms(lines, price_book.pricing, choices.terms)
    return offer(
        lines,
        choices.taken_parts,
        price_book.pricing,
        terms=choices.terms,
        notices=notices(lines, survey, price_book, choices),
        part_rules=part_rules(survey, price_book, choices),
    )
