"""The core schema of YAML 1.2.2, section 10.3.2; its table and example, quoted from memory."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from schematics.reading.scalars import core_scalar
from tests.examples import ANY

READ = [
    ("", None), ("~", None), ("null", None), ("Null", None), ("NULL", None), ("nULL", "nULL"),
    ("true", True), ("True", True), ("TRUE", True), ("false", False), ("False", False), ("FALSE", False),
    ("0", 0), ("0o7", 7), ("0x3A", 58), ("-19", -19), ("+7", 7), ("010", 10), ("-0o7", "-0o7"),
    ("0.", 0.0), ("-0.0", -0.0), (".5", 0.5), ("+12e03", 12000.0), ("-2E+05", -200000.0),
    (".inf", math.inf), ("-.Inf", -math.inf), ("+.INF", math.inf), ("inf", "inf"), ("nan", "nan"),
    ("yes", "yes"), ("no", "no"), ("on", "on"), ("Off", "Off"), ("y", "y"),
    ("1:30", "1:30"), ("1_000", "1_000"), ("0b11", "0b11"), ("2026-09-14", "2026-09-14"), ("<<", "<<"),
    ("12,5", "12,5"), ("\u0663", "\u0663"), (".", "."), ("e3", "e3"), ("9" * 101, "9" * 101),
]  # fmt: skip


@pytest.mark.parametrize(("text", "value"), READ)
def test_plain_scalars(text: str, value: object) -> None:
    read = core_scalar(text)
    assert read == value
    assert type(read) is type(value)


@pytest.mark.parametrize("text", [".nan", ".NaN", ".NAN"])
def test_not_a_number(text: str) -> None:
    read = core_scalar(text)
    assert isinstance(read, float)
    assert math.isnan(read)


@given(st.integers() | st.floats(allow_nan=False, allow_infinity=False))
def test_numbers_as_python_writes_them(number: float) -> None:
    assert core_scalar(repr(number)) == number


@given(st.text(ANY))
def test_any_text_is_some_scalar(text: str) -> None:
    read = core_scalar(text)
    assert not isinstance(read, str) or read == text
