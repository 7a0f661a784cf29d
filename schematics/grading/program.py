"""A mixed-integer programme built row by row, and solved to a proven optimum.

Solved by HiGHS through `scipy.optimize.milp`. The same programme gives the same answer: the solver
takes no random choices.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import csr_array

from schematics.linear import Linear, Row

_INFEASIBLE = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """Values by name, the objective, and the best the objective could be at all."""

    values: Mapping[str, float]
    objective: float
    bound: float


class SolverError(RuntimeError):
    """The solver gave up for a reason of its own."""


@dataclass(slots=True)
class Program:
    """Minimise a sum of columns subject to rows."""

    _names: dict[str, int] = field(default_factory=dict)
    _low: list[float] = field(default_factory=list)
    _high: list[float] = field(default_factory=list)
    _whole: list[int] = field(default_factory=list)
    _cost: list[float] = field(default_factory=list)
    _rows: list[tuple[dict[int, float], float, float]] = field(default_factory=list)

    def column(self, name: str, low: float, high: float, *, whole: bool = False, cost: float = 0.0) -> Linear:
        """A new unknown between two bounds."""
        self._names[name] = len(self._low)
        self._low.append(low)
        self._high.append(high)
        self._whole.append(int(whole))
        self._cost.append(cost)
        return Linear.of(name)

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
        """Add a row without a multiple that holds where the whole ``switch`` is 1; at 0 it is free."""
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

        Raises:
            SolverError: neither was found in the time given.
        """
        width = len(self._low)
        places = [(at, name) for at, (terms, _, _) in enumerate(self._rows) for name in terms]
        factors = [each for terms, _, _ in self._rows for each in terms.values()]
        rows, columns = zip(*places, strict=True) if places else ((), ())
        matrix = csr_array((factors, (rows, columns)), shape=(len(self._rows), width))
        result = milp(
            np.array(self._cost),
            integrality=np.array(self._whole),
            bounds=Bounds(np.array(self._low), np.array(self._high)),
            constraints=LinearConstraint(
                matrix, np.array([row[1] for row in self._rows]), np.array([row[2] for row in self._rows])
            ),
            options={"mip_rel_gap": 0.0, "time_limit": seconds},
        )
        if result.status == _INFEASIBLE:
            return None
        if result.x is None:
            raise SolverError(result.message)
        return Answer(
            values={name: float(result.x[at]) for name, at in self._names.items()},
            objective=float(result.fun),
            bound=float(result.fun if result.mip_dual_bound is None else result.mip_dual_bound),
        )
