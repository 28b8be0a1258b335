"""One length as people write it: what is read, what is asked about, and in which words."""

from __future__ import annotations

import pytest
from pint import UnitRegistry

from estimating.lengths import in_words, read_length_mm
from estimating.lengths.units import BARE, LONGEST_IN_A_LOFT_MM, MM_PER
from estimating.refusals import Ambiguous, Refusal


def asked(typed: str, unit: str | None = "mm") -> tuple[str, ...]:
    with pytest.raises(Ambiguous) as asks:
        read_length_mm(typed, default_unit=unit)
    return asks.value.readings


@pytest.mark.parametrize("unit", MM_PER)
def test_units_are_those_of_the_agreement_of_1959(unit):
    assert UnitRegistry().Quantity(1, unit).to("mm").magnitude == pytest.approx(float(MM_PER[unit]))


@pytest.mark.parametrize("unit", BARE)
def test_no_bare_number_is_longer_than_any_loft(unit):
    assert BARE[unit].at_most == LONGEST_IN_A_LOFT_MM // MM_PER[unit]


@pytest.mark.parametrize(
    ("typed", "mm"),
    [
        ("5200", 5200), ("5 200", 5200), ("5,200", 5200), ("5\u00a0200", 5200), ("5\u202f200", 5200),
        ("5\u2009200", 5200), ("5.2 m", 5200), ("5.2M", 5200), ("520cm", 5200), ("1 m 20 cm", 1200),
        ("1m 5mm", 1005), ("17' 3\"", 5258), ("17ft 3", 5258), ("17’ 3½”", 5271), ("17 3/4 in", 451),
        ("½ in", 13), ("17 feet", 5182), ("0", 0), (".5 m", 500), ("5,200.4 mm", 5200), ("52 metres", 52_000),
        ("0.5 mm", 1), ("1.4999 mm", 1),
    ],
)  # fmt: skip
def test_what_people_write_is_read(typed, mm):
    assert read_length_mm(typed) == mm


@pytest.mark.parametrize(
    ("typed", "unit", "mm"),
    [
        ("5.2", "m", 5200), ("30", "m", 30_000), ("7.5", "cm", 75), ("5200 mm", "m", 5200),
        ("17", "ft", 5182), ("17 3/4", "in", 451), ("5 1/2", "ft", 1676), ("5.5", "in", 140), ("0", None, 0),
        ("0.0", "mm", 0),
    ],
)  # fmt: skip
def test_a_bare_number_takes_the_unit_in_which_the_firm_writes(typed, unit, mm):
    assert read_length_mm(typed, default_unit=unit) == mm


@pytest.mark.parametrize(
    ("typed", "unit", "readings"),
    [
        ("5.2", "mm", ("5.2 m", "5.2 cm", "5.2 mm")),
        ("0.3", "mm", ("0.3 m", "0.3 cm")),
        ("17 3/4", "mm", ("17 3/4 in", "17 3/4 ft")),
        ("5200", "m", ("5200 mm",)),
        ("95", "m", ("95 cm", "95 mm")),
        ("5200", "cm", ("5200 mm",)),
        ("5,200", "m", ("5.200 m", "5200 mm")),
        ("5,200 m", "mm", ("5.200 m",)),
        ("1,200 cm", "mm", ("1.200 cm", "1200 cm")),
        ("5.11", "ft", ("5.11 ft", "5' 11\"", "5.11 in", "5.11 m", "5.11 mm")),
        ("17", None, ("17 m", "17 cm", "17 mm", "17 ft", "17 in")),
        ("1 m 20", "mm", ("1 m 20 cm", "1 m 20 mm")),
        ("52000", "mm", ()),
        ("900 800", "mm", ()),
        ("900,800 mm", "mm", ()),
    ],
)
def test_what_could_be_two_lengths_is_asked_about_with_the_plausible_ways_to_write_it(typed, unit, readings):
    assert asked(typed, unit) == readings


@pytest.mark.parametrize(
    "typed",
    ["long", "5,2", "5,20 m", "0,200", "1/0", "11/4 in", "17' 12\"", "1 m 200 cm", "1.5 m 20 cm",
     "2.7 m 2.5 m", "5.2.3", "5 m 3 ft", "17' 3' 2", "5m2x", "-5", "1 200 300 mm", "9" * 5000,
     "1000001 mm", "5\n200"],
)  # fmt: skip
def test_what_is_no_length_is_refused_and_offers_nothing(typed):
    with pytest.raises(Refusal) as refused:
        read_length_mm(typed)
    assert getattr(refused.value, "readings", ()) == ()


def test_the_question_is_put_in_words_too():
    with pytest.raises(Ambiguous, match=r"needs its unit: write 5\.2 m, 5\.2 cm or 5\.2 mm"):
        read_length_mm("5.2")
    with pytest.raises(Ambiguous, match=r'"5,200 m" can be read in two ways: write 5\.200 m'):
        read_length_mm("5,200 m")
    with pytest.raises(Ambiguous, match='"900 800" can be one length or two'):
        read_length_mm("900 800")


def test_lengths_are_printed_as_drawings_do():
    assert in_words(3730) == "3\u00a0730\u00a0mm"
