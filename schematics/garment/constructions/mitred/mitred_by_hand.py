"""A mitred body by hand: trapezoids side by side, places on it measured from the nape.

A place of the right half is so far ``across`` from the centre back and so far ``down`` from the nape.
Sections and the neck corners at their front ends are numbered from the centre back, 1 first.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate, pairwise

from schematics.garment.amounts import STITCHES, Given, Laid, Measure, arc_tangent, cosine, sine, slope, total
from schematics.garment.constructions.by_hand import HandSheet
from schematics.garment.constructions.mitred.mitred_counts import GROWTH, MitredBody
from schematics.garment.constructions.neck_down.neck_down_by_hand import (
    RUN_MIDDLE,
    area,
    lean_of_panel,
    middle_of_run,
    widened_depth,
    widens_rows,
)
from schematics.garment.constructions.neck_down.neck_down_garment import ending_of
from schematics.garment.constructions.path_formulas import WorkedOut, path_measures
from schematics.garment.walks import WalkName
from schematics.wearer.expr import Expr, node

_NEAR_CM = 1e-4
"""A bend of a path and a corner of the piece this near to each other are one."""


def mitred_shape(sheet: HandSheet) -> None:
    """Lean, opening angle and area."""
    lines, widens = sheet.size.body.lines, widened_depth(sheet)
    lean = sheet.put(
        "shape.lean",
        "lean of a section's side",
        arc_tangent(Laid(GROWTH, STITCHES, sheet.parts.body) / widens),
        "what a section grows by at a line, over the depth",
        "°",
    )
    sheet.put(
        "shape.opening",
        "opening angle",
        node(2 * lines) * lean,
        f"both sides of every line, {lines} in all",
        "°",
    )
    area(sheet)


def mitred_paths(sheet: HandSheet) -> Iterator[Measure]:
    """The paths from the middle of the run to nape, centre back and panel, leg by leg."""
    if ending_of(sheet.size.body) is not None:
        sheet.put(
            "way.line",
            "increase line, if it went on to the hem",
            sheet["body.depth"] / cosine(sheet["shape.lean"]),
            "the depth, leaning as far as the body widens",
        )
    yield from path_measures(RUN_MIDDLE, _Half(sheet).paths())


@dataclass(frozen=True, slots=True)
class _Place:
    """A place on the right half of the flat piece."""

    name: str
    across: Expr
    down: Expr

    def to(self, other: _Place) -> Expr:
        return slope(self.across - other.across, self.down - other.down)


class _Half:
    """The right half; its places are written down on the sheet as they are asked for."""

    def __init__(self, sheet: HandSheet) -> None:
        body: MitredBody = sheet.size.body
        self._sheet, self._odd = sheet, body.lines % 2
        self._grows = body.increase_rows * body.rows / sheet.value(widens_rows(sheet))
        self._line = sheet["way.line" if "way.line" in sheet.steps else "body.line"]
        self._sections = body.neck_sections[(body.lines + 1) // 2 :]
        nought = Given(0, "cm")
        self._corners = [_Place("the nape", nought, nought)]

    def corner(self, number_: int) -> _Place:
        """The neck corner of that number; the nape is number 0."""
        while len(self._corners) <= number_:
            at = len(self._corners)
            before, turn = self._corners[-1], self._turn(at - 1)
            width = self._length(self._stitches(at - 1))
            across, down = width * cosine(turn), width * sine(turn)
            self._corners.append(
                self._place(
                    f"neck.{at}",
                    f"neck corner {at}",
                    across if at == 1 else before.across + across,
                    before.down - down,
                    (f"along the neck of section {at}, which is turned by ", turn),
                )
            )
        return self._corners[number_]

    def middle_of_run(self) -> _Place:
        """The place of the hem in the middle of the arm run."""
        section, stitches = self._section_of_run()
        along, turn = self._length(stitches), self._turn(section)
        source = f"from the back end of the hem of section {section + 1}, ", stitches, " along it"
        if section == 0 and not self._odd:
            return self._place("run", "middle of the arm run", along, self._sheet["body.depth"], source)
        corner, lean = self.corner(section), self._turn(section, less_lean=True)
        return self._place(
            "run",
            "middle of the arm run",
            corner.across + self._line * sine(lean) + along * cosine(turn),
            corner.down + self._line * cosine(lean) - along * sine(turn),
            ("down the increase line, which is turned by ", lean, "; ", *source),
        )

    def paths(self) -> Iterator[WorkedOut | None]:
        """From the middle of the run to nape, centre back and panel."""
        run, points = self.middle_of_run(), {name: path.points for name, path in self._sheet.paths.items()}
        through = [run, *self.bends(points[WalkName.REACH][::-1]), self.corner(0)]
        yield _along(through), _through(through[1:-1])
        back = points[WalkName.ACROSS_BACK]
        through = [run, *self.bends(back)]
        at_nape = math.hypot(*back[-1]) < _NEAR_CM
        yield None if at_nape else (_along(through, through[-1].across), _through(through[1:]))
        through = [run, *self.bends(points[WalkName.ACROSS_FRONT])]
        yield _along(through, self.to_the_panel(through[-1])), _through(through[1:])

    def bends(self, points: Sequence[tuple[float, float]]) -> list[_Place]:
        """The corners of the piece at which a path bends between its ends."""
        return [self._bend(point) for point in points[1:-1]]

    def to_the_panel(self, last: _Place) -> Expr:
        """From the last bend square to the panel's middle, which lies half its width off the front edge."""
        half = self._sheet["panel.width"] / 2
        tapers, front = "panel.top" in self._sheet.steps, self.corner(len(self._sections))
        if last == self._seam_end():
            return half
        if last == front:
            return self._sheet["panel.top"] / 2 if tapers else half
        turn = self._turn(len(self._sections) - 1)
        if tapers:
            lean, _ = lean_of_panel(self._sheet)
            off = (front.across - last.across) * cosine(turn) + (last.down - front.down) * sine(turn)
            down = (last.across - front.across) * sine(turn) + (last.down - front.down) * cosine(turn)
            return self._sheet["panel.top"] / 2 + off * cosine(lean) + down * sine(lean)
        return half + (front.across - last.across) * cosine(turn) + (last.down - front.down) * sine(turn)

    def _bend(self, point: tuple[float, float]) -> _Place:
        places = [self.corner(each) for each in range(1, len(self._sections) + 1)]

        def apart(place: _Place) -> float:
            return math.dist((self._sheet.value(place.across), -self._sheet.value(place.down)), point)

        near = min(places, key=apart)
        return near if apart(near) < _NEAR_CM else self._seam_end()

    def _seam_end(self) -> _Place:
        front, turn = self.corner(len(self._sections)), self._turn(len(self._sections) - 1)
        length = self._sheet["panel.length"]
        if "panel.top" in self._sheet.steps:
            _, length = lean_of_panel(self._sheet)
        return _Place(
            "the lower end of the seam",
            front.across + length * sine(turn),
            front.down + length * cosine(turn),
        )

    def _turn(self, section: int, *, less_lean: bool = False) -> Expr:
        """How far a section, 0 at the centre back, is turned; or the increase line at its back end."""
        leans, lean = 2 * section + self._odd - less_lean, self._sheet["shape.lean"]
        return Given(0, "°") if leans == 0 else lean if leans == 1 else node(leans) * lean

    def _stitches(self, section: int) -> Expr:
        whole = Given(self._sections[section], "sts")
        return whole / 2 if section == 0 and not self._odd else whole

    def _section_of_run(self) -> tuple[int, Expr]:
        """The section the middle of the run lies on, and how many stitches from its back end."""
        last = len(self._sections) - 1
        hems = [
            self._sheet.value(self._stitches(at)) + self._grows * ((at > 0 or self._odd) + (at < last))
            for at in range(last + 1)
        ]
        ends = list(accumulate(hems, initial=0.0))
        hem = self._sheet.size.body.hem / 2
        from_back = (hem - self._sheet.value(middle_of_run())) * (sum(hems) / hem)
        section = max(at for at in range(last + 1) if ends[at] <= from_back)
        return section, Given(from_back - ends[section], "sts")

    def _length(self, stitches: Expr) -> Expr:
        return Laid(stitches, STITCHES, self._sheet.parts.body)

    def _place(
        self, key: str, name: str, across: Expr, down: Expr, source: str | tuple[str | Expr, ...]
    ) -> _Place:
        return _Place(
            name,
            self._sheet.put(f"{key}.across", f"{name}, across from the centre back", across, source),
            self._sheet.put(f"{key}.down", f"{name}, down from the nape", down, source),
        )


def _along(places: Sequence[_Place], end: Expr | None = None) -> Expr:
    """The length of the path through the places, and on by ``end``."""
    legs = [one.to(other) for one, other in pairwise(places)]
    return total(legs if end is None else [*legs, end])


def _through(bends: Sequence[_Place]) -> str:
    return f"round {', '.join(each.name for each in bends)}" if bends else "straight"
