"""Statics, design strengths and joists by Eurocode 5 against published cases."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from estimating.checks.structure.buckling import (
    LoadedEdge,
    LoadShape,
    critical_stress_n_mm2,
    effective_length_mm,
    rolling_factor,
)
from estimating.checks.structure.design_strength import (
    bending_strength_n_mm2,
    shear_strength_n_mm2,
    timber_of_grade,
)
from estimating.checks.structure.joist import Joist, JoistLoads
from estimating.checks.structure.joist_use import JoistUse, joist_use
from estimating.checks.structure.section import Section
from estimating.checks.structure.single_span import (
    even_load_n_mm,
    midspan_deflection_mm,
    midspan_moment_n_mm,
    moment_under_point_n_mm,
    reaction_n,
    stiffness_of,
)
from estimating.checks.structure.weights import dead_load_kn_m2, kilograms_on, table_band_kn_m2
from estimating.published.eurocode_5 import GAMMA_G, GAMMA_Q, Duration
from estimating.published.loads import GRAVITY_M_S2
from tests.published.structure.cases import Case, cases_in

Given = dict[str, Any]


def _statics(given: Given, quantity: str) -> float:
    span = given["span_mm"]
    if quantity == "M_under_load":
        return moment_under_point_n_mm(span, given["P_N"], given["a_mm"]) / 1e6
    even = even_load_n_mm(given["g_kN_m2"] + given["q_kN_m2"], given["spacing_mm"])
    if quantity == "M_char_midspan":
        return midspan_moment_n_mm(span, even, given["P_N_midspan"]) / 1e6
    assert quantity == "reaction_with_P_over_support"
    return reaction_n(span, even, given["P_N_midspan"]) / 1000


def _section(given: Given, quantity: str) -> float:
    section = Section(given["b_mm"], given["h_mm"])
    return {"I_mm4": section.second_moment_mm4, "W_mm3": section.section_modulus_mm3}[quantity]


def _design_strength(given: Given, quantity: str) -> float:
    duration = Duration(given["duration"])
    ksys, service_class = given["ksys"], given["service_class"]
    if quantity == "f_m_d":
        return bending_strength_n_mm2(
            given["cls"], duration, depth_mm=given["h_mm"], ksys=ksys, service_class=service_class
        )
    assert quantity == "f_v_d"
    return shear_strength_n_mm2(given["cls"], duration, ksys=ksys, service_class=service_class)


def _joist_use(given: Given) -> JoistUse:
    joist = Joist(
        section=Section(given["b_mm"], given["h_mm"]),
        grade=given["cls"],
        spans_mm=(given["eff_span_mm"],),
        bearing_mm=given["bearing_mm"],
        service_class=given["service_class"],
    )
    loads = JoistLoads(
        permanent_n_mm=even_load_n_mm(given["g_kN_m2_excl_selfweight"], given["spacing_mm"]),
        storage_n_mm=even_load_n_mm(given["q_storage_kN_m2"], given["spacing_mm"]),
        person_n=given["P_N"],
    )
    return joist_use(joist, loads)


_OF_A_JOIST: dict[str, Callable[[JoistUse], float | bool]] = {
    "M_util": lambda use: use.bending.share,
    "V_util": lambda use: use.shear.share,
    "B_util": lambda use: use.bearing.share,
    "w_inst": lambda use: use.instantaneous.done,
    "w_fin_storage_plus_person": lambda use: use.final.done,
    "passes_all(M,V,B<=1 and w_fin_storage_plus_person<=L/250)": lambda use: use.passes,
}


def _kcrit(given: Given, quantity: str) -> float:
    timber = timber_of_grade(given["cls"])
    length = effective_length_mm(
        given["span_mm"], given["h_mm"], LoadShape(given["load"]), LoadedEdge(given["loaded_edge"])
    )
    critical = critical_stress_n_mm2(Section(given["b_mm"], given["h_mm"]), timber.modulus_fifth, length)
    return {"sigma_m_crit": critical, "kcrit": rolling_factor(timber.bending, critical)}[quantity]


def _published(given: Given, quantity: str) -> float:
    section = Section(given["b_mm"], given["h_mm"])
    if quantity == "sigma_m_crit":
        return critical_stress_n_mm2(section, given["E005"], given["lef_mm"])
    if quantity == "sigma_m_d":
        return given["M_kNm"] * 1e6 / section.section_modulus_mm3
    if "q_d_kN_m" in given:
        return midspan_moment_n_mm(given["span_mm"], given["q_d_kN_m"]) / 1e6
    if "standard" in given:
        own = given["rho_selfweight"] * GRAVITY_M_S2 * section.area_mm2 * 1e-9
        even = even_load_n_mm(given["dead_kN_m2"] + given["imposed_kN_m2"], given["spacing_mm"]) + own
        moment = midspan_moment_n_mm(given["span_mm"], even)
        return moment / 1e6 if quantity == "M" else moment / section.section_modulus_mm3
    return _published_joist(given, quantity, section)


def _published_joist(given: Given, quantity: str, section: Section) -> float:
    timber = timber_of_grade(given["cls"])
    dead = even_load_n_mm(given["g_kN_m2"], given["spacing_mm"])
    imposed = even_load_n_mm(given["q_kN_m2"], given["spacing_mm"])
    if quantity.startswith("w_inst"):
        stiffness = stiffness_of(section, timber.modulus_mean, timber.shear_modulus)
        even = imposed if quantity == "w_inst_Q_only" else dead + imposed
        return midspan_deflection_mm(given["span_mm"], even, stiffness)
    if given.get("self_weight") == "included":
        dead += timber.density_mean * GRAVITY_M_S2 * section.area_mm2 * 1e-9
    even = GAMMA_G * dead + GAMMA_Q * imposed
    if quantity.endswith("0.5*1.5S)"):
        even += 0.5 * GAMMA_Q * even_load_n_mm(given["snow_kN_m2"], given["spacing_mm"])
    if quantity.startswith("V_Ed"):
        return reaction_n(given["span_mm"], even) / 1000
    moment = midspan_moment_n_mm(given["span_mm"], even)
    if quantity == "bending_utilisation":
        strength = bending_strength_n_mm2(
            given["cls"],
            Duration(given["duration"]),
            depth_mm=given["h_mm"],
            ksys=given["ksys"],
            service_class=given["service_class"],
        )
        return moment / section.section_modulus_mm3 / strength
    return moment / 1e6


def _dead_load(given: Given, quantity: str) -> float:
    layers = [(given["insulation_mm"], given["ins_rho"]), (given["deck_t_mm"], given["deck_rho"])]
    load = dead_load_kn_m2(given["plasterboard_skim"], layers)
    return {"g_kN_m2": load, "ADA_band_upper": table_band_kn_m2(load)}[quantity]


ANSWERS: dict[str, Callable[[Given, str], float | bool]] = {
    "statics": _statics,
    "section": _section,
    "design_strength": _design_strength,
    "ec5_joist": lambda given, quantity: _OF_A_JOIST[quantity](_joist_use(given)),
    "kcrit": _kcrit,
    "published_example": _published,
    "storage_mass": lambda given, _: kilograms_on(given["area_m2"], given["q_kN_m2"]),
    "dead_load": _dead_load,
}


@pytest.mark.parametrize(
    "case",
    [
        *cases_in("statics.csv"),
        *cases_in("design_strengths.csv"),
        *cases_in("eurocode_5_joists.csv"),
        *cases_in("published_joists.csv"),
        *cases_in("weights.csv"),
    ],
    ids=lambda case: f"{case.topic} {case.name}",
)
def test_published_case(case: Case) -> None:
    case.check(ANSWERS[case.topic](case.inputs, case.quantity))
