"""A fabric whose gauge is not known yet: lengths are trees over what a stitch and a row of it come to."""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import Any

from schematics.crochet.fabric import Counted, Fabric
from schematics.wearer.expr import Fact
from schematics.wearer.traced import Traced


@dataclass(frozen=True, slots=True, kw_only=True)
class TracedFabric(Fabric):
    """A fabric whose lengths are `Traced`: so many times the facts of `length_fact`, by its ``place``."""

    place: int

    def length_cm(self, count: float, counted: Counted) -> Any:
        """The relaxed length."""
        return count * Traced(length_fact(self.place, counted))

    def count_along(self, length_cm: Any, counted: Counted) -> Any:
        """The stitches or rows that lie along a length."""
        return length_cm / self.length_cm(1, counted)

    def full_length_cm(self, count: float, counted: Counted) -> Any:
        """The length at full stretch."""
        return count * Traced(length_fact(self.place, counted, full=True))


def length_fact(place: int, counted: Counted, *, full: bool = False) -> Fact:
    """The centimetres of one stitch or row of the fabric in that place, at rest or at full stretch."""
    return Fact(f"{place}.{counted.words}{'.full' if full else ''}")


def traced(fabric: Fabric, place: int) -> TracedFabric:
    """The fabric in its place among a design's."""
    same = {each.name: getattr(fabric, each.name) for each in fields(Fabric)}
    return TracedFabric(**same, place=place)
