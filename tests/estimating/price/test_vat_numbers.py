from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from stdnum.gb import vat as looser_rule

from estimating.price.vat_numbers import check_digits, read_vat_number
from estimating.refusals import Refusal

sevens = st.from_regex(r"\A[0-9]{7}\Z")


@given(seven=sevens, swap=st.integers(0, 5))
def test_two_neighbours_swapped_are_noticed_under_the_same_rule(seven: str, swap: int) -> None:
    swapped = seven[:swap] + seven[swap + 1] + seven[swap] + seven[swap + 2 :]
    if swapped != seven:
        assert check_digits(swapped).modulus_97 != check_digits(seven).modulus_97


@given(seven=sevens)
def test_number_of_either_rule_reads_back_as_printed(seven: str) -> None:
    check = check_digits(seven)
    for last_two in (check.modulus_97, *([check.modulus_9755] if seven >= "1000000" else [])):
        number = read_vat_number(f"gb {seven}{last_two}")
        assert read_vat_number(number.formatted) == number


@pytest.mark.parametrize("typed", ["012345662", "099999990", "000000140", "097210608"])
def test_the_younger_check_rule_begins_at_its_first_number(typed: str) -> None:
    """The 9755 series starts at 100 nnnn nn (python-stdnum 2.2, stdnum.gb.vat, agrees)."""
    assert not looser_rule.is_valid(typed)
    with pytest.raises(Refusal):
        read_vat_number(typed)


@pytest.mark.parametrize("typed", ["GD001", "GBGD499", "ha 500", "GB HA999"])
def test_numbers_of_public_bodies_are_read(typed: str) -> None:
    """GD 000 to 499 for government departments, HA 500 to 999 for health authorities (stdnum agrees)."""
    assert looser_rule.is_valid(typed)
    number = read_vat_number(typed)
    assert number.formatted == looser_rule.compact(typed)
    assert number.series == number.digits[:2]


@pytest.mark.parametrize("typed", ["GB 980-7806-84", "980.7806.84", "XI980780684"])
def test_marks_between_the_digits_are_passed_over(typed: str) -> None:
    assert read_vat_number(typed).digits == "980780684"


def test_branch_is_kept_apart() -> None:
    number = read_vat_number("GB 980 7806 84 001")
    assert (number.digits, number.branch, number.formatted) == ("980780684", "001", "980 7806 84 001")


@pytest.mark.parametrize(
    "typed",
    ["", "GB", "98078068", "9807806840", "98O780684", "٩٨٠٧٨٠٦٨٤", "980780685", "GD500", "HA499", "GD1"],
)
def test_what_is_no_vat_number_is_refused(typed: str) -> None:
    with pytest.raises(Refusal) as refused:
        read_vat_number(typed, field="customer.vat_number")
    assert refused.value.field == "customer.vat_number"


def test_check_digits_are_of_seven_digits() -> None:
    with pytest.raises(Refusal, match="seven digits"):
        check_digits("123456")


@given(nine=st.from_regex(r"\A[0-9]{9}\Z"))
def test_what_is_read_here_is_valid_to_the_looser_rule_too(nine: str) -> None:
    # python-stdnum also lets a remainder of 55 pass, so it may be looser but never stricter.
    try:
        read_vat_number(nine)
    except Refusal:
        return
    assert looser_rule.is_valid(nine)
