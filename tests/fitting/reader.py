"""An interpreter of the rules as JSON, written from their description alone, as a page would have one."""

from __future__ import annotations

import json
import math
import operator
from collections.abc import Callable, Mapping
from functools import reduce
from typing import Any

HAIR = 1e-9

NUMPY: Mapping[str, Callable[..., float]] = {
    "where": lambda truth, one, other: one if truth else other,
    "not": lambda truth: not truth,
    "less": lambda one, other: one < other,
    "less_equal": lambda one, other: one <= other,
    "greater": lambda one, other: one > other,
    "greater_equal": lambda one, other: one >= other,
    "isnan": math.isnan,
    "absolute": abs,
    "negative": lambda number: -number,
    "power": lambda base, exponent: base**exponent,
    "sqrt": lambda number: math.sqrt(number) if number >= 0 else math.nan,
    "hypot": math.hypot,
    "sin": math.sin,
    "cos": math.cos,
    "arccos": lambda ratio: math.acos(ratio) if abs(ratio) <= 1 else math.nan,
    "arctan": math.atan,
    "arctan2": math.atan2,
    "tan": math.tan,
    "floor": math.floor,
    "ceil": math.ceil,
}
"""NumPy's words for what formulas of garments are made of, by Python's own mathematics."""


ARITHMETIC: Mapping[str, Callable[[float, float], float]] = {
    "+": operator.add,
    "-": operator.sub,
    "*": operator.mul,
    "/": operator.truediv,
    "min": min,
    "max": max,
    "and": lambda one, other: one and other,
    "or": lambda one, other: one or other,
}
"""Of any number of them, one after another."""


class Reader:
    """Works out the nodes of the JSON for one wearer and one garment.

    ``body`` holds low, typical and high end by name; what is unknown is missing or null.
    """

    def __init__(
        self,
        terms: Mapping[str, Any],
        body: Mapping[str, Mapping[str, float | None]],
        facts: Mapping[str, float | None] | None = None,
        *,
        adult: bool = False,
        age_years: float | None = None,
        end: str = "typical",
    ) -> None:
        self.terms, self.body, self.facts, self.end = terms, body, facts or {}, end
        self.wearer = {"adult": 1.0 if adult else 0.0, "age_years": age_years}

    def number(self, node: Any) -> float:
        if node is None:
            return math.nan
        if isinstance(node, int | float):
            return float(node)
        if isinstance(node, dict):
            return self._leaf(node)
        word, *args = node
        if word == "table":
            return self._table(self.number(args[0]), [[self.number(x), self.number(y)] for x, y in args[1]])
        numbers = [self.number(each) for each in args]
        if word == "first":
            return next((each for each in numbers if not math.isnan(each)), math.nan)
        if word in NUMPY:
            return float(NUMPY[word](*numbers))
        if word not in ARITHMETIC:
            raise ValueError(f"not a word of the trees: {word}")
        if any(map(math.isnan, numbers)):
            return math.nan
        return reduce(ARITHMETIC[word], numbers)

    def truth(self, node: Any, unknown: bool) -> bool:
        word, *args = node
        if word == "and":
            return all(self.truth(each, unknown) for each in args)
        if word == "or":
            return any(self.truth(each, unknown) for each in args)
        a, b = map(self.number, args)
        if math.isnan(a) or math.isnan(b):
            return unknown
        return {"<": b > a + HAIR, "<=": not a > b + HAIR}[word]

    def answer(self, rule: Mapping[str, Any]) -> str:
        stop, mind = ([self._either(rule[key], way) for way in (False, True)] for key in ("stop", "mind"))
        if stop[0]:
            return "stop"
        if stop[1] or (mind[1] and not mind[0]):
            return "unknown"
        return "mind" if mind[0] else "good"

    def _either(self, node: Any, unknown: bool) -> bool:
        return node is not None and self.truth(node, unknown)

    def _leaf(self, node: Mapping[str, str]) -> float:
        if "term" in node:
            return self.number(self.terms[node["term"]])
        if "fact" in node:
            value = self.facts[node["fact"]]
        elif "wearer" in node:
            value = self.wearer[node["wearer"]]
        else:
            value = self.body.get(node["body"], {}).get(node.get("end", self.end))
        return math.nan if value is None else float(value)

    @staticmethod
    def _table(x: float, points: list[list[float]]) -> float:
        if math.isnan(x):
            return x
        (x0, y0) = points[0]
        if x <= x0:
            return y0
        for x1, y1 in points[1:]:
            if x < x1:
                return (y1 - y0) / (x1 - x0) * (x - x0) + y0
            x0, y0 = x1, y1
        return y0


def through_json(document: Any) -> Any:
    """The document as a page gets it."""
    return json.loads(json.dumps(document, allow_nan=False))
