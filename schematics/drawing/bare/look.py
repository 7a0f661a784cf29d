"""How a designer's bare drawings look, as the house style in her spec asks."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cache

from schematics.design.design import Design
from schematics.design.limits import Limits
from schematics.design.publication import DrawnFigures, DrawnUnits, LineWeight
from schematics.document.lettering.text import Font, Lettering
from schematics.drawing.ink.sheet import BareInk
from schematics.drawing.pieces.figures_look import FiguresLook
from schematics.errors import UsageError
from schematics.units import Unit

_WEIGHTS = {LineWeight.FINE: 0.7, LineWeight.MEDIUM: 1.0, LineWeight.BOLD: 1.4}
"""Times the usual widths: the next finer and the next wider group of lines of ISO 128-2."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """What is lettered: in which ``units``, the first one first, with ``counts``, as ``letters`` and a table.

    Lines are ``weight`` times as wide as usual, names and letters in the colour ``accent`` if there is one.
    Words are in the ``font``, None for the program's own. By the ``limits`` two edges of a seam end level or
    not.
    """

    units: tuple[Unit, ...] = tuple(Unit)
    counts: bool = True
    letters: bool = False
    weight: float = 1.0
    accent: str | None = None
    font: Font | None = None
    limits: Limits = field(default_factory=Limits)

    def figures(self, height: float) -> FiguresLook:
        """How figures in letters so many mm high are set; the same object for the same look."""
        return _figures(self.units, self.counts, self.lettering(height))

    def lettering(self, height: float) -> Lettering:
        """Words so many mm high."""
        return Lettering(height, self.font)

    def ink(self, name: str) -> BareInk:
        """How the drawing of that name is inked."""
        return BareInk(name=name, weight=self.weight, accent=self.accent, font=self.font)


@cache
def _figures(units: tuple[Unit, ...], counts: bool, lettering: Lettering) -> FiguresLook:
    return FiguresLook(units, counts, lettering)


def look_of(design: Design) -> Look:
    """The look that the spec asks for."""
    house = design.publication.house
    asked = house.drawings
    return Look(
        units=design.units if asked.units is DrawnUnits.BOTH else (Unit(asked.units.value),),
        counts=asked.counts,
        letters=asked.measured_by is DrawnFigures.LETTERS,
        weight=_WEIGHTS[asked.lines],
        accent=house.accent,
        font=_house_font(design, house.font),
        limits=design.limits,
    )


def _house_font(design: Design, name: str | None) -> Font | None:
    """The font of that file or family; None where it is the program's own.

    Raises:
        UsageError: it is no longer as it was when the spec was read, or has no Latin letters.
    """
    if name is None:
        return None
    from schematics.document.fonts import font_of

    try:
        return font_of(name, design.path.parent)
    except OSError as error:
        raise UsageError(f"{design.path}: {name}: cannot be read: {error.strerror}") from None
    except ValueError as error:
        raise UsageError(f"{design.path}: {name}: {error}") from None
