"""The boxes that say how each part is offered: not at all, in the price, or as an option."""

from __future__ import annotations

from django import forms

from estimating.choices import PART_OF_PIECES, Choices, Part

OFFERED = [
    ("no", "Not offered"),
    ("in", "In the price"),
    ("option", "An option, left"),
    ("taken", "An option, taken"),
]
OFFERABLE = [part for part in Part if part not in (Part.VISIT, Part.DECK, *PART_OF_PIECES.values())]
"""The parts that are offered or not; a part made of pieces is offered by saying how many."""


def part_field(part: Part) -> str:
    """Return the name of the field that says how a part is offered."""
    return f"part_{part.name.lower()}"


def part_box(stored: Choices, part: Part, *, wished: bool) -> forms.ChoiceField:
    """Ask how a part is offered: as taken in advance only where the customer asked for it."""
    label, offered = part.value.capitalize(), _offered(stored, part)
    field = forms.ChoiceField(
        label=label,
        choices=[each for each in OFFERED if wished or each[0] != "taken"],
        initial="option" if offered == "taken" and not wished else offered,
    )
    field.error_messages["invalid_choice"] = (
        f"{label} cannot be offered as taken: the survey does not say that the customer asked for it. "
        "Offer it as an option, left."
    )
    return field


def _offered(choices: Choices, part: Part) -> str:
    if part not in choices.parts:
        return "no"
    if part in choices.taken_parts:
        return "taken"
    return "option" if part in choices.optional_parts else "in"
