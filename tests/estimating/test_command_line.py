"""The command line: JSON out, or one line for each thing that is wrong and exit status 2."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from estimating.__main__ import main
from estimating.json_forms import (
    choices_as_json,
    estimate_from_json,
    price_book_as_json,
    survey_as_json,
)
from tests.estimating.boards.problems import case
from tests.estimating.lofts import choices, cut_roof_loft, price_book, trussed_loft


def written(path: Path, form: Any) -> str:
    path.write_text(form if isinstance(form, str) else json.dumps(form), encoding="utf-8")
    return str(path)


@pytest.fixture
def survey(tmp_path: Path) -> str:
    return written(tmp_path / "survey.json", survey_as_json(cut_roof_loft()))


@pytest.fixture
def book(tmp_path: Path) -> str:
    return written(tmp_path / "book.json", price_book_as_json(price_book()))


def test_it_prints_an_estimate_taxed_on_the_visit(survey: str, book: str, capsys: Any) -> None:
    assert main([survey, "--price-book", book]) == 0
    worked = estimate_from_json(json.loads(capsys.readouterr().out))
    assert worked.survey == cut_roof_loft()
    assert worked.choices.tax_point == cut_roof_loft().visited_on


def test_choices_and_workings(survey: str, book: str, tmp_path: Path, capsys: Any) -> None:
    chosen = written(tmp_path / "choices.json", choices_as_json(choices(gap_mm=80, board_code="B18N")))
    assert main([survey, "--price-book", book, "--choices", chosen, "--working"]) == 0
    said = capsys.readouterr().out
    assert "gauge between pedestal bases = 230 mm" in said
    assert "gap: 80 mm (chosen)" in said
    assert "Source: " in said


def test_bad_input_is_one_line_a_field_all_at_once_and_status_2(tmp_path: Path, capsys: Any) -> None:
    survey_form = survey_as_json(trussed_loft())
    survey_form["hatch"]["lining_depth_mm"] = "deep"
    book_form = price_book_as_json(price_book())
    book_form["labour_rates"][0]["hours"] = 0
    survey = written(tmp_path / "s.json", survey_form)
    book = written(tmp_path / "b.json", book_form)
    assert main([survey, "--price-book", book]) == 2
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err.splitlines() == [
        "s.json: hatch.lining_depth_mm: must be a whole number",
        "b.json: labour_rates[0].hours: must be more than 0",
    ]


@pytest.mark.parametrize(
    ("form", "line"),
    [
        ("{", "s.json: is not JSON: "),
        ("[]", "s.json: the whole: must be an object"),
        (None, "s.json: cannot be read"),
    ],
)
def test_files_that_cannot_be_read(
    form: str | None, line: str, book: str, tmp_path: Path, capsys: Any
) -> None:
    path = str(tmp_path / "s.json") if form is None else written(tmp_path / "s.json", form)
    assert main([path, "--price-book", book]) == 2
    assert capsys.readouterr().err.startswith(line)


def test_what_the_core_refuses_is_status_2_too(survey: str, tmp_path: Path, capsys: Any) -> None:
    form = price_book_as_json(price_book())
    form["products"] = [each for each in form["products"] if each["role"] != "pedestal"]
    assert main([survey, "--price-book", written(tmp_path / "b.json", form)]) == 2
    assert capsys.readouterr().err == "price_book.products: needs a product for pedestal (deck)\n"


def test_layout_reads_and_writes_the_layout_forms(tmp_path: Path, capsys: Any) -> None:
    problem = {
        "format": "deck-layout-problem/1",
        "id": "small",
        "deck": {"outer": [[0, 0], [2400, 0], [2400, 640], [0, 640]], "keepouts": []},
        "joists": {"x": [0, 600, 1200, 1800, 2400]},
        "rows": {"y0": 0},
        "product": {"id": "b", "cover_length": 1220, "cover_width": 320, "thickness": 22},
    }
    assert main(["layout", written(tmp_path / "p.json", problem)]) == 0
    answer = json.loads(capsys.readouterr().out)
    assert answer["format"] == "deck-layout/1" or answer["infeasible"]
    assert main(["layout", written(tmp_path / "p.json", {**problem, "rows": {}})]) == 2
    assert capsys.readouterr().err == "rows.y0: must be a whole number of mm\n"


def test_a_deck_that_cannot_be_laid_is_printed_with_what_would_cure_it(tmp_path: Path, capsys: Any) -> None:
    problem = case("v14")["problem_data"]
    assert main(["layout", written(tmp_path / "p.json", problem)]) == 0
    answer = json.loads(capsys.readouterr().out)
    assert answer["stagger_breaks"] == case("v14")["expect"]["fewest_stagger_breaks"]
    assert answer["cures"][-1]["change"] == "the front edge moved in by 150 mm"
    assert all(cure["change"] in answer["why"] and cure["boards"] > 0 for cure in answer["cures"])


def test_it_runs_as_a_module_without_a_traceback(tmp_path: Path) -> None:
    missing = str(tmp_path / "none.json")
    ran = subprocess.run(
        [sys.executable, "-m", "estimating", missing, "--price-book", missing],
        capture_output=True, text=True, check=False, cwd=Path(__file__).parents[2],
    )  # fmt: skip
    assert ran.returncode == 2
    assert ran.stderr.splitlines() == ["none.json: cannot be read: No such file or directory"] * 2
