"""Columns as they are worked out, written down as trees: what NumPy is asked to do becomes a node.

A formula that is written for columns is read as a tree by giving it a `Traced` in the place of each column.
It is the same for any construction: nothing has to be written twice. The words that are not those of
`schematics.wearer.expr` are NumPy's, and mean what they mean there; angles are radians.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

import numpy as np
from numpy.lib.mixins import NDArrayOperatorsMixin

from schematics.wearer.expr import Const, Expr, Op

UFUNCS: Mapping[str, str] = {
    "add": "+", "subtract": "-", "multiply": "*", "divide": "/", "minimum": "min", "maximum": "max",
    "logical_and": "and", "bitwise_and": "and", "logical_or": "or", "bitwise_or": "or",
    "logical_not": "not", "invert": "not",
    **{
        name: name
        for name in (
            "less", "less_equal", "greater", "greater_equal", "isnan", "absolute", "negative", "floor",
            "ceil", "power", "square", "sqrt", "hypot", "sin", "cos", "tan", "arcsin", "arccos", "arctan",
            "arctan2", "radians", "degrees",
        )
    },
}  # fmt: skip
"""The word of each function of NumPy's that can be written down, by its name."""


class Traced(NDArrayOperatorsMixin):
    """A column that is not known yet, as the tree it will be worked out by."""

    def __init__(self, expr: Expr) -> None:
        self.expr = expr

    def __array_ufunc__(self, ufunc: np.ufunc, method: str, *inputs: Any, **options: Any) -> Any:
        """The node of one of NumPy's functions of every number by itself."""
        if ufunc is np.floor_divide and not options:
            return np.floor(np.divide(*inputs))
        word = UFUNCS.get(ufunc.__name__)
        if method != "__call__" or options or word is None:
            raise TypeError(f"numpy.{ufunc.__name__} ({method}) cannot be written down as a tree")
        return Traced(Op(word, tuple(map(tree_of, inputs))))

    def __array_function__(self, function: Any, _types: Any, inputs: Any, options: Any) -> Any:
        """The node of another of NumPy's functions."""
        work = _FUNCTIONS.get(function)
        if work is None or options:
            raise TypeError(f"numpy.{function.__name__} cannot be written down as a tree")
        return work(*inputs)

    def __bool__(self) -> bool:
        raise TypeError("what hangs on a column is to be chosen with numpy.where")


def _where(truth: Any, one: Any, other: Any) -> Traced:
    return Traced(Op("where", (tree_of(truth), tree_of(one), tree_of(other))))


def _clip(value: Any, low: Any, high: Any) -> Any:
    return np.minimum(np.maximum(value, low), high)


_FUNCTIONS: Mapping[Any, Callable[..., Any]] = {
    np.where: _where,
    np.clip: _clip,
    np.zeros_like: lambda _: 0.0,
    np.ones_like: lambda _: 1.0,
}


def tree_of(value: Any) -> Expr:
    """What has been worked out, as a tree; a number is one, too."""
    return value.expr if isinstance(value, Traced) else Const(float(value))
