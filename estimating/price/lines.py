"""One line for each part of the job: from what it costs to what is asked, with its VAT rate and why."""

from __future__ import annotations

from collections.abc import Mapping

from estimating.choices import Choices, ChosenVatClass, Part
from estimating.price.from_cost import cost_of, price_of
from estimating.price.price import PriceLine
from estimating.price.vat import vat_rate
from estimating.price_book import PriceBook
from estimating.quantities.quantities import Quantities
from estimating.survey import Survey
from estimating.ways_to_price import SupplyMode, VatClass

_MAY_BE_ENERGY_SAVING = frozenset({Part.INSULATION, Part.DRAUGHT_STRIP, Part.OTHER})


def supply_mode(survey: Survey, choices: Choices) -> SupplyMode:
    """Tell how the job is supplied: nothing is relieved in a building that is no home.

    Args:
        survey: Says whether the property is a home. Record. [-]
        choices: Say how the office means to supply. Record. [-]

    Returns:
        The mode that counts for VAT. Choice. [-]

    Source:
        HMRC Notice 708/6 s.2; VATA 1994 Schedule 8 Group 23.
    """
    return choices.supply_mode if survey.residential else SupplyMode.NOT_RESIDENTIAL


def vat_class_of(part: Part, quantities: Quantities, price_book: PriceBook, choices: Choices) -> VatClass:
    """Tell what a part is to VAT: an energy-saving material only when all it is made of is one.

    The deck never is, nor is a walkway. A hatch follows the insulation only when the office has chosen so and
    said why; what the owner chose for a part, with a note, stands before all of it.

    Args:
        part: The part. Choice. [-]
        quantities: What the part buys. Record. [-]
        price_book: Where each product's class was recorded. Record. [-]
        choices: Whether the hatch follows the insulation, and the classes chosen. Record. [-]

    Returns:
        The class. Choice. [-]

    Source:
        VATA 1994 Schedule 8 Group 23 note 1; VENSAV3240, VENSAV3250 on ancillary supplies, second hand.
    """
    chosen_class = chosen_vat_class(part, choices)
    if chosen_class is not None:
        return chosen_class.vat_class
    if part is Part.HATCH and choices.hatch_cut_with_insulation:
        return VatClass.ENERGY_SAVING
    if part not in _MAY_BE_ENERGY_SAVING:
        return VatClass.STANDARD
    products = [price_book.product(each.product_code) for each in quantities.purchases if each.part is part]
    every_one = all(product and product.vat_class is VatClass.ENERGY_SAVING for product in products)
    return VatClass.ENERGY_SAVING if products and every_one else VatClass.STANDARD


def chosen_vat_class(part: Part, choices: Choices) -> ChosenVatClass | None:
    """Return the VAT class that the owner chose for a part, with its note, if one was chosen.

    Args:
        part: The part. Choice. [-]
        choices: The classes chosen. Record. [-]

    Returns:
        The choice, or None. Record. [-]

    Source:
        Own definition.
    """
    return next((each for each in choices.vat_classes if each.part is part), None)


def price_lines(
    survey: Survey,
    price_book: PriceBook,
    choices: Choices,
    quantities: Quantities,
    descriptions: Mapping[Part, str],
) -> tuple[PriceLine, ...]:
    """Give a line for every part that costs something, in the order of the work.

    Args:
        survey: The property's nation and kind. Record. [-]
        price_book: The margin and the VAT classes. Record. [-]
        choices: Options, tax point and supply. Record. [-]
        quantities: What each part costs. Record. [GBP]
        descriptions: What the customer reads for each part. Mapping. [-]

    Returns:
        The lines, to the penny. Sequence. [GBP]

    Raises:
        Refusal: No VAT rate is held for the tax point.

    Source:
        Common practice, no source: a line for each part that could be bought alone; VAT as in price.vat.
    """
    lines = []
    for part in Part:
        cost = cost_of(part, quantities)
        if not cost.value:
            continue
        vat = vat_rate(
            vat_class_of(part, quantities, price_book, choices),
            nation=survey.nation,
            tax_point=choices.tax_point,
            mode=supply_mode(survey, choices),
            registered=price_book.pricing.vat_registered,
        )
        optional = part in choices.optional_parts
        lines.append(
            PriceLine(
                part=part,
                description=descriptions[part],
                cost=cost,
                net=price_of(part, quantities, price_book.pricing),
                vat_percent=vat.percent,
                vat_reason=_with_its_note(vat.reason, part, price_book, choices),
                optional=optional,
                counted=not optional or part in choices.taken_parts,
            )
        )
    return tuple(lines)


def _with_its_note(reason: str, part: Part, price_book: PriceBook, choices: Choices) -> str:
    """Add why somebody chose this rate, where somebody did; a firm that charges no VAT chose nothing."""
    chosen_class = chosen_vat_class(part, choices)
    if not price_book.pricing.vat_registered:
        return reason
    if chosen_class is not None:
        return f"{reason} Class chosen by the owner, {chosen_class.vat_class}: {chosen_class.note.strip()}"
    if part is Part.HATCH and choices.hatch_cut_with_insulation:
        return f"{reason} Cut with the insulation: {choices.hatch_reason}"
    return reason
