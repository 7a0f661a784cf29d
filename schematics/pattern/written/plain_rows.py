"""Rows in one stitch, as a pattern words them; a stitch that is none of the trade is called by its name."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from schematics.checks.wording import ordinal, sentence_case
from schematics.crochet.fabric import Fabric
from schematics.crochet.plain_stitch import PlainStitch, plain_stitch
from schematics.design.guessed import marked
from schematics.document.chart_words.in_sizes import in_sizes
from schematics.document.document import Row

INC = "inc"


def fastened_off(last: Sequence[int]) -> str:
    """How a piece ends whose last row is that in each size."""
    return f"Fasten off at the end of Row {in_sizes(last)} instead of turning."


@dataclass(frozen=True, slots=True)
class PlainRows:
    """The words for rows of a fabric; no row counts its turning chain."""

    fabric: Fabric

    @property
    def even(self) -> str:
        """A row of as many stitches as the row below."""
        return self.row(self.across("to end"))

    @property
    def first(self) -> str:
        """The row into the foundation chain."""
        name = self._plain.short if self._plain else self.fabric.stitch
        return self.into_chain(name)

    def into_chain(self, stitch: str) -> str:
        """A row of that stitch into the foundation chain."""
        return f"{sentence_case(stitch)} in {self.first_chain} and in each ch to end, turn."

    @property
    def first_chain(self) -> str:
        """The chain that the first stitch of a row along a chain goes into."""
        return f"{ordinal(self.fabric.turning_chains + 1)} ch from hook"

    @property
    def name(self) -> str:
        """The stitch as a maker reads it: ``hdc``, ``sc blo``, ``moss stitch``."""
        return self._plain.text if self._plain else self.fabric.stitch

    @property
    def increase(self) -> str:
        """What an increase is."""
        return f"{INC} (increase): {f'2 {self.name}' if self._plain else '2 sts'} in one st"

    @property
    def turning(self) -> str:
        """What begins a row, if anything does, and that it is no stitch; empty where nothing does."""
        if not self.fabric.turning_chains:
            return ""
        chains = marked(f"Ch {self.fabric.turning_chains}", guess=self.fabric.turning_chains_guessed)
        return f"{chains} at the beginning of a row does not count as a st."

    def foundation(self, stitches: Sequence[int]) -> Row:
        """The chain for a first row of so many stitches in each size."""
        return Row("Foundation", f"Ch {in_sizes([self.fabric.foundation_chain(each) for each in stitches])}.")

    def across(self, end: str) -> str:
        """``hdc in each st to end``."""
        return f"{self.name} in each st {end}" if self._plain else f"{self.name} {end}"

    def counted(self, count: str) -> str:
        """``4 (4, 5) hdc``."""
        return f"{count} {self.name}" if self._plain else f"{count} {'st' if count == '1' else 'sts'}"

    def row(self, work: str, *, turn: bool = True) -> str:
        """A row of this work, from its turning chain to its turn."""
        chains = self.fabric.turning_chains
        begun = f"ch {chains}, {work}" if chains else work
        return sentence_case(f"{begun}, turn." if turn else f"{begun}.")

    @property
    def _plain(self) -> PlainStitch | None:
        return plain_stitch(self.fabric.stitch)
