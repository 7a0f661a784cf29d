"""A design before its counts are all known, and what the designer says of how it should fit."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from schematics.design.design import Design, Size
from schematics.garment.constructions import CONSTRUCTIONS, Construction
from schematics.wearer.body import Body, WearerSpec

LONGEST_MEANT_CM = 300.0
"""The longest measurement that can be meant, and that is looked at where nothing is."""
DEFAULT_STEPS = 0.2
"""Weight of even stepping against closeness to the intents (common practice, no source)."""
DEFAULT_MIND = 2.0
"""Weight of a centimetre past the limit of a finding to mind (common practice, no source)."""
REGULAR, EXACT = "regular", "exact"
"""How increases are made: on every so many rows equally many, or as even a taper as whole stitches allow."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Intent:
    """How long a finished measurement should be.

    One of three: ``length_cm`` itself; ``part`` of the body's ``measure`` plus ``ease_cm``; or
    as the sample has it, in proportion to the body's ``measure`` (``like_sample``).
    """

    line: int
    length_cm: float | None = None
    measure: Body | None = None
    part: float = 1.0
    ease_cm: float = 0.0
    like_sample: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Wishes:
    """The ``grading:`` block; ``sample`` names the size whose counts the sample was made with.

    ``tolerances_cm`` are those the spec gives, by keys of finished measurements; ``increases`` is `REGULAR`
    or `EXACT`.
    """

    line: int
    intents: Mapping[str, Intent]
    sample: str | None = None
    weights: Mapping[str, float] = field(default_factory=dict)
    steps: float = DEFAULT_STEPS
    mind: float = DEFAULT_MIND
    tolerances_cm: Mapping[str, float] = field(default_factory=dict)
    increases: str = REGULAR


@dataclass(frozen=True, slots=True, kw_only=True)
class DraftSize:
    """One size as far as the spec gives it.

    ``given`` are the counts fixed by hand, by their keys such as ``body.neck``; ``settings`` is the
    rest of the construction's own keys. ``lines`` has the line in the file of each count.
    """

    name: str
    wearer: WearerSpec
    given: Mapping[str, int]
    settings: Mapping[str, Any]
    line: int
    lines: Mapping[str, int] = field(default_factory=dict)


def block_of(values: Mapping[str, Any], name: str) -> dict[str, Any]:
    """The values of a block such as ``body``, by their names in it."""
    own = f"{name}."
    return {key.removeprefix(own): value for key, value in values.items() if key.startswith(own)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """A design whose sizes may lack counts.

    ``head`` is the design without its sizes, ``content`` the file it was read from.
    """

    content: bytes = field(repr=False)
    head: Design
    sizes: tuple[DraftSize, ...]
    wishes: Wishes | None = None

    @property
    def construction(self) -> Construction:
        """The kind of body."""
        return CONSTRUCTIONS[self.head.construction]

    @property
    def counts(self) -> Mapping[str, str]:
        """The counts of a size, each with its finished measurement."""
        return self.construction.counts

    @property
    def shaping(self) -> tuple[str, ...]:
        """The counts that make increases regular, where they are to be found."""
        regular = self.wishes is not None and self.wishes.increases == REGULAR
        return self.construction.shaping if regular else ()

    def missing(self, size: DraftSize) -> tuple[str, ...]:
        """The counts the size leaves out; a body whose own counts are all by hand is shaped by hand."""
        counts = [count for count in self.counts if count not in size.given]
        if any(count.startswith("body.") for count in counts):
            counts += [count for count in self.shaping if count not in size.given]
        return tuple(counts)

    @property
    def complete(self) -> bool:
        """Whether no count is left to find."""
        return not any(self.missing(size) for size in self.sizes)

    def design(self, by_size: Sequence[Mapping[str, float]] = ()) -> Design:
        """The design with the counts found for each size; those given stay."""
        sizes = [
            self.size(each, {**counts, **each.given})
            for each, counts in zip(self.sizes, by_size or [{} for _ in self.sizes], strict=True)
        ]
        graded = tuple(each.name for each in self.sizes if self.missing(each))
        return replace(self.head, sizes=tuple(sizes), graded=graded)

    def size(self, size: DraftSize, counts: Mapping[str, float]) -> Size:
        """One size made whole.

        Raises:
            ValueError: the construction refuses the counts.
        """
        construction, values = self.construction, {**size.settings, **counts}
        return Size(
            name=size.name,
            wearer=size.wearer,
            body=construction.body_counts(**block_of(values, "body")),
            arms=construction.arm_counts(**block_of(values, "arms")),
            panel_stitches=values["panel.stitches"],
            panel_rows=values["panel.rows"],
            neck_band_stitches=values["neck_band.stitches"],
            arm_band_stitches=values["arm_bands.stitches"],
            line=size.line,
        )
