"""The JSON forms: survey, price book, choices and estimate, each with its name and version.

What is written is always the newest version; estimates frozen under an older one are read too. FORMS.md
beside this module shows them; `python -m estimating forms` prints their JSON Schemas.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar

from estimating.checks.verdicts import Checks
from estimating.choices import Choices
from estimating.estimate import Estimate
from estimating.json_records import as_json, read_record
from estimating.older_estimates import OLDER_FORMAT, as_written_today
from estimating.price.price import Price
from estimating.price_book import PriceBook
from estimating.refusals import Refusal
from estimating.survey import Survey

FORMATS: Mapping[type, str] = {
    Survey: "eavesbook-survey/1",
    PriceBook: "eavesbook-price-book/1",
    Choices: "eavesbook-choices/1",
    Estimate: "eavesbook-estimate/2",
}
Record = TypeVar("Record", Survey, PriceBook, Choices, Estimate)


def _read(record: type[Record], given: object) -> Record:
    if not isinstance(given, Mapping):
        raise Refusal("the whole", "must be an object")
    if given.get("format") != FORMATS[record]:
        raise Refusal("format", f'must be "{FORMATS[record]}"')
    return read_record(record, {name: value for name, value in given.items() if name != "format"})


def _written(record: Survey | PriceBook | Choices | Estimate) -> dict[str, Any]:
    form = as_json(record)
    assert isinstance(form, dict)  # noqa: S101 - records become mappings
    return {"format": FORMATS[type(record)], **form}


def survey_from_json(given: object) -> Survey:
    """Read a survey.

    Args:
        given: The parsed JSON. Mapping. [-]

    Returns:
        The survey. Record. [-]

    Raises:
        Refusal: Everything that is wrong with it, at once.

    Source:
        Own definition of the format.
    """
    return _read(Survey, given)


def survey_as_json(survey: Survey) -> dict[str, Any]:
    """Write a survey.

    Args:
        survey: The survey. Record. [-]

    Returns:
        The JSON-ready form. Mapping. [-]

    Source:
        Own definition of the format.
    """
    return _written(survey)


def price_book_from_json(given: object) -> PriceBook:
    """Read an edition of a price book.

    Args:
        given: The parsed JSON. Mapping. [-]

    Returns:
        The edition. Record. [GBP]

    Raises:
        Refusal: Everything that is wrong with it, at once.

    Source:
        Own definition of the format.
    """
    return _read(PriceBook, given)


def price_book_as_json(price_book: PriceBook) -> dict[str, Any]:
    """Write an edition of a price book.

    Args:
        price_book: The edition. Record. [GBP]

    Returns:
        The JSON-ready form. Mapping. [-]

    Source:
        Own definition of the format.
    """
    return _written(price_book)


def choices_from_json(given: object) -> Choices:
    """Read choices.

    Args:
        given: The parsed JSON. Mapping. [-]

    Returns:
        The choices. Record. [-]

    Raises:
        Refusal: Everything that is wrong with them, at once.

    Source:
        Own definition of the format.
    """
    return _read(Choices, given)


def choices_as_json(choices: Choices) -> dict[str, Any]:
    """Write choices.

    Args:
        choices: The choices. Record. [-]

    Returns:
        The JSON-ready form. Mapping. [-]

    Source:
        Own definition of the format.
    """
    return _written(choices)


def estimate_from_json(given: object) -> Estimate:
    """Read an estimate back, as it was worked out; nothing is worked out anew.

    Args:
        given: The parsed JSON. Mapping. [-]

    Returns:
        The estimate. Record. [-]

    Raises:
        Refusal: Everything that is wrong with it, at once.

    Source:
        Own definition of the format.
    """
    if isinstance(given, Mapping) and given.get("format") == OLDER_FORMAT:
        given = {**as_written_today(given), "format": FORMATS[Estimate]}
    return _read(Estimate, given)


def estimate_as_json(estimate: Estimate) -> dict[str, Any]:
    """Write an estimate with its inputs and every working.

    Args:
        estimate: The estimate. Record. [-]

    Returns:
        The JSON-ready form. Mapping. [-]

    Source:
        Own definition of the format.
    """
    return _written(estimate)


def price_from_json(given: object) -> Price:
    """Read the price of an estimate, so that frozen lines can be added up for other options.

    Args:
        given: The "price" of an estimate's JSON. Mapping. [GBP]

    Returns:
        The price. Record. [GBP]

    Raises:
        Refusal: Everything that is wrong with it, at once.

    Source:
        Own definition of the format.
    """
    return read_record(Price, given)


def checks_from_json(given: object) -> Checks:
    """Read the checks of an estimate alone, so that a page may open them without the whole of it.

    Args:
        given: The "checks" of an estimate's JSON. Mapping. [-]

    Returns:
        The checks. Record. [-]

    Raises:
        Refusal: Everything that is wrong with it, at once.

    Source:
        Own definition of the format.
    """
    return read_record(Checks, given)
