"""All checks of a survey together, by size of deck, and what each group of them takes of it."""

from __future__ import annotations

import sys
from collections.abc import Callable
from cProfile import Profile
from pathlib import Path
from pstats import Stats

from django.utils import timezone

from estimating import checks as rooms
from estimating.checks import all as every_check
from estimating.checks.all import check
from estimating.checks.verdicts import Checks
from estimating.estimate import Estimate, estimate
from estimating.price_book import Board
from jobs.price_books.as_price_book import as_price_book
from jobs.price_books.services import current_edition
from jobs.surveys.as_measured import survey_as_measured, wishes_as_choices
from jobs.surveys.models import Survey
from tests.benchmarks.lofts import Made
from tests.benchmarks.measuring import Table, in_own_process, ms, timed

LIMIT_MS = 50
ROOMS = {
    "warmth": ("heat", "warmth"),
    "air": ("moisture", "air"),
    "structure": ("structure",),
    "deck": ("deck",),
    "access": ("access",),
}


def checks(made: Made) -> Table:
    """Measure each size in a process of its own; shares are of a run that is watched, which takes longer."""
    heads = ("Checks of a deck", "first", "all together", "limit", *ROOMS, "others")
    return Table(heads, [in_own_process(_row, number) for number in made.survey_numbers.values()])


def _row(survey_number: str) -> tuple[str, ...]:
    row = Survey.objects.select_related("property").get(number=survey_number)
    survey, book = survey_as_measured(row), as_price_book(current_edition())
    worked = estimate(survey, book, wishes_as_choices(row, tax_point=timezone.localdate()))
    checking = _checking(worked)
    timing = timed(checking)
    return (
        f"{worked.design.deck_area_m2.value:.1f} m²",
        ms(timing.first_ms),
        ms(timing.median_ms),
        ms(LIMIT_MS),
        *(f"{share:.0f} %" for share in _shares(checking)),
    )


def _checking(worked: Estimate) -> Callable[[], Checks]:
    board = worked.price_book.product(worked.design.zones[0].board_code)
    assert isinstance(board, Board)

    def checking() -> Checks:
        _forget()
        return check(worked.survey, worked.price_book, worked.choices, worked.design, board)

    return checking


def _forget() -> None:
    """Drop what the checks keep between runs: a survey is not checked twice for its first answer."""
    for name, module in list(sys.modules.items()):
        if name.startswith(rooms.__name__):
            for kept in list(vars(module).values()):
                if hasattr(kept, "cache_clear"):
                    kept.cache_clear()


def _shares(checking: Callable[[], Checks]) -> list[float]:
    """Return the percentages of the rooms' own checks, called from `check`, and of all others."""
    profile = Profile()
    for _ in range(5):
        profile.runcall(checking)
    stats = Stats(profile).stats  # type: ignore[attr-defined]
    called_from = str(Path(every_check.__file__ or ""))
    room_of = str(Path(rooms.__file__ or "").parent)
    whole = 0.0
    taken = dict.fromkeys(ROOMS, 0.0)
    for (file, _line, _name), (*_counts, callers) in stats.items():
        by_check = sum(each[3] for caller, each in callers.items() if caller[0] == called_from)
        if not file.startswith(room_of) or file == called_from:
            continue
        whole += by_check
        under = Path(file).relative_to(room_of).parts[0].removesuffix(".py")
        for room, parts in ROOMS.items():
            if under in parts:
                taken[room] += by_check
    shares = [100 * each / whole for each in taken.values()]
    return [*shares, 100 - sum(shares)]
