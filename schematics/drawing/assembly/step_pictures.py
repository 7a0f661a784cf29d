"""How a poncho goes together, as pictures: one idea each, in the order of the pattern."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial

from shapely import MultiPolygon

from schematics.checks.evaluation import Result
from schematics.design.publication import SeamSides, SeamStyle
from schematics.document.chart_words.in_sizes import in_sizes
from schematics.drawing.assembly.front_pictures import LOWERED, lay_picture, seam_picture
from schematics.drawing.assembly.held_picture import held_picture
from schematics.drawing.assembly.neck_picture import neck_picture
from schematics.drawing.assembly.open_front import OpenFront, open_front
from schematics.drawing.assembly.open_side import OpenSide, open_side
from schematics.drawing.assembly.side_pictures import arm_picture, marks_picture
from schematics.drawing.assembly.step_canvas import FABRIC_HEIGHT, FABRIC_WIDTH, Canvas
from schematics.drawing.assembly.steps import TRIANGLE_TOLD
from schematics.drawing.ink.sheet import Sheet
from schematics.drawing.pieces.view import View
from schematics.garment.garment import ArmRun, ArmsOn, Garment

SEAMS, MARKERS, NECK, ARMS, SIDES = "seams", "markers", "neck_band", "arm_bands", "side_seams"
"""The parts of the written pattern that the pictures go with, in its order."""


STEP_KEY = (
    "In the pictures the right side of the fabric is plain, its wrong side hatched. "
    f"{TRIANGLE_TOLD}, a ring is a marker; what is seamed is dashed, what is folded has dashes and dots."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class StepPicture:
    """A picture of the written pattern's part of that key, without frame or title block."""

    part: str
    sheet: Sheet


@dataclass(frozen=True, slots=True)
class _Step:
    """A picture to be drawn: its part, its caption, a description for who does not see it."""

    part: str
    phrase: str
    description: str
    draw: Callable[[], Canvas]


def step_pictures(results: Sequence[Result], seam: SeamStyle | None = None) -> tuple[StepPicture, ...]:
    """The pictures for all sizes, in the shape of the middle one, with the numbers of each.

    How the edges are held is shown where the ``seam`` is worked with a hook and says how the pieces lie.

    All steps are numbered; one whose fabric would lie over itself has no picture.
    """
    garments = [result.garment for result in results]
    shown = garments[len(garments) // 2]
    return tuple(
        StepPicture(part=step.part, sheet=step.draw().finished(number, step.phrase, step.description))
        for number, step in enumerate(_steps(garments, shown, seam), start=1)
    )


def count_steps(results: Sequence[Result], seam: SeamStyle | None = None) -> int:
    """How many pictures `step_pictures` draws; none of them is drawn."""
    garments = [result.garment for result in results]
    return sum(1 for _ in _steps(garments, garments[len(garments) // 2], seam))


def _steps(garments: Sequence[Garment], shown: Garment, seam: SeamStyle | None) -> Iterator[_Step]:
    front = open_front(shown)
    worn = [open_side(shown, left=left, neck_up=True) for left in (False, True)]
    held = [open_side(shown, left=left, neck_up=False) for left in (False, True)]
    view = _view(front, (*worn, *held), shown)
    if front:
        yield from _front_seams(front, shown, view, seam)
    yield from _sides(worn, held, garments, shown, view)
    if front:
        yield from _side_seams(front, shown, view)


def _front_seams(front: OpenFront, shown: Garment, view: View, seam: SeamStyle | None) -> Iterator[_Step]:
    yield _Step(
        SEAMS,
        "Lay the panel in the opening.",
        "The body seen from the front, folded at the sides, its right side out. In the opening between its "
        "front edges the wrong side of the back is seen. An arrow shows the centre panel moved up into it, "
        "its last row to the neck.",
        lambda: lay_picture(front, shown, view),
    )
    if seam and seam.stitch.hooked and (sides := seam.sides) in (SeamSides.RIGHT, SeamSides.WRONG):
        near, far = ("wrong", "right") if sides is SeamSides.RIGHT else ("right", "wrong")
        yield _Step(
            SEAMS,
            f"For each seam hold {sides.value}.",
            f"Two edges on top of each other, {sides.value}, the seam along the top, the hem at the right. "
            f"The {near} side of the nearer layer faces you; where it ends the {far} side of the other is "
            "seen. A triangle at the hem shows where yarn is joined, an arrow points left to the neck.",
            partial(held_picture, sides),
        )
    for letter, whose, sewn in (("A", "right", ()), ("B", "left", ("A",))):
        yield _Step(
            SEAMS,
            f"Seam {letter}, from hem to neck.",
            f"The front again. Seam {letter} joins the panel to the front edge on the wearer's {whose}, on "
            f"the viewer's {'left' if whose == 'right' else 'right'}. A triangle at the hem shows where yarn "
            "is joined, an arrow points up to the neck.",
            _seam(front, shown, view, letter, sewn, banded=False),
        )


def _seam(
    front: OpenFront, shown: Garment, view: View, letter: str, sewn: Sequence[str], *, banded: bool
) -> Callable[[], Canvas]:
    return lambda: seam_picture(front, shown, view, letter, sewn, banded=banded)


def _sides(
    worn: Sequence[OpenSide | None],
    held: Sequence[OpenSide | None],
    garments: Sequence[Garment],
    shown: Garment,
    view: View,
) -> Iterator[_Step]:
    arms = [garment.arm for garment in garments]
    counted = "st" if arms[0].on is ArmsOn.HEM else "row end"
    for side in worn:
        if side:
            front, back = (_numbers(arms, at, left=side.left) for at in ("first", "last"))
            yield _Step(
                MARKERS,
                f"Markers on the wearer's {_whose(side)}.",
                f"The poncho folded down the centre front and the centre back, seen from the wearer's "
                f"{_whose(side)}. Two markers on the {arms[0].edge.name}: {counted} {front} in front, "
                f"{counted} {back} at the back. An arrow shows which way they are counted.",
                _marks(side, shown, view, counted, (front, back)),
            )
    yield _Step(
        NECK,
        "Neck band, from the centre back round.",
        "The neck seen from above, the front below. A triangle at the centre back shows where yarn is "
        "joined, an arrow points towards the wearer's left. The band goes round the neck edge and the top of "
        "the panel.",
        lambda: neck_picture(shown),
    )
    for side in held:
        if side:
            number = in_sizes([arm.starts[side.left] for arm in arms])
            start = "front" if side.left else "back"
            yield _Step(
                ARMS,
                f"Arm band on the wearer's {_whose(side)}.",
                f"The poncho folded down the centre front and the centre back, the {arms[0].edge.name} on "
                f"top, seen from the wearer's {_whose(side)}. A triangle at the marker at the {start}, "
                f"{counted} {number}, shows where yarn is joined, an arrow points left to the other marker. "
                "The band stands on the edge between them.",
                _arm(side, shown, view),
            )


def _side_seams(front: OpenFront, shown: Garment, view: View) -> Iterator[_Step]:
    sewn = [letter for letter in front.seams if letter in "AB"]
    for letter in sorted(set(front.seams) - set(sewn)):
        whose = "right" if letter == "C" else "left"
        yield _Step(
            SIDES,
            f"Seam {letter}, from hem to arm band.",
            f"The front, folded at the shoulders. Seam {letter} joins front and back on the wearer's "
            f"{whose}. A triangle at the hem shows where yarn is joined, an arrow points up to the arm band.",
            _seam(front, shown, view, letter, tuple(sewn), banded=True),
        )
        sewn.append(letter)


def _marks(
    side: OpenSide, shown: Garment, view: View, counted: str, numbers: tuple[str, str]
) -> Callable[[], Canvas]:
    return lambda: marks_picture(side, shown, view, counted, numbers, _letter(side))


def _arm(side: OpenSide, shown: Garment, view: View) -> Callable[[], Canvas]:
    return lambda: arm_picture(side, shown, view, _letter(side))


def _letter(side: OpenSide) -> str:
    return "B" if side.left else "A"


def _whose(side: OpenSide) -> str:
    return "left" if side.left else "right"


def _numbers(arms: Sequence[ArmRun], end: str, *, left: bool) -> str:
    """The number of one end of the run in all sizes: the ``first`` is in front, the ``last`` at the back."""
    own = [arm.first if end == "first" else arm.last for arm in arms]
    return in_sizes([arm.mirrored(number) if left else number for arm, number in zip(arms, own, strict=True)])


def _view(front: OpenFront | None, sides: Sequence[OpenSide | None], shown: Garment) -> View:
    """One scale for all pictures but the neck's, at which each has room."""
    boxes = []
    if front:
        x0, y0, x1, y1 = MultiPolygon(front.shapes).bounds
        high = front.panel.bounds[3] - front.panel.bounds[1]
        bands = 2 * shown.arm.ring.band_depth_cm if len(shown.seams) > 2 else 0.0
        boxes += [(x1 - x0 + bands, y1 - min(y0, -high * (1 + LOWERED)))]
    for side in sides:
        if side:
            shapes = [side.body, side.arm_band.shape, *([side.panel] if side.panel else [])]
            x0, y0, x1, y1 = MultiPolygon(shapes).bounds
            boxes.append((x1 - x0, y1 - y0))
    mm = min((min(FABRIC_WIDTH / wide, FABRIC_HEIGHT / high) for wide, high in boxes), default=1.0)
    return View(scale=10 / mm)
