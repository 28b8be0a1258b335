"""Factors of Eurocode 5 and strength classes against the published tables, cell by cell."""

from __future__ import annotations

import pytest

from estimating.checks.structure.design_strength import depth_factor, timber_of_grade
from estimating.published import eurocode_5
from estimating.published.eurocode_5 import Duration, Material, deformation_factor, modification_factor
from estimating.published.timber_classes import STRENGTH_CLASSES
from tests.published.structure.cases import rows_in

FACTORS = rows_in("eurocode_5_factors.csv")
CLASSES = [
    row
    for row in rows_in("timber_classes.csv")
    if row["standard"] in ("EN 338:2016", "PD 6693-1 / BS 5268-2")
]


@pytest.mark.parametrize(
    "row",
    [row for row in FACTORS if row["factor"] == "kmod"],
    ids=lambda row: "-".join(list(row.values())[1:4]),
)
def test_kmod(row: dict[str, str]) -> None:
    """EN 1995-1-1 Table 3.1."""
    found = modification_factor(
        Material(row["material_or_condition"]), int(row["service_class"]), Duration(row["duration"])
    )
    assert found == float(row["value"]), row["clause"]


@pytest.mark.parametrize("row", [row for row in FACTORS if row["factor"] == "kdef"])
def test_kdef(row: dict[str, str]) -> None:
    """EN 1995-1-1 Table 3.2."""
    found = deformation_factor(Material(row["material_or_condition"]), int(row["service_class"]))
    assert found == float(row["value"]), row["clause"]


def test_single_factors_and_limits() -> None:
    """EN 1995-1-1 Table 2.3, 6.1.5, 6.1.7, 6.6; UK NA Table NA.5."""
    values = {(row["factor"], row["material_or_condition"]): row["value"] for row in FACTORS}
    by_factor = {factor: value for (factor, _), value in values.items()}
    assert eurocode_5.GAMMA_M[Material.TIMBER] == float(values["gamma_M", "solid timber"])
    assert eurocode_5.GAMMA_M[Material.P5] == float(values["gamma_M", "particleboard"])
    assert float(by_factor["ksys"]) == eurocode_5.KSYS
    assert float(by_factor["kcr"]) == eurocode_5.KCR
    bearing = [float(value) for (factor, _), value in values.items() if factor == "kc90"]
    assert bearing == [eurocode_5.KC90_DISCRETE, eurocode_5.KC90_CONTINUOUS]
    limits = [value for (factor, _), value in values.items() if factor == "limit_wfin"]
    assert limits == [
        f"span/{eurocode_5.FINAL_DEFLECTION_DIVISOR_PLASTERED}",
        f"span/{eurocode_5.FINAL_DEFLECTION_DIVISOR_OTHER}",
    ]
    assert by_factor["kh"] == "min((150/h)^0.2, 1.3)"
    assert depth_factor(100) == pytest.approx(1.5**0.2)
    assert by_factor["service_class"] == str(eurocode_5.SERVICE_CLASS_OF_COLD_ROOF)


@pytest.mark.parametrize("row", CLASSES, ids=lambda row: row["class"])
def test_strength_class(row: dict[str, str]) -> None:
    """EN 338:2016 Table 1; TR26 from memory."""
    timber = timber_of_grade(row["class"])
    assert (timber.bending, timber.compression_across, timber.shear) == (
        float(row["fm_k"]),
        float(row["fc90_k"]),
        float(row["fv_k"]),
    )
    moduli = (timber.modulus_mean, timber.modulus_fifth, timber.shear_modulus)
    assert moduli == pytest.approx(
        [1000 * float(row[name]) for name in ("E0mean_kN_mm2", "E005_kN_mm2", "Gmean_kN_mm2")]
    )
    assert (timber.density_characteristic, timber.density_mean) == (
        float(row["rho_k"]),
        float(row["rho_mean"]),
    )


def test_every_class_is_tabled() -> None:
    assert [row["class"] for row in CLASSES] == list(STRENGTH_CLASSES)
