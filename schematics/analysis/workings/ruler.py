"""From counts to lengths on paper: each count over its swatch, as the swatch was measured."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from schematics.analysis.workings.arithmetic import Sum, number
from schematics.crochet.fabric import Counted, Fabric
from schematics.design.design import Parts
from schematics.units import CM_PER_INCH, HAIR, Unit

_PLACES = {Unit.CM: 1, Unit.IN: 3}
"""A swatch measured in a unit has a size of at most so many decimals in it: millimetres, 1/8 in."""

_CM_PER_INCH = number(CM_PER_INCH, "cm/in")


@dataclass(frozen=True, slots=True)
class Ruler:
    """Writes lengths in one unit, whatever the swatches were measured in."""

    unit: Unit

    @classmethod
    def of(cls, parts: Parts, unit: Unit) -> Ruler:
        """The ruler in that unit, or in the other if the swatches were all measured in that."""
        swatches = [fabric.swatch for fabric in parts.fabrics.values()]
        sizes = [size for swatch in swatches for size in (swatch.width_cm, swatch.height_cm)]
        other = next(each for each in Unit if each is not unit)
        return cls(other if not _plain(sizes, unit) and _plain(sizes, other) else unit)

    def swatch(self, fabric: Fabric, counted: Counted) -> Sum:
        """The gauge as it was counted: ``19 sts / 20 cm``."""
        unit = self._measured_in(fabric, counted)
        swatch = fabric.swatch
        count = swatch.stitches if counted is Counted.STITCHES else swatch.rows
        return number(count, counted.value) / number(unit.from_cm(_over_cm(fabric, counted)), unit.value)

    def length(self, count: Sum, counted: Counted, fabric: Fabric) -> Sum:
        """The length of so many stitches or rows: ``150 sts / (19 sts / 20 cm)``."""
        length, unit = count / self.swatch(fabric, counted), self._measured_in(fabric, counted)
        if unit is self.unit:
            return length
        return length * _CM_PER_INCH if unit is Unit.IN else length / _CM_PER_INCH

    def count(self, length: Sum, counted: Counted, fabric: Fabric) -> Sum:
        """How many stitches or rows lie along a length."""
        unit = self._measured_in(fabric, counted)
        if unit is not self.unit:
            length = length / _CM_PER_INCH if unit is Unit.IN else length * _CM_PER_INCH
        return length * self.swatch(fabric, counted)

    def _measured_in(self, fabric: Fabric, counted: Counted) -> Unit:
        """The unit that gives the swatch a plain size; the ruler's own if neither does."""
        size = [_over_cm(fabric, counted)]
        return next((each for each in (self.unit, *Unit) if _plain(size, each)), self.unit)


def _over_cm(fabric: Fabric, counted: Counted) -> float:
    return fabric.swatch.width_cm if counted is Counted.STITCHES else fabric.swatch.height_cm


def _plain(sizes_cm: Iterable[float], unit: Unit) -> bool:
    values = [unit.from_cm(each) for each in sizes_cm]
    return all(abs(value - round(value, _PLACES[unit])) < HAIR for value in values)
