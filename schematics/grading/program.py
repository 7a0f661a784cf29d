"""A mixed-integer programme built row by row, and solved to a proven optimum.

Solved by HiGHS on one thread and with a fixed seed, so the same programme gives the same answer.

References:
    Q. Huangfu, J. A. J. Hall, Parallelizing the dual revised simplex method, Mathematical
    Programming Computation 10 (2018); https://highs.dev.
"""

from __future__ import annotations

import contextlib
import math
import os
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import csr_array

from schematics.errors import SchematicsError
from schematics.linear import Linear, Row

_INFEASIBLE = 2
"""`scipy.optimize.milp` found that no values keep all rows."""
_MOST_NODES = 10_000
"""A search ends after so many nodes: with the same answer on a fast machine and on a slow one."""


NOTHING_IN_TIME = (
    "no counts were found in the time given; give some of those left out by hand, or ask for less"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """Values by name, the objective, and the best the objective could be at all."""

    values: Mapping[str, float]
    objective: float
    bound: float


class SolverError(SchematicsError):
    """The solver found nothing in the time given."""


@dataclass(slots=True)
class Program:
    """Minimise a sum of columns subject to rows."""

    _names: dict[str, int] = field(default_factory=dict)
    _low: list[float] = field(default_factory=list)
    _high: list[float] = field(default_factory=list)
    _whole: list[bool] = field(default_factory=list)
    _cost: list[float] = field(default_factory=list)
    _rows: list[tuple[dict[int, float], float, float]] = field(default_factory=list)

    def column(self, name: str, low: float, high: float, *, whole: bool = False) -> Linear:
        """A new unknown between two bounds."""
        self._names[name] = len(self._low)
        self._low.append(low)
        self._high.append(high)
        self._whole.append(whole)
        self._cost.append(0.0)
        return Linear.of(name)

    def charge(self, value: Linear, cost: float) -> None:
        """Let a value cost so much."""
        for name, factor in value.terms.items():
            self._cost[self._names[name]] += cost * factor

    def known(self, name: str) -> Linear | None:
        """The unknown of that name, None if there is none yet."""
        return Linear.of(name) if name in self._names else None

    def bounds(self, value: Linear) -> tuple[float, float]:
        """Between what the value can lie at all."""
        low = high = value.constant
        for name, factor in value.terms.items():
            at = self._names[name]
            ends = factor * self._low[at], factor * self._high[at]
            low, high = low + min(ends), high + max(ends)
        return low, high

    def keep(self, row: Row) -> None:
        """Add a row."""
        value = row.value
        if row.multiple is not None:
            low, high = (math.floor((each - row.plus) / row.multiple) for each in self.bounds(value))
            repeats = self.column(f"repeats {len(self._low)}", low, high + 1, whole=True)
            self._add(value - row.multiple * repeats, row.plus, row.plus)
        if row.low > -math.inf or row.high < math.inf:
            self._add(value, row.low, row.high)

    def keep_if(self, row: Row, switch: Linear) -> None:
        """Add a row without a multiple that holds where ``switch`` is 1 or more; at 0 it is free."""
        lowest, highest = self.bounds(row.value)
        if row.low > lowest:
            self._add(row.value - (row.low - lowest) * switch, lowest, math.inf)
        if row.high < highest:
            self._add(row.value + (highest - row.high) * switch, -math.inf, highest)

    def _add(self, value: Linear, low: float, high: float) -> None:
        terms = {self._names[name]: factor for name, factor in value.terms.items()}
        self._rows.append((terms, low - value.constant, high - value.constant))

    def solve(self, seconds: float) -> Answer | None:
        """The best answer, None where there is none.

        Args:
            seconds: when to stop; what was found by then is given with its bound.

        Raises:
            SolverError: neither was found in the time given.
        """
        if not self._cost:
            return Answer(values={}, objective=0.0, bound=0.0)
        with _mute():
            found = milp(
                np.array(self._cost),
                integrality=np.array(self._whole, dtype=int),
                bounds=Bounds(np.array(self._low), np.array(self._high)),
                constraints=self._constraints(),
                options={"mip_rel_gap": 0.0, "node_limit": _MOST_NODES, "time_limit": seconds},
            )
        if found.status == _INFEASIBLE:
            return None
        if found.x is None:
            raise SolverError(NOTHING_IN_TIME)
        return Answer(
            values={name: float(found.x[at]) for name, at in self._names.items()},
            objective=float(found.fun),
            bound=float(found.fun if found.mip_dual_bound is None else found.mip_dual_bound),
        )

    def _constraints(self) -> list[LinearConstraint]:
        if not self._rows:
            return []
        starts = np.cumsum([0, *(len(terms) for terms, _, _ in self._rows)])
        places = [at for terms, _, _ in self._rows for at in terms]
        factors = [factor for terms, _, _ in self._rows for factor in terms.values()]
        matrix = csr_array((factors, places, starts), shape=(len(self._rows), len(self._low)))
        low, high = [each for _, each, _ in self._rows], [each for _, _, each in self._rows]
        return [LinearConstraint(matrix, low, high)]


@contextlib.contextmanager
def _mute() -> Iterator[None]:
    """Keep standard output clean: HiGHS now and then prints a line of its own, past Python's streams."""
    try:
        out = os.dup(1)
    except OSError:  # there is no standard output to keep clean
        yield
        return
    nowhere = os.open(os.devnull, os.O_WRONLY)
    try:
        os.dup2(nowhere, 1)
        yield
    finally:
        os.dup2(out, 1)
        os.close(out)
        os.close(nowhere)
