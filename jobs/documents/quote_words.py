"""What a quote says beside its figures, in words a householder follows.

Common practice in our own words. The firm's own terms are printed beside these, not instead of them.
"""

from __future__ import annotations

from estimating.checks.air.gap import gap_in_words
from estimating.choices import Part, RaiseWith
from estimating.estimate import Estimate

WHAT_THE_CUSTOMER_DOES = (
    "Empty the loft before the first day, or ask us beforehand to move what is in it.",
    "Keep a parking place for one van, and the way from the door to the hatch clear.",
    "Keep everybody, animals too, out of the rooms under the loft while we work above them.",
    "Tell us of anything you know in the loft that we could not see: old cables, leaks, bats, nests.",
    "Let somebody be at home on the last day, to walk through and sign.",
)

WHAT_COULD_CHANGE_THE_PRICE = (
    "Something found once the insulation is lifted that nobody could see at the survey, such as damaged "
    "cables, wet or cut timber, asbestos, or an animal's nest.",
    "Something you ask for beyond what is written here.",
)

HOW_A_CHANGE_IS_AGREED = (
    "We stop, show you, and write the change down with its price and what it does to the days of the work. "
    "We go on when you have said yes in writing; an e-mail is enough. Without that, nothing is added to the "
    "price."
)

WHO_ELSE_MUST_BE_ASKED = (
    "The joists of a ceiling are not those of a floor: ask a structural engineer, or the truss designer "
    "where the roof is of trussed rafters, before more than light household goods is stored.",
    "We do no electrical work beyond what is listed. Ask a registered electrician about cables and lights.",
)

SQUASHED = (
    "Wool keeps heat in by the air in it. Boards laid straight on the joists press it flat, and the ceiling "
    "then loses the heat of the last line. Raised boards leave it at its full depth. Each figure is "
    "likely to lie in the range beside it, because wool lies unevenly and with gaps."
)


def opening_words(worked: Estimate) -> str:
    """Say in one sentence what is offered, for a quote whose writer said nothing."""
    area = worked.design.deck_area_m2.value
    how = "pedestals" if worked.choices.raise_with is RaiseWith.PEDESTALS else "battens"
    wool = worked.design.insulation.finished_depth_mm.value
    return (
        f"A boarded deck of {area:.1f} m² for storing things in your loft, raised on {how} above "
        f"{wool} mm of insulation, so that nothing presses the insulation down."
    )


def what_we_do(worked: Estimate) -> list[str]:
    """Return a sentence for each part that counts, with its figures."""
    sentences = {
        Part.DECK: _deck(worked),
        Part.INSULATION: _insulation(worked),
        Part.HATCH: "Cut and line a new hatch between the joists, insulated, with a strip against draughts.",
        Part.LADDER: "Fit a loft ladder and show you how it folds.",
        Part.LIGHT: f"Fit {_count(worked.choices.lights, 'light')} in the loft.",
        Part.EDGE_TRIM: "Trim the open edges of the deck, so that nothing rolls off into the insulation.",
        Part.DRAUGHT_STRIP: "Insulate the hatch and seal it against draughts.",
        Part.DOWNLIGHT_COVERS: f"Cover {_count(worked.survey.downlights, 'downlight')}, as their maker "
        "allows, so that insulation stays clear of the lamps.",
        Part.SHELVES: f"Fit shelves in {_count(worked.choices.shelf_bays, 'bay')} between the trusses, "
        "without cutting or drilling a truss.",
        Part.WALKWAY: f"Lay a walkway to tread on: {_pieces(worked, Part.WALKWAY)}.",
        Part.OTHER: f"Fit {_pieces(worked, Part.OTHER)}.",
        Part.VISIT: "Cover your floors, work with lights and crawling boards, take the waste away, and leave "
        "you photographs of what is under the deck.",
    }
    counted = worked.choices.counted_parts
    return [words for part, words in sentences.items() if part in counted]


def _pieces(worked: Estimate, part: Part) -> str:
    """Name what a part that was counted by hand is made of: "2 × Crawl board"."""
    bought = (each for each in worked.quantities.purchases if each.part is part)
    return ", ".join(f"{each.needed.value} × {each.description}" for each in bought)


def what_we_do_not(worked: Estimate) -> list[str]:
    """Return what somebody might expect and will not get."""
    counted = worked.choices.counted_parts
    left_out = [
        "A floor for a room, or for walking on beyond storing and fetching things.",
        "Repairs to roof, timbers, ceilings, pipes or tanks.",
        "Electrical work" + (", beyond the light listed." if Part.LIGHT in counted else "."),
        "Decorating or plastering below.",
    ]
    left_out += [f"Boards over the part called {name}." for name in sorted(worked.choices.left_out_zones)]
    if Part.INSULATION not in counted:
        left_out.append("More insulation.")
    if not worked.choices.insulate_open_loft and Part.INSULATION in counted:
        left_out.append("Insulation of the loft beside the deck.")
    return left_out


def plan_in_words(worked: Estimate) -> str:
    """Say what the plan shows, for whoever cannot see it."""
    design, zones = worked.design, worked.design.zones
    parts = f", in {_count(len(zones), 'zone')}" if len(zones) > 1 else ""
    return (
        f"Plan of the loft with the deck of {design.deck_area_m2.value:.1f} m² laid in "
        f"{_count(len(design.cuts), 'board')}{parts}, the joists under it, the hatch, and dimensions in mm."
    )


def section_in_words(worked: Estimate) -> str:
    """Say what the section shows, for whoever cannot see it."""
    design = worked.design
    return (
        f"Section: joists, {design.insulation.finished_depth_mm.value} mm of insulation, "
        f"{design.gap_above_insulation_mm.value} mm of air over it, and the deck, whose top stands "
        f"{design.deck_top_above_joist_mm.value} mm above the joists."
    )


def _deck(worked: Estimate) -> str:
    boards = len(worked.design.cuts)
    supports = sum(len(zone.pedestals) for zone in worked.design.zones)
    area = worked.design.deck_area_m2.value
    on = f"{supports} pedestals" if supports else "battens"
    gap = worked.design.gap_above_insulation_mm.value
    return (
        f"Lay {area:.1f} m² of deck: {boards} boards, tongued and grooved and screwed down, on {on} that "
        f"stand on the joists, with {gap} mm of air over the insulation: "
        f"{gap_in_words(worked.choices.gap_mm)}."
    )


def _insulation(worked: Estimate) -> str:
    design = worked.design.insulation
    layers = " and ".join(
        f"{layer.thickness_mm} mm {'between' if layer.between else 'across'} the joists"
        for layer in design.layers
    )
    existing = f"on the {design.existing_depth_mm} mm that is there" if design.existing_depth_mm else ""
    if not layers:
        return f"Keep the {design.existing_depth_mm} mm of insulation that is there, springing up freely."
    return f"Add insulation: {layers} {existing}".rstrip() + f", {design.finished_depth_mm.value} mm in all."


def _count(number: int, noun: str) -> str:
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"
