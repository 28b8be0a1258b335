"""What holds the deck above the insulation: how high it must stand, and what in the price book reaches it.

Where the tops of joists differ, heights are counted from the top of joist 1, and the insulation is taken to
rise with the highest joist: that way the deck clears it everywhere.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from estimating.choices import Choices, RaiseWith
from estimating.design.design import InsulationLayer
from estimating.design.insulation import finished_depth_mm
from estimating.design.levelling import (
    MOST_PACKING_MM,
    JoistSupport,
    Levelled,
    level_with_battens,
    level_with_pedestals,
)
from estimating.design.zones import ZoneFrame
from estimating.price_book import Batten, Pedestal, PriceBook
from estimating.survey import Survey
from estimating.working import (
    ARITHMETIC,
    COMMON_PRACTICE,
    Figure,
    Working,
    chosen,
    default,
    from_price_book,
    measured,
    worked_out,
)

MOST_BATTENS_STACKED = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Support:
    """What raises the deck over one zone, and how high it must and does raise it.

    `by_joist` says what stands on each joist where their tops differ, when the product is the one on most of
    them; it is empty where all are alike.
    """

    product: Pedestal | Batten
    stacked: int
    needed_mm: Figure[int]
    height_mm: Figure[int]
    by_joist: tuple[JoistSupport, ...] = ()

    @property
    def pedestal(self) -> Pedestal | None:
        return self.product if isinstance(self.product, Pedestal) else None

    @property
    def packing_mm(self) -> Mapping[int, int]:
        """What goes under the supports of each joist, by its number."""
        return {each.joist: each.packing_mm for each in self.by_joist}

    def on(self, joist: int) -> JoistSupport:
        """Return what stands on one joist, by its number."""
        found = next((each for each in self.by_joist if each.joist == joist), None)
        return found or JoistSupport(
            joist=joist, product_code=self.product.code, height_mm=self.height_mm.value, packing_mm=0
        )


def needed_height_mm(
    survey: Survey, frame: ZoneFrame, layers: Sequence[InsulationLayer], gap_mm: int
) -> Figure[int]:
    """Give the least height of a support that keeps the deck off the insulation by the gap.

    Args:
        survey: What insulation lies there now. Record. [mm]
        frame: The zone with the joists under it. Record. [mm]
        layers: The layers to lay. Sequence. [mm]
        gap_mm: The gap to keep above the insulation. Scalar. [mm]

    Returns:
        The height above the top of joist 1, which is that of any joist where all are alike. Scalar. [mm]

    Source:
        Geometry; that insulation under a deck must not be squashed: NHBC Standards 7.2.12 for walkways.
    """
    depth = frame.joist_field.depth_mm
    finished = finished_depth_mm(survey, layers, depth)
    inputs = [worked_out(finished), measured("joist depth", depth, "mm"), chosen("gap", gap_mm, "mm")]
    formula = "finished insulation − joist depth + gap, not below 0"
    needed, tops = max(0, finished.value - depth + gap_mm), _tops_mm(frame)
    if tops:
        needed += max(tops.values())
        inputs.append(measured("highest joist top against joist 1", max(tops.values()), "mm"))
        formula += ", + highest joist top against joist 1"
    working = Working(formula, tuple(inputs), "geometry; NHBC Standards 7.2.12")
    return Figure("support height needed", needed, "mm", working)


def _tops_mm(frame: ZoneFrame) -> Mapping[int, int]:
    """How high the tops of the joists under a zone are, by their numbers; nothing where all are alike."""
    tops = frame.joist_field.top_offsets_mm
    return {joist.number: tops[joist.number - 1] for joist in frame.joists} if any(tops) else {}


def choose_support(
    survey: Survey,
    price_book: PriceBook,
    choices: Choices,
    frame: ZoneFrame,
    layers: Sequence[InsulationLayer],
) -> Support:
    """Choose what raises the deck over one zone.

    Of pedestals the lowest that clears, of battens the cheapest stack that clears. Where nothing clears, the
    highest is taken, and the check on the gap says so. Where the tops of joists differ, each joist gets what
    makes the deck level.

    Args:
        survey: What insulation lies there now. Record. [mm]
        price_book: The pedestals and battens; at least one of the kind chosen. Record. [mm]
        choices: Pedestals or battens, and the gap. Record. [mm]
        frame: The zone with the joists under it. Record. [mm]
        layers: The layers to lay. Sequence. [mm]

    Returns:
        The support. Record. [mm]

    Source:
        Common practice, no source.
    """
    needed, tops = needed_height_mm(survey, frame, layers, choices.gap_mm), _tops_mm(frame)
    if choices.raise_with is RaiseWith.PEDESTALS:
        pedestals = price_book.of_kind(Pedestal)
        return _level_pedestals(pedestals, needed, tops) if tops else _pedestal(pedestals, needed)
    return _battens(price_book.of_kind(Batten), needed, tops)


def _pedestal(pedestals: Sequence[Pedestal], needed: Figure[int]) -> Support:
    def unit_cost(pedestal: Pedestal) -> tuple[int, object]:
        return pedestal.height_mm, pedestal.pack_cost / pedestal.pack_size

    high_enough = [pedestal for pedestal in pedestals if pedestal.height_mm >= needed.value]
    pedestal = (
        min(high_enough, key=unit_cost) if high_enough else max(pedestals, key=lambda each: each.height_mm)
    )
    height = from_price_book(pedestal.description, pedestal.height_mm, "mm")
    formula = "the least height in the price book that reaches the support height needed"
    if not high_enough:
        formula = "the greatest height in the price book, which does not reach the support height needed"
    working = Working(formula, (worked_out(needed), height), COMMON_PRACTICE)
    return Support(
        product=pedestal,
        stacked=1,
        needed_mm=needed,
        height_mm=Figure("pedestal height", pedestal.height_mm, "mm", working),
    )


def _level_pedestals(pedestals: Sequence[Pedestal], needed: Figure[int], tops: Mapping[int, int]) -> Support:
    levelled = level_with_pedestals(tops, pedestals, needed.value)
    used = [each.product_code for each in levelled.joists]
    by_code = {each.code: each for each in pedestals}
    main = max(dict.fromkeys(used), key=lambda code: (used.count(code), -by_code[code].height_mm))
    heights = sorted({each.height_mm for each in levelled.joists})
    inputs = (
        worked_out(needed),
        *(from_price_book(f"pedestal {height} mm", height, "mm") for height in heights),
        measured("lowest joist top against joist 1", min(tops.values()), "mm"),
        measured("highest joist top against joist 1", max(tops.values()), "mm"),
        default("most packing", MOST_PACKING_MM, "mm"),
    )
    formula = (
        "the lowest level above joist 1 that reaches the support height needed, from lowest joist top "
        "against joist 1 to highest joist top against joist 1, and that pedestals of the price book reach on "
        "every joist, each with no more than the most packing"
    )
    if levelled.most_packing_mm > MOST_PACKING_MM:
        formula = "as many pedestals as reach it; others need more packing than the most"
    return Support(
        product=by_code[main],
        stacked=1,
        needed_mm=needed,
        height_mm=_level_figure(levelled, Working(formula, inputs, COMMON_PRACTICE)),
        by_joist=levelled.joists,
    )


def _level_figure(levelled: Levelled, working: Working) -> Figure[int]:
    return Figure("underside of the deck above joist 1", levelled.level_mm, "mm", working)


def _battens(battens: Sequence[Batten], needed: Figure[int], tops: Mapping[int, int]) -> Support:
    least = needed.value - max(tops.values(), default=0)
    stacks = [(batten, number) for batten in battens for number in range(1, MOST_BATTENS_STACKED + 1)]

    def cost(stack: tuple[Batten, int]) -> tuple[object, int]:
        batten, number = stack
        return number * batten.pack_cost / (batten.pack_size * batten.length_mm), number * batten.depth_mm

    high_enough = [stack for stack in stacks if stack[0].depth_mm * stack[1] >= least]
    batten, number = (
        min(high_enough, key=cost)
        if high_enough
        else max(stacks, key=lambda each: each[0].depth_mm * each[1])
    )
    inputs = [
        worked_out(needed),
        from_price_book(f"depth of {batten.description}", batten.depth_mm, "mm"),
        chosen("battens on top of each other", number),
    ]
    formula, height = "depth × battens on top of each other", batten.depth_mm * number
    reach = f"{formula}: the least cost that reaches the support height needed"
    figure = Figure("batten height", height, "mm", Working(reach, tuple(inputs), ARITHMETIC))
    levelled = level_with_battens(tops, batten.code, height) if tops else None
    if levelled:
        inputs.append(measured("highest joist top against joist 1", max(tops.values()), "mm"))
        formula += " + highest joist top against joist 1"
        reach = f"{formula}: the least cost that reaches the support height needed"
        figure = _level_figure(levelled, Working(reach, tuple(inputs), ARITHMETIC))
    return Support(
        product=batten,
        stacked=number,
        needed_mm=needed,
        height_mm=figure,
        by_joist=levelled.joists if levelled else (),
    )
