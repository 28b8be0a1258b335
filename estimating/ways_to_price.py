"""The names of the ways to price: written in the price book and in the choices, worked out in `price/`."""

from __future__ import annotations

from enum import StrEnum


class MarginKind(StrEnum):
    """What the firm's percentage is a share of."""

    MARGIN = "margin"
    MARK_UP = "mark-up"


class VatRounding(StrEnum):
    """How the VAT of a whole document is rounded."""

    RATE_SUBTOTAL_HALF_UP = "rate_subtotal_half_up"
    LINE_TO_THE_PENNY = "line_to_the_penny"
    LINE_DOWN_TO_TENTH_PENNY = "line_down_to_tenth_penny"
    INVOICE_ROUNDED_DOWN = "invoice_rounded_down"

    @property
    def in_words(self) -> str:
        """The method as a document prints it."""
        return _IN_WORDS[self]

    @property
    def business_customers_only(self) -> bool:
        """Rounding down is not for prices offered with VAT in them, as a householder's are."""
        return self in (VatRounding.INVOICE_ROUNDED_DOWN, VatRounding.LINE_DOWN_TO_TENTH_PENNY)


_IN_WORDS = {
    VatRounding.RATE_SUBTOTAL_HALF_UP: "VAT on each rate's subtotal to the nearest penny, half a penny up",
    VatRounding.LINE_TO_THE_PENNY: "VAT on each line to the nearest penny, half a penny up",
    VatRounding.LINE_DOWN_TO_TENTH_PENNY: "VAT on each line down to 0.1p, the total down to the penny",
    VatRounding.INVOICE_ROUNDED_DOWN: "the total VAT down to the penny",
}


class VatClass(StrEnum):
    """What a product or service is to VAT."""

    STANDARD = "standard"
    ENERGY_SAVING = "energy-saving material"


class SupplyMode(StrEnum):
    """How a line is supplied: the relief is for fitting in homes, not for goods."""

    SUPPLY_AND_INSTALL_RESIDENTIAL = "supply_and_install_residential"
    INSTALL_ONLY_CUSTOMER_MATERIALS_RESIDENTIAL = "install_only_customer_materials_residential"
    SUPPLY_ONLY = "supply_only"
    NOT_RESIDENTIAL = "not_residential"
