"""Paths from an arm run over the fabric: their lengths, and how each is worked out by hand."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import TypeAlias

from schematics.garment.amounts import Measure, Numbers
from schematics.wearer.expr import Const, Expr


@dataclass(frozen=True, slots=True, kw_only=True)
class ArmPaths:
    """Reach and both spreads in cm, arm bands left out; not a number where they cannot be measured."""

    reach: Numbers
    back: Numbers
    front: Numbers


WorkedOut: TypeAlias = tuple[Expr, str | tuple[str | Expr, ...]]
"""A length, and what its arithmetic does."""


def path_measures(middle: str, lengths: Iterable[WorkedOut | None]) -> Iterator[Measure]:
    """The paths from the ``middle`` of an arm run to nape, centre back and panel's middle, bands left out.

    ``lengths`` are in that order, each evaluated only after the path before it is used. None for the second:
    the nape is the nearest place of the centre back.
    """
    path = Measure(Const(0.0))
    for (key, name), length in zip(
        (
            ("way.reach", f"from the nape to {middle}"),
            ("way.back", f"from {middle} to the centre back"),
            ("way.front", f"from {middle} to the panel's middle"),
        ),
        lengths,
        strict=True,
    ):
        of, source = length or (path, "the nape is the nearest place of it")
        path = Measure(of, key=key, name=name, source=source)
        yield path
