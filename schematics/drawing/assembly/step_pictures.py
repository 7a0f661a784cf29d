"""How a poncho goes together, as pictures: one idea each, in the order of the pattern."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from itertools import chain, groupby

from shapely import MultiPolygon

from schematics.checks.evaluation import Result
from schematics.design.publication import SeamSides, SeamStyle
from schematics.document.chart_words.in_sizes import in_sizes
from schematics.document.lettering.text import Font
from schematics.drawing.assembly.front_pictures import LOWERED, lay_picture, seam_picture
from schematics.drawing.assembly.held_picture import held_picture
from schematics.drawing.assembly.neck_picture import neck_picture
from schematics.drawing.assembly.open_front import OpenFront, open_front
from schematics.drawing.assembly.open_side import OpenSide, open_side
from schematics.drawing.assembly.side_pictures import arm_picture, marks_picture
from schematics.drawing.assembly.step_canvas import (
    CAPTION_LINES,
    FABRIC_HEIGHT,
    FABRIC_WIDTH,
    Canvas,
    caption_lines,
)
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
    """A picture to be drawn: its part, its caption, a description for who does not see it.

    It is drawn on a canvas at the scale of most, or on one of its own in that font.
    """

    part: str
    phrase: str
    description: str
    draw: Callable[[Canvas], Canvas]


def step_pictures(
    results: Sequence[Result], seam: SeamStyle | None = None, font: Font | None = None
) -> tuple[StepPicture, ...]:
    """The pictures for all sizes, in the shape of the middle one, with the numbers of each.

    How the edges are held is shown where the ``seam`` is worked with a hook and says how the pieces lie.

    All steps are numbered; one whose fabric would lie over itself has no picture. Captions of one part are
    level. Words are in the ``font``, None for the program's own.
    """
    drawn = list(enumerate(_drawn(results, seam, font), start=1))
    pictures = []
    for part, row in groupby(drawn, key=lambda each: each[1][0].part):
        steps = [(number, step, canvas) for number, (step, canvas) in row]
        under = max(canvas.height for _, _, canvas in steps)
        lines = (len(caption_lines(number, step.phrase, font)) for number, step, _ in steps)
        rows = max(CAPTION_LINES, *lines)
        for number, step, canvas in steps:
            canvas.add_caption(number, step.phrase, under, rows)
            sheet = canvas.sheet(f"Step {number}: {step.phrase}", step.description)
            pictures.append(StepPicture(part=part, sheet=sheet))
    return tuple(pictures)


def plain_steps(
    results: Sequence[Result], seam: SeamStyle | None = None, font: Font | None = None
) -> Iterator[Sheet]:
    """The same without numbers and captions, which are in their titles, each as high as it is."""
    for step, canvas in _drawn(results, seam, font):
        yield canvas.sheet(step.phrase, step.description)


def count_steps(results: Sequence[Result], seam: SeamStyle | None = None) -> int:
    """How many pictures `step_pictures` draws; none of them is drawn."""
    return sum(1 for _ in _steps(results, seam)[0])


def _drawn(
    results: Sequence[Result], seam: SeamStyle | None, font: Font | None
) -> Iterator[tuple[_Step, Canvas]]:
    """Every step with its picture."""
    steps, view = _steps(results, seam)
    for step in steps:
        canvas = step.draw(Canvas(view, font))
        canvas.finish()
        yield step, canvas


def _steps(results: Sequence[Result], seam: SeamStyle | None) -> tuple[Iterator[_Step], View]:
    """The steps of all sizes, and the scale of all pictures but the neck's."""
    garments = [result.garment for result in results]
    shown = garments[len(garments) // 2]
    front = open_front(shown)
    worn = [open_side(shown, left=left, neck_up=True) for left in (False, True)]
    held = [open_side(shown, left=left, neck_up=False) for left in (False, True)]
    steps = (
        _front_seams(front, shown, seam) if front else (),
        _sides(worn, held, garments, shown),
        _side_seams(front, shown) if front else (),
    )
    return chain.from_iterable(steps), _view(front, (*worn, *held), shown)


def _front_seams(front: OpenFront, shown: Garment, seam: SeamStyle | None) -> Iterator[_Step]:
    yield _Step(
        SEAMS,
        "Lay the panel in the opening.",
        "The body seen from the front, folded at the sides, its right side out. In the opening between its "
        "front edges the wrong side of the back is seen. An arrow shows the centre panel moved up into it, "
        "its last row to the neck.",
        partial(lay_picture, front, shown),
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
            _seam(front, shown, letter, sewn, banded=False),
        )


def _seam(
    front: OpenFront, shown: Garment, letter: str, sewn: Sequence[str], *, banded: bool
) -> Callable[[Canvas], Canvas]:
    return lambda canvas: seam_picture(front, shown, canvas, letter, sewn, banded=banded)


def _sides(
    worn: Sequence[OpenSide | None],
    held: Sequence[OpenSide | None],
    garments: Sequence[Garment],
    shown: Garment,
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
                _marks(side, shown, counted, (front, back)),
            )
    yield _Step(
        NECK,
        "Neck band, from the centre back round.",
        "The neck seen from above, the front below. A triangle at the centre back shows where yarn is "
        "joined, an arrow points towards the wearer's left. The band goes round the neck edge and the top of "
        "the panel.",
        lambda canvas: neck_picture(shown, canvas.font),
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
                _arm(side, shown),
            )


def _side_seams(front: OpenFront, shown: Garment) -> Iterator[_Step]:
    sewn = [letter for letter in front.seams if letter in "AB"]
    for letter in sorted(set(front.seams) - set(sewn)):
        whose = "right" if letter == "C" else "left"
        yield _Step(
            SIDES,
            f"Seam {letter}, from hem to arm band.",
            f"The front, folded at the shoulders. Seam {letter} joins front and back on the wearer's "
            f"{whose}. A triangle at the hem shows where yarn is joined, an arrow points up to the arm band.",
            _seam(front, shown, letter, tuple(sewn), banded=True),
        )
        sewn.append(letter)


def _marks(
    side: OpenSide, shown: Garment, counted: str, numbers: tuple[str, str]
) -> Callable[[Canvas], Canvas]:
    return lambda canvas: marks_picture(side, shown, canvas, counted, numbers, _letter(side))


def _arm(side: OpenSide, shown: Garment) -> Callable[[Canvas], Canvas]:
    return lambda canvas: arm_picture(side, shown, canvas, _letter(side))


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
