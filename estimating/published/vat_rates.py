"""VAT rates by nation and date: dated rows, because a Budget may change any of them.

Documents: Value Added Tax Act 1994, section 2, Schedule 8 Group 23 and Schedule 7A Group 2; HMRC
Notice 708/6 section 1.1; HMRC internal manual VENSAV1100 and VENSAV3160.
Addresses: legislation.gov.uk/ukpga/1994/23, gov.uk/guidance/
vat-on-energy-saving-materials-and-heating-equipment-notice-7086.
Read on 25 November 2026, except the first day of the 20 % standard rate, which is from memory.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from estimating.nations import GREAT_BRITAIN, UNITED_KINGDOM, Nation


@dataclass(frozen=True, slots=True, kw_only=True)
class DatedRate:
    """One rate over the days it holds, both ends included; no last day means until further notice."""

    nations: frozenset[Nation]
    valid_from: date
    valid_to: date | None
    percent: Decimal
    source: str
    condition: str = ""

    def holds(self, nation: Nation, on: date) -> bool:
        """Say whether this row gives the rate in a nation on a day.

        Args:
            nation: Where the property stands. Choice. [-]
            on: The tax point. Date. [-]

        Returns:
            True when it does. Flag. [-]

        Source:
            Own definition.
        """
        return (
            nation in self.nations
            and self.valid_from <= on
            and (self.valid_to is None or on <= self.valid_to)
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class VatRates:
    """The tables a loft job needs, and the day they were checked; a firm may put its own in their place."""

    checked_on: date
    standard: tuple[DatedRate, ...]
    energy_saving_fitted_in_homes: tuple[DatedRate, ...]


_SIXTY_PER_CENT_TEST = (
    "only where the social or the 60 % test is met, else the materials take the standard rate"
)
_RELIEF = "VATA 1994 Schedule 8 Group 23; VENSAV1100; Notice 708/6 s.1.1"
_REDUCED = "VATA 1994 Schedule 7A Group 2; Notice 708/6 s.1.1"
_FORMER = "VATA 1994 Schedule 7A Group 2 as it stood; VENSAV3160"

VAT_RATES = VatRates(
    checked_on=date(2026, 11, 25),
    standard=(
        DatedRate(
            nations=UNITED_KINGDOM,
            valid_from=date(2011, 1, 4),
            valid_to=None,
            percent=Decimal(20),
            source="VATA 1994 s.2(1); first day from memory",
        ),
    ),
    energy_saving_fitted_in_homes=(
        DatedRate(
            nations=GREAT_BRITAIN,
            valid_from=date(2019, 10, 1),
            valid_to=date(2022, 3, 31),
            percent=Decimal(5),
            source=_FORMER,
            condition=_SIXTY_PER_CENT_TEST,
        ),
        DatedRate(
            nations=GREAT_BRITAIN,
            valid_from=date(2022, 4, 1),
            valid_to=date(2027, 3, 31),
            percent=Decimal(0),
            source=_RELIEF,
        ),
        DatedRate(
            nations=GREAT_BRITAIN,
            valid_from=date(2027, 4, 1),
            valid_to=None,
            percent=Decimal(5),
            source=_REDUCED,
        ),
        DatedRate(
            nations=frozenset({Nation.NORTHERN_IRELAND}),
            valid_from=date(2019, 10, 1),
            valid_to=date(2023, 4, 30),
            percent=Decimal(5),
            source=_FORMER,
            condition=_SIXTY_PER_CENT_TEST,
        ),
        DatedRate(
            nations=frozenset({Nation.NORTHERN_IRELAND}),
            valid_from=date(2023, 5, 1),
            valid_to=date(2027, 3, 31),
            percent=Decimal(0),
            source=_RELIEF,
        ),
        DatedRate(
            nations=frozenset({Nation.NORTHERN_IRELAND}),
            valid_from=date(2027, 4, 1),
            valid_to=None,
            percent=Decimal(5),
            source=_REDUCED,
        ),
    ),
)
