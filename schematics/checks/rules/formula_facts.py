"""What the rules know of garments, from the formulas of columns of counts."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cached_property

import numpy as np

from schematics.checks.rules.garment_numbers import padded
from schematics.design.design import Parts, Size
from schematics.garment.amounts import ROWS, CountValues, Numbers
from schematics.garment.constructions import Construction
from schematics.garment.constructions.base import counts_of
from schematics.garment.constructions.formulas import Formulas
from schematics.garment.constructions.path_formulas import ArmPaths
from schematics.garment.garment import Garment

DROPS = {"drop_cm": "drop", "longest_drop_cm": "longest_drop"}
"""The formula of each drop."""


class FormulaFacts(dict[str, Numbers]):
    """Facts of garments, as `schematics.checks.rules.garment_numbers` names them, when asked for."""

    def __init__(self, formulas: Formulas, counts: CountValues) -> None:
        super().__init__()
        self._formulas, self._counts = formulas, counts

    def __missing__(self, name: str) -> Numbers:
        return self.setdefault(name, self._fact(name))

    @cached_property
    def _paths(self) -> ArmPaths:
        return self._formulas.arm_paths(self._counts)

    @cached_property
    def _girths(self) -> Sequence[tuple[Numbers, Numbers]]:
        return self._formulas.girths(self._counts)

    def _fact(self, name: str) -> Numbers:
        formulas, counts = self._formulas, self._counts
        head, _, rest = name.partition(".")
        if head in ("neck", "arm"):
            ring = formulas.neck if head == "neck" else formulas.arm
            if rest in ("rest_cm", "full_cm"):
                middle = "" if rest == "rest_cm" else "full_"
                sides = (getattr(ring, f"{side}_{middle}cm").at(counts) for side in ("edge", "band"))
                return np.minimum(*sides)
            return getattr(ring, rest).at(counts)
        if name == "girth.closed":
            return float(bool(self._girths))
        if head == "girth":
            number, _, what = rest.partition(".")
            depth, girth = padded(self._girths)[int(number)]
            return girth if what == "girth_cm" else depth
        if name in DROPS:
            return getattr(formulas, DROPS[name]).at(counts)
        band = formulas.lengths["arm_band.depth"].at(counts)
        if name == "band_depth_cm":
            return band
        paths = self._paths
        if name == "arms.measured":
            return np.where(np.isnan(paths.reach), 0.0, 1.0)
        back, front = paths.back + 2 * band, paths.front + 2 * band
        return {
            "reach_cm": paths.reach + band,
            "spread_back_cm": back,
            "spread_front_cm": front,
            "spread_cm": np.minimum(back, front),
        }[name]


class FabricFacts(FormulaFacts):
    """Facts of a garment that is made in fabrics whose lengths are no plain numbers.

    Its counts stay what they are: lengths follow.

    Args:
        construction: of the garment.
        size: its counts.
        garment: the garment in the pattern's fabrics.
        parts: the fabrics it is made in.
        rows: the ribbing rows of the bands ``neck`` and ``arm``.
    """

    def __init__(
        self,
        construction: Construction,
        size: Size,
        garment: Garment,
        parts: Parts,
        rows: Mapping[str, Numbers],
    ) -> None:
        super().__init__(construction.formulas_of(size.body, parts), counts_of(size))
        self._garment, self._parts, self._rows = garment, parts, rows

    def _fact(self, name: str) -> Numbers:
        head, _, rest = name.partition(".")
        bands = {"neck": self._parts.neck_band, "arm": self._parts.arm_bands}
        if head in bands and rest in ("band_cm", "band_full_cm"):
            measure = bands[head].full_length_cm if rest == "band_full_cm" else bands[head].length_cm
            return measure(self._rows[head], ROWS)
        if head in bands and rest in ("rest_cm", "full_cm"):
            full = "full_" if rest == "full_cm" else ""
            return np.minimum(self[f"{head}.edge_{full}cm"], self[f"{head}.band_{full}cm"])
        if name == "arms.on_edge":
            return float(self._garment.arm.middle is not None)
        return super()._fact(name)
