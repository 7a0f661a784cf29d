"""What a written pattern says besides its figures: who made it, for whom, how it is sewn up and cared for."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum

from schematics.units import Unit


class Level(StrEnum):
    """How hard a design is to make: the Craft Yarn Council's four project levels.

    As a technical editor's page has them (fiatfiberarts.com, "Proper Project Level Definitions", 2018).
    """

    BASIC = "basic"
    EASY = "easy"
    INTERMEDIATE = "intermediate"
    COMPLEX = "complex"

    @property
    def taught(self) -> bool:
        """Whether it may be the maker's first, which explains how basic stitches are worked."""
        return self in (Level.BASIC, Level.EASY)


class SeamStitch(StrEnum):
    """How two edges are joined; the value is the word in a spec and in the pattern, in US terms."""

    SLIP = "slip stitch"
    SINGLE = "single crochet"
    MATTRESS = "mattress stitch"
    WHIP = "whip stitch"

    @property
    def hooked(self) -> bool:
        """Whether it is worked with a hook, not with a needle."""
        return self in (SeamStitch.SLIP, SeamStitch.SINGLE)

    @property
    def how(self) -> str:
        """How a seam is sewn with a needle; empty where a hook is used (common practice, no source)."""
        return _SEWN.get(self, "")


_SEWN = {
    SeamStitch.MATTRESS: (
        "take the needle under a strand at the edge of one piece, then under one at the edge of the other, "
        "back and forth, and draw the yarn up every few stitches until the edges meet"
    ),
    SeamStitch.WHIP: (
        "take the needle through both edges from back to front, bring it over them to the back, and go on"
    ),
}


class SeamSides(StrEnum):
    """How the two pieces lie for a seam; the value is the word in a spec and in the pattern."""

    RIGHT = "right sides together"
    WRONG = "wrong sides together"
    EDGES = "edge to edge, right sides up"


@dataclass(frozen=True, slots=True, kw_only=True)
class SeamStyle:
    """How the panel is joined to the body; None where the spec does not say how the pieces lie."""

    stitch: SeamStitch
    sides: SeamSides | None = None


class PhotoPlace(StrEnum):
    """The part of the pattern that a photo is in; the value is the word in a spec."""

    COVER = "cover"
    BODY = "body"
    PANEL = "panel"
    SEAMS = "seams"
    BANDS = "bands"
    FINISHING = "finishing"


@dataclass(frozen=True, slots=True, kw_only=True)
class PhotoRoom:
    """Room for a photo: where, what it ``shows`` (its alternative text), and its file beside the spec.

    Without a ``file`` the room is left empty, for the photo to be put in later.
    """

    at: PhotoPlace
    shows: str
    file: str | None = None


class LineWeight(StrEnum):
    """How wide the lines of drawings are; the value is the word in a spec."""

    FINE = "fine"
    MEDIUM = "medium"
    BOLD = "bold"


class DrawnUnits(StrEnum):
    """In which units drawings give lengths; the value is the word in a spec."""

    BOTH = "both"
    CM = "cm"
    IN = "in"


class DrawnFigures(StrEnum):
    """Whether drawings give figures, or letters with a table; the value is the word in a spec."""

    FIGURES = "figures"
    LETTERS = "letters"


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnStyle:
    """How the drawings look that a designer places into her own pages."""

    units: DrawnUnits = DrawnUnits.BOTH
    counts: bool = True
    measured_by: DrawnFigures = DrawnFigures.FIGURES
    lines: LineWeight = LineWeight.MEDIUM


@dataclass(frozen=True, slots=True, kw_only=True)
class House:
    """How a designer's patterns look: None is the program's own look.

    ``accent`` is the colour of headings as ``#rrggbb``, dark enough to read on white. ``font`` (of the text)
    and ``lettering`` (of title and headings) are fonts: a file beside the spec, ``.ttf`` or ``.otf``, or a
    family. ``logo`` is a file beside the spec. ``units_first`` is the unit printed before the other, where it
    is not the spec's own. ``drawings`` are those to be placed anywhere.
    """

    accent: str | None = None
    font: str | None = None
    lettering: str | None = None
    logo: str | None = None
    units_first: Unit | None = None
    drawings: DrawnStyle = field(default_factory=DrawnStyle)


@dataclass(frozen=True, slots=True, kw_only=True)
class Publication:
    """The ``pattern:`` block of a spec; None or empty where the spec does not say.

    ``copyright`` is a whole line, as it is to be printed; ``notions``, ``care`` and ``notes`` are a line
    each, in the designer's own words.
    """

    designer: str | None = None
    copyright: str | None = None
    level: Level | None = None
    seam: SeamStyle | None = None
    notions: tuple[str, ...] = ()
    care: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    photos: tuple[PhotoRoom, ...] = ()
    house: House = field(default_factory=House)
