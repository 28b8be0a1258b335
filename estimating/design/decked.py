"""The zones that are decked in one way of doing the job: all that were measured, less those left out."""

from __future__ import annotations

import re
from dataclasses import replace

from estimating.choices import Choices
from estimating.plane import area_mm2, overlap_area_mm2
from estimating.refusals import Refusal, Refusals, Requirements
from estimating.survey import DeckZone, Survey


def decked_survey(survey: Survey, choices: Choices) -> Survey:
    """Give the loft with only the zones that are decked, for all that lays, counts, checks and draws.

    A zone left out is open loft: insulated as such, walked round, and carrying no deck.

    Args:
        survey: The loft as measured. Record. [mm]
        choices: The zones left out, by name. Record. [-]

    Returns:
        The same loft with the zones that remain, in their order. Record. [mm]

    Raises:
        Refusal: A zone left out is not in the survey, or none is left.

    Source:
        Own definition.
    """
    if not choices.left_out_zones:
        return survey
    needs = Requirements("choices.")
    unknown = sorted(choices.left_out_zones - {zone.name for zone in survey.zones})
    needs.require(
        not unknown,
        "left_out_zones",
        f"must name zones of the survey, which has none called {', '.join(unknown)}",
    )
    kept = tuple(zone for zone in survey.zones if zone.name not in choices.left_out_zones)
    needs.require(bool(kept), "left_out_zones", "must leave at least one zone to deck")
    needs.settle()
    return replace(survey, zones=kept)


def zones_within_others(survey: Survey) -> frozenset[str]:
    """Find the zones drawn wholly within a larger one: a second size of the deck, not a part beside it.

    Both cannot be decked at once. One that merely reaches over another is a slip and is none of these, and
    so is one that shares its name, because zones are left out by name.

    Args:
        survey: The loft as measured. Record. [mm]

    Returns:
        Their names. Set. [-]

    Source:
        Geometry.
    """
    names = [zone.name for zone in survey.zones]
    return frozenset(
        zone.name
        for zone in survey.zones
        if names.count(zone.name) == 1 and any(_lies_within(zone, other) for other in survey.zones)
    )


def _lies_within(zone: DeckZone, other: DeckZone) -> bool:
    area = area_mm2(zone.outline)
    return area < area_mm2(other.outline) and overlap_area_mm2(zone.outline, other.outline) == area


def numbered_as_measured(refused: Refusal, survey: Survey, choices: Choices) -> Refusal:
    """Number the zones of a refusal as the survey does, so that it leads to the row that can be mended.

    Args:
        refused: What was refused of the zones that are decked. Record. [-]
        survey: The loft as measured. Record. [-]
        choices: The zones left out, by name. Record. [-]

    Returns:
        The same refusal with the survey's own numbers. Record. [-]

    Source:
        Own definition.
    """
    kept = [number for number, zone in enumerate(survey.zones) if zone.name not in choices.left_out_zones]

    def renumbered(each: Refusal) -> Refusal:
        field = re.sub(r"^zones\[(\d+)\]", lambda found: f"zones[{kept[int(found[1])]}]", each.field)
        return Refusal(field, each.requirement)

    return Refusals(map(renumbered, refused.each))
