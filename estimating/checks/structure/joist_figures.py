"""The check of ceiling joists as figures: every number with its formula, inputs and source."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from math import floor

from estimating.checks.structure.dead_load import dead_load
from estimating.checks.structure.joist import JoistLoads
from estimating.checks.structure.joist_forces import bearing_figures, bending_figures, shear_figures
from estimating.checks.structure.joist_in_loft import joist_in_loft
from estimating.checks.structure.joist_record import JoistCheck
from estimating.checks.structure.joist_sheet import BY_CODE, JoistSheet
from estimating.checks.structure.joist_use import Use, joist_use, storage_left_n_mm
from estimating.checks.structure.rounded_figures import Sized, sized, worked_number
from estimating.checks.structure.weights import kilograms_on
from estimating.design.design import Design
from estimating.price_book import Board, PriceBook
from estimating.published import eurocode_5, loads
from estimating.published.eurocode_5 import Material, deformation_factor
from estimating.survey import RoofKind, Survey
from estimating.working import ARITHMETIC, Figure, Working, published, worked_out

STORAGE_STEP_KG_M2 = 5


def joist_checks(
    survey: Survey, price_book: PriceBook, design: Design, board: Board
) -> tuple[JoistCheck, ...]:
    """Check the ceiling joists under every zone, and keep for each joist field the zone where they do worst.

    Trussed rafters are left out: a bottom tie is part of a frame, and nothing is computed as if it were a
    joist. Deck and storage are taken to lie along the whole joist, even where the zone is shorter.

    Args:
        survey: The loft as measured. Record. [mm]
        price_book: What boards, supports and rolls weigh. Record. [kg]
        design: The deck and the insulation. Record. [mm]
        board: The board it is laid with. Record. [kg]

    Returns:
        A record for each joist field that carries deck, none for trussed rafters. Tuple. [-]

    Source:
        EN 1995-1-1 with UK National Annex; as each figure names it.
    """
    if survey.roof.kind is RoofKind.TRUSSED:
        return ()
    worst: dict[str, JoistCheck] = {}
    for zone in design.zones:
        found = joist_in_loft(survey, zone)
        if found is None:
            continue
        check = _check(JoistSheet(found, dead_load(survey, price_book, design, zone, board)))
        before = worst.get(zone.joist_field)
        if before is None or before.most_used.value < check.most_used.value:
            worst[zone.joist_field] = check
    return tuple(worst.values())


def _check(sheet: JoistSheet) -> JoistCheck:
    permanent = float(sheet.permanent.value)
    use = joist_use(
        sheet.joist, JoistLoads(permanent_n_mm=permanent, storage_n_mm=float(sheet.storage.value))
    )
    bending = bending_figures(sheet, use.bending)
    shear = shear_figures(sheet, use.shear)
    bearing = bearing_figures(sheet, use.bearing)
    kdef = deformation_factor(Material.TIMBER, sheet.joist.service_class)
    final = _deflection(sheet, "final deflection", use.final, kdef)
    limit = _limit(use.final)
    left = storage_left_n_mm(sheet.joist, permanent)
    room = None if left is None else _storage_left(sheet, left, (bending[1], shear[1], bearing[1], limit))
    return JoistCheck(
        joist_field=sheet.found.field.name,
        zone=sheet.found.zone,
        bending=bending[-1],
        shear=shear[-1],
        bearing=bearing[-1],
        deflection=sheet.share("deflection", use.final, final, limit),
        instantaneous_mm=_deflection(sheet, "deflection at once", use.instantaneous, 0.0),
        final_mm=final,
        limit_mm=limit,
        governing=use.governing,
        storage_kg_m2=None if room is None else _in_kilograms(room),
        binders=sheet.found.field.binders,
        taken=sheet.found.taken,
        leading_up=(
            *sheet.dead.parts, sheet.span, sheet.permanent, sheet.own_weight, sheet.storage, sheet.kcrit,
            *bending[:-1], *shear[:-1], *bearing[:-1], *((room,) if room else ()),
        ),
    )  # fmt: skip


def _deflection(sheet: JoistSheet, name: str, use: Use, kdef: float) -> Sized:
    lasting, stored = "permanent load along the joist + joist's own weight", "storage along the joist"
    even = f"{lasting} + {stored}"
    if kdef:
        even = f"(1 + kdef) × ({lasting}) + (1 + {eurocode_5.PSI_2_STORAGE} × kdef) × {stored}"
    formula = (
        f"5 × w × span⁴ / (384 × E × I) + person × span³ / (48 × E × I) + 1.2 × (w × span² / 8 + person × "
        f"span / 4) / (G × A), where w = {even}, I = width × depth³ / 12 and A = width × depth"
    )
    if sheet.runs_through:
        formula = (
            f"the greatest along the joist, of bending and of shear by the three-moment equation, of {even} "
            "on the spans where it does most, and a person where it does most"
        )
    grade = sheet.joist.grade
    inputs = (
        *sheet.acting,
        *((published("kdef", kdef),) if kdef else ()),
        published(f"E, mean of {grade}", sheet.timber.modulus_mean, "N/mm²"),
        published(f"G, mean of {grade}", sheet.timber.shear_modulus, "N/mm²"),
        *sheet.section,
    )
    return sized(name, use.done, "mm", Working(formula, inputs, f"{BY_CODE}: 2.2.3, 7.2"), places=2)


def _limit(use: Use) -> Sized:
    divisor = eurocode_5.FINAL_DEFLECTION_DIVISOR_PLASTERED
    inputs = (
        worked_number("span that bends most", use.span_mm, "mm"),
        published("divisor above a plastered ceiling", divisor),
    )
    formula = f"{inputs[0].name} / {inputs[1].name}"
    source = "UK National Annex to EN 1995-1-1, Table NA.5, read at second hand"
    return sized("limit of final deflection", use.allowed, "mm", Working(formula, inputs, source), places=2)


def _storage_left(sheet: JoistSheet, left_n_mm: float, allowed: Iterable[Sized]) -> Sized:
    formula = (
        "the least storage with which any check uses all that it allows, each in the combination of loads "
        "that is worst for it; all grow in proportion to what is stored"
    )
    acting = (given for given in sheet.acting if given.name != sheet.storage.name)
    inputs = (*acting, sheet.deck_strip, *(worked_out(each) for each in allowed))
    load = left_n_mm / float(sheet.found.deck_width_mm) * 1000
    name = "storage that uses all that is allowed"
    return sized(name, load, "kN/m²", Working(formula, inputs, BY_CODE))


def _in_kilograms(room: Sized) -> Figure[int]:
    """Down to 5 kg; 25 kg only where 0.25 kN/m², which is a little more, is carried as well."""
    whole = STORAGE_STEP_KG_M2 * floor(kilograms_on(1.0, float(room.value)) / STORAGE_STEP_KG_M2)
    if room.value < Decimal(str(loads.LIGHT_STORAGE_KN_M2)):
        whole = min(whole, loads.LIGHT_STORAGE_KG_M2 - STORAGE_STEP_KG_M2)
    inputs = (worked_out(room), published("gravity", loads.GRAVITY_M_S2, "m/s²"))
    formula = f"1000 × {room.name} / gravity, down to {STORAGE_STEP_KG_M2} kg"
    return Figure("storage that remains", whole, "kg/m²", Working(formula, inputs, ARITHMETIC))
