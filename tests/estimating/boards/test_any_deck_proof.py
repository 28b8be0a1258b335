"""What holds for any deck that is looked at twice, or changed a little, and for the bounds claimed of it.

A search may stop before it has proved its layout the best, so two counts of one deck need only be equal where
both are proved; a bound of the one must hold for the other always.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from estimating.design.boards import Layout, NoLayout, lay_boards
from estimating.layout_json import layout_as_json, problem_from_json
from tests.estimating.boards.changed_decks import doubled, mirrored, with_keep_out
from tests.estimating.boards.problems import any_problem, case
from tests.published.layout_validator import Deck, check_bound, validate

RARELY = settings(
    max_examples=12, deadline=None, suppress_health_check=[HealthCheck.too_slow], derandomize=True
)
QUICKLY_PROVED_MM = (4500, 2400)  # wide and deep


def _lay(data):
    return lay_boards(problem_from_json(data))


def _tell_the_same(one: Layout | NoLayout, other: Layout | NoLayout) -> None:
    """The same deck twice: as many boards where both are proved, and never a bound against the other."""
    assert type(one) is type(other)
    if isinstance(one, NoLayout) or isinstance(other, NoLayout):
        if one.stagger_breaks == one.at_least and other.stagger_breaks == other.at_least:
            assert one.stagger_breaks == other.stagger_breaks
        return
    assert one.bound.least <= other.boards
    assert other.bound.least <= one.boards
    if one.proved and other.proved:
        assert one.boards == other.boards


@RARELY
@given(any_problem(largest_mm=QUICKLY_PROVED_MM))
def test_a_deck_mirrored_across_its_joists_takes_as_many_boards(data):
    _tell_the_same(_lay(data), _lay(mirrored(data)))


@RARELY
@given(any_problem(outlines=("rectangle", "L", "T"), largest_mm=QUICKLY_PROVED_MM))
def test_a_deck_twice_as_long_in_every_way_takes_as_many_boards(data):
    # slanted edges are rounded to the millimetre, so that twice as long is another deck
    assume(not _has_strips_of_a_millimetre(data))
    _tell_the_same(_lay(data), _lay(doubled(data)))


def _has_strips_of_a_millimetre(data) -> bool:
    """Whether something is a millimetre wide, which is no deck, but would be one when doubled."""
    cover, origin = data["product"]["cover_width"], data["rows"]["y0"]
    corners = [
        c for poly in (data["deck"]["outer"], *(k["poly"] for k in data["deck"]["keepouts"])) for c in poly
    ]
    xs, ys = ({corner[axis] for corner in corners} for axis in (0, 1))
    near = any(abs(a - b) == 1 for some in (xs, ys) for a in some for b in some)
    return near or any((y - origin) % cover in (1, cover - 1) for y in ys)


@RARELY
@given(any_problem(largest_mm=QUICKLY_PROVED_MM), st.integers(0, 4000), st.integers(0, 2000))
def test_one_more_keep_out_never_makes_a_claimed_bound_false(data, left, low):
    fuller = with_keep_out(data, left, low)
    assume(data["rules"]["min_supports"] == 2 and not _has_slivers(fuller))  # see the odd decks
    answers = [(deck, _lay(deck)) for deck in (data, fuller)]
    laid = [(deck, answer) for deck, answer in answers if isinstance(answer, Layout)]
    tongued = (
        data["product"]["sides"] == "tg"
    )  # the validator takes two strips of square boards to be two boards
    for deck, layout in laid:
        written = layout_as_json(layout)
        assert validate(deck, written)["errors"] == []
        assert layout.bound.least <= layout.boards
        for _, other in laid:  # prices found for one deck prove something of the other, and it is true too
            certificate = layout_as_json(other)["lower_bound"]["certificate"]
            assert not tongued or check_bound(deck, certificate)[0] <= layout.boards


def _has_slivers(data) -> bool:
    return any(right - left <= data["rules"]["gap_tol"] for runs in Deck(data).runs for left, right in runs)


@RARELY
@given(any_problem(largest_mm=QUICKLY_PROVED_MM))
def test_a_deck_laid_twice_is_laid_alike(data):
    assert _lay(data) == _lay(data)


@pytest.mark.parametrize("name", ["v10", "v13", "v14"])
def test_another_process_lays_a_deck_alike(name, tmp_path):
    data = case(name)["problem_data"]
    problem = tmp_path / "problem.json"
    problem.write_text(json.dumps(data))
    # the seeds are of the order in which sets and dictionaries of text are walked
    one, other = (_written_by_another_process(problem, seed) for seed in ("1", "2"))
    assert one == other
    here = layout_as_json(_lay(data))
    told_by_both = one.keys() & here.keys() - {
        "why",
        "cures",
    }  # cures are looked for by the command line only
    assert {key: one[key] for key in told_by_both} == {key: here[key] for key in told_by_both}


def _written_by_another_process(problem: Path, seed: str) -> dict[str, Any]:
    ended = subprocess.run(
        [sys.executable, "-m", "estimating", "layout", str(problem)],
        env={**os.environ, "PYTHONHASHSEED": seed},
        capture_output=True,
        check=True,
    )
    return json.loads(ended.stdout)
