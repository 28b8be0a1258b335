"""The hazards a surveyor answers for in every loft: what to look for, and what must happen then.

Regulations are named row by row and checked second hand unless a row says otherwise; the wording is our
own. A stop holds the quote and the job until someone qualified has cleared it; a caution goes on the quote
and the job sheet; a note goes on the job sheet. Read on 25 November 2026.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from estimating.survey import Severity


@dataclass(frozen=True, slots=True, kw_only=True)
class Hazard:
    """One question of the hazard list, with the answer's consequence."""

    key: str
    title: str
    what_to_look_for: str
    severity: Severity
    action: str
    source: str


HAZARDS = (
    Hazard(
        key="asbestos",
        title="Suspected asbestos",
        what_to_look_for=(
            "House built or altered before 2000, and: grey board, pipe or boiler lagging, a cement flue, "
            "tank or soffit, or a textured coating on the ceiling."
        ),
        severity=Severity.STOP,
        action=(
            "Leave it alone, keep everybody out and take no sample. The customer has it surveyed or "
            "sampled by a competent firm; the report decides whether and how work may begin."
        ),
        source="Control of Asbestos Regulations 2012, reg 5 and 10 (numbers from memory)",
    ),
    Hazard(
        key="vermiculite",
        title="Loose gravel-like insulation",
        what_to_look_for=(
            "Light, shiny, gold or grey-brown grains lying loose between the joists, like fine gravel."
        ),
        severity=Severity.STOP,
        action=(
            "Treat it as suspected asbestos: do not walk in it or stir it up. A laboratory report on a "
            "sample taken by a competent firm is needed before work."
        ),
        source="Guidance for energy assessors, second hand; Control of Asbestos Regulations 2012, reg 5",
    ),
    Hazard(
        key="bats",
        title="Bats, or signs of a roost",
        what_to_look_for=(
            "Bats alive or dead, dark droppings that crumble to dust, stains round gaps, moth wings, or a "
            "roost known to the household. An empty roost counts."
        ),
        severity=Severity.STOP,
        action=(
            "Leave at once and write down the time. Ring the National Bat Helpline, 0345 1300 228; in "
            "Scotland or Northern Ireland ask the nature conservation body. No work until their written "
            "advice is here."
        ),
        source=(
            "Wildlife and Countryside Act 1981; Conservation of Habitats and Species Regulations 2017 "
            "(England and Wales); bodies of Scotland and Northern Ireland from memory"
        ),
    ),
    Hazard(
        key="nesting_birds",
        title="Birds nesting",
        what_to_look_for=(
            "A nest being built or in use, eggs, chicks, or birds coming and going at the eaves."
        ),
        severity=Severity.STOP,
        action="Do not disturb it. Work waits until the young have flown and the nest is seen to be empty.",
        source="Wildlife and Countryside Act 1981 s.1, from memory",
    ),
    Hazard(
        key="wasps",
        title="Wasps or hornets",
        what_to_look_for="A papery nest with insects coming and going, or a steady hum behind the felt.",
        severity=Severity.CAUTION,
        action=(
            "The customer has a pest controller deal with it before the crew comes. An old, empty nest "
            "may stay."
        ),
        source="common practice, no source",
    ),
    Hazard(
        key="damp_and_mould",
        title="Active damp or mould",
        what_to_look_for=(
            "Timber or felt wet to the touch, drips, mould on rafters or boards, rust on nails, or an "
            "extract fan that blows into the loft."
        ),
        severity=Severity.STOP,
        action=(
            "Find and mend the cause first: a deck and more insulation would hide it and make it worse. "
            "Fans must blow outside. Photograph it dry before work begins."
        ),
        source="BS 5250:2021, second hand; common practice",
    ),
    Hazard(
        key="wiring",
        title="Damaged or doubtful wiring",
        what_to_look_for=(
            "Bare or scorched conductors, open joints, rubber or fabric-covered cable, chewed sheaths, or "
            "connections without a box."
        ),
        severity=Severity.STOP,
        action=(
            "Touch nothing. The customer has a registered electrician inspect and make good, with a "
            "record of it."
        ),
        source="BS 7671 (not read); common practice",
    ),
    Hazard(
        key="gas_flue",
        title="Gas flue hidden or boxed in",
        what_to_look_for=(
            "A boiler flue in or through the loft that cannot be followed by eye along its whole length, "
            "or whose joints the deck would hide. A flue seen from end to end is a keep-out instead."
        ),
        severity=Severity.STOP,
        action=(
            "Ask a registered gas engineer: every joint must stay where it can be inspected, by hatches "
            "if need be. Never deck over a flue or its hatch. Offer an audible carbon monoxide alarm to "
            "EN 50291."
        ),
        source=(
            "Gas installation and use regulations 1998 (GSIUR), reg 26(9); Technical Bulletin 008, edition 3"
        ),
    ),
    Hazard(
        key="structure",
        title="Cut, sagging or decayed timber",
        what_to_look_for=(
            "A truss member cut, notched or missing; a joist cut without a trimmer; sagging, splits, soft "
            "or crumbling wood, or fresh beetle holes."
        ),
        severity=Severity.STOP,
        action="Do not load it. Ask the truss designer or a structural engineer, and keep what they write.",
        source="BS 5268-3, second hand (a trussed rafter is never cut); common practice",
    ),
    Hazard(
        key="tank",
        title="Water tank and pipes",
        what_to_look_for=(
            "An open cistern, a missing lid, bare pipes above the insulation, a float valve hard to reach."
        ),
        severity=Severity.CAUTION,
        action=(
            "Insulate the top and sides of the tank, not beneath it; fit a lid; lag every pipe that will "
            "lie above the insulation; keep valve and overflow within reach."
        ),
        source=(
            "Water Supply (Water Fittings) Regulations 1999, Schedule 2 para 4, from memory; common practice"
        ),
    ),
    Hazard(
        key="mineral_wool",
        title="Mineral wool already laid",
        what_to_look_for=(
            "Glass or rock wool that must be lifted, moved or crossed; how dusty, how old, how deep."
        ),
        severity=Severity.NOTE,
        action=(
            "Keep dust down and bag it where it lies. FFP2 mask when laying, FFP3 when clearing old wool; "
            "goggles, gloves, coverall. Cover the way through the house."
        ),
        source="EH40: 5 mg/m3 and 2 fibres/ml over 8 hours; masks by common practice",
    ),
    Hazard(
        key="heat",
        title="Heat and poor light",
        what_to_look_for="Work in warm months, a loft without lighting, or no way for air to pass through.",
        severity=Severity.NOTE,
        action=(
            "Battery or 110 V lighting; start early, rest often, bring water, and stop when anyone feels "
            "unwell."
        ),
        source="common practice, no source",
    ),
    Hazard(
        key="fragile_ceiling",
        title="Fragile ceiling",
        what_to_look_for=(
            "Bare joists with plasterboard or lath and plaster between; joists hidden under insulation; "
            "cracks or popped nails in the rooms below, which are photographed before work."
        ),
        severity=Severity.CAUTION,
        action=(
            "Crawling boards across the joists, never a foot between them; the hatch edge guarded; nobody "
            "in the rooms below while work goes on overhead."
        ),
        source="Work at Height Regulations 2005, reg 9",
    ),
    Hazard(
        key="stairwell_under_hatch",
        title="Hatch over the stairs",
        what_to_look_for=(
            "A hatch above or beside a stairwell, where a ladder cannot stand on one level floor."
        ),
        severity=Severity.CAUTION,
        action=(
            "A platform or guarded landing, the ladder tied, and a second person at its foot, priced as such."
        ),
        source="Work at Height Regulations 2005, Schedule 6; NHBC Standards 2020, 7.2.12",
    ),
    Hazard(
        key="open_flue",
        title="Chimney or hot flue",
        what_to_look_for=(
            "A chimney in use, a metal flue from a stove, warm brickwork, or soot on the loft side."
        ),
        severity=Severity.CAUTION,
        action=(
            "Make it a keep-out: boards, battens and insulation keep the distance of Approved Document J. "
            "Ask the installer of the appliance when the flue is metal."
        ),
        source="Approved Document J, from memory",
    ),
    Hazard(
        key="downlights",
        title="Recessed lights in the ceiling below",
        what_to_look_for="Each lamp, its marking and rating, its driver, and what lies on it now.",
        severity=Severity.CAUTION,
        action=(
            "Cover or keep clear exactly as its maker says; lift drivers into free air. Where no marking "
            "can be read, ask a registered electrician. A fire rating says nothing about insulation."
        ),
        source="BS EN 60598, from a maker's table of symbols; common practice",
    ),
    Hazard(
        key="cables",
        title="Cables under or through insulation",
        what_to_look_for=(
            "Cables that lie, or will lie, in the insulation: size, the circuit and its protective "
            "device. Shower, cooker, car charger and solar cables above all."
        ),
        severity=Severity.CAUTION,
        action=(
            "Lift cables above the insulation where they reach. Never bury a heavily loaded one: ask a "
            "registered electrician, naming the circuit."
        ),
        source="BS 7671, reg 523.9 and Tables 52.2 and 4D5, from reprints",
    ),
    Hazard(
        key="ventilation",
        title="Eaves blocked",
        what_to_look_for=(
            "No daylight or draught at the eaves, insulation pushed against the felt, vents painted over."
        ),
        severity=Severity.CAUTION,
        action=(
            "Clear the path of air at both eaves, fit eaves trays where needed, and end the deck short of "
            "them."
        ),
        source="BS 5250:2021, second hand",
    ),
    Hazard(
        key="leak",
        title="Old leaks and stains",
        what_to_look_for=(
            "Stains on felt, rafters or chimney, slipped tiles, daylight where there should be none."
        ),
        severity=Severity.CAUTION,
        action=(
            "Show the customer and have the roof looked at before boarding. If it is wet now, answer damp "
            "and mould as well."
        ),
        source="common practice, no source",
    ),
    Hazard(
        key="flat",
        title="Flat or maisonette",
        what_to_look_for=(
            "The loft of a flat, a loft shared with a neighbour, or no wall between this loft and the "
            "next one."
        ),
        severity=Severity.CAUTION,
        action=(
            "The loft may belong to the freeholder: written consent before work. Leave the fire "
            "separation between dwellings whole and tell the customer of any gap in it."
        ),
        source="common practice, no source",
    ),
)

HAZARD_BY_KEY: Mapping[str, Hazard] = MappingProxyType({hazard.key: hazard for hazard in HAZARDS})
