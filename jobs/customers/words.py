"""Names, places and numbers as they are looked for: without capitals, accents or signs."""

from __future__ import annotations

import re
import unicodedata

from jobs.customers.models import Customer, Property

LONGEST_WORD = 32
HOME_CODE = "44"
ENDINGS = (8, 7, 6)
"""How many digits of a telephone number are dialled within one town."""
LEAST_LETTERS, MOST_TERMS = 2, 5
"""One letter begins a word of nearly every quote: it is waited for the second."""
_UNDIVIDED = str.maketrans({
    "ø": "o", "ł": "l", "đ": "d", "ð": "d", "þ": "th", "æ": "ae", "œ": "oe", "ı": "i",
})  # fmt: skip
_JOINERS = re.compile(r"['’`´.]")
_OUTWARD, _INWARD = re.compile(r"[a-z]{1,2}\d[a-z\d]?"), re.compile(r"\d[a-z]{0,2}")


def folded(text: str) -> str:
    """Return text in small letters without accents: Llŷr is found by llyr."""
    parted = unicodedata.normalize("NFKD", text.casefold())
    return "".join(sign for sign in parted if not unicodedata.combining(sign)).translate(_UNDIVIDED)


def words_of(text: str) -> list[str]:
    """Return the words of a name or an address; O'Neill is one word, Smith-Jones two."""
    return re.findall(r"\w+", _JOINERS.sub("", folded(text)).replace("_", " "))


def words_of_customer(customer: Customer) -> set[str]:
    """Return every word by which a customer is found: of the name, the e-mail and the telephone number."""
    found = set(words_of(customer.email)) | _words_of_names(customer.name)
    return _cut(found | _phone(customer.phone))


def words_of_place(place: Property) -> set[str]:
    """Return every word by which a property is found: its own, its customer's name and telephone number."""
    customer = place.customer
    found = _words_of_names(customer.name, place.address, place.locality, place.town)
    return _cut(found | {"".join(words_of(place.postcode))} | _phone(customer.phone))


def _words_of_names(*named: str) -> set[str]:
    """Return the words of names; of O'Neill also what stands after a sign of one letter, Neill."""
    found = {word for text in named for word in words_of(text)}
    return found | {word for text in named for word in re.findall(r"\w{2,}", folded(text).replace("_", " "))}


def _cut(words: set[str]) -> set[str]:
    return {word[:LONGEST_WORD] for word in words if word}


def _phone(kept: str) -> set[str]:
    """Return a telephone number as dialled from here, and as dialled within its town."""
    digits = _national("".join(sign for sign in kept if sign.isdecimal()))
    return {digits, *(digits[-length:] for length in ENDINGS if len(digits) > length)} - {""}


def _national(digits: str) -> str:
    return f"0{digits.removeprefix(HOME_CODE)}" if re.fullmatch(rf"{HOME_CODE}\d{{9,10}}", digits) else digits


def terms_of(typed: str) -> list[str]:
    """Return the beginnings of words that the signs typed into the search box mean, the longest first.

    Digits alone are one number, however they are parted; the halves of a postcode are put together.
    """
    spread = folded(typed)
    if re.fullmatch(r"[\d\s()+./-]+", spread):
        digits = "".join(sign for sign in spread if sign.isdecimal())
        abroad = spread.strip().startswith(f"+{HOME_CODE}")
        digits = f"0{digits.removeprefix(HOME_CODE)}" if abroad else _national(digits)
        return [digits[:LONGEST_WORD]] if len(digits) >= LEAST_LETTERS else []
    terms: list[str] = []
    for word in re.sub(r"(?<=\w)[-/](?=\d)", "", spread).split():
        for part in words_of(word):
            if terms and _OUTWARD.fullmatch(terms[-1]) and _INWARD.fullmatch(part):
                terms[-1] += part
            else:
                terms.append(part)
    told = {term[:LONGEST_WORD] for term in terms if len(term) >= LEAST_LETTERS}
    return sorted(told, key=lambda term: (-len(term), term))[:MOST_TERMS]
