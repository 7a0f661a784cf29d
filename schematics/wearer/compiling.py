"""Trees compiled to Python functions: what each node comes to is worked out once, in a local variable."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Mapping
from functools import lru_cache
from types import CodeType
from typing import Any

from schematics.wearer.expr import Expr


class FunctionText(ABC):
    """The statements of a function of one argument, and what they name.

    Args:
        argument: the name of the argument.
        known: what the statements may name besides.
    """

    def __init__(self, argument: str, names: Mapping[str, Any]) -> None:
        self.lines: list[str] = []
        self.names: dict[Expr, str] = {}
        self._argument, self._globals = argument, dict(names)

    def function(self, *exprs: Expr, together: bool = False, whole: bool = False) -> Any:
        """The function; it gives a tuple where trees are ``together``. A ``whole`` tree is in no memo."""
        names = [self.plain(expr) if whole else self.local(expr) for expr in exprs]
        result = f"({''.join(f'{name}, ' for name in names)})" if together else names[0]
        lines = "".join(f"    {line}\n" for line in (*self.lines, f"return {result}"))
        exec(_code(f"def work({self._argument}):\n{lines}"), self._globals)
        return self._globals["work"]

    def local(self, expr: Expr) -> str:
        """The local variable or constant that is the node's value."""
        if expr not in self.names:
            self.names[expr] = self.plain(expr)
        return self.names[expr]

    def set(self, value: str) -> str:
        """The local variable that is set to a Python expression."""
        self.lines.append(f"v{len(self.lines)} = {value}")
        return f"v{len(self.lines) - 1}"

    def kept(self, value: Any) -> str:
        """The name under which the function finds a value."""
        self._globals[name := f"g{len(self._globals)}"] = value
        return name

    @abstractmethod
    def plain(self, expr: Expr) -> str:
        """The node's value from its parts; adds the statements it takes.

        Raises:
            TypeError: such a node cannot be evaluated.
        """


@lru_cache(maxsize=256)
def _code(source: str) -> CodeType:
    """Trees of other fabrics give the same text: only what its names stand for differs."""
    return compile(source, "<trees>", "exec")
