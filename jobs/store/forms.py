from __future__ import annotations

from typing import Any

from django import forms
from django.core.validators import MinValueValidator

from jobs.forms import SheetForm, SheetModelForm
from jobs.price_books.models import Edition
from jobs.store.models import StoredBoard


class StoredBoardForm(SheetModelForm):
    """Boards or offcuts put into the store: of which product, how long and how many."""

    board_code = forms.ChoiceField(label="Board")

    class Meta:
        model = StoredBoard
        fields = ("board_code", "length_mm", "count", "cut", "note")

    def __init__(self, *args: Any, edition: Edition | None, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        rows = edition.products.filter(role="board") if edition else ()
        self._boards = {row.code: row for row in rows}
        self.fields["board_code"].choices = [(code, row.description) for code, row in self._boards.items()]
        self.fields["length_mm"].required = False
        self.fields["length_mm"].help_text = "Left empty: as long as the board is sold."

    def clean(self) -> dict[str, Any]:
        cleaned: dict[str, Any] = super().clean() or self.cleaned_data
        board = self._boards.get(cleaned.get("board_code", ""))
        if board is None or "length_mm" in self.errors:
            return cleaned
        sold_mm = int(board.dimensions["cover_length_mm"])
        cleaned["length_mm"] = cleaned.get("length_mm") or sold_mm
        if cleaned["length_mm"] > sold_mm:
            self.add_error("length_mm", f"Length it covers, mm must be at most {sold_mm}, as it is sold.")
        elif cleaned["length_mm"] < sold_mm and not cleaned.get("cut"):
            self.add_error("cut", f"Tick that it is cut: whole ones are {sold_mm} mm long.")
        self.instance.description = board.description
        return cleaned


class TakeOutForm(SheetForm):
    count = forms.IntegerField(label="How many", validators=[MinValueValidator(1)])
