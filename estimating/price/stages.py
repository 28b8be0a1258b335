"""When a price is paid: what each stage asks without VAT, as VAT of each rate, and in all.

Every stage takes its part of what is still open and the last takes the rest, so that the stages add up to
the totals to the penny, whatever the rates and however the VAT was rounded.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import ROUND_FLOOR, Decimal

from estimating.amounts import PENNY, to_penny
from estimating.days import day_in_words
from estimating.price.totals import RateSubtotal, Totals
from estimating.price_terms import Stage, StageDue
from estimating.refusals import Refusal

BEFORE_COMPLETION = (
    "VAT on money taken before the work is complete is that of the day it comes in, or of a VAT invoice for "
    "it sent before (VATTOS5105, VATTOS3600)."
)
AT_COMPLETION = (
    "VAT on what is paid when the work is complete is that of the day it is complete, or of a VAT invoice "
    "sent before that or within 14 days after (VATTOS3600)."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class StageAmount:
    """What one stage asks. `is_rest` marks the last, which asks all that the others leave."""

    when: str
    is_rest: bool
    percent: Decimal | None
    net: Decimal
    vat_by_rate: tuple[RateSubtotal, ...]
    vat: Decimal
    gross: Decimal
    tax_point: str


def stage_amounts(asked: Totals, stages: Sequence[Stage]) -> tuple[StageAmount, ...]:
    """Share the totals of an offer among its stages, the rest last.

    Args:
        asked: The totals. Record. [GBP]
        stages: What is paid before the rest, in its order. Sequence. [-]

    Returns:
        The stages that ask something, which add up to the totals. Sequence. [GBP]

    Source:
        Common practice, no source; tax points by HMRC internal manual VATTOS5105, VATTOS3600; the sharing
        of odd pennies is our own rule.
    """
    left = {each.rate_percent: (each.net, each.vat) for each in asked.vat_by_rate}
    open_gross = asked.gross
    found = []
    for stage in stages:
        gross = min(_stage_gross(stage, asked.gross), open_gross)
        if gross <= 0:
            continue
        parts = _part_of(left, gross)
        open_gross -= gross
        for part in parts:
            net, vat = left[part.rate_percent]
            left[part.rate_percent] = (net - part.net, vat - part.vat)
        found.append(_amount(_when(stage), parts, stage))
    if open_gross > 0 or not found:
        rest = tuple(RateSubtotal(rate, net, vat) for rate, (net, vat) in left.items())
        found.append(_amount(StageDue.COMPLETION.in_words, rest, None))
    return tuple(found)


def refuse_stages_beyond(asked: Totals, stages: Sequence[Stage]) -> None:
    """Refuse stages that ask more than the least price an offer may come to.

    Args:
        asked: The totals with no option taken. Record. [GBP]
        stages: What is paid before the rest. Sequence. [-]

    Returns:
        Nothing. None. [-]

    Raises:
        Refusal: Together they ask more than that.

    Source:
        Arithmetic.
    """
    together = sum((_stage_gross(stage, asked.gross) for stage in stages), Decimal(0))
    # Shares are rounded one by one, so that shares of 100 % in all may pass the price by a penny each.
    if together > asked.gross + PENNY * len(stages):
        raise Refusal(
            "stages",
            f"must not ask more than the price: £{together} of £{asked.gross}, with no option taken",
        )


def _stage_gross(stage: Stage, asked: Decimal) -> Decimal:
    return stage.amount if stage.amount is not None else to_penny(asked * (stage.percent or 0) / 100)


def _when(stage: Stage) -> str:
    if stage.on is not None:
        return f"On {day_in_words(stage.on)}"
    return (stage.due or StageDue.COMPLETION).in_words


def _part_of(left: Mapping[Decimal, tuple[Decimal, Decimal]], gross: Decimal) -> tuple[RateSubtotal, ...]:
    """Take an amount out of what is open, from each rate by its share, and its VAT from that by its share."""
    open_by_rate = {rate: net + vat for rate, (net, vat) in left.items()}
    shares = _by_largest_remainder(open_by_rate, gross)
    parts = []
    for rate, share in shares.items():
        open_of_rate = open_by_rate[rate]
        vat = to_penny(left[rate][1] * share / open_of_rate) if open_of_rate else Decimal("0.00")
        parts.append(RateSubtotal(rate, share - vat, vat))
    return tuple(parts)


def _by_largest_remainder(whole: Mapping[Decimal, Decimal], part: Decimal) -> dict[Decimal, Decimal]:
    """Share pennies so that they add up and no share is a penny or more from the exact one."""
    total = sum(whole.values(), Decimal(0))
    exact = {rate: each * part / total for rate, each in whole.items()}
    shares = {rate: each.quantize(PENNY, rounding=ROUND_FLOOR) for rate, each in exact.items()}
    over = int((part - sum(shares.values(), Decimal(0))) / PENNY)
    for rate in sorted(exact, key=lambda rate: (shares[rate] - exact[rate], -rate))[:over]:
        shares[rate] += PENNY
    return shares


def _amount(when: str, parts: tuple[RateSubtotal, ...], stage: Stage | None) -> StageAmount:
    net = sum((part.net for part in parts), Decimal("0.00"))
    vat = sum((part.vat for part in parts), Decimal("0.00"))
    at_the_end = stage is None or stage.due is StageDue.COMPLETION
    return StageAmount(
        when=when,
        is_rest=stage is None,
        percent=stage.percent if stage else None,
        net=net,
        vat_by_rate=parts,
        vat=vat,
        gross=net + vat,
        tax_point=AT_COMPLETION if at_the_end else BEFORE_COMPLETION,
    )
