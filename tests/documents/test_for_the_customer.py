from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from estimating.checks.subjects import Question
from estimating.checks.verdicts import Verdict
from estimating.published.loads import LIGHT_STORAGE_KG_M2
from estimating.survey import Severity
from estimating.working import ARITHMETIC, Figure, Given, Working, from_price_book
from jobs.documents.checks_shown import groups_of
from jobs.documents.figures_shown import counted_figures, holds_money
from jobs.documents.for_the_customer import heat_told, room_told, what_to_know
from tests.jobs.offers import worked_loft

LOFTS = ("trussed", "cut roof", "bungalow")


def a_verdict(subject: str, severity: Severity) -> Verdict:
    return Verdict(subject=subject, severity=severity, words="Words.", source="common practice, no source")


@pytest.mark.parametrize("name", LOFTS)
def test_every_verdict_but_a_stop_stands_in_one_group(name):
    worked = worked_loft(name)
    groups = groups_of(worked.checks, worked.design)
    shown = [each for group in groups for each in (*group.cautions, *group.notes)]
    told = [each for each in worked.checks.verdicts if each.severity is not Severity.STOP]
    assert sorted(map(repr, shown)) == sorted(map(repr, told))


@pytest.mark.parametrize("name", LOFTS)
def test_every_figure_of_a_group_can_be_opened(name):
    worked = worked_loft(name)
    for group in groups_of(worked.checks, worked.design):
        for each in group.figures:
            assert each.figure.working.inputs
            assert each.shown


@pytest.mark.parametrize("name", LOFTS)
def test_surveyor_and_crew_open_nothing_that_holds_a_cost(name):
    for each in counted_figures(worked_loft(name)):
        assert not holds_money(each.figure), each.name
        assert "£" not in each.figure.working.with_numbers


def test_a_count_that_was_worked_out_from_costs_is_money():
    pack = from_price_book("pack of 12", Decimal("9.60"), "GBP")
    assert holds_money(Figure("packs", 3, "packs", Working("the mix that costs least", (pack,), ARITHMETIC)))


def test_the_customer_hears_what_stops_work_and_what_is_theirs_to_know():
    checks = worked_loft().checks
    mine = a_verdict("gap above insulation", Severity.CAUTION)
    stop = a_verdict("boards", Severity.STOP)
    firms = a_verdict("hatch", Severity.CAUTION)
    note = a_verdict("heat", Severity.NOTE)
    told = dict(what_to_know(replace(checks, verdicts=(stop, mine, firms, note))))
    assert told == {Question.AIR: [mine], Question.DECK: [stop]}


@pytest.mark.parametrize("name", LOFTS)
def test_the_customer_is_told_of_no_more_than_light_storage_and_whom_to_ask(name):
    """25 kg/m²: BS 5268-3:2006 6.4, from memory; beyond it the joists are an engineer's to judge."""
    worked = worked_loft(name)
    told = room_told(worked.checks, worked.design.gap_above_insulation_mm)
    storage = [each for each in told if each.name.startswith("Storage")]
    assert storage
    for each in storage:
        assert Decimal(each.shown.removesuffix(" kg")) <= LIGHT_STORAGE_KG_M2
        assert "Ask" in each.note
    assert {each.name for each in told} >= {"Air between insulation and boards", "Headroom under the ridge"}


def test_more_than_light_storage_is_never_promised():
    checks = worked_loft("cut roof").checks
    left = Figure("storage", 95, "kg/m²", checks.headroom_mm.working)
    joists = tuple(replace(each, storage_kg_m2=left) for each in checks.joists)
    told = room_told(replace(checks, joists=joists), worked_loft("cut roof").design.gap_above_insulation_mm)
    assert told[0].shown == "25 kg"


def test_heat_is_told_as_found_as_proposed_and_squashed():
    told = heat_told(worked_loft().checks)
    assert [each.figure.value for each in told][1] < told[2].figure.value
    assert all(isinstance(given, Given) for each in told for given in each.figure.working.inputs)
