"""What the office must know about the VAT of an offer before it goes out."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from decimal import Decimal

from estimating.amounts import to_penny
from estimating.choices import Choices, Part
from estimating.days import day_in_words
from estimating.price.lines import supply_mode
from estimating.price.offer import reverse_charge_of
from estimating.price.price import PriceLine
from estimating.price.vat import (
    ANCILLARY_HATCH_CAUTION,
    SINGLE_SUPPLY_CAUTION,
    RateChange,
    rate_changes_between,
    vat_rate,
)
from estimating.price_book import PriceBook
from estimating.survey import Survey
from estimating.ways_to_price import VatClass

_LOOK_AHEAD = timedelta(days=365)


def _vat_more(lines: Sequence[PriceLine]) -> Decimal:
    """The VAT that the lines that count would carry more, were all of them at their highest rate."""
    highest = max(line.vat_percent for line in lines)
    counted = (line for line in lines if line.counted)
    return to_penny(
        sum(((highest - line.vat_percent) * line.net.value / 100 for line in counted), Decimal(0))
    )


def notices(
    lines: Sequence[PriceLine], survey: Survey, price_book: PriceBook, choices: Choices
) -> tuple[str, ...]:
    """Say what the office must know about the VAT of this offer before it goes out.

    Args:
        lines: The lines offered. Sequence. [GBP]
        survey: The property's nation. Record. [-]
        price_book: Whether the firm is registered. Record. [-]
        choices: Tax point, hatch and supply. Record. [-]

    Returns:
        The notices, none for a firm that charges no VAT. Sequence. [-]

    Source:
        VENSAV3240 on single supplies; VATA 1994 s.88 on a change of rate; the rows in published.vat_rates.
    """
    if not price_book.pricing.vat_registered:
        return ()
    found = []
    if len({line.vat_percent for line in lines}) > 1:
        found.append(f"{SINGLE_SUPPLY_CAUTION} One supply would be £{_vat_more(lines)} more VAT.")
    if any(line.part is Part.HATCH for line in lines) and choices.hatch_cut_with_insulation:
        found.append(ANCILLARY_HATCH_CAUTION)
    for change in changes_that_concern(
        lines, survey, price_book, choices, after=choices.tax_point, until=choices.tax_point + _LOOK_AHEAD
    ):
        found.append(f"{change_in_words(change)}: the rate is that of the tax point ({change.source}).")
        found.append(
            f"Money received before {day_in_words(change.on)}, or a VAT invoice sent before it, takes the "
            "rate before the change for its part (VATTOS5105, VATTOS3600)."
        )
    reverse = reverse_charge_of(lines, price_book.pricing, choices.terms)
    if reverse is not None:
        found.append(f"Reverse charge. {reverse.why}")
    return tuple(found)


def changes_that_concern(  # noqa: PLR0913 - who, what, where and when
    lines: Sequence[PriceLine],
    survey: Survey,
    price_book: PriceBook,
    choices: Choices,
    *,
    after: date,
    until: date,
) -> tuple[RateChange, ...]:
    """List the changes of a VAT rate between two days that would change a line of this offer.

    Args:
        lines: The lines offered. Sequence. [GBP]
        survey: The property's nation and kind. Record. [-]
        price_book: Whether the firm is registered. Record. [-]
        choices: How the job is supplied. Record. [-]
        after: The day whose rates are known to be right. Date. [-]
        until: The last day looked at. Date. [-]

    Returns:
        The changes, earliest first; none for a firm that charges no VAT. Sequence. [per cent]

    Source:
        VATA 1994 s.88 (the rate is that of the tax point); the rows in published.vat_rates.
    """
    if not price_book.pricing.vat_registered or until <= after:
        return ()
    standard = vat_rate(
        VatClass.STANDARD,
        nation=survey.nation,
        tax_point=choices.tax_point,
        mode=supply_mode(survey, choices),
    )
    relieved = any(line.vat_percent < standard.percent for line in lines)
    return tuple(
        change
        for change in rate_changes_between(after, until, survey.nation)
        if change.vat_class is VatClass.STANDARD or relieved
    )


def change_in_words(change: RateChange) -> str:
    """Say what changes and when: "From 1 April 2027 the rate for ... goes from 0 % to 5 %".

    Args:
        change: The change. Record. [per cent]

    Returns:
        The words. Text. [-]

    Source:
        Own wording.
    """
    return (
        f"From {day_in_words(change.on)} the rate for {change.vat_class} goes from "
        f"{change.before_percent} % to {change.after_percent} %"
    )
