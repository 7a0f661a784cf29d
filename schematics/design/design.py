"""A design as the rest of the program sees it: checked, resolved, in centimetres, frozen."""

from __future__ import annotations

import datetime
import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from schematics.crochet.fabric import Fabric
from schematics.crochet.terms import Terms
from schematics.crochet.yarn_use import MAIN_COLOUR, YarnUse
from schematics.design.border import Border
from schematics.design.limits import Limits
from schematics.design.publication import Publication
from schematics.units import Unit
from schematics.wearer.body import WearerSpec

NOT_CHOSEN = "not chosen yet"
"""In place of a yarn's name."""

MOST_SHADES = 7
"""With a house's accent, and all of them in 16 steps of black, they fill the palette of a PNG."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Yarn:
    """The yarn; ``weight`` is the trade's number from 0 (lace) to 7 (jumbo), ``colour`` the main one.

    ``shades`` are colours by name, each as it looks, ``#rrggbb``; at most `MOST_SHADES`.
    """

    name: str
    fibre: str | None = None
    colour: str | None = None
    shades: tuple[tuple[str, str], ...] = ()
    weight: int | None = None
    ball_mass_g: float | None = None
    ball_length_m: float | None = None


PIECE_OF: Mapping[str, str] = {
    "body": "body",
    "centre panel": "centre panel",
    "neck band": "neck band",
    "arm bands": "arm band",
}
"""The parts that are worked in a fabric of their own, by their names; what a piece of each is called."""

PART_OF: Mapping[str, str] = {piece: name.replace(" ", "_") for name, piece in PIECE_OF.items()}
"""The part's key in a spec by the piece's name."""

PARTS = tuple(PART_OF.values())
"""Their keys in a spec."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Parts:
    """Which fabric each part is worked in, and the ``borders`` that some rows of the body are."""

    body: Fabric
    centre_panel: Fabric
    neck_band: Fabric
    arm_bands: Fabric
    borders: tuple[Border, ...] = field(default=(), hash=False)

    @property
    def by_name(self) -> dict[str, Fabric]:
        """The fabric of each part by the part's name, such as ``centre panel``."""
        return {name: getattr(self, key) for name, key in zip(PIECE_OF, PARTS, strict=True)}

    @property
    def fabrics(self) -> dict[str, Fabric]:
        """Every fabric once by its own name, in the order of the parts."""
        return {fabric.name: fabric for fabric in self.by_name.values()}

    @property
    def hooks(self) -> dict[float | None, tuple[str, ...]]:
        """The parts worked with each hook, by name in their order; the hook is None where it is not known."""
        parts: dict[float | None, tuple[str, ...]] = {}
        for part, fabric in self.by_name.items():
            parts[fabric.hook_mm] = (*parts.get(fabric.hook_mm, ()), part)
        return parts

    def used_for(self, fabric: Fabric) -> str:
        """The names of the parts worked in a fabric: ``neck band, arm bands``."""
        return ", ".join(part for part, each in self.by_name.items() if each.name == fabric.name)

    def named_for(self, fabric: Fabric) -> str:
        """The names of the parts worked in a fabric, in a sentence: ``neck band and arm bands``."""
        return " and ".join(self.used_for(fabric).rsplit(", ", 1))

    def with_fabrics(self, changed: Callable[[Fabric], Fabric]) -> Parts:
        """The same parts, each in what its fabric is changed to."""
        fabrics = {key: changed(getattr(self, key)) for key in PARTS}
        return Parts(**fabrics, borders=self.borders)


@dataclass(frozen=True, slots=True, kw_only=True)
class Meant:
    """How long a finished measurement was meant to be, and how far off it may come out."""

    key: str
    length_cm: float
    tolerance_cm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """One size: its wearer and its counts.

    ``body`` and ``arms`` are the count models of the design's construction (see
    `schematics.garment.constructions`); ``neck_band_stitches`` and ``arm_band_stitches`` are the depths of
    the sideways ribbing. ``line`` is where the size is in the spec, ``meant`` what its grading block
    says of the size's lengths.
    """

    name: str
    wearer: WearerSpec
    body: Any
    arms: Any
    panel_stitches: int
    panel_rows: int
    neck_band_stitches: int
    arm_band_stitches: int
    line: int
    meant: tuple[Meant, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True, repr=False)
class Design:
    """One design in all its sizes; ``slug`` is the spec file's stem and names its output folder.

    ``graded`` names the sizes some of whose counts grading found. ``hook_mm`` is that of every fabric
    without one of its own. ``neck_ties`` says whether the neck has cords or ties. ``pattern_parts`` and
    ``pattern_yarn`` are the pattern's where ``parts`` and ``yarn`` may be a maker's own.
    """

    slug: str
    path: Path
    title: str
    date: datetime.date | None
    unit: Unit
    construction: str
    yarn: Yarn
    hook_mm: float | None
    parts: Parts
    sizes: tuple[Size, ...]
    limits: Limits
    yarn_use: YarnUse = field(default_factory=YarnUse)
    terms: Terms = Terms.US
    graded: tuple[str, ...] = ()
    neck_ties: bool = False
    publication: Publication = field(default_factory=Publication)
    pattern_parts: Parts | None = None
    pattern_yarn: Yarn | None = None

    @property
    def unit_first(self) -> Unit:
        """The unit that the pattern prints before the other."""
        return self.publication.house.units_first or self.unit

    @property
    def units(self) -> tuple[Unit, ...]:
        """Centimetres and inches, the one that is printed first ahead."""
        return tuple(sorted(Unit, key=lambda unit: unit is not self.unit_first))

    def is_at_own_gauge(self, fabric: Fabric) -> bool:
        """Whether a maker works a fabric at a gauge of her own, which the pattern's hook need not give."""
        if self.pattern_parts is None:
            return False
        usual = self.pattern_parts.fabrics[fabric.name]
        return not (
            math.isclose(fabric.stitches_per_cm, usual.stitches_per_cm)
            and math.isclose(fabric.rows_per_cm, usual.rows_per_cm)
        )

    def colour_of(self, piece: str) -> tuple[str, int]:
        """A piece's colour, and how it is hatched where there is no ink of it: the body's, 0, is plain."""
        colours = {each: self.yarn_use.colour(part) for each, part in PART_OF.items()}
        colour = colours[piece]
        number = list(dict.fromkeys(colours.values())).index(colour)
        return (self.yarn.colour or colour if colour in ("", MAIN_COLOUR) else colour), number

    def __repr__(self) -> str:
        return f"<Design {self.title!r} in {len(self.sizes)} sizes, from {self.path}>"
