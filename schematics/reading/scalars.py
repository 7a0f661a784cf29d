"""Plain YAML scalars, read by the core rules of YAML 1.2 (section 10.3.2 of its specification).

Unlike YAML 1.1 these have no sexagesimal numbers (``1:30``), no yes, no, on and off, no dates
and no underscores in numbers.
"""

from __future__ import annotations

import re

_NULL = {"", "~", "null", "Null", "NULL"}
_TRUE = {"true", "True", "TRUE"}
_FALSE = {"false", "False", "FALSE"}
_DECIMAL = re.compile(r"[-+]?[0-9]+")
_OCTAL = re.compile(r"0o[0-7]+")
_HEXADECIMAL = re.compile(r"0x[0-9a-fA-F]+")
_FLOAT = re.compile(r"[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?")
_INFINITE = re.compile(r"[-+]?\.(inf|Inf|INF)")
_NAN = {".nan", ".NaN", ".NAN"}
_LONGEST_NUMBER = 100

Scalar = str | int | float | bool | None


def core_scalar(text: str) -> Scalar:
    """The value of an unquoted scalar.

    A number of more than 100 characters stays text: no spec needs it, and Python refuses to
    read or print whole numbers of some thousand digits.
    """
    if text in _NULL:
        return None
    if text in _TRUE or text in _FALSE:
        return text in _TRUE
    return text if len(text) > _LONGEST_NUMBER else _number(text)


def _number(text: str) -> str | int | float:
    if _DECIMAL.fullmatch(text):
        return int(text)
    if _OCTAL.fullmatch(text) or _HEXADECIMAL.fullmatch(text):
        return int(text, 0)
    if _FLOAT.fullmatch(text):
        return float(text)
    if _INFINITE.fullmatch(text):
        return float(text.replace(".", ""))
    return float("nan") if text in _NAN else text
