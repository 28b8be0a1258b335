"""Which target and which fuel price hold, and how the firm sets its prices."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from decimal import Decimal

from django.db import transaction

from estimating.published.u_targets import U_TARGETS
from jobs.firm.heat_models import FuelPrice, NationTarget


def target_of(nation: str, *, on: date) -> NationTarget:
    """Return the target that holds in a nation on a day; before the first one, the first one.

    A nation for which the firm has set none is aimed at the published one.
    """
    targets = NationTarget.objects.filter(nation=nation)
    return targets.filter(from_day__lte=on).first() or targets.last() or _published(nation)


def _published(nation: str) -> NationTarget:
    shipped = next(target for target in U_TARGETS if target.nation == nation)
    return NationTarget(
        nation=nation,
        u_w_m2k=shipped.u_w_m2k,
        from_day=shipped.from_day,
        source=shipped.source,
        confirmed=shipped.confirmed,
    )


def pence_for_kwh(fuel: str) -> Decimal | None:
    """Return what a fuel costs, or None where the firm has set no price."""
    return FuelPrice.objects.filter(fuel=fuel).values_list("pence_kwh", flat=True).first()


def fuel_prices() -> dict[str, Decimal]:
    """Return every price that is set, by fuel."""
    return dict(FuelPrice.objects.values_list("fuel", "pence_kwh"))


@transaction.atomic
def set_fuel_prices(pence_kwh: Mapping[str, Decimal | None]) -> None:
    """Set what fuels cost; None takes a price away, so that savings are shown without pounds."""
    for fuel, pence in pence_kwh.items():
        if pence is None:
            FuelPrice.objects.filter(fuel=fuel).delete()
        elif pence != pence_for_kwh(fuel):
            FuelPrice.objects.update_or_create(fuel=fuel, defaults={"pence_kwh": pence})
