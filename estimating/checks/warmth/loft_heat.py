"""The heat of one loft: U-values through its deck and as a whole, against the target and if squashed."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal
from functools import partial

from estimating.checks.heat.u_values import to_two_figures
from estimating.checks.verdicts import Heat, Verdict
from estimating.checks.warmth.ceiling import ceiling_u_value, convention_of, through_field
from estimating.checks.warmth.heat_records import HeatRanges
from estimating.checks.warmth.saving import saving_verdicts, yearly_saving
from estimating.checks.warmth.squashed import squashed_u_value
from estimating.checks.warmth.u_value_range import squashed_range, u_value_range
from estimating.checks.warmth.whole_ceiling import Through, whole_ceiling
from estimating.choices import Choices, Part
from estimating.design.assemble import batten_fraction
from estimating.design.design import Design
from estimating.design.insulation import as_it_lies, least_insulated_field
from estimating.price_book import PriceBook
from estimating.survey import Severity, Survey
from estimating.working import Figure


def heat_of_loft(survey: Survey, price_book: PriceBook, choices: Choices, design: Design) -> Heat:
    """Work out the U-values of a loft's ceiling, by itself and as a whole, and what a year may spare.

    Args:
        survey: The loft as measured. Record. [mm]
        price_book: The insulation's conductivities. Record. [W/mK]
        choices: The target, and what is insulated. Record. [-]
        design: The insulation and the deck. Record. [mm]

    Returns:
        The figures. Record. [W/m2K]

    Source:
        As each figure names it.
    """
    proposed = as_it_lies(survey, design.insulation.layers, price_book)
    joists = least_insulated_field(survey, proposed)
    battens = batten_fraction(design.zones, price_book)
    through = partial(ceiling_u_value, survey, joists, roof_space=choices.roof_space)
    lay = as_it_lies(survey, (), price_book)
    as_found = _named("U-value as found", through(lay))
    as_proposed = _named("U-value as proposed", through(proposed, batten_fraction=battens))
    squashed = squashed_u_value(survey, joists, proposed, roof_space=choices.roof_space)
    ceiling = whole_ceiling(survey, choices, joists, Through(as_found, as_proposed, through(proposed)))
    limits = partial(through_field, survey, joists, roof_space=choices.roof_space)
    return Heat(
        as_found=as_found,
        as_proposed=as_proposed,
        squashed=squashed,
        target=choices.target_u_w_m2k,
        whole_ceiling=ceiling,
        saving=yearly_saving(survey, choices, ceiling),
        convention=convention_of(survey, choices.roof_space).name,
        ranges=HeatRanges(
            as_found=u_value_range(as_found, survey, lay, limits),
            as_proposed=u_value_range(
                as_proposed, survey, proposed, partial(limits, batten_fraction=battens)
            ),
            squashed=squashed_range(squashed, survey, joists, proposed, roof_space=choices.roof_space),
        ),
    )


def _named(name: str, figure: Figure[Decimal]) -> Figure[Decimal]:
    return replace(figure, name=name)


def heat_verdicts(heat: Heat, choices: Choices, design: Design) -> Iterator[Verdict]:
    """Compare the U-value with the target, and say what squashing would cost and the work may spare.

    Args:
        heat: The figures. Record. [W/m2K]
        choices: The target and where it is written. Record. [W/m2K]
        design: Whether the target is met. Record. [-]

    Returns:
        The verdicts. Iterator. [-]

    Source:
        As each figure names it.
    """
    proposed = to_two_figures(heat.as_proposed.value)
    target = f"the target of {heat.target}"
    if choices.target_source:
        target += f" ({choices.target_source})"
    if design.insulation.meets_target:
        severity, words = Severity.NOTE, f"U-value {proposed} W/m²K, within {target}."
    else:
        severity = Severity.CAUTION
        words = f"U-value {proposed} W/m²K, outside {target}."
        if Part.INSULATION not in choices.parts:
            words += " No insulation is offered."
    if heat.convention:
        words += f" Reckoned with {heat.convention}."
    source = heat.as_proposed.working.source
    yield Verdict(subject="heat", severity=severity, words=words, source=source, figure=heat.as_proposed)
    times = (heat.squashed.value / heat.as_proposed.value).quantize(Decimal("0.1"))
    squashed = to_two_figures(heat.squashed.value)
    if times > 1:
        yield Verdict(
            subject="heat",
            severity=Severity.NOTE,
            words=(
                f"Boards laid on the joists would squash the insulation: about {times} times the heat "
                f"lost through the ceiling under the deck ({squashed} W/m²K, an estimate)."
            ),
            source=heat.squashed.working.source,
            figure=heat.squashed,
        )
    if heat.saving:
        yield from saving_verdicts(heat.saving, choices)
