"""Every figure can be opened: its formula with numbers, its inputs with where they came from, its source."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal

import pytest

from estimating.choices import Choices, Part, RaiseWith
from estimating.estimate import Estimate, estimate
from estimating.json_forms import estimate_as_json, estimate_from_json
from estimating.survey import (
    CutKind,
    ExistingInsulation,
    HeatSource,
    InsulationMaterial,
    JoistCut,
    KeepOut,
    KeepOutKind,
    Survey,
)
from estimating.working import ARITHMETIC, Figure, Origin, Working, chosen, measured, worked_out
from estimating.workings_as_text import figures_of, workings_as_text
from tests.estimating.lofts import (
    EVERY_PART,
    bungalow_loft,
    choices,
    cut_roof_loft,
    price_book,
    rectangle,
    trussed_loft,
)

EASY_PARTS = EVERY_PART - {Part.LADDER, Part.SHELVES}


def measured_loft() -> Survey:
    """An old cut roof of which everything that a check asks for was measured, a notch and a tank among it."""
    loft = cut_roof_loft()
    (field,) = loft.joist_fields
    field = replace(
        field,
        depth_mm=150,
        span_mm=None,
        spans_mm=(2400, 2600),
        bearing_mm=70,
        grade="C16",
        top_offsets_mm=tuple(0 if number % 3 == 0 else 4 for number in range(len(field.centre_lines_mm))),
        cuts=(JoistCut(joist=9, kind=CutKind.NOTCH, depth_mm=12, from_support_mm=400),),
    )
    tank = KeepOut(name="tank", kind=KeepOutKind.TANK, outline=rectangle(900, 4900, 1500, 5500), litres=150)
    return replace(
        loft,
        joist_fields=(field,),
        roof=replace(loft.roof, eaves_opening_mm2_m=8000, ridge_opening_mm2_m=5000),
        hatch=replace(loft.hatch, clear_floor_mm=2600, headroom_above_mm=2300),
        keep_outs=(*loft.keep_outs, tank),
        insulation=ExistingInsulation(
            material=InsulationMaterial.MINERAL_WOOL,
            depth_readings_mm=(60, 80, 70),
            areas_m2=(Decimal(10), Decimal(10), Decimal(20)),
            hidden_percent=30,
        ),
        heat_source=HeatSource(fuel="mains gas", efficiency_percent=Decimal(86)),
        climate_region=6,
    )


def loft_with_tank_on_trusses() -> Survey:
    """A trussed loft whose ties carry a tank."""
    tank = KeepOut(
        name="tank",
        kind=KeepOutKind.TANK,
        outline=rectangle(7200, 3000, 7900, 3600),
        litres=230,
        carried_by_trusses=3,
    )
    return trussed_loft(keep_outs=(tank,))


ESTIMATES: dict[str, tuple[Callable[[], Survey], Choices]] = {
    "trussed": (trussed_loft, choices(parts=EASY_PARTS)),
    "trussed, nothing but the deck": (trussed_loft, choices(parts=frozenset())),
    "trussed, with a tank and a ladder": (loft_with_tank_on_trusses, choices(parts=frozenset({Part.LADDER}))),
    "cut roof": (cut_roof_loft, choices(parts=EASY_PARTS)),
    "cut roof, on battens": (cut_roof_loft, choices(parts=EASY_PARTS, raise_with=RaiseWith.BATTENS)),
    "all measured": (measured_loft, choices(parts=EASY_PARTS, energy_price_pence_kwh=Decimal("6.5"))),
    "all measured, on battens": (measured_loft, choices(parts=EASY_PARTS, raise_with=RaiseWith.BATTENS)),
    "bungalow": (bungalow_loft, choices(parts=EASY_PARTS)),
    "bungalow, on battens, as one job": (
        bungalow_loft,
        choices(parts=EASY_PARTS, raise_with=RaiseWith.BATTENS, insulate_open_loft=False),
    ),
}

SAYS_WHAT_IS_DONE = re.compile(
    r"^0: |\b(sum|added up|counted|as chosen|the least|the lowest|the greatest|the greater|share of|one|"
    r"mean of|offcuts at least|upper and lower limits of resistance|from inside to outside|"
    r"from the table|for each|in all|taut string|where)\b"
)
"""Words by which a formula says what becomes of inputs that it does not call by name: they stand under it."""


@pytest.fixture(scope="module", params=ESTIMATES)
def any_estimate(request: pytest.FixtureRequest) -> Estimate:
    loft, chosen_by_office = ESTIMATES[request.param]
    return estimate(loft(), price_book(), chosen_by_office)


def test_every_figure_has_a_formula_inputs_and_a_source(any_estimate: Estimate) -> None:
    figures = list(figures_of(any_estimate))
    assert len(figures) > 60
    for path, figure in figures:
        assert figure.name.strip(), path
        assert figure.working.formula.strip(), path
        assert figure.working.source.strip(), path
        assert figure.working.inputs, f"{path}: {figure.name} has no inputs"
        for given in figure.working.inputs:
            assert given.name.strip(), path
            assert str(given.value).strip(), path
            assert given.origin in Origin, path


def test_every_formula_names_its_inputs_or_says_what_is_done_with_them(any_estimate: Estimate) -> None:
    """Otherwise the numbers under a formula would be a list that nobody can reckon with."""
    faults = {
        f"“{figure.working.formula}” does not name “{given.name}” ({figure.name})"
        for _, figure in figures_of(any_estimate)
        if not SAYS_WHAT_IS_DONE.search(figure.working.formula)
        for given in figure.working.inputs
        if given not in figure.working.named_in_formula.values()
    }
    assert not faults, "\n".join(sorted(faults))


def test_every_formula_reads_with_numbers_in_it(any_estimate: Estimate) -> None:
    for path, figure in figures_of(any_estimate):
        assert re.search(r"\d", figure.working.with_numbers) or _is_words(figure), path


def _is_words(figure: Figure[int]) -> bool:
    """Whether nothing that the figure was made from is a number, as where something was chosen with a yes."""
    return not any(re.search(r"\d", str(given.value)) for given in figure.working.inputs)


def test_what_was_worked_out_before_can_be_opened_as_well(any_estimate: Estimate) -> None:
    """What goes into another figure keeps its value on the way; a way not taken has a deck of its own."""
    by_name: dict[tuple[str, str], set[str]] = {}
    for _, figure in figures_of(any_estimate):
        by_name.setdefault((figure.name, figure.unit), set()).add(str(figure.value))
    for path, figure in figures_of(any_estimate):
        if path.startswith("board_alternatives"):
            continue
        for given in figure.working.inputs:
            opened = by_name.get((given.name, given.unit))
            if given.origin is Origin.WORKED_OUT and given.unit and opened:
                assert str(given.value) in opened, f"{path}: {given}"


def test_a_number_in_a_verdict_is_a_figure_or_was_given(any_estimate: Estimate) -> None:
    """Without one, a verdict repeats what was measured, chosen or bought, or a limit its source names."""
    given = _numbers_in(repr((any_estimate.survey, any_estimate.choices, any_estimate.price_book)))
    for verdict in any_estimate.checks.verdicts:
        if verdict.figure is None and verdict.source != "survey":
            assert _numbers_in(verdict.words) <= given | _numbers_in(verdict.source), verdict


def _numbers_in(words: str) -> set[str]:
    return set(re.findall(r"\d+(?:\.\d+)?", words))


def test_every_working_is_printed_with_its_numbers(any_estimate: Estimate) -> None:
    printed = workings_as_text(any_estimate)
    for path, figure in figures_of(any_estimate):
        assert f"({path})" in printed
        assert f"  = {figure.working.with_numbers}\n" in printed


def test_a_frozen_estimate_keeps_every_working() -> None:
    worked = estimate(cut_roof_loft(), price_book(), choices())
    read_back = estimate_from_json(estimate_as_json(worked))
    assert list(figures_of(read_back)) == list(figures_of(worked))


DEPTH = measured("joist depth", 97, "mm")
HEIGHT = Figure(
    "pedestal height", 225, "mm", Working("as chosen", (chosen("height", 225, "mm"),), ARITHMETIC)
)


@pytest.mark.parametrize(
    ("formula", "inputs", "reads"),
    [
        ("joist depth + pedestal height", (DEPTH, worked_out(HEIGHT)),
         "97 mm joist depth + 225 mm pedestal height"),
        ("Joist depth, halved", (DEPTH,), "97 mm Joist depth, halved"),
        ("joist depth² / 6", (DEPTH,), "(97 mm joist depth)² / 6"),
        ("joist depths", (DEPTH,), "joist depths: 97 mm joist depth"),
        ("packs × pack cost", (chosen("packs", 3, "packs"), chosen("pack cost", Decimal("9.60"), "GBP")),
         "3 packs × £9.60 pack cost"),
        ("cost / 2", (chosen("cost of boards", Decimal("9.60"), "GBP"),), "£9.60 cost / 2"),
        ("sum of the costs", (chosen("cost of a", 1, "GBP"), chosen("cost of b", 2, "GBP")),
         "sum of the costs: £1 cost of a + £2 cost of b"),
        ("the greater cost", (chosen("cost of a", 1, "GBP"), chosen("cost of b", 2, "GBP")),
         "the greater cost: £1 cost of a, £2 cost of b"),
        ("one", (), "one"),
    ],
)  # fmt: skip
def test_numbers_stand_before_the_names_they_belong_to(formula, inputs, reads) -> None:
    """Own definition: a name that two inputs share stands for neither of them."""
    assert Working(formula, inputs, ARITHMETIC).with_numbers == reads
