"""Whether cables that insulation covers still carry what their fuse or breaker lets through.

Only tables are read here; what to do about a cable is for a registered electrician.
"""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from estimating.checks.verdicts import Verdict
from estimating.published.cable_ratings import (
    CLIPPED,
    FACTORS_BY_LENGTH_MM,
    METHODS,
    RATINGS_A,
    SOURCE,
)
from estimating.refusals import Requirements
from estimating.survey import Cable, Severity, Survey
from estimating.working import Figure, Working, measured, published

_ASK = "Refer to a registered electrician"


def cable_rating_a(size_mm2: Decimal, method: str = CLIPPED) -> Decimal:
    """Give what a flat twin-and-earth cable carries by the way it is installed.

    Args:
        size_mm2: Size of its conductors. Scalar. [mm2]
        method: The table's name of the way: 100 to 103, C or A. Choice. [-]

    Returns:
        The current. Scalar. [A]

    Raises:
        Refusal: The table has no such size or method.

    Source:
        BS 7671:2018 Table 4D5, read in reprints.
    """
    needs = Requirements()
    sizes = ", ".join(str(size) for size in RATINGS_A)
    needs.require(size_mm2 in RATINGS_A, "size_mm2", f"must be one of: {sizes} mm²")
    needs.require(method in METHODS, "method", f"must be one of: {', '.join(METHODS)}")
    needs.settle()
    return RATINGS_A[size_mm2][method]


def insulation_factor(covered_mm: int) -> Decimal:
    """Give the share of its current that a cable carries when insulation surrounds it over a length.

    Args:
        covered_mm: The length. Scalar. [mm]

    Returns:
        The factor, of the next longer row of the table. Scalar. [-]

    Raises:
        Refusal: The length is less than 0.

    Source:
        BS 7671:2018 Table 52.2 and regulation 523.9, read in reprints; the next longer row: our own caution.
    """
    needs = Requirements()
    needs.require(covered_mm >= 0, "covered_mm", "must not be less than 0 mm")
    needs.settle()
    if not covered_mm:
        return Decimal(1)
    longest = max(FACTORS_BY_LENGTH_MM)
    row = next((length for length in FACTORS_BY_LENGTH_MM if covered_mm <= length), longest)
    return FACTORS_BY_LENGTH_MM[row]


def covered_cable_a(size_mm2: Decimal, covered_mm: int, method: str = CLIPPED) -> Decimal:
    """Give what a cable carries when insulation surrounds it over a length.

    Args:
        size_mm2: Size of its conductors. Scalar. [mm2]
        covered_mm: The length. Scalar. [mm]
        method: How it is installed but for that. Choice. [-]

    Returns:
        The current. Scalar. [A]

    Raises:
        Refusal: The table has no such size or method, or the length is less than 0.

    Source:
        BS 7671:2018 Tables 4D5 and 52.2, read in reprints.
    """
    return cable_rating_a(size_mm2, method) * insulation_factor(covered_mm)


def load_current_a(watts: Decimal, volts: Decimal) -> Decimal:
    """Give the current that a load draws.

    Args:
        watts: Its power. Scalar. [W]
        volts: The supply. Scalar. [V]

    Returns:
        The current. Scalar. [A]

    Raises:
        Refusal: The power is less than 0, or the voltage not more.

    Source:
        Physics: power = current × voltage.
    """
    needs = Requirements()
    needs.require(watts >= 0, "watts", "must not be less than 0 W")
    needs.require(volts > 0, "volts", "must be more than 0 V")
    needs.settle()
    return watts / volts


def cable_verdicts(survey: Survey) -> Iterator[Verdict]:
    """Compare every cable that would be covered with the fuse or breaker before it.

    Args:
        survey: The cables, clipped but where covered. Record. [-]

    Returns:
        A verdict for each. Iterator. [-]

    Source:
        BS 7671:2018 Tables 4D5 and 52.2, read in reprints.
    """
    for cable in survey.cables:
        yield _verdict(cable)


def _verdict(cable: Cable) -> Verdict:
    carries = _carries(cable)
    circuit = f" ({cable.circuit})" if cable.circuit else ""
    told = (
        f"Cable of {cable.size_mm2} mm²{circuit}, {cable.covered_mm} mm of it in insulation: "
        f"{carries.value} A by the tables"
    )
    if carries.value >= cable.device_a:
        severity = Severity.NOTE
        words = f"{told}, within them for a device of {cable.device_a} A. {_ASK} where in doubt."
    else:
        severity = Severity.CAUTION
        words = (
            f"{told}, outside them for a device of {cable.device_a} A: keep it out of the insulation. {_ASK} "
            "before it is covered."
        )
    return Verdict(subject="cables", severity=severity, words=words, source=SOURCE, figure=carries)


def _carries(cable: Cable) -> Figure[Decimal]:
    value = covered_cable_a(cable.size_mm2, cable.covered_mm)
    working = Working(
        "rating clipped to a surface × factor of insulation, by size and length covered",
        (
            published("rating clipped to a surface", cable_rating_a(cable.size_mm2), "A"),
            published("factor of insulation", insulation_factor(cable.covered_mm)),
            measured("size", cable.size_mm2, "mm²"),
            measured("length covered", cable.covered_mm, "mm"),
        ),
        SOURCE,
    )
    return Figure("current in insulation", value.quantize(Decimal("0.01")), "A", working)
