"""What a construction is: everything the program asks of a kind of body, in one object."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache
from typing import Any, ClassVar

import numpy as np
from numpy.typing import NDArray

from schematics.crochet.fabric import Fabric, Swatch
from schematics.design.border import Border, BorderEdge
from schematics.design.design import Parts, Size
from schematics.garment.amounts import CountValues, Measure
from schematics.garment.constructions.base import Counts
from schematics.garment.constructions.body_steps import BodySteps
from schematics.garment.constructions.by_hand import HandSheet
from schematics.garment.constructions.formulas import Formulas
from schematics.garment.constructions.levers import ARM_BAND_DEPTH, PANEL_WIDTH, SHARED_NOUNS, Lever, Nouns
from schematics.garment.constructions.starting import BodySetting, StartIntent, WishedFit
from schematics.garment.garment import Garment


@dataclass(frozen=True, slots=True, kw_only=True)
class BorderRows:
    """A border at one of its places: rows of the body, and the stitches of each of so many pieces there."""

    name: str
    fabric: Fabric
    rows: range
    stitches: int
    pieces: int


class Construction(ABC):
    """A kind of body, by the word that picks it in a spec.

    ``body_counts`` and ``arm_counts`` are the models of a size's ``body:`` and ``arms:`` blocks. A kind of
    body has to say its counts, its formulas, its garment and how it is worked; the rest has a default.
    """

    word: str
    summary: str
    body_counts: type[Counts]
    arm_counts: type[Counts]
    shaping: tuple[str, ...] = ()
    """Counts that say on which rows increases are made, for grading to find where that is to be regular."""

    intervals: tuple[float, ...] = (1,)
    """Rows from one row of regular increases to the next."""

    levers: tuple[Lever, ...] = (PANEL_WIDTH, ARM_BAND_DEPTH)
    """The counts that advice may change."""

    nouns: ClassVar[Nouns] = SHARED_NOUNS
    """What those counts are called."""

    settings: tuple[BodySetting, ...] = ()
    """What a new spec has to give of the body's counts, for grading does not find it."""

    fullness: ClassVar[Mapping[str, float]] = {}
    """Slim, usual and full: the widest place of the body over the wearer's back neck to wrist (common
    practice, no source). Where it is empty no spec can be started from a swatch."""

    usual_lengths: ClassVar[Mapping[str, tuple[str, str]]] = {}
    """Answers that are usual for this body and not for others, by the question: in cm and in inches."""

    rows_key: str = "body.rows"
    """The count of the rows that `shorter` leaves out."""

    longer_words: str = ""
    """How a finished body is worked on, by ``{more}`` rows to ``{rows}``."""

    kept_words: str = "The counts of the body cannot be changed without working it anew."
    """What of a finished body cannot be changed."""

    border_edges: frozenset[BorderEdge] = frozenset(BorderEdge)
    """The edges along which whole rows of the body lie, so that a border can."""

    @abstractmethod
    def build(self, size: Size, parts: Parts) -> Garment:
        """The garment of one size; raises nothing for counts that the models accept."""

    @abstractmethod
    def formulas(self, parts: Parts, settings: Mapping[str, Any]) -> Formulas:
        """A size as formulas of its counts.

        Args:
            parts: the fabrics.
            settings: what the spec gives of the body's counts; those that are asked for (`settings`) must be
                there.
        """

    @cached_property
    def count_names(self) -> Mapping[str, str]:
        """What each count of body and arms is, in words for whoever has not read a spec, by its key there."""
        return {
            f"{block}.{key}": f"{block}, {str(info.description).partition(';')[0]}"
            for block, model in (("body", self.body_counts), ("arms", self.arm_counts))
            for key, info in model.model_fields.items()
        }

    @cached_property
    def may_be_nought(self) -> frozenset[str]:
        """The counts that their models let be 0."""
        return frozenset(
            f"{block}.{key}"
            for block, model in (("body", self.body_counts), ("arms", self.arm_counts))
            for key, rule in model.model_json_schema()["properties"].items()
            if rule.get("minimum") == 0
        )

    def formulas_of(self, body: Any, parts: Parts) -> Formulas:
        """The formulas of a size whose body has these counts."""
        return _formulas(self, parts, self.settings_of(body))

    def settings_of(self, body: Any) -> tuple[tuple[str, Any], ...]:
        """What the counts of a body say besides those that grading finds."""
        return tuple((key, getattr(body, key)) for key in self._setting_keys)

    @cached_property
    def _setting_keys(self) -> tuple[str, ...]:
        return tuple(key for key in self.body_counts.model_fields if f"body.{key}" not in self.counts)

    def shapings(
        self, columns: CountValues, settings: Mapping[str, Any], every: float
    ) -> tuple[NDArray[np.int64], CountValues]:
        """What the counts of `shaping` can be for columns of the others at one interval of increases.

        Returns:
            The row of each possibility in the columns, and the possibilities as columns.

        Raises:
            NotImplementedError: such a body has no increases.
        """
        raise NotImplementedError(f"a {self.word} body has no increases to shape")

    @cached_property
    def counts(self) -> Mapping[str, str]:
        """The counts that grading finds, each with the finished measurement it is read from.

        Other keys of the count models are settings, which a spec gives.
        """
        return self._nominal.counts

    @cached_property
    def keys(self) -> tuple[str, ...]:
        """The finished measurements a spec can state an intent for."""
        return tuple(self._nominal.lengths)

    @cached_property
    def _nominal(self) -> Formulas:
        """The formulas in some fabric, for what does not depend on any."""
        fabric = Fabric(name="", stitch="", swatch=Swatch(stitches=1, rows=1, width_cm=1, height_cm=1))
        parts = Parts(body=fabric, centre_panel=fabric, neck_band=fabric, arm_bands=fabric)
        return self.formulas(parts, {each.key: int(each.usual) for each in self.settings})

    def start_intents(self, wished: WishedFit) -> tuple[StartIntent, ...]:
        """How a new design is to fit, but for panel width, neck edge and the depths of the bands."""
        return ()

    def fullness_words(self, word: str) -> str:
        """Such as ``usual; slim 3, full 3.8``, for a comment."""
        others = [f"{each} {part:g}" for each, part in self.fullness.items() if each != word]
        return f"{word}; {', '.join(others)}"

    @abstractmethod
    def body_steps(self, bodies: Sequence[Any]) -> BodySteps | None:
        """How bodies of those counts are worked, step by step; None where the rows of increases say it."""

    @abstractmethod
    def rows_worked(self, body: Any) -> tuple[tuple[int, int], ...]:
        """Stitches of each row of the body, first to last, and in how many parts they are worked."""

    def border_rows(self, body: Any, border: Border) -> Mapping[str, range]:
        """The rows of the body that a border is, from 1 in the order they are worked; some may lie beyond it.

        Where its edge comes twice, as a folded body's hem does, each place has a name; else it has none.
        """
        if border.at is BorderEdge.HEM:
            last = len(self.rows_worked(body))
            return {"": range(last - border.rows + 1, last + 1)}
        first = 1 if border.at is BorderEdge.NECK else border.at
        return {"": range(first, first + border.rows)}

    def borders_on(self, body: Any, parts: Parts) -> Iterator[BorderRows]:
        """The borders that lie on the body, at each of their places."""
        counts = self.rows_worked(body) if parts.borders else ()
        for border in parts.borders:
            for place, rows in self.border_rows(body, border).items():
                if rows[0] >= 1 and rows[-1] <= len(counts):
                    stitches, pieces = counts[rows[0] - 1]
                    yield BorderRows(
                        name=f"{border.name}, {place}" if place else border.name,
                        fabric=border.fabric(parts.body),
                        rows=rows,
                        stitches=stitches // pieces,
                        pieces=pieces,
                    )

    def shape_by_hand(self, sheet: HandSheet) -> None:
        """Put the shape's angles and radii on the sheet, and the area ``area.body``."""

    def girth_by_hand(self, sheet: HandSheet) -> None:
        """Put on the sheet where the girth of the hem is reached, as ``girth.widest``, if above the hem."""

    def paths_by_hand(self, sheet: HandSheet) -> Iterator[Measure]:
        """The paths on the fabric, as `path_measures` gives them; steps towards them go on the sheet."""
        return iter(())

    def longer(self, body: Any, arms: Any, more: int) -> tuple[Any, Any] | None:
        """Counts of a body with so many rows more and of its arms; None where that cannot be worked.

        The rows are worked on to a finished one, see `longer_words`.
        """
        return None

    def shorter(self, body: Any, arms: Any, fewer: int) -> tuple[Any, Any] | None:
        """Counts of a body with so many rows fewer and of its arms; None where that cannot be worked.

        The rows are left out at the hem, and the increases on them are not made.
        """
        return None


@lru_cache(maxsize=64)
def _formulas(construction: Construction, parts: Parts, settings: tuple[tuple[str, Any], ...]) -> Formulas:
    """The formulas, built once for all sizes and changed sizes that share them."""
    return construction.formulas(parts, dict(settings))
