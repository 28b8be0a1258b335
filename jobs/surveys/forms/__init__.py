"""The sections that are plain lists of questions. Every answer may wait; `needed` says what a price needs."""

from jobs.surveys.forms.arrive import ArriveForm
from jobs.surveys.forms.fields import CountField, PickField, WordsField, words_of
from jobs.surveys.forms.insulation import InsulationForm
from jobs.surveys.forms.office import ClearanceForm, DayForm
from jobs.surveys.forms.roof import RoofForm
from jobs.surveys.forms.section import Group, Grouped, SectionForm, groups_of, lower_first
from jobs.surveys.forms.services import ServicesForm
from jobs.surveys.forms.wishes import WishesForm

__all__ = [
    "ArriveForm", "ClearanceForm", "CountField", "DayForm", "Group", "Grouped", "InsulationForm",
    "PickField", "RoofForm", "SectionForm", "ServicesForm", "WishesForm", "WordsField", "groups_of",
    "lower_first", "words_of",
]  # fmt: skip
