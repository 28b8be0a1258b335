"""The hazard list: complete, answerable, and worded for people who must act on it."""

from __future__ import annotations

import re
from dataclasses import fields

import pytest

from estimating.published.hazards import HAZARD_BY_KEY, HAZARDS, Hazard
from estimating.survey import Severity

STOPS = {
    "asbestos",
    "vermiculite",
    "bats",
    "nesting_birds",
    "damp_and_mould",
    "wiring",
    "gas_flue",
    "structure",
}
OTHERS = {
    "wasps",
    "tank",
    "mineral_wool",
    "heat",
    "fragile_ceiling",
    "stairwell_under_hatch",
    "open_flue",
    "downlights",
    "cables",
    "ventilation",
    "leak",
    "flat",
}


def test_every_hazard_is_asked_once() -> None:
    assert len(HAZARDS) == len(HAZARD_BY_KEY)
    assert set(HAZARD_BY_KEY) == STOPS | OTHERS


def test_what_forbids_work_is_a_stop_and_nothing_else_is() -> None:
    assert {hazard.key for hazard in HAZARDS if hazard.severity is Severity.STOP} == STOPS


@pytest.mark.parametrize("hazard", HAZARDS, ids=lambda hazard: hazard.key)
def test_hazard_says_what_to_look_for_and_what_to_do_and_calls_nothing_safe(hazard: Hazard) -> None:
    assert re.fullmatch(r"[a-z]+(_[a-z]+)*", hazard.key)
    words = [str(getattr(hazard, field.name)) for field in fields(hazard)]
    assert all(text.strip() for text in words)
    assert not any(re.search(r"\bsafe", text, re.IGNORECASE) for text in words)
    assert hazard.what_to_look_for.endswith(".")
    assert hazard.action.endswith(".")


@pytest.mark.parametrize("key", sorted(STOPS))
def test_stop_names_who_or_what_lifts_it(key: str) -> None:
    lifting = (
        r"competent firm|helpline|electrician|gas engineer|structural engineer|have flown|mend the cause"
    )
    assert re.search(lifting, HAZARD_BY_KEY[key].action, re.IGNORECASE)
