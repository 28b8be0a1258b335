"""The invented firm's dress: a drawn logo, a colour, an account and an insurance that nobody has."""

from __future__ import annotations

import io
from datetime import date

from PIL import Image, ImageDraw

from jobs.firm.insurance_models import Insurance
from jobs.firm.kinds import FirmKind, RegisteredIn
from jobs.firm.logo import keep_logo, read_as_logo
from jobs.firm.models import Firm

COLOUR = "#1d5f7a"


def dress_firm(firm: Firm, *, today: date) -> None:
    """Give a firm everything that its papers can show, and save it."""
    logo = read_as_logo(drawn_logo())
    firm.kind, firm.registered_in = FirmKind.COMPANY, RegisteredIn.ENGLAND_AND_WALES
    firm.registered_name = f"{firm.name} Limited"
    firm.logo_sha256 = keep_logo(logo)
    firm.logo_width, firm.logo_height = logo.width, logo.height
    firm.accent_colour = COLOUR
    firm.bank_account_name, firm.bank_sort_code = firm.registered_name, "00-00-00"
    firm.bank_account_number = "00000000"
    firm.save()
    Insurance.objects.create(
        what="Public liability, £2,000,000",
        insurer="An invented insurer",
        policy_number="PL 000000",
        until=date(today.year + 1, 3, 31),
    )


def drawn_logo(width: int = 900, height: int = 225) -> bytes:
    """Return the file of an invented logo: a gable with a deck in it."""
    picture = Image.new("RGBA", (width, height), (0, 0, 0, 0))
    pen = ImageDraw.Draw(picture)
    line, right = max(2, height // 12), min(width, 2 * height)
    feet, top = height - line, line
    pen.line([(line, feet), (right // 2, top), (right - line, feet)], fill=COLOUR, width=line, joint="curve")
    pen.rectangle((right // 4, height * 3 // 5, right * 3 // 4, height * 3 // 4), fill=COLOUR)
    written = io.BytesIO()
    picture.crop((0, 0, right, height)).save(written, "PNG")
    return written.getvalue()
