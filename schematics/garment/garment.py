"""What every construction gives: flat pieces, named edges that know their counts, seams, rings.

Lengths are centimetres, y points up, outlines run counter-clockwise. A piece on the fold is its
right half with the fold on x = 0; mirrored about that line it is the whole piece, which may
overlap itself when it opens over a full circle.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from enum import StrEnum
from functools import cached_property
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray
from shapely import LineString, Polygon
from shapely.affinity import scale

from schematics.crochet.fabric import Counted, Fabric
from schematics.crochet.join_words import JoinSide
from schematics.garment.increases import IncreasePlan
from schematics.garment.panel_slot import Slot
from schematics.garment.patterned_area import PatternedArea
from schematics.garment.walks import Walk

Vertex: TypeAlias = tuple[float, float]

Vertices: TypeAlias = NDArray[np.float64] | Sequence[Vertex]
"""Points in order, in cm."""


@dataclass(frozen=True, kw_only=True)
class PieceLine:
    """A line on a piece by its vertices, or what gives them; ``path`` is made when it is first drawn."""

    vertices: Vertices | Callable[[], Vertices] = field(compare=False, repr=False)

    @cached_property
    def path(self) -> LineString:
        """The line through the vertices."""
        return LineString(self.vertices() if callable(self.vertices) else self.vertices)


@dataclass(frozen=True, kw_only=True)
class Edge(PieceLine):
    """A named stretch of a piece's outline.

    ``path`` lies on the drawn outline. An edge that ``crosses_fold`` is drawn by half, and its ``length_cm``
    and ``count`` are those of the whole edge; any other edge of a piece on the fold comes twice, once on each
    side, each with this length and count. A ``partial`` edge is only part of the stitches or rows the fabric
    is worked over, so a stitch multiple or row repeat does not bind its count.
    """

    name: str
    length_cm: float
    count: int
    counted: Counted
    fabric: Fabric
    crosses_fold: bool = False
    partial: bool = False


@dataclass(frozen=True, kw_only=True)
class WorkArrow:
    """Direction of work: its words, and what gives the places for an arrow when it is first drawn."""

    words: str
    places: Callable[[], Iterable[tuple[Vertex, Vertex]]] = field(compare=False, repr=False)

    @cached_property
    def arrow_places(self) -> tuple[tuple[Vertex, Vertex], ...]:
        """Places for the arrow on the piece, from and to, best first."""
        return tuple(self.places())


@dataclass(frozen=True, kw_only=True)
class Span(PieceLine):
    """Where a finished measurement is read on a piece, for dimension lines.

    ``path`` runs along the outline with the fabric on its left, an ``open`` one across an opening. It
    is straight or bent, an arc where it has a ``centre``. One that ``crosses_fold`` goes on to it from
    its mirror image, one ``on_left`` is that alone; one ``inside``, a hole's, is read on the fabric. A
    ``whole_edge`` has an arrow to its middle, no dimension line: its ends are plain to see.
    """

    key: str
    whole_edge: bool = False
    on_left: bool = False
    centre: tuple[float, float] | None = None
    crosses_fold: bool = False
    inside: bool = False
    open: bool = False


@dataclass(frozen=True, kw_only=True)
class Crease(PieceLine):
    """A line inside a piece to be drawn: a fold when worn, a line of increases, or a row.

    On a piece on the fold it comes twice, once on each side. One ``along_row`` runs from the fold to
    the front edge; any other from the neck out.
    """

    name: str
    folded: bool = False
    along_row: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Increase:
    """An increase by itself, on the right half of a body, in cm; one on the ``left`` is mirrored.

    It goes from the stitch it is worked into, at the foot of its ``row``, down to between the two it makes.
    """

    row: int
    foot: Vertex
    head: Vertex
    left: bool


@dataclass(frozen=True, kw_only=True)
class Piece:
    """A flat piece of fabric; ``outline`` is the right half when it is ``on_fold``.

    That half starts at the fold's lower end and goes round, counter-clockwise, to its upper end, whatever
    else of it may touch the line of the fold; one of its edges is the ``front``, two vertices long.

    ``measured`` gives the spans when they are first drawn. ``worked_cm2`` is the area its stitches make,
    where no flat outline shows that exactly; ``patterned`` is where it is worked from a chart, or a border.
    ``whole`` is how the stitches of a rectangle lie, chart or no chart; ``shaped`` gives the increases that
    are not in lines when they are first drawn. ``rows`` gives the stitches of each row as it is worked, of
    all its parts together, when they are first counted; None where they cannot be. Where parts have colours,
    ``colour`` is its name and ``hatching`` the number of its hatching where there is no ink of it;
    the body is plain, 0, and bands have their ribs. ``shades`` are the design's colours by name, each
    ``#rrggbb``.
    """

    name: str
    fabric: Fabric
    outline: Polygon
    edges: tuple[Edge, ...]
    measured: Callable[[], Iterable[Span]] = field(compare=False, repr=False)
    work: WorkArrow
    foundation_stitches: int
    quantity: int = 1
    on_fold: bool = False
    creases: tuple[Crease, ...] = ()
    worked_cm2: float | None = None
    patterned: tuple[PatternedArea, ...] = ()
    whole: PatternedArea | None = None
    shaped: Callable[[], Iterable[Increase]] = field(default=tuple, compare=False, repr=False)
    rows: Callable[[], Iterable[int]] | None = field(default=None, compare=False, repr=False)
    colour: str = ""
    hatching: int = 0
    shades: tuple[tuple[str, str], ...] = ()

    @property
    def heading(self) -> str:
        """Its name, how often it is made, and its colour: ``arm band (make 2), in moss, hatched``."""
        make = f" (make {self.quantity})" if self.quantity > 1 else ""
        return ", ".join(filter(None, (f"{self.name}{make}", self.in_colour)))

    @property
    def ribbed(self) -> bool:
        """Whether it is a ribbed band, whose ribs tell its colour from the body's: no lines cross them."""
        return self.whole is not None and self.name != "centre panel"

    @property
    def in_colour(self) -> str:
        """Its colour and how it is shown, ``in moss, hatched``; empty where it has none of its own."""
        shown = (", ribbed" if self.ribbed else ", hatched") if self.hatching else ""
        return f"in {self.colour}{shown}" if self.colour else ""

    def edge(self, name: str) -> Edge:
        """The edge of that name; `KeyError` if the piece has none."""
        for edge in self.edges:
            if edge.name == name:
                return edge
        raise KeyError(f"{self.name} has no edge {name!r}")

    @cached_property
    def spans(self) -> tuple[Span, ...]:
        """The places on the piece where its finished measurements are read."""
        return tuple(self.measured())

    @cached_property
    def increases(self) -> tuple[Increase, ...]:
        """The increases that are spread along their rows."""
        return tuple(self.shaped())

    @cached_property
    def row_stitches(self) -> tuple[int, ...] | None:
        """Stitches of each row, first to last; None where they cannot be counted."""
        return None if self.rows is None else tuple(self.rows())

    @property
    def corners(self) -> list[tuple[float, float]]:
        """The vertices of the outline in their order."""
        return [(x, y) for x, y, *_ in self.outline.exterior.coords[:-1]]

    @property
    def dotted(self) -> tuple[str, ...]:
        """The lines inside that are no folds, as a drawing names them: they are dotted there."""
        lines = (crease for crease in self.creases if not crease.folded)
        return tuple(dict.fromkeys(each.name if each.along_row else f"{each.name}s" for each in lines))

    @property
    def area_cm2(self) -> float:
        """Area of one whole piece: of its stitches where they are counted, else of its outline."""
        if self.worked_cm2 is not None:
            return self.worked_cm2
        area: float = self.outline.area
        return 2 * area if self.on_fold else area

    @property
    def mirrored(self) -> Polygon:
        """The left half of a piece on the fold, again counter-clockwise."""
        return scale(self.outline, xfact=-1, origin=(0, 0)).reverse()


@dataclass(frozen=True, slots=True, kw_only=True)
class Seam:
    """Two edges joined to each other; both ends carry ``letter`` on the drawing.

    A seam on the ``left`` is the wearer's left one: on a piece on the fold it is the mirror image of
    the edge's path that is seamed.
    """

    letter: str
    first_piece: str
    first: Edge
    second_piece: str
    second: Edge
    places: int = 1
    left: bool = False

    @property
    def names(self) -> tuple[str, str]:
        """Both sides by their piece, or by their edge where a piece is joined to itself."""
        if self.first_piece == self.second_piece:
            return self.first.name, self.second.name
        return self.first_piece, self.second_piece

    def sides(self, names: Iterable[str]) -> tuple[JoinSide, JoinSide]:
        """What meets along it, under these names."""
        one, other = names
        return JoinSide(one, self.first.counted), JoinSide(other, self.second.counted)


@dataclass(frozen=True, slots=True, kw_only=True)
class Ring:
    """A closed ribbed band and the garment edge it is worked onto.

    Full lengths are those at full stretch. The band is worked sideways: one ribbing row to each
    edge stitch, so ``band_rows`` equals ``edge_count`` when it can be made. So many of the edge's stitches
    are ``picked_up`` along row ends.
    """

    name: str
    edge_count: int
    picked_up: int = 0
    edge_cm: float
    edge_full_cm: float
    band_rows: int
    band_cm: float
    band_full_cm: float
    band_depth_cm: float

    @property
    def rest_cm(self) -> float:
        """Girth when nothing pulls: the tighter of edge and band."""
        return min(self.edge_cm, self.band_cm)

    @property
    def full_cm(self) -> float:
        """Girth at full stretch: the tighter of edge and band decides what passes."""
        return min(self.edge_full_cm, self.band_full_cm)


@dataclass(frozen=True, slots=True, kw_only=True)
class NeckStart:
    """Where yarn is joined for the neck band, at the centre back: the stitch, and how they are counted."""

    stitch: int
    counted: str


class ArmsOn(StrEnum):
    """What the arm bands are worked onto."""

    HEM = "hem"
    SIDES = "sides"


@dataclass(frozen=True, slots=True, kw_only=True)
class ArmRun:
    """The run of edge stitches or row ends of one arm band, counted inclusively from the front.

    ``first`` to ``last`` of ``edge_count`` on the wearer's right; the left run mirrors it, on the
    same edge where the bands are ``on`` the hem, on its twin where they are on the sides. ``line`` is the
    part of the run that lies on the right half, from ``last`` to ``first``, None if none of it does.
    """

    on: ArmsOn
    edge: Edge
    first: int
    last: int
    line: PieceLine | None
    middle: Vertex | None
    ring: Ring

    @property
    def path(self) -> LineString | None:
        """The line for shapely."""
        return None if self.line is None else self.line.path

    @property
    def count(self) -> int:
        """Edge stitches or row ends in one run."""
        return self.last - self.first + 1

    def mirrored(self, number: int) -> int:
        """The number on the left of what mirrors ``number`` on the right."""
        return self.edge.count - number + 1 if self.on is ArmsOn.HEM else number

    @property
    def left(self) -> tuple[int, int]:
        """Smaller and larger number of the left run's ends, counted from the same end."""
        low, high = sorted((self.mirrored(self.first), self.mirrored(self.last)))
        return low, high

    @property
    def starts(self) -> tuple[int, int]:
        """Where yarn is joined for the band on the wearer's right and left, both counted from the same end.

        With the right side facing, an edge is worked onto from right to left, as the right-handed do.
        """
        return self.last, self.left[1] if self.on is ArmsOn.HEM else self.mirrored(self.first)

    @property
    def back_count(self) -> int:
        """What is left free behind the run: between both runs of one edge, else to the edge's end.

        Negative if the runs overlap, or the run does not lie on its edge.
        """
        free_to = self.mirrored(self.last) - 1 if self.on is ArmsOn.HEM else self.edge.count
        return free_to - self.last


@dataclass(frozen=True, slots=True, kw_only=True)
class Finished:
    """One finished measurement: a stable key, the words for it, its length and its count."""

    key: str
    name: str
    length_cm: float
    count: int | None = None
    counted: Counted | None = None
    fabric: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Garment:
    """One size as flat pieces, what is joined to what, the rings, and the finished measurements.

    ``drop_cm`` is the centre-back length from neck edge to hem, ``longest_drop_cm`` the distance of the
    farthest place of the hem from the neck edge, at or behind the shoulders; ``opening_angle`` is the angle
    the flat body opens to where it widens, in radians, None where the construction has none. ``walks`` is
    empty where the arm run does not lie on its edge, or the fabric overlaps itself between them. ``girths``
    are pairs of depth below the neck edge at the centre back and girth there, panel included, with
    depths rising; between two the girth runs straight. Empty where nothing closes the sides.
    ``side_fold`` is the straight line on the body's right half along which the joined garment, laid
    flat, is folded at the wearer's side, from the neck edge out; it parts the front from the back.
    ``slot`` is None where the body leaves none out for the panel. Few fields hash it, as that is done often.
    """

    construction: str
    pieces: tuple[Piece, ...] = field(hash=False)
    seams: tuple[Seam, ...] = field(hash=False)
    neck: Ring = field(hash=False)
    neck_start: NeckStart = field(hash=False)
    arm: ArmRun = field(hash=False)
    drop_cm: float
    longest_drop_cm: float
    increases: IncreasePlan | None = field(hash=False)
    opening_angle: float | None
    walks: tuple[Walk, ...] = field(hash=False)
    finished: tuple[Finished, ...] = field(hash=False)
    girths: tuple[tuple[float, float], ...]
    side_fold: tuple[Vertex, Vertex]
    slot: Slot | None = None

    def piece(self, name: str) -> Piece:
        """The piece of that name; `KeyError` if there is none."""
        for piece in self.pieces:
            if piece.name == name:
                return piece
        raise KeyError(f"the garment has no piece {name!r}")
