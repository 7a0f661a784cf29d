"""A mixed-integer programme built row by row, and solved to a proven optimum.

Solved by HiGHS on one thread and with a fixed seed, so the same programme gives the same answer.

References:
    Q. Huangfu, J. A. J. Hall, Parallelizing the dual revised simplex method, Mathematical
    Programming Computation 10 (2018); https://highs.dev.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field

import highspy
import numpy as np

from schematics.linear import Linear, Row

_OPTIONS: Mapping[str, int | float | str] = {
    "presolve": "off",
    "threads": 1,
    "random_seed": 0,
    "mip_rel_gap": 0.0,
    "mip_abs_gap": 1e-6,
}


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

    def solve(self, seconds: float, start: Mapping[str, float] | None = None) -> Answer | None:
        """The best answer, None where there is none.

        Args:
            seconds: when to stop; what was found by then is given with its bound.
            start: values of some of the unknowns to start from.

        Raises:
            SolverError: neither was found in the time given.
        """
        solver = highspy.Highs()
        solver.silent()
        for option, value in _OPTIONS.items():
            solver.setOptionValue(option, value)
        solver.setOptionValue("time_limit", seconds)
        solver.passModel(self._model())
        if start:
            known = [(self._names[name], value) for name, value in start.items() if name in self._names]
            places, values = zip(*known, strict=True)
            solver.setSolution(len(known), np.array(places, dtype=np.int32), np.array(values, dtype=float))
        solver.run()
        status = solver.getModelStatus()
        if status in (highspy.HighsModelStatus.kInfeasible, highspy.HighsModelStatus.kUnboundedOrInfeasible):
            return None
        info, found = solver.getInfo(), solver.getSolution()
        if not found.value_valid:
            raise SolverError(f"HiGHS stopped: {solver.modelStatusToString(status)}")
        columns = list(found.col_value)
        return Answer(
            values={name: float(columns[at]) for name, at in self._names.items()},
            objective=float(info.objective_function_value),
            bound=float(info.mip_dual_bound) if any(self._whole) else float(info.objective_function_value),
        )

    def _model(self) -> highspy.HighsLp:
        model = highspy.HighsLp()
        model.num_col_, model.num_row_ = len(self._low), len(self._rows)
        model.col_cost_ = np.array(self._cost)
        model.col_lower_, model.col_upper_ = np.array(self._low), np.array(self._high)
        model.row_lower_ = np.array([low for _, low, _ in self._rows])
        model.row_upper_ = np.array([high for _, _, high in self._rows])
        model.integrality_ = [
            highspy.HighsVarType.kInteger if whole else highspy.HighsVarType.kContinuous
            for whole in self._whole
        ]
        matrix = model.a_matrix_
        matrix.format_ = highspy.MatrixFormat.kRowwise
        matrix.start_ = np.cumsum([0, *(len(terms) for terms, _, _ in self._rows)])
        matrix.index_ = np.array([at for terms, _, _ in self._rows for at in terms])
        matrix.value_ = np.array([factor for terms, _, _ in self._rows for factor in terms.values()])
        return model
