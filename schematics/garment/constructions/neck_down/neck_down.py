"""Bodies worked from the neck down, arm bands on the hem: what they share, whatever their shape."""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import lru_cache
from typing import Any, ClassVar

from schematics.crochet.fabric import Fabric
from schematics.design.design import Parts, Size
from schematics.garment.amounts import ROWS, STITCHES, CountValues, Formula, Laid, Measure, Numbers, values_of
from schematics.garment.constructions.base import HemArms
from schematics.garment.constructions.body_steps import BodySteps
from schematics.garment.constructions.by_hand import HandSheet
from schematics.garment.constructions.construction import Construction
from schematics.garment.constructions.demands import TWO_CIRCLES, Demand, at_least, within_two_circles
from schematics.garment.constructions.formulas import Formulas
from schematics.garment.constructions.levers import (
    ARM_BAND_DEPTH,
    ARM_BANDS,
    BODY_AND_PANEL,
    PANEL_WIDTH,
    SHARED_NOUNS,
    Apply,
    Lever,
    Nouns,
    Purpose,
    body_repeats,
    panel_rows,
    shifted,
    with_counts,
)
from schematics.garment.constructions.neck_down.neck_down_by_hand import sector_paths, sector_shape, widest
from schematics.garment.constructions.neck_down.neck_down_formulas import BODY_ROWS, NECK, neck_down_formulas
from schematics.garment.constructions.neck_down.neck_down_garment import (
    BodyPlan,
    ending_of,
    neck_down_garment,
    rows_to_increase_on,
)
from schematics.garment.constructions.neck_down.rows_on_shape import RowsOnShape
from schematics.garment.constructions.neck_down.sector import Sector, opening_of_sector, paths_on_sector
from schematics.garment.constructions.neck_down.shape import Shape
from schematics.garment.constructions.panel_formulas import PanelCm
from schematics.garment.constructions.path_formulas import ArmPaths
from schematics.garment.constructions.starting import StartIntent, WishedFit, of_body
from schematics.garment.garment import Garment
from schematics.garment.increases import IncreasePlan
from schematics.garment.patterned_area import PatternedArea
from schematics.wearer.expr import Expr

NECK_OF_BODY = shifted(body__neck=body_repeats(1))
"""What gives a size more stitches at the neck, in whole repeats."""


def _rows(size: Size, step: int, parts: Parts) -> Size | None:
    rows = size.body.rows + step * parts.body.row_rule.repeat
    return with_counts(size, body__rows=rows, panel_rows=panel_rows(rows, parts)) if rows > 0 else None


_HALF_SPAN = "centre_back_neck_to_wrist"
_FRONT_SHARE = 0.21
_WRIST_PART = "1.15"
"""Of the whole hem, that from the front seam to the arm run; of the wrist, the arm ribbing (common practice,
no source)."""

_ROUND_THE_HEM = 0.25
"""A centimetre round the hem is soon worked: it is a small share of it."""


def hem_lever(most: int, apply: Apply) -> Lever:
    """The lever of the count by which a body widens."""
    return Lever(purpose=Purpose.WIDTH, key="body.hem", most=most, apply=apply, weight=_ROUND_THE_HEM)


def last_row_left(every: float, until: int | None, rows: int) -> int | None:
    """The row given as the last to increase on, or the last such row of those that are left."""
    if until is None or until <= rows:
        return until
    return max(rows_to_increase_on(rows, every), default=None)


class NeckDown(Construction):
    """A body worked from the neck down with arm bands on the hem.

    Its counts have ``neck``, stitches of the first row, and ``rows``. By default increases are
    spread along each increase row, so it is laid flat a ring sector. ``hem_words`` say how the stitches of
    the hem follow from its counts where they are no count of the spec.
    """

    hem_words: str = ""

    arm_counts = HemArms
    levers: tuple[Lever, ...] = (
        Lever(purpose=Purpose.NECK, key="body.neck", most=12, apply=NECK_OF_BODY),
        PANEL_WIDTH,
        Lever(
            purpose=Purpose.RING, key="arm.run", most=5, comes_off=ARM_BANDS,
            apply=shifted(arms__stitches=2, arms__from_front=-1),
        ),
        Lever(
            purpose=Purpose.LENGTH, key="body.depth", most=14, comes_off=BODY_AND_PANEL | ARM_BANDS,
            apply=_rows,
        ),
        Lever(
            purpose=Purpose.PLACE,
            key="arm.from_front",
            most=10,
            apply=shifted(arms__from_front=1),
            weight=0.5,
            comes_off=ARM_BANDS,
        ),
        ARM_BAND_DEPTH,
    )  # fmt: skip
    nouns: ClassVar[Nouns] = {
        "body.neck": ("stitch at the neck", "stitches at the neck"),
        "body.hem": ("stitch at the hem", "stitches at the hem"),
        "body.rows": ("body row", "body rows"),
        "body.increase_every": "{after} as the rows from one row with increases to the next, not {before}",
        "body.increase_until": "row {after} as the last row with increases, not row {before}",
        "arms.stitches": ("stitch in each arm run", "stitches in each arm run"),
        "arms.from_front": ("stitch before each arm run", "stitches before each arm run"),
        **SHARED_NOUNS,
    }

    longer_words = "Work on from the last row, at the hem, without increases, to row {rows}: {more} more."
    kept_words = (
        "The neck is the body's first row and the hem is as wide as its increases have made it: neither "
        "can be changed without working the body anew."
    )

    fullness: ClassVar[Mapping[str, float]] = {"slim": 3.0, "usual": 3.3, "full": 3.8}

    def start_intents(self, wished: WishedFit) -> tuple[StartIntent, ...]:
        """Depth, hem and where the arm runs are."""
        hem = self.fullness[wished.fullness]
        depth = of_body("back_waist_length", ease=wished.below_waist.yaml)
        to_run = of_body(_HALF_SPAN, part=f"{hem * _FRONT_SHARE:.2g}")
        return (
            ("body.depth", depth, "nape to waist, and on to the hem"),
            ("body.hem", of_body(_HALF_SPAN, part=f"{hem:g}"), self.fullness_words(wished.fullness)),
            ("arm.from_front", to_run, "hem between front seam and arm run"),
            ("arm_band.length", of_body("wrist_girth", part=_WRIST_PART), "round the hand, unstretched"),
        )

    @abstractmethod
    def hem(self, settings: Mapping[str, Any]) -> Expr:
        """Stitches at the hem, as a tree of the counts."""

    def demands(self, parts: Parts, settings: Mapping[str, Any]) -> tuple[Demand, ...]:
        """What the body's own counts ask of each other: no more than two full circles."""
        grown = Laid(self.hem(settings) - NECK, STITCHES, parts.body)
        opened = at_least(Laid(BODY_ROWS, ROWS, parts.body) * TWO_CIRCLES, grown)
        return (within_two_circles(opened, "fewer stitches at the hem, or more rows"),)

    def formulas(self, parts: Parts, settings: Mapping[str, Any]) -> Formulas:
        """The formulas of a body that is laid flat a ring sector."""
        fabric, hem = parts.body, Formula(self.hem(settings))

        def sector(columns: CountValues, filled: Numbers) -> tuple[Numbers, Numbers, Numbers]:
            neck_cm = fabric.length_cm(columns["body.neck"], STITCHES)
            hem_cm = fabric.length_cm(hem.at(columns), STITCHES)
            depth_cm = fabric.length_cm(columns["body.rows"], ROWS)
            return neck_cm, neck_cm + (hem_cm - neck_cm) / filled, depth_cm

        def arm_paths(columns: CountValues, filled: Numbers, share: Numbers, panel: PanelCm) -> ArmPaths:
            return paths_on_sector(*sector(columns, filled), share, panel)

        def opening(columns: CountValues, filled: Numbers) -> Numbers:
            return opening_of_sector(*sector(columns, filled))

        return neck_down_formulas(
            parts, hem.expr, self.demands(parts, settings), arm_paths, opening, hem_words=self.hem_words
        )

    def hem_stitches(self, body: Any) -> int:
        """Stitches at the hem of one body."""
        (stitches,) = _hem_work(self, self.settings_of(body))({f"body.{key}": value for key, value in body})
        return int(stitches)

    @abstractmethod
    def increases(self, body: Any) -> IncreasePlan:
        """The rows with increases."""

    def with_rows(self, body: Any, rows: int) -> Any | None:
        """The counts of the body down to that row; None where no body is left."""
        return body.model_copy(update={"rows": rows}) if rows > 0 else None

    def shape(self, body: Any, hem: int, fabric: Fabric, widens_rows: float) -> Shape:
        """The flat shape the body has if its increases, to ``hem`` stitches, fill that many of its rows."""
        neck_cm = fabric.length_cm(body.neck, STITCHES)
        grown_cm = fabric.length_cm(hem, STITCHES) - neck_cm
        depth_cm = fabric.length_cm(body.rows, ROWS)
        return Sector(neck_cm, neck_cm + grown_cm * (body.rows / widens_rows), depth_cm)

    def work(self, body: Any) -> str:
        """How the body is worked, for the drawing."""
        return "worked from the neck down"

    def build(self, size: Size, parts: Parts) -> Garment:
        """The garment of one size."""
        body, fabric, ending = size.body, parts.body, ending_of(size.body)
        hem = self.hem_stitches(body)
        shape = self.shape(body, hem, fabric, body.rows)
        plan = BodyPlan(
            shape=shape,
            neck=body.neck,
            hem=hem,
            rows=body.rows,
            increases=self.increases(body),
            work=self.work(body),
            ending=ending,
            flare=self.shape(body, hem, fabric, ending.widens_rows) if ending else None,
            borders=tuple(self._border_areas(body, parts, shape)),
        )
        return neck_down_garment(self.word, size, parts, plan, self.formulas_of(body, parts))

    def _border_areas(self, body: Any, parts: Parts, shape: Shape) -> Iterator[PatternedArea]:
        for each in self.borders_on(body, parts):
            first = each.rows[0]
            yield PatternedArea(
                name=each.name,
                fabric=each.fabric,
                stitches=each.stitches,
                rows=len(each.rows),
                first_row=first,
                place=RowsOnShape(shape=shape, stitches=each.stitches, first_row=first, rows=body.rows),
                on_right=(0, each.stitches / 2),
            )

    def body_steps(self, bodies: Sequence[Any]) -> BodySteps | None:
        """None: the rows of increases say how it is worked."""
        return None

    def rows_worked(self, body: Any) -> tuple[tuple[int, int], ...]:
        """In one part, as wide as the increases have made it by then."""
        return tuple((stitches, 1) for stitches in self.increases(body).row_stitches(body.rows))

    def shape_by_hand(self, sheet: HandSheet) -> None:
        """Opening angle, radii and area of a ring sector."""
        sector_shape(sheet)

    def girth_by_hand(self, sheet: HandSheet) -> None:
        """How far below the neck edge the body widens no more."""
        widest(sheet)

    def paths_by_hand(self, sheet: HandSheet) -> Iterator[Measure]:
        """The paths on a ring sector: straight, or round the neck."""
        return sector_paths(sheet)

    def longer(self, body: Any, arms: Any, more: int) -> tuple[Any, Any] | None:
        """Straight on below the hem, where counts can say so: the arm runs stay where they are."""
        rows = {"rows": body.rows + more}
        if "increase_until" not in type(body).model_fields:
            return body.model_copy(update=rows), arms
        until = body.increase_until or max(rows_to_increase_on(body.rows, body.increase_every), default=None)
        return body.model_copy(update={**rows, "increase_until": until}), arms

    def shorter(self, body: Any, arms: Any, fewer: int) -> tuple[Any, Any] | None:
        """With the arm runs at the same place between the front seam and the centre back of the hem."""
        shorter = self.with_rows(body, body.rows - fewer)
        if shorter is None:
            return None
        return shorter, _moved(arms, self.hem_stitches(body), self.hem_stitches(shorter))


def _moved(arms: HemArms, hem: int, new_hem: int) -> HemArms:
    free, new_free = hem - 2 * arms.stitches, new_hem - 2 * arms.stitches
    if free <= 0 or new_free < 0:
        return arms
    return arms.model_copy(update={"from_front": round(arms.from_front * new_free / free)})


@lru_cache(maxsize=64)
def _hem_work(
    construction: NeckDown, settings: tuple[tuple[str, Any], ...]
) -> Callable[[CountValues], tuple[Numbers, ...]]:
    """The stitches at the hem of bodies that share these settings, compiled."""
    return values_of([construction.hem(dict(settings))])
