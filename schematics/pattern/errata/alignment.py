"""Which lines of two versions are the same line, changed or not."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from difflib import SequenceMatcher
from functools import lru_cache

from schematics.pattern.errata.lines import Reading

Pair = tuple[int | None, int | None]
"""A line of the old version and that of the new which it has become; None where there is none."""

_VARYING = re.compile(r"\d+(?: \d+/\d+|/\d+|\.\d+)?|\b(?:RS|WS)\b")

_ALONE = 0.55
"""What a line costs that is in one version only."""

_RENUMBERED, _FIGURES, _WORDS = 0.3, 0.6, 0.9
"""What a line costs that has another number, other figures, other words; two that are alone cost more."""

_ALIKE = 0.5
"""So much of two paragraphs agrees, at least, where they are one that was changed."""


def aligned(old: Sequence[Reading], new: Sequence[Reading]) -> list[Pair]:
    """Every line of both in order, paired so that the least has changed."""
    same = 0
    while same < min(len(old), len(new)) and old[same] == new[same]:
        same += 1
    pairs: list[Pair] = [(index, index) for index in range(same)]
    return pairs + [
        (None if before is None else before + same, None if after is None else after + same)
        for before, after in _aligned(old[same:], new[same:])
    ]


def _aligned(old: Sequence[Reading], new: Sequence[Reading]) -> list[Pair]:
    """The cheapest path through the table of both, from its end to its beginning."""
    costs = [[0.0] * (len(new) + 1) for _ in range(len(old) + 1)]
    for row in range(len(old), -1, -1):
        for column in range(len(new), -1, -1):
            costs[row][column] = min((cost for cost, _ in _steps(old, new, costs, row, column)), default=0.0)
    pairs: list[Pair] = []
    row = column = 0
    while row < len(old) or column < len(new):
        _, (down, across) = min(_steps(old, new, costs, row, column), key=lambda step: step[0])
        pairs.append((row if down else None, column if across else None))
        row, column = row + down, column + across
    return pairs


def _steps(
    old: Sequence[Reading], new: Sequence[Reading], costs: Sequence[Sequence[float]], row: int, column: int
) -> list[tuple[float, tuple[int, int]]]:
    steps = []
    if row < len(old) and column < len(new):
        steps.append((_cost(old[row], new[column]) + costs[row + 1][column + 1], (1, 1)))
    if row < len(old):
        steps.append((_ALONE + costs[row + 1][column], (1, 0)))
    if column < len(new):
        steps.append((_ALONE + costs[row][column + 1], (0, 1)))
    return steps


@lru_cache(maxsize=1 << 14)
def _cost(old: Reading, new: Reading) -> float:
    if old == new:
        return 0.0
    figures = _frame(old.text) == _frame(new.text)
    if old.label == new.label and old.label:
        return _FIGURES if figures else _WORDS
    if _frame(old.label) == _frame(new.label) and figures:
        return _RENUMBERED if old.text == new.text and old.label else _FIGURES
    alike = not old.label and not new.label and _share(old.text, new.text) >= _ALIKE
    return _WORDS if alike else math.inf


@lru_cache(maxsize=1 << 14)
def _frame(text: str) -> str:
    """A text without its figures."""
    return _VARYING.sub("#", text)


def _share(old: str, new: str) -> float:
    return SequenceMatcher(None, old.split(), new.split(), autojunk=False).ratio()
