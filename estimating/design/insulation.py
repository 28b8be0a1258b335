"""Insulation that reaches the target: what lies there kept, filled up to the joist tops, then laid across.

Every likely combination of one or two layers is priced by the square metre, and the cheapest one whose
U-value meets the target is taken.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal
from itertools import combinations_with_replacement

from estimating.checks.warmth.ceiling import Insulation, meets, plain_u_w_m2k
from estimating.choices import Choices, Part, RaiseWith
from estimating.design.areas import area_under_deck_m2, open_loft_area_m2
from estimating.design.design import InsulationDesign, InsulationLayer
from estimating.price_book import Batten, InsulationRoll, PriceBook, Task
from estimating.survey import JoistField, Survey
from estimating.working import (
    ARITHMETIC,
    COMMON_PRACTICE,
    Figure,
    Working,
    chosen,
    from_price_book,
    measured,
)

_NOTHING = Decimal("0.00")
LIKELY_BATTEN_CENTRES_MM = 600
Rolls = tuple[InsulationRoll, ...]


@dataclass(frozen=True, slots=True)
class _Combination:
    between: Rolls
    across: Rolls

    @property
    def rolls(self) -> Rolls:
        return self.between + self.across

    @property
    def resistance(self) -> Decimal:
        return sum((roll.thickness_mm / roll.conductivity_w_mk for roll in self.rolls), Decimal(0))


def design_insulation(survey: Survey, price_book: PriceBook, choices: Choices) -> InsulationDesign:
    """Choose the layers to lay and tell how deep the insulation will be.

    When insulation is no part of the offer nothing is added, and the deck is still raised above what lies
    there.

    Args:
        survey: What lies there, and the joists. Record. [mm]
        price_book: The rolls, and the cost of laying them. Record. [GBP]
        choices: The target, the waste, and whether the open loft is insulated too. Record. [-]

    Returns:
        The layers, the finished depth, and whether the target is met. Record. [mm]

    Source:
        Between joists, then across them: common practice, no source; the target met to two significant
        figures: BR 443 (2019) and BS EN ISO 6946.
    """
    combination = _Combination((), ())
    if Part.INSULATION in choices.parts:
        combination = _cheapest_that_meets(survey, price_book, choices)
    layers = _layers(survey, choices, combination)
    lying = as_it_lies(survey, layers, price_book)
    battens = likely_batten_fraction(price_book, choices)
    return InsulationDesign(
        existing_depth_mm=survey.insulation.depth_mm,
        layers=layers,
        finished_depth_mm=finished_depth_mm(survey, layers, deepest_joist_mm(survey)),
        meets_target=reaches_target(survey, choices, lying, battens),
    )


def deepest_joist_mm(survey: Survey) -> int:
    """Give the depth of the deepest joists of the loft.

    Args:
        survey: The loft as measured. Record. [mm]

    Returns:
        The depth. Scalar. [mm]

    Source:
        Own definition.
    """
    return max(each.depth_mm for each in survey.joist_fields)


def finished_depth_mm(survey: Survey, layers: Sequence[InsulationLayer], joist_depth_mm: int) -> Figure[int]:
    """Give how deep the insulation will lie over joists of one depth, from the top of the ceiling.

    Layers across the joists rest on the joists, or on the insulation where that stands higher.

    Args:
        survey: What lies there now. Record. [mm]
        layers: The layers to lay. Sequence. [mm]
        joist_depth_mm: The depth of the joists. Scalar. [mm]

    Returns:
        The finished depth. Scalar. [mm]

    Source:
        Geometry.
    """
    existing = survey.insulation.depth_mm
    between = sum(layer.thickness_mm for layer in layers if layer.between)
    across = sum(layer.thickness_mm for layer in layers if not layer.between)
    depth = max(existing + between, joist_depth_mm) + across if across else existing + between
    formula = "existing + between joists"
    inputs = [measured("existing", existing, "mm")]
    inputs += [from_price_book("between joists", between, "mm")] if between else []
    if across:
        formula = "the greater of joist depth and (existing + between joists), + across joists"
        inputs += [
            measured("joist depth", joist_depth_mm, "mm"),
            from_price_book("across joists", across, "mm"),
        ]
    if not between:
        formula = formula.replace("(existing + between joists)", "existing").replace(" + between joists", "")
    return Figure("finished insulation", depth, "mm", Working(formula, tuple(inputs), ARITHMETIC))


def as_it_lies(
    survey: Survey, layers: Sequence[InsulationLayer], price_book: PriceBook
) -> tuple[Insulation, ...]:
    """List the insulation from the ceiling up, as heat passes through it.

    Args:
        survey: What lies there now. Record. [mm]
        layers: The layers to lay. Sequence. [mm]
        price_book: The rolls they are cut from. Record. [W/mK]

    Returns:
        The insulation, lowest first. Sequence. [mm, W/mK]

    Source:
        Geometry.
    """
    held = {roll.code: roll for roll in price_book.of_kind(InsulationRoll)}
    added = [(held[layer.roll_code], layer.between) for layer in layers]
    return tuple(_lying(survey, added))


def _lying(survey: Survey, rolls: Iterable[tuple[InsulationRoll, bool]]) -> Iterator[Insulation]:
    there = survey.insulation
    if there.depth_mm:
        name = f"existing {there.material}"
        yield Insulation(name, there.depth_mm, there.conductivity_w_mk, across=False)
    for roll, between in rolls:
        yield Insulation(roll.description, roll.thickness_mm, roll.conductivity_w_mk, across=not between)


def least_insulated_field(survey: Survey, lying: Sequence[Insulation]) -> JoistField:
    """Find the joist field through which most heat would pass, so that the target is met in all of them.

    Args:
        survey: The loft as measured. Record. [mm]
        lying: The insulation, lowest first. Sequence. [mm, W/mK]

    Returns:
        The joist field with the highest U-value. Record. [-]

    Source:
        Own definition.
    """
    if len(survey.joist_fields) == 1:
        return survey.joist_fields[0]
    return max(survey.joist_fields, key=lambda each: plain_u_w_m2k(survey, each, lying))


def likely_batten_fraction(price_book: PriceBook, choices: Choices) -> Decimal:
    """Give the share of the deck that battens will take up, before a board sets their centres.

    Args:
        price_book: The battens. Record. [mm]
        choices: Pedestals or battens. Record. [-]

    Returns:
        The fraction, 0 on pedestals. Scalar. [-]

    Source:
        Own assumption: the widest batten at 600 mm; the finished design is checked with its own battens.
    """
    if choices.raise_with is RaiseWith.PEDESTALS:
        return Decimal(0)
    widest = max(batten.width_mm for batten in price_book.of_kind(Batten))
    return (Decimal(widest) / LIKELY_BATTEN_CENTRES_MM).quantize(Decimal("0.0001"))


def _cheapest_that_meets(survey: Survey, price_book: PriceBook, choices: Choices) -> _Combination:
    """Try combinations from the cheapest up; one thinner than one that failed cannot meet the target.

    Nothing is added to what meets the target already, even where it does not fill the joists.
    """
    battens = likely_batten_fraction(price_book, choices)
    nothing = _Combination((), ())
    if survey.insulation.depth_mm and _reaches_target(survey, choices, nothing, battens):
        return nothing
    needs_layer = survey.insulation.depth_mm < deepest_joist_mm(survey)
    between = _between(survey, price_book.of_kind(InsulationRoll)) if needs_layer else [()]
    rolls = price_book.of_kind(InsulationRoll)
    across = [(), *((roll,) for roll in rolls), *combinations_with_replacement(rolls, 2)]
    combinations = [_Combination(low, high) for low in between for high in across]
    labour = _labour_per_m2(price_book)
    failed: dict[Rolls, Decimal] = {}
    for combination in sorted(combinations, key=lambda each: _cost_per_m2(each, choices, labour)):
        if combination.resistance <= failed.get(combination.between, Decimal(-1)):
            continue
        if _reaches_target(survey, choices, combination, battens):
            return combination
        failed[combination.between] = combination.resistance
    return max(combinations, key=lambda each: each.resistance)


def _between(survey: Survey, rolls: Rolls) -> list[Rolls]:
    """What fills the joists to their tops and stands least above them: one layer if one will do, else two."""
    short_mm = deepest_joist_mm(survey) - survey.insulation.depth_mm
    for layers in (1, 2):
        filling = [
            (sum(roll.thickness_mm for roll in each), each)
            for each in combinations_with_replacement(rolls, layers)
        ]
        enough = [thickness for thickness, _ in filling if thickness >= short_mm]
        if enough:
            return [each for thickness, each in filling if thickness == min(enough)]
    thickest = max(rolls, key=lambda roll: roll.thickness_mm)
    return [(thickest, thickest)]


def _reaches_target(survey: Survey, choices: Choices, combination: _Combination, battens: Decimal) -> bool:
    number_between = len(combination.between)
    rolls = [(roll, place < number_between) for place, roll in enumerate(combination.rolls)]
    return reaches_target(survey, choices, tuple(_lying(survey, rolls)), battens)


def reaches_target(
    survey: Survey, choices: Choices, lying: Sequence[Insulation], batten_fraction: Decimal
) -> bool:
    """Tell whether the ceiling meets the target in every joist field, by the U-value that is checked after.

    Args:
        survey: The loft as measured. Record. [mm]
        choices: The target, and how the roof space counts. Record. [W/m2K]
        lying: The insulation, lowest first. Sequence. [mm, W/mK]
        batten_fraction: The share of the deck's area that is battens. Scalar. [-]

    Returns:
        Whether it does. Flag. [-]

    Source:
        BR 443 (2019); BS EN ISO 6946: two significant figures.
    """
    through = (
        plain_u_w_m2k(survey, each, lying, batten_fraction=batten_fraction, roof_space=choices.roof_space)
        for each in survey.joist_fields
    )
    return all(meets(u_value, choices.target_u_w_m2k) for u_value in through)


def _labour_per_m2(price_book: PriceBook) -> Decimal:
    rate = price_book.labour_rate(Task.LAY_INSULATION)
    return rate.hours * price_book.hourly_cost if rate and rate.unit == "m2" else Decimal(0)


def _cost_per_m2(combination: _Combination, choices: Choices, labour: Decimal) -> tuple[Decimal, int]:
    waste = 1 + choices.insulation_waste_percent / 100
    wool = sum(
        (roll.pack_cost / (roll.coverage_m2 * roll.pack_size) * waste for roll in combination.rolls),
        Decimal(0),
    )
    thickness = sum(roll.thickness_mm for roll in combination.rolls)
    return wool + labour * len(combination.rolls), thickness


def _layers(survey: Survey, choices: Choices, combination: _Combination) -> tuple[InsulationLayer, ...]:
    under = area_under_deck_m2(survey)
    beside = open_loft_area_m2(survey)
    if not choices.insulate_open_loft:
        left_out = Working(
            "0: the open loft is not insulated", (chosen("open loft insulated", "no"),), COMMON_PRACTICE
        )
        beside = Figure("open loft to insulate", _NOTHING, "m²", left_out)
    return tuple(
        InsulationLayer(
            roll_code=roll.code,
            thickness_mm=roll.thickness_mm,
            between=place < len(combination.between),
            deck_area_m2=under,
            open_area_m2=beside,
        )
        for place, roll in enumerate(combination.rolls)
    )
