"""The flat shape of a folded body: where its edges run, what is read on them, the paths across it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import partial

from schematics.crochet.fabric import Fabric
from schematics.garment.constructions.base import ROWS, STITCHES, half_panel, polygon, walks_on
from schematics.garment.constructions.folded.folded_counts import FoldedArms, FoldedBody
from schematics.garment.garment import Piece, Span, Vertex
from schematics.garment.walks import Walk


@dataclass(frozen=True, slots=True, kw_only=True)
class FoldedShape:
    """The lengths of a folded body in cm; widths are from the fold, at centre back, to the side.

    The shoulder fold is y = 0, the back below it, the front above: outside up, worked upwards.
    ``opening`` is the length of the arm opening on either side of the shoulder fold.
    """

    side: float
    front: float
    back: float
    neck: float
    neck_front: float
    neck_back: float
    slot: float
    opening: float

    @classmethod
    def of(cls, counts: FoldedBody, arms: FoldedArms, fabric: Fabric) -> FoldedShape:
        """The shape these counts make in this fabric."""
        return cls(
            side=fabric.length_cm(counts.width / 2, STITCHES),
            front=fabric.length_cm(counts.front_rows, ROWS),
            back=fabric.length_cm(counts.back_rows, ROWS),
            neck=fabric.length_cm(counts.neck / 2, STITCHES),
            neck_front=fabric.length_cm(counts.neck_front_rows, ROWS),
            neck_back=fabric.length_cm(counts.neck_back_rows, ROWS),
            slot=fabric.length_cm(counts.slot / 2, STITCHES),
            opening=fabric.length_cm(arms.rows / 2, ROWS),
        )

    @property
    def opening_fits(self) -> bool:
        """Whether the arm opening lies on the side edge."""
        return self.opening <= min(self.front, self.back)

    @property
    def side_path(self) -> list[Vertex]:
        """The side edge from back hem to front hem, with a vertex at fold and opening."""
        ends = {-self.back, *(y for y in (-self.opening, 0.0, self.opening) if -self.back < y < self.front)}
        return [(self.side, y) for y in (*sorted(ends), self.front)]

    @property
    def neck_path(self) -> list[Vertex]:
        """The neck edge on this half from the slot to centre back."""
        corners = [(self.neck, self.neck_front), (self.neck, -self.neck_back), (0.0, -self.neck_back)]
        return corners if self.slot == self.neck else [(self.slot, self.neck_front), *corners]

    @property
    def half(self) -> list[Vertex]:
        """Vertices of the right half, counter-clockwise from the back hem at the fold."""
        return [(0.0, -self.back), *self.side_path, (self.slot, self.front), *self.neck_path]

    def spans(self) -> tuple[Span, ...]:
        """What is read on the outline; how long the slot is follows from the front and its neck."""
        side, neck, opening = self.side, self.neck, self.opening
        across, on_fabric = partial(Span, crosses_fold=True), partial(Span, inside=True)
        fold, front, back = (neck, 0.0), (neck, self.neck_front), (neck, -self.neck_back)
        spans = (
            Span(key="arm.opening", vertices=((side, -opening), (side, opening))),
            Span(key="body.back", vertices=((side, -self.back), (side, 0))),
            Span(key="body.front", vertices=((side, 0), (side, self.front))),
            across(key="body.width", vertices=((0, -self.back), (side, -self.back))),
            across(key="body.slot", vertices=((self.slot, self.front), (0, self.front)), open=True),
            on_fabric(key="body.neck_width", vertices=(back, (0, -self.neck_back)), crosses_fold=True),
            on_fabric(key="body.neck_front", vertices=(front, fold)),
            on_fabric(key="body.neck_back", vertices=(fold, back), on_left=True),
        )
        left_out = {"arm.opening": not self.opening_fits, "body.neck_back": not self.neck_back}
        return tuple(each for each in spans if not left_out.get(each.key))

    def walks(self, panel: Piece) -> tuple[Walk, ...]:
        """The three walks on the half body, across the front with half the panel in the slot."""
        half, middle = self.half, (self.side, 0.0)
        top, foot, end = half_panel(panel, (self.slot, self.neck_front), (0.0, 1.0), (-1.0, 0.0))
        seam_end = [] if math.isclose(end[1], self.front) else [end]
        to_hem = len(half) - len(self.neck_path)
        back = polygon(half)
        front = polygon([*half[:to_hem], *seam_end, foot, top, *half[to_hem:]])
        fold = (0.0, -self.neck_back), (0.0, -self.back)
        return walks_on(back, front, middle, fold, (top, foot))
