"""What the customer wants done."""

from __future__ import annotations

from estimating.choices import RaiseWith
from jobs.surveys.forms.fields import OFFERED, YES_NO, CountField, PickField, WordsField, words_of
from jobs.surveys.forms.section import SectionForm
from jobs.surveys.typed.lengths import LengthField


class WishesForm(SectionForm):
    groups = (
        ("To be stored", ("to_store", "stored_goods")),
        ("The deck", ("raise_with", "gap", "edge_trim")),
        ("Insulation", ("insulation", "open_loft", "downlight_covers")),
        ("Way up and light", ("hatch", "ladder", "draught_strip", "light", "lights", "light_words")),
        ("Shelves and walkway", ("shelves", "shelf_bays", "walkway")),
    )

    to_store = WordsField("What will be stored, and how heavy", lines=2)
    stored_goods = WordsField("Stored goods to be cleared first")
    raise_with = PickField(*words_of(RaiseWith), label="Deck raised with")
    gap = LengthField(label="Gap above the insulation", help_text="Empty takes the firm's own gap.")
    edge_trim = PickField(*OFFERED, label="Edge trim")
    insulation = PickField(*OFFERED, label="Insulation under the deck")
    open_loft = PickField(*YES_NO, label="Insulate the open loft as well")
    downlight_covers = PickField(*OFFERED, label="Covers over recessed lights")
    hatch = PickField(*OFFERED, label="New hatch")
    ladder = PickField(*OFFERED, label="Loft ladder")
    draught_strip = PickField(*OFFERED, label="Insulate and draught-strip the hatch")
    light = PickField(*OFFERED, label="Light")
    lights = CountField("How many lights")
    light_words = WordsField("Switch place, socket, hand rail")
    shelves = PickField(*OFFERED, label="Shelves between trusses")
    shelf_bays = CountField("Bays to be shelved")
    walkway = PickField(*OFFERED, label="Walkway beyond the deck")
