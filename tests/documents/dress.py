"""A firm in its whole dress: logo, colour, bank account, insurances and all that the law wants said of it."""

from __future__ import annotations

import io
from datetime import date

from PIL import Image, ImageDraw

from jobs.firm.insurance_models import Insurance
from jobs.firm.kinds import FirmKind, RegisteredIn
from jobs.firm.logo import keep_logo, read_as_logo
from jobs.firm.models import Firm

COLOUR = "#1d5fa6"


def drawn_logo(width: int = 600, height: int = 200, *, kind: str = "PNG") -> bytes:
    """Return the file of an invented logo: a gable and a deck."""
    picture = Image.new("RGBA", (width, height), (0, 0, 0, 0))
    pen = ImageDraw.Draw(picture)
    pen.polygon([(0, height - 1), (width // 2, 0), (width - 1, height - 1)], outline=COLOUR, width=8)
    pen.rectangle((width // 5, height * 3 // 5, width * 4 // 5, height * 3 // 4), fill=COLOUR)
    written = io.BytesIO()
    (picture if kind == "PNG" else picture.convert("RGB")).save(written, kind)
    return written.getvalue()


def dress(firm: Firm, **changes: object) -> Firm:
    """Give a firm everything that its papers can show, and save it."""
    logo = read_as_logo(drawn_logo())
    worn = {
        "kind": FirmKind.COMPANY,
        "registered_name": "Quillfeather Carpentry Limited",
        "company_number": "00000000",
        "registered_in": RegisteredIn.ENGLAND_AND_WALES,
        "registered_office": "2 Sawpit Lane\nAmbleford\nAM4 2BL",
        "vat_number": "GB 999 9999 73",
        "logo_sha256": keep_logo(logo),
        "logo_width": logo.width,
        "logo_height": logo.height,
        "accent_colour": COLOUR,
        "bank_account_name": "Quillfeather Carpentry Limited",
        "bank_sort_code": "00-00-00",
        "bank_account_number": "00000000",
    }
    for name, value in (worn | changes).items():
        setattr(firm, name, value)
    firm.save()
    Insurance.objects.create(
        what="Public liability, £2,000,000",
        insurer="An invented insurer",
        policy_number="PL 123456",
        until=date(2030, 3, 31),
    )
    return firm
