from __future__ import annotations

from typing import Any

from django import forms

from jobs.forms import SheetForm
from jobs.price_books.row_values import value_label
from jobs.price_books.spreadsheets.bounds import MOST_BYTES
from jobs.price_books.spreadsheets.columns import (
    LEFT_OUT,
    Columns,
    plain_header,
    product_columns,
)

_LEAVE_OUT = "leave out"


class SendFileForm(SheetForm):
    file = forms.FileField(
        label="File",
        max_length=200,
        help_text="XLSX (its first sheet) or CSV: headings, then one row for each product; at most 2 MB and "
        "5,000 rows.",
        widget=forms.ClearableFileInput(attrs={"accept": ".xlsx,.csv,.tsv,.txt,text/csv"}),
    )

    def clean_file(self) -> Any:
        file = self.cleaned_data["file"]
        if file.size > MOST_BYTES:
            raise forms.ValidationError("The file is larger than 2 MB: send it in parts.")
        return file


class ColumnsForm(SheetForm):
    """What the headings of a file mean that are not ours; what is left open stays unknown."""

    def __init__(self, *args: Any, columns: Columns, remembered: dict[str, str], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        taken = {
            our for header, our in zip(columns.headers, columns.ours, strict=True)
            if our and header not in columns.remembered
        }  # fmt: skip
        choices = [("", "not said yet"), (_LEAVE_OUT, "leave this column out")]
        choices += [(name, value_label(name)) for name in product_columns() if name not in taken]
        self.headers = tuple(dict.fromkeys((*columns.unknown, *columns.remembered)))
        for place, header in enumerate(self.headers):
            known = remembered.get(plain_header(header))
            self.fields[f"column_{place}"] = forms.ChoiceField(
                label=f"“{header}”",
                choices=choices,
                required=False,
                initial=_LEAVE_OUT if known == LEFT_OUT else known or "",
            )

    @property
    def meanings(self) -> dict[str, str | None]:
        """What each heading means, for the firm to be remembered; None for what stays unknown."""
        said = {header: self.cleaned_data[f"column_{place}"] for place, header in enumerate(self.headers)}
        return {
            header: None if not word else LEFT_OUT if word == _LEAVE_OUT else word
            for header, word in said.items()
        }
