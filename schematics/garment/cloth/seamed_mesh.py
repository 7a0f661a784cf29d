"""The wearer's right half of a garment as one mesh of triangles: pieces cut up, seamed, with their bands."""

from __future__ import annotations

import itertools
import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from scipy.sparse import coo_matrix
from scipy.sparse.csgraph import connected_components
from shapely import LineString

from schematics.crochet.fabric import Counted
from schematics.garment.cloth.arrays import Flags, Floats, Indices
from schematics.garment.cloth.cloth_error import ClothError
from schematics.garment.cloth.half_outline import FOLD, HalfOutline, half_outline
from schematics.garment.cloth.neck_to_hem import wider_than_drawn
from schematics.garment.cloth.triangles import hexagonal, triangles
from schematics.garment.garment import ArmsOn, Garment, Piece, Seam

BODY, PANEL, NECK_BAND, ARM_BAND = "body", "centre panel", "neck band", "arm band"
PARTS = (BODY, PANEL, NECK_BAND, ARM_BAND)

_BAND_ROWS = 2
_FEWEST_ROUND = 8
"""Points round an arm band."""

_RUN = "arm run"


@dataclass(frozen=True, slots=True, kw_only=True)
class SeamedMesh:
    """Triangles ``(t, 3)`` of welded points, of the part ``(t,)`` of `PARTS`.

    ``flat`` ``(t, 3, 2)`` are the corners on their piece, ``rest`` the same turned so that the first axis
    runs across, along the rows of stitches. ``place`` ``(n, 2)`` is where a point lies on the first piece
    that has it, ``piece`` ``(n,)`` that part. ``on_plane`` are the points on the plane of symmetry. ``lines``
    are chains of points by name; ``arm_rows`` and ``neck_rows`` those round the bands, joined edge first, of
    an arm from the back under it round over it to the front, of the neck from the front to the back.
    """

    triangles: Indices
    part: Indices
    flat: Floats
    rest: Floats
    place: Floats
    piece: Indices
    on_plane: Flags
    lines: Mapping[str, Indices]
    arm_rows: Indices
    neck_rows: Indices


class _Sheets:
    """What is gathered: points on their pieces and which of them are one."""

    def __init__(self) -> None:
        self.points: list[Floats] = []
        self.parts: list[int] = []
        self.count = 0
        self.corners: list[Indices] = []
        self.welds: list[tuple[int, int]] = []
        self.plane: list[int] = []

    def add(self, part: int, points: Floats, cut: Indices) -> Indices:
        """A sheet's points and triangles; the numbers that the points get."""
        numbers = self.count + np.arange(len(points))
        self.points.append(points)
        self.parts += [part] * len(points)
        self.count += len(points)
        self.corners.append(numbers[cut])
        return numbers

    def weld(self, one: Sequence[int] | Indices, other: Sequence[int] | Indices) -> None:
        """Make each of these the same point as its partner."""
        self.welds += zip(map(int, one), map(int, other), strict=True)


def seamed_mesh(garment: Garment, points: int) -> SeamedMesh:
    """The right half, of about so many points in body and panel.

    Raises:
        ClothError: an arm run does not lie on the right half, or seams do not run from corner to corner.
    """
    body, panel = garment.piece(BODY), garment.piece(PANEL)
    run, fold = garment.arm.path, LineString(garment.side_fold)
    if run is None or not math.isclose(run.length, _run_cm(garment), rel_tol=0.02):
        raise ClothError("an arm run does not lie on its edge")
    outlines = {
        BODY: half_outline(body, [(_RUN, run)], garment.side_fold),
        PANEL: half_outline(panel, []),
    }
    area = sum(each.polygon.area for each in outlines.values())
    spacing = math.sqrt(area / points / math.sqrt(0.75))
    segments = _segments(outlines, garment.seams, spacing)
    sheets = _Sheets()
    rims: dict[str, list[Indices]] = {}
    for name, outline in outlines.items():
        rims[name] = _add_piece(sheets, outline, segments[name], spacing, fold if name == BODY else None)
    for seam in garment.seams:
        if not seam.left:
            _sew(sheets, seam, outlines, rims)
    at_front = outlines[BODY].along("front")[-1]
    neck = [rims[PANEL][at] for at in outlines[PANEL].along("top")]
    neck += rims[BODY][at_front + 1 : -1]
    neck_rows = _add_band(sheets, garment.piece(NECK_BAND), neck, closed=False)
    sheets.plane += [int(each) for row in neck_rows for each in (row[0], row[-1])]
    runs = outlines[BODY].along(_RUN)
    arm_rows = _add_band(sheets, garment.piece(ARM_BAND), [rims[BODY][at] for at in runs], closed=True)
    below = [
        at for at in range(at_front) if at not in runs and not _is_sewn(outlines[BODY], at, garment.seams)
    ]
    hem = [*(rims[BODY][at] for at in below), *(rims[PANEL][at] for at in outlines[PANEL].along("lower"))]
    lines = {
        "hem": hem,
        "neck edge": [_chain(neck)],
        "panel seam": [_chain([rims[BODY][at_front]])],
        "neck band end": [neck_rows[-1]],
        "arm band end": [arm_rows[-1]],
    }
    return _welded(sheets, garment, lines, arm_rows, neck_rows, fold)


def _run_cm(garment: Garment) -> float:
    edge = garment.arm.edge
    return edge.path.length * (2 if edge.crosses_fold else 1) * garment.arm.count / edge.count


def _segments(
    outlines: Mapping[str, HalfOutline], seams: Sequence[Seam], spacing: float
) -> Mapping[str, list[int]]:
    """How many segments each stretch is cut into: seamed ones alike, arm runs finely."""
    counts = {
        name: [max(1, round(each.line.length / spacing)) for each in outline.stretches]
        for name, outline in outlines.items()
    }
    runs = outlines[BODY].along(_RUN)
    around = sum(outlines[BODY].stretches[at].line.length for at in runs)
    for at in runs:
        share = outlines[BODY].stretches[at].line.length / around
        counts[BODY][at] = max(counts[BODY][at], math.ceil(_FEWEST_ROUND * share))
    for seam in seams:
        if seam.left:
            continue
        pairs = [(seam.first_piece, seam.first.name), (seam.second_piece, seam.second.name)]
        sides = [(piece, outlines[piece].along(name)) for piece, name in pairs]
        if any(len(stretches) != 1 for _, stretches in sides):
            raise ClothError(f"seam {seam.letter} has a corner")
        most = max(counts[piece][at] for piece, (at,) in sides)
        for piece, (at,) in sides:
            counts[piece][at] = most
    return counts


def _add_piece(
    sheets: _Sheets, outline: HalfOutline, segments: Sequence[int], spacing: float, line: LineString | None
) -> list[Indices]:
    """The points along each of its stretches, both ends among them."""
    rim = np.concatenate([each.sampled(n) for each, n in zip(outline.stretches, segments, strict=True)])
    inside = hexagonal(outline.polygon, spacing, line)
    numbers = sheets.add(
        PARTS.index(outline.piece.name), np.concatenate([rim, inside]), triangles(rim, inside)
    )
    starts = np.concatenate([[0], np.cumsum(segments)])
    rims = [numbers[np.arange(first, last + 1) % len(rim)] for first, last in itertools.pairwise(starts)]
    for at in outline.along(FOLD):
        sheets.plane += [int(each) for each in rims[at]]
    return rims


def _sew(
    sheets: _Sheets, seam: Seam, outlines: Mapping[str, HalfOutline], rims: Mapping[str, Sequence[Indices]]
) -> None:
    """Both edges run counter-clockwise, so one meets the other backwards."""
    (first,) = outlines[seam.first_piece].along(seam.first.name)
    (second,) = outlines[seam.second_piece].along(seam.second.name)
    sheets.weld(rims[seam.first_piece][first], rims[seam.second_piece][second][::-1])


def _is_sewn(outline: HalfOutline, at: int, seams: Sequence[Seam]) -> bool:
    names = {each.name for seam in seams if not seam.left for each in (seam.first, seam.second)}
    return bool(outline.stretches[at].names & names)


def _chain(stretches: Sequence[Indices]) -> Indices:
    """One behind the other; where two meet their points are one, the later is left out."""
    return np.concatenate([stretches[0], *(each[1:] for each in stretches[1:])])


def _add_band(sheets: _Sheets, band: Piece, edges: Sequence[Indices], *, closed: bool) -> Indices:
    """A ribbing on an edge: rows of points outwards, the edge's own first; a half one is not ``closed``.

    It meets the edge by shares of its length. Its middle is at the centre front; seen with its joined edge
    down it runs the other way.
    """
    placed = np.concatenate(sheets.points)
    steps = [np.hypot(*np.diff(placed[each], axis=0).T) for each in edges]
    shares = np.concatenate([[0.0], np.cumsum(np.concatenate(steps))])
    shares /= shares[-1]
    edge = _chain(edges)
    left, low, right, high = band.outline.bounds
    start = right if closed else 0.0
    along = start + shares * (left - start)
    up = low + (high - low) * np.arange(_BAND_ROWS + 1) / _BAND_ROWS
    points = np.column_stack([np.tile(along, len(up)), np.repeat(up, len(along))])
    grid = np.arange(len(points)).reshape(len(up), len(along))
    right_low, left_low = grid[:-1, :-1].ravel(), grid[:-1, 1:].ravel()
    right_high, left_high = grid[1:, :-1].ravel(), grid[1:, 1:].ravel()
    cut = np.concatenate(
        [
            np.column_stack([left_low, right_low, right_high]),
            np.column_stack([left_low, right_high, left_high]),
        ]
    )
    numbers = sheets.add(PARTS.index(band.name), points, cut).reshape(grid.shape)
    sheets.weld(edge, numbers[0])
    if closed:
        sheets.weld(numbers[:, 0], numbers[:, -1])
    return numbers


def _welded(
    sheets: _Sheets,
    garment: Garment,
    lines: Mapping[str, Sequence[Indices]],
    arm_rows: Indices,
    neck_rows: Indices,
    fold: LineString,
) -> SeamedMesh:
    one, other = np.array(sheets.welds).T
    joined = coo_matrix((np.ones(len(one)), (one, other)), shape=(sheets.count, sheets.count))
    count, labels = connected_components(joined, directed=False)
    first = np.full(count, sheets.count)
    np.minimum.at(first, labels, np.arange(sheets.count))
    order = np.argsort(first)
    number = np.empty(count, dtype=np.int64)
    number[order] = np.arange(count)
    to = number[labels]
    points, parts = np.concatenate(sheets.points), np.array(sheets.parts)
    corners = np.concatenate(sheets.corners)
    on_plane = np.zeros(count, dtype=bool)
    on_plane[to[sheets.plane]] = True
    flat = points[corners]
    part = parts[corners[:, 0]]
    body = np.flatnonzero(parts == 0)
    near = body[shapely.distance(fold, shapely.points(points[body])) < 1e-6]
    on_fold = near[
        np.argsort(shapely.line_locate_point(fold, np.asarray(shapely.points(points[near]), object)))
    ]
    chains = {name: np.concatenate([to[each] for each in chain]) for name, chain in lines.items()}
    return SeamedMesh(
        triangles=to[corners],
        part=part,
        flat=flat,
        rest=_turned(garment, flat, part),
        place=points[first[order]],
        piece=parts[first[order]],
        on_plane=on_plane,
        lines={**chains, "side fold": to[on_fold]},
        arm_rows=to[arm_rows][:, :-1],
        neck_rows=to[neck_rows],
    )


def _turned(garment: Garment, flat: Floats, part: Indices) -> Floats:
    """Each triangle turned by the direction of the stitches that are nearest on an edge of its piece."""
    turned = np.empty_like(flat)
    for at, name in enumerate(PARTS):
        own = part == at
        edges = [each for each in garment.piece(name).edges if each.counted is Counted.STITCHES]
        path = max(edges, key=lambda each: each.path.length).path
        ends = shapely.get_coordinates(path)
        along = np.diff(ends, axis=0)
        along /= np.hypot(along[:, 0], along[:, 1])[:, None]
        segments = np.asarray(shapely.linestrings(np.stack([ends[:-1], ends[1:]], axis=1)), object)
        middle = np.asarray(shapely.points(flat[own].mean(axis=1)), object)
        nearest = shapely.distance(middle[:, None], segments[None]).argmin(axis=1)
        across = along[nearest]
        axes = np.stack([across, np.column_stack([-across[:, 1], across[:, 0]])], axis=2)
        turned[own] = flat[own] @ axes
    if garment.arm.on is ArmsOn.HEM:
        own = part == PARTS.index(BODY)
        wider = wider_than_drawn(garment.piece(BODY), flat[own].mean(axis=1))
        turned[own, :, 0] *= wider[:, None]
    return turned
