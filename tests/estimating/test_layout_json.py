"""Layout problems are read from JSON, and everything wrong with one is refused at once, by its path."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from copy import deepcopy
from pathlib import Path
from typing import Any

import pytest

from estimating.design.boards import lay_boards
from estimating.layout_json import layout_as_json, problem_from_json
from estimating.refusals import Refusal
from tests.estimating.boards.problems import CASES, case


@pytest.fixture
def data() -> dict[str, Any]:
    return deepcopy(case("v02")["problem_data"])


def _refused(data: object) -> dict[str, str]:
    with pytest.raises(Refusal) as refused:
        problem_from_json(data)
    return {each.field: each.requirement for each in refused.value.each}


def test_a_problem_is_read_as_it_stands(data):
    problem = problem_from_json(data)
    assert problem.reference == "v02"
    assert problem.outline[2] == (7268, 6310)
    assert problem.keep_outs[0].kind == "hatch"
    assert problem.joist_lines[0] == 48
    assert problem.product.cover_length_mm == 2400
    assert problem.rules.min_stagger_mm == 300


def test_rules_and_pedestals_left_out_take_their_defaults(data):
    whole = problem_from_json(data)
    del data["rules"], data["pedestals"], data["deck"]["keepouts"]
    assert problem_from_json(data).rules == whole.rules
    assert problem_from_json(data).pedestals == whole.pedestals


def test_everything_wrong_is_refused_at_once(data):
    data["joists"]["x"][1] = "648"
    data["deck"]["outer"][2] = [7268]
    data["product"]["cover_width"] = 0
    del data["product"]["thickness"]
    data["rules"]["kerf"] = 3.5
    data["rules"]["end_joint"] = 7
    del data["rows"]
    assert set(_refused(data)) == {
        "joists.x[1]",
        "deck.outer[2]",
        "product.thickness",
        "rules.kerf",
        "rules.end_joint",
        "rows",
        "rows.y0",
    }


def test_what_cannot_be_so_is_named_by_its_path_in_the_json(data):
    data["joists"]["x"][3] = 5
    data["deck"]["outer"] = [[0, 0], [900, 900], [900, 0], [0, 900]]
    data["deck"]["keepouts"][0]["poly"] = [[0, 0], [1, 1], [2, 2]]
    assert set(_refused(data)) == {"joists.x[3]", "deck.outer", "deck.keepouts[0].poly"}
    data["rules"]["kerf"] = -1
    assert set(_refused(data)) == {"rules.kerf"}


@pytest.mark.parametrize("nonsense", [None, [], "deck", 7, {}])
def test_nonsense_is_refused_and_never_crashes(nonsense):
    assert _refused(nonsense)


def test_truth_is_no_number(data):
    data["rows"]["y0"] = False
    assert _refused(data) == {"rows.y0": "must be a whole number of mm"}


def test_no_layout_is_written_with_its_reason():
    answer = lay_boards(problem_from_json(case("v14")["problem_data"]))
    written = layout_as_json(answer)
    assert written["infeasible"] is True
    assert written["stagger_breaks"] == 2
    assert "line up" in written["why"]


def test_another_process_lays_the_same_layout():
    program = (
        "import json, sys; from estimating.design.boards import lay_boards; "
        "from estimating.layout_json import layout_as_json, problem_from_json; "
        "problem = problem_from_json(json.load(sys.stdin)['problem_data']); "
        "print(json.dumps(layout_as_json(lay_boards(problem))))"
    )
    ours = layout_as_json(lay_boards(problem_from_json(case("v12")["problem_data"])))
    for seed in ("1", "2"):
        theirs = subprocess.run(
            [sys.executable, "-c", program],
            input=(CASES / "v12.json").read_text(),
            capture_output=True,
            text=True,
            check=True,
            cwd=Path(__file__).parents[2],
            env={**os.environ, "PYTHONHASHSEED": seed},
        )
        assert json.loads(theirs.stdout) == ours
