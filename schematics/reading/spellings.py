"""Lengths and ages as people give them: ``52,5``, ``20½ in``, ``4'2"``, ``1.16 m``, ``18 months``.

The grammar is patterns that are regular expressions of JavaScript as well: a page reads by the same.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction

from schematics.units import CM_PER, GRAMS_PER_OUNCE, METRES_PER_YARD, Unit

EXPECTED_LENGTH = "expected a length such as 20, '20 cm' or '8 1/2 in'"
EXPECTED_AGE = "expected an age such as 6, '18 months' or '1 1/2 years'"
EXPECTED_UNIT = "expected the unit cm, mm, m, in or ft"

_METRES = "m metre metres meter meters"
UNIT_WORDS: Mapping[str, str] = {
    word: unit
    for unit, words in {
        "cm": "cm cms centimetre centimetres centimeter centimeters",
        "mm": "mm millimetre millimetres millimeter millimeters",
        "m": _METRES,
        "in": "in ins inch inches \" \u2033 \u201d ''",
        "ft": "ft feet foot ' \u2032 \u2019",
    }.items()
    for word in words.split()
}
"""The units by what people write, without a full stop and in small letters."""

SMALLER: Mapping[str, tuple[str, int]] = {"ft": ("in", 12), "m": ("cm", 100)}
"""What may follow a unit, and how many of it there are less than: 4 ft 2 in, 1 m 16."""

MONTHS_PER: Mapping[str, int] = {
    word: months
    for months, words in {
        12: "y yr yrs year years j jahr jahre jahren an ans a\u00f1o a\u00f1os ano anos",
        1: "m mo mos mth mths month months mon monat monate monaten mois mes meses",
    }.items()
    for word in words.split()
}
"""The units of ages in English, German, French and Spanish, written as `UNIT_WORDS` are."""

GRAMS_PER: Mapping[str, float] = {
    word: grams
    for words, grams in (
        ("g gram grams gramme grammes", 1.0),
        ("kg kilogram kilograms", 1000.0),
        ("oz ounce ounces", GRAMS_PER_OUNCE),
    )
    for word in words.split()
}
METRES_PER: Mapping[str, float] = {
    word: metres
    for words, metres in ((_METRES, 1.0), ("yd yds yard yards", METRES_PER_YARD))
    for word in words.split()
}
"""The units of yarn, written as `UNIT_WORDS` are: grams, and metres, in each."""

VULGAR: Mapping[str, str] = {
    "½": "1/2", "⅓": "1/3", "⅔": "2/3", "¼": "1/4", "¾": "3/4",
    "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8",
}  # fmt: skip

_WHOLE = "[0-9]{1,9}"
NUMBER_PATTERN = (
    rf"(?:(?:{_WHOLE}(?:\s+|\s*-\s*))?{_WHOLE}\s*[/\u2044]\s*{_WHOLE}|(?:{_WHOLE}\s*)?[{''.join(VULGAR)}]"
    rf"|{_WHOLE}(?:[.,][0-9]{{0,20}})?|[.,][0-9]{{1,20}})"
)
"""8, 8.5, 8,5, 8 1/2, 8-1/2, 8½, 1/2."""

_WORD = r"[A-Za-z]{1,20}\.?"
_AGE_WORD = r"[A-Za-z\u00f1\u00d1]{1,20}\.?"
_UNIT = f"(?:{_WORD}|''|[\"\u2033\u201d'\u2032\u2019])"
LENGTH_PATTERN = (
    rf"^\s*(?:({NUMBER_PATTERN})\s*({_UNIT})?|({_WHOLE})\s*({_UNIT})\s*({NUMBER_PATTERN})\s*({_UNIT})?)\s*$"
)
"""A number and its unit; or a whole number, its unit, a number of the smaller unit, and that unit."""

GAUGE_PATTERN = (
    rf"^\s*(?:({NUMBER_PATTERN})\s*(?:sts?|stitch|stitches)\b\.?)?\s*(?:,|and\b|x|\u00d7)?"
    rf"\s*(?:({NUMBER_PATTERN})\s*(?:rows?|rounds?|rnds?)\b\.?)?\s*(?:over\b|to\b|in\b|per\b|=|/)"
    r"\s*([^x\u00d7]+?)(?:\s*(?:by|x|\u00d7)\s*(.+?))?\s*$"
)
"""Stitches and rows, either of which may be left out, over a width and perhaps a height; in any case."""

AGE_PATTERN = (
    rf"^\s*({NUMBER_PATTERN})\s*({_AGE_WORD})?(?:\s*(?:,|(?:and|und|et|y)\b)?\s*({NUMBER_PATTERN})\s*({_AGE_WORD})?)?"
    r"(?:\s+(?:old|alt))?\s*$"
)
"""A number and its unit, years or months, and perhaps another of months; in any case."""

_AGE = re.compile(AGE_PATTERN, re.ASCII | re.IGNORECASE)
_LENGTH = re.compile(LENGTH_PATTERN, re.ASCII)
_AMOUNT = re.compile(rf"\s*({NUMBER_PATTERN})\s*({_WORD})\s*", re.ASCII)
_FRACTION = re.compile(rf"(?:({_WHOLE})(?:\s+|\s*-\s*))?({_WHOLE})\s*/\s*({_WHOLE})", re.ASCII)


def parse_length(text: str, default: Unit) -> float:
    """Read a length such as ``8``, ``8,5 cm``, ``8 1/2 in``, ``85 mm``, ``4 ft 2`` or ``1.16 m``.

    Args:
        text: the length; a bare number is in ``default``.
        default: the unit of a bare number.

    Returns:
        Centimetres, not negative.

    Raises:
        ValueError: the text is no length; the message says what would be one.
    """
    match = _LENGTH.match(text)
    if match is None:
        raise ValueError(f"{EXPECTED_LENGTH}, got {text!r}")
    alone, word, whole, large_word, rest, small_word = match.groups()
    if alone is not None:
        unit = default.value if word is None else _unit(word, text)
        return _number(alone, text) * CM_PER[unit]
    large = UNIT_WORDS.get(_plain(large_word), "")
    small, fewer = SMALLER.get(large, ("", 0))
    part = _number(rest, text)
    if part >= fewer or (small_word is not None and _unit(small_word, text) != small):
        raise ValueError(f"{EXPECTED_LENGTH}, got {text!r}")
    return int(whole) * CM_PER[large] + part * CM_PER[small]


def parse_span(text: str, default: Unit) -> float:
    """Like `parse_length`, and a unit alone is one of it, as the inch of ``3 sts/in``.

    Raises:
        ValueError: as `parse_length` does.
    """
    return parse_length(f"1 {text}" if _plain(text.strip()) in UNIT_WORDS else text, default)


def parse_age(text: str) -> float:
    """Read an age such as ``6``, ``6,5``, ``18 months``, ``1 1/2 years`` or ``2 years 3 months``.

    Returns:
        Years, not negative.

    Raises:
        ValueError: the text is no age.
    """
    match = _AGE.match(text)
    if match is None:
        raise ValueError(f"{EXPECTED_AGE}, got {text!r}")
    first, word, second, second_word = match.groups()
    months = [MONTHS_PER.get(_plain(each)) for each in (word or "years", second_word or "months")]
    if None in months or (second is not None and (word is None or months != [12, 1])):
        raise ValueError(f"{EXPECTED_AGE}, got {text!r}")
    years = _number(first, text) * (months[0] or 0) / 12
    return years if second is None else years + _number(second, text) / 12


def parse_amount(text: str, per: Mapping[str, float]) -> float | None:
    """Read an amount such as ``3.5 oz`` or ``3 1/2 ounces``.

    Args:
        text: the amount.
        per: how much each unit is, as `GRAMS_PER`.

    Returns:
        The amount in that whose unit is one, or None where the text is no number with one of the units.
    """
    match = _AMOUNT.fullmatch(text)
    if match is None or _plain(match[2]) not in per:
        return None
    try:
        return _number(match[1], text) * per[_plain(match[2])]
    except ValueError:
        return None


def plain_number(text: str) -> float:
    """What a text says that `NUMBER_PATTERN` matches whole: 9.5 of ``9½``.

    Raises:
        ValueError: it is a fraction over nought.
    """
    return _number(text, text)


def _plain(word: str) -> str:
    return word.lower().rstrip(".")


def _unit(word: str, text: str) -> str:
    unit = UNIT_WORDS.get(_plain(word))
    if unit is None:
        raise ValueError(f"{EXPECTED_UNIT}, got {word!r} in {text!r}")
    return unit


def _number(words: str, text: str) -> float:
    plain = words.replace("\u2044", "/").replace(",", ".")
    for sign, fraction in VULGAR.items():
        plain = plain.replace(sign, f" {fraction}")
    match = _FRACTION.fullmatch(plain.strip())
    if match is None:
        return float(plain)
    whole, over, under = (int(each or 0) for each in match.groups())
    if under == 0:
        raise ValueError(f"expected a fraction of an inch such as 1/2, got {text!r}")
    return float(whole + Fraction(over, under))
