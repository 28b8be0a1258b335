"""Whatever is printed is read back, and no text has two meanings.

What a text means is worked out here a second time, by rules of its own: a length is made first, as an exact
number of millimetres, and then spelled in the ways people spell it. What is read must be that number, or a
question among whose answers that number is.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction
from itertools import product
from random import Random
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimating.lengths import (
    in_words,
    read_corners_mm,
    read_length_mm,
    read_lengths_mm,
    read_offsets_mm,
    read_spans_mm,
)
from estimating.lengths.one import is_plausible
from estimating.refusals import Ambiguous, Refusal
from tests.estimating.lengths.texts import PIECES, READERS, UNITS, texts

units = st.sampled_from(UNITS)
lengths_mm = st.integers(0, 1_000_000)
many_mm = st.lists(lengths_mm, min_size=1, max_size=8)
typed_texts = st.lists(st.sampled_from(PIECES), max_size=8).map("".join) | st.text(max_size=30)
kinds = st.sampled_from(sorted(READERS))

INCHES = {"in": Fraction(127, 5), "ft": 12 * Fraction(127, 5)}
METRIC = {"mm": Fraction(1), "cm": Fraction(10), "m": Fraction(1000)}


def half_up(exact: Fraction) -> int:
    return (2 * exact.numerator + exact.denominator) // (2 * exact.denominator)


def answer(read: Callable[..., Any], typed: str, unit: str | None) -> Any:
    """What is read, or the question asked, or None for what is refused without one."""
    try:
        return read(typed, default_unit=unit)
    except Ambiguous as asks:
        return asks
    except Refusal:
        return None


@given(lengths_mm, units)
def test_a_printed_length_is_read_back_under_every_default(mm, unit):
    assert read_length_mm(in_words(mm), default_unit=unit) == mm
    assert read_spans_mm(in_words(mm), default_unit=unit) == (mm,)


@given(many_mm, units, st.sampled_from([", ", ",", "; ", "\n", " "]))
def test_printed_lengths_are_read_back_in_a_list_however_they_are_set_apart(many, unit, between):
    printed = between.join(map(in_words, many))
    assert read_lengths_mm(printed, default_unit=unit) == tuple(many)
    assert read_spans_mm(printed, default_unit=unit) == tuple(many)


@given(st.lists(st.tuples(lengths_mm, st.sampled_from([1, -1])), min_size=1, max_size=8), units)
def test_printed_offsets_are_read_back_with_their_signs(many, unit):
    printed = ", ".join(f"{'-' if sign < 0 else '+'}{in_words(mm)}" for mm, sign in many)
    assert read_offsets_mm(printed, default_unit=unit) == tuple(mm * sign for mm, sign in many)


@given(st.lists(st.tuples(lengths_mm, lengths_mm), min_size=1, max_size=6), units)
def test_printed_corners_are_read_back(corners, unit):
    printed = "; ".join(f"{in_words(x)}, {in_words(y)}" for x, y in corners)
    assert read_corners_mm(printed, default_unit=unit) == tuple(corners)


@st.composite
def spelled(draw) -> tuple[str, Fraction]:
    """A length in words with its unit, and the millimetres it stands for, worked out apart."""
    space = draw(st.sampled_from(["", " ", "  ", "\u00a0"]))
    system = draw(st.sampled_from(["metric", "inches", "feet", "fraction", "thousands", "two metric"]))
    if system == "metric":
        unit = draw(st.sampled_from(sorted(METRIC)))
        whole, decimals = draw(st.integers(0, 900)), draw(st.text("0123456789", max_size=4))
        number = f"{whole}.{decimals}" if decimals else str(whole)
        exact = whole + (Fraction(int(decimals), 10 ** len(decimals)) if decimals else 0)
        return f"{number}{space}{draw(st.sampled_from([unit, unit.upper()]))}", exact * METRIC[unit]
    if system == "inches":
        inches = draw(st.integers(0, 999))
        return f"{inches}{space}{draw(st.sampled_from(['in', 'inches', chr(34), '”']))}", inches * INCHES[
            "in"
        ]
    if system == "feet":
        feet, inches = draw(st.integers(0, 99)), draw(st.integers(0, 11))
        mark = draw(
            st.sampled_from([("'", '"'), ("ft", "in"), (" ft", ""), ("’", "”"), ("'", "''"), ("'", "")])
        )
        return f"{feet}{mark[0]}{space or ' '}{inches}{mark[1]}", feet * INCHES["ft"] + inches * INCHES["in"]
    if system == "fraction":
        under = draw(st.sampled_from([2, 4, 8, 16]))
        whole, over = draw(st.integers(0, 200)), draw(st.integers(1, under - 1))
        number = f"{whole} {over}/{under}" if whole else f"{over}/{under}"
        return f"{number}{space}in", (whole + Fraction(over, under)) * INCHES["in"]
    if system == "thousands":
        mm = draw(st.integers(1000, 30_000))
        apart = draw(st.sampled_from([",", " ", "\u00a0", "\u202f", "\u2009"]))
        return f"{mm // 1000}{apart}{mm % 1000:03d}{space}mm", Fraction(mm)
    metres, rest = draw(st.integers(0, 99)), draw(st.integers(0, 99))
    unit = draw(st.sampled_from(["cm", "mm"]))
    return f"{metres}{space}m {rest}{space}{unit}", metres * METRIC["m"] + rest * METRIC[unit]


@given(spelled(), units)
def test_a_length_with_its_unit_means_the_same_whatever_the_firm_writes_in(length, unit):
    text, exact = length
    assert read_length_mm(text, default_unit=unit) == half_up(exact)


@given(st.integers(0, 99_999), st.integers(0, 999), st.booleans(), units)
def test_a_bare_number_is_the_firms_unit_or_a_question_that_offers_the_firms_unit_where_it_may_be(
    whole, thousandths, has_point, unit
):
    text = f"{whole}.{thousandths:03d}" if has_point else str(whole)
    exact = whole + (Fraction(thousandths, 1000) if has_point else 0)
    read = answer(read_length_mm, text, unit)
    per = {**METRIC, **INCHES}
    if isinstance(read, Ambiguous):
        offered = {way: read_length_mm(way, default_unit=None) for way in read.readings}
        exacts = {half_up(exact * each) for each in per.values()}
        assert all(mm in exacts for way, mm in offered.items() if "'" not in way)
        if unit and 0 < half_up(exact * per[unit]) <= 30_000:
            assert f"{text} {unit}" in offered
    else:
        assert exact == 0 or (unit is not None and read == half_up(exact * per[unit]) and read <= 30_000)


@given(kinds, typed_texts, units, units)
def test_where_two_firms_read_a_text_apart_it_leaves_a_unit_out_and_each_reads_its_own(
    kind, text, one_unit, other_unit
):
    """What is read under no default holds every unit within itself, so no default may change it."""
    read = READERS[kind]
    own = answer(read, text, None)
    if own is None or isinstance(own, Ambiguous):
        return
    for unit in (one_unit, other_unit):
        assert answer(read, text, unit) == own


def ways_to_split(words: list[str]) -> Iterator[list[str]]:
    """Every way to put words together into lengths, in order."""
    for breaks in product([" ", "\n"], repeat=len(words) - 1):
        joined = words[0] + "".join(between + word for between, word in zip(breaks, words[1:], strict=True))
        yield joined.split("\n")


spaced_words = st.sampled_from(
    ["0", "1", "5", "12", "95", "200", "395", "5200", "m", "mm", "2in", "3'", "1/2"]
)


@given(st.lists(spaced_words, min_size=1, max_size=6), units)
def test_a_list_with_spaces_alone_is_read_only_where_one_way_to_split_it_can_be_lengths_of_a_loft(
    words, unit
):
    read = answer(read_lengths_mm, " ".join(words), unit)
    if not isinstance(read, tuple) or max(read) > 30_000:
        return
    meant = set()
    for pieces in ways_to_split(words):
        lengths = tuple(answer(read_length_mm, piece, unit) for piece in pieces)
        if all(isinstance(each, int) and each <= 30_000 for each in lengths):
            meant.add(lengths)
    assert meant == {read}


@given(kinds, typed_texts, units)
def test_every_way_that_is_offered_is_read_without_another_question_and_no_two_mean_the_same_text(
    kind, text, unit
):
    asks = answer(READERS[kind], text, unit)
    if not isinstance(asks, Ambiguous):
        return
    assert len(set(asks.readings)) == len(asks.readings)
    for way in asks.readings:
        read = answer(READERS[kind], way, unit)
        assert read is not None
        assert not isinstance(read, Ambiguous)


@given(kinds, typed_texts, units)
def test_spaces_at_the_ends_and_reading_twice_change_nothing(kind, text, unit):
    once = answer(READERS[kind], text, unit)
    again = answer(READERS[kind], f"  {text}\u00a0 ", unit)
    if isinstance(once, Ambiguous):
        assert isinstance(again, Ambiguous)
        assert again.readings == once.readings
    else:
        assert again == once


@given(
    st.lists(st.fractions(0, 900, max_denominator=1000), min_size=2, max_size=2),
    st.sampled_from(["mm", "cm", "m"]),
)
def test_a_greater_number_is_never_read_as_less(numbers, unit):
    low, high = sorted(numbers)
    written = [f"{int(each)}.{int(each % 1 * 1000):03d} {unit}" for each in (low, high)]
    assert read_length_mm(written[0]) <= read_length_mm(written[1])


@given(st.text(max_size=60), units, kinds)
def test_any_text_at_all_is_read_or_refused(text, unit, kind):
    answer(READERS[kind], text, unit)


@pytest.mark.parametrize("unit", UNITS)
def test_one_text_in_a_thousand_is_no_accident(unit):
    """The seeded texts of the browser's test hold enough of each kind to be worth comparing."""
    told = [answer(read_length_mm, text, unit) for text in texts(Random(2026), 1000)]
    assert sum(isinstance(each, Ambiguous) for each in told) >= 20
    assert sum(isinstance(each, int) for each in told) >= 50


def test_what_is_offered_is_plausible_in_a_loft():
    assert is_plausible("30 m")
    assert not is_plausible("31 m")
    assert not is_plausible("0.3 mm")
