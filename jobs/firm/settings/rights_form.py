"""What the firm gives its home customers and says of their rights, in its own words."""

from __future__ import annotations

from typing import ClassVar

from django import forms

from jobs.firm.models import Firm
from jobs.firm.settings.forms import SettingsForm


class RightsForm(SettingsForm):
    groups = (
        (
            "Changing their mind",
            "Printed with every quote to a home, and shown on its link, beside the form and the instructions "
            "of the law, which stand word for word. Have your adviser confirm all of it.",
            (("right_to_cancel_anyway",), ("how_to_cancel",), ("goods_back",)),
        ),
        (
            "What they are told before they accept",
            "The law has a list. The rest of it follows from the quote.",
            (("complaints",), ("guarantees",), ("redress",)),
        ),
    )

    class Meta:
        model = Firm
        fields = (
            "right_to_cancel_anyway", "how_to_cancel", "goods_back", "complaints", "guarantees", "redress",
        )  # fmt: skip
        help_texts: ClassVar = {
            "right_to_cancel_anyway": "The law gives none to who decides later on a quote that was left or "
            "sent after a visit. Giving it is cheaper than proving where the yes was said.",
            "how_to_cancel": "Any clear statement counts in law; say here what is easiest.",
            "goods_back": "Who fetches or sends back what was delivered, and at whose cost.",
            "redress": "If you belong to a scheme for disputes or signed a code: which, and how to use it.",
        }
        widgets: ClassVar = {
            name: forms.Textarea(attrs={"rows": 3})
            for name in ("how_to_cancel", "goods_back", "complaints", "guarantees", "redress")
        }
