"""The firm's settings: judged in the label's words, shown before they are saved, printed only while true."""

from __future__ import annotations

import io
from datetime import date, timedelta

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.forms import model_to_dict
from django.urls import reverse
from django.utils import timezone
from PIL import Image

from jobs.demo.dress import drawn_logo
from jobs.firm.accent import NotAColour, TooPale, as_colour, contrast_with_white, is_for_text
from jobs.firm.as_printed import firm_as_printed
from jobs.firm.bank import WrongForm, as_account_number, as_sort_code
from jobs.firm.insurance_models import Insurance
from jobs.firm.kinds import FirmKind, RegisteredIn, legal_words, missing_particulars
from jobs.firm.logo import KEPT_PX, LogoRefused, printed_size_px, read_as_logo, read_logo
from jobs.firm.models import Firm
from jobs.firm.settings.forms import ParticularsForm, QuotesForm
from jobs.firm.settings.reminders import reminders

TODAY = date(2026, 11, 26)


def unsaved(**changes: str) -> Firm:
    return Firm(name="Quillfeather Lofts", address="2 Sawpit Lane,\nAmbleford", **changes)


# SI 2015/17, regulation 25(2): part of the United Kingdom, registered number, registered office.
def test_a_company_says_its_name_number_register_and_office():
    firm = unsaved(
        kind=FirmKind.COMPANY,
        registered_name="Quillfeather Carpentry Limited",
        company_number="SC123456",
        registered_in=RegisteredIn.SCOTLAND,
        registered_office="1 Weir Street\nAmbleford",
    )
    assert legal_words(firm) == [
        "Quillfeather Lofts is a business name of Quillfeather Carpentry Limited.",
        "Quillfeather Carpentry Limited is registered in Scotland, number SC123456.",
        "Registered office: 1 Weir Street, Ambleford.",
    ]
    assert missing_particulars(firm) == []


# Companies Act 2006, section 1201: the person's name, and an address for service.
def test_a_sole_trader_says_who_they_are_and_where_they_are_served():
    firm = unsaved(kind=FirmKind.SOLE_TRADER, owners="Odile Pemberwick")
    assert legal_words(firm) == [
        "Quillfeather Lofts is a business name of Odile Pemberwick.",
        "Address for service of documents: 2 Sawpit Lane, Ambleford.",
    ]


# Companies Act 2006, section 1201: each partner's name.
def test_a_partnership_names_every_partner():
    firm = unsaved(kind=FirmKind.PARTNERSHIP, owners="Odile Pemberwick\nBram Tollkeeper\nMirren Oxleigh\n")
    expected = "Quillfeather Lofts is a partnership of Odile Pemberwick, Bram Tollkeeper and Mirren Oxleigh."
    assert legal_words(firm)[0] == expected


# Companies Act 2006, section 1200: nothing is asked of whoever trades under their own name.
def test_a_sole_trader_under_their_own_name_is_not_named_twice():
    firm = unsaved(kind=FirmKind.SOLE_TRADER, owners="Quillfeather Lofts")
    assert not any("business name" in words for words in legal_words(firm))


@pytest.mark.parametrize(
    ("firm", "lacking"),
    [
        (unsaved(), ["kind of firm"]),
        (unsaved(kind=FirmKind.COMPANY), ["company number", "registered in"]),
        (unsaved(kind=FirmKind.LLP, company_number="OC123456"), ["registered in"]),
        (unsaved(kind=FirmKind.SOLE_TRADER), ["owner's name"]),
        (unsaved(kind=FirmKind.PARTNERSHIP), ["partners' names"]),
    ],
)
def test_what_the_law_wants_and_is_not_said_is_named(firm, lacking):
    assert missing_particulars(firm) == lacking


# WCAG 2.2, definition of contrast ratio: black on white 21, #767676 just over 4.5.
def test_contrast_is_measured_as_wcag_says():
    assert contrast_with_white("#000000") == pytest.approx(21)
    assert contrast_with_white("#ffffff") == pytest.approx(1)
    assert is_for_text("#767676")
    assert not is_for_text("#777777")


@pytest.mark.parametrize(
    ("typed", "colour"),
    [("", ""), ("#1D5FA6", "#1d5fa6"), (" 1d5fa6 ", "#1d5fa6"), ("#a22", "#aa2222"), ("#949494", "#949494")],
)
def test_a_colour_is_read_as_it_is_usually_written(typed, colour):
    assert as_colour(typed) == colour


@pytest.mark.parametrize("typed", ["blue", "#12345", "#1234567", "url(x)", "#gggggg", "#1d5fa6;"])
def test_what_is_no_colour_is_refused(typed):
    with pytest.raises(NotAColour):
        as_colour(typed)


@pytest.mark.parametrize("typed", ["#ffffff", "#ffee00", "#959595"])
def test_a_colour_that_cannot_be_seen_on_paper_is_refused(typed):
    with pytest.raises(TooPale):
        as_colour(typed)


# Common practice, no source: how banks print sort codes and account numbers.
@pytest.mark.parametrize("typed", ["123456", "12-34-56", "12 34 56", " 12–34–56 "])
def test_a_sort_code_is_kept_as_banks_print_it(typed):
    assert as_sort_code(typed) == "12-34-56"


@pytest.mark.parametrize("typed", ["12345", "1234567", "12-34-5a", "12--34-56", "١٢٣٤٥٦x"])
def test_what_is_no_sort_code_is_refused(typed):
    with pytest.raises(WrongForm):
        as_sort_code(typed)


def test_an_account_number_is_eight_digits():
    assert as_account_number("1234 5678") == "12345678"
    for typed in ("1234567", "123456789", "1234567x", "¹2345678"):
        with pytest.raises(WrongForm):
            as_account_number(typed)


def test_an_account_is_given_whole_or_not_at_all(db):
    form = QuotesForm(
        {"quote_valid_days": "30", "deposit_percent": "25", "terms": "x", "bank_sort_code": "1"}
    )
    assert not form.is_valid()
    assert form.errors["bank_sort_code"] == ["Sort code must be six digits, such as 12-34-56."]
    form = QuotesForm(
        {"quote_valid_days": "30", "deposit_percent": "25", "terms": "x", "bank_sort_code": "123456"}
    )
    assert form.errors["bank_account_name"] == ["Name of the account is missing: nobody can pay without it."]
    assert form.errors["bank_account_number"] == ["Account number is missing: nobody can pay without it."]


def test_a_company_is_asked_for_its_number_and_nothing_typed_is_lost(db):
    form = ParticularsForm(
        {
            "name": "Quillfeather Lofts", "address": "2 Sawpit Lane", "phone": "01", "email": "a@example.com",
            "nation": "England", "kind": FirmKind.COMPANY, "company_number": "12 34",
        }
    )  # fmt: skip
    assert form.errors["company_number"][0].startswith("Company number must be eight characters")
    assert form.errors["registered_in"] == [
        "Registered in is missing: the law wants it on a limited company's letters."
    ]
    assert form["company_number"].value() == "12 34"


@pytest.mark.parametrize(
    ("typed", "kept"),
    [("980-7806-84", "GB 980 7806 84"), ("gb980780684001", "GB 980 7806 84 001"), (" ", "")],
)
def test_a_vat_number_is_kept_as_an_invoice_prints_it(db, typed, kept):
    form = ParticularsForm({"vat_number": typed})
    form.is_valid()
    assert form.cleaned_data["vat_number"] == kept


def test_what_is_no_vat_number_is_not_printed_on_every_paper(db):
    form = ParticularsForm({"vat_number": "nonsense 12"})
    assert form.errors["vat_number"] == ["VAT number must be 9 digits, or 12 with a branch, after GB."]


def test_a_logo_is_built_anew_with_nothing_beside_its_pixels():
    taken = Image.new("RGB", (2000, 500), "#1d5fa6")
    exif = Image.Exif()
    exif[0x010E] = "the owner's kitchen"
    written = io.BytesIO()
    taken.save(written, "JPEG", exif=exif, comment=b"the owner's kitchen")
    logo = read_as_logo(written.getvalue())
    assert b"kitchen" in written.getvalue()
    assert b"kitchen" not in logo.png
    kept = Image.open(io.BytesIO(logo.png))
    assert (kept.format, kept.size) == ("PNG", (logo.width, logo.height))
    assert (logo.width, logo.height) == (900, 225)
    assert not kept.info.get("exif")


@pytest.mark.parametrize("size", [(3000, 30), (30, 3000), (1, 1), (900, 360)])
def test_a_logo_of_any_shape_fits_the_head_of_a_paper(size):
    written = io.BytesIO()
    Image.new("RGBA", size, (0, 0, 0, 0)).save(written, "PNG")
    logo = read_as_logo(written.getvalue())
    assert logo.width <= KEPT_PX[0]
    assert logo.height <= KEPT_PX[1]
    width, height = printed_size_px(logo.width, logo.height)
    assert 0 < width <= 226
    assert 0 < height <= 90


@pytest.mark.parametrize(
    "content", [b"", b"no picture", b"<svg xmlns='http://www.w3.org/2000/svg'/>", b"GIF89a", b"%PDF-1.7"]
)
def test_a_file_that_is_no_picture_is_refused_as_a_logo(content):
    with pytest.raises(LogoRefused):
        read_as_logo(content)


def test_an_insurance_that_has_run_out_is_printed_on_nothing_and_its_end_is_told(firm):
    for days, what in ((-1, "Ran out"), (0, "Last day"), (29, "Soon"), (400, "Long")):
        Insurance.objects.create(what=what, insurer="An insurer", until=TODAY + timedelta(days=days))
    printed = firm_as_printed(firm, on=TODAY)["insurances"]
    assert [each["what"] for each in printed] == ["Last day", "Soon", "Long"]
    told = [each.words for each in reminders(firm, Insurance.objects.all(), today=TODAY)]
    assert "Ran out: the insurance ran out on 25 November 2026 and is printed on no quote." in told
    assert "Soon: the insurance runs out on 25 December 2026." in told
    assert not any(words.startswith("Long") for words in told)


PAGES = ("firm", "firm_dress", "firm_payment", "firm_working")


@pytest.mark.parametrize("page", PAGES)
def test_only_the_owner_changes_the_firm(page, owner, office, firm, logged_in):
    assert logged_in(office).get(reverse(page)).status_code == 403
    assert logged_in(owner).get(reverse(page)).status_code == 200


def dress_data(**changes):
    return {"accent_colour": "#8a2be2"} | changes


def test_a_preview_shows_what_was_typed_and_saves_nothing(owner, firm, logged_in):
    client, file = logged_in(owner), SimpleUploadedFile("logo.png", drawn_logo())
    address = reverse("firm_preview", args=["dress"])
    before = model_to_dict(Firm.ours())
    part = client.post(address, dress_data(logo=file), headers={"HX-Request": "true"}).content.decode()
    assert reverse("firm_colour", args=["8a2be2"]) in part
    assert 'src="data:image/png;base64,' in part
    assert "<html" not in part
    whole = client.post(address, dress_data()).content.decode()
    assert 'value="#8a2be2"' in whole
    assert "So it would look" in whole
    assert model_to_dict(Firm.ours()) == before


def test_a_preview_of_insurances_shows_the_rows_as_typed(owner, firm, logged_in):
    held = Insurance.objects.create(what="Old", insurer="An insurer", until=date(2040, 1, 1))
    until = (timezone.localdate() + timedelta(days=200)).isoformat()
    data = {
        "quote_valid_days": "30", "deposit_percent": "25", "terms": "x",
        "insurance-TOTAL_FORMS": "2", "insurance-INITIAL_FORMS": "1",
        "insurance-0-id": held.pk, "insurance-0-what": "Old", "insurance-0-insurer": "An insurer",
        "insurance-0-until": "2040-01-01", "insurance-0-DELETE": "on",
        "insurance-1-what": "Newly typed", "insurance-1-insurer": "Another", "insurance-1-until": until,
    }  # fmt: skip
    client = logged_in(owner)
    address = reverse("firm_preview", args=["payment"])
    part = client.post(address, data, headers={"HX-Request": "true"}).content.decode()
    assert "Newly typed, Another" in part
    assert "Old, An insurer" not in part
    assert [each.what for each in Insurance.objects.all()] == ["Old"]
    assert client.post(reverse("firm_payment"), data).status_code == 302
    assert [each.what for each in Insurance.objects.all()] == ["Newly typed"]


def test_the_paper_of_a_preview_is_a_paper_of_one_sheet(owner, firm, logged_in):
    answer = logged_in(owner).post(reverse("firm_on_paper", args=["dress"]), dress_data())
    assert answer["Content-Type"] == "application/pdf"
    assert answer.content.startswith(b"%PDF")


def test_a_saved_logo_is_shown_to_whoever_knows_its_digest_and_can_be_taken_away(
    owner, firm, logged_in, client
):
    office = logged_in(owner)
    file = SimpleUploadedFile("logo.png", drawn_logo())
    assert office.post(reverse("firm_dress"), dress_data(logo=file)).status_code == 302
    firm.refresh_from_db()
    answer = client.get(reverse("firm_logo", args=[firm.logo_sha256]))
    assert answer.content == read_logo(firm.logo_sha256)
    assert "immutable" in answer["Cache-Control"]
    for unknown in ("0" * 64, "x", "..%2f..%2fsecret_key"):
        assert client.get(f"/firm/logo/{unknown}.png").status_code == 404
    office.post(reverse("firm_dress"), dress_data(no_logo="on"))
    firm.refresh_from_db()
    assert (firm.logo_sha256, firm.logo_width, firm.logo_height) == ("", 0, 0)


def test_a_colour_comes_as_a_stylesheet_of_digits_alone(client):
    dark, pale = client.get("/firm/colour/1d5fa6.css"), client.get("/firm/colour/949494.css")
    assert dark.content.decode() == ".dressed.dressed { --accent: #1d5fa6; --accent-text: #1d5fa6; }\n"
    assert pale.content.decode() == ".dressed.dressed { --accent: #949494; }\n"
    for bad in ("1d5fa", "}body{", "1d5fa6;", "ABCDEF"):
        assert client.get(f"/firm/colour/{bad}.css").status_code == 404


def test_what_cannot_be_taken_is_said_and_comes_back_as_typed(owner, firm, logged_in):
    answer = logged_in(owner).post(reverse("firm_dress"), dress_data(accent_colour="#ffee00"))
    assert answer.status_code == 422
    page = answer.content.decode()
    assert "Colour of headings and lines is too pale to be seen on white paper" in page
    assert 'value="#ffee00"' in page
