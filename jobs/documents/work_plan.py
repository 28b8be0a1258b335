"""What every job sheet says about work and its dangers, and which of it a given job needs.

Common practice in our own words; the order of the day follows the trade. Nothing here is a rule of the
core: it is text for the crew, chosen by what was sold.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from estimating.choices import Choices, Part, RaiseWith


@dataclass(frozen=True, slots=True)
class Entry:
    """One line of a list; it counts for every job unless it names the parts, raising or joints it is for."""

    words: str
    parts: frozenset[Part] = frozenset()
    raise_with: RaiseWith | None = None
    joints_float: bool | None = None


def entries_for(entries: Iterable[Entry], choices: Choices, *, joints_float: bool = False) -> list[str]:
    """Return the lines that a job with these choices needs, in their order."""
    return [
        entry.words
        for entry in entries
        if (not entry.parts or entry.parts & choices.counted_parts)
        and entry.raise_with in (None, choices.raise_with)
        and entry.joints_float in (None, joints_float)
    ]


def _for(*parts: Part) -> frozenset[Part]:
    return frozenset(parts)


POINTS = (
    Entry("Nobody stands or works beneath the loft while we are in it: close the rooms below and say so."),
    Entry("Tread on joists or on crawling boards laid over two joists or more, never on the ceiling."),
    Entry("Work in pairs. One of you can always reach the hatch, and both have a phone that rings here."),
    Entry(
        "Rescue: keep the hatch and the ladder free all day. Somebody hurt in the loft is not lifted down by "
        "us: call 999 and say that it is a loft."
    ),
    Entry("Wear gloves, eye protection, an FFP3 mask that fits your face, a bump cap and knee pads."),
    Entry("Heat: drink, and leave the loft every half hour on a warm day. Stop when you feel unwell."),
    Entry(
        "Saw outside or on the landing with extraction, never over insulation. No naked flame, no smoking."
    ),
    Entry("Lift boards in twos, through the hatch end first, with one person above and one below."),
    Entry(
        "Stop and ring the office when you find anything that is not on this sheet: cables that are hot, "
        "bare or joined in the open, grey board or lagging, bats, nests, wet or cut timber, a hidden flue."
    ),
)

PERSONAL_PROTECTION = ("gloves", "eye protection", "FFP3 mask", "bump cap", "knee pads", "long sleeves")

TOOLS = (
    Entry("Dust sheets, floor runners and tape; vacuum cleaner with a fine filter"),
    Entry("Two lights on stands and a head torch each"),
    Entry("Three crawling boards that reach over at least two joists"),
    Entry("Step ladder or stage for the hatch, tied or held"),
    Entry("Tape 8 m, chalk line, square, pencil, long level"),
    Entry("Circular saw with a fine blade and extraction, hand saw, jigsaw for notches"),
    Entry("Two drivers with bits and spare batteries"),
    Entry("Gauge rod cut to the length on this sheet", raise_with=RaiseWith.PEDESTALS),
    Entry("Mitre saw or hand saw for battens", raise_with=RaiseWith.BATTENS),
    Entry("Insulation knife, kneeling board, sacks", _for(Part.INSULATION)),
    Entry("Saw for the ceiling, lining boards, frame clamps", _for(Part.HATCH)),
    Entry("The ladder's own fixing instructions", _for(Part.LADDER)),
    Entry("Sealant gun and draught strip knife", _for(Part.DRAUGHT_STRIP, Part.HATCH)),
    Entry("First-aid kit, drinking water, charged phone"),
)

STEPS = (
    Entry("Ring ahead. Settle parking, keys and animals."),
    Entry(
        "Walk the loft with this sheet: is it all as the survey says? Agree with the customer what is done."
    ),
    Entry("Cover floors and landing. Move what is still stored to where the customer wants it."),
    Entry("Set up lights and crawling boards. Put on what protects you."),
    Entry("Photograph the loft as found."),
    Entry(
        "Mark cables, pipes and lights. What is electrical is made ready by a registered electrician only."
    ),
    Entry("Cover downlights and lift their drivers clear before insulation.", _for(Part.DOWNLIGHT_COVERS)),
    Entry("Seal holes round pipes and cables in the ceiling. Check that pipes and tank are insulated."),
    Entry(
        "Lay insulation between the joists, then across them where it does not lie under the deck's "
        "supports. Leave the eaves open to air.",
        _for(Part.INSULATION),
    ),
    Entry(
        "Mark P and strike the line from P to Q. One holds the tape’s end on the line, the other marks every "
        "reading along each joist. Fix the pedestals on their marks; the gauge rod checks the room between "
        "bases.",
        raise_with=RaiseWith.PEDESTALS,
    ),
    Entry(
        "Mark P, strike the line from P to Q and mark every reading along each joist. Fix the battens, each "
        "layer across the one below.",
        raise_with=RaiseWith.BATTENS,
    ),
    Entry(
        "Lay the insulation round the supports. It must spring up freely: nothing rests on it.",
        _for(Part.INSULATION),
    ),
    Entry("Cut in the order of the cutting list. Number each piece as it leaves the saw."),
    Entry(
        "Lay and screw boards in the order of the plan. End joints stand on a joist, every one.",
        joints_float=False,
    ),
    Entry(
        "Lay and screw boards in the order of the plan. Cut ends meet on a joist, every one. Between joists "
        "only factory ends meet, tongue in groove and glued.",
        joints_float=True,
    ),
    Entry("Cut and line the hatch. No joist is cut.", _for(Part.HATCH)),
    Entry("Fit the ladder by its own instructions and try it.", _for(Part.LADDER)),
    Entry("Fit the light. A registered electrician makes the connection.", _for(Part.LIGHT)),
    Entry("Fit the edge trim.", _for(Part.EDGE_TRIM)),
    Entry("Fit the shelves between trusses. No web is cut or drilled.", _for(Part.SHELVES)),
    Entry(
        "Lay the walkway where the customer wants to tread: its feet stand on joists and are fixed. Nothing "
        "presses on the insulation.",
        _for(Part.WALKWAY),
    ),
    Entry("Fit what else is ordered: it stands under the materials.", _for(Part.OTHER)),
    Entry("Insulate the hatch and draught-strip it.", _for(Part.DRAUGHT_STRIP)),
    Entry("Clean. Waste to the van with its transfer note."),
    Entry("Photograph as finished. Fix the load label. Walk through with the customer and sign."),
)

PHOTOGRAPHS = (
    Entry("The loft as found, in four directions from the hatch"),
    Entry("Every thing on the list of cautions"),
    Entry(
        "For the house's energy rating: insulation with a tape in it, at five places or more, before it is "
        "covered, so that depth and place can be told. They go to the customer, to show to an assessor."
    ),
    Entry("Pedestals or battens set out, before the first board"),
    Entry("Downlight covers in place", _for(Part.DOWNLIGHT_COVERS)),
    Entry("The gap between insulation and deck, at the edge"),
    Entry("The eaves, open to air"),
    Entry("Deck as finished, in four directions"),
    Entry("Hatch closed, and open with its strip", _for(Part.HATCH, Part.DRAUGHT_STRIP)),
    Entry("Ladder down and folded", _for(Part.LADDER)),
    Entry("Light on, and its switch", _for(Part.LIGHT)),
    Entry("The walkway, from end to end", _for(Part.WALKWAY)),
    Entry("The load label"),
)
