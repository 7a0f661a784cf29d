"""What the rules know of changed versions of a size, many at once, without making any of them."""

from __future__ import annotations

from collections.abc import Collection, Hashable, Mapping, Sequence

import numpy as np
from numpy.typing import NDArray

from schematics.checks.rules.formula_facts import FormulaFacts
from schematics.checks.rules.sureness import GarmentColumns, chances_on
from schematics.checks.rules.varied_facts import alike, count_columns
from schematics.design.design import Parts, Size
from schematics.design.limits import Limits
from schematics.garment.amounts import Numbers
from schematics.garment.constructions import Construction
from schematics.wearer.body import Wearer


class ChangedFacts(dict[str, Numbers]):
    """Their facts by name, as `schematics.checks.rules.garment_numbers` has them, as columns when asked for.

    Args:
        construction: of the size.
        sizes: its versions.
        parts: the fabrics they are made in.
    """

    def __init__(self, construction: Construction, sizes: Sequence[Size], parts: Parts) -> None:
        super().__init__()
        self.construction, self.sizes, self.parts = construction, sizes, parts
        kinds: dict[Hashable, list[int]] = {}
        for row, size in enumerate(sizes):
            kinds.setdefault(alike(construction, size), []).append(row)
        self._groups = [
            (np.array(rows), _Alike(construction, [sizes[row] for row in rows], parts))
            for rows in kinds.values()
        ]

    def some(self, places: Sequence[int]) -> ChangedFacts:
        """The facts of the versions at these places."""
        sizes = [self.sizes[place] for place in places]
        return ChangedFacts(self.construction, sizes, self.parts)

    def __missing__(self, name: str) -> Numbers:
        return self.setdefault(name, self._gathered([group[name] for _, group in self._groups]))

    def length_cm(self, key: str) -> NDArray[np.float64]:
        """One of the finished measurements that an intent can be stated for."""
        return self._gathered([group.length_cm(key) for _, group in self._groups])

    def are_sure(
        self, wearer: Wearer, limits: Limits, codes: Collection[str]
    ) -> Mapping[str, NDArray[np.bool_]]:
        """For each rule by its code, on which versions it surely holds."""
        sure = {code: np.zeros(len(self.sizes), dtype=bool) for code in codes}
        for rows, group in self._groups:
            chances = chances_on([wearer], group.columns, self.construction, self.parts, limits)
            for code, column in sure.items():
                column[rows] = chances.is_sure(code)
        return sure

    @property
    def neck_stitches(self) -> NDArray[np.float64]:
        """The stitches of the neck edge with the panel's top, of each version."""
        return self._gathered([group.band_rows["neck"] for _, group in self._groups])

    def _gathered(self, columns: Sequence[Numbers]) -> NDArray[np.float64]:
        gathered = np.empty(len(self.sizes))
        for (rows, _), column in zip(self._groups, columns, strict=True):
            gathered[rows] = column
        return gathered


class _Alike(FormulaFacts):
    """Facts of versions whose settings are the same."""

    def __init__(self, construction: Construction, sizes: Sequence[Size], parts: Parts) -> None:
        counts, formulas = count_columns(sizes), construction.formulas_of(sizes[0].body, parts)
        super().__init__(formulas, counts)
        self.band_rows: Mapping[str, Numbers] = {
            name: np.broadcast_to(ring.edge_count.at(counts), len(sizes))
            for name, ring in (("neck", formulas.neck), ("arm", formulas.arm))
        }
        self._sizes = sizes

    @property
    def columns(self) -> GarmentColumns:
        """With what their chances are worked out from."""
        return GarmentColumns(facts=self, sizes=self._sizes, band_rows=self.band_rows)

    def length_cm(self, key: str) -> Numbers:
        """A finished measurement."""
        return self._formulas.lengths[key].at(self._counts)
