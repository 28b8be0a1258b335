"""What the work may save in a year: a range below the simple formula, because metered houses save less."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import ROUND_HALF_UP, Decimal

from estimating.checks.heat.plain import degree_days_k
from estimating.checks.verdicts import Verdict
from estimating.checks.warmth.heat_records import Saving, WholeCeiling
from estimating.choices import Choices, Part
from estimating.published import sap_climate, sap_fuels
from estimating.published.sap_climate import CLIMATE_REGIONS
from estimating.published.sap_fuels import FUELS
from estimating.survey import Severity, Survey
from estimating.working import (
    Figure,
    Given,
    Origin,
    Working,
    chosen,
    default,
    measured,
    published,
    worked_out,
)

BASE_C = 15.5
UK_AVERAGE = 0
TOP_UP_SHARES, BARE_LOFT_SHARES = (50, 100), (40, 70)
"""Per cent of the simple figure, from least to most: metered savings (NEED 2010 installations; Peñasco and
Anadón, Energy Economics, 2023) are lower than the formula's, and most so from a bare loft. Own definition."""
STEP = 10
SOURCE = (
    f"degree days from {sap_climate.SOURCE} at a base of 15.5 °C; fuels of {sap_fuels.SOURCE}; shares by "
    "metered results, an estimate"
)
LITTLE_MM = 25
"""Less insulation than this is as good as bare; own definition."""


def yearly_saving(survey: Survey, choices: Choices, ceiling: WholeCeiling) -> Saving:
    """Estimate what a year's heating is spared, from the least that is likely to the most.

    Args:
        survey: Climate region, heat source and what lay there before. Record. [-]
        choices: The price of the house's fuel. Record. [p/kWh]
        ceiling: U-values of the whole ceiling, before and after. Record. [W/m2K]

    Returns:
        The range; nothing where the ceiling does not change. Record. [kWh, kg, GBP]

    Source:
        (U before − U after) × area × degree days × 24 / 1000; SAP 10.2 Tables U1 and 12.
    """
    region = UK_AVERAGE if survey.climate_region is None else survey.climate_region
    climate = CLIMATE_REGIONS[region]
    days = Decimal(str(round(degree_days_k(climate.monthly_means_c, BASE_C), 1)))
    change = ceiling.before.value - ceiling.after.value
    heat = max(Decimal(0), change * ceiling.area_m2.value * days * 24 / 1000)
    where = default if survey.climate_region is None else chosen
    simple = Figure(
        "heat spared in a year by the simple formula",
        heat.quantize(Decimal(1), rounding=ROUND_HALF_UP),
        "kWh",
        Working(
            f"({ceiling.before.name} − {ceiling.after.name}) × area of the ceiling × degree days × 24 / "
            "1000, by climate region",
            (
                worked_out(ceiling.before),
                worked_out(ceiling.after),
                worked_out(ceiling.area_m2),
                published("degree days", days, "K·day"),
                where("climate region", climate.name),
            ),
            SOURCE,
        ),
    )
    bare = survey.insulation.depth_mm < LITTLE_MM
    shares = BARE_LOFT_SHARES if bare else TOP_UP_SHARES
    fuel = (_fuel(survey, simple, "least", shares[0]), _fuel(survey, simple, "most", shares[1]))
    return Saving(
        simple_heat_kwh=simple,
        fuel_kwh=fuel,
        carbon_kg=_carbon(survey, fuel),
        pounds=_pounds(survey, choices, fuel),
        fuel=survey.heat_source.fuel if survey.heat_source else "",
        climate=climate.name,
        bare_before=bare,
    )


def saving_verdicts(saving: Saving, choices: Choices) -> Iterator[Verdict]:
    """Tell the saving as a range and an estimate, or that there is none.

    Args:
        saving: The range. Record. [kWh, kg, GBP]
        choices: Whether the customer may leave the insulation. Record. [-]

    Returns:
        A verdict. Iterator. [-]

    Source:
        As yearly_saving.
    """
    least, most = saving.fuel_kwh
    if saving.is_nothing:
        words = "This work changes no insulation and saves no heating."
    else:
        of = f" of {saving.fuel}" if saving.fuel else " of heat"
        told = [f"{least.value} to {most.value} kWh{of}"]
        if saving.carbon_kg:
            told.append(f"{saving.carbon_kg[0].value} to {saving.carbon_kg[1].value} kg of CO₂e")
        if saving.pounds:
            told.append(f"£{saving.pounds[0].value} to £{saving.pounds[1].value}")
        taken = (
            "If the insulation is taken, a year" if Part.INSULATION in choices.optional_parts else "A year"
        )
        words = (
            f"{taken} may spare {_listed(told)}. An estimate for {_weather(saving)} and no promise: it "
            "depends on how the house is heated and lived in."
        )
    yield Verdict(subject="saving", severity=Severity.NOTE, words=words, source=SOURCE, figure=most)


def _weather(saving: Saving) -> str:
    average = CLIMATE_REGIONS[UK_AVERAGE].name
    if saving.climate == average:
        return "the average weather of the country"
    return f"the weather of the climate region {saving.climate}"


def _fuel(survey: Survey, simple: Figure[Decimal], end: str, share: int) -> Figure[int]:
    heating = survey.heat_source
    efficiency = heating.efficiency_percent if heating else Decimal(100)
    value = simple.value * share / efficiency
    inputs = (
        worked_out(simple),
        default("share likely to be met", share, "%"),
        (measured if heating else default)("efficiency", efficiency, "%"),
    )
    formula = f"{simple.name} × share likely to be met / efficiency, to ten"
    return Figure(f"fuel spared, {end}", _to_step(value), "kWh", Working(formula, inputs, SOURCE))


def _carbon(survey: Survey, fuel: tuple[Figure[int], ...]) -> tuple[Figure[int], Figure[int]] | None:
    if survey.heat_source is None:
        return None
    factor = FUELS[survey.heat_source.fuel].co2_kg_kwh
    given = published(f"CO₂e of {survey.heat_source.fuel}", factor, "kg/kWh")
    least, most = (_times(each, "CO₂e spared", given, factor, "kg") for each in fuel)
    return least, most


def _pounds(
    survey: Survey, choices: Choices, fuel: tuple[Figure[int], ...]
) -> tuple[Figure[int], Figure[int]] | None:
    price = choices.energy_price_pence_kwh
    if survey.heat_source is None or price is None:
        return None
    given = Given("price of fuel in pounds", price / 100, "GBP/kWh", Origin.CHOSEN)
    least, most = (_times(each, "pounds spared", given, price / 100, "GBP") for each in fuel)
    return least, most


def _times(fuel: Figure[int], name: str, given: Given, factor: Decimal, unit: str) -> Figure[int]:
    value = int((fuel.value * factor).quantize(Decimal(1), rounding=ROUND_HALF_UP))
    working = Working(f"{fuel.name} × {given.name}", (worked_out(fuel), given), SOURCE)
    return Figure(f"{name}, {fuel.name.rpartition(' ')[2]}", value, unit, working)


def _to_step(value: Decimal) -> int:
    return int((value / STEP).quantize(Decimal(1), rounding=ROUND_HALF_UP)) * STEP


def _listed(told: list[str]) -> str:
    return told[0] if len(told) == 1 else f"{', '.join(told[:-1])} and {told[-1]}"
