"""What an energy assessor assumes, against the printed rows."""

from __future__ import annotations

from decimal import Decimal

import pytest

from estimating.published.rdsap_age_bands import assessed_age_band
from estimating.published.rdsap_roof_u_values import RdsapEdition, assessed_roof_u, assessed_roof_u_at_row
from estimating.refusals import Refusal
from tests.published.thermal.cases import Case, cases_in, rows_in

EDITIONS = {"RdSAP10 T16": RdsapEdition.RDSAP_10, "RdSAP2012 S9": RdsapEdition.RDSAP_2012}
CASES = cases_in("rdsap.csv")


@pytest.mark.parametrize(
    "case", [case for case in CASES if case.kind == "rdsap_lookup"], ids=lambda case: case.name
)
def test_published_row(case: Case) -> None:
    thickness_mm, edition = case.inputs["thickness_mm"], EDITIONS[case.inputs["edition"]]
    case.check(float(assessed_roof_u_at_row(thickness_mm, edition)))
    case.check(float(assessed_roof_u(thickness_mm, edition)))


@pytest.mark.parametrize(
    "case", [case for case in CASES if case.kind == "rdsap_ageband"], ids=lambda case: case.name
)
def test_published_age_band(case: Case) -> None:
    band = assessed_age_band(case.inputs["age_band"])
    assert band.u_2012_w_m2k is not None
    case.check(float(band.u_2012_w_m2k), float(band.u_10_w_m2k))


@pytest.mark.parametrize("edition", RdsapEdition)
def test_between_rows_the_next_thinner_one_is_taken(edition: RdsapEdition) -> None:
    assert assessed_roof_u(99, edition) == assessed_roof_u_at_row(75, edition)
    assert assessed_roof_u(299, edition) == assessed_roof_u_at_row(270, edition)


@pytest.mark.parametrize("edition", RdsapEdition)
def test_from_400_mm_on_the_last_row_is_taken(edition: RdsapEdition) -> None:
    assert assessed_roof_u(650, edition) == assessed_roof_u_at_row(400, edition)
    assert assessed_roof_u_at_row(650, edition) == assessed_roof_u_at_row(400, edition)


def test_rows_that_only_edition_10_has_are_refused_in_the_older_one() -> None:
    assert assessed_roof_u_at_row(125, RdsapEdition.RDSAP_10) < assessed_roof_u(125, RdsapEdition.RDSAP_2012)
    with pytest.raises(Refusal, match="must be a row of RdSAP 2012 Table S9"):
        assessed_roof_u_at_row(125, RdsapEdition.RDSAP_2012)


@pytest.mark.parametrize("edition", RdsapEdition)
def test_thicker_rows_assume_less_heat(edition: RdsapEdition) -> None:
    depths = range(0, 450)
    assumed = [assessed_roof_u(depth, edition) for depth in depths]
    assert assumed == sorted(assumed, reverse=True)


def test_depths_and_bands_that_cannot_be_are_refused() -> None:
    with pytest.raises(Refusal, match="thickness_mm: must not be less than 0 mm"):
        assessed_roof_u(-1)
    with pytest.raises(Refusal, match="age_band: must be one of A, B"):
        assessed_age_band("Z")


@pytest.mark.parametrize(
    "row", rows_in("rdsap_roof_table.csv"), ids=lambda row: f"{row['edition']}, {row['thickness_mm']} mm"
)
def test_every_row_read_of_either_edition(row: dict[str, str]) -> None:
    assumed = assessed_roof_u_at_row(int(row["thickness_mm"]), EDITIONS[row["edition"]])
    assert assumed == Decimal(row["u_w_m2k"]), row["source"]


@pytest.mark.parametrize("row", rows_in("rdsap_age_bands.csv"), ids=lambda row: row["age_band"])
def test_every_age_band_read(row: dict[str, str]) -> None:
    band = assessed_age_band(row["age_band"])
    assert band.u_10_w_m2k == Decimal(row["u_10_w_m2k"]), row["source"]
    if row["u_2012_w_m2k"]:
        assert band.u_2012_w_m2k == Decimal(row["u_2012_w_m2k"]), row["source"]
        assert band.thickness_2012_mm == int(row["thickness_2012_mm"]), row["source"]
