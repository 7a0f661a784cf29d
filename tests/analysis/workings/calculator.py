"""A calculator for the arithmetic a working sheet prints: it reads the text alone, units and all.

The text is turned into a Python expression and walked by `ast`; units are those of pint, with stitches
and rows added, so that a sum of unlike things is an error.
"""

from __future__ import annotations

import ast
import math
import operator
import re
from collections.abc import Callable, Mapping
from functools import cache, cached_property
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    import pint


@cache
def registry() -> pint.UnitRegistry[float]:
    """Units of pint, stitches and rows among them; it takes a while to read them."""
    import pint

    known: pint.UnitRegistry[float] = pint.UnitRegistry()
    known.define("sts = [stitches]")
    known.define("rows = [rows]")
    return known


_WRITTEN = (
    (r"the (smaller|larger) of \(", r"\1("),
    (r"°", ""),
    (r"([\d.]+) (sts|rows|cm/in|cm|in|g)\b", r"(\1 * unit_\2)"),
    (r"√", "root"),
    (r"²", "**2"),
    (r"×", "*"),
    (r"π", "pi"),
    (r"cm/in", "cm_per_in"),
)
_OPERATORS: Mapping[type, Callable[[Any, Any], Any]] = {
    ast.Add: operator.add,
    ast.Sub: operator.sub,
    ast.Mult: operator.mul,
    ast.Div: operator.truediv,
    ast.Pow: operator.pow,
}


class Calculator:
    """Works out printed arithmetic, with units or, much faster, without."""

    def __init__(self, *, units: bool) -> None:
        self._has_units = units

        def plain(value: Any) -> float:
            return float(value.to("").magnitude) if units and hasattr(value, "to") else float(value)

        def degrees(value: Any) -> float:
            return math.radians(plain(value))

        self._functions: dict[str, Callable[..., Any]] = {
            "root": lambda value: value**0.5,
            "sin": lambda value: math.sin(degrees(value)),
            "cos": lambda value: math.cos(degrees(value)),
            "atan": lambda value: math.degrees(math.atan(plain(value))),
            "acos": lambda value: math.degrees(math.acos(plain(value))),
            "smaller": min,
            "larger": max,
        }

    @cached_property
    def _names(self) -> dict[str, Any]:
        def unit(name: str) -> Any:
            return registry()(name) if self._has_units else 1.0

        return {
            "unit_sts": unit("sts"),
            "unit_rows": unit("rows"),
            "unit_cm": unit("cm"),
            "unit_g": unit("g"),
            "unit_in": unit("inch"),
            "unit_cm_per_in": unit("cm / inch"),
            "pi": math.pi,
        }

    def __call__(self, text: str) -> Any:
        """What the text comes to."""
        for pattern, python in _WRITTEN:
            text = re.sub(pattern, python, text)
        return self._value(ast.parse(text, mode="eval").body)

    def _value(self, node: ast.expr) -> Any:
        match node:
            case ast.Constant(value=float() | int() as value):
                return float(value)
            case ast.Name(id=name):
                return self._names[name]
            case ast.UnaryOp(op=ast.USub(), operand=operand):
                return -self._value(operand)
            case ast.BinOp(left=left, op=op, right=right):
                return _OPERATORS[type(op)](self._value(left), self._value(right))
            case ast.Call(func=ast.Name(id=name), args=arguments):
                return self._functions[name](*map(self._value, arguments))
        raise SyntaxError(f"not arithmetic: {ast.unparse(node)}")


PLAIN, WITH_UNITS = Calculator(units=False), Calculator(units=True)
