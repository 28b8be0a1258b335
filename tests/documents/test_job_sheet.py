from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from estimating.choices import Part
from estimating.drawing.numbering import piece_names
from estimating.estimate import estimate
from jobs.documents.cutting_words import FACTORY_ENDS
from jobs.documents.job_sheet import job_sheet_context, job_sheet_pdf
from jobs.documents.work_plan import PHOTOGRAPHS, POINTS, STEPS, TOOLS, entries_for
from jobs.orders.packs_to_buy import packs_to_buy
from jobs.works.as_accepted import accepted_estimate
from jobs.works.models import Job
from tests.documents.reading import fonts, pages, read, roles
from tests.jobs.offers import make_job, make_offer, worked_loft

pytestmark = pytest.mark.django_db


@pytest.fixture
def booked(job, crew, office) -> Job:
    job.crew.add(crew)
    job.starts_on, job.ends_on = date(2026, 12, 7), date(2026, 12, 8)
    job.note, job.booked_by = "Key at no. 3", office
    job.save()
    return job


@pytest.fixture
def pdf(booked) -> bytes:
    return job_sheet_pdf(booked)


def test_dangers_stand_before_the_work(pdf):
    first = pages(pdf)[0]
    for words in (
        "Before anything else",
        "Nobody stands or works beneath",
        "Tread on joists or on crawling boards",
        "Rescue",
        "Col Hedgecoe",
        "Mon 7 Dec 2026 to Tue 8 Dec 2026",
        "Key at no. 3",
    ):
        assert words in first, words


def test_the_sheet_shows_all_that_the_crew_works_from(pdf):
    whole = " ".join(pages(pdf))
    headings = (
        "Setting out", "Gauge rod", "Section", "Cutting list", "Materials", "Tools", "Work, step by step",
        "Photographs to take", "Sign-off",
    )  # fmt: skip
    for words in headings:
        assert words in whole, words


def test_no_price_is_on_the_sheet(pdf):
    assert "£" not in " ".join(pages(pdf))


def test_no_sheet_calls_anything_safe(pdf):
    assert "safe" not in " ".join(pages(pdf)).lower()


def test_the_setting_out_plan_has_a_sheet_to_itself(booked, pdf):
    """It follows what must be known before anything else, which takes a page, or two where much was found."""
    lying = [n for n, page in enumerate(read(pdf).pages) if page.mediabox.width > page.mediabox.height]
    assert lying[0] in (1, 2)
    assert "Datum" in pages(pdf)[lying[0]]


@pytest.mark.parametrize("loft", ["trussed", "cut roof", "bungalow"])
def test_every_support_is_marked_once_on_the_joist_it_stands_on(firm, survey, office, loft):
    job = make_job(make_offer(survey, office, worked=worked_loft(loft)))
    design = accepted_estimate(job).design
    for zone, told in zip(design.zones, job_sheet_context(job)["zones"], strict=True):
        marks = sum(len(line["joists"]) * len(line["marks"]) for line in told["setting_out"])
        assert marks == len(zone.pedestals) == sum(each["count"] for each in told["supports"])


def test_the_list_says_where_its_datum_is_and_how_two_people_begin(pdf):
    whole = " ".join(" ".join(pages(pdf)).split())
    assert "P is the front left corner of the deck, 1500 mm from the left gable" in whole
    assert "Strike a line from P to Q" in whole
    assert "(at the hatch)" in whole


def test_uneven_joists_are_told_their_pedestals_and_packing(firm, survey, office):
    even = worked_loft()
    tops = tuple(-54 if number == 8 else -3 if number == 9 else 0 for number in range(1, 16))
    joists = replace(even.survey.joist_fields[0], top_offsets_mm=tops)
    uneven = estimate(replace(even.survey, joist_fields=(joists,)), even.price_book, even.choices)
    told = job_sheet_context(make_job(make_offer(survey, office, worked=uneven)))["zones"][0]
    assert told["has_heights"]
    assert told["has_packing"]
    by_joist = {
        joist.split(" at ")[0]: (line["height_mm"], line["packing_mm"])
        for line in told["setting_out"]
        for joist in line["joists"]
    }
    assert (by_joist["8"], by_joist["9"], by_joist["10"]) == ((275, 4), (225, 3), (225, 0))
    assert [each["description"] for each in told["supports"]] == ["pedestal 225 mm", "pedestal 275 mm"]


@pytest.mark.parametrize("loft", ["trussed", "cut roof", "bungalow"])
def test_every_piece_of_the_plan_is_in_the_cutting_list_under_its_number_on_the_plan(
    firm, survey, office, loft
):
    job = make_job(make_offer(survey, office, worked=worked_loft(loft)))
    told = job_sheet_context(job)["cutting"]
    whole = [words.split(" ")[0] for words in told["whole"]]
    cut = [piece.split(":")[0] for board in told["to_cut"] for piece in board["pieces"]]
    assert sorted(whole + cut) == sorted(piece_names(accepted_estimate(job).design).values())


@pytest.mark.parametrize("loft", ["trussed", "cut roof", "bungalow"])
def test_the_cuts_of_a_board_name_every_piece_that_it_yields(firm, survey, office, loft):
    """A piece that the last cut leaves is not waste only because no cut measures it."""
    job = make_job(make_offer(survey, office, worked=worked_loft(loft)))
    for board in job_sheet_context(job)["cutting"]["to_cut"]:
        named = {name for words in board["cuts"] for name in words.partition(": keep ")[2].split()}
        pieces = {piece.split(":")[0] for piece in board["pieces"]}
        assert pieces <= {name.strip(";") for name in named}


def test_every_sawn_piece_says_which_of_its_ends_is_the_factorys(booked):
    pieces = [piece for board in job_sheet_context(booked)["cutting"]["to_cut"] for piece in board["pieces"]]
    assert pieces
    assert all(any(words in piece for words in FACTORY_ENDS.values()) for piece in pieces)


def test_offcuts_worth_keeping_are_told_with_their_sizes(booked, pdf):
    told = job_sheet_context(booked)["cutting"]["kept"]
    assert told
    whole = " ".join(" ".join(pages(pdf)).split())
    assert all(words in whole for words in told)


def test_materials_are_those_that_are_ordered(booked):
    assert job_sheet_context(booked)["materials"] == packs_to_buy(accepted_estimate(booked))


def test_a_ladder_brings_its_tool_its_step_and_its_photograph():
    left = worked_loft().choices
    taken = type(left)(
        tax_point=left.tax_point,
        parts=left.parts,
        optional_parts=left.optional_parts,
        taken_parts=frozenset({Part.LADDER}),
    )
    for entries in (TOOLS, STEPS, PHOTOGRAPHS):
        assert not [words for words in entries_for(entries, left) if "ladder by" in words.lower()]
        more = set(entries_for(entries, taken)) - set(entries_for(entries, left))
        assert len(more) == 1
        assert "adder" in more.pop()


def test_the_points_hold_for_every_job():
    assert entries_for(POINTS, worked_loft().choices) == [entry.words for entry in POINTS]


def test_the_paper_is_tagged_and_carries_its_fonts(pdf, booked):
    assert read(pdf).metadata.title == f"Job sheet {booked.number}"
    assert roles(pdf) >= {"/H1", "/H2", "/Table", "/L", "/Figure"}
    carried = fonts(pdf)
    assert all(carried.values())
    assert all("Source-Sans" in name for name in carried)


def test_the_crew_is_told_where_ends_may_meet():
    choices = worked_loft("trussed").choices
    on_joists, floating = (entries_for(STEPS, choices, joints_float=each) for each in (False, True))
    assert len(on_joists) == len(floating)
    assert any("End joints stand on a joist, every one." in words for words in on_joists)
    assert any("Between joists only factory ends meet" in words for words in floating)
