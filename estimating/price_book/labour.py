"""What time costs: the hours that one of each task takes, and what makes them longer."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum
from typing import Literal

from estimating.refusals import Requirements


class Task(StrEnum):
    """What the crew's hours go into."""

    PREPARE = "protect the house, light the loft, clear up"
    LAY_INSULATION = "lay insulation"
    FIX_PEDESTALS = "set out and fix pedestals"
    FIX_BATTENS = "set out and fix battens"
    LAY_BOARDS = "lay and screw boards"
    CUT_BOARDS = "saw boards"
    FIT_EDGE_BEARERS = "fit edge bearers"
    FIT_HATCH = "cut and fit the hatch"
    FIT_LADDER = "fit the ladder"
    FIT_LIGHT = "fit a light"
    FIT_EDGE_TRIM = "fit edge trim"
    FIT_DRAUGHT_STRIP = "insulate and draught-strip the hatch"
    FIT_DOWNLIGHT_COVER = "fit downlight covers"
    FIT_SHELF = "fit shelves between trusses"
    LAY_WALKWAY = "lay a walkway"
    FIT_OTHER = "fit other items"


class Condition(StrEnum):
    """What makes work in this loft slower."""

    CRAWLING_HEIGHT = "crawling height"
    OBSTRUCTED = "obstructed by struts or webs"
    LONG_CARRY = "long carry from the van"


@dataclass(frozen=True, slots=True, kw_only=True)
class LabourRate:
    """How many person-hours one unit of a task takes in a clear loft."""

    task: Task
    hours: Decimal
    unit: Literal["job", "m2", "m", "each"]

    def __post_init__(self) -> None:
        needs = Requirements()
        needs.require(self.hours > 0, "hours", "must be more than 0")
        needs.settle()


@dataclass(frozen=True, slots=True, kw_only=True)
class ConditionRate:
    """How much longer work takes under a condition, in per cent."""

    condition: Condition
    percent_longer: Decimal

    def __post_init__(self) -> None:
        needs = Requirements()
        needs.require(self.percent_longer >= 0, "percent_longer", "must not be less than 0 per cent")
        needs.settle()
