"""The price book's screens in a real browser: whole at every width, and an import by hand."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from jobs.price_books.import_models import PriceImport
from jobs.price_books.models import Edition
from jobs.price_books.services import copy_edition
from jobs.price_books.spreadsheets.importing import keep_import
from tests.browser.looking import faults
from tests.browser.walking import log_in, press
from tests.jobs.offers import make_offer
from tests.jobs.price_books.test_closing import spoil

pytestmark = [
    pytest.mark.requires_chromium,
    pytest.mark.django_db(transaction=True),
    pytest.mark.any_database,
]
CHANGES = "code,pack cost\nWOOL-100,25.93\nLADDER-3,160\n"
FAULTS = (
    "code,role,description,pack cost,height mm\n"
    "WOOL-100,sprocket,Glass wool roll 100 mm,free,\n"
    "NEW-1,sprocket,A thing of a role that nobody knows,1,\n"
    "PED-175,,Pedestal,1,0\n"
)


@pytest.fixture
def following(edition) -> Edition:
    """The next edition, open, with a price that changed and one that is old."""
    following = copy_edition(edition, name="Winter, with the merchant's new list", dated=date(2026, 12, 1))
    following.products.filter(code="WOOL-150").update(pack_cost=Decimal("28.10"))
    following.products.filter(code="WOOL-200").update(checked_on=date(2025, 1, 7))
    following.products.filter(code="SCR-BOARD").update(pack_size=100)
    following.products.filter(code="LADDER-2").delete()
    return following


@pytest.fixture
def addresses(edition, following, owner, survey) -> dict[str, str]:
    make_offer(survey, owner)
    here = f"/price-books/{following.pk}/"
    lacking = copy_edition(edition, name="Lacking much", dated=date(2026, 12, 2))
    spoil(lacking)
    files = {"changes": CHANGES, "faults": FAULTS, "own": CHANGES.replace("pack cost", "Our price")}
    kept = {
        name: keep_import(following, name=f"{name}.csv", content=text.encode(), by=owner).pk
        for name, text in files.items()
    }
    against = f"/price-books/{edition.pk}/against/{following.pk}/"
    return {
        "edition": here, "closing": f"{here}closing/", "lacking": f"/price-books/{lacking.pk}/closing/",
        "against": against, "quotes": f"{against}open-quotes/", "import": f"{here}import/",
        **{name: f"{here}import/{pk}/" for name, pk in kept.items()},
    }  # fmt: skip


def test_every_screen_is_whole_and_can_be_read_by_everyone(new_page, addresses, owner, subtests):
    page = new_page()
    log_in(page, owner.username)
    for name, address in addresses.items():
        answer = page.goto(address)
        with subtests.test(screen=name):
            assert answer
            assert answer.status == 200
            assert list(faults(page)) == []


def test_a_list_with_its_own_headings_is_imported_by_hand(
    page: Page, following: Edition, owner, tmp_path: Path
):
    file = tmp_path / "Kelmore, December.csv"
    file.write_bytes("\ufeffCode;Our price\nWOOL-100;25.93\n".encode())
    log_in(page, owner.username)
    page.goto(f"/price-books/{following.pk}/")
    page.get_by_role("link", name="Import products").click()
    page.get_by_label("File").set_input_files(file)
    press(page, "Look at it")
    page.get_by_label("“Our price”").select_option(label="Cost of one pack, £")
    press(page, "Read them so")
    expect(page.get_by_role("table", name="Products that change")).to_contain_text("+8.5 %")
    press(page, "Take all of it")
    expect(page.locator(".flash__message")).to_have_text(
        "Kelmore, December.csv is taken: 0 added, 1 changed."
    )
    assert following.products.get(code="WOOL-100").pack_cost == Decimal("25.93")
    assert not PriceImport.objects.exists()


def test_a_refused_next_edition_is_in_sight_and_a_made_one_is_shown_from_its_top(
    page: Page, following: Edition, owner
):
    log_in(page, owner.username)
    page.goto(f"/price-books/{following.pk}/")
    name = page.get_by_label("Name of the next edition")
    name.fill(following.name)
    page.get_by_label("In use from").fill("2026-12-24")
    press(page, "Copy this edition")
    expect(page.locator("#next-edition .error-summary")).to_be_in_viewport()
    expect(name).to_have_value(following.name)
    expect(page.get_by_label("In use from")).to_have_value("2026-12-24")
    assert list(faults(page)) == []
    name.fill("Christmas")
    press(page, "Copy this edition")
    expect(page.get_by_role("heading", level=1)).to_have_text("Christmas")
    expect(page.get_by_role("heading", level=1)).to_be_in_viewport()
