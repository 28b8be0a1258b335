"""The loft plan drawn by touch on a tablet, over the table of the form that stays the only truth."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from jobs.demo.lofts.bungalow import BUNGALOW
from jobs.surveys.as_measured import survey_as_measured
from jobs.surveys.models import Survey
from jobs.surveys.plan.stems import with_stem
from jobs.surveys.typed.lengths import without_corner
from tests.browser.gloved import Glove
from tests.browser.looking import violations
from tests.browser.walking import log_in
from tests.jobs.surveys.typed.centre_cases import READ, REFUSED

pytestmark = [
    pytest.mark.requires_chromium,
    pytest.mark.django_db(transaction=True),
    pytest.mark.any_database,
]

MOST_TAPS = 40


def plan_page(new_page, survey: Survey, **options) -> Page:
    page = new_page(**({"width": 820, "height": 1180, "touch": True} | options))
    log_in(page, "mirren")
    page.goto(f"/surveys/{survey.number}/plan/")
    return page


def saved(page: Page, survey: Survey) -> Survey:
    """Return the survey as the office has it once nothing waits on the tablet."""
    page.wait_for_timeout(1000)  # what was typed last is written down half a second later
    page.get_by_role("button", name="Save", exact=True).tap()
    expect(page.locator("#tablet-state")).to_have_text("Saved in the office")
    survey.refresh_from_db()
    return survey


@pytest.fixture
def drawn(survey, edition) -> Survey:
    """The demo's L-shaped bungalow."""
    survey.answers = {section: dict(answers) for section, answers in BUNGALOW.answers.items()}
    survey.save()
    return survey


@pytest.fixture
def bare(drawn) -> Survey:
    """The same, all of it but the plan."""
    drawn.answers["plan"] = {}
    drawn.save()
    return drawn


def test_the_l_shaped_demo_loft_is_drawn_in_under_forty_taps(new_page, bare):
    page = plan_page(new_page, bare)
    hand = Glove(page)

    hand.press("Outline")
    hand.press("L-shape")
    hand.type("Length, left to right gable", "11.2 m")
    hand.type("Depth, front to back eaves", "9.4 m")
    hand.type("Missing corner, length", "5 m")
    hand.type("Missing corner, depth", "3.6 m")
    hand.press("Joists")
    hand.press("Front to back")
    hand.tap((3000, 3000))
    hand.press("Joists")
    hand.press("Left to right")
    hand.tap((3000, 7000))
    hand.type("First joist, centre from front eaves", "5900")
    hand.press("Hatch")
    hand.tap((4500, 3000))
    hand.type("From left gable", "4.23 m")
    hand.type("From front eaves", "2.6 m")
    hand.press("Keep-out")
    hand.press("Strut")
    hand.drag((8100, 3100), (8550, 3550))
    hand.type("Name", "Purlin strut")
    hand.press("Deck")
    hand.drag((1400, 2200), (9600, 4700))
    hand.type("Name", "Main deck")
    hand.press("Deck")
    hand.drag((2000, 6100), (4200, 8700))
    hand.type("Name", "Wing deck")
    hand.taps += 1  # on Save

    as_drawn = survey_as_measured(saved(page, bare))
    bare.answers = {section: dict(answers) for section, answers in BUNGALOW.answers.items()}
    assert as_drawn == survey_as_measured(bare)
    assert hand.taps < MOST_TAPS


def test_what_is_dragged_snaps_to_joists_and_else_to_whole_fifties(new_page, drawn):
    drawn.answers["plan"]["joists-0-first"] = "220"
    drawn.save()
    page = plan_page(new_page, drawn)
    hand = Glove(page)
    hand.tap((2500, 4000))
    guides = page.locator("[data-layer=guides] text")
    with hand.holding((9600, 3450), (9170, 3450)):  # its right edge, far from a joist
        expect(guides).to_have_text("9 150")
    hand.expect_typed("zones-0-length", "7750 mm")
    with hand.holding((9150, 3450), (8645, 3450)):  # nearer to a fifty than to the joist at 220 + 21 × 400
        expect(guides).to_have_text("8 620 joist 22")
    hand.expect_typed("zones-0-length", "7220 mm")
    hand.drag((3000, 3000), (3000, 3270))
    hand.expect_typed("zones-0-front", "2450 mm")
    hand.expect_typed("zones-0-left", "1.4 m")
    expect(guides).to_have_count(0)


def test_only_the_boxes_that_change_are_written_and_each_is_told_once(new_page, drawn):
    page = plan_page(new_page, drawn)
    page.evaluate("""() => {
        window.told = [];
        document.addEventListener("change", event => window.told.push(event.target.name));
    }""")
    hand = Glove(page)
    hand.tap((8325, 3325))
    hand.drag((8325, 3325), (8325, 3625))
    hand.expect_typed("keep_outs-0-front", "3400 mm")
    hand.expect_typed("keep_outs-0-left", "8100")
    assert page.evaluate("window.told") == ["keep_outs-0-front"]


def test_one_finger_moves_nothing_that_was_not_chosen_before(new_page, drawn):
    page = plan_page(new_page, drawn)
    hand = Glove(page)
    before, view = answers_of(page), hand.drawing.get_attribute("data-view") or ""
    hand.drag((3000, 3000), (4000, 4000))
    expect(hand.drawing).not_to_have_attribute("data-view", view)  # the paper moved instead
    assert answers_of(page) == before


ANSWERS = """JSON.stringify([...new FormData(document.querySelector("form#answers"))]
    .filter(([name, value]) => value && !["csrfmiddlewaretoken", "as_shown"].includes(name)))"""


def answers_of(page: Page) -> str:
    return page.evaluate(ANSWERS)


def changed_from(page: Page, before: str) -> str:
    """Wait until a press or a tap has come through, and return what stands in the boxes then."""
    page.wait_for_function(f"before => {ANSWERS} !== before", arg=before)
    return answers_of(page)


def expect_answers(page: Page, wanted: str) -> None:
    page.wait_for_function(f"wanted => {ANSWERS} === wanted", arg=wanted)


def test_undo_and_redo_restore_every_box_drawn_or_typed(new_page, drawn):
    page = plan_page(new_page, drawn)
    hand = Glove(page)
    states = [answers_of(page)]

    def step() -> None:
        states.append(changed_from(page, states[-1]))

    hand.tap((3000, 3000))
    hand.drag((3000, 3000), (3000, 3600))
    step()
    hand.press("Remove")
    step()
    hand.press("Keep-out")
    hand.press("Chimney")
    hand.tap((6000, 2000))
    step()
    page.locator("[name=outline_depth]").fill("9.5 m")
    page.locator("[name=outline_depth]").blur()
    step()
    hand.press("Outline")
    hand.press("T-shape")
    step()
    assert len(set(states)) == len(states)
    for state in states[-2::-1]:
        hand.press("Undo")
        expect_answers(page, state)
    for state in states[1:]:
        page.keyboard.press("Control+y")
        expect_answers(page, state)
    page.keyboard.press("Control+z")
    expect_answers(page, states[-2])


def test_two_fingers_draw_nearer_and_move_nothing(new_page, drawn):
    page = plan_page(new_page, drawn)
    hand = Glove(page)
    before = answers_of(page)
    view = hand.drawing.get_attribute("data-view")
    place = hand.on_screen((4000, 3000))
    hand.pinch((4000, 3000), from_px=80, to_px=240)
    scale, _, _ = map(float, hand.drawing.get_attribute("data-view").split())
    assert scale == pytest.approx(3 * float(view.split()[0]), rel=0.05)
    assert hand.on_screen((4000, 3000)) == pytest.approx(place, abs=6)
    assert answers_of(page) == before
    hand.press("Whole")
    assert hand.drawing.get_attribute("data-view") == view


def test_a_long_press_opens_the_numbers_and_an_unclear_one_is_asked_about(new_page, drawn):
    page = plan_page(new_page, drawn)
    hand = Glove(page)
    hand.hold((8325, 3325))
    expect(hand.editor.get_by_label("From left gable", exact=True)).to_be_focused()
    hand.type("From left gable", "5.2")
    hand.editor.get_by_role("button", name="5.2 m", exact=True).tap()
    hand.tap((1000, 1000))
    hand.expect_typed("keep_outs-0-left", "5.2 m")
    expect(hand.drawing.get_by_role("button", name="Purlin strut")).to_have_accessible_name(
        "Purlin strut, 450 by 450 mm, 5 200 mm from left gable, 3 100 mm from front eaves"
    )


def test_uneven_joists_are_listed_tapped_and_repeated(new_page, drawn):
    page = plan_page(new_page, drawn)
    hand = Glove(page)
    hand.tap((10500, 1000))
    hand.press("Uneven: one after another")
    hand.type("Centres one after another", "395 407")
    hand.press("Same again")
    hand.tap((200 + 395 + 407 + 407 + 450, 1000))
    hand.expect_typed("joists-0-spacings", "395 mm, 407 mm x 2, 450 mm")
    hand.expect_typed("joists-0-count", "")
    expect(hand.editor.get_by_text("5 joists, 0 to 1 659 mm")).to_be_visible()
    fields = survey_as_measured(saved(page, drawn)).joist_fields
    assert fields[0].centre_lines_mm == (200, 595, 1002, 1409, 1859)


def test_any_right_angled_shape_is_tapped_corner_by_corner(new_page, bare):
    page = plan_page(new_page, bare)
    hand = Glove(page)
    hand.press("Outline")
    hand.press("Right-angled")
    for corner in ((1000, 1000), (9000, 1200), (8900, 4000), (6000, 4100), (6100, 7000), (1000, 6900)):
        hand.tap(corner)
    hand.tap((1000, 1000))
    hand.expect_typed("outline_kind", "corners")
    expect_corners(hand, (0, 0), (8000, 0), (8000, 3000), (5000, 3000), (5000, 6000), (0, 6000))
    hand.drag((5000, 4500), (4000, 4500))  # the middle of a side takes the side along
    expect_corners(hand, (0, 0), (8000, 0), (8000, 3000), (4000, 3000), (4000, 6000), (0, 6000))
    hand.tap((0, 3000))  # and tapped, it makes a step
    stepped = (
        (500, 0),
        (8000, 0),
        (8000, 3000),
        (4000, 3000),
        (4000, 6000),
        (0, 6000),
        (0, 3000),
        (500, 3000),
    )
    expect_corners(hand, *stepped)
    hand.press("Undo")
    expect_corners(hand, (0, 0), (8000, 0), (8000, 3000), (4000, 3000), (4000, 6000), (0, 6000))
    hand.type("Side 1, to the right", "8.4 m")
    hand.press("Any shape")
    expect_corners(hand, (0, 0), (8400, 0), (8400, 3000), (4000, 3000), (4000, 6000), (0, 6000))
    hand.drag((8400, 3000), (8000, 4000))
    expect_corners(hand, (0, 0), (8400, 0), (8000, 4000), (4000, 3000), (4000, 6000), (0, 6000))


def expect_corners(hand: Glove, *corners: tuple[int, int]) -> None:
    hand.expect_typed("corners", "; ".join(f"{left} mm, {front} mm" for left, front in corners))


def test_the_whole_plan_by_the_keyboard(new_page, bare):
    page = plan_page(new_page, bare, width=1440, height=900, touch=False)
    editor = page.locator("[data-plan-editor]")

    def press(*names: str) -> None:
        for name in names:
            editor.get_by_role("button", name=name, exact=True).focus()
            page.keyboard.press("Enter")

    press("Outline", "Rectangle", "Joists", "Front to back", "Put it in the middle")
    expect(editor.get_by_label("First joist, centre from left gable")).to_be_focused()
    press("Hatch", "Put it in the middle", "Keep-out", "Chimney", "Put it in the middle")
    press("Deck", "Put it in the middle")
    chimney = editor.locator("[data-key^=keep_outs]")
    expect(chimney).to_have_accessible_name(
        "Chimney, 600 by 600 mm, 3 700 mm from left gable, 2 700 mm from front eaves"
    )
    chimney.focus()
    for key in ("ArrowRight", "ArrowUp", "Shift+ArrowUp", "ArrowLeft", "ArrowLeft"):
        page.keyboard.press(key)
    expect(chimney).to_have_accessible_name(
        "Chimney, 600 by 600 mm, 3 650 mm from left gable, 2 760 mm from front eaves"
    )
    page.keyboard.press("Enter")
    expect(editor.get_by_label("From left gable", exact=True)).to_be_focused()
    page.keyboard.type("1200")
    page.keyboard.press("Enter")
    page.keyboard.press("Escape")
    expect(chimney).to_be_focused()
    expect(editor.get_by_role("status")).to_contain_text("")
    order = page.locator("[data-key]").evaluate_all(
        "stops => stops.map(stop => stop.dataset.key.split('-')[0])"
    )
    assert order == ["outline", "hatch", "joists", "keep_outs", "zones"]
    page.keyboard.press("Delete")
    expect(chimney).to_have_count(0)
    expect(editor.get_by_role("button", name="Undo")).to_be_focused()
    page.keyboard.press("Enter")
    expect(chimney).to_have_accessible_name(
        "Chimney, 600 by 600 mm, 1 200 mm from left gable, 2 760 mm from front eaves"
    )


def test_the_first_joist_takes_all_along_and_the_last_says_how_many(new_page, drawn):
    page = plan_page(new_page, drawn)
    hand = Glove(page)
    hand.tap((10500, 1000))
    hand.drag((11000, 2030), (10190, 2030))
    hand.expect_typed("joists-0-count", "26")
    hand.drag((200, 2030), (455, 2030))
    hand.expect_typed("joists-0-first", "450 mm")
    hand.expect_typed("joists-0-centres", "400")
    hand.press("600")
    hand.expect_typed("joists-0-count", "18")


def test_a_second_joist_field_keeps_the_decks_over_the_first(new_page, drawn):
    plan = drawn.answers["plan"]
    for name in [name for name in plan if name.startswith(("joists-1", "zones-1"))]:
        del plan[name]
    plan["zones-0-joist_field"] = ""
    drawn.save()
    page = plan_page(new_page, drawn)
    hand = Glove(page)
    hand.press("Joists")
    hand.press("Left to right")
    hand.tap((3000, 7000))
    hand.expect_typed("zones-0-joist_field", "Main roof")
    hand.type("Name", "Back wing")
    hand.press("Deck")
    hand.drag((2000, 6100), (4200, 8700))
    hand.tap((10500, 1000))
    hand.type("Name", "Front")
    hand.press("Undo")  # of the name, which the decks over it went along with
    hand.expect_typed("zones-0-joist_field", "Main roof")
    hand.press("Redo")
    hand.expect_typed("zones-0-joist_field", "Front")
    measured = survey_as_measured(saved(page, drawn))
    assert [zone.joist_field for zone in measured.zones] == ["Front", "Back wing"]


def test_old_boards_and_lights_are_put_down_again_and_again(new_page, drawn):
    page = plan_page(new_page, drawn)
    hand = Glove(page)
    hand.press("Keep-out")
    hand.press("Existing boards")
    hand.drag((400, 7000), (1600, 9000))
    hand.press("Keep-out")
    hand.press("Downlight")
    hand.tap((10050, 1050))
    for left in (9550, 9050):
        hand.press("Same again")
        hand.tap((left, 1050))
    hand.press("Remove")
    expect(hand.drawing.get_by_role("button", name="Downlight")).to_have_count(2)
    kept = survey_as_measured(saved(page, drawn)).keep_outs
    assert {(each.name, str(each.kind), each.outline[0], each.outline[2]) for each in kept} == {
        ("Purlin strut", "strut", (8100, 3100), (8550, 3550)),
        ("Existing boards", "other", (400, 7000), (1600, 9000)),
        ("downlight", "downlight", (10000, 1000), (10100, 1100)),
        ("downlight", "downlight", (9500, 1000), (9600, 1100)),
    }


def test_the_drawing_reads_as_the_office_does(new_page, drawn):
    page = plan_page(new_page, drawn)
    read = page.evaluate(
        """async cases => {
            const { readCentres } = await import("/static/js/plan/centres.js");
            return cases.map(([typed, unit]) => readCentres(typed, unit).spacings ?? null);
        }""",
        [[text, unit] for text, unit, _ in READ] + [list(case) for case in REFUSED],
    )
    assert read == [list(spacings) for _, _, spacings in READ] + [None] * len(REFUSED)

    stems = [
        ("front", 3000, 4000, 2500),
        ("back", 0, 4000, 2500),
        ("left", 1, 7999, 1),
        ("right", 2000, 900, 9000),
    ]
    corners = [("front left", 1, 2), ("front right", 3, 4), ("back left", 5, 6), ("back right", 5000, 3600)]
    ts, ls = page.evaluate(
        """async ([stems, corners]) => {
            const { outlineOf } = await import("/static/js/plan/outlines.js");
            const whole = { outline_length: 10000, outline_depth: 8000 };
            return [
                stems.map(([stem_side, stem_from, stem_width, stem_depth]) =>
                    outlineOf("T", { ...whole, stem_side, stem_from, stem_width, stem_depth })),
                corners.map(([missing_corner, missing_length, missing_depth]) =>
                    outlineOf("L", { ...whole, missing_corner, missing_length, missing_depth })),
            ];
        }""",
        [[list(stem) for stem in stems], [list(corner) for corner in corners]],
    )
    assert [in_turn(t) for t in ts] == [
        in_turn(with_stem(10000, 8000, side=side, stem_mm=tuple(mm))) for side, *mm in stems
    ]
    assert [in_turn(each) for each in ls] == [
        in_turn(without_corner(10000, 8000, corner=corner, cut_mm=tuple(mm))) for corner, *mm in corners
    ]


def in_turn(polygon) -> list[tuple[int, ...]]:
    """Return the corners in the same order from the least one on."""
    corners = [tuple(corner) for corner in polygon]
    at = corners.index(min(corners))
    return corners[at:] + corners[:at]


def test_without_scripts_the_table_is_the_page(new_page, drawn):
    page = plan_page(new_page, drawn, java_script_enabled=False)
    expect(page.locator("[data-plan-editor]")).to_be_hidden()
    expect(page.locator("[name=zones-0-left]")).to_have_value("1.4 m")


def test_axe_finds_nothing_on_the_drawing(new_page, drawn):
    page = plan_page(new_page, drawn)
    hand = Glove(page)
    hand.tap((3000, 3000))
    hand.press("Keep-out")
    for name in ("Strut", "Outline"):
        hand.press(name)
        assert list(violations(page, "[data-plan-editor]")) == []


@pytest.mark.parametrize("width", [390, 820, 1440])
def test_the_page_moves_under_a_finger_beside_the_drawing(new_page, drawn, width):
    page = plan_page(new_page, drawn, width=width, height=900)
    told = page.locator("[data-plan-drawing]").evaluate(
        "drawing => [getComputedStyle(drawing).touchAction, drawing.getBoundingClientRect().height]"
    )
    assert told[0] == "none"
    assert told[1] < 0.6 * 900
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    assert page.locator("[data-plan-editor]").evaluate("e => getComputedStyle(e).touchAction") == "auto"
